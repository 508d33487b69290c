"""Who does the exercise, for which course and by which rules: at home nobody's course, in a school what was handed out."""

from dataclasses import dataclass

from walkaround.exercises.marking import AT_HOME, Rules

HOME_COURSE = "home"


@dataclass(frozen=True)
class Enrolment:
    """A student in a course; `student` is empty until they have said who they are; `key` makes their numbers their own."""

    course: str = HOME_COURSE
    student: str = ""
    key: str = ""
    rules: Rules = AT_HOME


def read(folder):
    """Return the enrolment that holds in a folder; without a course that is the home one."""
    return Enrolment()
