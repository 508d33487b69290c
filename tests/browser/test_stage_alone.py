"""The stage's screen side on a bare page, whose model answers at once: narrow rooms, second lines, and the keyboard."""

import importlib
import json
from itertools import pairwise

import pytest
from walkaround.lessons.table import LESSONS
from walkaround.live.stage import Stage

DEMONSTRATIONS = [(lesson.name, name) for lesson in LESSONS for name, _ in lesson.demonstrations]
X_HEIGHT = 1120 / 2048  # of DejaVu Sans, as its own OS/2 table has it
SMALLEST_PT = 10.5  # letters in pictures

SHOW = """
async ([state, esm, css]) => {
    document.body.innerHTML = `<style>body { margin: 0; } ${css}</style><div id="stage"></div>`;
    const handlers = {};
    const answer = () => handlers['msg:custom']?.({...state.now, bands: [], page: state.page}, []);
    const model = {
        get: name => state[name], set: (name, value) => { state[name] = value; },
        on: (name, call) => { handlers[name] = call; }, off: () => {},
        send: message => {
            window.kernel.sent.push(message);
            Object.assign(state.now.values, message.set);
            if (!window.kernel.silent) setTimeout(answer);
        },
    };
    const says = (message, pixels) => handlers['msg:custom'](message, pixels);
    window.kernel = {
        sent: [],
        answers: (more = {}) => says({...state.now, bands: [], ...more}, []),
        // One pixel in the corner of each step ahead, of a colour of red, green, blue and alpha.
        offers: (...ahead) => says(
            {ahead: ahead.map(({colour, ...offer}) => ({...state.now, bands: [[0, 0, 1, 1]], ...offer}))},
            ahead.map(({colour}) => new Uint32Array([new Uint32Array(new Uint8Array(colour).buffer)[0], 1])),
        ),
    };
    const module = await import(URL.createObjectURL(new Blob([esm], {type: 'text/javascript'})));
    module.default.render({model, el: document.getElementById('stage')});
}
"""


@pytest.fixture(scope="module")
def bare(browser):
    page = browser.new_page()
    page.goto("about:blank")
    yield page
    page.close()


def show(page, stage, width, height):
    """Put a stage on the page as it is now."""
    page.set_viewport_size({"width": width, "height": height})
    stage.open = True
    state = json.loads(json.dumps({"page": stage._page(), "now": stage.get_state()["now"]}))
    page.evaluate(SHOW, [state, Stage._esm, Stage._css])
    page.wait_for_function("() => document.querySelector('.wa-stage')?.dataset.frames > 0")
    page.wait_for_timeout(150)


def made(lesson, name):
    return getattr(importlib.import_module(f"walkaround.lessons.{lesson}"), name)()


def test_a_stage_that_is_built_on_the_page_itself_shows_its_values(bare):
    # Where a page is quick, the place for a stage is in it before the stage is built up.
    show(bare, made("loading", "demo"), 1366, 768)
    assert bare.get_by_label("front seats, lb: number").input_value() == "340"


def test_a_class_that_predicts_first_sees_nothing_of_the_answer(bare):
    show(bare, made("preheat", "demo"), 1366, 768)
    says = bare.locator(".wa-sentence, .wa-more, .wa-details, canvas")
    assert says.count() == 4
    bare.get_by_label("outside, °C", exact=True).focus()
    bare.keyboard.press("r")
    assert not any(part.is_visible() for part in says.all())
    bare.keyboard.press("r")
    assert all(part.is_visible() for part in says.all())


CORNER = "[...document.querySelector('canvas').getContext('2d').getImageData(0, 0, 1, 1).data]"
RED, BLUE = [255, 0, 0, 255], [0, 0, 255, 255]


def answered_with_350_ahead(bare):
    says = "colour => { kernel.answers(); kernel.offers({forecast: 1, asked: {'front seats': 350}, colour}); }"
    bare.evaluate(says, RED)


def two_steps(bare):
    """A hand goes on to 350 before anything of 345 came; then the answer to that comes, and 350 worked out ahead."""
    show(bare, made("loading", "demo"), 1366, 768)
    bare.get_by_label("front seats, lb", exact=True).focus()
    bare.evaluate("Object.assign(kernel, {sent: [], silent: true})")
    bare.keyboard.press("ArrowRight")
    bare.keyboard.press("ArrowRight")
    answered_with_350_ahead(bare)
    steps = [{"front seats": place} for place in (345, 350, 355)]
    asked = [{"set": here, "next": there, "units": 0} for here, there in pairwise(steps)]
    assert bare.evaluate("kernel.sent") == asked


def test_a_step_worked_out_ahead_is_shown_as_soon_as_it_comes_where_the_hand_has_gone_on(bare):
    two_steps(bare)
    assert bare.evaluate(CORNER) == RED
    bare.keyboard.press("ArrowRight")
    bare.evaluate("kernel.answers({came: 1})")
    assert bare.evaluate(CORNER) == RED
    assert bare.evaluate("kernel.sent.length") == 3
    assert not bare.evaluate("kernel.sent.some(message => message.all)")


def test_a_step_worked_out_ahead_that_is_shown_and_not_confirmed_gives_way_to_the_whole_picture(bare):
    two_steps(bare)
    bare.evaluate("kernel.answers()")  # to the step itself, as if nothing had been worked out ahead
    assert bare.evaluate("kernel.sent.at(-1)") == {"all": True}


def test_a_step_worked_out_ahead_is_not_shown_where_the_hand_does_something_else(bare):
    show(bare, made("loading", "demo"), 1366, 768)
    bare.get_by_label("front seats, lb", exact=True).focus()
    bare.evaluate("Object.assign(kernel, {sent: [], silent: true})")
    bare.keyboard.press("ArrowRight")
    before = bare.evaluate(CORNER)
    bare.keyboard.press("ArrowLeft")
    answered_with_350_ahead(bare)
    assert bare.evaluate(CORNER) == before
    bare.evaluate("kernel.answers()")
    assert not bare.evaluate("kernel.sent.some(message => message.all)")


def test_a_turn_back_is_shown_at_once_with_the_ends_that_controls_had(bare):
    stage = made("loading", "demo")
    show(bare, stage, 1366, 768)
    page = json.loads(json.dumps(stage._page()))
    next(spec for name, spec in page["controls"] if name == "rear seats")["max"] = 35
    slider = bare.get_by_label("front seats, lb", exact=True)
    slider.focus()
    bare.evaluate("kernel.silent = true")
    bare.keyboard.press("ArrowRight")
    bare.evaluate(
        """([page, red, blue]) => {
            kernel.answers();
            kernel.offers(
                {forecast: 1, asked: {'front seats': 350}, colour: red},
                {forecast: 2, asked: {'front seats': 340}, colour: blue, page},
            );
        }""",
        [page, RED, BLUE],
    )
    bare.keyboard.press("ArrowLeft")
    assert bare.evaluate(CORNER) == BLUE
    assert bare.get_by_label("rear seats, lb", exact=True).get_attribute("max") == "35"
    assert bare.evaluate("kernel.sent.at(-1)") == {
        "set": {"front seats": 340},
        "next": {"front seats": 335},
        "units": 0,
        "shows": 2,
    }


def test_a_count_of_nothing_is_a_nought(bare):
    show(bare, made("pitot_static", "guess"), 1366, 768)
    assert bare.get_by_label("nothing is blocked").input_value() == "0"


PLACES = """() => [...document.querySelectorAll('canvas, input[type=range]')].map(part => {
    const {left, top, width} = part.getBoundingClientRect();
    return [left, top, width].map(Math.round);
})"""


@pytest.mark.parametrize(("width", "height"), [(420, 800), (980, 700), (1366, 768)])
def test_nothing_jumps_where_words_come_and_go(bare, width, height):
    show(bare, made("fuel", "night"), width, height)
    places = []
    for times in (12, 3, 12, 9, 1):
        bare.evaluate(
            "n => kernel.answers({words: 'The dew of a cold night. '.repeat(n), more: 'So. '.repeat(n)})", times
        )
        bare.wait_for_timeout(50)
        places.append(bare.evaluate(PLACES))
    assert places == places[:1] * 5
    bare.set_viewport_size({"width": width - 20, "height": height})  # there the words take what they need
    bare.wait_for_function(
        """() => {
            const [more, picture] = ['.wa-more', '.wa-frame'].map(part => document.querySelector(part).getBoundingClientRect());
            return Math.abs(picture.top - more.bottom - 6) < 1;
        }"""
    )


@pytest.mark.parametrize(("lesson", "name"), DEMONSTRATIONS)
def test_letters_of_a_picture_can_be_read_in_a_narrow_room(bare, lesson, name):
    stage = made(lesson, name)
    show(bare, stage, 420, 800)
    button = bare.get_by_role("button", name="Enlarge the picture")
    button.click()
    bare.locator(".wa-enlarged").wait_for()
    assert bare.locator(".wa-zoom").evaluate("button => button === document.activeElement")
    canvas, frame = bare.locator("canvas"), bare.locator(".wa-frame")
    scale = canvas.evaluate("canvas => canvas.clientWidth") / stage._size[0]
    assert scale * X_HEIGHT * SMALLEST_PT * 100 / 72 >= 7.9  # 12.5 points, what most letters have, come to 9.5 pixels
    inside = "frame => [frame.clientWidth, frame.scrollWidth, frame.getBoundingClientRect().bottom]"
    seen, whole, bottom = frame.evaluate(inside)
    assert seen <= 420 < whole
    assert bottom <= 800
    # The keyboard reaches all of it.
    frame.focus()
    for _ in range(30):
        bare.keyboard.press("ArrowRight")
    end = "frame.scrollLeft + frame.clientWidth >= frame.scrollWidth - 1"
    bare.wait_for_function(f"() => {{ const frame = document.querySelector('.wa-frame'); return {end}; }}")
    bare.keyboard.press("z")
    bare.wait_for_function("() => document.querySelector('canvas').clientWidth <= 420")
    # A tap brings that place of the picture to the middle.
    box = canvas.bounding_box()
    bare.mouse.click(box["x"] + 0.9 * box["width"], box["y"] + box["height"] / 2)
    bare.wait_for_function("() => document.querySelector('.wa-frame').scrollLeft > 0")


def test_a_press_is_not_lost_to_a_page_that_moves_under_it(bare):
    show(bare, made("loading", "demo"), 420, 800)
    bare.set_viewport_size({"width": 420, "height": 500})
    bare.wait_for_timeout(300)
    button = bare.locator(".wa-zoom")
    button.evaluate("button => button.scrollIntoView({block: 'start'})")
    box = button.bounding_box()
    bare.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    before = bare.evaluate("scrollY")
    bare.mouse.down()
    bare.wait_for_timeout(200)
    bare.mouse.up()
    bare.locator(".wa-enlarged").wait_for(timeout=3000)
    bare.wait_for_function(f"scrollY !== {before}")


@pytest.mark.parametrize(("lesson", "name"), DEMONSTRATIONS)
def test_the_second_line_takes_three_lines_of_a_laptop_at_most(bare, lesson, name):
    stage, most = made(lesson, name), 0
    for setting in [{}, *stage.presets.values()]:
        stage.set(**setting)
        show(bare, stage, 1366 - 430, 768)  # what JupyterLab leaves beside its side bar
        lines = "p => p.hidden ? 0 : Math.round(p.clientHeight / parseFloat(getComputedStyle(p).lineHeight))"
        most = max(most, bare.locator(".wa-more").evaluate(lines))
    assert most <= 3


FOCUSED = """() => {
    const on = document.activeElement;
    if (!on.closest('.wa-stage') || on.dataset.been) return null; // past the last one, it begins anew
    on.dataset.been = 'yes';
    const box = on.getBoundingClientRect(), style = getComputedStyle(on);
    return {
        name: on.getAttribute('aria-label') ?? on.labels?.[0]?.textContent ?? on.textContent,
        control: on.dataset.control ?? '', tag: on.tagName, type: on.type ?? '',
        seen: box.top >= -1 && box.bottom <= innerHeight + 1 && box.width > 0, ring: parseFloat(style.outlineWidth) >= 2,
    };
}"""


@pytest.mark.parametrize(("width", "height"), [(1366, 768), (420, 800)])
@pytest.mark.parametrize(("lesson", "name"), DEMONSTRATIONS)
def test_the_keyboard_reaches_and_moves_everything(bare, lesson, name, width, height):
    stage = made(lesson, name)
    show(bare, stage, width, height)
    bare.evaluate("document.activeElement.blur()")
    stops = []
    for _ in range(120):
        bare.keyboard.press("Tab")
        bare.wait_for_timeout(60)  # it scrolls into view
        stop = bare.evaluate(FOCUSED)
        if stop is None:
            break
        stops.append(stop)
        assert stop["name"].strip(), stop
        assert stop["seen"], stop
        assert stop["ring"], stop
        if stop["tag"] == "SUMMARY":
            if not bare.evaluate("document.activeElement.parentElement.open"):
                bare.keyboard.press("Enter")
        elif stop["type"] == "range":
            before = bare.evaluate("Number(document.activeElement.value)")
            low = bare.evaluate("Number(document.activeElement.value) > Number(document.activeElement.min)")
            bare.keyboard.press("ArrowLeft" if low else "ArrowRight")
            assert bare.evaluate("Number(document.activeElement.value)") != before
    else:
        raise AssertionError("Tab never leaves the demonstration")
    assert [stop["control"] for stop in stops if stop["control"]] == list(stage.controls)
    buttons = {stop["name"] for stop in stops if stop["tag"] == "BUTTON"}
    assert {"Larger letters", "Full screen"} <= buttons
    assert ("Play" in buttons) == any(row[1]["kind"] == "player" for row in stage._page()["controls"])
