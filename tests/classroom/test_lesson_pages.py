"""Hand-outs of the lessons: prose, pictures and questions are there, code and what needs a screen is not."""

import json
import re

import pytest
from bs4 import BeautifulSoup
from walkaround.assessment.judging import AT_HOME, judge
from walkaround.assessment.variant import Variant
from walkaround.classroom import lesson_pages, sums, typed_in
from walkaround.exercises.own_folder import source
from walkaround.lessons.table import LESSONS


@pytest.fixture(scope="module")
def handouts():
    """For each lesson its name, its notebook's cells, and its hand-out."""
    made = []
    for lesson in LESSONS:
        cells = json.loads((source() / "notebooks" / lesson.file).read_text(encoding="utf-8"))["cells"]
        made.append((lesson, cells, BeautifulSoup(lesson_pages.page(lesson), "html.parser")))
    return made


def outputs(cells, kind):
    for cell in cells:
        for output in cell.get("outputs", ()):
            if kind in output.get("data", {}):
                yield "".join(output["data"][kind]), "".join(output["data"]["text/plain"])


def test_every_stored_picture_is_there_with_its_sentence(handouts):
    for lesson, cells, page in handouts:
        stored = [(png.replace("\n", ""), words) for png, words in outputs(cells, "image/png")]
        shown = [(i["src"].removeprefix("data:image/png;base64,"), i["alt"]) for i in page.find_all("img")]
        assert shown == stored, lesson.name
        assert len(shown) >= len(lesson.demonstrations)


def test_a_metric_course_gets_its_pictures_and_questions_in_metric_units(handouts):
    for lesson, _, page in handouts[:1] + handouts[9:10]:  # weight and balance, and towing
        metric = BeautifulSoup(lesson_pages.page(lesson, units="metric"), "html.parser")
        one, other = ([i["alt"] for i in each.find_all("img")] for each in (page, metric))
        assert len(one) == len(other)
        assert any(" lb" in words for words in one)
        assert not any(" lb" in words or " US gal" in words for words in other)
        pictures = [{i["src"] for i in each.find_all("img")} for each in (page, metric)]
        assert pictures[0].isdisjoint(pictures[1])


def test_all_headings_are_there_and_no_code(handouts):
    for lesson, cells, page in handouts:
        text = page.main.get_text(" ")
        prose = "\n".join("".join(c["source"]) for c in cells if c["cell_type"] == "markdown")
        for heading in re.findall(r"^#+ (.*)$", prose, re.MULTILINE):
            assert heading.replace("The live demonstration", "The demonstration") in text
        for code in ("import ", "print(", "quick(", ".demo(", "np.float64", "array(", "round("):
            assert code not in text, (lesson.name, code)


def test_nothing_needs_a_screen_but_what_says_so(handouts):
    for lesson, _, page in handouts:
        for tasks in page.find_all("strong", string="To try with the demonstration on a screen"):
            tasks.find_parent("p").find_next("ul").extract()
        text = page.main.get_text(" ")
        for word in ("Run All Cells", "Marked on the spot", "press Play", "Press play", "slider", "new cell", "Click"):
            assert word not in text, (lesson.name, word)
        assert "Caution" in text
        assert "invented" in text


def test_the_questions_are_there_and_their_answers_at_the_end(handouts):
    for lesson, cells, page in handouts:
        asked = lesson.questions.quick(Variant("lesson", "everyone", lesson.name))
        assert sum('quick("' in "".join(c["source"]) for c in cells) == len(asked)
        body, end = page.main.get_text(" ").split("Answers to the questions")
        for number, q in enumerate(asked, 1):
            assert f"Question {number}. {q.title}" in body
            for text in (*(option for _, option in q.options), *(cell for row in q.table for cell in row)):
                assert text in body
            printed = re.search(rf"{number}\. {re.escape(q.title)}: (.*)", end)[1].split(" ± ")[0]
            assert judge(q, typed_in.read_answer(q, printed), AT_HOME)[0]
            assert all(line in end for line in q.worked)


@pytest.mark.parametrize(
    ("source", "result", "line"),
    [
        ("[2 * 3.5, 4 - 1]", "[7.0, 3]", "2 × 3.5 = 7"),
        ("10 - (4 - 1) * 2", "4", "10 − (4 − 1) × 2 = 4"),
        ("2 / 3", "0.6666666666666666", "2 / 3 ≈ 0.666667"),
        ("12 / (2 / 3) / 2", "9.0", "12 / (2 / 3) / 2 = 9"),
        ("round(1000 * 1.5)", "1500", "1,000 × 1.5 = 1,500"),
        ("round(10 - -2.04)", "12", "10 − (−2.04) ≈ 12"),
        ('print(round(sqrt(2), 2), "m")', "1.41 m\n", "√(2) ≈ 1.41 m"),
        ("round(2 * degrees(asin(0.5)))", "60", "2 × asin(0.5) = 60"),
        ("a.rope([25, 45]).round()", "array([710., 424.])", "710, 424"),
        ("__import__('os').getcwd()", "'x'", "&#x27;x&#x27;"),
    ],
)
def test_a_sum_on_paper(source, result, line):
    assert sums.on_paper(source, result)[0] == line


def test_what_a_sum_says_is_what_the_notebook_computed(handouts):
    """Each number on the right of a sum is in the stored output, as far as it is printed."""
    seen = 0
    for _, cells, _ in handouts:
        for cell in cells:
            for output in cell.get("outputs", ()):
                stored = "".join(output.get("data", {}).get("text/plain", output.get("text", "")))
                if "image/png" in output.get("data", {}) or "Question" in stored:
                    continue
                numbers = [float(n) for n in re.findall(r"-?\d+\.?\d*", stored.replace(",", " "))]
                for line in sums.on_paper("".join(cell["source"]).strip(), stored):
                    if found := re.search(r"[=≈] (−?[\d,.]+)", line):
                        value = float(found[1].replace(",", "").replace("−", "-"))
                        assert min(abs(value - n) for n in numbers) <= 1e-5 * abs(value)
                        seen += 1
    assert seen > 60


def test_formulas_are_drawn(handouts):
    drawn = handouts[0][2].select(".math svg")
    assert len(drawn) == 2
    assert "all moments added up" in drawn[0]["aria-label"]


def test_a_notebook_that_is_not_there_is_named(tmp_path):
    with pytest.raises(ValueError, match=r"the notebook of lesson 1 can't be read: .*01-loading\.ipynb"):
        lesson_pages.page(LESSONS[0], notebooks=tmp_path)
