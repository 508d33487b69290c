"""README's pictures are made again and compared: they show what the workbook shows."""

import importlib.util
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageFilter

FILE = Path(__file__).parents[2] / ".ci" / "pictures.py"
SPEC = importlib.util.spec_from_file_location("pictures", FILE)
pictures = importlib.util.module_from_spec(SPEC)
SPEC.loader.exec_module(pictures)

# Of 255. Measured: 0 on the machine that made them, 6 with another font throughout; another setting or question differs
# by 19 and more, another page by 77.
MOST = 12


def difference(one, other):
    """The most by which two pictures differ anywhere, each seen from so far away that letters are grey lines."""

    def far(picture):
        small = picture.convert("RGB").resize((64, 64 * picture.height // picture.width), Image.Resampling.BOX)
        return np.asarray(small.filter(ImageFilter.GaussianBlur(2)), float)

    return np.abs(far(one) - far(other)).max()


@pytest.fixture(scope="module")
def made(loaded, lab, tmp_path_factory):
    """The pictures made again, and one of another setting, in a workbook in which nobody has answered anything."""

    def forget():
        for sheet in (lab.folder / "exercises").glob("*.json"):
            sheet.unlink()

    forget()
    loaded.set_viewport_size(pictures.WINDOW)
    found = {}
    for name, make in pictures.PICTURES.items():
        found[name] = make(loaded, tmp_path_factory.mktemp("course"))
        if name == "demonstration":
            found["another setting"] = pictures.in_setting(loaded, "static port taped over, climbing")
    forget()
    return found


def stored(name):
    return Image.open(pictures.FOLDER / f"{name}.png")


@pytest.mark.parametrize("name", pictures.PICTURES)
def test_a_picture_shows_what_the_workbook_shows(made, name):
    assert made[name].size == stored(name).size
    assert difference(made[name], stored(name)) < MOST, "look at what .ci/pictures.py makes, and store it"


def test_another_setting_and_another_page_are_seen(made):
    assert difference(made["another setting"], stored("demonstration")) > MOST
    assert difference(made["class-report"].resize(stored("exercise").size), stored("exercise")) > MOST
