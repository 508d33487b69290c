"""Marks set by hand: a small table in the course folder, each with its reason. They stay when all is marked again."""

from dataclasses import dataclass

from walkaround.assessment.files import remove_parts, write_whole
from walkaround.assessment.variant import same_name
from walkaround.classroom import tables
from walkaround.classroom.lock import locked
from walkaround.classroom.texts import shown

FILE = "overrides.csv"
COLUMNS = ("id", "exercise", "points", "reason")


@dataclass(frozen=True)
class Override:
    """A mark set by hand."""

    id: str
    exercise: str
    points: float
    reason: str


def read(course):
    """Read the marks set by hand; returns them by (party's id, exercise), and notices of lines that can't be used."""
    path = course.folder / FILE
    if not path.exists():
        return {}, ()
    table = tables.read(path)
    # A line with too many cells: a decimal comma, or a comma in the reason, has moved what comes after it.
    shifted = {n.partition(":")[0] for n in table.notices}
    found, notices = {}, [n for n in table.notices if ", line " not in n]
    missing = [c for c in COLUMNS if c not in [t.casefold() for t in table.columns]]
    if missing:
        return {}, (*notices, f"{FILE}: the column {missing[0]!r} is missing; wanted: {', '.join(COLUMNS)}")
    for line, row in table.rows:
        row = {column.casefold(): value for column, value in row.items()}
        try:
            if f"{FILE}, line {line}" in shifted:
                allowed = 'a decimal point, and "quotes" round a text with commas'
                raise ValueError(f"more cells than columns; allowed: {allowed}")
            made = _checked(course, row["id"], row["exercise"], row["points"], row["reason"])
            key = (course.party(made.id).id, made.exercise)
            if key in found:
                again = f"there is a line above for {shown(made.id)} in {made.exercise} already"
                notices.append(f"{FILE}, line {line}: {again}; this one counts")
            found[key] = made
        except ValueError as error:
            notices.append(f"{FILE}, line {line}: {error}; left out")
    return found, tuple(notices)


def set_by_hand(course, student_id, exercise, points, reason):
    """Set a mark by hand, instead of one set before; raises ValueError in words."""
    made = _checked(course, student_id, exercise, str(points), reason)
    with locked(course.folder, "setting a mark"):
        remove_parts(course.folder)
        kept, notices = read(course)
        if any("left out" in n or "missing" in n for n in notices):
            raise ValueError(f"{notices[0]}. Mend the file {FILE} first")
        kept[(course.party(made.id).id, made.exercise)] = made
        rows = [(o.id, o.exercise, o.points, o.reason) for o in kept.values()]
        write_whole(course.folder / FILE, tables.data_of(COLUMNS, rows, course.file.gradebook_delimiter), private=True)


def _checked(course, student_id, exercise, points, reason):
    party = course.party(student_id)
    if party is None:
        raise ValueError(course.not_in_roster(student_id))
    names = [e.name for e in course.exercises]
    exercise = same_name(exercise)
    if exercise not in names:
        raise ValueError(f"the exercise is {shown(exercise)!r}; allowed: {', '.join(names)}")
    most = course.points(exercise)
    try:
        value = float(points.replace(",", "."))
    except ValueError:
        value = -1.0
    if not 0 <= value <= most:
        raise ValueError(f"points are {shown(points)!r}; allowed: 0 to {most:g}")
    if not reason.strip():
        raise ValueError("the reason is missing; a mark set by hand needs one")
    return Override(party.id, exercise, value, shown(reason, 300))
