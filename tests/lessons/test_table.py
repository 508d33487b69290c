"""The table of lessons, and the overview on the start page."""

import re

import pytest
from lesson_texts import cells
from walkaround.lessons.table import LESSONS, overview


def test_lessons_stand_in_the_order_of_the_round_and_name_the_tasks_that_they_serve():
    numbers = [lesson.number for lesson in LESSONS]
    assert numbers == sorted(set(numbers))
    for lesson in LESSONS:
        # The standard's areas of operation have Roman numbers, their tasks letters (FAA-S-ACS-6, recalled).
        assert all(re.fullmatch(r"[IVX]+\.[A-Z]", task) for task in lesson.tasks.split(", "))
        assert 10 <= lesson.minutes <= 90


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.name)
def test_the_lesson_names_the_tasks_that_the_table_has(lesson):
    _, served = cells(f"notebooks/{lesson.file}")[0].split("**Serves:**")
    assert sorted(re.findall(r"\b[IVX]+\.[A-Z]\b", served)) == lesson.tasks.split(", ")


def test_the_overview_has_a_row_for_each_lesson_with_its_links():
    rows = [line for line in overview()._repr_markdown_().splitlines() if line.startswith("|")][2:]
    for lesson, row in zip(LESSONS, rows, strict=True):
        for part in (f"({lesson.file})", f"(../exercises/{lesson.file})", f"{lesson.minutes}\u00a0min", lesson.tasks):
            assert part in row
