"""One question on screen: its text, a place for the answer, a check, a hint, the worked answer, and what came of it."""

import html
import warnings

import ipywidgets as widgets

from walkaround.assessment.judging import mark, score
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER
from walkaround.exercises import markup
from walkaround.live.status import NOTE, OK, STOP, status_html

_WIDE = widgets.Layout(width="auto")


class AnswerBox(widgets.VBox):
    """One question; `record` is its dict of tries, hint and worked answer, as an answer sheet holds it.

    `saved` is called with ("answered", given), ("hinted",) or ("worked",) and returns a notice for the student, empty when
    all went well. `changed` is called after every mark.
    """

    def __init__(self, question, number, record, rules, saved, changed=lambda: None, counts=True):
        self.question, self.rules, self._counts, self._sure = question, rules, counts, False
        self._saved, self._changed, self._record = saved, changed, record
        q = question
        head = f"<b>{number}. {html.escape(q.title)}</b>" + f" ({_points(q.points)})" * counts
        self.entry = _entry_for(q)
        self.check = widgets.Button(description="Check my answer", icon="check", layout=_WIDE)
        self.hint = widgets.Button(description="Hint (free)", layout=_WIDE, tooltip="Show a hint; it costs nothing")
        self.worked = widgets.Button(
            description=f"Worked answer (costs {_points(q.points)})" if counts else "Worked answer", layout=_WIDE,
            tooltip="Show every step. The question then earns nothing any more.",
        )  # fmt: skip
        self.feedback, self.hint_text, self.worked_text = widgets.HTML(), widgets.HTML(), widgets.HTML()
        self.check.on_click(lambda _: self.answer(self.entry.given))
        self.hint.on_click(lambda _: self.show_hint())
        self.worked.on_click(lambda _: self._ask_worked())
        self.entry.on_enter(lambda: self.answer(self.entry.given))
        buttons = [self.check, self.hint] + [self.worked] * rules.worked_answers
        super().__init__(
            [
                widgets.HTML(head),
                widgets.HTML(markup.paragraph(q.text) + markup.table(q.table)),
                self.entry.widget,
                widgets.HBox(buttons, layout=widgets.Layout(flex_flow="row wrap")),
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

    def answer(self, given):
        """Mark an answer on the spot and save it; what can't be read is said and is no try."""
        if self.score.closed and (self.score.right or self._shown()):
            # Points are settled: marked for practice, not recorded.
            self._say(mark(self.question, given, self.rules), practice=True)
            return
        result = mark(self.question, given, self.rules)
        notice = ""
        if result.right is not None:
            notice = self._saved("answered", given)
        self._say(result, notice)
        self._changed()

    def show_hint(self):
        """Show the hint, and note that it was read."""
        self.hint_text.value = markup.paragraph(f"Hint: {self.question.hint}")
        self._saved("hinted")

    def _ask_worked(self):
        """Show the worked answer; where that costs points, at the second press."""
        if self._counts and not self.score.closed and not self._sure:
            self._sure = True
            self.worked.description = f"Really? It costs {_points(self.question.points)}: press again"
            return
        asked = not self.score.closed
        self.show_worked()
        if asked and self._counts:
            self.feedback.value = status_html(
                f"The worked answer is shown: this question earns 0 of {_points(self.question.points)}.", NOTE
            )

    def show_worked(self):
        """Show the worked answer, at its cost."""
        if not self.score.right:
            self._saved("worked")
        self.worked_text.value = markup.worked(self.question)
        self.worked.description, self.worked.tooltip = "Worked answer", "Show every step"
        self._changed()

    def _shown(self):
        return self._record.get("worked_after") is not None

    def _say(self, result, notice="", practice=False):
        now = self.score
        verdict = {True: OK, False: STOP, None: NOTE}[result.right]
        text = result.says
        if practice and self._counts:
            text += " (For practice: the points of this question are settled.)"
        elif not self._counts:
            pass
        elif result.right:
            text += f" {_points(now.earned)} of {self.question.points}."
        elif result.right is False:
            left = self.rules.tries - now.tries
            if left > 0:
                text += f" {left} {'try' if left == 1 else 'tries'} left."
            elif self.rules.worked_answers:
                text += f" That was try {now.tries}: the worked answer is below, and the question earns 0 of {self.question.points} points."
            else:
                text += f" That was try {now.tries}: the question earns 0 of {self.question.points} points."
        self.feedback.value = status_html(text, verdict) + (status_html(notice, STOP) if notice else "")
        if not practice and result.right is False and now.tries >= self.rules.tries and self.rules.worked_answers:
            self.show_worked()
        if result.right and self.rules.worked_answers:
            self.worked_text.value = markup.worked(self.question)
        if now.closed:
            self.worked.description, self.worked.tooltip = "Worked answer", "Show every step"

    def _restore(self):
        tries, now = self._record.get("tries", []), self.score
        if self._record.get("hint"):
            self.hint_text.value = markup.paragraph(f"Hint: {self.question.hint}")
        if tries:
            given = tries[now.tries - 1]["given"] if now.right else tries[-1]["given"]
            self.entry.restore(given)
            self._say(mark(self.question, given, self.rules))
        if self._shown():
            self.worked_text.value = markup.worked(self.question)
            self.worked.description = "Worked answer"


def _points(n):
    return f"{n} point" if n == 1 else f"{n} points"


def on_enter(box, call):
    """Call when Enter is pressed in a text box."""
    # Text's submit event is the only one for the Enter key; leaving the box must not cost a try.
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)
        box.on_submit(lambda _: call())


def _entry_for(question):
    return {NUMBER: _NumberEntry, CHOICE: _ChoiceEntry, CHOICES: _ChoicesEntry}.get(question.kind, _OrderEntry)(
        question
    )


class _NumberEntry:
    def __init__(self, question):
        self.box = widgets.Text(
            placeholder="type a number", tooltip=f"Your answer in {question.unit}", layout=widgets.Layout(width="12em")
        )
        self.widget = widgets.HBox([self.box, widgets.HTML(f"&nbsp;{html.escape(question.unit)}")])

    @property
    def given(self):
        return self.box.value

    def restore(self, given):
        self.box.value = given

    def on_enter(self, call):
        on_enter(self.box, call)


class _ChoiceEntry:
    def __init__(self, question):
        self.widget = widgets.RadioButtons(
            options=[(text, key) for key, text in question.options], value=None, layout=widgets.Layout(width="98%")
        )

    @property
    def given(self):
        return self.widget.value or ""

    def restore(self, given):
        self.widget.value = given

    def on_enter(self, call):
        pass


class _ChoicesEntry:
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

    def on_enter(self, call):
        pass


class _OrderEntry:
    """Each step has a number to choose: works by keyboard alone and with a screen reader."""

    def __init__(self, question):
        count = len(question.options)
        self.places = {
            key: widgets.Dropdown(
                options=[("–", 0), *((str(i), i) for i in range(1, count + 1))], value=0,
                tooltip=f"Place of: {text}", layout=widgets.Layout(width="4.5em"),
            )
            for key, text in question.options
        }  # fmt: skip
        self.widget = widgets.VBox(
            [
                widgets.HBox([self.places[key], widgets.HTML(f"&nbsp;{html.escape(text)}")])
                for key, text in question.options
            ]
        )

    @property
    def given(self):
        return [key for place in range(1, len(self.places) + 1) for key, p in self.places.items() if p.value == place]

    def restore(self, given):
        for place, key in enumerate(given, 1):
            self.places[key].value = place

    def on_enter(self, call):
        pass
