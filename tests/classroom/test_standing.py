"""Where students stand at each stop, and the stop that needs another lesson with its hardest slip."""

import bs4
import pytest
from walkaround.classroom import gradebook, overrides, standing, tables
from walkaround.classroom.desk import ALL_GROUPS, FEWEST_FIRST, Desk
from walkaround.lessons.table import find

TWO = '[[exercises]]\nname = "loading"\n[[exercises]]\nname = "fuel"\n'
STUDENTS = [(f"S{i}", f"Student {i}", "AB"[i % 2]) for i in range(1, 9)]


@pytest.fixture
def class_of_8(new_school):
    """Six have all of loading right; five have begun fuel, four of them with one and the same slip; two have nothing."""
    school = new_school(STUDENTS)
    school.write_course(exercises=TWO)
    for i in range(1, 7):
        school.hand_in(f"S{i}", school.all_right(f"S{i}"))
    for i in range(1, 6):
        keys = [q.key for q in school.paper(f"S{i}", "fuel").questions]
        answers = school.answers(f"S{i}", keys[:1], keys[1:2] if i < 5 else (), "fuel")
        school.hand_in(f"S{i}", answers, "fuel")
    return school


def test_who_is_done_in_work_and_not_begun(class_of_8):
    rows = class_of_8.mark().rows
    course = class_of_8.course
    found = {r.student.id: [standing.place(course, s) for s in r.standings] for r in rows}
    loading, fuel = (len(course.paper(name, "S1").questions) for name in ("loading", "fuel"))
    assert [(p.state, p.done, p.questions) for p in found["S1"]] == [("done", loading, loading), ("in work", 1, fuel)]
    assert [p.state for p in found["S6"]] == ["done", "not begun"]
    assert [p.state for p in found["S8"]] == ["not begun", "not begun"]
    assert found["S1"][0].percent == 100
    stops = standing.stops(course, rows)
    assert [(s.number, s.done, s.in_work, s.not_begun) for s in stops] == [
        ("1", 6, 0, 2),
        (str(find("fuel").number), 0, 5, 3),
    ]


def test_a_question_with_fewer_tries_than_the_course_is_done_after_these(new_school):
    school = new_school(STUDENTS[:1])
    school.write_course("tries = 3", '[[exercises]]\nname = "decision"\n')
    questions = school.paper("S1", "decision").questions
    once = next(q for q in questions if q.most_tries == 1)
    answers = school.answers("S1", [q.key for q in questions if q is not once], exercise="decision")
    wrong = next(key for key, _ in once.options if key != once.answer)
    answers[once.key] = {"tries": [{"given": wrong, "at": answers[questions[0].key]["tries"][0]["at"]}]}
    school.hand_in("S1", answers, "decision")
    (row,) = school.mark().rows
    place = standing.place(school.course, row.standings[0])
    assert (place.state, place.done, place.points) == ("done", len(questions), place.of - once.points)


def test_the_stop_that_needs_another_lesson_and_its_hardest_slip(class_of_8):
    course, rows = class_of_8.course, class_of_8.mark().rows
    right, wrong = course.paper("fuel", "S1").questions[:2]
    stop = standing.stops(course, rows)[1]
    # Five answered the first question right; four of them the second wrong, with its first slip.
    assert stop.share == pytest.approx(5 * right.points / (5 * right.points + 4 * wrong.points))
    slip = wrong.wrong_turns[0].slip
    assert stop.hardest == (slip, wrong.title, wrong.key, 4, 4)
    said = standing.need(course, standing.stops(course, rows))
    assert said.why.startswith(f"{find('fuel').number} {find('fuel').questions.TITLE} needs another lesson: it earned ")
    assert f"“{slip}” in “{wrong.title}”: 4 students made it and never earned the points." in said.why
    shown = find("fuel").shown_by.get(wrong.key)
    assert (said.lesson, said.function) == (("fuel", shown[0]) if shown else ("", ""))


def test_a_slip_that_was_put_right_weighs_less_than_one_that_was_not(new_school):
    school = new_school(STUDENTS)
    numbers = [q.key for q in school.paper("S1").questions if q.kind == "number"][:2]
    for i in range(1, 9):
        answers = school.answers(f"S{i}", [], numbers if i < 4 else numbers[:1])
        if i > 1:  # all but one find the right answer to the first question after the slip
            q = next(q for q in school.paper(f"S{i}").questions if q.key == numbers[0])
            answers[q.key]["tries"].append({"given": f"{q.answer:.8g}", "at": answers[q.key]["tries"][0]["at"]})
        school.hand_in(f"S{i}", answers)
    hardest = standing.stops(school.course, school.mark().rows)[0].hardest
    assert (hardest.key, hardest.students, hardest.lost) == (numbers[1], 3, 3)


def test_with_few_sheets_or_a_class_that_is_good_no_stop_is_named(new_school):
    school = new_school(STUDENTS)
    school.hand_in("S1", school.answers("S1", [], ["moment"]))
    assert "Too few sheets" in standing.need(school.course, standing.stops(school.course, school.mark().rows)).why
    for i in range(1, 7):
        school.hand_in(f"S{i}", school.all_right(f"S{i}"))
    said = standing.need(school.course, standing.stops(school.course, school.mark().rows)).why
    assert said.startswith("No stop needs another lesson: even 1 Weight and balance, the weakest, earned 100 %")


def test_in_a_large_class_five_sheets_are_enough_and_four_are_not(new_school):
    school = new_school([(f"S{i}", f"Student {i}", "") for i in range(1, 31)])
    for i in range(1, 6):
        school.hand_in(f"S{i}", school.answers(f"S{i}", [], ["moment"]))
        found = standing.stops(school.course, school.mark().rows)
        assert found[0].enough == (i == 5)


def test_the_page_and_the_table_say_the_same_and_names_are_text(class_of_8):
    text = (class_of_8.folder / "roster.csv").read_text()
    (class_of_8.folder / "roster.csv").write_text(text.replace("Student 8", "<b>Eight</b>"))
    rows = class_of_8.mark().rows
    page = bs4.BeautifulSoup(class_of_8.results()[standing.PAGE], "html.parser")
    stops, students = page.find_all("table")
    assert [len(t.tbody.find_all("tr")) for t in (stops, students)] == [2, 8]
    assert "▶" in stops.tbody.find_all("tr")[1].text
    assert "<b>Eight</b>" in students.text
    lines = [row for _, row in tables.read(class_of_8.folder / "results" / standing.TABLE).rows]
    assert len(lines) == 16
    book = class_of_8.gradebook()
    for row in lines:
        assert float(row["points"]) == float(book[row["id"]][f"{row['exercise']} points"])
    by_id = {r["id"]: r for r in lines if r["exercise"] == "fuel"}
    assert [by_id[i]["state"] for i in ("S1", "S6")] == ["in work", "not begun"]
    assert rows[0].student.id == lines[0]["id"]


def test_a_mark_by_hand_and_an_exercise_of_another_group_are_named(new_school):
    school = new_school(STUDENTS)
    school.write_course(exercises=TWO + 'groups = ["A"]\n')
    overrides.set_by_hand(school.course, "S1", "loading", "12", "stick broke")
    rows = school.mark().rows
    found = {r.student.id: [standing.place(school.course, s) for s in r.standings] for r in rows}
    assert found["S1"][0].state == gradebook.BY_HAND
    assert found["S1"][1] is None
    html = standing.standing_part(school.course, rows, rows)
    assert "by hand" in html
    assert "not set" in html


def test_the_desk_shows_a_group_or_those_with_fewest_points_first(class_of_8):
    desk = Desk(class_of_8.folder)
    desk.path.value = "."
    desk.open_it.click()
    desk.mark_it.click()

    def shown():
        students = bs4.BeautifulSoup(desk.marks_table.value, "html.parser").find_all("table")[1]
        return [th.find(string=True) for th in students.select("tbody th")]

    assert desk.group.options == (ALL_GROUPS, "A", "B")
    assert len(shown()) == 8
    desk.group.value = "A"
    assert shown() == ["Student 2", "Student 4", "Student 6", "Student 8"]
    desk.order.value = FEWEST_FIRST
    assert shown()[0] == "Student 8"
    assert desk.again.rows[0][0].startswith(f"{find('fuel').number} ")
