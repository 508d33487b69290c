"""The worst that one file among the collected ones, or one table, can do: python tests/benchmarks/worst_inputs.py

Each input is made to be as slow or as large in memory as its kind allows, in at most 20 MB. It is marked in a process
of its own; what stands in the table is the processor time and the memory that it takes besides those of an empty folder.
"""

import contextlib
import gzip
import io
import json
import os
import re
import struct
import subprocess
import sys
import tarfile
import tempfile
import time
import zipfile
from pathlib import Path

import psutil
from walkaround.assessment import answer_sheet
from walkaround.classroom import gradebook, tables
from walkaround.classroom.course import begin_course, read_course
from walkaround.classroom.mark_collected import mark_folders

SHEET = {"format": "walkaround answer sheet", "version": 1, "course": "W", "student": "S1", "exercise": "loading"}
MARK = "--mark"


def sheet(**more):
    return json.dumps(SHEET | {"saved": "", "answers": {}} | more, ensure_ascii=False).encode()


def tries(given, count):
    one = {"given": given, "at": "2026-03-01T12:00:00+00:00"}
    return sheet(answers={"moment": {"tries": [one | {"at": f"{i}"} for i in range(count)]}})


def zipped(entries, method=zipfile.ZIP_DEFLATED):
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", method) as archive:
        for name, data in entries:
            archive.writestr(name, data)
    return out.getvalue()


def zip64(count):
    """A zip with a long list of entries, which only the second, longer end record tells of."""
    one = struct.pack("<4s4B4HL2L5H2L", b"PK\x01\x02", 20, 3, 20, 0, 0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0) + b"a"
    index = one * count
    end = struct.pack("<4sQ2H2L4Q", b"PK\x06\x06", 44, 45, 45, 0, 0, count, count, len(index), 0)
    locator = struct.pack("<4sLQL", b"PK\x06\x07", 0, len(index), 1)
    return index + end + locator + struct.pack("<4s4H2LH", b"PK\x05\x06", 0, 0, 1, 1, 60, 0, 0)


def tarred(entries, mode="w"):
    out = io.BytesIO()
    with tarfile.open(fileobj=out, mode=mode) as archive:
        for name, data in entries:
            made = tarfile.TarInfo(name)
            made.size = len(data)
            archive.addfile(made, io.BytesIO(data))
    return out.getvalue()


def long_field():
    made = tarfile.TarInfo("a")
    made.pax_headers = {"comment": "1 " * 5_000_000}
    return made.tobuf(tarfile.PAX_FORMAT)


def nested_mail(depth):
    head = b"".join(b'Content-Type: multipart/mixed; boundary="b%d"\n\n--b%d\n' % (i, i) for i in range(depth))
    return head + b"\nline\n" * 9_000_000


def endless():
    head = tarfile.TarInfo("a")
    head.size = 8_000_000_000
    return gzip.compress(head.tobuf()) + gzip.compress(bytes(1_000_000_000), 1) * 4


def zips_of_zeros():
    inner = zipped([("b.zip", zipped([("a.answers.json", bytes(19_000_000))]))])
    return zipped([(f"{i}.zip", inner) for i in range(300)])


def packed(mail):
    """Mail in a zip in a zip, none of them compressed, so that each is as large as what it holds."""
    inner = zipped([("a.eml", mail)], zipfile.ZIP_STORED)
    return zipped([("a.zip", inner)], zipfile.ZIP_STORED)


def inputs():
    """What each is, its file's name, and a function that makes its bytes."""
    marks = "a" + "\u0301\u0316" * 160_000
    yield "an id of combining marks", "a.answers.json", lambda: sheet(student=marks)
    yield "a course of combining marks", "a.answers.json", lambda: sheet(course=marks)
    yield "an exercise of combining marks", "a.answers.json", lambda: sheet(exercise=marks)
    yield "an answer of combining marks", "a.answers.json", lambda: tries(marks, 1)
    keys = ",".join(f'"{i}":0' for i in range(95_000))
    yield "95,000 keys, the last one twice", "a.answers.json", lambda: f'{{{keys},"94999":0}}'.encode()
    yield (
        "a key of its own for each of 70,000",
        "a.answers.json",
        lambda: sheet(answers={str(i): 0 for i in range(70_000)}),
    )
    yield "20,000 tries", "a.answers.json", lambda: tries("1,655", 20_000)
    yield "20,000 answers of odd length", "a.answers.json", lambda: tries("9" * 20, 14_000)
    yield "a million brackets", "a.answers.json", lambda: b"[" * 999_999
    yield "20 MB of brackets", "a.answers.json", lambda: b"[" * 20_000_000
    yield "ZIP64: 430,000 entries in the index", "a.zip", lambda: zip64(430_000)
    yield "the most entries that are read", "a.zip", lambda: zipped([(f"{i}", b"") for i in range(12_000)])
    yield "one entry more", "a.zip", lambda: zipped([(f"{i}", b"") for i in range(12_001)])
    yield "a zip of zeros, 1 to 1000", "a.zip", lambda: zipped([(f"{i}", bytes(999_999)) for i in range(400)])
    yield "zips of zeros in zips", "a.zip", zips_of_zeros
    yield "20 MB of zips in a zip", "a.zip", lambda: zipped([(f"{i}.zip", os.urandom(990_000)) for i in range(20)])
    yield "random bytes called zip", "a.zip", lambda: os.urandom(20_000_000)
    yield "a tar.gz of 4 GB of zeros", "a.tar.gz", endless
    yield "a tar of 39,000 empty files", "a.tar", lambda: tarred([(f"{i}", b"") for i in range(39_000)])
    yield "a tar with 10 MB of extended field", "a.tar", long_field
    yield "random bytes called tar", "a.tar", lambda: os.urandom(20_000_000)
    yield "mail of 20 MB of empty lines", "a.eml", lambda: b"From: a\n\n" + b"\n" * 19_990_000
    yield "mail, 300 boundaries deep", "a.eml", lambda: nested_mail(300)[:20_000_000]
    yield "mail, 6 deep, as many lines as are read", "a.eml", lambda: nested_mail(6)[:1_000_000]
    yield "mail with a header of 20 MB", "a.eml", lambda: b"Content-Type: a/b; x=" + b'";' * 9_990_000 + b"\n\n"
    yield "mail with 290,000 headers", "a.eml", lambda: b"x: y\n" * 290_000 + b"\nx"
    attached = b'Content-Disposition: attachment; filename="a"\n\nx\n'
    yield (
        "mail with 3,000 attachments",
        "a.eml",
        lambda: b'Content-Type: multipart/mixed; boundary="b"\n\n' + (b"--b\n" + attached) * 2990 + b"--b--",
    )
    header = b'Content-Disposition: attachment; filename="a"\nContent-Transfer-Encoding: base64\n\n'
    yield "mail with one attachment of 15 MB", "a.eml", lambda: header + (b"A" * 76 + b"\n") * 255_000
    large = header.replace(b'"a"', b'"a.zip"').replace(b"\n", b"\r\n") + (b"A" * 76 + b"\r\n") * 250_000
    yield "the same, of a zip, its lines ended by CR LF", "a.eml", lambda: large
    yield "the same in a zip in a zip", "a.zip", lambda: packed(large)
    yield "the same in a mailbox", "a.mbox", lambda: b"From a\r\n" + large
    plain = header.replace(b"base64", b"8bit") + (b"\xe9" * 66 + b"\n") * 298_000
    yield "mail with one attachment in 8 bits", "a.eml", lambda: plain
    printable = header.replace(b"base64", b"quoted-printable") + (b"=3D" * 22 + b"\n") * 298_000
    yield "mail with one attachment, quoted-printable", "a.eml", lambda: printable
    uu = header.replace(b"base64", b"x-uuencode") + b"begin 644 a\n" + (b"M" + b"A" * 60 + b"\n") * 298_000
    yield "mail with one attachment, uuencoded", "a.eml", lambda: uu
    yield "a letter of 20 MB in one line", "a.eml", lambda: header + b"A" * 19_900_000
    for what, field in (("quotes", b';"'), ("slashes", b';"\\"'), ("pieces", b";a*1*=''%")):
        part = b'--b\nContent-Disposition: x; filename="a"' + (field * 4_000)[:1_800] + b"\nContent-Type: x/y"
        part += (field * 4_000)[:1_800] + b"\n\n\n"
        head = b'Content-Type: multipart/mixed; boundary="b"\n\n'
        yield f"mail with many parts, their headers of {what}", "a.eml", lambda h=head, p=part: h + p * 5_400
    yield "a mailbox of 145,000 mails", "a.mbox", lambda: b"From a\nA: b\n\n" * 145_000
    yield "a mailbox of 4,900 mails", "a.mbox", lambda: b"From a\n" + attached + (b"\nFrom a\n" + attached) * 4_900
    yield "a roster of 10 million lines", "roster.csv", lambda: b"id\n" + b"a\n" * 9_990_000
    yield "a roster of 20 million columns", "roster.csv", lambda: b"id" + b"," * 19_990_000
    yield "a roster of combining marks", "roster.csv", lambda: b"id\n" + ("e\u0301\u0316" * 30_000 + "\n").encode() * 20
    yield "a roster of blank lines", "roster.csv", lambda: b"\n" * 4_990_000
    yield ("a roster, as many cells as are read", "roster.csv", lambda: b"," * 199 + b"id\n" + b"a\n" * 4_999)
    yield "1,100 folders, each in the one before", "", lambda: b""
    yield "2,100 folders, each in the one before", "", lambda: b"x"


def make(folder, name, data):
    """Write an input where it belongs in a course."""
    begin_course(folder, "W")
    (folder / "roster.csv").write_text("id,name\nS1,Ann\n")
    top = folder / ("" if name == "roster.csv" else "collected")
    with contextlib.suppress(ValueError):  # a sheet that can be read is signed, so that marking goes on with it
        stored = answer_sheet.parse(data)
        stored["signature"] = answer_sheet.sign(stored, read_course(folder).signing_key("S1"))
        data = json.dumps({"format": answer_sheet.FORMAT, "version": 1, **stored}, ensure_ascii=False).encode()
    if name:
        (top / name).write_bytes(data)
        return
    before = os.getcwd()
    os.chdir(top)
    for _ in range(2_100 if data else 1_100):
        os.mkdir("ab")
        os.chdir("ab")
    os.chdir(before)


def remove_nested(top):
    """Remove folders nested deeper than the standard library can."""
    before, depth = os.getcwd(), 0
    os.chdir(top)
    while os.path.isdir("ab"):
        os.chdir("ab")
        depth += 1
    with contextlib.suppress(FileNotFoundError):
        os.remove("x.answers.json")
    for _ in range(depth):
        os.chdir("..")
        os.rmdir("ab")
    os.chdir(before)


def mark(folder):
    """Mark a course and read its table of files again; prints seconds, most memory in MB, and what was found."""
    folder, begun = Path(folder), time.process_time()
    try:
        found = read_course(folder)
        outcome = mark_folders(found, [found.collected], gradebook.first_seen(found), workers=1)
        gradebook.write(found, outcome, gradebook.rows(found, outcome, {}))
        said = ", ".join(sorted({f.status for f in outcome.files})) + f" ({len(outcome.files):,})"
        tables.read(found.results / gradebook.FILES, bounded=False)
    except ValueError as error:
        said = str(error)
    seconds = time.process_time() - begun
    status = Path("/proc/self/status")
    if status.exists():
        most = 1024 * int(re.search(r"VmHWM:\s+(\d+)", status.read_text())[1])
    else:
        most = getattr(psutil.Process().memory_info(), "peak_wset", 0)
    print(seconds, most / 1e6, said[:60], sep="\t")


def measured(name, data):
    with tempfile.TemporaryDirectory() as folder:
        make(Path(folder) / "c", name, data)
        command = [sys.executable, __file__, MARK, str(Path(folder) / "c")]
        done = subprocess.run(command, capture_output=True, text=True, check=True)
        remove_nested(Path(folder) / "c" / "collected")
    seconds, most, said = done.stdout.strip().split("\t")
    return float(seconds), float(most), said


def main(only=""):
    empty_s, empty_mb, _ = measured("nothing.txt", b"")
    print(f"an empty folder takes {empty_s:.2f} s and {empty_mb:.0f} MB; besides that:\n")
    print(f"{'input':45}{'bytes':>12}{'s':>7}{'MB':>6}  what is said of it")
    for what, name, made in inputs():
        if only in what:
            data = made()
            seconds, most, said = measured(name, data)
            print(f"{what:45}{len(data):12,}{seconds - empty_s:7.2f}{most - empty_mb:6.0f}  {said}", flush=True)


if __name__ == "__main__" and MARK in sys.argv:
    mark(sys.argv[2])
elif __name__ == "__main__":
    main(*sys.argv[1:])
