"""A sheet proves whose it is: what is not signed by its student counts for nobody, and never in place of what is."""

import json

import pytest
from walkaround.assessment import answer_sheet
from walkaround.classroom import choices, demo_course, handout, results
from walkaround.classroom.desk import Desk
from walkaround.exercises.form import ExerciseForm

ONE_FOLDER = 'hand_out = "one for all"'


def wrong(school, student="S1"):
    keys = [q.key for q in school.paper(student).questions if q.wrong_turns]
    return school.answers(student, slips=keys, begun=school.due.replace(hour=17))


def forged(school, key=""):
    """A sheet under the id of S1 with every answer wrong, later than theirs."""
    return answer_sheet.data_of("Test", "S1", "loading", "", wrong(school), key)


@pytest.mark.parametrize("copies", ["last", "best", "first"])
@pytest.mark.parametrize("signed_by", ["", "S2", "the key for the numbers"])
def test_a_sheet_under_another_s_id_displaces_nothing(school, copies, signed_by):
    school.write_course(f'copies = "{copies}"')
    school.hand_in("S1", school.all_right("S1"), name="z.answers.json")
    key = school.course.signing_key(signed_by) if signed_by == "S2" else school.course.key("S1") if signed_by else ""
    (school.collected / "a.answers.json").write_bytes(forged(school, key))
    done = school.mark()
    assert school.points(done.outcome) == {"S1": 31.0}
    assert done.outcome.marks["S1", "loading"].remarks == ()
    entry = next(f for f in done.outcome.files if f.place == "a.answers.json")
    assert (entry.status, entry.student, entry.reason) == ("not signed", "S1", "not signed by S1")
    assert b"a.answers.json" in school.results()["class-report.html"]


def test_an_unsigned_sheet_is_no_mark_even_if_it_is_the_only_one(school):
    (school.collected / "a.answers.json").write_bytes(forged(school))
    done = school.mark()
    assert done.outcome.marks == {}
    assert school.gradebook()["S1"]["loading status"] == "not handed in"
    assert school.gradebook()["S1"]["remarks"] == "loading: what came is not signed by the student, and does not count"
    assert school.gradebook()["S2"]["remarks"] == ""
    page = school.results()["feedback/s1.html"].decode()
    assert "not signed by your folder" in page
    assert "Nothing has been handed in" not in page
    assert "  a.answers.json: not signed by S1" in results.overview(done)
    with pytest.raises(ValueError, match=r"'a\.answers\.json' can't count: not signed by S1"):
        choices.choose(school.course, "a.answers.json")


@pytest.mark.parametrize(
    "change",
    [
        lambda d: d["answers"]["moment"]["tries"][0].update(given="1"),
        lambda d: d["answers"]["moment"]["tries"][0].update(at="2026-03-01T00:00:00+00:00"),
        lambda d: d["answers"]["moment"]["tries"].insert(0, {"given": "1", "at": "x"}),
        lambda d: d["answers"]["moment"]["tries"].clear(),
        lambda d: d["answers"]["moment"].update(hint=True),
        lambda d: d["answers"]["moment"].update(worked_after=1),
        lambda d: d["answers"].pop("go"),
        lambda d: d["answers"].update(other=d["answers"]["go"]),
        lambda d: d.update(exercise="bags"),
        lambda d: d.update(student="S2"),
        lambda d: d.update(signature=d["signature"][:-1]),
        lambda d: d.update(signature=""),
        lambda d: d.update(signature="é\ud800"),
        lambda d: d.update(signature=None),
        lambda d: d.pop("signature"),
    ],
)
def test_nothing_that_marking_reads_can_be_changed(school, change):
    school.write_course(
        exercises='[[exercises]]\nname = "loading"\n[[exercises]]\nname = "bags"\nquestions = "bags.py"\n'
    )
    (school.folder / "bags.py").write_bytes(demo_course.TEMPLATE.read_bytes())
    path = school.hand_in("S1", school.answers("S1", ["moment", "go"]))
    assert school.points() == {"S1": 5.0}
    content = json.loads(path.read_bytes())
    change(content)
    path.write_text(json.dumps(content))
    assert [f.status for f in school.outcome().files] == ["not signed"]


def test_the_layout_of_the_file_may_change(school):
    path = school.hand_in("S1", school.answers("S1", ["moment", "go"]))
    content = json.loads(path.read_bytes())
    content["answers"] = dict(reversed(content["answers"].items()))
    path.write_bytes(json.dumps(content, indent=8).encode("utf-16"))
    assert school.points() == {"S1": 5.0}


def test_the_form_signs_and_another_student_s_folder_signs_for_them_only(school, tmp_path):
    school.write_course("late = { accepted_days = 3650 }")
    handout.hand_out(school.course, tmp_path)
    enrolled = json.loads((tmp_path / "s1" / "enrolment.json").read_bytes())
    assert enrolled["signing_key"] == school.course.signing_key("S1") != enrolled["key"]
    for student in ("S1", "S2"):
        form = ExerciseForm("loading", tmp_path / "s2", student)
        form.boxes[0].answer(demo_course.given(form.boxes[0].question, form.boxes[0].question.answer))
    for path in (tmp_path / "s2").glob("*.answers.json"):
        path.rename(school.collected / path.name)
    outcome = school.outcome(now=None)
    assert {f.place: f.status for f in outcome.files} == {
        "loading-s1.answers.json": "not signed",
        "loading-s2.answers.json": "marked",
    }


def test_the_form_signs_nothing_that_it_did_not_write(school, tmp_path):
    handout.hand_out(school.course, tmp_path)
    form = ExerciseForm("loading", tmp_path / "s1")
    form.boxes[0].answer("5")
    path = form.sheet.path
    path.write_bytes(path.read_bytes().replace(b'"5 lb-in"', b'"6 lb-in"'))
    again = ExerciseForm("loading", tmp_path / "s1")
    assert "it was changed outside this form" in again.message
    assert again.sheet.answers.get("moment", {"tries": []})["tries"] == []
    assert len(list((tmp_path / "s1").glob("*.broken-1.json"))) == 1


# ---- one folder for all: nothing is signed


@pytest.fixture
def shared(school):
    school.write_course(ONE_FOLDER)
    assert school.course.signing_key("S1") == ""
    return school


def test_sheets_that_contradict_each_other_wait_for_the_instructor(shared):
    shared.hand_in("S1", shared.all_right("S1"))
    shared.hand_in("S1", wrong(shared), name="later.answers.json")
    shared.hand_in("S2", shared.all_right("S2"))
    done = shared.mark()
    assert shared.points(done.outcome) == {"S2": 31.0}
    assert {f.place: f.status for f in done.outcome.files if f.student == "S1"} == {
        "loading-s1.answers.json": "to be chosen",
        "later.answers.json": "to be chosen",
    }
    assert shared.gradebook()["S1"]["loading status"] == "to choose"
    assert any("contradict each other: S1 (loading)" in n for n in done.notices)
    assert b"your instructor decides" in shared.results()["feedback/s1.html"]
    for file, points in (("later.answers.json", 0.0), ("loading-s1.answers.json", 31.0)):
        assert choices.choose(shared.course, file) == ("S1", "loading")
        assert shared.points(shared.mark().outcome)["S1"] == points
    # What goes on from the sheet chosen counts too.
    assert shared.mark().outcome.count("to be chosen") == 0


def test_what_came_first_counts_until_the_instructor_chooses(shared):
    shared.hand_in("S1", shared.answers("S1", ["moment"]))
    shared.mark()
    shared.hand_in("S1", wrong(shared), name="later.answers.json")
    done = shared.mark(now=shared.now + 60)
    assert shared.points(done.outcome) == {"S1": 2.0}
    assert "counts until you choose" in done.outcome.marks["S1", "loading"].remarks[-1]
    assert next(f for f in done.outcome.files if f.place == "later.answers.json").status == "to be chosen"


def test_what_goes_on_from_what_came_first_counts_beside_one_that_contradicts_it(shared):
    shared.hand_in("S1", shared.answers("S1", ["moment"]))
    shared.mark(now=shared.due.timestamp())
    shared.hand_in("S1", shared.answers("S1", ["moment", "go"]), name="gone on.answers.json")
    shared.hand_in("S1", wrong(shared), name="other.answers.json")
    done = shared.mark()
    assert shared.points(done.outcome) == {"S1": 5.0}
    assert {f.place: f.status for f in done.outcome.files} == {
        "loading-s1.answers.json": "superseded",
        "gone on.answers.json": "marked",
        "other.answers.json": "to be chosen",
    }


def test_of_two_that_go_on_differently_neither_counts_before_the_instructor_chooses(shared):
    shared.hand_in("S1", shared.answers("S1", ["moment"]))
    shared.mark(now=shared.due.timestamp())
    shared.hand_in("S1", shared.answers("S1", ["moment", "go"]), name="right.answers.json")
    shared.hand_in("S1", shared.answers("S1", ["moment"], slips=["go"]), name="slip.answers.json")
    done = shared.mark()
    assert shared.points(done.outcome) == {"S1": 2.0}
    assert "counts until you choose" in done.outcome.marks["S1", "loading"].remarks[-1]
    assert done.outcome.count("to be chosen") == 2
    assert choices.choose(shared.course, "right.answers.json") == ("S1", "loading")
    assert shared.points(shared.mark().outcome) == {"S1": 5.0}


def test_of_what_came_first_the_sheet_that_holds_most_counts(shared):
    shared.hand_in("S1", shared.answers("S1", ["moment"]))
    shared.hand_in("S1", shared.answers("S1", ["moment", "go"]), name="gone on.answers.json")
    shared.mark(now=shared.due.timestamp())
    shared.hand_in("S1", shared.answers("S1", ["moment"], slips=["go"]), name="slip.answers.json")
    assert shared.points(shared.mark().outcome) == {"S1": 5.0}


def test_going_on_contradicts_nothing(shared):
    shared.hand_in("S1", shared.answers("S1", ["moment"]), name="first.answers.json")
    shared.hand_in("S1", shared.answers("S1", ["moment", "go", "fuel weight"]))
    assert [f.status for f in shared.outcome().files] == ["superseded", "marked"]
    # Not even tries that count for nothing can be put in front, nor the worked answer.
    for change in ({"worked_after": 0}, {"tries": [{"given": "1", "at": "2026-03-20T00:00:00+00:00"}]}):
        answers = shared.answers("S1", ["moment", "go", "fuel weight"])
        answers["moment"] |= change | {"tries": change.get("tries", []) + answers["moment"]["tries"]}
        shared.hand_in("S1", answers, name="changed.answers.json")
        assert shared.outcome().count("to be chosen") == 3


def test_the_worked_answer_seen_after_all_tries_goes_on_and_seen_at_another_time_contradicts(shared):
    def hand_in(name, tries, worked_after):
        answers = shared.answers("S1", slips=["moment"])
        first = answers["moment"]["tries"][0]
        more = [first | {"given": str(n), "at": demo_course.stamp(shared.due)} for n in range(tries - 1)]
        answers["moment"] |= {"tries": [first, *more], "worked_after": worked_after}
        shared.hand_in("S1", answers, name=name)

    hand_in("first.answers.json", 1, None)
    for tries, worked_after, to_choose in ((1, 1, 0), (2, 1, 0), (2, 2, 4)):
        hand_in(f"{tries} {worked_after}.answers.json", tries, worked_after)
        assert shared.outcome().count("to be chosen") == to_choose


def test_the_choice_at_the_desk_and_what_it_says_of_such_a_course(shared):
    shared.hand_in("S1", shared.all_right("S1"))
    shared.hand_in("S1", wrong(shared), name="later.answers.json")
    desk = Desk(shared.folder)
    desk.path.value = str(shared.folder)
    desk.open_it.click()
    assert "sheets can&#x27;t be signed" in desk.about.value
    desk.mark_it.click()
    assert "to choose" in desk.marks_table.value
    assert desk.choosing.layout.display == ""
    desk.choose_it.click()
    assert "Choose the sheet that counts first." in desk.choose_text.value
    desk.sheet.value = "loading-s1.answers.json"
    desk.choose_it.click()
    assert "counts for S1 in loading" in desk.choose_text.value
    assert "31 of 31" in desk.marks_table.value
    assert desk.choosing.layout.display == "none"


def test_a_choice_of_what_was_not_collected_is_said_in_words(shared):
    shared.mark()
    with pytest.raises(ValueError, match="no answer sheet was collected as 'nothing'"):
        choices.choose(shared.course, "nothing")


def test_a_choice_as_a_console_without_the_letter_shows_it(shared):
    for name in ("Ł/ä.answers.json", "Ł/b.answers.json", "Ł[1].answers.json"):
        shared.hand_in("S1", shared.answers("S1", [] if "b" in name else ["moment"]), name=name)
    shared.mark()
    with pytest.raises(ValueError, match=r"may be any of Ł/b.answers.json, Ł/ä.answers.json: name one"):
        choices.choose(shared.course, "?/?.answers.json")
    assert choices.choose(shared.course, "?/b.answers.json") == ("S1", "loading")
    assert choices.choose(shared.course, "?[1].answers.json") == ("S1", "loading")


def test_thousands_of_contradicting_sheets_take_no_time(shared):
    mark = shared.hand_in("S1", shared.all_right("S1")) and shared.outcome().marks["S1", "loading"]
    from walkaround.classroom import mark_collected

    sheets = []
    for n in range(3000):
        trail = {"moment": ((n.to_bytes(8, "big"),), None)}
        sheets.append((mark_collected.FileEntry(str(n), "marked", digest=str(n)), mark._replace(trail=trail)))
    entries, chosen, undecided = mark_collected._choose(shared.course, sheets, {("S1", "loading"): "7"})
    assert (len(entries), list(chosen), undecided) == (3000, [("S1", "loading")], [])
