"""An exercise answered in JupyterLab as a student answers it: by keyboard, fast, on a slow computer."""

import hmac
import json
import re

import pytest
from by_keyboard import FEEDBACK, answer_by_keyboard, answers, enter_by_keyboard, tab_to
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, paper
from walkaround.classroom import handout, results
from walkaround.classroom.course import read_course
from walkaround.lessons import table

expect = pytest.importorskip("playwright.sync_api").expect


@pytest.fixture
def slow(loaded):
    """The page's processor slowed four times."""
    session = loaded.context.new_cdp_session(loaded)
    session.send("Emulation.setCPUThrottlingRate", {"rate": 4})
    yield
    session.send("Emulation.setCPUThrottlingRate", {"rate": 1})


def type_fast(page, box, text):
    """Put a text into a box in place of what is there, a key every 10 ms."""
    box.click()
    page.keyboard.press("Control+A")
    page.keyboard.type(text, delay=10)


def wait_for_mark(page, text):
    page.wait_for_selector(f"{FEEDBACK}:has-text('read as {float(text):,.10g} ')", timeout=30_000)


def test_fifty_answers_typed_fast_on_a_slow_computer_are_marked_whole(opened, lab, slow):
    page = opened("exercises/01-loading.ipynb")
    type_fast(page, page.get_by_label("Your name"), "Quick Hands")
    page.keyboard.press("Enter")
    box = page.get_by_label("Your answer")
    box.wait_for()
    typed = [f"{2000 + 37 * i}.{i % 9 + 1}" for i in range(50)]
    for i, text in enumerate(typed):
        type_fast(page, box, text)
        if i % 5 == 4:
            page.get_by_role("button", name="Check my answer").click()
        else:
            page.keyboard.press("Enter")
        wait_for_mark(page, text)
    assert answers(lab, "loading", "quick-hands")["moment"] == [
        f"{text} lb-in" for text in typed[:3]
    ]  # the others were for practice


def test_the_first_question_comes_into_view_when_it_is_begun(opened):
    # At once, while the page is still held where the reader stood when it ran.
    page = opened("exercises/01-loading.ipynb")
    page.get_by_label("Your name").press_sequentially("Early Bird")
    page.keyboard.press("Enter")
    page.get_by_role("button", name="Check my answer").wait_for()
    for _ in range(2):
        expect(page.get_by_label("Your answer")).to_be_in_viewport(ratio=1)
        page.wait_for_timeout(1000)


def test_what_is_in_the_box_stays_there_without_being_marked(opened, lab):
    page = opened("exercises/01-loading.ipynb")
    type_fast(page, page.get_by_label("Your name"), "dd bb a")  # keys that mean something else to JupyterLab
    page.keyboard.press("Enter")
    box = page.get_by_label("Your answer")
    box.wait_for()
    type_fast(page, box, "1234.5")
    page.get_by_role("button", name="Next").click()
    page.wait_for_selector("text=Question 2 of")
    page.get_by_role("button", name="Back").click()
    page.wait_for_selector("text=Question 1 of")
    expect(box).to_have_value("1234.5")
    assert not (lab.folder / "exercises" / "loading-dd-bb-a.answers.json").exists()
    page.get_by_role("button", name="Check my answer").click()
    wait_for_mark(page, "1234.5")
    assert answers(lab, "loading", "dd-bb-a")["moment"] == ["1234.5 lb-in"]


def test_a_question_of_each_kind_is_answered_wrong_and_right_by_keyboard(opened, lab):
    page = opened("exercises/01-loading.ipynb")
    page.get_by_label("Your name").focus()
    page.keyboard.press("Control+A")
    page.keyboard.type("Key Board")
    page.keyboard.press("Enter")
    page.wait_for_selector("text=Paper of Key Board")
    questions = paper(table.find("loading").questions, "Key Board").questions
    at = 0
    for kind in (NUMBER, ORDER, CHOICES, CHOICE):
        place, question = next((i, q) for i, q in enumerate(questions) if q.kind == kind)
        tab_to(page, "Next", "Tab" if at == 0 else "Shift+Tab")
        for n in range(at + 1, place + 1):
            page.keyboard.press("Enter")
            page.wait_for_selector(f"text=Question {n + 1} of")
        at = place
        status = page.locator(FEEDBACK).element_handle()
        if kind == NUMBER:
            enter_by_keyboard(page, question, "5 <img src=x>")
            page.keyboard.press("Enter")
            page.wait_for_selector(f"{FEEDBACK}:has-text('Not marked: ')")
            assert page.locator(".wa-answer img").count() == 0
        wrong, right = question.wrong_turns[0], question.answer
        for answer, key, says in ((wrong.answer, "Tab", wrong.says), (right, "Shift+Tab", f"of {question.points}.")):
            answer_by_keyboard(page, question, answer, says, key)
            assert status.evaluate("e => e.isConnected")  # the region that speaks is not replaced
        tab_to(page, "Worked")
        assert page.evaluate("document.activeElement.ariaExpanded") == "true"
        page.keyboard.press("Enter")
        assert page.locator(".wa-worked").is_hidden()
    tries = [len(given) for given in answers(lab, "loading", "key-board").values() if given]
    assert tries == [2, 2, 2, 2]


def test_on_a_phone_nothing_sticks_out(opened):
    page = opened("exercises/01-loading.ipynb")
    page.get_by_label("Your name").fill("Narrow Screen")
    page.keyboard.press("Enter")
    page.get_by_role("button", name="all questions").click()
    page.wait_for_function("document.querySelectorAll('.wa-answer').length === 11")
    if page.locator("#jp-left-stack").is_visible():
        page.locator("h1").first.click()
        page.keyboard.press("Control+b")
    page.set_viewport_size({"width": 420, "height": 800})
    page.wait_for_timeout(500)
    wide = """boxes => boxes.map(box => {
        const [own, inside] = [box.getBoundingClientRect(), [...box.querySelectorAll('*')].map(e => e.getBoundingClientRect())];
        return [own.width, Math.max(...inside.map(e => e.right)) - own.right];
    })"""
    for width, over in page.locator(".wa-answer").evaluate_all(wide):
        assert width < 330
        assert over <= 0.5


def test_a_question_without_a_kernel_says_so_in_its_place(opened):
    page = opened("exercises/01-loading.ipynb")
    page.get_by_label("Your name").fill("No Kernel")
    page.keyboard.press("Enter")
    page.get_by_label("Your answer").fill("5")
    page.click("li.lm-MenuBar-item:has-text('Kernel')")
    page.click(".lm-Menu-item:has-text('Shut Down Kernel') >> nth=0")
    page.wait_for_selector("text=No Kernel | ")
    page.get_by_label("Your answer").press("Enter")
    expect(page.locator(FEEDBACK)).to_contain_text("it is not running", timeout=15_000)


@pytest.fixture
def kept(lab):
    """A course whose paper without answers has been handed out to one student, into the folder that JupyterLab shows."""
    folder = lab.folder / "kept"
    if not folder.exists():
        folder.mkdir()
        (folder / "course.toml").write_text(
            'name = "Kept"\nsecret = "a secret of more than twenty letters"\n[[exercises]]\nname = "loading"\nkind = "kept"\n'
        )
        (folder / "roster.csv").write_text("id,name\nS1,Ann Lee\n")
        handout.hand_out(read_course(folder))
    return read_course(folder)


def test_a_paper_without_answers_is_kept_signed_and_without_marks(opened, kept):
    made, folder = kept.paper("loading", "S1"), kept.handed_out / "s1"
    page = opened("kept/handed-out/s1/exercise-loading.ipynb")
    box = page.get_by_label("Your answer")
    box.wait_for()
    said = []

    def keep(answer):
        type_fast(page, box, answer)
        page.keyboard.press("Enter")
        page.wait_for_selector(f"{FEEDBACK}:has-text('Kept. Read as {float(answer):,.10g} ')")
        said.append(page.locator(FEEDBACK).inner_text())

    keep("12345")
    keep(f"{made.questions[0].answer:.1f}")  # the last one counts
    page.get_by_role("button", name="Next").click()
    page.wait_for_selector("text=Question 2 of")
    keep("77")
    # Wrong, right and slip are told alike, and nothing on the page gives an answer away or asks for marks.
    assert [text for text in said if not re.fullmatch(r"\W*Kept\. Read as [\d,.]+\slb(-in)?\.", text)] == []
    form = page.locator(".jp-OutputArea:has(.wa-answer)").first
    assert page.get_by_role("button", name="Keep my answer").is_visible()
    for name in ("Hint", "Worked answer", "Check my answer"):
        assert form.get_by_role("button", name=name).count() == 0
    assert "kept for your instructor to mark" in page.locator("body").inner_text()

    # Opened again, what was kept stands there, and still no mark.
    page = opened("kept/handed-out/s1/exercise-loading.ipynb")
    page.get_by_role("button", name="all questions").click()
    for n, text in enumerate(("Kept.", "Kept.", "")):
        expect(page.locator(FEEDBACK).nth(n)).to_have_text(re.compile(text or "^$"))

    stored = json.loads((folder / "loading-s1.answers.json").read_text(encoding="utf-8"))
    assert set(stored) == {"format", "version", "course", "student", "exercise", "saved", "answers", "signature"}
    assert [[t["given"] for t in stored["answers"][q.key]["tries"]][-1] for q in made.questions[:2]] == [
        f"{made.questions[0].answer:.1f} lb-in",
        "77 lb",
    ]
    for record in stored["answers"].values():
        assert set(record) == {"tries", "hint", "worked_after"}
        assert all(set(one) == {"given", "at"} for one in record["tries"])
    # The signature by RFC 2104 (HMAC), written out: with the student's key, over the answers and whose they are.
    answers = [
        [key, [[t["given"], t["at"]] for t in r["tries"]], r["hint"], r["worked_after"]]
        for key, r in sorted(stored["answers"].items())
    ]
    content = [stored[name] for name in ("format", "version", "course", "student", "exercise")] + [answers]
    key, text = kept.signing_key("S1").encode(), json.dumps(content, separators=(",", ":")).encode()
    assert stored["signature"] == hmac.new(key, text, "sha256").hexdigest()
    # The desk gives the mark that the page does not.
    assert mark_sheets(kept)["S1"] == made.questions[0].points


def mark_sheets(course):
    (course.folder / "collected").mkdir(exist_ok=True)
    for path in course.handed_out.glob("*/*.answers.json"):
        (course.collected / path.name).write_bytes(path.read_bytes())
    return {r.student.id: r.points for r in results.mark_and_write(course, workers=1).rows}
