"""Answers on paper, typed into a table by the instructor and made into answer sheets, which are marked like any other.

Such a sheet is signed with a key that no student ever gets, so the marking knows who vouches for its times.
"""

import re
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from string import ascii_uppercase

from walkaround import measures
from walkaround.assessment import answer_sheet, typed
from walkaround.assessment.files import write_whole
from walkaround.assessment.judging import judge
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, Question
from walkaround.classroom import tables
from walkaround.classroom.course import Course, Party
from walkaround.classroom.course_file import KEPT, SetExercise
from walkaround.classroom.lock import locked
from walkaround.classroom.texts import number_of, shown

FOLDER = "typed in"  # in the folder of what was collected
ID, NAME, EXERCISE, HANDED_IN = "id", "name", "exercise", "handed in"
HOW = {CHOICE: "one letter", CHOICES: "letters such as A C", ORDER: "numbers in the boxes such as 3 1 2"}
DATES = "a date such as 2026-03-27, or 2026-03-27 16:30"
MOST_PROBLEMS = 20
_YEAR_FIRST = re.compile(r"(\d{4})-(\d\d?)-(\d\d?)(?:[ T]+(\d\d?):(\d\d)(?::\d\d)?)?")
_YEAR_LAST = re.compile(r"(\d\d?)([./-])(\d\d?)\2(\d{4})(?: +(\d\d?):(\d\d)(?::\d\d)?)?")
_COMMA = re.compile(r"[+−-]?\d+,(\d{1,2}|\d{4,})")  # surely a decimal comma


@dataclass(frozen=True)
class TypedIn:
    """What was typed in: sheets written, how many rows were the same as before or empty, rows without a date."""

    written: tuple[Path, ...]
    same: int
    empty: int
    undated: int
    again: tuple[str, ...]

    def says(self, course):
        """Say what came of it, a line for each thing."""
        lines = [f"{number_of(len(self.written), 'answer sheet')} written to {course.collected / FOLDER}."]
        lines += [f"{number_of(self.same, 'row')} typed in before: nothing new."] * bool(self.same)
        lines += [f"{number_of(self.empty, 'row')} without an answer: left out."] * bool(self.empty)
        if self.undated and self.written:
            lines.append(f"{number_of(self.undated, 'row')} without a date: counted as handed in on time.")
        if self.again:
            lines.append(f"Typed in once more, and only the last counts: {', '.join(self.again)}.")
        if self.written:
            lines.append(
                "Sheets that students handed in themselves stay. Where there are both, the course's rule says which "
                f'counts (copies = "{course.file.copies}"). Mark now.'
            )
        return lines


def table_to_fill(course, papers):
    """Return the table for one exercise as bytes: a row for each (party, paper), a column for each question.

    The head of a column says how its answers are written.
    """
    papers = list(papers)
    columns = [_head(number, [paper.questions for _, paper in papers]) for number in _numbers(papers)]
    rows = [(party.id, party.name, paper.exercise, "", *[""] * len(columns)) for party, paper in papers]
    return tables.data_of((ID, NAME, EXERCISE, HANDED_IN, *columns), rows, course.file.gradebook_delimiter)


def _numbers(papers):
    return range(1, 1 + max(len(paper.questions) for _, paper in papers))


def _head(number, all_questions):
    asked = [questions[number - 1] for questions in all_questions if len(questions) >= number]
    titles, hows = ({of(q) for q in asked} for of in (lambda q: q.title, lambda q: HOW.get(q.kind, q.unit or "number")))
    # A mark that could be taken for the delimiter has no place in a head.
    title = re.sub(r"[,;|\t]", "", titles.pop() if len(titles) == 1 else "")
    how = hows.pop() if len(hows) == 1 else "as on the paper"
    return " ".join(f"{number} {title}".split()) + f" ({how})"


def not_begun(path):
    """Return where a table may be written: the path, with a number behind it if somebody has begun to fill that in.

    >>> not_begun(Path("no-such-folder/answers.csv")).name
    'answers.csv'
    """
    number, free = 1, path
    while free.exists() and _is_begun(free):
        number += 1
        free = path.with_name(f"{path.stem} ({number}){path.suffix}")
    return free


def _is_begun(path):
    try:
        table = tables.read(path)
    except ValueError:
        return True
    return any(text for _, row in table.rows for column, text in row.items() if column not in (ID, NAME, EXERCISE))


def type_in(course, files, now=None):
    """Make answer sheets of tables that were filled in, and write them to the course's collected folder.

    Returns `TypedIn`. Raises ValueError in words naming file, line, column, value and what is allowed, and writes
    nothing then.
    """
    with locked(course.folder, "typing in"):
        reader = _Reader(course, now or datetime.now(UTC))
        for path in files:
            reader.read(Path(path))
        return reader.write()


class _Reader:
    """Reads tables; keeps what is wrong, and the rows until all of them are known to be sound."""

    def __init__(self, course: Course, now: datetime) -> None:
        self.course, self.now = course, now
        self.problems: list[str] = []
        self.rows: dict[tuple[str, str], dict[str, answer_sheet.Record]] = {}
        self.lines: dict[tuple[str, str], str] = {}
        self.undated: set[tuple[str, str]] = set()
        self.empty = 0

    def read(self, path: Path) -> None:
        """Read one table."""
        table = tables.read(path)
        columns = {c.casefold(): c for c in table.columns}
        if ID not in columns:
            raise ValueError(f"{path.name}: no column is called id; allowed: a table as `walkaround print` writes it")
        numbers: dict[int, str] = {}
        for column in table.columns:
            found = re.match(r"(\d+)\b", column)
            if found and int(found[1]) in numbers:
                raise ValueError(f"{path.name}: two columns are for question {found[1]}; allowed: one for each")
            if found:
                numbers[int(found[1])] = column
        # Otherwise a decimal comma has moved the answers after it into other columns unnoticed.
        self.problems += [
            f"{notice.partition(':')[0]}: more cells than columns; allowed: quotes round a number with a decimal comma"
            for notice in table.notices
            if "more cells" in notice
        ]
        commas = table.delimiter == ";" or any(_COMMA.fullmatch(cell) for _, row in table.rows for cell in row.values())
        known = {columns.get(c) for c in (ID, NAME, EXERCISE, HANDED_IN, "group")} | {*numbers.values()}
        for line, row in table.rows:
            here = f"{path.name}, line {line}"
            for column in table.columns:
                if column not in known and row[column]:
                    self._wrong(here, column, row[column], "a column that begins with the number of its question")
            exercise = self._exercise(here, row.get(columns.get(EXERCISE, ""), ""))
            stated = row[columns[ID]], row.get(columns.get(NAME, ""), "")
            party = self.course.party(stated[0]) or self.course.party_without_zeros(*stated)
            if party is None:
                self.problems.append(f"{here}, column id: {self.course.not_in_roster(stated[0])}")
            elif exercise and exercise not in self.course.set_for(party):
                self._wrong(here, EXERCISE, exercise.name, f"an exercise that is set for {party.id}")
            elif exercise:
                given = {n: _pointed(row[c]) if commas else row[c] for n, c in numbers.items() if row[c]}
                self._row(here, party, exercise, given, numbers, row.get(columns.get(HANDED_IN, ""), ""))

    def _wrong(self, here: str, column: str, value: str, allowed: str) -> None:
        self.problems.append(f"{here}, column {shown(column, 40)!r}: {shown(value, 60)!r}; allowed: {allowed}")

    def _exercise(self, here: str, name: str) -> SetExercise | None:
        exercises = self.course.exercises
        if not name and len(exercises) == 1:
            return exercises[0]
        if (found := self.course.exercise(name.strip().casefold())) is None:
            self._wrong(here, EXERCISE, name, ", ".join(e.name for e in exercises))
        return found

    def _row(
        self,
        here: str,
        party: Party,
        exercise: SetExercise,
        given: dict[int, str],
        heads: dict[int, str],
        handed_in: str,
    ) -> None:
        place = party.id, exercise.name
        if place in self.lines:
            self._wrong(here, ID, party.id, f"one row for each student in {exercise.name}; {self.lines[place]} has one")
            return
        self.lines[place] = here
        try:
            at = self._moment(exercise, handed_in)
        except ValueError as error:
            self._wrong(here, HANDED_IN, handed_in, str(error))
            at = ""  # the cells are looked at all the same
        if not given:
            self.empty += 1
            return
        if not handed_in:
            self.undated.add(place)
        questions = self.course.paper(exercise.name, party.id).questions
        answers: dict[str, answer_sheet.Record] = {}
        for number, text in given.items():
            if not 1 <= number <= len(questions):
                self._wrong(here, heads[number], text, f"questions 1 to {len(questions)}")
                continue
            q = questions[number - 1]
            try:
                keys = read_answer(q, text, _unit_of(heads[number]))
                judge(q, keys, self.course.rules)
            except ValueError as error:
                self.problems.append(f"{here}, column {shown(heads[number], 40)!r}: {shown(text, 60)!r}; {error}")
                continue
            if exercise.kind == KEPT:
                keys = _places(q, keys)
            answers[q.key] = {"tries": [{"given": keys, "at": at}], "hint": False, "worked_after": None}
        self.rows[place] = answers

    def _moment(self, exercise: SetExercise, text: str) -> str:
        """When a paper was handed in, as a sheet has it; on time where no date is given."""
        due, starts = self.course.due(exercise), self.course.file.starts
        zone = due.tzinfo if due else starts.tzinfo if starts else self.now.astimezone().tzinfo
        if not text:
            at = min(self.now, due) if due else self.now
            at = max(at, starts) if starts else at
        else:
            at = handed_in_at(text, zone)
            if starts and at.date() == starts.astimezone(zone).date():
                at = max(at, starts)
            if at > self.now:
                raise ValueError("a day that is not in the future")
            if starts and at < starts:
                raise ValueError(f"a day after the course began, {starts:%Y-%m-%d}")
        return at.astimezone(UTC).isoformat(timespec="milliseconds")

    def write(self) -> TypedIn:
        """Write a sheet for every row that has something new; nothing if anything is wrong."""
        if self.problems:
            more = len(self.problems) - MOST_PROBLEMS
            lines = self.problems[:MOST_PROBLEMS] + [f"and {more} more"] * (more > 0)
            raise ValueError("\n".join([*lines, "Nothing was written: put this right, and type in again."]))
        folder = self.course.collected / FOLDER
        folder.mkdir(parents=True, exist_ok=True)
        written, same, again = [], 0, []
        for (student, exercise), answers in self.rows.items():
            name = answer_sheet.file_name(exercise, student)
            before = _typed_before(folder, name)
            last = max(before, key=lambda sheet: sheet["saved"])["answers"] if before else None
            if last == answers or (last and (student, exercise) in self.undated and _given(last) == _given(answers)):
                same += 1
                continue
            path, number = folder / name, 1
            while path.exists():
                number += 1
                path = folder / name.replace(answer_sheet.ENDING, f" ({number}){answer_sheet.ENDING}")
            if before:
                again.append(f"{student} ({exercise})")
            saved = self.now.astimezone(UTC).isoformat(timespec="milliseconds")
            key = self.course.typed_in_key(student)
            data = answer_sheet.data_of(self.course.name, student, exercise, saved, answers, key)
            write_whole(path, data, private=True)
            written.append(path)
        return TypedIn(tuple(written), same, self.empty, len(self.undated), tuple(again))


def _pointed(text: str) -> str:
    """A cell of a table with decimal commas, so that 2,642 is read as 2.642, and not as a thousand."""
    return text.replace(",", ".") if typed.two_readings(text) else text


def _typed_before(folder: Path, name: str) -> list[answer_sheet.Sheet]:
    """The sheets that were typed in for one student and exercise before."""
    stem, found = name.removesuffix(answer_sheet.ENDING), []
    for path in folder.glob(f"*{answer_sheet.ENDING}"):
        if re.fullmatch(rf"{re.escape(stem)}( \(\d+\))?", path.name.removesuffix(answer_sheet.ENDING)):
            try:
                found.append(answer_sheet.parse(path.read_bytes()))
            except ValueError:
                continue
    return found


def _given(answers: dict[str, answer_sheet.Record]) -> dict[str, list[str | list[str]]]:
    return {key: [t["given"] for t in record["tries"]] for key, record in answers.items()}


def _unit_of(head: str) -> str:
    """The unit that a column's head names: that of the papers, which the course may have changed since."""
    found = re.search(r"\(([^()]+)\)$", head)
    return found[1] if found and measures.in_both(found[1]) else ""


def read_answer(question: Question, text: str, unit: str = "") -> str | list[str]:
    """Read an answer as it stands on paper, and return it as an answer sheet has it.

    A number is in the question's unit unless another is named. A choice is a letter, several are letters in any order,
    an order is the numbers in the boxes from top to bottom.
    Raises ValueError saying what is allowed.

    >>> from walkaround.assessment.builders import order
    >>> tow = [("brake", "Parking brake off"), ("bar", "Tow bar on"), ("pull", "Pull")]
    >>> read_answer(order("tow", "Tow", "?", steps=tow, shown=tow[::-1], points=1, hint=""), "3 2 1")
    ['brake', 'bar', 'pull']
    """
    if question.kind == NUMBER:
        # So that it stays what it was if the course changes its units.
        return typed.in_unit(text, unit or question.unit)
    keys = [key for key, _ in question.options]
    if question.kind == ORDER:
        figures = re.findall(r"\d+", text)
        if len(figures) == 1 and len(figures[0]) == len(keys) < 10:
            figures = list(figures[0])
        places = [int(figure) for figure in figures]
        if re.search(r"[^\d\s,;.-]", text) or sorted(places) != list(range(1, len(keys) + 1)):
            example = " ".join(str(n) for n in (len(keys), *range(1, len(keys))))
            raise ValueError(f"allowed: the numbers in the boxes from top to bottom, each once, such as {example}")
        return [key for _, key in sorted(zip(places, keys, strict=True))]
    letters = dict(zip(ascii_uppercase, keys, strict=False))
    chosen = re.sub(r"[\s,;.+&-]", "", text).upper()
    one = question.kind == CHOICE
    if not chosen or set(chosen) - set(letters) or len(set(chosen)) < len(chosen) or (one and len(chosen) > 1):
        what = "one letter" if one else "letters, each once,"
        raise ValueError(f"allowed: {what} of {' '.join(letters)}")
    return letters[chosen] if one else [letters[c] for c in sorted(chosen)]


def _places(question: Question, given: str | list[str]) -> str | list[str]:
    """An answer by the options' places, as a sheet of a kept exercise has it."""
    places = {key: str(place) for place, (key, _) in enumerate(question.options, 1)}
    return [places[key] for key in given] if isinstance(given, list) else places.get(given, given)


def handed_in_at(text, zone):
    """Read a date, with or without a time, in a time zone; a date alone is taken as the beginning of that day.

    Raises ValueError saying what is allowed; 3/4/2026 can be read in two ways and is refused.

    >>> handed_in_at("27.3.2026 16:30", UTC).isoformat()
    '2026-03-27T16:30:00+00:00'
    """
    text = " ".join(text.split())
    if found := _YEAR_FIRST.fullmatch(text):
        year, month, day, hour, minute = (int(part or 0) for part in found.groups())
    elif found := _YEAR_LAST.fullmatch(text):
        first, mark, second, year_text, *time = found.groups()
        day, month, year = int(first), int(second), int(year_text)
        if mark != ".":
            if day <= 12 and month <= 12 and day != month:
                raise ValueError(f"{DATES}: this one can be read in two ways")
            if month > 12:
                day, month = month, day
        hour, minute = (int(part or 0) for part in time)
    else:
        raise ValueError(DATES)
    try:
        return datetime(year, month, day, hour, minute, tzinfo=zone)
    except ValueError:
        raise ValueError(f"{DATES}: there is no such day or time") from None
