"""The first lesson and its exercise, driven in JupyterLab as a student drives them."""

import json

STAGE = ".jp-OutputArea-output:has(img)"


def test_a_slider_moved_by_keyboard_changes_picture_and_sentence(opened):
    page = opened("notebooks/01-loading.ipynb")
    page.wait_for_selector(f"{STAGE} p[role=status]:has-text('Inside normal limits all the way')")
    stage = page.locator(STAGE).first
    stage.scroll_into_view_if_needed()
    picture, sentence = stage.locator("img"), stage.locator("p[role=status]")
    before = picture.get_attribute("src"), sentence.inner_text(), picture.screenshot()
    handle = stage.locator(".noUi-handle").nth(1)  # the rear seats
    handle.focus()
    for _ in range(12):
        page.keyboard.press("ArrowRight")
    # Twelve steps of 5 lb more.
    page.wait_for_selector(f"{STAGE} p[role=status]:has-text('take-off 2,180 lb')")
    assert picture.get_attribute("src") != before[0]
    assert picture.screenshot() != before[2]
    assert sentence.inner_text() != before[1]


def test_controls_can_be_reached_and_read_without_a_mouse(opened):
    page = opened("notebooks/01-loading.ipynb")
    page.wait_for_selector(f"{STAGE} p[role=status]")
    stage = page.locator(STAGE).first
    stage.locator("select").first.focus()
    seen = []
    for _ in range(12):
        page.keyboard.press("Tab")
        seen.append(page.evaluate("() => document.activeElement.className + ' ' + document.activeElement.tagName"))
    assert sum("noUi-handle" in what for what in seen) >= 5, seen


def test_an_answer_right_and_one_wrong_are_found_after_a_reload(opened, lab):
    page = opened("exercises/01-loading.ipynb")
    page.fill("input[placeholder='first and last name']", "Priya Lindqvist")
    page.click("button:has-text('Begin')")
    box = page.locator("input[placeholder='type a number']")
    box.wait_for()
    box.fill("1")
    box.press("Enter")
    page.wait_for_selector("p[role=status]:has-text('2 tries left')")
    page.click("button:has-text('Next')")
    page.wait_for_selector("text=What the fuel weighs")
    gallons = float(page.inner_text("p:has-text('The tanks hold')").split("hold ")[1].split(" US")[0])
    box = page.locator("input[placeholder='type a number']")
    box.fill(f"{gallons * 6:.0f} lb")
    page.click("button:has-text('Check my answer')")
    page.wait_for_selector("p[role=status]:has-text('Right, read as')")
    (sheet,) = (lab.folder / "exercises").glob("loading-priya*.answers.json")
    answers = json.loads(sheet.read_text(encoding="utf-8"))["answers"]
    assert answers["moment"]["tries"][0]["given"] == "1"

    page = opened("exercises/01-loading.ipynb")
    page.wait_for_selector("text=1 of 11 done, 2 of 31 points")
    page.wait_for_selector("p[role=status]:has-text('2 tries left')")
    assert page.input_value("input[placeholder='first and last name']") == "Priya Lindqvist"
    assert page.input_value("input[placeholder='type a number']") == "1"
    page.click("button:has-text('Next')")
    page.wait_for_selector("p[role=status]:has-text('Right, read as')")


def test_a_lesson_reads_without_running(opened):
    page = opened("notebooks/01-loading.ipynb", run=False)
    picture = page.locator(".jp-OutputArea-output img").first
    picture.scroll_into_view_if_needed()
    assert picture.evaluate("image => image.naturalHeight") > 400
    assert page.locator("text=model not found").count() == 0


def test_start_here_leads_to_the_lesson(opened):
    page = opened("notebooks/00-start-here.ipynb")
    page.click(".jp-OutputArea-output a:has-text('Weight and balance')")
    page.wait_for_selector("h1:has-text('1 · Weight and balance')")
