"""The lesson on ground power and its exercise, driven in JupyterLab as a student drives them."""

from stage_on_page import StageOnPage
from walkaround.assessment.questions import paper
from walkaround.lessons.ground_power import questions


def test_warm_the_oil_by_keyboard_and_the_needle_jumps(opened):
    stage = StageOnPage(opened("notebooks/09-ground_power.ipynb"))
    stage.wait_until_it_says("Too slow: 55 rpm")
    before = stage.picture
    stage.press("oil, °C", "ArrowRight", 25)
    stage.wait_until_it_says("It turns at 109 rpm")
    assert stage.picture != before
    assert stage.control("oil, °C: number").input_value() == "10"


def test_a_wrong_plug_is_chosen_and_said(opened):
    stage = StageOnPage(opened("notebooks/09-ground_power.ipynb"))
    stage.control("cart").select_option(label="28 V cart")
    stage.wait_until_it_says("Too many volts")
    stage.control("cart").select_option(label="14 V cart")
    stage.press("positive and negative swapped", "Space")
    stage.wait_until_it_says("Positive on negative")


def test_an_answer_right_and_one_wrong(opened):
    asked = paper(questions, "Priya Lindqvist")
    page = opened("exercises/09-ground_power.ipynb")
    page.fill("input[placeholder='first and last name']", "Priya Lindqvist")
    page.click("button:has-text('Begin')")
    box = page.locator("input[placeholder='type a number']")
    box.wait_for()
    slip = next(turn for turn in asked.question("inner").wrong_turns if turn.slip == "volts left for volts lost")
    box.fill(f"{slip.answer:.2f}")
    box.press("Enter")
    page.wait_for_selector(".wa-answer [role=status]:has-text('2 tries left')")
    page.wait_for_selector(".wa-answer [role=status]:has-text('Only what is missing is lost inside')")
    page.click("button:has-text('Next')")
    page.wait_for_selector("text=Question 2 of")
    box = page.locator("input[placeholder='type a number']")
    box.fill(f"{asked.question('drop').answer:.2f} V")
    page.click("button:has-text('Check my answer')")
    page.wait_for_selector(".wa-answer [role=status]:has-text('Right, read as')")
