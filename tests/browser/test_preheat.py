"""The lesson on preheating, driven in JupyterLab as a student drives it."""

import pytest
from stage_on_page import StageOnPage


@pytest.fixture
def stage(opened):
    found = StageOnPage(opened("notebooks/08-preheat.ipynb"))
    found.wait_until_it_says("ready after 39 min")
    return found


def test_a_slider_moved_by_keyboard_changes_picture_and_sentence(stage):
    before = stage.picture, stage.words
    stage.press("outside, °C", "ArrowLeft", 5)
    # The hangar table of the same page says the same of −20 °C.
    stage.page.wait_for_function(
        "() => /(it takes|ready after) 45\\smin/.test(document.querySelector('.wa-side').innerText)"
    )
    assert stage.picture != before[0]
    assert stage.words != before[1]


def test_play_runs_through_the_morning_and_the_engine_warms(stage):
    stage.press("moment, min", "Home")
    stage.wait_until_it_says("shown after 0 min")
    cold = shade_of_the_engine(stage)
    stage.page.keyboard.press("Space")
    stage.page.wait_for_function(
        """() => {
            const minute = document.querySelector('.wa-details').textContent.match(/shown after (\\d+)\\smin/);
            return minute && +minute[1] >= 10 && +minute[1] < 44;
        }"""
    )
    stage.wait_until_it_says("shown after 45 min")
    assert "metal 15 °C" in stage.words
    assert shade_of_the_engine(stage) < cold - 20


def shade_of_the_engine(stage):
    """How light the crankcase is in the picture, 0 to 255."""
    return stage.root.locator("canvas").evaluate(
        """canvas => {
            const pen = canvas.getContext('2d');
            const [r, g, b] = pen.getImageData(0.85 * canvas.width, 0.3 * canvas.height, 1, 1).data;
            return 0.3 * r + 0.59 * g + 0.11 * b;
        }"""
    )


def test_fahrenheit_keeps_the_morning_as_it_was(stage):
    stage.control("temperatures in").select_option(label="°F")
    stage.control("thermostat, °F: number").wait_for()
    stage.rest()  # a browser that pushes values back would have done so by now
    assert stage.control("thermostat, °F: number").input_value() == "126"
    assert stage.control("outside, °F: number").input_value() == "5"
    assert "ready after 39 min" in stage.words
