"""The demonstrations of pitot and static, driven by keyboard in JupyterLab as an instructor drives them before a class."""

import re

import pytest
from lab_in_chromium import open_notebook
from stage_on_page import StageOnPage

DIALS, FLIGHT, GUESS, ROLL = range(4)


@pytest.fixture(scope="module")
def lesson(browser, lab):
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    page.set_default_timeout(60_000)
    open_notebook(page, lab, "notebooks/03-pitot_static.ipynb")  # it runs by itself
    page.wait_for_function("() => document.querySelectorAll('.wa-stage[data-frames]').length === 4")
    yield page
    context.close()


def unfold(stage):
    """Open the headings under which controls are folded where there is little room."""
    closed = stage.root.locator(".wa-controls details:not([open]) > summary")
    for _ in range(closed.count()):
        closed.first.press("Enter")


def test_dials_by_keyboard(lesson):
    stage = StageOnPage(lesson, DIALS)
    before = stage.picture
    unfold(stage)
    assert "All three instruments are right" in stage.words
    stage.press("pitot inlet blocked", "Space")
    stage.wait_until_it_says("Airspeed shows 0 kt where 74 kt is right")
    stage.press("pitot drain blocked", "Space")
    stage.wait_until_it_says("Airspeed is off the scale, over 180 kt")
    stage.press("pressure altitude, ft", "ArrowLeft", 20)
    stage.rest()
    at_1000 = float(re.search(r"shows (\d+) kt", stage.words)[1])
    stage.press("pressure altitude, ft", "ArrowRight", 5)
    stage.rest()
    assert float(re.search(r"shows (\d+) kt", stage.words)[1]) > at_1000 + 10
    assert stage.picture != before


def test_a_flight_is_played_and_scrubbed_and_the_blockage_moved(lesson):
    stage = StageOnPage(lesson, FLIGHT)
    before = stage.words, stage.picture
    stage.root.get_by_role("button", name="Play").focus()
    lesson.keyboard.press("Enter")
    lesson.wait_for_timeout(2500)
    lesson.keyboard.press("Enter")  # the same button pauses
    stage.rest()
    played = stage.words
    assert played != before[0]
    assert stage.picture != before[1]

    def seconds(words):
        minutes, rest = re.search(r"(\d+) min (\d+) s", words).groups()
        return 60 * int(minutes) + int(rest)

    # Two and a half seconds at twenty times the pace of a real flight, less what a busy machine leaves out.
    assert 10 <= seconds(played) - seconds(before[0]) <= 80
    stage.press("moment of the flight, s", "ArrowRight")
    stage.rest()
    assert seconds(stage.words) - seconds(played) in (2, 4)
    stage.press("from, s", "End")
    stage.wait_until_it_says("All three instruments are right")


def test_guessing_votes_and_showing_the_cause(lesson):
    stage = StageOnPage(lesson, GUESS)
    assert "because" not in stage.words
    picture = stage.picture
    stage.press("moment of the flight, s", "PageUp", 3)
    stage.press("all three blocked", "ArrowUp", 2)
    stage.wait_until_it_says("Votes so far: all three blocked 2")
    assert "because" not in stage.words
    stage.control("moment of the flight, s").focus()
    lesson.keyboard.press("r")
    stage.wait_until_it_says("Round 1: all three blocked, from 1 min 41 s on. 2 of 2 votes were right")
    assert stage.picture != picture
    stage.press("round (each hides a fault)", "ArrowUp")
    stage.wait_until_it_says("Round 2, 1 min 00 s")
    assert "Votes so far: none" in stage.words


def test_the_roll_by_keyboard(lesson):
    stage = StageOnPage(lesson, ROLL)
    before = stage.words, stage.picture
    assert "this one shows 0 kt" in before[0]
    stage.press("pressure altitude, ft", "ArrowRight", 10)
    stage.rest()
    assert stage.words != before[0]
    assert stage.picture != before[1]
    stage.press("on the pitot tube", "Home")
    stage.wait_until_it_says("Airspeed alive")
