"""One question on screen: its text, a place for the answer, a check, a hint, the worked answer, and what came of it.

`answer_box.js` is its screen side; `answer_logic.js` is the part of that which needs no screen.
"""

import contextlib
from pathlib import Path

import anywidget
from traitlets import Any, Dict

from walkaround import measures
from walkaround.assessment import typed
from walkaround.assessment.judging import Mark, mark, mark_typed, score, tries_allowed
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER
from walkaround.live.screen import sources
from walkaround.live.status import NOTE, OK, STOP

HERE = Path(__file__).parent
CSS = sources("screen.css") + sources("answer_box.css", folder=HERE)
_SCREEN = {NUMBER: ("number", ""), CHOICE: ("choice", ""), CHOICES: ("choices", []), ORDER: ("order", {})}
_VERDICTS = {True: OK, False: STOP, None: NOTE}


class AnswerBox(anywidget.AnyWidget):
    """One question; `record` is its dict of tries, hint and worked answer, as an answer sheet holds it.

    Where a question is `shown` in other units, `question` still decides what is right, and what is typed is kept with
    the unit that it was asked for in.

    `saved` is called with ("answered", given), ("hinted",) or ("worked",) and returns a notice for the student, empty
    if all went well. `changed` is called after every mark.

    `entry` is what is entered: a typed text, an option's key, keys, or for an order places by key. `now` is what came
    of it: `said`, rows of a verdict and a text; the `hint` and the steps `worked`, once shown; and what the `button`
    for the worked answer says.
    """

    _esm = sources("screen.js") + sources("answer_logic.js", "answer_box.js", folder=HERE)
    _css = CSS
    page = Dict().tag(sync=True)
    now = Dict().tag(sync=True)
    # Not echoed: an echo of what was entered a moment ago would overwrite what has been entered since.
    entry = Any().tag(sync=True, echo_update=False)

    def __init__(self, question, number, record, rules, saved, changed=lambda: None, counts=True, level=2, shown=None):
        self.question, self.rules, self._counts, self._sure = question, rules, counts, False
        self._saved, self._changed, self._record = saved, changed, record
        self._points, self._number, self._level = _points(question.points), number, level
        super().__init__(page=self._take(shown or question), entry=_SCREEN[question.kind][1])
        self.on_msg(lambda _, content, __: self.take(content))
        self._restore()

    def show_as(self, question):
        """Show the same question in other units; what is entered and not yet answered stays as it stands."""
        (_, answered), entered = self._last(), self.entry
        if entered == answered or (isinstance(entered, str) and entered.strip() == answered):
            entered = None
        self.page = self._take(question)
        self._restore(entered)

    def _take(self, question):
        """Take the question as it is shown from now on; returns what a screen needs of it."""
        self.shown = question
        return {
            "title": f"{self._number}. {question.title}" + f" ({self._points})" * self._counts,
            "level": self._level,  # of its heading
            "text": question.text,
            "table": question.table,
            "kind": _SCREEN[question.kind][0],
            "unit": question.unit,
            "options": question.options,
            "worked": self.rules.worked_answers,
            "kept": self.rules.kept,
        }

    @property
    def _decides(self):
        """The question that decides what is right where another one is shown, else None."""
        return None if self.shown is self.question else self.question

    @property
    def score(self):
        """The question's score now."""
        return score(self.question, self._record, self.rules)

    @property
    def said(self):
        """What is said of the last answer."""
        return " ".join(text for _, text in self.now["said"])

    @property
    def given(self):
        """The answer that is entered, as an answer sheet holds it."""
        places = self.entry
        return sorted(filter(places.get, places), key=places.get) if self.question.kind == ORDER else self.entry

    @property
    def problem(self):
        """Why what is entered can't be an answer, in words; empty if it can."""
        if self.question.kind != ORDER:
            return ""
        chosen = [self.entry.get(key, 0) for key, _ in self.question.options]
        twice = sorted({n for n in chosen if n and chosen.count(n) > 1})
        if twice:
            are = f"{' and '.join(map(str, twice))} {'are' if len(twice) > 1 else 'is'}"
            return f"{are} chosen more than once; give every step a number of its own"
        return "choose a number for every step first" if 0 in chosen else ""

    def take(self, content):
        """Take a message of the screen: the `entry`, and which button was pressed: check, hint or worked."""
        self.set_state({"entry": content.get("entry", self.entry)})  # as from a screen: it is not sent back there
        press = {"check": self.check, "hint": self.show_hint, "worked": self.ask_worked}.get(content.get("press"))
        if press:
            press()

    def check(self):
        """Mark what is entered, or keep it, unless it can't be an answer, which is said and is no try."""
        if self.problem:
            done = "kept" if self.rules.kept else "marked"
            self._show(self._words(Mark(None, f"Not {done}: {self.problem}.")))
        else:
            self.answer(self.given)

    def answer(self, given):
        """Mark an answer on the spot and save it; one that can't be read is no try, and the student is told why."""
        result, before, self._sure = mark_typed(self.shown, given, self.rules, self._decides), self.score, False
        if result.is_try and self.question.kind == NUMBER and measures.in_both(self.shown.unit):
            # So that it stays what it was, whatever units the course, or the student, chooses later.
            given = typed.in_unit(given, self.shown.unit)
        if before.closed and (before.right or self._worked_was_seen()):
            # The points are settled: marked for practice, not recorded.
            self._show(self._words(result, practice=True))
            return
        notice = self._saved("answered", given) if result.is_try else ""
        now = self.score
        if self.rules.worked_answers and now.closed and not now.right:
            self._saved("worked")
        self._show(self._words(result) + [[STOP, notice]] * bool(notice))
        self._changed()

    def show_hint(self):
        """Show the hint, and note that it was read."""
        self._saved("hinted")
        self._show()

    def ask_worked(self):
        """Show the worked answer, at its cost; where that costs points, at the second press."""
        if self._counts and not self.score.closed and not self._sure:
            self._sure = True
            self._show()
            return
        costs = self._counts and not self.score.closed
        if not self.score.right:
            self._saved("worked")
        self._show([[NOTE, f"The worked answer is shown: this question earns 0 of {self._points}."]] if costs else None)
        self._changed()

    def _show(self, said=None):
        """Show what came of it, and what else has been earned or asked for by now."""
        closed = self.score.closed
        button = "Worked answer"
        if self._counts and not closed:
            button = (
                f"Really? It costs {self._points}: press again" if self._sure else f"{button} (costs {self._points})"
            )
        self.now = {
            "said": self.now.get("said", []) if said is None else said,
            "hint": self.shown.hint if self._record.get("hint") else "",
            "worked": list(self.shown.worked) if closed and self.rules.worked_answers else [],
            "button": button,
            # A screen hears of everything, even if the same is said again.
            "turn": self.now.get("turn", 0) + 1,
        }

    def _worked_was_seen(self):
        return self._record.get("worked_after") is not None

    def _words(self, result, practice=False):
        verdict = OK if result.kept else _VERDICTS[result.right]
        return [[verdict, f"{result.says} {self._of_points(result, practice)}".strip()]]

    def _of_points(self, result, practice):
        """What an answer means for the question's points, in words; nothing where there are none."""
        if not self._counts or (result.right is None and not practice):
            return ""
        if practice:
            return "(For practice: the points of this question are settled.)"
        now = self.score
        if result.right:
            return f"{_points(now.earned)} of {self.question.points}."
        left = tries_allowed(self.question, self.rules) - now.tries
        if left > 0:
            return f"{left} {'try' if left == 1 else 'tries'} left."
        worked = "the worked answer is below, and " if self.rules.worked_answers else ""
        return f"That was try {now.tries}: {worked}the question earns 0 of {self._points}."

    def _last(self):
        """The answer that stands in the record, and how it is entered; None and nothing entered without one."""
        tries, now, kind = self._record.get("tries", []), self.score, self.question.kind
        if not tries:
            return None, _SCREEN[kind][1]
        given = tries[now.right_at if now.right else -1]["given"]
        if kind == ORDER:
            return given, {key: place for place, key in enumerate(given, 1)}
        if self._decides and kind == NUMBER:
            with contextlib.suppress(ValueError):  # what was never a number stays as it is
                given = typed.in_unit(given, self.question.unit)
        # A number's unit stands behind it.
        is_text = isinstance(given, str) and kind == NUMBER
        return given, given.removesuffix(f" {self.shown.unit}") if is_text else given

    def _restore(self, entered=None):
        """Say what the record says, with its answer entered unless something else is."""
        given, answered = self._last()
        self.entry = answered if entered is None else entered
        self._show([] if given is None else self._words(mark(self.shown, given, self.rules, self._decides)))

    def _repr_mimebundle_(self, **kwargs):
        data, metadata = super()._repr_mimebundle_(**kwargs)
        # Where no kernel runs, the question's text stands.
        return {**data, "text/plain": f"Question: {self.question.text}"}, metadata


def _points(n):
    return f"{n} point" if n == 1 else f"{n} points"
