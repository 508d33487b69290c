"""The instructor's desk: everything by buttons, mistakes in words, and the same text wherever it is stored."""

import html
from pathlib import Path

import pytest
from walkaround.__main__ import main
from walkaround.classroom import desk, tables, to_pdf
from walkaround.classroom.desk import Desk


@pytest.fixture
def made_up(tmp_path):
    found = Desk(tmp_path)
    found.demo_it.click()
    return found


def test_the_made_up_course_from_hand_out_to_a_mark_by_hand(made_up):
    d = made_up
    d.check_it.click()
    assert "ready to hand out" in d.out_text.value
    d.hand_out_it.click()
    assert "18 folders and zips" in d.out_text.value
    d.mark_it.click()
    assert "37 files: 32 marked, 1 superseded, 1 not signed" in d.mark_text.value
    assert d.progress.layout.display == "none"
    assert "Ines Okafor" in d.marks_table.value
    assert "The commonest slips" in d.items.value
    assert "Rosa Takala" in d.alike.value
    assert "apology.txt" in d.files.value
    d.which.value = "bags"
    assert "Bags in two units" in d.items.value
    d.one.value = "Q002"
    assert "Tomas Brandvold" in d.one_page.value
    d.who.value, d.what.value, d.points.value, d.reason.value = "Q006", "loading", "12", "stick broke"
    d.set_it.click()
    assert "Q006 has 12 points" in d.set_text.value
    assert "12 of 20" in d.marks_table.value
    assert (d.course.results / "class-report.html").exists()


def test_on_paper_and_typed_in(made_up, monkeypatch):
    monkeypatch.setenv(to_pdf.VARIABLE, "none")
    monkeypatch.setattr(to_pdf.importlib.util, "find_spec", lambda _: None)
    d = made_up
    d.type_in_it.click()
    assert "Name the table first" in d.typed_text.value
    d.print_it.click()
    assert "18 papers in" in d.out_text.value
    assert "open each in a browser" in d.out_text.value
    assert (d.printing.value, d.printing.layout.display, d.print_it.disabled) == (19, "none", False)
    bags = next(name for name in d.table.options if name.endswith("answers-bags.csv"))
    table = tables.read(Path(bags))
    row = table.rows[0][1]
    q = d.course.paper("bags", row["id"]).questions[0]
    column = next(c for c in table.columns if c.startswith("1 "))
    Path(bags).write_bytes(tables.data_of(("id", "exercise", column), [(row["id"], "bags", "lots")]))
    d.table.value = bags
    d.type_in_it.click()
    assert "answers-bags.csv, line 2, column &#x27;1 From" in d.typed_text.value
    assert "Nothing was written" in d.typed_text.value
    Path(bags).write_bytes(tables.data_of(("id", "exercise", column), [(row["id"], "bags", f"{q.answer:.2f}")]))
    d.type_in_it.click()
    assert "1 answer sheet written" in d.typed_text.value


def test_mistakes_are_sentences(made_up, tmp_path):
    d = made_up
    d.set_it.click()
    assert "points are" in d.set_text.value
    d.source.value = str(tmp_path / "nowhere")
    d.mark_it.click()
    assert "there is no folder" in d.mark_text.value
    d.source.value = ""
    (d.course.folder / "bags.py").write_text("x = 1 / 0\n")
    d.check_it.click()
    assert "bags.py, line 1: ZeroDivisionError" in d.out_text.value
    d.hand_out_it.click()
    assert not d.course.handed_out.exists()
    (d.course.folder / "course.toml").write_text("name = 3")
    d.mark_it.click()
    assert "secret is missing" in d.mark_text.value
    for folder in ("", "  ", str(tmp_path / "none"), "\0"):
        d.path.value = folder
        d.open_it.click()
        assert d.message.value
    assert "Traceback" not in "".join(w.value for w in (d.message, d.mark_text, d.out_text))


def test_what_nobody_expects_is_a_sentence_too(made_up, monkeypatch):
    monkeypatch.setattr(desk.results, "mark_and_write", lambda *_, **__: {}["nothing"])
    made_up.mark_it.click()
    assert "Something went wrong that should not have: KeyError" in made_up.mark_text.value
    assert made_up.mark_it.disabled is False


def test_a_new_course_by_its_button(tmp_path):
    d = Desk(tmp_path)
    d.path.value = str(tmp_path / "spring")
    d.begin_it.click()
    assert "A course has begun" in d.message.value
    assert "there is no student in it" in d.about.value
    d.begin_it.click()
    assert "there is a course in" in d.message.value
    assert Desk(tmp_path).path.options == ("spring",)
    d.path.value = f' "{tmp_path / "spring"}" '
    d.open_it.click()
    assert "spring is open" in d.message.value


def test_the_desk_and_a_terminal_mean_the_same_folder(tmp_path, monkeypatch):
    (tmp_path / "README.md").touch()
    (tmp_path / "notebooks").mkdir()
    monkeypatch.chdir(tmp_path)
    assert main(["begin", "autumn"]) == 0
    (tmp_path / "autumn" / "roster.csv").write_text("id\nS1\n")
    (tmp_path / "stick").mkdir()
    monkeypatch.chdir("notebooks")  # where JupyterLab starts the notebook's kernel
    d = desk.desk()
    assert d.path.value == "autumn"
    d.open_it.click()
    assert f"autumn is open: {tmp_path / 'autumn'}" in html.unescape(d.message.value)
    d.hand_out_it.click()
    d.source.value = "stick"
    d.mark_it.click()
    assert (tmp_path / "autumn" / "handed-out" / "s1.zip").exists()
    assert "No file has come back yet" in d.mark_text.value
    d.path.value = "spring"
    d.begin_it.click()
    assert (tmp_path / "spring" / "course.toml").exists()
    assert list(Path().iterdir()) == []


def test_a_roster_filled_in_after_the_course_was_begun_is_shown(tmp_path):
    d = Desk(tmp_path)
    d.path.value = "c"
    d.begin_it.click()
    assert "0 students" in d.about.value
    (tmp_path / "c" / "roster.csv").write_text("id,name\n1,Ann\n2,Bo\n")
    d.check_it.click()
    assert "2 students" in d.about.value
    assert "there is no student" not in d.about.value
    d.mark_it.click()
    d.one.value = "2"
    assert "Bo (2)" in d.one_page.value
    d.mark_it.click()
    assert d.one.value == d.who.options[1][1] == "2"
    d.points.value, d.reason.value = "3", "oral"
    d.set_it.click()
    assert "To take that back, delete its line in overrides.csv" in d.set_text.value
    assert "5 % of full marks" in d.mark_text.value  # 3 of 31 points for one of two
    (tmp_path / "c" / "overrides.csv").write_text("id,exercise,points,reason\n")
    d.mark_it.click()
    assert "0 % of full marks" in d.mark_text.value


def test_the_desk_asks_about_ids_that_lost_their_zeros(tmp_path):
    d = Desk(tmp_path)
    d.path.value = "c"
    d.begin_it.click()
    for ids, says, asks in (("0012", "1 folder and zip in", False), ("12", "0012 is now 12", True)):
        (tmp_path / "c" / "roster.csv").write_text(f"id\n{ids}\n")
        d.hand_out_it.click()
        assert says in d.out_text.value
        assert (d.new_ids.layout.display != "none") == asks
    d.new_ids.value = True
    d.hand_out_it.click()
    assert "1 folder and zip in" in d.out_text.value
    assert (d.new_ids.layout.display, d.new_ids.value) == ("none", False)


def test_names_are_text_on_the_desk(tmp_path):
    d = Desk(tmp_path)
    d.path.value = str(tmp_path / "c")
    d.begin_it.click()
    (tmp_path / "c" / "roster.csv").write_text("id,name\nS1,<script>alert(1)</script>\n")
    d.open_it.click()
    d.mark_it.click()
    d.out_text.value = ""
    shown = [w.value for w in (d.marks_table, d.items, d.alike, d.one_page, d.files, d.about, d.mark_text)]
    assert not any("<script" in text for text in shown)


def test_the_stored_text_names_nobody(made_up):
    assert made_up._repr_mimebundle_()["text/plain"] == "The instructor's desk: run the cell to use it."
