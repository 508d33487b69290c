"""The demonstrations of pitot and static, driven by keyboard in JupyterLab as an instructor drives them before a class."""

import re

import pytest

DIALS, FLIGHT, GUESS, ROLL = range(4)
STAGES = ".jp-OutputArea-output:has(p[role=status]):has(img)"


@pytest.fixture(scope="module")
def lesson(browser, lab):
    from lab_in_chromium import open_notebook, run_all_cells

    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    page.set_default_timeout(30_000)
    open_notebook(page, lab, "notebooks/03-pitot_static.ipynb")
    run_all_cells(page)
    page.wait_for_function(f"() => document.querySelectorAll('{STAGES}').length === 4")
    yield page
    context.close()


def stage(page, number):
    found = page.locator(STAGES).nth(number)
    found.scroll_into_view_if_needed()
    return found


def says(found):
    return found.locator("p[role=status]").inner_text()


def wait_until_it_says(page, number, words):
    page.wait_for_function(
        f"([number, words]) => document.querySelectorAll('{STAGES}')[number].querySelector('p[role=status]').innerText.includes(words)",
        arg=[number, words],
    )


def focus(found, label):
    """Give the keyboard to the slider or box of that label."""
    row = found.locator(".widget-inline-hbox").filter(has_text=re.compile(rf"^\s*{label}")).first
    row.locator(".noUi-handle, input").first.focus()


def press_switch(page, found, label):
    found.locator("label:has(input)").filter(has_text=label).locator("input").focus()
    page.keyboard.press("Space")


def test_dials_by_keyboard(lesson):
    found = stage(lesson, DIALS)
    before = found.locator("img").screenshot()
    assert "All three instruments are right" in says(found)
    press_switch(lesson, found, "pitot inlet blocked")
    wait_until_it_says(lesson, DIALS, "Airspeed shows 0 kt where 74 kt is right")
    press_switch(lesson, found, "pitot drain blocked")
    wait_until_it_says(lesson, DIALS, "keeps an old pressure")
    at_3000 = float(re.search(r"shows (\d+) kt", says(found))[1])
    focus(found, "pressure altitude")
    for _ in range(5):
        lesson.keyboard.press("ArrowRight")
    lesson.wait_for_timeout(800)
    assert float(re.search(r"shows (\d+) kt", says(found))[1]) > at_3000 + 10
    assert found.locator("img").screenshot() != before


def test_a_flight_is_played_and_scrubbed_and_the_blockage_moved(lesson):
    found = stage(lesson, FLIGHT)
    before = says(found), found.locator("img").get_attribute("src")
    play = found.locator(".jupyter-widget-play button, .widget-play button").first
    play.focus()
    lesson.keyboard.press("Enter")
    lesson.wait_for_timeout(2500)
    lesson.keyboard.press("Enter")  # the same button pauses
    lesson.wait_for_timeout(600)
    played = says(found)
    assert played != before[0]
    assert found.locator("img").get_attribute("src") != before[1]

    def seconds(words):
        minutes, rest = re.search(r"(\d+) min (\d+) s", words).groups()
        return 60 * int(minutes) + int(rest)

    # Two and a half seconds at twenty times the pace of a real flight, less what a busy machine leaves out.
    assert 10 <= seconds(played) - seconds(before[0]) <= 80
    focus(found, "moment")
    lesson.keyboard.press("ArrowRight")
    lesson.wait_for_timeout(600)
    assert seconds(says(found)) - seconds(played) in (2, 4)
    focus(found, "from, s")
    lesson.keyboard.press("End")
    wait_until_it_says(lesson, FLIGHT, "All three instruments are right")


def test_guessing_votes_and_showing_the_cause(lesson):
    found = stage(lesson, GUESS)
    secret = says(found)
    assert "because" not in secret
    picture = found.locator("img").get_attribute("src")
    focus(found, "moment")
    for _ in range(3):
        lesson.keyboard.press("PageUp")
    focus(found, "all three blocked")
    lesson.keyboard.press("ArrowUp")
    lesson.keyboard.press("ArrowUp")
    lesson.keyboard.press("Tab")
    wait_until_it_says(lesson, GUESS, "Votes so far: all three blocked 2")
    assert "because" not in says(found)
    press_switch(lesson, found, "show the cause")
    wait_until_it_says(lesson, GUESS, "Round 1: all three blocked, from 1 min 41 s on. 2 of 2 votes were right")
    assert found.locator("img").get_attribute("src") != picture
    focus(found, "round")
    lesson.keyboard.press("ArrowUp")
    lesson.keyboard.press("Tab")
    wait_until_it_says(lesson, GUESS, "Round 2, 1 min 00 s")
    assert "Votes so far: none" in says(found)


def test_the_roll_by_keyboard(lesson):
    found = stage(lesson, ROLL)
    before = says(found), found.locator("img").screenshot()
    assert "this one shows 0 kt" in before[0]
    focus(found, "pressure altitude")
    for _ in range(10):
        lesson.keyboard.press("ArrowRight")
    lesson.wait_for_timeout(800)
    assert says(found) != before[0]
    assert found.locator("img").screenshot() != before[1]
    found.locator("select").first.focus()
    lesson.keyboard.press("Home")
    wait_until_it_says(lesson, ROLL, "Airspeed alive")


def test_the_lesson_reads_without_running(opened):
    page = opened("notebooks/03-pitot_static.ipynb", run=False)
    pictures = page.locator(".jp-OutputArea-output img")
    pictures.first.scroll_into_view_if_needed()
    assert pictures.first.evaluate("image => image.naturalHeight") > 400
    assert page.locator("text=model not found").count() == 0
