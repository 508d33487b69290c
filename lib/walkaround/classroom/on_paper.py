"""Exercises on paper: a student's questions with an answer grid, and the instructor's key, as pages to print."""

import math
import re
from dataclasses import dataclass, replace
from pathlib import Path
from string import ascii_uppercase

from walkaround.assessment.judging import judge
from walkaround.assessment.questions import CHOICE, NUMBER, ORDER, as_number
from walkaround.classroom import to_pdf, typed_in
from walkaround.classroom.gradebook import write_if_new
from walkaround.classroom.lock import locked
from walkaround.classroom.pages import printed_page
from walkaround.classroom.texts import file_stem, number_of

PRINTED, FOR_INSTRUCTOR = "printed", "instructor"


@dataclass(frozen=True)
class Printed:
    """What was printed: files for students, the instructor's files, and notices in words."""

    students: tuple[Path, ...]
    instructor: tuple[Path, ...]
    notices: tuple[str, ...] = ()

    def says(self):
        """Say what is where."""
        papers = number_of(len(self.students), "paper")
        key, *tables = (path.name for path in self.instructor)
        return (
            f"{papers} in {self.students[0].parent}. In the folder {FOR_INSTRUCTOR} there: {key}, and to type answers "
            f"into: {', '.join(tables)}."
        )


def print_course(course, folder=None, only="", sheet="A4", progress=lambda what, done, total: None):
    """Print the papers of a course, its key, and the tables that answers are typed into; returns `Printed`.

    `folder` is `printed` in the course's own unless one is given, `only` the name of an exercise, `sheet` A4 or Letter.
    Raises ValueError in words when an exercise can't be made or printed, OSError when a file can't be written.
    """
    if only and course.exercise(only) is None:
        raise ValueError(f"no exercise {only!r} is set; allowed: {', '.join(e.name for e in course.exercises)}")
    if asked := course.renamed() or course.zeros_lost():
        raise ValueError(asked)
    folder = Path(folder) if folder else course.folder / PRINTED
    with locked(course.folder, "printing"):
        papers = papers_of(course, only)
        if not papers:
            raise ValueError("there is nobody in the roster for whom an exercise is set: nothing to print")
        own = folder / FOR_INSTRUCTOR
        # The key takes longest, so it begins first.
        key, *students = to_pdf.write(
            [
                to_pdf.Document(own / "key", key_page(course, papers, sheet), private=True),
                *(
                    to_pdf.Document(folder / file_stem(p.id), paper_page(course, p, theirs, sheet))
                    for p, theirs in papers
                ),
            ],
            lambda done, total: progress("papers", done, total),
        )
        instructor = [key]
        for e in course.exercises:
            rows = [(party, paper) for party, theirs in papers for paper in theirs if paper.exercise == e.name]
            if rows:
                path = typed_in.not_begun(own / f"answers-{e.name}.csv")
                write_if_new(path, typed_in.table_to_fill(course, rows), private=True)
                instructor.append(path)
    notices = [*course.roster.notices, *[to_pdf.NEITHER] * (not to_pdf.can_print())]
    return Printed(tuple(students), tuple(instructor), tuple(notices))


def papers_of(course, only=""):
    """Return (party, their papers) for everyone for whom an exercise is set, in the order of the class list."""
    found = []
    for party in course.sorted_parties:
        papers = [course.paper(e.name, party.id) for e in course.set_for(party) if only in ("", e.name)]
        if papers:
            found.append((party, papers))
    return found


def paper_page(course, party, papers, sheet="A4"):
    """Return a party's papers as one page of HTML, as bytes; nothing on it tells an answer."""
    dues = [course.due(course.exercise(paper.exercise)) for paper in papers]
    return printed_page(
        f"{party.id}: {course.name}",
        "paper.html",
        sheet,
        left=course.name,
        right=party.id if party.name == party.id else f"{party.name} · {party.id}",
        heads=[f"{course.name} · {paper.title}" for paper in papers],
        course=course,
        party=party,
        papers=[
            (_asked(paper), course.points(paper.exercise), f"{due:%d %B %Y, %H:%M}" if due else "")
            for paper, due in zip(papers, dues, strict=True)
        ],
    )


def key_page(course, papers, sheet="A4"):
    """Return the instructor's key as one page of HTML, as bytes; `papers` is what `papers_of` returns."""
    return printed_page(
        f"Key: {course.name}",
        "key.html",
        sheet,
        left=course.name,
        right="Key for the instructor",
        course=course,
        parties=papers,
        right_answer=lambda q: right(q, course.rules),
        slips=lambda q: slips(q, course.rules),
    )


def _asked(paper):
    """A paper as a student may see it: whatever tells an answer is gone before a template sees it."""
    return replace(
        paper,
        givens=None,
        questions=tuple(
            q._replace(answer="", hint="", worked=(), wrong_turns=(), text=on_paper(q.text)) for q in paper.questions
        ),
    )


def on_paper(text):
    """Return a question's text without how many tries it has: on paper there is one.

    >>> on_paper("Your decision? You have two tries, at the most.")
    'Your decision?'
    """
    return re.sub(r"\s*You have (?:one try|two tries)[^.]*\.", "", text)


def given_on_paper(question, answer):
    """Write an answer as it stands on paper: letters of options, or for an order the numbers in the boxes.

    >>> from walkaround.assessment.builders import choices
    >>> q = choices("bag", "Bag", "Where?", answer=["a", "c"], options=[("a", "Seat"), ("b", "Lap"), ("c", "Hold")],
    ...     points=1, hint="", worked="")
    >>> given_on_paper(q, q.answer)
    'A C'
    """
    keys = [key for key, _ in question.options]
    if question.kind == ORDER:
        return " ".join(str(list(answer).index(key) + 1) for key in keys)
    wanted = {answer} if question.kind == CHOICE else answer
    return " ".join(letter for letter, key in zip(ascii_uppercase, keys, strict=False) if key in wanted)


def right(question, rules):
    """Write the right answer with its tolerance and unit, as the key has it."""
    if question.kind != NUMBER:
        return given_on_paper(question, question.answer)
    tolerance = question.tolerance * rules.tolerance_factor
    return f"{_number(as_number(question.answer), _decimals(tolerance) + 1)} ± {tolerance:.3g} {question.unit}".strip()


def slips(question, rules):
    """List (wrong answer, slip) as the key has them, each as marking would tell it; numbers are in the question's unit.

    Of two slips that give the same answer the list has the one that marking names.
    """
    found = []
    for turn in question.wrong_turns:
        for shown in _written(question, turn.answer):
            _, told, _ = judge(question, typed_in.read_answer(question, shown), rules)
            if told is not None and told.slip == turn.slip:
                found.append((shown, turn.slip or turn.says))
                break
    return list(dict.fromkeys(found))


def _written(question, wrong):
    """Ways to write a wrong answer: a number with as many decimals as tell it from right, then with more."""
    if question.kind != NUMBER:
        return [given_on_paper(question, wrong)]
    value, answer = as_number(wrong), abs(as_number(question.answer))
    # As near as a number has to come to be taken for this slip: see `judging`.
    size = max(1.0, abs(value) / answer) if answer else 1.0
    decimals = _decimals(min(question.tolerance * size, 0.02 * abs(value) + 0.05))
    return [_number(value, decimals + more) for more in (0, 1, 3)]


def _decimals(within):
    """How many decimals a number has that is rounded by no more than half of `within`."""
    return max(0, math.ceil(-math.log10(within)))


def _number(value, decimals):
    # A space between thousands: a comma could be read as a decimal comma when it is typed in.
    text = f"{value:,.{decimals}f}".replace(",", "\N{NO-BREAK SPACE}").replace("-", "−")
    return text.rstrip("0").rstrip(".") if "." in text else text
