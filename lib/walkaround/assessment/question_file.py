"""Question sets of a course's own: one Python file with NAME, TITLE and write(variant), read so that a mistake is shown with its line.

The file is run, so it must come from the instructor. Marking reads it from the course folder, never from what was handed in.
"""

import ast
import math
import re
import sys
import traceback
from pathlib import Path
from types import ModuleType

from walkaround.assessment.questions import CHOICE, CHOICES, KINDS, NUMBER, ORDER, Paper, Question, paper, unsound
from walkaround.assessment.variant import Variant

MOST_BYTES = 500_000
NAME_FORM = re.compile(r"[a-z][a-z0-9_]{0,39}")
TRIAL_STUDENTS = 25


class QuestionFileError(ValueError):
    """A question set can't be used; the message names the file, the line and what is wrong there."""


class QuestionFile:
    """A question set read from a file: `NAME`, `TITLE`, and `write(variant)` as every exercise has.

    Raises QuestionFileError when the file can't be read or run, or lacks one of the three.
    """

    def __init__(self, path):
        self.path = Path(path)
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
        self.NAME, self.TITLE = getattr(module, "NAME", None), getattr(module, "TITLE", None)
        if not isinstance(self.NAME, str) or not NAME_FORM.fullmatch(self.NAME):
            allowed = "small letters, figures and _, a letter first, such as crosswind_2"
            raise self._error(self._line_of_name("NAME"), f"NAME is {self.NAME!r}; allowed: {allowed}")
        if not isinstance(self.TITLE, str) or not self.TITLE.strip():
            raise self._error(self._line_of_name("TITLE"), f"TITLE is {self.TITLE!r}; allowed: a few words")
        self._write = getattr(module, "write", None)
        if not callable(self._write):
            raise self._error(1, "there is no function write(variant)")

    def write(self, variant):
        """Write one student's paper; raises QuestionFileError with the line when the file does it wrong."""
        made = self._guarded(self._write, variant)
        if not isinstance(made, Paper) or not isinstance(made.questions, tuple) or not made.questions:
            raise self._error(
                self._line_of_name("write"),
                f"write(variant) returned {_short(made)}; allowed: a Paper with a tuple of questions",
            )
        for i, q in enumerate(made.questions):
            for problem in malformed(q) if isinstance(q, Question) else [f"it is {_short(q)}; allowed: a Question"]:
                key = getattr(q, "key", None)
                raise self._error(self._line_of_question(key), f"question {i + 1} ({key!r}): {problem}")
            if q.key in [other.key for other in made.questions[:i]]:
                raise self._error(self._line_of_question(q.key), f"the key {q.key!r} stands twice; each key once")
        return made

    def check(self, students=TRIAL_STUDENTS):
        """Make papers for made-up students; raises QuestionFileError for the first that can't be made or is unfair."""
        for i in range(students):
            try:
                paper(self, f"trial student {i}", "trial")
            except QuestionFileError:
                raise
            except ValueError as error:
                draft = self.write(Variant("trial", f"trial student {i}", self.NAME))
                first = next((q.key for q in draft.questions if unsound(q)), draft.questions[0].key)
                raise self._error(self._line_of_question(first), str(error)) from None

    def _guarded(self, call, *arguments):
        try:
            return call(*arguments)
        except QuestionFileError:
            raise
        except (Exception, SystemExit) as error:
            # The innermost line in the instructor's own file is where to look.
            lines = [f.lineno for f in traceback.extract_tb(error.__traceback__) if f.filename == str(self.path)]
            raise self._error(lines[-1] if lines else 1, f"{type(error).__name__}: {error}") from None

    def _error(self, line, what):
        return QuestionFileError(f"{self.path.name}, line {line or 1}: {what}")

    def _line_of_name(self, name):
        for node in self._tree.body:
            targets = getattr(node, "targets", [])
            if getattr(node, "name", None) == name or any(getattr(t, "id", None) == name for t in targets):
                return node.lineno
        return 1

    def _line_of_question(self, key):
        for node in ast.walk(self._tree):
            if isinstance(node, ast.Call) and key is not None:
                called = getattr(node.func, "id", getattr(node.func, "attr", ""))
                keys = [k.value for k in node.keywords if k.arg == "key"]
                keys += node.args[:1] if called == "Question" else []
                if any(isinstance(k, ast.Constant) and k.value == key for k in keys):
                    return node.lineno
        return self._line_of_name("write")


def malformed(question):
    """What makes a question no question, a sentence each: a field of the wrong kind, an answer of the wrong kind."""
    q, found = question, []
    for name in ("key", "title", "text", "hint"):
        if not isinstance(getattr(q, name), str) or not getattr(q, name).strip():
            found.append(f"{name} is {_short(getattr(q, name))}; allowed: a text")
    if q.kind not in KINDS:
        return [*found, f"kind is {_short(q.kind)}; allowed: {', '.join(map(repr, KINDS))}"]
    if isinstance(q.points, bool) or not isinstance(q.points, int) or q.points < 1:
        found.append(f"points is {_short(q.points)}; allowed: a whole number from 1")
    if not isinstance(q.worked, tuple) or not all(isinstance(line, str) for line in q.worked):
        found.append("worked is not a tuple of texts; a tuple of one needs a comma: (“…”,)")
    if not isinstance(q.options, tuple) or not all(
        isinstance(o, tuple) and len(o) == 2 and all(isinstance(part, str) for part in o) for o in q.options
    ):
        found.append("options is not a tuple of (key, text) pairs")
    elif q.kind != NUMBER and len(q.options) < 2:
        found.append(f"options has {len(q.options)} entries; allowed: two or more for the kind {q.kind!r}")
    if not isinstance(q.wrong_turns, tuple):
        return [*found, "wrong_turns is not a tuple; a tuple of one needs a comma"]
    answers = [("answer", q.answer)]
    for turn in q.wrong_turns:
        if not all(isinstance(getattr(turn, name, None), str) for name in ("slip", "says")):
            return [*found, f"a wrong turn is {_short(turn)}; allowed: WrongTurn(answer, slip, says)"]
        answers.append((f"the wrong turn “{turn.slip}”", turn.answer))
    wanted = {NUMBER: "a number", CHOICE: "an option's key", CHOICES: "a frozenset of keys", ORDER: "a tuple of keys"}
    found += [f"{name} is {_short(a)}; allowed: {wanted[q.kind]}" for name, a in answers if not _fits(q.kind, a)]
    tolerance = q.tolerance
    if q.kind == NUMBER and not (_fits(NUMBER, tolerance) and tolerance > 0):
        found.append(f"tolerance is {_short(tolerance)}; allowed: a number above 0, in the answer's unit")
    return found


def _fits(kind, answer):
    if kind == NUMBER:
        try:
            return not isinstance(answer, bool | str) and math.isfinite(answer)
        except (TypeError, ValueError, OverflowError):
            return False
    if kind == CHOICE:
        return isinstance(answer, str)
    holder = frozenset if kind == CHOICES else tuple
    return isinstance(answer, holder) and all(isinstance(part, str) for part in answer)


def _source_of(path):
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


def _short(value):
    text = repr(value)
    return text if len(text) <= 60 else text[:57] + "…"
