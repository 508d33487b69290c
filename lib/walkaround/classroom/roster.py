"""The roster: who is in the course, from a table as a school's office exports it."""

from dataclasses import dataclass, field

from walkaround.assessment.variant import same_name
from walkaround.classroom import tables
from walkaround.classroom.texts import shown, sort_key

# Column names that are understood without being told, in small letters.
KNOWN = {
    "id": (
        *("id", "student id", "student number", "student no", "student no.", "number", "no", "no."),
        *("matriculation number", "registration number", "user", "username", "user name", "login", "code", "key"),
    ),
    "name": ("name", "full name", "student name", "display name"),
    "first name": ("first name", "first names", "given name", "given names", "forename", "forenames"),
    "last name": ("last name", "surname", "family name"),
    "group": ("group", "class", "section", "team", "course group", "set"),
    "mail": ("mail", "e-mail", "email", "email address", "e-mail address", "mail address"),
}
LONGEST_ID = 100


@dataclass(frozen=True)
class Student:
    """One student; `extra` has (column, value) pairs of what else the office knows.

    `sorted_as` is the name with the last name first, where the roster has one in a column of its own.
    """

    id: str
    name: str
    group: str = ""
    mail: str = ""
    extra: tuple[tuple[str, str], ...] = ()
    sorted_as: str = ""


def by_group_and_name(student):
    """Return what sorts students by group, name and id.

    >>> [s.id for s in sorted([Student("1", "Zoë", "b"), Student("2", "anna", "B")], key=by_group_and_name)]
    ['2', '1']
    """
    group, _ = sort_key(student.group)
    return group, sort_key(student.sorted_as or student.name), sort_key(student.id)


@dataclass(frozen=True)
class Roster:
    """Students in the file's order; `notices` say in words what was odd. Case makes no difference in an id.

    `clashes` are those of the notices that name a student whose id belongs to somebody else.
    """

    students: tuple[Student, ...]
    notices: tuple[str, ...] = ()
    extra_columns: tuple[str, ...] = ()
    clashes: tuple[str, ...] = ()
    _by_id: dict[str, Student] = field(default_factory=dict, repr=False, compare=False)

    def __post_init__(self):
        self._by_id.update({same_name(s.id): s for s in self.students})

    def find(self, student_id):
        """Return the student with that id, in small letters or capitals, or None."""
        return self._by_id.get(same_name(student_id))


def read(path, named=None):
    """Read a roster; `named` maps id, name, first name, last name, group or mail to the file's own column names.

    Raises ValueError when the file can't be read or has no column of ids.
    """
    table = tables.read(path)
    return from_table(table, path.name, named or {})


def from_table(table, file_name, named):
    """Make a roster of a table; raises the same errors as `read`."""
    places = {}
    for role, names in KNOWN.items():
        wanted = [named[role].casefold()] if role in named else names
        found = [c for w in wanted for c in table.columns if c.casefold() == w]
        if role in named and not found:
            raise ValueError(f"{file_name}: there is no column {named[role]!r}; {_columns(table)}")
        if found:
            places[role] = found[0]
    if "id" not in places:
        raise ValueError(
            f"{file_name}: no column is called id; {_columns(table)}. Call one of them id, or name it in course.toml: "
            '[roster_columns] id = "…"'
        )
    extra_columns = tuple(c for c in table.columns if c not in places.values())
    students, notices, clashes = [], list(table.notices), []
    lines: dict[str, tuple[int, str]] = {}
    for line, row in table.rows:
        here = f"{file_name}, line {line}"
        if any("\n" in value for value in row.values()):  # it may have swallowed students
            notices.append(f"{here}: a cell runs on over the next lines; is a quotation mark missing?")
        get = {role: row[column] for role, column in places.items()}
        name = get.get("name") or " ".join(p for p in (get.get("first name"), get.get("last name")) if p)
        key = same_name(get["id"])
        if not any(c.isalnum() for c in key) or len(key) > LONGEST_ID:
            allowed = f"letters or figures, up to {LONGEST_ID}"
            notices.append(f"{here}: the id is {shown(get['id'])!r}; allowed: {allowed}. The line is left out")
        elif key in lines:
            first, whose = lines[key]
            notices.append(f"{here}: the id {shown(get['id'])!r} is in line {first} already; this line is left out")
            if same_name(name) != same_name(whose):
                notices[-1] += f", and {shown(name)} gets nothing: the id is {shown(whose)}'s"
                clashes.append(notices[-1])
        else:
            lines[key] = line, name
            extra = tuple((c, row[c]) for c in extra_columns)
            last_first = f"{get['last name']} {get.get('first name', '')}" if get.get("last name") else ""
            group, mail = get.get("group", ""), get.get("mail", "")
            students.append(Student(get["id"], name or get["id"], group, mail, extra, last_first))
    lengths = {len(s.id) for s in students}
    if len(lengths) > 1 and max(lengths) > 3 and all(s.id.isdecimal() and s.id[0] != "0" for s in students):
        notices.append(
            f"{file_name}: the ids have {min(lengths)} to {max(lengths)} figures; if your school's begin with zeros, a "
            "spreadsheet has dropped them: put them back before you hand out"
        )
    if not students:
        notices.append(f"{file_name}: there is no student in it; wanted: a line for each, below the names of columns")
    return Roster(tuple(students), tuple(notices), extra_columns, tuple(clashes))


def _columns(table):
    return "its columns are: " + ", ".join(shown(c, 40) for c in table.columns[:20])
