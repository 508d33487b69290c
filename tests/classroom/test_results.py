"""What is written: a gradebook that opens cleanly, pages in which nothing runs, every file whole or as it was."""

import csv
import io
import multiprocessing
import os
import random
import subprocess
import sys
import time
import zipfile

import bs4
import pandas
import pytest
from walkaround.classroom import demo_course, gradebook, results

NASTY = [
    '=HYPERLINK("http://x")',
    "+1",
    "-2+3",
    "@SUM(A1)",
    "\t=1",
    "＝1",
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "a,b;c",
    "Ünïcøde 🛩",
    "two\nlines",
]


@pytest.fixture
def nasty(new_school):
    school = new_school([(f"S{i}", "x", "") for i in range(len(NASTY))])
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(["id", "name", "group", "Home, field"])
    writer.writerows([(f"S{i}", name, name, name) for i, name in enumerate(NASTY)])
    (school.folder / "roster.csv").write_text(out.getvalue(), encoding="utf-8", newline="")
    return school


def test_a_column_of_the_office_that_is_called_like_one_of_ours(school):
    (school.folder / "roster.csv").write_text("id,Points,loading status,remarks\nS1,7,old,x\n")
    school.hand_in("S1", school.all_right("S1"))
    school.mark()
    row = school.gradebook()["S1"]
    assert (row["Points (roster)"], row["loading status (roster)"], row["remarks (roster)"]) == ("7", "old", "x")
    assert (row["points"], row["loading status"]) == ("31", "marked")
    assert gradebook.marked_before(school.course) == {("S1", "loading")}


def test_the_gradebook_opens_cleanly_and_no_cell_is_a_formula(nasty):
    nasty.hand_in("S1", nasty.answers("S1", ["moment"]))
    nasty.mark()
    data = nasty.results()["gradebook.csv"]
    # Independent of the product: pandas reads it, as one line a student, numbers as numbers.
    table = pandas.read_csv(io.BytesIO(data), encoding="utf-8-sig").set_index("id")
    assert table.index.is_unique
    table = table.loc[[f"S{i}" for i in range(len(NASTY))]].reset_index()
    assert table["points"].tolist()[1] == 2
    assert "Home, field" in table.columns
    for column in ("name", "group", "Home, field"):
        assert not table[column].str.match(r"^\s*[=+\-@\t\r＝＋－＠]").any()
    assert table["name"][0] == '\'=HYPERLINK("http://x")'
    assert table["name"][9] == "Ünïcøde 🛩"
    assert data.startswith(b"\xef\xbb\xbf")


def test_the_delimiter_is_the_course_s(school):
    school.write_course('gradebook_delimiter = ";"')
    school.mark()
    assert school.results()["gradebook.csv"].startswith(b"\xef\xbb\xbfid;name;group")


def test_names_and_answers_are_text_on_every_page(nasty):
    for i, evil in enumerate(NASTY):
        answers = nasty.answers(f"S{i}", ["moment"])
        answers["moment"]["tries"][0]["given"] = evil
        answers["go"] = {"tries": [{"given": evil, "at": evil}]}
        answers["moves"] = {"tries": [{"given": [evil], "at": evil}]}
        nasty.hand_in(f"S{i}", answers, name=f"{i}.answers.json")
    (nasty.collected / "<script>alert(2)<").write_bytes(nasty.sheet("<script>", {}))
    nasty.mark()
    pages = {n: d for n, d in nasty.results().items() if n.endswith(".html")}
    assert len(pages) == len(NASTY) + 2
    for data in pages.values():
        tree = bs4.BeautifulSoup(data, "html.parser")
        assert tree.find("script") is None
        assert tree.find("img") is None
        assert not [a for t in tree.find_all() for a in t.attrs if a.startswith("on")]
        # Self-contained: nothing is fetched.
        assert not [t for t in tree.find_all(["link", "iframe", "object"])]
        assert not [t for t in tree.find_all() if str(t.get("href", "")).startswith(("http", "//"))]
    assert "<script>alert(1)</script>" in bs4.BeautifulSoup(pages["feedback/s6.html"], "html.parser").h1.text


def test_a_feedback_page_says_what_came_of_each_question(school):
    school.write_course("worked_answers_before_due = false")
    answers = school.answers("S1", ["moment"], ["fuel weight"])
    school.hand_in("S1", answers)
    school.mark()
    text = bs4.BeautifulSoup(school.results()["feedback/s1.html"], "html.parser").get_text(" ")
    question = school.paper("S1").question("fuel weight")
    assert "2 of 31 points" in text
    assert question.wrong_turns[0].says in text
    assert text.count("Not answered.") == 9
    assert question.worked[0] in text  # the due date has passed


def test_no_worked_answer_before_the_due_date(school):
    text = (school.folder / "course.toml").read_text().replace("2026-03-27", "2999-03-27")
    (school.folder / "course.toml").write_text("worked_answers_before_due = false\n" + text)
    school.hand_in("S1", school.answers("S1", ["moment"]))
    school.mark()
    assert b"Worked answer" not in school.results()["feedback/s1.html"]


def test_the_files_table_accounts_for_every_file(school):
    school.hand_in("S1", school.all_right("S1"))
    (school.collected / "photo.jpg").write_bytes(b"\xff\xd8")
    school.mark()
    table = pandas.read_csv(io.BytesIO(school.results()["files.csv"]), encoding="utf-8-sig")
    assert dict(zip(table["file"], table["status"], strict=True)) == {
        "loading-s1.answers.json": "marked",
        "photo.jpg": "not a sheet",
    }


def test_damaged_tables_of_an_earlier_marking_stop_nothing(school):
    school.hand_in("S1", school.all_right("S1"))
    school.mark()
    for damage in (b"", b"\0\0", b"sha256,first collected\nx,yesterday\n", b"a,a\n"):
        (school.folder / "results" / "files.csv").write_bytes(damage)
        school.mark()
        assert school.gradebook()["S1"]["points"] == "31"


def test_nothing_is_written_outside_the_results(school):
    school.hand_in("S1", school.all_right("S1"))
    before = {p for p in school.folder.parent.rglob("*")}
    school.mark()
    new = {p for p in school.folder.parent.rglob("*")} - before
    assert {p.relative_to(school.folder).parts[0] for p in new} == {"results", ".walkaround.lock"}


@pytest.mark.skipif("fork" not in multiprocessing.get_all_start_methods(), reason="processes as Unix has them")
def test_killed_twenty_times_the_gradebook_is_the_old_or_the_new_one(new_school):
    school = new_school([(f"S{i}", f"Student {i}", "") for i in range(8)])
    begun = school.due.replace(day=1)
    for i, party in enumerate(school.course.parties):
        school.hand_in(party.id, demo_course.made_answers(school.paper(party.id), 0.5, random.Random(i), begun))
    book = school.folder / "results" / "gradebook.csv"
    school.mark()
    start = time.monotonic()
    school.mark()
    whole = time.monotonic() - start
    old, dice = book.read_bytes(), random.Random(5)
    for i in range(20):
        # Something new each time, so that there is a new gradebook to write.
        (school.folder / "overrides.csv").write_text(f"id,exercise,points,reason\nS1,loading,{by_hand(i)},round {i}\n")
        process = multiprocessing.get_context("fork").Process(target=school.mark)
        process.start()
        if i % 2:
            # At a random moment of the whole run; else just when the gradebook, written last, is being written.
            time.sleep(dice.uniform(0.1, 1.3) * whole)
        else:
            while process.is_alive() and not any(".gradebook" in name for name in os.listdir(book.parent)):
                time.sleep(0.0002)
            time.sleep(dice.uniform(0, 0.05))
        process.kill()  # SIGKILL: nothing can be tidied up
        process.join()
        now, new = book.read_bytes(), old_with(old, i)
        assert now in (old, new)
        old = now
    school.mark()
    assert book.read_bytes() == old_with(old, 19)
    assert not [p for p in (school.folder / "results").rglob(".*") if p.suffix == ".part"]


def by_hand(i):
    return 31 * (i % 2)


def old_with(old, i):
    """The gradebook as it has to be after round i: the mark by hand of S1 changed and nothing else."""
    lines = old.decode("utf-8-sig").splitlines()
    columns = next(csv.reader([lines[0]]))
    at = next(n for n, line in enumerate(lines) if line.startswith("S1,"))
    row = dict(zip(columns, next(csv.reader([lines[at]])), strict=True))
    was, others = f"{float(row['points']):.4g}", row["remarks"]
    if "by hand" in others:
        was = others.split(" instead of ")[1].split(":")[0]
        others = others.split("; ", 1)[1] if "; " in others else ""
    points = str(by_hand(i))
    row |= {"loading points": points, "loading status": "by hand", "points": points, "percent": str(100 * (i % 2))}
    row["remarks"] = f"loading: {points} by hand instead of {was}: round {i}" + (f"; {others}" if others else "")
    out = io.StringIO(newline="")
    csv.writer(out, lineterminator="").writerow([row[c] for c in columns])
    lines[at] = out.getvalue()
    return ("\r\n".join(lines) + "\r\n").encode("utf-8-sig")


def test_results_that_can_not_be_written_are_said_in_words(school):
    (school.folder / "results").write_text("a file where the folder should be")
    command = [sys.executable, "-m", "walkaround", "mark", str(school.folder), "--quiet"]
    done = subprocess.run(command, capture_output=True, text=True, env=os.environ)
    assert done.returncode == 1
    assert "results" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_zipped_folder_is_one_line_on_screen_and_the_rest_is_counted(school):
    with zipfile.ZipFile(school.collected / "bo.zip", "w") as archive:
        for name in ("enrolment.json", "exercise-loading.ipynb", "read-me-first.txt"):
            archive.writestr(f"course/{name}", name)
    for i in range(30):
        school.hand_in(f"X{i}", {}, name=f"{i:02d}.answers.json")
    lines = results.overview(school.mark())
    assert lines[2] == "  00.answers.json: unknown student, the id 'X0' is not in the roster"
    assert lines[22] == "  and 11 more lines; files.csv has all"
    for path in list(school.collected.glob("*.json"))[20:]:
        path.unlink()
    assert results.overview(school.mark())[22] == "  and 1 more line; files.csv has all"
    for path in school.collected.glob("*.json"):
        path.unlink()
    assert results.overview(school.mark(forget=True))[2] == ("  bo.zip, 3 files: it is not an answer sheet")
