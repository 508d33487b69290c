"""Where an exercise's questions come from: a lesson of the workbook, a course's question file, or its aircraft."""

from dataclasses import dataclass, replace
from pathlib import Path

from walkaround import aircraft
from walkaround.assessment.kept_paper import KeptPaper
from walkaround.assessment.question_file import QuestionFile
from walkaround.lessons import table
from walkaround.lessons.loading.own_aircraft import OwnAircraft


@dataclass(frozen=True)
class Source:
    """An exercise of a course: its name, and the files that it needs from the course's folder.

    `questions` is a question file, `aircraft` an aircraft file (at most one of the two); `tolerance` has pairs of a
    question's key and the tolerance, in its unit, to be used instead of the exercise's own. `paper` is the file of one
    student's questions without answers, where they are all that was handed out.
    """

    name: str
    questions: str = ""
    aircraft: str = ""
    tolerance: tuple[tuple[str, float], ...] = ()
    paper: str = ""

    @property
    def files(self):
        """Names of the files it needs beside the notebook."""
        return tuple(f for f in (self.questions, self.aircraft) if f)


def author(source, folder="."):
    """Return what writes the papers of an exercise: it has NAME, TITLE and write(variant).

    Raises ValueError in words: no such exercise, or a file that can't be used.
    """
    folder = Path(folder)
    if source.paper:
        return KeptPaper(folder / source.paper)
    if source.questions:
        found = QuestionFile(folder / source.questions)
        if source.name != found.NAME:
            raise ValueError(
                f"{source.questions}: NAME is {found.NAME!r}; allowed: {source.name!r}, as in the course file"
            )
    elif source.aircraft:
        found = OwnAircraft(aircraft.read(folder / source.aircraft), source.name)
    else:
        found = table.find(source.name).questions
    return OwnTolerance(found, dict(source.tolerance)) if source.tolerance else found


class OwnTolerance:
    """An exercise with tolerances of the course's own for some questions."""

    def __init__(self, base, tolerance):
        self._base, self._tolerance = base, tolerance
        self.NAME, self.TITLE = base.NAME, base.TITLE

    def write(self, variant):
        """Write one student's paper; raises ValueError for a key that is not that of a question asking for a number."""
        made = self._base.write(variant)
        numbers = [q.key for q in made.questions if q.kind == "number"]
        for key in self._tolerance:
            if key not in numbers:
                raise ValueError(f"tolerance for {key!r}: no such number question; allowed: {', '.join(numbers)}")
        changed = (q._replace(tolerance=self._tolerance.get(q.key, q.tolerance)) for q in made.questions)
        return replace(made, questions=tuple(changed))
