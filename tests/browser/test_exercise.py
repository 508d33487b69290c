"""An exercise answered in JupyterLab as a student answers it: by keyboard, fast, on a slow computer."""

import json

import pytest

expect = pytest.importorskip("playwright.sync_api").expect

FEEDBACK = ".wa-answer [role=status]"


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
