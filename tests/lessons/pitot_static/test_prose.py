"""What the lesson's pages and cautions have to say."""

import json
import re
from pathlib import Path

import pytest
from walkaround.lessons import pitot_static
from walkaround.physics.pitot_static import Openings, words

TOP = Path(__file__).resolve().parents[3]
PAGES = [TOP / folder / "03-pitot_static.ipynb" for folder in ("notebooks", "exercises", "solutions")]


def prose(path):
    cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
    return "\n".join("".join(cell["source"]) for cell in cells if cell["cell_type"] == "markdown")


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.parent.name)
def test_every_handbook_is_named(path):
    for found in re.finditer(r"(?i)handbook", prose(path)):
        before = prose(path)[: found.start()]
        assert before.endswith(("aircraft's ", "aircraft's own ", "Pilot's ")), before[-60:]


def test_pitot_heat_is_never_for_a_covered_head():
    assert "Never switch pitot heat on with the cover on" in prose(PAGES[0]).split("## ")[0]
    for demo in (pitot_static.dials, pitot_static.flight, pitot_static.guess, pitot_static.takeoff_roll):
        caution = demo().caution
        assert re.search(r"[Nn]ever switch (it|on pitot heat).*with the cover on", caution)
        assert "handbook" in caution
    assert "if there may be ice and no cover is on" in words.action_words(Openings(pitot_clear=False))


def test_the_roll_in_thin_air_is_the_least():
    assert "That is the least" in prose(PAGES[0])
    assert "is the least that it gives" in prose(PAGES[0])
