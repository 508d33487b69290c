"""A student's own numbers: drawn from a hash of course, student and exercise, the same on every machine for ever.

A hash and not a library's random stream, because such streams may change between versions and a term's
marks must not. Source of the hash: NIST FIPS 180-4, SHA-256.
"""

import hashlib
import unicodedata
from dataclasses import dataclass
from functools import cached_property, lru_cache


def same_name(name):
    """Return a name as it is compared: one space between words, no difference of case or of Unicode form.

    >>> same_name("  Ines   OKAFOR ")
    'ines okafor'
    """
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())


@dataclass(frozen=True)
class Variant:
    """The draws of one student in one exercise; each draw has a label, so that a new question changes no other draw.

    `key` is the course's secret for this student, empty at home. `attempt` counts up when the numbers drawn make a
    question unclear.

    >>> v = Variant("home", "Ines Okafor", "loading")
    >>> v.number("bag", 20, 60, 5) == Variant("home", "ines okafor", "loading").number("bag", 20, 60, 5)
    True
    """

    course: str
    student: str
    exercise: str
    key: str = ""
    attempt: int = 0

    @cached_property
    def _begun(self):
        """The hash of all that the draws have in common."""
        parts = (self.course, same_name(self.student), self.exercise, self.key, str(self.attempt))
        # Each part's length goes in too, so that no two lists of parts make the same text.
        return hashlib.sha256("".join(f"{len(p)}:{p}" for p in parts).encode("utf-8"))

    def _hash(self, label):
        drawn = self._begun.copy()
        drawn.update(_bytes_of(label))
        return int.from_bytes(drawn.digest()[:8], "big")

    def number(self, label, low, high, step=1):
        """Draw a number from `low` to `high` in whole steps, both ends included."""
        count = round((high - low) / step) + 1
        return round(low + step * (self._hash(label) % count), 10)

    def pick(self, label, options):
        """Draw one of the options."""
        return options[self._hash(label) % len(options)]

    def shuffled(self, label, options):
        """Return the options in an order of this student's own."""
        return sorted(options, key=lambda option: self._hash(f"{label}/{option}"))


@lru_cache(maxsize=4096)
def _bytes_of(label):
    """What a draw adds to the hash: kept, for every student of a class draws under the same labels."""
    return f"{len(label)}:{label}".encode()
