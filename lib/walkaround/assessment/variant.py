"""A student's own numbers: drawn from a hash of course, student and exercise, the same on every machine for ever.

A hash and not a library's random stream, because such a stream may change between versions and a term's marks must not.
Source of the hash: NIST FIPS 180-4, SHA-256.
"""

import hashlib
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

Thing = TypeVar("Thing")
LONGEST_NAME = 1000  # characters


def same_name(name: str) -> str:
    """Return a name as it is compared: one space between words, no difference of case or of Unicode form.

    >>> same_name("  Ines   OKAFOR ")
    'ines okafor'
    """
    # Normalising takes time that grows with the square of the length; nothing so long is a name.
    plain = unicodedata.normalize("NFKC", name) if len(name) <= LONGEST_NAME else name
    return " ".join(plain.casefold().split())


@dataclass(frozen=True)
class Variant:
    """The draws of one student in one exercise; each draw has a label, so that a new question changes no other draw.

    `key` is the course's secret for this student, empty at home. `attempt` counts up when the numbers drawn make a
    question unclear. `practice` names a round of practice, empty for the paper that counts.

    >>> v = Variant("home", "Ines Okafor", "loading")
    >>> v.number("bag", 20, 60, 5) == Variant("home", "ines okafor", "loading").number("bag", 20, 60, 5)
    True
    """

    course: str
    student: str
    exercise: str
    key: str = ""
    attempt: int = 0
    practice: str = ""

    @cached_property
    def _common(self) -> str:
        """What goes into the hash of every draw."""
        parts = [self.course, same_name(self.student), self.exercise, self.key, str(self.attempt)]
        return "".join(map(_with_length, parts + [self.practice] * bool(self.practice)))

    def _hash(self, label: str) -> int:
        digest = hashlib.sha256((self._common + _with_length(label)).encode("utf-8")).digest()
        return int.from_bytes(digest[:8], "big")

    def number(self, label: str, low: float, high: float, step: float = 1) -> float:
        """Draw a number from `low` to `high` in whole steps, both ends included.

        >>> Variant("home", "Ines Okafor", "loading").number("bag", 20, 60, 5)
        20
        """
        count = round((high - low) / step) + 1
        return round(low + step * (self._hash(label) % count), 10)

    def pick(self, label: str, options: Sequence[Thing]) -> Thing:
        """Draw one of the options.

        >>> Variant("home", "Ines Okafor", "loading").pick("who", ("a", "b", "c"))
        'a'
        """
        return options[self._hash(label) % len(options)]

    def shuffled(self, label: str, options: Iterable[Thing]) -> list[Thing]:
        """Return the options in an order of this student's own.

        >>> Variant("home", "Ines Okafor", "loading").shuffled("s", "abcd")
        ['d', 'b', 'a', 'c']
        """
        return sorted(options, key=lambda option: self._hash(f"{label}/{option}"))


def _with_length(part: str) -> str:
    # The length goes in too, so that no two lists of parts make the same text.
    return f"{len(part)}:{part}"
