"""The course folder: its file, its roster, and what each student's numbers come from."""

import csv
import hashlib
import hmac
import io
import re

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from walkaround import aircraft
from walkaround.classroom import roster, tables, texts
from walkaround.classroom.course import begin_course, check_course, read_course
from walkaround.classroom.course_file import CourseFileError

SECRET = "a secret of more than twenty letters"


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "course.toml").write_text(f'name = "Test"\nsecret = "{SECRET}"\n[[exercises]]\nname = "loading"\n')
    (tmp_path / "roster.csv").write_text("id,name,group\nS1,Ann,A\nS2,Bob,B\nS3,Cid,A\n")
    return tmp_path


def rewritten(folder, **changes):
    text = (folder / "course.toml").read_text()
    lines = "".join(f"{key} = {value}\n" for key, value in changes.items())
    (folder / "course.toml").write_text(lines + text)
    return read_course(folder)


def test_a_key_is_the_hmac_of_the_secret_and_the_id_whatever_its_case(folder):
    key = read_course(folder).key("  s1 ")
    # Independent of the product: Python's own hmac, NIST FIPS 198-1.
    assert key == hmac.new(SECRET.encode(), b"s1", hashlib.sha256).hexdigest() == read_course(folder).key("S1")


def test_numbers_need_the_secret(folder):
    mine = read_course(folder).paper("loading", "S1").questions
    (folder / "course.toml").write_text((folder / "course.toml").read_text().replace(SECRET, "another secret, as long"))
    assert read_course(folder).paper("loading", "S1").questions != mine


def test_one_for_all_has_no_key_and_says_so_to_nobody(folder):
    assert rewritten(folder, hand_out='"one for all"').key("S1") == ""


def test_a_group_hands_in_together(folder):
    parties = rewritten(folder, hand_out='"each group"').parties
    assert [(p.id, [m.id for m in p.members]) for p in parties] == [("A", ["S1", "S3"]), ("B", ["S2"])]


def test_a_group_that_is_also_an_id_is_refused(folder):
    (folder / "roster.csv").write_text("id,group\na,\nS2,A\n")
    with pytest.raises(ValueError, match="'a' is a group, and also the id"):
        rewritten(folder, hand_out='"each group"')


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("due = 2026-01-01T10:00:00", "due: it is 2026-01-01 10:00:00; allowed: with its time zone"),
        ('due = "soon"', "due is 'soon'; allowed: 2026-11-30T18:00:00"),
        ("tries = 0", "tries is 0; allowed: greater than or equal to 1"),
        ("trys = 3", "trys is not known here"),
        ("tolerance_factor = 2.5", "tolerance_factor is 2.5; allowed: less than or equal to 2"),
        ('copies = "newest"', "copies is 'newest'; allowed: 'last', 'best' or 'first'"),
        ("late = { accepted_days = nan }", "late.accepted_days is nan"),
        ("= 3", "course.toml, line 1: not TOML: Invalid statement in '= 3'; allowed: name = "),
        (
            "\nname = “Autumn”",
            "course.toml, line 2: not TOML: Invalid value in 'name = “Autumn”'; allowed: name = \"text",
        ),
        ("tolerance_factor = 1,5", "course.toml, line 1: not TOML: Expected newline"),
        (
            "tolerance_factor = 1,5",
            "in 'tolerance_factor = 1,5'; allowed: name = \"text in straight quotes\", 0.5 (a point",
        ),
        ('tolerance_factor = "1,5"', "tolerance_factor is '1,5'; allowed: number, with a decimal point and no quotes"),
        ("late = {\n", "course.toml, line 1: not TOML"),
        ("x" * 1_000_000, "course.toml: larger than 1,000,000 bytes"),
        ("a = " + "[" * 90_000, "course.toml, line 1: nested too deep"),
    ],
)
def test_a_mistake_in_the_course_file_is_named_with_what_is_allowed(folder, line, says):
    (folder / "course.toml").write_text(line + "\n" + (folder / "course.toml").read_text())
    with pytest.raises(ValueError, match=re.escape(says)):
        read_course(folder)


def test_a_course_file_with_a_mark_of_its_encoding(folder):
    text = (folder / "course.toml").read_text()
    (folder / "course.toml").write_bytes(text.encode("utf-8-sig"))
    assert read_course(folder).name == "Test"
    (folder / "course.toml").write_bytes(text.encode("utf-16"))
    with pytest.raises(CourseFileError, match=r"course\.toml, line 1: byte 0 is not UTF-8; save"):
        read_course(folder)
    (folder / "course.toml").write_text(f'secret = "{SECRET}\n')
    with pytest.raises(CourseFileError, match="line 1: not TOML") as error:
        read_course(folder)
    assert SECRET not in str(error.value)


def test_an_own_aircraft_may_begin_with_the_mark_of_its_encoding(folder):
    demo = (aircraft.DEMO_FOLDER / "tansy_two.toml").read_bytes()
    (folder / "ours.toml").write_bytes(b"\xef\xbb\xbf" + demo)
    with open(folder / "course.toml", "a") as file:
        file.write('aircraft = "ours.toml"\n')
    assert check_course(read_course(folder)) == []


def test_every_mistake_is_named_at_once_and_the_secret_never(folder):
    (folder / "course.toml").write_text('secret = "hunter2"\n[[exercises]]\nname = "Load"\nquestions = "../x.py"\n')
    with pytest.raises(CourseFileError) as error:
        read_course(folder)
    assert str(error.value).count("\n") == 3
    assert "hunter2" not in str(error.value)


def test_a_new_course_can_be_read_and_has_a_secret_of_its_own(tmp_path):
    name = 'Autumn "ground" \\ school'
    for where in ("one", "two"):
        begin_course(tmp_path / where, name)
    one, two = read_course(tmp_path / "one"), read_course(tmp_path / "two")
    assert one.name == two.name == name
    assert one.file.secret != two.file.secret
    assert (tmp_path / "one" / "course.toml").stat().st_mode & 0o077 == 0
    assert check_course(one) == [
        "roster.csv: there is no student in it; wanted: a line for each, below the names of columns"
    ]
    with pytest.raises(ValueError, match="already"):
        begin_course(tmp_path / "one", name)


def test_check_names_what_can_not_be_made(folder):
    text = (folder / "course.toml").read_text()
    (folder / "course.toml").write_text(text + 'groups = ["Z"]\n[[exercises]]\nname = "nonsense"\n')
    problems = check_course(read_course(folder))
    assert any("'nonsense' is not in the workbook" in p for p in problems)
    assert any("the group 'Z', but nobody is in it" in p for p in problems)


def test_own_tolerance_and_own_aircraft_without_python(folder):
    (folder / "ours.toml").write_bytes((aircraft.DEMO_FOLDER / "tansy_two.toml").read_bytes())
    text = (folder / "course.toml").read_text()
    (folder / "course.toml").write_text(text + 'aircraft = "ours.toml"\ntolerance = { "take-off cg" = 0.02 }\n')
    found = read_course(folder)
    assert check_course(found) == []
    question = found.paper("loading", "S1").question("take-off cg")
    assert (question.unit, question.tolerance) == ("m", 0.02)
    (folder / "course.toml").write_text(text + 'tolerance = { "takeoff" = 0.02 }\n')
    assert "tolerance for 'takeoff': no such number question" in check_course(read_course(folder))[0]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-32", "cp1252"])
@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
def test_a_roster_in_any_delimiter_and_encoding(tmp_path, encoding, delimiter):
    text = "Student Number,Surname,First name,Class,Room\n007,Müller,Zoë,A,12\n008,O'Neill,Åsa,B,\n"
    (tmp_path / "r.csv").write_bytes(text.replace(",", delimiter).encode(encoding))
    found = roster.read(tmp_path / "r.csv")
    assert [(s.id, s.name, s.group, s.extra) for s in found.students] == [
        ("007", "Zoë Müller", "A", (("Room", "12"),)),
        ("008", "Åsa O'Neill", "B", (("Room", ""),)),
    ]


def test_a_roster_as_a_spreadsheet_saves_it(tmp_path):
    (tmp_path / "r.csv").write_bytes(b'\xef\xbb\xbfsep=;\r\n;;\r\nid;name\r\n"S;1";"Ann\r\nLee"\r\n;;\r\nS2;Bob\r\n')
    assert [(s.id, s.name) for s in roster.read(tmp_path / "r.csv").students] == [("S;1", "Ann\r\nLee"), ("S2", "Bob")]


@pytest.mark.parametrize(
    ("ids", "odd"), [("7 45 1045", True), ("007 045 1045", False), ("7 45 104", False), ("S7 S1045", False)]
)
def test_figures_of_many_lengths_may_have_lost_their_zeros(tmp_path, ids, odd):
    (tmp_path / "r.csv").write_text("\n".join(["id", *ids.split()]))
    assert [n.split(";")[0] for n in roster.read(tmp_path / "r.csv").notices] == [
        "r.csv: the ids have 1 to 4 figures"
    ] * odd


def test_an_id_twice_or_missing_is_left_out_with_its_line(tmp_path):
    (tmp_path / "r.csv").write_text("id,name\ns1,Ann\nS1,Ann again\n,Nobody\n---,Dash\n")
    found = roster.read(tmp_path / "r.csv")
    assert [s.name for s in found.students] == ["Ann"]
    assert [n.split(":")[0] for n in found.notices] == ["r.csv, line 3", "r.csv, line 4", "r.csv, line 5"]


def test_a_course_in_which_two_people_have_one_id_is_not_ready(folder):
    def problems(lines):
        (folder / "roster.csv").write_text(f"id,name,group\n{lines}", encoding="utf-8")
        return check_course(read_course(folder))

    assert problems("1,Ann Lee,A\n2,Bo Ek,A\n1,ann  lee,A\n") == []  # a line that stands twice
    (said,) = problems("1,Ann Lee,A\n2,Bo Ek,A\n1,Cy Moe,A\n")
    assert said == (
        "roster.csv, line 4: the id '1' is in line 2 already; this line is left out, and Cy Moe gets nothing: the id "
        "is Ann Lee's"
    )


def test_a_spreadsheet_that_was_only_renamed_is_named(tmp_path):
    (tmp_path / "r.csv").write_bytes(b"PK\x03\x04" + bytes(100))
    with pytest.raises(ValueError, match=r"r.csv: it is in a spreadsheet's own format; save it as CSV"):
        roster.read(tmp_path / "r.csv")


def test_a_roster_without_ids_says_which_columns_it_has(tmp_path):
    (tmp_path / "r.csv").write_text("nom,prenom\nX,Y\n")
    with pytest.raises(ValueError, match="its columns are: nom, prenom"):
        roster.read(tmp_path / "r.csv")
    assert roster.read(tmp_path / "r.csv", {"id": "NOM"}).students[0].id == "X"


@given(st.binary(max_size=300))
def test_any_bytes_are_a_table_or_a_sentence(data):
    said = ""
    try:
        tables.parse(data, "x.csv")
    except ValueError as error:
        said = str(error)
    assert not said or said.startswith("x.csv")


@given(st.text(max_size=30))
def test_no_cell_begins_a_formula_and_no_file_name_leaves_its_folder(text):
    assert not texts.cell(text).startswith(("=", "+", "-", "@", "\t", "\r", "＝", "＋", "－", "＠"))
    stem = texts.file_stem(text)
    assert stem
    assert all(c in "abcdefghijklmnopqrstuvwxyz0123456789-" for c in stem)


@given(st.text(max_size=8), st.text(max_size=8))
def test_two_ids_never_meet_in_one_file_name(one, other):
    same = texts.same_name(one) == texts.same_name(other)
    assert (texts.file_stem(one) == texts.file_stem(other)) == same


CELLS = st.text(st.sampled_from("=+-@＝,;\t|\"' \r\n1aé"), max_size=8) | st.text(max_size=12)


@given(st.lists(st.tuples(CELLS, CELLS), max_size=5), st.sampled_from(",;\t"))
@example([("a;=1+1", "x"), ('";\t@A1', "'=1"), ("\r=1", "\t+1"), ("''-1", ",'@"), (';"=1"', "a|=1")], ",")
def test_a_table_written_is_read_back_and_has_no_formula_whatever_its_delimiter_is_taken_for(rows, delimiter):
    data = tables.data_of(("id", "=name"), rows, delimiter)
    table = tables.parse(data, "x")
    assert table.columns == ("id", "=name")
    kept = [tuple(" ".join(texts.shown(v).split()) for v in row) for row in rows]
    assert [tuple(r.values()) for _, r in table.rows] == [row for row in kept if any(row)]
    for taken in ",;\t|":
        # Independent of the product: Python's csv module takes the table apart as a spreadsheet does.
        for line in csv.reader(io.StringIO(data.decode("utf-8-sig"), newline=""), delimiter=taken):
            assert not any(value.strip().startswith(tuple("=+-@＝＋－＠")) for value in line)


def test_a_missing_quotation_mark_that_swallows_students_is_asked_about(tmp_path):
    (tmp_path / "roster.csv").write_text('id,name\n7,"Ann\n8,Bo\n9,Cid\n')
    assert roster.read(tmp_path / "roster.csv").notices == (
        "roster.csv, line 2: a cell runs on over the next lines; is a quotation mark missing?",
    )
