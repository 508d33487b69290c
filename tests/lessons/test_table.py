"""The table of lessons."""

import re

import pytest
from lesson_texts import cells
from walkaround.lessons.table import LESSONS, Lesson


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


def test_each_stop_has_a_place_of_its_own_on_the_aircraft():
    places = [lesson.place for lesson in LESSONS]
    assert len(set(places)) == len(places)
    assert all(0 <= along <= 1 and -1 <= out <= 1 for along, out in places)
    assert Lesson.place not in places  # the one that a row has which names none
