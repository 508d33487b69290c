"""Whatever lies in the folder: every file is accounted for, none stops the marking, none changes another's mark."""

import io
import json
import os
import stat
import struct
import zipfile

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from walkaround.classroom import archives, collect
from walkaround.classroom.mark_collected import STATUSES, mark_folders


def zipped(files, method=zipfile.ZIP_DEFLATED):
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", method) as z:
        for name, data in files.items():
            z.writestr(name, data)
    return out.getvalue()


def status_of(outcome):
    return {f.place: f.status for f in outcome.files}


@pytest.fixture
def marked(school):
    """A school in which S1 has handed in full marks, and a check that nothing added changes that."""
    school.hand_in("S1", school.all_right("S1"))
    full = school.points()
    assert full == {"S1": 31.0}

    def status(name, data):
        path = school.collected / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
        before = sorted(str(p) for p in school.folder.rglob("*"))
        outcome = school.outcome()
        assert sorted(str(p) for p in school.folder.rglob("*")) == before  # nothing is written by looking
        assert school.points(outcome) == full
        places = [f.place for f in outcome.files]
        assert len(places) == len(set(places))
        return {f.place: f.status for f in outcome.files if f.place.startswith(name)}

    return status


SHEET = {
    "format": "walkaround answer sheet",
    "version": 1,
    "course": "Test",
    "student": "S2",
    "exercise": "loading",
    "saved": "",
    "answers": {},
}


def data(**more):
    return json.dumps(SHEET | more).encode()


@pytest.mark.parametrize(
    ("name", "content", "status"),
    [
        ("empty.answers.json", b"", "damaged"),
        ("empty", b"", "not a sheet"),
        ("half.answers.json", data()[:60], "damaged"),
        ("renamed.txt", data()[:60], "damaged"),
        ("photo.jpg", bytes(range(256)) * 100, "not a sheet"),
        ("other.json", b'{"a": 1}', "not a sheet"),
        ("list.answers.json", b"[1, 2]", "damaged"),
        ("deep.answers.json", b"[" * 900_000, "damaged"),
        ("deep2.answers.json", b'{"a":' * 150_000, "damaged"),
        ("large.answers.json", b"[" * 1_000_001, "too large"),
        ("nan.answers.json", data().replace(b'"version": 1', b'"version": NaN'), "damaged"),
        ("infinite.answers.json", data().replace(b'"version": 1', b'"version": 1e999'), "damaged"),
        ("huge.answers.json", data().replace(b'"version": 1', b'"version": ' + b"9" * 6000), "damaged"),
        ("twice.answers.json", data().replace(b'"student"', b'"student": "S1", "student"'), "damaged"),
        ("latin.answers.json", data(student="Zoë").decode().encode("utf-8").replace(b"\\u00eb", b"\xeb"), "damaged"),
        ("other-course.answers.json", data(course="Another"), "wrong course"),
        ("same-course-in-capitals.answers.json", data(course="TEST"), "wrong course"),  # its numbers were others
        ("other-exercise.answers.json", data(exercise="../../x"), "wrong course"),
        ("stranger.answers.json", data(student="<b>S9</b>"), "unknown student"),
        ("surrogate.answers.json", data(student="\ud800"), "unknown student"),
        ("odd.answers.json", data(answers=[1]), "damaged"),
        ("number.answers.json", data(student=1), "damaged"),
        ("zip.answers.json", b"PK\x03\x04 no zip", "damaged"),
        ("a.zip", b"", "damaged"),
        ("b.zip", b"no zip at all", "damaged"),
    ],
)
def test_every_file_has_its_status(marked, name, content, status):
    assert marked(name, content) == {name: status}


def test_a_sheet_in_utf_16_is_read(school):
    school.hand_in("S2", school.all_right("S2"))
    path = next(school.collected.iterdir())
    path.write_bytes(path.read_bytes().decode("utf-8").encode("utf-16"))
    assert school.points() == {"S2": 31.0}
    path.write_bytes(path.read_bytes()[:-1])
    assert list(status_of(school.outcome()).values()) == ["damaged"]


def test_two_hundred_megabytes_of_brackets_are_not_read(marked, school):
    name = "brackets.answers.json"
    with open(school.collected / name, "wb") as file:
        for _ in range(200):
            file.write(b"[" * 1_000_000)
    assert status_of(school.outcome())[name] == "too large"
    # The same in a zip, where it is 200 kB.
    (school.collected / "z.zip").write_bytes(zipped({name: (school.collected / name).read_bytes()}))
    (school.collected / name).unlink()
    assert status_of(school.outcome())[f"z.zip › {name}"] == "too large"


def test_sheets_in_zips_in_folders_in_zips_are_found(school):
    inner = zipped({"deep/loading-s2.answers.json": school.sheet("S2", school.all_right("S2")), "readme.txt": b"x"})
    (school.collected / "week 1" / "more").mkdir(parents=True)
    (school.collected / "week 1" / "more" / "class.zip").write_bytes(zipped({"group/one.zip": inner, "d/": b""}))
    outcome = school.outcome()
    assert status_of(outcome) == {
        "week 1/more/class.zip › group/one.zip › deep/loading-s2.answers.json": "marked",
        "week 1/more/class.zip › group/one.zip › readme.txt": "not a sheet",
    }
    assert school.points(outcome) == {"S2": 31.0}


def test_names_that_lead_out_are_shown_and_nothing_more(marked, tmp_path):
    found = marked(
        "z.zip", zipped({"../../../evil.answers.json": data(course="X"), "/etc/evil": b"x", "a\x1b[2Jb": b"x"})
    )
    assert found == {
        "z.zip › ../../../evil.answers.json": "wrong course",
        "z.zip › /etc/evil": "not a sheet",
        "z.zip › a [2Jb": "not a sheet",
    }
    assert not list(tmp_path.rglob("evil*"))


def test_zips_too_deep_too_large_and_too_many(marked, school, monkeypatch):
    nested = data(course="X")
    for _ in range(4):
        nested = zipped({"in.zip" if nested[:2] == b"PK" else "s.answers.json": nested})
    assert marked("deep.zip", nested) == {"deep.zip › in.zip › in.zip › in.zip": "too large"}
    bomb = zipped({"in.zip": zipped({f"{i}": b"\0" * 60_000_000 for i in range(3)})})
    found = marked("bomb.zip", bomb)
    assert set(found.values()) == {"too large"}
    assert len(found) == 3
    monkeypatch.setattr(archives, "UNPACKED_BYTES", 3_000_000)
    found = marked("many.zip", zipped({f"{i:02d}": b" " * 900_000 for i in range(20)}))
    assert len(found) == 20
    assert list(found.values()).count("too large") >= 15
    monkeypatch.setattr(archives, "ZIP_INDEX_BYTES", 1000)
    assert marked("index.zip", zipped({f"{i}": b"" for i in range(100)})) == {"index.zip": "too large"}


def test_a_bomb_that_lies_about_its_size_is_cut_off(marked):
    bomb = bytearray(zipped({"s.answers.json": b"[" * 5_000_000}))
    # The size unpacked, in the local header and in the index, is said to be 10 bytes.
    struct.pack_into("<I", bomb, 22, 10)
    struct.pack_into("<I", bomb, bomb.rfind(b"PK\x01\x02") + 24, 10)
    assert list(marked("lie.zip", bytes(bomb)).values()) in (["damaged"], ["too large"])


def test_damaged_encrypted_and_oddly_packed_zips(marked):
    good = bytearray(zipped({"s.answers.json": data(course="X") * 50}))
    for at in range(40, len(good) - 100, 7):
        broken = bytearray(good)
        broken[at] ^= 0xFF
        assert len(marked("broken.zip", bytes(broken))) == 1
    locked = bytearray(good)
    locked[6] |= 1
    locked[locked.rfind(b"PK\x01\x02") + 8] |= 1
    assert marked("broken.zip", bytes(locked)) == {"broken.zip › s.answers.json": "damaged"}
    assert marked("lzma.zip", zipped({"a": b"x" * 99}, zipfile.ZIP_LZMA)) == {"lzma.zip › a": "damaged"}


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="links and pipes as Unix has them")
def test_links_pipes_and_what_can_not_be_read(marked, school, tmp_path):
    secret = tmp_path / "secret.answers.json"
    secret.write_bytes(school.sheet("S2", school.all_right("S2")))
    (tmp_path / "others").mkdir()
    (tmp_path / "others" / "loading-s3.answers.json").write_bytes(school.sheet("S3", school.all_right("S3")))
    (school.collected / "link.answers.json").symlink_to(secret)
    (school.collected / "folder").symlink_to(tmp_path / "others")
    (school.collected / "round").symlink_to(school.collected)
    (school.collected / "nowhere").symlink_to("/does/not/exist")
    os.mkfifo(school.collected / "pipe.answers.json")
    z = zipfile.ZipInfo("link.answers.json")
    z.external_attr = (stat.S_IFLNK | 0o777) << 16
    found = marked("z.zip", zipped({z: str(secret)}))
    assert found == {"z.zip › link.answers.json": "not a sheet"}
    found = status_of(school.outcome())
    assert {found[n] for n in ("link.answers.json", "folder", "round", "nowhere", "pipe.answers.json")} == {
        "not a sheet"
    }


def test_names_in_no_encoding(marked, school):
    with open(os.fsencode(str(school.collected)) + b"/\xff\xfe.answers.json", "wb") as file:
        file.write(data(course="X"))
    assert "wrong course" in status_of(school.outcome()).values()
    school.mark()


def test_a_folder_that_is_not_there_is_said(school):
    with pytest.raises(ValueError, match="there is no folder"):
        mark_folders(school.course, [school.folder / "nowhere"])


def test_the_results_are_not_collected(school):
    school.hand_in("S1", school.all_right("S1"))
    school.mark()
    outcome = mark_folders(school.course, [school.folder], now=school.now, workers=1)
    assert not any("results" in f.place for f in outcome.files)


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.binary(max_size=400))
def test_any_bytes_behind_a_zip_head(tmp_path, tail):
    path = tmp_path / "x.zip"
    path.write_bytes(b"PK\x03\x04" + tail)
    found = list(collect.read(path, tmp_path))
    assert found
    assert all(f.data is not None or f.reason for f in found)


def mutations(good):
    """A good sheet with bytes changed, cut out, doubled or put in."""
    place = st.integers(0, len(good) - 1)
    pieces = [b"NaN", b"null", b"[[", b'"', b"{}", b"-1", b"1e999", b"\xff", b"\\ud800", b"true"]
    return st.lists(
        st.one_of(
            st.tuples(st.just("set"), place, st.binary(min_size=1, max_size=3)),
            st.tuples(st.just("cut"), place, st.integers(1, 40)),
            st.tuples(st.just("put"), place, st.sampled_from(pieces)),
            st.tuples(st.just("double"), place, st.integers(1, 200)),
        ),
        min_size=1,
        max_size=6,
    )


def mutated(good, changes):
    data = good
    for kind, at, what in changes:
        if kind == "cut":
            data = data[:at] + data[at + what :]
        elif kind == "double":
            data = data[: at + what] + data[at:]
        else:
            data = data[:at] + what + data[at + (len(what) if kind == "set" else 0) :]
    return data


def test_a_thousand_mutations_of_a_good_sheet_change_no_other_mark(school):
    school.hand_in("S1", school.all_right("S1"))
    good = school.sheet("S2", school.answers("S2", ["moment", "go", "steps"], ["shift", "moves"]))
    course, target = school.course, school.collected / "mutated.answers.json"
    seen = set()

    @settings(max_examples=1000, deadline=None, database=None)
    @given(mutations(good))
    def mutate(changes):
        target.write_bytes(mutated(good, changes))
        outcome = mark_folders(course, [school.collected], now=school.now, workers=1)
        assert len(outcome.files) == 2
        [entry] = [f for f in outcome.files if f.place == target.name]
        assert entry.status in STATUSES
        assert entry.status == "marked" or entry.reason
        seen.add(entry.status)
        ours = {party: m for (party, _), m in outcome.marks.items()}
        assert ours["S1"].points == 31.0 or entry.student == "S1"
        for m in ours.values():
            assert 0 <= m.points <= m.of
            assert all(0 <= q.counted <= q.of for q in m.questions)

    mutate()
    assert {"marked", "damaged"} <= seen


def test_a_fraction_too_large_to_divide_is_an_answer_and_no_crash(school):
    answers = school.answers("S2", ["moment"])
    answers["moment"]["tries"][0]["given"] = "9" * 900 + "/1"
    school.hand_in("S2", answers)
    assert school.points() == {"S2": 0.0}
