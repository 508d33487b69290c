"""Pages of their own for demonstrations: one for each, all led to from one."""

import importlib

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
    assert len(others) == sum(len(lesson.demonstrations) for lesson in LESSONS)
    assert all(f"({name})" in index for name in others)
    assert all(len(made[name].cells) == 1 for name in others)


def test_without_voila_it_says_how_to_get_it(monkeypatch, tmp_path):
    monkeypatch.setattr(projector.importlib.util, "find_spec", lambda name: None)
    with pytest.raises(ValueError, match="not installed; install it with"):
        projector.command(tmp_path)
