"""An exercise answered in JupyterLab as a student answers it: by keyboard, fast, on a slow computer."""

import json

import pytest
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, paper
from walkaround.lessons import table

expect = pytest.importorskip("playwright.sync_api").expect

FEEDBACK = ".wa-answer [role=status]"
ON = "(e => e.tagName === 'BUTTON' ? e.innerText.trim() : e.type ?? e.tagName)(document.activeElement)"


@pytest.fixture
def slow(page):
    """The page's processor slowed four times."""
    session = page.context.new_cdp_session(page)
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


def answers(lab, exercise, student):
    """What the answer sheet holds by now: the answers given to each question."""
    path = lab.folder / "exercises" / f"{exercise}-{student}.answers.json"
    stored = json.loads(path.read_text(encoding="utf-8"))["answers"]
    return {key: [t["given"] for t in record["tries"]] for key, record in stored.items()}


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
    assert answers(lab, "loading", "quick-hands")["moment"] == typed[:3]  # the others were for practice


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
    assert answers(lab, "loading", "dd-bb-a")["moment"] == ["1234.5"]


def tab_to(page, wanted, key="Tab"):
    """Press Tab until what has the focus is a button of that text, or a control of that kind."""
    for _ in range(60):
        if page.evaluate(ON).startswith(wanted):
            return
        page.keyboard.press(key)
    raise AssertionError(f"Tab never reached {wanted}; it is at {page.evaluate(ON)}")


def enter_by_keyboard(page, question, answer, key="Tab"):
    """Enter an answer by keyboard, where an earlier one may stand, from before or behind its controls."""
    keys = [key for key, _ in question.options]
    if question.kind == NUMBER:
        tab_to(page, "text", key)
        page.keyboard.press("Control+A")
        page.keyboard.type(answer if isinstance(answer, str) else f"{answer:.4f}")
        return
    control = {CHOICE: "radio", CHOICES: "checkbox", ORDER: "select"}[question.kind]
    tab_to(page, control, key)
    if question.kind == CHOICE:
        page.keyboard.press("Space")
        at = page.evaluate("(e => [...e.closest('fieldset').elements].indexOf(e))(document.activeElement)")
        for _ in range((keys.index(answer) - at) % len(keys)):
            page.keyboard.press("ArrowDown")
        return
    for _ in keys[1:] if key != "Tab" else ():
        page.keyboard.press(key)
    for i, option in enumerate(keys):
        if i:
            page.keyboard.press("Tab")
        if question.kind == ORDER:
            page.keyboard.press(str(answer.index(option) + 1))
        elif page.evaluate("document.activeElement.checked") != (option in answer):
            page.keyboard.press("Space")


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
            enter_by_keyboard(page, question, answer, key if kind != NUMBER else "Tab")
            if kind == NUMBER:
                page.keyboard.press("Enter")
            else:
                tab_to(page, "Check")
                page.keyboard.press("Enter")
            page.wait_for_selector(f"{FEEDBACK}:has-text({json.dumps(says, ensure_ascii=False)})")
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
