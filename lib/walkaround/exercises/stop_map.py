"""The map on the start page: the aircraft from above, the stops of the walkaround in their order, what is done there.

`stop_map.js` shows it; where nothing runs, a drawing with a list of links stands in its place. `pocket_list.py` is the
list on paper.
"""

from html import escape
from pathlib import Path
from urllib.parse import quote

import anywidget
from traitlets import Dict, Unicode

from walkaround import aircraft
from walkaround.assessment.answer_sheet import sheets_in
from walkaround.exercises import how_far, pocket_list
from walkaround.exercises.plan_view import PlanView
from walkaround.exercises.server_place import JS, kernel_id
from walkaround.lessons.table import LESSONS
from walkaround.live.screen import sources

HERE = Path(__file__).parent
TASK = "Task: what a lesson serves in the public standard FAA-S-ACS-6 (private pilot, airplane)."


class RoundMap(anywidget.AnyWidget):
    """The map of `aircraft` with what the students have done whose answers are in a folder, one at a time.

    `now` is what it shows: the `student`, those who are `known`, what is `said` of the whole round, the `stops` with
    where they are and what is done there, and the list for the `pocket`, an HTML page.
    """

    _esm = sources("screen.js") + JS + sources("stop_map.js", folder=HERE)
    _css = sources("screen.css") + sources("answer_box.css", "stop_map.css", folder=HERE)
    drawing = Unicode().tag(sync=True)
    height = Unicode().tag(sync=True)
    kernel = Unicode().tag(sync=True)
    task = Unicode(TASK).tag(sync=True)
    now = Dict().tag(sync=True)

    def __init__(self, folder, craft):
        self.folder, self._craft = Path(folder), craft
        self._plan = PlanView(craft.dimensions, [lesson.place for lesson in LESSONS])
        super().__init__(drawing=self._plan.svg, height=f"{self._plan.height:.4f}", kernel=kernel_id())
        self.on_msg(lambda _, content, __: self.look(content.get("student", "")))
        self.look()

    def look(self, student=""):
        """Look at the answer sheets again, and show a student: without one, the folder's own or whoever answered last.

        In a course with one folder for all, nobody's points are shown before somebody is chosen.
        """
        enrolled = how_far.enrolled_in(self.folder)
        known = [enrolled.student] if enrolled.student else sheets_in(self.folder)
        if student not in known:
            is_shared = enrolled.exercises and not enrolled.student
            student = known[0] if known and not is_shared else ""
        found = how_far.standings(self.folder, student)
        stops = [
            self._stop(lesson, spot, found[lesson.name]) for lesson, spot in zip(LESSONS, self._plan.spots, strict=True)
        ]
        said = _says(student, known, [(lesson, found[lesson.name]) for lesson in LESSONS])
        pocket = pocket_list.page(self._still(), found if student else {}, student, self.folder.parent / "notebooks")
        self.now = {"student": student, "known": known, "said": said, "stops": stops, "pocket": pocket}

    def _stop(self, lesson, spot, standing):
        return {
            "number": lesson.number,
            "title": lesson.title,
            "file": lesson.file,
            "question": lesson.question,
            "about": _about(lesson),
            "x": f"{spot.x:.4f}",
            "y": f"{spot.y:.4f}",
            "state": standing.state,
            "share": round(standing.share, 3),
            "says": standing.says,
        }

    def _still(self):
        return self._plan.still([lesson.number for lesson in LESSONS])

    def _repr_mimebundle_(self, **kwargs):
        made = super()._repr_mimebundle_(**kwargs)
        data, *more = made if isinstance(made, tuple) else (made,)
        # The same whoever opens it: a stored notebook names nobody.
        alt = f"The {self._craft.name} from above, with the stops on the path that the pilot walks round it, clockwise."
        stops = "".join(
            f'<li value="{x.number}"><a href="{x.file}">{escape(x.title)}</a>: {escape(x.question)} '
            f'{escape(_about(x))} · <a href="../exercises/{x.file}">Exercise {x.number}</a></li>'
            for x in LESSONS
        )
        picture = f'<img src="data:image/svg+xml,{quote(self._still())}" alt="{escape(alt)}" width="560">'
        data["text/html"] = f"{picture}<ol>{stops}</ol><p>{TASK}</p>"
        data["text/plain"] = "\n".join(f"{x.number} {x.title}: {x.question}" for x in LESSONS)
        return (data, *more) if more else data


def _about(lesson):
    return f"{lesson.minutes}\u00a0min" + f" · task {lesson.tasks}" * bool(lesson.tasks)


def _says(student, known, found):
    """What is said of the whole round: how much is done, and which stop comes next."""
    if known and not student:
        return "Choose your id below to see what you have done."
    if not student:
        return f"Nobody has begun an exercise on this computer yet. Begin with stop {LESSONS[0].number}."
    states = [standing.state for _, standing in found]
    done, work = states.count(how_far.DONE), states.count(how_far.IN_WORK)
    text = f"{student.strip()}: {done} of {len(states)} stops done" + f", {work} in work" * bool(work)
    earned, full = (sum(x) for x in zip(*((s.earned, s.full) for _, s in found), strict=True))
    text += f", {earned} of {full} points in what is begun. "
    undone = [lesson for lesson, standing in found if standing.state != how_far.DONE]
    if not undone:
        return text + "The whole round is done."
    return text + f"Next: stop {undone[0].number}, {undone[0].title}."


def round_map(folder="../exercises", aircraft_file="morrowlark_four"):
    """Show the walkaround's stops on a map, with what is done; `folder` is that of the exercises."""
    return RoundMap(folder, aircraft.with_sections(aircraft_file, "dimensions"))
