"""One question on screen: its text, a place for the answer, a check, a hint, the worked answer, and what came of it."""

import html

import ipywidgets as widgets

from walkaround.assessment.judging import Mark, mark, score
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER
from walkaround.exercises import markup
from walkaround.exercises.text_entry import TextEntry
from walkaround.live.status import NOTE, OK, STOP, status_html

_AUTO = widgets.Layout(width="auto")
_ROW = widgets.Layout(flex_flow="row wrap")


class AnswerBox(widgets.VBox):
    """One question; `record` is its dict of tries, hint and worked answer, as an answer sheet holds it.

    `saved` is called with ("answered", given), ("hinted",) or ("worked",) and returns a notice for the student, empty
    if all went well. `changed` is called after every mark.
    """

    def __init__(self, question, number, record, rules, saved, changed=lambda: None, counts=True):
        self.question, self.rules, self._counts, self._sure = question, rules, counts, False
        self._saved, self._changed, self._record = saved, changed, record
        points = _points(question.points)
        self.entry = _ENTRIES.get(question.kind, _OrderEntry)(question)
        self.check = widgets.Button(description="Check my answer", icon="check", layout=_AUTO)
        self.hint = widgets.Button(description="Hint (free)", layout=_AUTO, tooltip="Show a hint; it costs nothing")
        self.worked = widgets.Button(
            description=f"Worked answer (costs {points})" if counts else "Worked answer",
            layout=_AUTO,
            tooltip="Show every step. The question then earns nothing any more.",
        )
        self.feedback, self.hint_text, self.worked_text = widgets.HTML(), widgets.HTML(), widgets.HTML()
        self.check.on_click(lambda _: self.answer_entered(self.entry.given))
        self.hint.on_click(lambda _: self.show_hint())
        self.worked.on_click(lambda _: self._ask_worked())
        self.entry.on_enter(self.answer_entered)
        head = f"<b>{number}. {html.escape(question.title)}</b>" + f" ({points})" * counts
        super().__init__(
            [
                widgets.HTML(head),
                widgets.HTML(markup.paragraph(question.text) + markup.table(question.table)),
                self.entry.widget,
                widgets.HBox([self.check, self.hint] + [self.worked] * rules.worked_answers, layout=_ROW),
                self.hint_text,
                self.feedback,
                self.worked_text,
            ],
            layout=widgets.Layout(border_top="1px solid #bbb", padding="6px 0", width="100%"),
        )
        self._restore()

    @property
    def score(self):
        """The question's score now."""
        return score(self.question, self._record, self.rules)

    def answer_entered(self, given):
        """Mark what has been entered, unless it can't be an answer, which is said and is no try."""
        if self.entry.problem:
            self._say(Mark(None, f"Not marked: {self.entry.problem}."))
        else:
            self.answer(given)

    def answer(self, given):
        """Mark an answer on the spot and save it; one that can't be read is no try, and the student is told why."""
        result = mark(self.question, given, self.rules)
        if self.score.closed and (self.score.right or self._worked_was_seen()):
            # The points are settled: marked for practice, not recorded.
            self._say(result, practice=True)
            return
        notice = self._saved("answered", given) if result.right is not None else ""
        self._say(result, notice)
        self._changed()

    def show_hint(self):
        """Show the hint, and note that it was read."""
        self.hint_text.value = markup.paragraph(f"Hint: {self.question.hint}")
        self._saved("hinted")

    def _ask_worked(self):
        """Show the worked answer; where that costs points, at the second press."""
        costs = self._counts and not self.score.closed
        points = _points(self.question.points)
        if costs and not self._sure:
            self._sure = True
            self.worked.description = f"Really? It costs {points}: press again"
            return
        self.show_worked()
        if costs:
            self.feedback.value = status_html(f"The worked answer is shown: this question earns 0 of {points}.", NOTE)

    def show_worked(self):
        """Show the worked answer, at its cost."""
        if not self.score.right:
            self._saved("worked")
        self.worked_text.value = markup.worked(self.question)
        self._worked_is_free()
        self._changed()

    def _worked_is_free(self):
        self.worked.description, self.worked.tooltip = "Worked answer", "Show every step"

    def _worked_was_seen(self):
        return self._record.get("worked_after") is not None

    def _say(self, result, notice="", practice=False):
        now = self.score
        verdict = {True: OK, False: STOP, None: NOTE}[result.right]
        text = f"{result.says} {self._of_points(result, now, practice)}".strip()
        self.feedback.value = status_html(text, verdict) + (status_html(notice, STOP) if notice else "")
        if self.rules.worked_answers and not practice and result.right is False and now.tries >= self.rules.tries:
            self.show_worked()
        if self.rules.worked_answers and result.right:
            self.worked_text.value = markup.worked(self.question)
        if now.closed:
            self._worked_is_free()

    def _of_points(self, result, now, practice):
        """What an answer means for the question's points, in words; nothing where there are none."""
        if not self._counts or (result.right is None and not practice):
            return ""
        if practice:
            return "(For practice: the points of this question are settled.)"
        if result.right:
            return f"{_points(now.earned)} of {self.question.points}."
        left = self.rules.tries - now.tries
        if left > 0:
            return f"{left} {'try' if left == 1 else 'tries'} left."
        worked = "the worked answer is below, and " if self.rules.worked_answers else ""
        return f"That was try {now.tries}: {worked}the question earns 0 of {self.question.points} points."

    def _restore(self):
        tries, now = self._record.get("tries", []), self.score
        if self._record.get("hint"):
            self.hint_text.value = markup.paragraph(f"Hint: {self.question.hint}")
        if tries:
            given = tries[now.tries - 1]["given"] if now.right else tries[-1]["given"]
            self.entry.restore(given)
            self._say(mark(self.question, given, self.rules))
        if self._worked_was_seen():
            self.worked_text.value = markup.worked(self.question)
            self._worked_is_free()


def _points(n):
    return f"{n} point" if n == 1 else f"{n} points"


class _Entry:
    """A place for an answer: its `widget`, what is `given` there, and its `problem` in words, if it has one."""

    problem = ""

    def on_enter(self, call):
        """Call with what is given when Enter is pressed, where Enter means that."""


class _NumberEntry(_Entry):
    def __init__(self, question):
        self.box = self.widget = TextEntry(label="Your answer", unit=question.unit, placeholder="type a number")

    @property
    def given(self):
        return self.box.value

    def restore(self, given):
        self.box.value = given

    def on_enter(self, call):
        self.box.on_enter(call)


class _ChoiceEntry(_Entry):
    def __init__(self, question):
        self.widget = widgets.RadioButtons(
            options=[(text, key) for key, text in question.options], value=None, layout=widgets.Layout(width="98%")
        )

    @property
    def given(self):
        return self.widget.value or ""

    def restore(self, given):
        self.widget.value = given


class _ChoicesEntry(_Entry):
    def __init__(self, question):
        self.boxes = {
            key: widgets.Checkbox(description=text, indent=False, layout=widgets.Layout(width="98%"))
            for key, text in question.options
        }
        self.widget = widgets.VBox(list(self.boxes.values()))

    @property
    def given(self):
        return [key for key, box in self.boxes.items() if box.value]

    def restore(self, given):
        for key, box in self.boxes.items():
            box.value = key in given


class _OrderEntry(_Entry):
    """Each step has a number to choose: that works by keyboard alone and with a screen reader."""

    def __init__(self, question):
        numbers = range(1, len(question.options) + 1)
        self.places = {
            key: widgets.Dropdown(
                options=[("–", 0), *((str(i), i) for i in numbers)],
                value=0,
                tooltip=f"Place of: {text}",
                layout=widgets.Layout(width="4.5em"),
            )
            for key, text in question.options
        }
        lines = [
            widgets.HBox([self.places[key], widgets.HTML(f"&nbsp;{html.escape(text)}")])
            for key, text in question.options
        ]
        self.widget = widgets.VBox(lines)

    @property
    def problem(self):
        chosen = [place.value for place in self.places.values()]
        twice = sorted({str(n) for n in chosen if n and chosen.count(n) > 1}, key=int)
        if twice:
            are = "are" if len(twice) > 1 else "is"
            return f"{' and '.join(twice)} {are} chosen more than once; give every step a number of its own"
        return "choose a number for every step first" if 0 in chosen else ""

    @property
    def given(self):
        return sorted((key for key in self.places if self.places[key].value), key=lambda key: self.places[key].value)

    def restore(self, given):
        for place, key in enumerate(given, 1):
            self.places[key].value = place


_ENTRIES = {NUMBER: _NumberEntry, CHOICE: _ChoiceEntry, CHOICES: _ChoicesEntry}
