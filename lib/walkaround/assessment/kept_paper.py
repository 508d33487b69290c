"""A paper without answers: one student's questions as text, for marks that count. What is answered is kept, not marked.

The file holds no key from which numbers are made, no answer, slip, hint or worked line, and the options go by their
places: their keys could tell.
"""

import json
from collections.abc import Mapping
from pathlib import Path

from walkaround import measures
from walkaround.assessment.questions import KINDS, Paper, Question, Table

FORMAT = "walkaround paper"
VERSION = 1
ENDING = ".paper.json"
MOST_BYTES = 1_000_000


def data_of(paper: Paper, in_other_units: Mapping[str, Paper] | None = None) -> bytes:
    """Return the bytes of a paper's file, without its answers; it may hold the same paper in other units too.

    >>> q = Question("go", "choice", "Go?", "May we go?", "no", 1, "h", ("w",), options=(("yes", "Yes"), ("no", "No")))
    >>> parse(data_of(Paper("wind", "Wind", "S1", "Autumn", (q,)))).questions[0].options
    (('1', 'Yes'), ('2', 'No'))
    """
    others = {units: _content(other) for units, other in (in_other_units or {}).items()}
    content = {"format": FORMAT, "version": VERSION, **_content(paper), **({"in_units": others} if others else {})}
    return json.dumps(content, ensure_ascii=False, indent=1).encode("utf-8") + b"\n"


def _content(paper: Paper) -> dict[str, object]:
    return {
        **{name: getattr(paper, name) for name in ("course", "student", "exercise", "title", "scene", "scene_table")},
        "questions": [
            {
                **{name: getattr(q, name) for name in ("key", "kind", "title", "text", "unit", "points", "table")},
                "options": [text for _, text in q.options],
            }
            for q in paper.questions
        ],
    }


def parse(data: bytes, units: str | None = None) -> Paper:
    """Read the bytes of a paper's file; raises ValueError, TypeError, KeyError or AttributeError when damaged.

    It is the paper in some units, if the file has it in those.
    """
    d = json.loads(data.decode("utf-8-sig"))
    if d["format"] != FORMAT or d["version"] != VERSION:
        raise ValueError(f"format {d['format']!r}, version {d['version']!r}")
    d = d.get("in_units", {}).get(units, d)
    questions = tuple(
        Question(
            key=_text(q["key"]),
            kind=_text(q["kind"]),
            title=_text(q["title"]),
            text=_text(q["text"]),
            unit=_text(q["unit"]),
            answer="",
            points=int(q["points"]),
            hint="",
            worked=(),
            options=tuple((str(place), _text(text)) for place, text in enumerate(q["options"], 1)),
            table=_table(q["table"]),
        )
        for q in d["questions"]
    )
    if any(q.kind not in KINDS for q in questions):
        raise ValueError(f"a kind of question is not known; allowed: {', '.join(KINDS)}")
    texts = {name: _text(d[name]) for name in ("course", "student", "exercise", "title", "scene")}
    return Paper(**texts, questions=questions, scene_table=_table(d["scene_table"]))


def by_key(question: Question, given: str | list[str]) -> str | list[str]:
    """Return an answer with the keys of the options in place of the places by which a paper without answers names them.

    >>> q = Question("go", "choice", "Go?", "May we go?", "no", 1, "", (), options=(("yes", "Yes"), ("no", "No")))
    >>> by_key(q, "2")
    'no'
    """
    keys: Mapping[str, str] = {str(place): key for place, (key, _) in enumerate(question.options, 1)}
    return [keys.get(g, "") for g in given] if isinstance(given, list) else keys.get(given, "") if keys else given


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise ValueError(f"{value!r} stands where a text should")
    return value


def _table(rows: list[list[str]]) -> Table:
    return tuple(tuple(_text(cell) for cell in row) for row in rows)


class KeptPaper:
    """What writes the paper of a file; raises ValueError in words when the file can't be used."""

    def __init__(self, path: Path) -> None:
        try:
            with path.open("rb") as file:
                data = file.read(MOST_BYTES)
            self._papers = {units: parse(data, units) for units in (None, *measures.SYSTEMS)}
        except OSError as error:
            raise ValueError(f"{path.name} can't be read: {error.strerror}") from None
        except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
            raise ValueError(f"{path.name} is not as it was handed out; fetch a new copy") from None
        self.NAME, self.TITLE = self._papers[None].exercise, self._papers[None].title

    def write(self, _variant: object) -> Paper:
        """Return the paper, the same for every variant: it was written when it was handed out."""
        return self._papers[measures.chosen()]
