"""How far a student has come in each lesson's exercise, from their answer sheets on this computer."""

from typing import NamedTuple

from walkaround.assessment import answer_sheet
from walkaround.assessment.judging import score
from walkaround.exercises import enrolment
from walkaround.lessons.table import LESSONS

NOT_BEGUN, IN_WORK, DONE = "not begun", "in work", "done"


class Standing(NamedTuple):
    """What a student has in one exercise: questions done `of` those there are, points earned of `full`.

    Where answers are `kept` for an instructor to mark, no points are known.
    """

    done: int = 0
    of: int = 0
    earned: int = 0
    full: int = 0
    begun: bool = False
    kept: bool = False

    @property
    def state(self):
        """NOT_BEGUN, IN_WORK or DONE."""
        return NOT_BEGUN if not self.begun else DONE if self.done == self.of else IN_WORK

    @property
    def share(self):
        """The part of full marks that is earned; of kept answers, the part of the questions that have one."""
        share = (self.done, self.of) if self.kept else (self.earned, self.full)
        return share[0] / share[1] if share[1] else 0.0

    @property
    def says(self):
        """Both in words.

        >>> Standing(5, 11, 8, 20, True).says, Standing(11, 11, 17, 20, True).says
        ('in work: 5 of 11 questions, 8 of 20 points', 'done: 17 of 20 points')
        """
        if self.state == NOT_BEGUN:
            return NOT_BEGUN
        questions = f"{self.done} of {self.of} questions" * (self.state == IN_WORK)
        points = "your instructor marks it" if self.kept else f"{self.earned} of {self.full} points"
        return f"{self.state}: {', '.join(filter(None, [questions, points]))}"


def enrolled_in(folder):
    """Return the enrolment for a folder, that for home where it can't be read."""
    try:
        return enrolment.read(folder)
    except ValueError:
        return enrolment.Enrolment()


def standings(folder, student):
    """Return a student's `Standing` in each lesson, by its name; what can't be read counts as not begun.

    It only reads: the answer sheets are left as they are.
    """
    enrolled = enrolled_in(folder)
    return {lesson.name: _standing(folder, enrolled, lesson.name, student) for lesson in LESSONS}


def _standing(folder, enrolled, exercise, student):
    try:
        answers = answer_sheet.look(folder, exercise, student, enrolled.course)
        if not any(map(answer_sheet.was_begun, answers.values())):
            return Standing()
        paper, rules = enrolled.paper(exercise, student), enrolled.rules_for(exercise)
    except ValueError:
        return Standing()
    scores = [score(q, answers.get(q.key), rules) for q in paper.questions]
    done, earned = sum(s.closed for s in scores), sum(s.earned for s in scores)
    return Standing(done, len(scores), earned, paper.points, True, rules.kept)
