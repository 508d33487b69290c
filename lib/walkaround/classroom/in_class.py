"""What to show in class: the demonstration and ready-made setting for the hardest question and the commonest slip."""

from typing import NamedTuple

from walkaround.classroom.texts import number_of
from walkaround.lessons.table import LESSONS


class Showing(NamedTuple):
    """What to show and why, in words; lesson, function and preset are empty where no demonstration shows it."""

    why: str
    where: str = ""
    lesson: str = ""
    function: str = ""
    preset: str = ""


def showings(course, exercise):
    """Return a `Showing` for the hardest question of an `analysis.Exercise` and for its commonest slip."""
    found, item, slip = [], exercise.hardest, exercise.commonest
    if item:
        why = f"The hardest question is “{item.title}”: {100 * item.difficulty:.0f} % earned its points."
        found.append(showing(course, exercise.name, item.key, why))
    if slip:
        key = next(i.key for i in exercise.items if slip in i.slips)
        why = (
            f"The commonest slip is “{slip.name}” in “{slip.question}”: {number_of(slip.students, 'student')} made it."
        )
        found.append(showing(course, exercise.name, key, why))
    return found


def lesson_of(course, name):
    """Return the lesson that an exercise belongs to, or None.

    A question set of the course's own may have the name of a lesson, and is about something else.
    """
    return None if course.exercise(name).questions else next((x for x in LESSONS if x.name == name), None)


def showing(course, name, key, why):
    """Return a `Showing` for the question of an exercise that has a key, with the reason given."""
    lesson = lesson_of(course, name)
    if lesson is None or key not in lesson.shown_by:
        return Showing(why)
    function, preset = lesson.shown_by[key]
    does = dict(lesson.demonstrations)[function]
    where = f"Show “{does}” with the setting “{preset}” (lesson {lesson.number}, {lesson.title})."
    return Showing(why, where, name, function, preset)
