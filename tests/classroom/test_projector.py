"""Pages of their own for demonstrations: one for each, all led to from one."""

import importlib
import re

import pytest
from walkaround.classroom import projector
from walkaround.lessons.table import LESSONS
from walkaround.live.stage import Stage


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.name)
def test_every_demonstration_of_the_table_is_one(lesson):
    module = importlib.import_module(f"walkaround.lessons.{lesson.name}")
    assert lesson.demonstrations
    for name, does in lesson.demonstrations:
        assert isinstance(getattr(module, name)(), Stage)
        assert does[0].isupper()


def test_the_first_page_leads_to_every_other():
    made = projector.pages()
    index = made[projector.INDEX].cells[0].source
    others = set(made) - {projector.INDEX}
    assert len(others) == sum(len(lesson.demonstrations) + 1 for lesson in LESSONS)
    assert all(f"({name})" in index for name in others)


def test_every_page_leads_to_pages_that_there_are_and_back():
    made = projector.pages()
    for name, book in made.items():
        links = re.findall(r"\]\(([^)]*)\)", " ".join(c.source for c in book.cells if c.cell_type == "markdown"))
        assert set(links) <= set(made)
        assert name == projector.INDEX or projector.INDEX in links
    for lesson in LESSONS:
        exercise, demonstration = (
            projector.exercise_file(lesson),
            projector.page(lesson.name, lesson.demonstrations[0][0])[0],
        )
        assert f"({exercise})" in made[demonstration].cells[0].source
        assert f"({demonstration})" in made[exercise].cells[0].source
        assert made[exercise].cells[-1].source.endswith(f"exercise({lesson.name!r})")


def test_without_voila_it_says_how_to_get_it(monkeypatch, tmp_path):
    monkeypatch.setattr(projector.importlib.util, "find_spec", lambda name: None)
    with pytest.raises(ValueError, match="not installed; install it with"):
        projector.command(tmp_path)
