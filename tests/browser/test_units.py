"""The menu of units: chosen by keyboard in one place, it holds everywhere, and is remembered."""

import pytest
from lab_in_chromium import open_in_its_place


@pytest.fixture(autouse=True)
def _forget_the_choice(lab):
    yield
    (lab.folder / "home" / "JUPYTER_CONFIG_DIR" / "walkaround-units.txt").unlink(missing_ok=True)


def test_metric_units_hold_on_every_page_and_are_remembered(opened):
    page = opened("notebooks/01-loading.ipynb")
    stages = page.locator(".wa-stage[data-frames]")
    stages.nth(1).wait_for()
    seats = stages.first.get_by_label("front seats, lb", exact=True)
    seats.focus()
    page.keyboard.press("ArrowLeft")
    units = stages.first.get_by_label("Units")
    units.focus()
    page.keyboard.press("End")
    stages.first.get_by_label("front seats, kg", exact=True).wait_for()
    assert stages.first.get_by_label("front seats, kg", exact=True).input_value() == "152"  # 335 lb
    assert "kg with CG" in stages.first.locator(".wa-sentence").inner_text()
    stages.nth(1).get_by_label("front seats, kg", exact=True).wait_for()
    assert units.evaluate("e => e === document.activeElement")  # the hand keeps its place
    open_in_its_place(page, "exercises/01-loading.ipynb")
    page.get_by_label("Your name").fill("Metric Mind")
    page.keyboard.press("Enter")
    page.locator(".wa-form td", has_text=" kg").first.wait_for()
    page.locator(".wa-entry", has_text="kg-m").wait_for()
    page.get_by_role("button", name="Worked answer").click()
    page.get_by_role("button", name="press again").click()
    page.locator(".wa-worked li", has_text="kg-m").first.wait_for()
    page.get_by_label("Units").first.select_option("US")
    page.locator(".wa-entry", has_text="lb-in").wait_for()
    page.locator(".wa-worked li", has_text="lb-in").first.wait_for()
