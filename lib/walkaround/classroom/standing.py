"""Where each student stands at each stop, from marked sheets, and the stop that needs another lesson: one page."""

from collections import Counter
from dataclasses import dataclass
from typing import NamedTuple

from walkaround.classroom import in_class, tables
from walkaround.classroom.course_file import KEPT
from walkaround.classroom.gradebook import BY_HAND, NOT_SET, UNDECIDED, write_if_new
from walkaround.classroom.pages import page, part
from walkaround.classroom.texts import number_of
from walkaround.exercises.how_far import DONE, IN_WORK, NOT_BEGUN

PAGE, TABLE = "where-they-stand.html", "where-they-stand.csv"
COLUMNS = ("id", "name", "group", "stop", "exercise", "state", "questions done", "questions", "points", "of", "percent")
ENOUGH = 5  # sheets, or those of half a small class: with fewer, a stop is not judged; a rule of thumb
GOOD = 0.8  # of the points of what was answered: no need of another lesson; common practice, no source


class Place(NamedTuple):
    """Where one student stands at one stop: a state, questions done and how many there are, points and full marks."""

    state: str
    done: int
    questions: int
    points: float
    of: float

    @property
    def percent(self):
        """Points as a percentage of full marks."""
        return 100 * self.points / self.of if self.of else 0.0


class Hardest(NamedTuple):
    """The slip that cost a stop most points: how many `students` made it, and how many of them never earned these."""

    slip: str
    question: str
    key: str
    students: int
    lost: int

    @property
    def says(self):
        """It in words."""
        some = f", and {self.lost} of them never earned the points" * bool(self.lost)
        never = " and never earned the points" if self.lost == self.students else some
        return f"“{self.slip}” in “{self.question}”: {number_of(self.students, 'student')} made it{never}"


@dataclass(frozen=True)
class Stop:
    """One stop over the class: how many stand where, and the `share` of the points of what was answered, or None.

    `number` is empty where the exercise is no lesson's. A group that hands in together counts once.
    """

    name: str
    number: str
    title: str
    done: int
    in_work: int
    not_begun: int
    share: float | None
    hardest: Hardest | None

    @property
    def enough(self):
        """Whether so many have handed in that the stop can be judged."""
        sheets = self.done + self.in_work
        return self.share is not None and sheets >= min(ENOUGH, (sheets + self.not_begun + 1) // 2)


def place(course, standing):
    """Return the `Place` of a `gradebook.Standing`; None where the exercise is not set."""
    if standing.status == NOT_SET:
        return None
    state, done, questions = NOT_BEGUN, 0, 0
    if standing.mark:
        questions = len(standing.mark.questions)
        done = sum(_is_closed(course, standing, q) for q in standing.mark.questions)
        state = (
            DONE
            if done == questions
            else IN_WORK
            if any(q.tries or q.worked for q in standing.mark.questions)
            else state
        )
    if standing.status in (BY_HAND, UNDECIDED):
        state = standing.status
    return Place(state, done, questions, standing.points, standing.of)


def _is_closed(course, standing, q):
    return q.tries > 0 if course.exercise(standing.exercise).kind == KEPT else q.closed


def stops(course, rows):
    """Return a `Stop` for each exercise of the course, from the rows of the gradebook."""
    parties = {r.party.id: r for r in rows}.values()
    return tuple(_stop(course, e.name, [r.standings[i] for r in parties]) for i, e in enumerate(course.exercises))


def _stop(course, name, standings):
    lesson = in_class.lesson_of(course, name)
    states = Counter(p.state for p in (place(course, s) for s in standings) if p)
    marks = [s.mark for s in standings if s.mark]
    answered = [q for m in marks for q in m.questions if q.tries or q.worked]
    of = sum(q.of for q in answered)
    return Stop(
        name,
        str(lesson.number) if lesson else "",
        course.title(name),
        done=states[DONE] + states[BY_HAND],
        in_work=states[IN_WORK],
        not_begun=states[NOT_BEGUN],
        share=sum(q.earned for q in answered) / of if of else None,
        hardest=_hardest(course, name, answered),
    )


def _hardest(course, name, answered):
    made: Counter[tuple[str, str]] = Counter()
    lost: Counter[tuple[str, str]] = Counter()
    for q in answered:
        for slip in set(q.slips):
            made[slip, q.key] += 1
            lost[slip, q.key] += q.of if not q.earned else 0
    if not made:
        return None
    slip, key = max(made, key=lambda one: (lost[one], made[one], one))
    never = sum(slip in q.slips and not q.earned for q in answered if q.key == key)
    title = next(q.title for q in course.paper(name, "anyone").questions if q.key == key)
    return Hardest(slip, title, key, made[slip, key], never)


def weakest(found):
    """Return the stop, of those with enough sheets, whose answers earned the smallest share; None without one."""
    return min((s for s in found if s.enough), key=lambda s: s.share, default=None)


def need(course, found):
    """Return what to teach again and why, as an `in_class.Showing` with its demonstration if there is one."""
    stop = weakest(found)
    if stop is None:
        return in_class.Showing("Too few sheets have come back to say which stop needs another lesson.")
    title = f"{stop.number} {stop.title}".strip()
    earned = f"{100 * stop.share:.0f} % of the points of what was answered"
    if stop.share >= GOOD:
        return in_class.Showing(f"No stop needs another lesson: even {title}, the weakest, earned {earned}.")
    why = f"{title} needs another lesson: it earned {earned}."
    if not stop.hardest:
        return in_class.Showing(f"{why} No answer matched a slip that is known by name.")
    return in_class.showing(course, stop.name, stop.hardest.key, f"{why} Its hardest slip is {stop.hardest.says}.")


def write(course, rows):
    """Write the page and the table into the results folder, unless they hold just that already."""
    write_if_new(course.results / PAGE, standing_page(course, rows), private=True)
    write_if_new(course.results / TABLE, table_data(course, rows), private=True)


def standing_page(course, rows):
    """Return the page as bytes."""
    return page(f"Where they stand: {course.name}", "standing_page.html", course=course, **_values(course, rows, rows))


def standing_part(course, rows, shown):
    """Return the page's two tables as HTML, without what needs another lesson; the second has only the rows `shown`."""
    return part("standing.html", **_values(course, rows, shown) | {"need": None})


def _values(course, rows, shown):
    found = stops(course, rows)
    lines = [(r, [place(course, s) for s in r.standings]) for r in shown]
    return {"need": need(course, found), "weakest": weakest(found), "stops": found, "lines": lines, "good": GOOD}


def table_data(course, rows):
    """Return a line for each student and stop as the bytes of a table."""
    numbers = {s.name: s.number for s in stops(course, rows)}
    lines = []
    for r in rows:
        for standing in r.standings:
            if p := place(course, standing):
                who = (r.student.id, r.student.name, r.student.group, numbers[standing.exercise], standing.exercise)
                lines.append((*who, p.state, p.done, p.questions, p.points, p.of, round(p.percent, 1)))
    return tables.data_of(COLUMNS, lines, course.file.gradebook_delimiter)
