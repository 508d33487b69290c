"""A course's own question sets: one Python file with NAME, TITLE and write(variant).

A mistake in the file is shown with its line. The file is run, so it must come from the instructor: marking reads it
from the course folder, never from what was handed in.
"""

import ast
import math
import re
import sys
import traceback
from collections.abc import Callable
from itertools import zip_longest
from pathlib import Path
from types import ModuleType
from typing import Any

from walkaround.assessment.questions import CHOICE, CHOICES, KINDS, NUMBER, ORDER, Paper, Question, paper, unsound
from walkaround.assessment.variant import Variant
from walkaround.checks import short

MOST_BYTES = 500_000
NAME_FORM = re.compile(r"[a-z][a-z0-9_]{0,39}")
TRIAL_STUDENTS = 200
# A file of such a name would be imported in place of the module, by every notebook that lies beside it.
TAKEN = sys.stdlib_module_names | {
    *("walkaround", "anywidget", "filelock", "ipywidgets", "jinja2", "jupyter_core", "jupyter_server", "jupyterlab"),
    *("lazy_loader", "matplotlib", "mistune", "nbformat", "numpy", "pydantic", "traitlets"),
}


class QuestionFileError(ValueError):
    """A question set can't be used; the message names the file, the line and what is wrong there."""


class QuestionFile:
    """A question set read from a file: `NAME`, `TITLE`, and `write(variant)` as every exercise has.

    Raises QuestionFileError when the file can't be read or run, or lacks one of the three.

    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     path = Path(folder) / "wind.py"
    ...     _ = path.write_text("NAME = 'wind'\\nTITLE = 'Wind'\\ndef write(variant)\\n")
    ...     QuestionFile(path)
    Traceback (most recent call last):
    ...
    walkaround.assessment.question_file.QuestionFileError: wind.py, line 3: expected ':'
    """

    def __init__(self, path: str | Path) -> None:
        self.path = Path(path)
        if self.path.stem.casefold() in {name.casefold() for name in TAKEN}:
            raise self._error(1, "the file has the name of a module that Python or the workbook needs; rename it")
        self._source = _source_of(self.path)
        try:
            self._tree = ast.parse(self._source, self.path.name)
            code = compile(self._tree, str(self.path), "exec")
        except SyntaxError as error:
            raise self._error(error.lineno, error.msg) from None
        except (ValueError, RecursionError, MemoryError) as error:
            raise self._error(1, f"this is not Python: {error}") from None
        module = ModuleType(f"walkaround_question_file_{self.path.stem}")
        module.__file__ = str(self.path)
        sys.modules[module.__name__] = module  # dataclasses in the file look their module up
        self._guarded(exec, code, module.__dict__)
        name, title, write = (getattr(module, wanted, None) for wanted in ("NAME", "TITLE", "write"))
        if not isinstance(name, str) or not NAME_FORM.fullmatch(name):
            allowed = "small letters, figures and _, a letter first, such as crosswind_2"
            raise self._error(self._line_of_name("NAME"), f"NAME is {name!r}; allowed: {allowed}")
        if not isinstance(title, str) or not title.strip():
            raise self._error(self._line_of_name("TITLE"), f"TITLE is {title!r}; allowed: a few words")
        if not callable(write):
            raise self._error(1, "there is no function write(variant)")
        self.NAME, self.TITLE, self._write = name, title, write

    def write(self, variant: Variant) -> Paper:
        """Write one student's paper; raises QuestionFileError with the line when the file does it wrong."""
        made = self._guarded(self._write, variant)
        if not isinstance(made, Paper) or not isinstance(made.questions, tuple) or not made.questions:
            raise self._error(
                self._line_of_name("write"),
                f"write(variant) returned {short(made)}; allowed: a Paper with a tuple of questions",
            )
        for i, q in enumerate(made.questions):
            for problem in malformed(q) if isinstance(q, Question) else [f"it is {short(q)}; allowed: a Question"]:
                key = getattr(q, "key", None)
                raise self._error(self._line_of_question(key), f"question {i + 1} ({key!r}): {problem}")
            if q.key in [other.key for other in made.questions[:i]]:
                raise self._error(self._line_of_question(q.key), f"the key {q.key!r} stands twice; each key once")
        return made

    def check(self, students: int = TRIAL_STUDENTS) -> None:
        """Make papers for made-up students; raises QuestionFileError for the first that can't be made or is unfair.

        All must get questions of the same keys, kinds and points, and the same paper when the file is read anew.
        """
        made = [self._trial(i) for i in range(students)]
        for i, questions in enumerate(made):
            for q, first in zip_longest(questions, made[0]):
                if q is None or first is None or q.key != first.key:
                    keys = [[other.key for other in those] for those in (made[0], questions)]
                    why = f"trial student 0 has the questions {short(keys[0])}, and {i} has {short(keys[1])}"
                    raise self._error(self._line_of_question((q or first).key), f"{why}; allowed: the same for all")
                for name in ("kind", "points"):
                    one, other = getattr(first, name), getattr(q, name)
                    if one != other:
                        why = f"{name} of {q.key!r} is {one!r} for trial student 0 and {other!r} for {i}"
                        raise self._error(self._line_of_question(q.key), f"{why}; allowed: the same for all")
        # In another order, so that what the file remembers from one student to the next shows too.
        again = QuestionFile(self.path)
        for i in reversed(range(students)):
            for first, second in zip(made[i], again._trial(i), strict=True):
                if first != second:
                    why = f"{first.key!r} is another question when the same paper is made again"
                    raise self._error(self._line_of_question(first.key), f"{why}: draw with variant only")

    def _trial(self, i: int) -> tuple[Question, ...]:
        """Questions of a made-up student."""
        student = f"trial student {i}"
        try:
            return paper(self, student, "trial").questions
        except QuestionFileError:
            raise
        except ValueError as error:
            questions = self.write(Variant("trial", student, self.NAME)).questions
            first = next((q.key for q in questions if unsound(q)), questions[0].key)
            raise self._error(self._line_of_question(first), str(error)) from None

    def _guarded(self, call: Callable[..., Any], *arguments: object) -> Any:
        try:
            return call(*arguments)
        except QuestionFileError:
            raise
        except (Exception, SystemExit) as error:
            # The innermost line in the instructor's own file is where to look.
            lines = [f.lineno for f in traceback.extract_tb(error.__traceback__) if f.filename == str(self.path)]
            raise self._error(lines[-1] if lines else 1, f"{type(error).__name__}: {error}") from None

    def _error(self, line: int | None, what: str) -> QuestionFileError:
        return QuestionFileError(f"{self.path.name}, line {line or 1}: {what}")

    def _line_of_name(self, name: str) -> int:
        for node in self._tree.body:
            targets = getattr(node, "targets", [])
            if getattr(node, "name", None) == name or any(getattr(t, "id", None) == name for t in targets):
                return node.lineno
        return 1

    def _line_of_question(self, key: str | None) -> int:
        for node in ast.walk(self._tree):
            if isinstance(node, ast.Call) and key is not None:
                named = {k.arg: k.value for k in node.keywords}
                keys = [named["key"]] if "key" in named else node.args[:1] if "hint" in named else []
                if any(isinstance(k, ast.Constant) and k.value == key for k in keys):
                    return node.lineno
        return self._line_of_name("write")


def malformed(question: Question) -> list[str]:
    """Return what is wrong with the fields of a question, a sentence each: a value or an answer of the wrong kind.

    >>> malformed(Question("fuel", NUMBER, "Fuel", "10 US gal?", "60", 1, "Avgas.", ("10 × 6",), "lb", 1.0))
    ["answer is '60'; allowed: a number, a float or an int"]
    """
    q: Any = question  # an instructor's file may have put anything into a field
    found: list[str] = []
    for name in ("key", "title", "text", "hint"):
        if not isinstance(getattr(q, name), str) or not getattr(q, name).strip():
            found.append(f"{name} is {short(getattr(q, name))}; allowed: a text")
    if q.kind not in KINDS:
        return [*found, f"kind is {short(q.kind)}; allowed: {', '.join(map(repr, KINDS))}"]
    if isinstance(q.points, bool) or not isinstance(q.points, int) or q.points < 1:
        found.append(f"points is {short(q.points)}; allowed: a whole number from 1")
    if isinstance(q.most_tries, bool) or not isinstance(q.most_tries, int) or q.most_tries < 0:
        found.append(f"most_tries is {short(q.most_tries)}; allowed: a whole number from 0")
    if not isinstance(q.worked, tuple) or not all(isinstance(line, str) for line in q.worked):
        found.append("worked is not a tuple of texts; a tuple of one needs a comma: (“…”,)")
    if not isinstance(q.options, tuple) or not all(
        isinstance(o, tuple) and len(o) == 2 and all(isinstance(part, str) for part in o) for o in q.options
    ):
        found.append("options is not a tuple of (key, text) pairs")
    elif q.kind != NUMBER and len(q.options) < 2:
        found.append(f"the number of options is {len(q.options)}; allowed: two or more for the kind {q.kind!r}")
    if not isinstance(q.wrong_turns, tuple):
        return [*found, "wrong_turns is not a tuple; a tuple of one needs a comma"]
    answers: list[tuple[str, object]] = [("answer", q.answer)]
    for turn in q.wrong_turns:
        if not all(isinstance(getattr(turn, name, None), str) for name in ("slip", "says")):
            return [*found, f"a wrong turn is {short(turn)}; allowed: WrongTurn(answer, slip, says)"]
        answers.append((f"the wrong turn “{turn.slip}”", turn.answer))
    wanted = {
        NUMBER: "a number, a float or an int",
        CHOICE: "an option's key",
        CHOICES: "a frozenset of keys",
        ORDER: "a tuple of keys",
    }
    found += [f"{name} is {short(a)}; allowed: {wanted[q.kind]}" for name, a in answers if not _fits(q.kind, a)]
    tolerance = q.tolerance
    if q.kind == NUMBER and not (_fits(NUMBER, tolerance) and tolerance > 0):
        found.append(f"tolerance is {short(tolerance)}; allowed: a number above 0, in the answer's unit")
    return found


def _fits(kind: str, answer: Any) -> bool:
    if kind == NUMBER:
        try:
            return isinstance(answer, float | int) and not isinstance(answer, bool) and math.isfinite(answer)
        except OverflowError:
            return False
    if kind == CHOICE:
        return isinstance(answer, str)
    holder = frozenset if kind == CHOICES else tuple
    return isinstance(answer, holder) and all(isinstance(part, str) for part in answer)


def _source_of(path: Path) -> str:
    try:
        if path.stat().st_size > MOST_BYTES:
            raise QuestionFileError(f"{path.name}: larger than {MOST_BYTES:,} bytes, which no question set needs")
        data = path.read_bytes()
    except OSError as error:
        raise QuestionFileError(f"{path.name}: can't be read from {path.parent}: {error.strerror}") from None
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise QuestionFileError(f"{path.name}, line {line}: not UTF-8; save the file as UTF-8") from None
