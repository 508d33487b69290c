"""A made-up course to try everything with: invented people of mixed ability, their answers, and the usual mishaps.

It is the same every time.
"""

import math
import random
from datetime import UTC, datetime, timedelta
from pathlib import Path

from walkaround.aircraft.people import PILOTS
from walkaround.assessment import answer_sheet
from walkaround.assessment.files import write_whole
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER
from walkaround.classroom import tables
from walkaround.classroom.course import COLLECTED, read_course
from walkaround.classroom.course_file import KEPT

NAME = "Quillmoor ground school (invented)"
DUE = datetime(2025, 3, 28, 17, 0, tzinfo=UTC)
PEOPLE = (
    *PILOTS,
    *("Jonas Ferreira", "Aiko Marchetti", "Leila Haddad-Bruun", "Piotr Adeyemi", "Clara Ouedraogo", "Henrik Solano"),
    *(
        "Mei Vasquez",
        "Oskar Ndiaye",
        "Rosa Takala",
        "Dario Mensah",
        "Freya Castellanos",
        "Anton Wairimu",
        "Noor Eklund",
    ),
)
TEMPLATE = Path(__file__).parent / "question_template.py"

COURSE = f'''\
# An invented course, to try the instructor's page with.
name = "{NAME}"
secret = "invented-secret-of-an-invented-course"
due = {DUE.isoformat()}
tries = 3
worked_answers_before_due = false

[late]
accepted_days = 7
loses_percent_per_day = 10

[[exercises]]
name = "loading"
points = 20

[[exercises]]
name = "bags"
kind = "kept"
questions = "bags.py"
'''


def make(folder):
    """Write the made-up course into a folder, with what has come back from its students; returns the folder."""
    folder = Path(folder)
    back = folder / COLLECTED
    (back / "by mail").mkdir(parents=True, exist_ok=True)
    write_whole(folder / "course.toml", COURSE.encode("utf-8"), private=True)
    write_whole(folder / "bags.py", TEMPLATE.read_bytes())
    people = [(f"Q{i:03d}", name, "AB"[i % 2], "Quillmoor") for i, name in enumerate(PEOPLE, 1)]
    write_whole(folder / "roster.csv", tables.data_of(("id", "name", "group", "home field"), people), private=True)
    course = read_course(folder)
    for i, party in enumerate(course.parties):
        dice = random.Random(i)
        for number, exercise in enumerate(course.exercises):
            if (i, number) in ((5, 0), (11, 1), (16, 0), (16, 1)):
                continue  # not handed in
            begun = DUE + timedelta(hours=30) if i == 9 else DUE - timedelta(days=2 + i % 5, hours=i % 7)
            answers = made_answers(course.paper(exercise.name, party.id), 1.4 - 0.17 * i, dice, begun)
            if (i, number) == (13, 0):  # another's answers under their own name
                other = course.parties[2]
                answers = made_answers(course.paper(exercise.name, other.id), 2.5, random.Random(99), begun)
            if exercise.kind == KEPT:
                answers = _by_place(course.paper(exercise.name, party.id), answers)
            name = answer_sheet.file_name(exercise.name, party.id)
            write_whole(back / name, sheet_data(course, party.id, exercise.name, answers))
    first = answer_sheet.file_name("loading", "Q001")
    write_whole(back / "by mail" / f"copy of {first}", (back / first).read_bytes())
    write_whole(back / "by mail" / "loading-q006.answers.json", b'{"format": "walkaround answer sheet", "vers')
    stranger = made_answers(course.paper("loading", "Q999"), 0.0, random.Random(7), DUE - timedelta(days=1))
    write_whole(back / "by mail" / "loading-q999.answers.json", sheet_data(course, "Q999", "loading", stranger))
    # Somebody else's answers under the id of a good student: nobody but she can sign them.
    forged = made_answers(course.paper("loading", "Q001"), -9.0, random.Random(8), DUE - timedelta(hours=1))
    forged_data = answer_sheet.data_of(course.name, "Q001", "loading", "", forged)
    write_whole(back / "by mail" / "loading-q001.answers.json", forged_data)
    write_whole(back / "by mail" / "apology.txt", b"Dear instructor, my dog has eaten my stick.\n")
    return folder


def made_answers(paper, skill, dice, begun, tries=3):
    """Return the answers of a made-up student, as a sheet holds them.

    `skill` is about -2 to 3, `dice` a random.Random, `begun` an aware datetime.
    """
    answers, at = {}, begun
    for number, q in enumerate(paper.questions):
        # The logistic curve of item response theory, harder towards the end of the paper.
        chance = 1 / (1 + math.exp(-(skill - 0.25 * number + 1.2)))
        entry = {"tries": [], "hint": dice.random() < 0.2, "worked_after": None}
        for _ in range(tries):
            right = dice.random() < chance
            at += timedelta(minutes=dice.uniform(1, 6))
            entry["tries"].append({"given": given(q, q.answer) if right else wrong(q, dice), "at": stamp(at)})
            if right or dice.random() < 0.15:
                break
        answers[q.key] = entry
    return answers


def _by_place(paper, answers):
    """Answers as they are given to a paper without answers: options by their places."""
    for q in paper.questions:
        places = {key: str(place) for place, (key, _) in enumerate(q.options, 1)}
        for t in answers[q.key]["tries"] if places else ():
            given = t["given"]
            t["given"] = [places[g] for g in given] if isinstance(given, list) else places[given]
    return answers


def stamp(moment):
    """Write a moment as an answer sheet does."""
    return moment.astimezone(UTC).isoformat(timespec="milliseconds")


def given(question, answer):
    """Write an answer as a student would give it: a typed number, an option's key, or a list of keys."""
    if question.kind == NUMBER:
        text = f"{answer:.8g}"
        # Three figures after a point could be thousands; a fourth leaves one reading.
        return f"{text}0" if len(text.partition(".")[2]) == 3 else text
    return answer if question.kind == CHOICE else sorted(answer) if question.kind == CHOICES else list(answer)


def wrong(question, dice):
    """Return a wrong answer, more often than not one of the usual slips."""
    q = question
    if q.wrong_turns and dice.random() < 0.75:
        return given(q, dice.choice(q.wrong_turns).answer)
    if q.kind == NUMBER:
        return given(q, q.answer + q.tolerance * dice.uniform(4, 40) * dice.choice((-1, 1)))
    keys = [k for k, _ in q.options]
    if q.kind == CHOICE:
        return dice.choice([k for k in keys if k != q.answer])
    if q.kind == CHOICES:
        return sorted(set(keys) - {min(q.answer)}) if len(keys) > 1 else keys
    turned = list(q.answer)
    turned[0], turned[-1] = turned[-1], turned[0]
    return turned


def sheet_data(course, student, exercise, answers):
    """Return an answer sheet as bytes, as the form writes and signs it."""
    times = [t["at"] for entry in answers.values() for t in entry["tries"]]
    saved, key = max(times, default=""), course.signing_key(student)
    return answer_sheet.data_of(course.name, student, exercise, saved, answers, key)
