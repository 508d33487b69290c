"""The form of an exercise: who you are, the scene, the questions one at a time or all, and how far you have come.

Every answer is saved at once; opening the exercise again finds them. Practice is done on the same form.
"""

import asyncio
import contextlib
from datetime import datetime

import ipywidgets as widgets

from walkaround import measures
from walkaround.assessment.answer_sheet import broken_in, sheets_in
from walkaround.assessment.judging import AT_HOME
from walkaround.assessment.practice_file import AGAIN
from walkaround.assessment.questions import Question, paper
from walkaround.assessment.variant import Variant, same_name
from walkaround.exercises import enrolment
from walkaround.exercises.answer_box import AnswerBox
from walkaround.exercises.form_head import FormHead
from walkaround.exercises.tasks import COUNTED, MIXED, Again, Counted, Sitting
from walkaround.lessons import table
from walkaround.live import units_choice
from walkaround.live.status import NOTE, OK, STOP

SAVE_AGAIN_S = 3.0  # how long the form waits before it tries again to save what could not be saved


class ExerciseForm(widgets.VBox):
    """The form for one exercise in a folder, the current one unless another is given; without one, mixed practice.

    `task` says what is asked now: the exercise that counts, or practice. `again` and `mixed` begin practice.
    """

    def __init__(self, exercise="", folder=".", student=""):
        self.exercise, self.folder = exercise, folder
        self.task = self.author = None
        self.boxes, self.place, self.all, self._waiting = [], 0, False, []
        try:
            self.enrolled = enrolment.read(folder)
            self.units = measures.chosen() or units_choice.remembered() or self.enrolled.units
            self.author = self.enrolled.author(exercise) if exercise else None
        except ValueError as error:
            self.head = FormHead({"asks": False}, self._pressed, self._check_name)
            super().__init__([self.head])
            self._say(f"This exercise can't be shown: {error}.", STOP)
            return
        in_course = bool(self.enrolled.exercises)
        known = sheets_in(folder, exercise)
        who = {
            "asks": not self.enrolled.student,
            "label": "Your id:" if in_course else "Your name:",
            "placeholder": "as your school writes it" if in_course else "first and last name",
            "known": known,
            "course": _course_line(self.enrolled, exercise) if in_course and exercise else "",
        }
        self.head, self.questions = FormHead(who, self._pressed, self._check_name), widgets.VBox()
        self.head.show(units=units_choice.for_screen(self.units))
        units_choice.follow(self)
        self.foot = FormHead({"asks": False}, self._pressed, lambda: None)
        super().__init__([self.head, self.questions, self.foot])
        student = student or self.enrolled.student or (known[0] if known and not in_course else "")
        if student:
            self.start(student)
            return
        told = (
            f"Your numbers come from your {'id' if in_course else 'name'}: write it the same way each time. "
            "Nothing leaves this computer."
        )
        broken = (
            f"The answer sheet {name} can't be read. Begin under its name, and it is kept beside a new one."
            for name in (broken_in(folder, exercise) if exercise else ())
        )
        self.head.show(said=[["", told], *([STOP, text] for text in broken)])

    def _pressed(self, begin=False, place=None, all=None, act=None, units=None):
        """What a screen pressed."""
        if begin:
            self.start(self.head.name)
        elif units is not None:
            units_choice.choose(units_choice.CHOICES[units][1])
        elif all is not None:
            self.show_all(all)
        elif place is not None:
            self.go_to(place)
        elif self.task and act in [name for name, _ in self.foot.now["actions"]]:
            {AGAIN: self.again, MIXED: self.mixed, COUNTED: self.counted}[act](self.task.student)
            self.head.show(begun=self.head.now["begun"] + 1)

    @property
    def message(self):
        """What is said above the questions."""
        return " ".join(text for _, text in self.head.now["said"])

    @property
    def progress(self):
        """How far the student has come, in words."""
        return self.head.now["progress"]

    @property
    def paper(self):
        """The paper that is asked; None for a sitting, and while nobody has begun."""
        return getattr(self.task, "paper", None)

    @property
    def sheet(self):
        """The file that answers go to, None while nobody has begun."""
        return self.task and self.task.file

    def show_units(self, system):
        """Show the questions in another system of units; what was answered stays."""
        self.units = system or self.enrolled.units
        self.head.show(units=units_choice.for_screen(system))
        if self.boxes:
            for box, asked in zip(self.boxes, self.task.asked, strict=True):
                box.show_as(self.task.shown(asked, self.units).question)
            self._count()

    def start(self, student):
        """Begin or go on as a student of that name."""
        if not any(c.isalnum() for c in student):
            self._put_away()
            self._say("Write your name first: your numbers come from it.", NOTE)
            return
        if same_name(self.head.name) != same_name(student):
            self.head.name = student.strip()
        (self.counted if self.exercise else self.mixed)(student)

    def counted(self, student):
        """Begin or go on with the exercise that counts."""
        self._begin(student, Counted, self.enrolled, self.exercise, self.folder)

    def again(self, student):
        """Go on with the exercise done again; begin with fresh numbers if that is shown already, or done."""
        shown = self.task.number if isinstance(self.task, Again) else 0
        self._begin(student, Again, self.enrolled, self.exercise, self.folder, after=shown)

    def mixed(self, student):
        """Begin or go on with a sitting of mixed practice."""
        self._begin(student, Sitting, self.enrolled, self.folder, from_exercise=bool(self.exercise))

    def _begin(self, student, task, *where, **how):
        what = "This exercise" if task is not Sitting else "Mixed practice"

        def kept_open(kind):
            """The student's file of a kind that holds answers still to be saved, None without one."""
            mine = (f for f in self._waiting if same_name(f.student) == same_name(student))
            return next((f for f in mine if type(f) is kind), None)

        try:
            self.task = task(*where, student=student, kept_open=kept_open, **how)
        except ValueError as error:
            self._say(f"{what} can't be shown: {error}.", STOP)
            return
        self.head.show(said=self.task.begins)
        sheet = self.sheet
        if not sheet.notice:
            sheet.check_folder()
        self._after_saving(sheet)
        if sheet.notice:
            self._say(sheet.notice, STOP)
        counts, changed = self.task.counts, self._count
        self.boxes = [
            AnswerBox(
                *(a.question, i, sheet.record(a.key), a.rules, self._saver(self.task, a), changed, counts),
                shown=self.task.shown(a, self.units).question,
            )
            for i, a in enumerate(self.task.asked, 1)
        ]
        undone = [i for i, box in enumerate(self.boxes) if not box.score.closed]
        self.all = self.all and self.task.in_one_scene
        self.go_to(undone[0] if undone else 0)

    def _saver(self, task, asked):
        """Save to the file that the question belongs to, whoever begins on the form meanwhile."""

        def saved(what, *given):
            task.save(asked, what, *given)
            self._after_saving(task.file)
            return task.file.notice

        return saved

    def _after_saving(self, sheet):
        """Keep trying while answers can't be saved; say it when they are saved at last."""
        if sheet.unsaved and sheet not in self._waiting:
            self._waiting.append(sheet)
            self._say(sheet.notice, STOP)
            self._save_later(sheet)
        elif not sheet.unsaved and sheet in self._waiting:
            self._waiting.remove(sheet)
            if sheet is self.sheet:
                self._say(f"The folder can be written now: your answers are saved in {sheet.path.name}.", OK)

    def _save_later(self, sheet):
        with contextlib.suppress(RuntimeError):  # where no kernel runs, the next answer tries again
            asyncio.get_running_loop().call_later(SAVE_AGAIN_S, self._save_again, sheet)

    def _save_again(self, sheet):
        if sheet in self._waiting:
            sheet.save()
            self._after_saving(sheet)
            if sheet in self._waiting:
                self._save_later(sheet)

    def _say(self, text, verdict):
        self.head.show(said=[[verdict, text]])

    @property
    def earned(self):
        """Points earned so far."""
        return sum(box.score.earned for box in self.boxes)

    def _check_name(self):
        """Put the paper away while another name stands in the box: what is answered goes to whom the paper belongs."""
        if self.task and same_name(self.head.name) != same_name(self.task.student):
            self._put_away()
            self._say(f"Press Begin to go on as {self.head.name.strip() or '…'}.", NOTE)

    def _put_away(self):
        self.task, self.boxes, self.questions.children = None, [], []
        self.head.show(scene="", table=[], progress="", titles=[])
        self.foot.show(said=[], actions=[])

    def go_to(self, place):
        """Show the question at a place, counted from 0."""
        self.place = max(0, min(int(place), len(self.boxes) - 1))
        self._lay_out()

    def show_all(self, on=True):
        """Show all questions under each other, or one at a time again."""
        self.all = bool(on) and bool(self.task) and self.task.in_one_scene
        self._lay_out()

    def _lay_out(self):
        if not self.boxes:
            return
        self.questions.children = self.boxes if self.all else [self.boxes[self.place]]
        self._count()

    def _count(self):
        if not self.boxes:
            return
        shown, scores = self.task.shown(self.task.asked[self.place], self.units), [box.score for box in self.boxes]
        where = "" if self.all else f"Question {self.place + 1} of {len(self.boxes)}. "
        self.head.show(
            scene=shown.scene,
            table=[list(row) for row in shown.table],
            progress=self.task.progress(where, scores),
            titles=[f"{i}. {box.shown.title}{', done' * box.score.closed}" for i, box in enumerate(self.boxes, 1)],
            place=self.place,
            all=self.all if self.task.in_one_scene else None,
        )
        said, actions = self.task.ends(scores)
        self.foot.show(said=said, actions=[list(action) for action in actions])

    def _repr_mimebundle_(self, **kwargs):
        data = super()._repr_mimebundle_(**kwargs)
        if not self.exercise:
            return {**data, "text/plain": "Mixed practice: run the cell to begin."}
        if self.author is None:
            return {**data, "text/plain": "This exercise can't be shown: run the cell to see why."}
        # The same text whoever opens it: a stored notebook names nobody.
        e = self.enrolled
        questions = (
            e.paper(self.exercise, e.student) if e.student else paper(self.author, "Example Student")
        ).questions
        points = sum(q.points for q in questions)
        data["text/plain"] = f"Exercise with {len(questions)} questions, {points} points. Run the cell to answer them."
        return data


def _course_line(enrolled, exercise):
    due = enrolled.due(exercise)
    parts = [" · ".join(p for p in (enrolled.name, enrolled.student) if p), enrolled.course]
    if due is not None:
        late = " (that is past)" if due < datetime.now(due.tzinfo) else ""
        parts.append(f"due {due.astimezone():%d %B %Y, %H:%M} by this computer's clock{late}")
    return ". ".join(p for p in parts if p) + "."


class QuickQuestion(AnswerBox):
    """One question in a lesson, marked on the spot and recorded nowhere."""

    def __init__(self, question: Question, number, in_units):
        self._in_units = in_units
        record = {"tries": [], "hint": False, "worked_after": None}

        def saved(what, *given):
            if what == "answered":
                record["tries"].append({"given": given[0], "at": ""})
            elif what == "hinted":
                record["hint"] = True
            else:
                record["worked_after"] = len(record["tries"])
            return ""

        shown = in_units(measures.chosen() or units_choice.remembered())
        # Its heading stands within a section.
        super().__init__(question, number, record, AT_HOME, saved, counts=False, level=3, shown=shown)
        units_choice.follow(self)

    def show_units(self, system):
        """Show the question in another system of units."""
        self.show_as(self._in_units(system))


def exercise(name):
    """Show the form of an exercise, by the name of its lesson."""
    return ExerciseForm(name)


def mixed_practice():
    """Show mixed practice, which draws from all exercises that were begun in the current folder."""
    return ExerciseForm()


def quick(name, number):
    """Show one of a lesson's quick questions, by its number from 1; all students get the same numbers."""

    def questions(system=None):
        with measures.shown_in(system):
            return table.find(name).questions.quick(Variant("lesson", "everyone", name))

    asked = questions()
    if not 1 <= number <= len(asked):
        raise ValueError(f"number is {number}; allowed: 1 to {len(asked)}")
    question = asked[number - 1]
    return QuickQuestion(question, number, lambda system: questions(system)[number - 1] if system else question)
