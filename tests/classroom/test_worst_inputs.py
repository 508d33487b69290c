"""Small files can't stall the marking: what would take long or much memory is refused while it is read."""

import base64
import csv
import gzip
import io
import json
import os
import sys
import tarfile
import time
import tracemalloc
from email import message_from_bytes, policy
from email.message import EmailMessage
from pathlib import Path

import pytest
from walkaround.assessment import typed
from walkaround.assessment.answer_sheet import parse
from walkaround.assessment.variant import same_name
from walkaround.classroom import archives, collect, gradebook, tables
from walkaround.classroom.texts import shown

sys.path.append(str(Path(__file__).parents[1] / "benchmarks"))
import worst_inputs

MARKS = "a" + "\u0301\u0316" * 160_000  # 640 kB, which took minutes to normalise


@pytest.fixture
def soon():
    """Fail a test that takes long; each of these took a minute or more of the processor."""
    begun = time.process_time()
    yield
    assert time.process_time() - begun < 10


def found_in(tmp_path, name, data):
    (tmp_path / name).write_bytes(data)
    return [(f.place, f.status, f.reason) for f in collect.read(tmp_path / name, tmp_path)]


@pytest.mark.parametrize("field", ["student", "course", "exercise"])
def test_a_long_name_is_refused_before_it_is_normalised(soon, field):
    with pytest.raises(ValueError, match=f"{field} has 320,001 characters; allowed: 1,000"):
        parse(worst_inputs.sheet(**{field: MARKS}))


def test_long_texts_are_not_normalised(soon):
    assert same_name(MARKS.upper()) == MARKS.casefold()
    with pytest.raises(ValueError, match="is not a number"):
        typed.number(MARKS)


def test_a_key_that_stands_twice_among_many_is_found(soon):
    keys = ",".join(f'"{i}":0' for i in range(95_000))
    with pytest.raises(ValueError, match="the key '94999' stands twice"):
        parse(f'{{{keys},"94999":0}}'.encode())
    with pytest.raises(ValueError, match="it has 70,000 answers; allowed: 1,000"):
        parse(worst_inputs.sheet(answers={str(i): 0 for i in range(70_000)}))


def test_the_index_of_a_zip_is_no_longer_than_what_is_read(tmp_path, soon):
    said = "a zip with too much in it: more entries than a class has sheets"
    data = worst_inputs.zip64(200_000)
    tracemalloc.start()
    assert found_in(tmp_path, "a.zip", data) == [("a.zip", "too large", said)]
    assert tracemalloc.get_traced_memory()[1] < 20_000_000
    tracemalloc.stop()
    # A second end record inside the last bytes of the first.
    hidden = bytearray(worst_inputs.zipped([(f"{i:040}", b"") for i in range(40_000)]))
    hidden[-6:-2] = b"PK\x05\x06"
    assert {status for _, status, _ in found_in(tmp_path, "b.zip", bytes(hidden))} <= {"too large", "damaged"}
    many = worst_inputs.zipped([(f"{i}", b"") for i in range(archives.ENTRIES + 1)])
    assert found_in(tmp_path, "c.zip", many) == [("c.zip", "too large", said)]


@pytest.mark.skipif(os.name != "posix", reason="paths as long as Unix takes them")
@pytest.mark.parametrize("depth", [1_100, 2_100])
def test_folders_nested_deep_are_walked(tmp_path, soon, depth):
    before = os.getcwd()
    try:
        os.chdir(tmp_path)
        for _ in range(depth):
            os.mkdir("ab")
            os.chdir("ab")
        Path("x.answers.json").write_bytes(b"{")
        os.chdir(before)
        # Folders below the longest path that the system takes are said to be unreadable.
        (path,) = collect.files_below(tmp_path)
        (found,) = collect.read(path, tmp_path)
        assert found.data == b"{" if depth == 1_100 else found.reason == "can't be read: File name too long"
    finally:
        os.chdir(before)
        worst_inputs.remove_nested(tmp_path)


def attachment(name, data, boundary="b"):
    return (
        f'Content-Type: application/octet-stream\nContent-Disposition: attachment; filename="{name}"\n'
        f"Content-Transfer-Encoding: base64\n\n{base64.encodebytes(data).decode()}\n--{boundary}"
    )


def mail(*attached, text="Here it is."):
    head = 'From: Ann <ann@quillmoor.example>\nMIME-Version: 1.0\nContent-Type: multipart/mixed; boundary="b"\n\n'
    text = f"Content-Type: text/plain\n\n{text}\n--b"
    return (head + "--b\n" + "\n".join([text, *(attachment(*a) for a in attached)]) + "--\n").encode()


def containers(sheet):
    """Files that a sheet may come back in, each with where the sheet is then said to have been."""
    zipped = worst_inputs.zipped([("s.answers.json", sheet)])
    tarred = worst_inputs.tarred([("d/s.answers.json", sheet)])
    letter = mail(("s.answers.json", sheet))
    return {
        "a.tar": (tarred, "a.tar › d/s.answers.json"),
        "a.tar.gz": (gzip.compress(tarred), "a.tar.gz › d/s.answers.json"),
        "a.tgz": (worst_inputs.tarred([("all.zip", zipped)], "w:gz"), "a.tgz › all.zip › s.answers.json"),
        "a.eml": (letter, "a.eml › s.answers.json"),
        "b.eml": (mail(("all.zip", zipped)).replace(b"\n", b"\r\n"), "b.eml › all.zip › s.answers.json"),
        "c.eml": (mail(("=?utf-8?q?Zo=C3=AB.answers.json?=", sheet)), "c.eml › Zoë.answers.json"),
        "a.mbox": (b"From x\n" + mail() + b"\n\nFrom y\n" + letter, "a.mbox › mail 2 › s.answers.json"),
        # Some programs put no ">" before a paragraph that begins with "From".
        "b.mbox": (
            b"From x\n" + mail(("s.answers.json", sheet), text="Hello!\n\nFrom Tuesday on I am away.\nAnn"),
            "b.mbox › mail 1 › s.answers.json",
        ),
        "c.mbox": (letter, "c.mbox › mail 1 › s.answers.json"),
        "d.mbox": (b"\nFrom x\n" + letter, "d.mbox › mail 1 › s.answers.json"),
        "a.zip": (worst_inputs.zipped([("m.eml", letter)]), "a.zip › m.eml › s.answers.json"),
        "Inbox": (b"From x\n" + letter, "Inbox › mail 1 › s.answers.json"),
        "homework.txt": (letter, "homework.txt › s.answers.json"),
    }


@pytest.mark.parametrize(
    ("start", "what"), [("Rar!", "a rar"), ("7z\xbc\xaf", "a 7z"), ("\x78\x9f\x3e\x22", "winmail.dat of Outlook")]
)
def test_what_is_packed_and_not_opened_is_named(tmp_path, start, what):
    for data in (start.encode("latin-1"), start.encode("latin-1") + bytes(2_000_000)):
        assert found_in(tmp_path, "a", data) == [("a", "damaged", f"{what}, not opened here: collect what it holds")]


@pytest.mark.parametrize("name", containers(b""))
def test_tars_and_saved_mail_are_opened_like_zips(school, name):
    data, place = containers(school.sheet("S2", school.all_right("S2")))[name]
    (school.collected / name).write_bytes(data)
    outcome = school.outcome()
    assert [f.place for f in outcome.files if f.status == "marked"] == [place]
    assert school.points(outcome) == {"S2": 31.0}


def test_what_is_odd_in_a_tar_or_mail_is_said(tmp_path):
    out = io.BytesIO()
    with tarfile.open(fileobj=out, mode="w") as archive:
        for kind, target in ((tarfile.SYMTYPE, "/etc/passwd"), (tarfile.LNKTYPE, "../x"), (tarfile.CHRTYPE, "")):
            made = tarfile.TarInfo("../../evil.answers.json")
            made.type, made.linkname = kind, target
            archive.addfile(made)
    assert [status for _, status, _ in found_in(tmp_path, "a.tar", out.getvalue())] == ["not a sheet"] * 3
    assert found_in(tmp_path, "b.tar", b"no tar")[0][1] == "damaged"
    assert found_in(tmp_path, "c.tgz", gzip.compress(b"no tar"))[0][1] == "damaged"
    whole = gzip.compress(worst_inputs.tarred([("a", b"x" * 90_000)]))
    assert found_in(tmp_path, "d.tgz", whole[:-30])[-1][1] == "damaged"
    assert found_in(tmp_path, "e.eml", mail())[0][1:] == ("not a sheet", "a mail with no file attached")
    assert found_in(tmp_path, "g.mbox", b"")[0][1] == "not a sheet"
    assert found_in(tmp_path, "f.tar", worst_inputs.tarred([]))[0][1:] == ("not a sheet", "an empty tar")


@pytest.mark.parametrize(
    ("what", "status"),
    [
        ("a tar.gz of", "too large"),
        ("a tar with 10 MB", "too large"),
        ("a tar of 39,000", "too large"),
        ("mail, 300 boundaries", "too large"),
        ("mail with a header", "too large"),
        ("mail with many parts", "too large"),
        ("mail of 20 MB of", "not a sheet"),
        ("a mailbox of 145,000", "too large"),
    ],
)
def test_tars_and_mail_are_bounded(tmp_path, what, status):
    name, made = next((n, made) for w, n, made in worst_inputs.inputs() if w.startswith(what))
    data = made()
    begun = time.process_time()
    assert status in {s for _, s, _ in found_in(tmp_path, name, data)}
    assert time.process_time() - begun < 10


@pytest.mark.parametrize(
    "what", ["mail with one attachment in 8", "a letter of 20 MB", "the same, of a zip", "the same in a"]
)
def test_large_mail_is_held_only_a_few_times(tmp_path, what, soon):
    name, made = next((n, made) for w, n, made in worst_inputs.inputs() if w.startswith(what))
    data = made()
    tracemalloc.start()
    assert {s for _, s, _ in found_in(tmp_path, name, data)} <= {"too large", "damaged"}
    assert tracemalloc.get_traced_memory()[1] < 110_000_000
    tracemalloc.stop()


def letters():
    """Mail of many shapes, as Python's own email package writes it."""
    data = bytes(range(256)) * 40
    for packing in ("base64", "quoted-printable"):
        made = EmailMessage()
        made.set_content("Here it is.\n--b\n")
        made.add_alternative("<p>Here it is.</p>", subtype="html")
        made.add_attachment(data, "application", "octet-stream", filename="Zoë " * 30 + ".json", cte=packing)
        made.add_attachment("plain text\n", filename="b.txt")
        made.add_attachment(b"", "image", "png", filename="", disposition="inline")
        yield made
        forwarded = EmailMessage()
        forwarded.set_content("See below.")
        forwarded.add_attachment(made)
        forwarded.add_attachment(b"Frog x\n\n--b--\n", "text", "x-log", filename="c.log")
        yield forwarded
    alone = EmailMessage()
    alone.set_content(data, "application", "json", filename="s.answers.json")
    yield alone


@pytest.mark.parametrize("end", [b"\n", b"\r\n"])
def test_attachments_are_those_that_the_email_package_finds(tmp_path, end):
    for letter in letters():
        raw = bytes(letter).replace(b"\r\n", b"\n").replace(b"\n", end)
        # Independent of the product: the whole of Python's email package (RFC 2045 and 2046).
        parts = message_from_bytes(raw, policy=policy.default).walk()
        wanted = [(p.get_filename(), p.get_payload(decode=True)) for p in parts if p.get_filename()]
        for name, before in (("a.eml", b""), ("a.mbox", b"From x" + end)):
            (tmp_path / name).write_bytes(before + raw)
            found = [f for f in collect.read(tmp_path / name, tmp_path) if f.data is not None]
            assert len(found) == len(wanted) > 0
            for f, (filename, data) in zip(found, wanted, strict=True):
                assert f.place.rpartition(" › ")[2] == shown(filename)
                assert f.data.replace(b"\r\n", b"\n") == data.replace(b"\r\n", b"\n")


def test_mail_that_was_cut_off_gives_what_is_there(tmp_path):
    whole = mail(("s.answers.json", b"x" * 300))
    for cut in range(0, len(whole), 7):
        for f in collect.read(_written(tmp_path / "a.eml", whole[:cut]), tmp_path):
            assert f.data is None or (b"x" * 300).startswith(f.data)
    assert f.data == b"x" * 300


def _written(path, data):
    path.write_bytes(data)
    return path


def test_litter_passes_silently(school):
    sheet = school.sheet("S2", school.all_right("S2"))
    names = ("__MACOSX/._s.answers.json", "a/.DS_Store", "Thumbs.db", "a/~$list.xlsx", "desktop.ini")
    entries = [("s.answers.json", sheet), *((name, b"x") for name in names)]
    for made, name in ((worst_inputs.zipped(entries), "a.zip"), (worst_inputs.tarred(entries), "a.tar")):
        (school.collected / name).write_bytes(made)
    (school.collected / "._s.answers.json").write_bytes(b"\0\5\x16\7")
    (school.collected / "__MACOSX").mkdir()
    (school.collected / "__MACOSX" / "x").write_bytes(b"x")
    places = [f.place for f in school.outcome().files]
    assert places == ["a.tar › s.answers.json", "a.zip › s.answers.json"]


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"id\n" + b"a\n" * 2_000_000, "more than 200,000 lines"),
        (b"\n" * 2_000_000, "more than 200,000 lines"),
        (b"id" + b"," * 4_000_000, "not a table"),
        (b"id" + b"," * 200, "more than 200 columns"),
        (b"," * 199 + b"id\n" + b"a\n" * 200_000, "more than 1,000,000 cells"),
        (b"id" * 100_000, "not a table: field larger than field limit"),
        (b"x" * 5_000_001, "larger than 5,000,000 bytes"),
    ],
)
def test_tables_are_bounded(tmp_path, soon, data, says):
    (tmp_path / "roster.csv").write_bytes(data)
    with pytest.raises(ValueError, match=says):
        tables.read(tmp_path / "roster.csv")


def test_the_table_of_files_is_read_again_however_long_it_is(school):
    school.mark()
    path, digest = school.folder / "results" / gradebook.FILES, "0" * 64
    with open(path, "a", encoding="utf-8", newline="") as file:
        lines = csv.writer(file)
        lines.writerow(["odd", "", "", "", "", "no time", "1" * 64])
        lines.writerows([f"{i}" * 30, "not a sheet", "", "", "", "", ""] for i in range(150_000))
        lines.writerow(["x", "marked", "S1", "loading", "", "2026-03-01T12:00:00+00:00", digest])
    assert path.stat().st_size > 20_000_000
    assert gradebook.first_seen(school.course)[digest] == 1772366400.0
    assert "1" * 64 not in gradebook.first_seen(school.course)


def test_a_thousand_brackets_in_a_field_are_a_damaged_sheet():
    for depth in (10, 500, 900, 990):
        deep = json.dumps(worst_inputs.SHEET).replace('"S1"', "[" * depth + "]" * depth)
        with pytest.raises(ValueError, match=r"student is \[|nested too deep"):
            parse(deep.encode())
