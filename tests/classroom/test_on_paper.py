"""Papers on paper: what is printed is what the course asks, no answer is on it, and the key says what marking says."""

import os
import re
from dataclasses import replace

import pytest
from bs4 import BeautifulSoup
from walkaround.assessment.judging import judge
from walkaround.assessment.questions import CHOICE, CHOICES, KINDS, NUMBER, ORDER
from walkaround.classroom import on_paper, tables, to_pdf, typed_in
from walkaround.classroom.course import read_course
from walkaround.classroom.texts import in_words
from walkaround.lessons.table import LESSONS

EVERY = "".join(f'[[exercises]]\nname = "{lesson.name}"\n' for lesson in LESSONS)


def texts_of(html):
    """The text of a page with one space between words, without the style sheet."""
    soup = BeautifulSoup(html, "html.parser")
    soup.style.extract()
    return " ".join(soup.get_text(" ").split())


def plain(text):
    return " ".join(text.split())


@pytest.fixture(scope="module")
def every(tmp_path_factory):
    """A course with every exercise, and one student's papers with their page."""
    folder = tmp_path_factory.mktemp("every")
    (folder / "course.toml").write_text(f'name = "Test"\nsecret = "a secret of more than twenty letters"\n{EVERY}')
    (folder / "roster.csv").write_bytes(tables.data_of(("id", "name", "group"), [("S1", 'Ann <b> "Lee"', "A")]))
    course = read_course(folder)
    [(party, papers)] = on_paper.papers_of(course)
    return course, party, papers, on_paper.paper_page(course, party, papers).decode()


def test_a_paper_has_every_question_with_its_table_and_options(every):
    _, _, papers, page = every
    asked, sections = texts_of(page), BeautifulSoup(page, "html.parser").find_all("section")
    assert len(sections) == len(papers) == len(LESSONS)
    for paper, section in zip(papers, sections, strict=True):
        here = plain(section.get_text(" "))
        assert plain(paper.scene) in here
        cells = [plain(cell.get_text(" ")) for cell in section.find_all(["td", "th"])]
        for q in paper.questions:
            assert plain(on_paper.on_paper(q.text)) in here, q.key
            for row in q.table:
                assert set(map(plain, row)) <= set(cells), q.key
            for _, text in q.options:
                assert plain(text) in here
        for row in paper.scene_table:
            assert set(map(plain, row)) <= set(cells)
    assert not re.search("You have (one|two) tr", asked)


def test_the_grid_has_a_row_for_each_question_with_its_unit_letters_or_boxes(every):
    _, _, papers, page = every
    grids = BeautifulSoup(page, "html.parser").select(".grid")
    for paper, grid in zip(papers, grids, strict=True):
        assert "S1" in grid.get_text()
        rows = grid.select("tbody tr")
        assert [row.select("td")[0].get_text() for row in rows] == [str(n + 1) for n in range(len(paper.questions))]
        for q, row in zip(paper.questions, rows, strict=True):
            room = row.select_one("td.answer")
            if q.kind == NUMBER:
                assert room.select_one(".line") is not None
                assert plain(room.get_text(" ")) == q.unit
            elif q.kind == ORDER:
                assert len(room.select(".box")) == len(q.options)
            else:
                assert [letter.get_text() for letter in room.select(".letter")] == list("ABCDEFGHIJ"[: len(q.options)])
                assert ("all that are right" in room.get_text()) == (q.kind == CHOICES)


def test_nothing_on_a_paper_hangs_on_an_answer(every):
    course, party, papers, page = every
    for secret in (course.key(party.id), course.signing_key(party.id), course.file.secret):
        assert secret not in page
    told = {"answer": "TOLD", "hint": "TOLD", "worked": ("TOLD",), "wrong_turns": (), "tolerance": 77.0}
    others = [replace(p, questions=tuple(q._replace(**told) for q in p.questions), givens="TOLD") for p in papers]
    assert on_paper.paper_page(course, party, others).decode() == page


def test_a_kept_exercise_prints_its_own_numbers_and_no_key(school):
    school.write_course(exercises='[[exercises]]\nname = "loading"\nkind = "kept"\n')
    course = school.course
    [(party, papers), *_] = on_paper.papers_of(course)
    assert papers[0] == course.paper("loading", party.id)
    page = on_paper.paper_page(course, party, papers).decode()
    assert plain(papers[0].questions[0].text) in texts_of(page)
    assert course._derived("kept papers", party.id) not in page


def test_what_the_key_says_is_what_marking_says(every):
    course, _, papers, _ = every
    key = texts_of(on_paper.key_page(course, [(course.party("S1"), papers)]))
    kinds, told = set(), 0
    for paper in papers:
        for q in paper.questions:
            printed = on_paper.right(q, course.rules)
            assert plain(printed) in key
            answer = printed.split(" ± ")[0]
            assert judge(q, typed_in.read_answer(q, answer), course.rules)[0], (paper.exercise, q.key)
            if q.kind == NUMBER:
                assert printed.endswith(f"± {q.tolerance:.3g} {q.unit}".rstrip())
            for wrong, slip in on_paper.slips(q, course.rules):
                is_right, turn, _ = judge(q, typed_in.read_answer(q, wrong), course.rules)
                assert (is_right, turn.slip) == (False, slip), (paper.exercise, q.key, wrong)
                assert plain(f"{wrong} : {slip}") in key
                told += 1
            kinds.add(q.kind)
    assert kinds == set(KINDS)
    turns = {(p.exercise, q.key, repr(t.answer)) for p in papers for q in p.questions for t in q.wrong_turns}
    assert told > 0.97 * len(turns)


def test_what_anyone_has_typed_is_text_and_never_ends_the_style(every):
    page = every[3]
    assert "Ann <b>" not in page
    assert "Ann &lt;b&gt; &#34;Lee&#34;" in page
    style = page[page.index("<style>") : page.index("</style>")]
    assert 'Ann \\3c b\\3e  \\22 Lee\\22  · S1"' in style


def test_the_same_course_prints_the_same_papers(school, tmp_path):
    made = [on_paper.paper_page(school.course, *on_paper.papers_of(school.course)[1]) for _ in range(2)]
    assert made[0] == made[1]
    assert b"Bo Ray" not in on_paper.paper_page(school.course, *on_paper.papers_of(school.course)[0])


def pages_in(path):
    """How many pages a PDF has: Chromium writes each as an object of its own (ISO 32000, 7.7.3.3)."""
    return len(re.findall(rb"/Type\s*/Page\b", path.read_bytes()))


@pytest.mark.skipif(not to_pdf.chromium(), reason="no Chromium")
def test_the_files_of_a_course(new_school):
    school, seen = new_school([("S1", "Ann Lee", "A")]), []
    printed = on_paper.print_course(school.course, progress=lambda *now: seen.append(now))
    folder, own = school.folder / "printed", school.folder / "printed" / "instructor"
    assert sorted(p.name for p in folder.iterdir()) == ["instructor", "s1.pdf"]
    assert {p.name for p in own.iterdir()} == {"key.pdf", "answers-loading.csv"}
    assert 2 <= pages_in(folder / "s1.pdf") <= 6
    assert pages_in(own / "key.pdf") == 1
    assert seen == [("papers", 1, 2), ("papers", 2, 2)]
    assert printed.says().startswith(f"1 paper in {folder}. In the folder instructor there: key.pdf, and")
    first = (folder / "s1.pdf").read_bytes()
    on_paper.print_course(school.course)
    assert (folder / "s1.pdf").read_bytes() == first
    if os.name == "posix":
        assert all(path.stat().st_mode & 0o077 == 0 for path in own.iterdir())


def test_without_anything_that_prints_the_pages_are_html_and_it_is_said(school, monkeypatch, tmp_path):
    monkeypatch.setenv(to_pdf.VARIABLE, "none")
    monkeypatch.setattr(to_pdf.importlib.util, "find_spec", lambda _: None)
    printed = on_paper.print_course(school.course, tmp_path / "out", only="loading")
    assert printed.notices[-1] == to_pdf.NEITHER
    assert b"Ann Lee" in (tmp_path / "out" / "s1.html").read_bytes()


def test_without_chromium_weasyprint_prints(tmp_path, monkeypatch):
    module = tmp_path / "modules" / "weasyprint"
    module.mkdir(parents=True)
    (module / "__init__.py").write_text("")
    (module / "__main__.py").write_text(
        "import pathlib, sys\n_, html, pdf = sys.argv[1:]\n"
        "pathlib.Path(pdf).write_bytes(b'%PDF ' + pathlib.Path(html).read_bytes())\n"
    )
    monkeypatch.setenv(to_pdf.VARIABLE, "none")
    monkeypatch.setenv("PYTHONPATH", str(module.parent))
    monkeypatch.syspath_prepend(str(module.parent))
    [written] = to_pdf.write([to_pdf.Document(tmp_path / "a", b"<p>a")])
    assert (written.name, written.read_bytes()) == ("a.pdf", b"%PDF <p>a")


def test_a_table_that_somebody_has_begun_to_fill_in_stays(school, monkeypatch):
    monkeypatch.setenv(to_pdf.VARIABLE, "none")
    monkeypatch.setattr(to_pdf.importlib.util, "find_spec", lambda _: None)
    for _ in range(2):
        table = on_paper.print_course(school.course).instructor[1]
        assert table.name == "answers-loading.csv"
    begun = table.read_text("utf-8-sig").replace("S1,Ann Lee,loading,,", "S1,Ann Lee,loading,,50")
    table.write_text(begun)
    assert on_paper.print_course(school.course).instructor[1].name == "answers-loading (2).csv"
    assert table.read_text() == begun
    assert "loading,,50," in begun


def test_a_document_that_can_not_be_printed_says_so(tmp_path, monkeypatch):
    monkeypatch.setenv(to_pdf.VARIABLE, str(tmp_path / "no-such-browser"))
    with pytest.raises(ValueError, match=r"a\.pdf could not be printed: .*no-such-browser"):
        to_pdf.write([to_pdf.Document(tmp_path / "a", b"<p>a")])
    assert list(tmp_path.iterdir()) == []


def test_mistakes_are_said_in_words(school):
    for wrong, says in (
        ({"only": "towing"}, "no exercise 'towing' is set; allowed: loading"),
        ({"sheet": "A5"}, "the sheet is 'A5'; allowed: A4, Letter"),
    ):
        with pytest.raises(ValueError, match=re.escape(says)) as error:
            on_paper.print_course(school.course, **wrong)
        assert in_words(error.value) == says


def test_a_choice_is_written_as_its_letter(every):
    q = next(q for q in every[2][0].questions if q.kind == CHOICE)
    keys = [key for key, _ in q.options]
    assert on_paper.given_on_paper(q, keys[1]) == "B"
