"""The lesson on preheating, driven in JupyterLab as a student drives it."""

import re

STAGE = ".jp-OutputArea-output:has(img):has(p[role=status])"


def stage_of(page):
    page.wait_for_selector(f"{STAGE} p[role=status]:has-text('ready after 39 min')")
    stage = page.locator(STAGE).first
    stage.scroll_into_view_if_needed()
    return stage, stage.locator("img"), stage.locator("p[role=status]")


def handle_of(stage, label):
    """The handle of the slider with that label."""
    return stage.locator(f".widget-slider:has(label:text-is('{label}')) .noUi-handle")


def test_a_slider_moved_by_keyboard_changes_picture_and_sentence(opened):
    page = opened("notebooks/08-preheat.ipynb")
    stage, picture, sentence = stage_of(page)
    before = picture.get_attribute("src"), picture.screenshot(), sentence.inner_text()
    handle_of(stage, "outside, °C").focus()
    for _ in range(5):
        page.keyboard.press("ArrowLeft")
    # The hangar table of the same page says the same of −20 °C.
    page.wait_for_selector(f"{STAGE} p[role=status]:has-text('ready after 45 min')")
    assert picture.get_attribute("src") != before[0]
    assert picture.screenshot() != before[1]
    assert sentence.inner_text() != before[2]


def test_play_runs_through_the_morning_and_the_engine_warms(opened):
    page = opened("notebooks/08-preheat.ipynb")
    stage, picture, sentence = stage_of(page)
    handle_of(stage, "moment, min").focus()
    page.keyboard.press("Home")
    page.wait_for_selector(f"{STAGE} p[role=status]:has-text('shown after 0 min')")
    cold = shade_of_the_engine(picture)
    stage.locator("button[title='play'], .widget-play button").first.click()
    page.wait_for_function(
        """() => [...document.querySelectorAll('p[role=status]')].some(p => {
            const minute = p.innerText.match(/shown after (\\d+) min/);
            return minute && +minute[1] >= 10 && +minute[1] < 44;
        })"""
    )
    page.wait_for_selector(f"{STAGE} p[role=status]:has-text('shown after 45 min')")
    assert re.search(r"metal 15 °C", sentence.inner_text())
    assert shade_of_the_engine(picture) < cold - 20


def shade_of_the_engine(picture):
    """How light the crankcase is in the picture, 0 to 255."""
    return picture.evaluate(
        """image => {
            const canvas = document.createElement('canvas');
            canvas.width = image.naturalWidth; canvas.height = image.naturalHeight;
            const pen = canvas.getContext('2d');
            pen.drawImage(image, 0, 0);
            const [r, g, b] = pen.getImageData(0.85 * canvas.width, 0.3 * canvas.height, 1, 1).data;
            return 0.3 * r + 0.59 * g + 0.11 * b;
        }"""
    )


def test_fahrenheit_keeps_the_morning_as_it_was(opened):
    page = opened("notebooks/08-preheat.ipynb")
    stage, _, _ = stage_of(page)
    stage.locator("select").nth(1).select_option(label="°F")
    page.wait_for_selector(f"{STAGE} label:text-is('thermostat, °F')")
    page.wait_for_timeout(1500)  # a browser that pushes values back would have done so by now
    readout = stage.locator(".widget-slider:has(label:text-is('thermostat, °F')) .widget-readout")
    assert readout.inner_text() == "126"
    outside = stage.locator(".widget-slider:has(label:text-is('outside, °F')) .widget-readout")
    assert outside.inner_text() == "5"
    assert "ready after 39 min" in stage.locator("p[role=status]").inner_text()


def test_the_hangar_table_stands_in_the_lesson_without_running_it(opened):
    page = opened("notebooks/08-preheat.ipynb", run=False)
    pictures = page.locator(".jp-OutputArea-output img")
    pictures.first.scroll_into_view_if_needed()
    assert pictures.first.evaluate("image => image.naturalHeight") > 400
    command = 'preheat.hangar_table().save("hangar-table.pdf")'
    page.locator("code", has_text=command).first.scroll_into_view_if_needed()
    assert pictures.nth(1).evaluate("image => image.naturalWidth") > 1000
