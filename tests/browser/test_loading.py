"""The first lesson and its exercise, driven in JupyterLab as a student drives them."""

import json

from stage_on_page import StageOnPage


def test_a_slider_moved_by_keyboard_changes_picture_and_sentence(opened):
    stage = StageOnPage(opened("notebooks/01-loading.ipynb"))
    stage.wait_until_it_says("Inside normal limits all the way")
    before = stage.picture, stage.words
    stage.press("rear seats, lb", "ArrowRight", 12)
    # Twelve steps of 5 lb more.
    stage.wait_until_it_says("take-off 2,180 lb")
    stage.rest()
    assert stage.picture != before[0]
    assert stage.words != before[1]
    # Who can't see the page hears the sentence when the hand rests, and what the slider stands at.
    assert "take-off 2,180 lb" in stage.root.get_by_role("status").inner_text()
    assert stage.control("rear seats, lb").get_attribute("aria-valuetext") == "60 lb"
    assert "take-off 2,180 lb" in stage.root.get_by_role("img").get_attribute("aria-label")


def test_controls_can_be_reached_and_read_without_a_mouse(opened):
    stage = StageOnPage(opened("notebooks/01-loading.ipynb"))
    stage.root.locator("select").first.focus()
    seen = []
    for _ in range(20):
        stage.page.keyboard.press("Tab")
        seen.append(
            stage.page.evaluate("() => document.activeElement.getAttribute('aria-label') ?? document.activeElement.id")
        )
    names = [f"{station}, lb" for station in ("front seats", "rear seats", "hold A", "hold B")]
    assert {*names, *(f"{name}: number" for name in names)} <= set(seen), seen


def test_a_number_is_typed_in_place_of_a_slider(opened):
    stage = StageOnPage(opened("notebooks/01-loading.ipynb"))
    box = stage.control("rear seats, lb: number")
    box.fill("120")
    box.press("Enter")
    stage.wait_until_it_says("take-off 2,240 lb")
    assert stage.control("rear seats, lb").input_value() == "120"


def test_the_next_step_is_on_the_screen_before_the_kernel_hears_of_it(opened):
    stage = StageOnPage(opened("notebooks/01-loading.ipynb"))
    slider = stage.control("rear seats, lb")
    changed_at_once = """slider => {
        const canvas = slider.closest('.wa-stage').querySelector('canvas'), before = canvas.toDataURL();
        slider.stepUp();
        slider.dispatchEvent(new Event('input'));
        return canvas.toDataURL() !== before;
    }"""
    assert not slider.evaluate(changed_at_once)  # where the hand goes can't be known yet
    for _ in range(4):
        stage.rest()
        assert slider.evaluate(changed_at_once)
    stage.wait_until_it_says("take-off 2,145 lb")
    stage.rest()
    ahead = stage.picture
    box = stage.control("rear seats, lb: number")
    for number in ("200", "25"):
        box.fill(number)
        box.press("Enter")
        stage.rest()
    assert stage.picture == ahead


def test_the_icon_of_the_page_does_not_blink_at_every_step(opened):
    # A browser takes longer to change it than to show a picture.
    stage = StageOnPage(opened("notebooks/01-loading.ipynb"))
    stage.rest()
    stage.page.evaluate("""() => {
        window.blinks = 0;
        const count = changes => { window.blinks += changes.filter(({target}) => target.closest('head')).length; };
        new MutationObserver(count).observe(document.head, {subtree: true, childList: true, attributes: true});
    }""")
    stage.press("rear seats, lb", "ArrowRight", 3)
    stage.wait_until_it_says("take-off 2,135 lb")
    assert stage.page.evaluate("blinks") == 0


def test_jupyterlab_passes_pictures_on_at_once(opened, lab):
    opened("notebooks/01-loading.ipynb")
    assert "walkaround.live.at_once | extension was successfully loaded" in lab.log.read_text(encoding="utf-8")


def test_an_answer_right_and_one_wrong_are_found_after_a_reload(opened, lab):
    page = opened("exercises/01-loading.ipynb")
    page.fill("input[placeholder='first and last name']", "Priya Lindqvist")
    page.click("button:has-text('Begin')")
    box = page.locator("input[placeholder='type a number']")
    box.wait_for()
    box.fill("1")
    box.press("Enter")
    page.wait_for_selector(".wa-answer [role=status]:has-text('2 tries left')")
    page.click("button:has-text('Next')")
    page.wait_for_selector(".wa-answer :text('What the fuel weighs')")
    gallons = float(page.inner_text("p:has-text('The tanks hold')").split("hold ")[1].split()[0])
    box = page.locator("input[placeholder='type a number']")
    box.fill(f"{gallons * 6:.0f} lb")
    page.click("button:has-text('Check my answer')")
    page.wait_for_selector(".wa-answer [role=status]:has-text('Right, read as')")
    (sheet,) = (lab.folder / "exercises").glob("loading-priya*.answers.json")
    answers = json.loads(sheet.read_text(encoding="utf-8"))["answers"]
    assert answers["moment"]["tries"][0]["given"] == "1 lb-in"

    page = opened("exercises/01-loading.ipynb")
    page.wait_for_selector("text=1 of 11 done, 2 of 31 points")
    page.wait_for_selector(".wa-answer [role=status]:has-text('2 tries left')")
    assert page.input_value("input[placeholder='first and last name']") == "Priya Lindqvist"
    assert page.input_value("input[placeholder='type a number']") == "1"
    page.click("button:has-text('Next')")
    page.wait_for_selector(".wa-answer [role=status]:has-text('Right, read as')")


def test_start_here_leads_to_the_lesson(opened):
    page = opened("notebooks/00-start-here.ipynb")
    page.click(".jp-OutputArea-output a:has-text('Weight and balance')")
    page.wait_for_selector("h1:has-text('1 · Weight and balance')")
