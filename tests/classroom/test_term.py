"""A whole term: forty people of mixed ability are handed exercises, answer twice, and are marked.

Everything the report says is computed a second time, with pandas and scipy, from nothing but what each of the forty
decided to do.
"""

import json
import random
import re
from collections import Counter
from datetime import timedelta

import bs4
import numpy as np
import pandas
import pytest
from scipy import stats
from walkaround.classroom import analysis, demo_course, handout
from walkaround.exercises.form import ExerciseForm

MISSING = {"S7", "S19"}


def told_apart(question):
    """The slips of a question whose answers lie so far apart that nobody could take one for another."""
    turns = question.wrong_turns
    if question.kind != "number":
        return turns
    return [t for t in turns if all(o is t or abs(o.answer - t.answer) > 2 * question.tolerance for o in turns)]


@pytest.fixture
def played(new_school):
    people = [(f"S{i}", f"Student {i}", "AB"[i % 2]) for i in range(40)]
    school = new_school(people, "late = { accepted_days = 7, loses_percent_per_day = 20 }")
    handout.hand_out(school.course)
    decided = []
    for i, party in enumerate(school.course.parties):
        dice, ability = random.Random(i), 1.5 - i / 14
        paper = ExerciseForm("loading", school.folder / "handed-out" / party.id.casefold()).paper
        answers, at = {}, school.due - timedelta(days=3) + timedelta(days=4 if i == 12 else 0)
        if party.id in MISSING:
            continue
        for number, q in enumerate(paper.questions):
            row = {
                "student": party.id,
                "question": q.key,
                "of": q.points,
                "earned": 0.0,
                "late": 0,
                "slips": set(),
                "title": q.title,
            }
            entry = {"tries": [], "hint": False, "worked_after": None}
            answers[q.key] = entry
            for turn in range(dice.choice((2, 3, 3, 4))):
                at += timedelta(seconds=dice.randint(40, 400))
                if dice.random() < 1 / (1 + np.exp(number / 4 - ability - 0.5)):
                    answer = q.answer
                    if turn < 3:
                        row["late"] = max(0, int(np.ceil((at - school.due) / timedelta(days=1))))
                        row["earned"] = q.points * (1 - 0.2 * row["late"])
                else:
                    wrong = dice.choice(told_apart(q))
                    answer = wrong.answer
                    row["slips"] |= {wrong.slip}
                entry["tries"].append({"given": demo_course.given(q, answer), "at": demo_course.stamp(at)})
                if answer == q.answer:
                    break
            decided.append(row)
        # Handed in twice: on the way, and when it was done.
        half = dict(list(answers.items())[:5])
        school.hand_in(party.id, half, name=f"first round/{party.id}.json")
        school.hand_in(party.id, answers)
    return school, pandas.DataFrame(decided), school.mark()


def test_the_term(played):
    school, decided, done = played
    table = decided.pivot(index="student", columns="question", values="earned")
    book = pandas.read_csv(school.folder / "results" / "gradebook.csv", encoding="utf-8-sig", index_col="id")

    # Everyone's mark, and who is missing.
    expected = table.sum(axis=1).reindex(book.index).fillna(0.0)
    np.testing.assert_allclose(book["points"], expected, atol=0.005)
    assert set(book.index[book["loading status"] == "not handed in"]) == MISSING
    assert done.outcome.count("marked") == done.outcome.count("superseded") == 38
    assert decided["late"].max() > 0

    # Difficulty and discrimination, question by question.
    report = analysis.analyse(school.course, done.rows)[0]
    full = decided.assign(got=decided["earned"] > 0, raw=np.where(decided["earned"] > 0, decided["of"], 0))
    got, raw = (
        full.pivot(index="student", columns="question", values="got"),
        full.pivot(index="student", columns="question", values="raw"),
    )
    for item in report.items:
        assert item.sheets == 38
        assert item.difficulty == pytest.approx(got[item.key].mean())
        rest = raw.drop(columns=item.key).sum(axis=1)
        assert item.discrimination == pytest.approx(stats.pointbiserialr(got[item.key], rest).statistic)
    assert max(i.discrimination for i in report.items) > report.chance_band

    # The slips: how many students made each, at least once.
    slips = Counter((slip, row.title) for row in decided.itertuples() for slip in row.slips)
    assert {(slip, title): n for slip, title, n in report.slips} == slips
    assert [n for _, _, n in report.slips] == sorted(slips.values(), reverse=True)

    # The histogram, from the page as it was written.
    page = (school.folder / "results" / "class-report.html").read_text(encoding="utf-8")
    percents = 100 * table.sum(axis=1) / 31
    counts = np.histogram(percents, np.arange(0, 101, 10))[0]
    svg = bs4.BeautifulSoup(page, "html.parser").find("svg")
    labels = [t.text.strip() for t in svg.find_all("text")]
    drawn = [int(x) for x in labels if re.fullmatch(r"\d+", x)][11:]  # after the axis' own 0 to 100
    assert drawn == [c for c in counts if c]

    # The words and the tables on the page.
    text = " ".join(bs4.BeautifulSoup(page, "html.parser").get_text(" ").split())
    mean = f"{expected.mean() / 31 * 100:.0f} %"
    assert f"38 of 40 students have handed in something; the whole class has {mean} of full marks" in text
    assert re.search(r"Not handed in: 2 (Group \w+ )?Student 7 \(S7\) (Group \w+ )?Student 19 \(S19\)", text)
    for item in report.items:
        told = f"{item.discrimination:+.2f}".replace("-", "−")
        assert f"{item.title} {100 * got[item.key].mean():.0f} % {told}" in text
    assert "With 38 sheets, anything between −0.32 and +0.32 may well be chance" in text

    # Time: the gaps between answers, for no gap here is a pause.
    spent = []
    for path in school.collected.glob("*.json"):
        sheet = json.loads(path.read_text(encoding="utf-8"))
        at = pandas.to_datetime(
            sorted(t["at"] for e in sheet["answers"].values() for t in e["tries"]), format="ISO8601"
        )
        spent.append((at[-1] - at[0]).total_seconds() / 60)
    assert report.minutes == pytest.approx(np.median(spent))
    assert "Worth asking about" in text
    assert "No two sheets are alike" in text
