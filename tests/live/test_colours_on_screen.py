"""Colours of the front end stand out in JupyterLab's light and dark theme: WCAG 2.2, success criteria 1.4.3 and 1.4.11."""

import re
import sys
from pathlib import Path

import pytest
from walkaround.live.screen import sources
from walkaround.live.status import NOTE, OK, STOP, status_html

# The grounds of JupyterLab 4's own themes, --jp-layout-color0 and --jp-layout-color1, as read in their style sheets
# (share/jupyter/lab/themes in the environment).
GROUNDS = {"light": ("#ffffff",), "dark": ("#111111", "#212121")}
LETTERS, SHAPES = 4.5, 3.0  # to 1


def luminance(colour):
    """Relative luminance of a colour written #rrggbb (WCAG 2.2, definition)."""
    parts = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    """Contrast ratio of two colours (WCAG 2.2, definition): black on white is 21 to 1."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def named(rule):
    """Colours that a rule of the shared style sheet gives names to."""
    return dict(re.findall(r"--wa-(\w+): (#\w{6})", rule))


def themes():
    light, dark = re.findall(r"^[^\n]*\{\n(?:[^}]*--wa-ok[^}]*)\}", sources("screen.css"), flags=re.MULTILINE)
    return {"light": named(light), "dark": named(dark)}


def test_contrast_is_as_the_standard_has_it():
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    # The lightest grey on white that passes, as the working group's examples have it (recalled).
    assert contrast("#767676", "#ffffff") >= 4.5 > contrast("#777777", "#ffffff")


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_verdicts_and_edges_stand_out(theme):
    colours = themes()[theme]
    assert set(colours) == {"edge", "ok", "stop", "note"}
    for ground in GROUNDS[theme]:
        for name, colour in colours.items():
            assert contrast(colour, ground) >= (SHAPES if name == "edge" else LETTERS), (theme, name, ground)


def test_no_part_has_colours_of_its_own():
    exercises = Path(sys.modules["walkaround"].__file__).parent / "exercises"
    for css in (sources("stage.css"), sources("answer_box.css", folder=exercises)):
        assert set(re.findall(r"#[0-9a-f]{3,6}\b", css)) <= {"#fff"}  # behind a picture


@pytest.mark.parametrize("verdict", [OK, STOP, NOTE])
def test_the_line_beside_a_message_stands_out_in_both_themes(verdict):
    colour = re.search(r"border-left:6px \w+ (#\w{6})", status_html("So it is.", verdict))[1]
    for grounds in GROUNDS.values():
        assert all(contrast(colour, ground) >= SHAPES for ground in grounds)
