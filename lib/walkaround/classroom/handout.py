"""Handing out: a folder and a zip for each student, each group, or one for all; the same course gives the same bytes."""

import io
import json
import zipfile
from dataclasses import dataclass
from pathlib import Path

from walkaround.assessment.answer_sheet import ENDING, write_whole
from walkaround.classroom import tables
from walkaround.classroom.course_file import EACH_GROUP, ONE_FOR_ALL
from walkaround.classroom.texts import file_stem
from walkaround.exercises import enrolment

EVERYONE = "everyone"
LIST = "list.csv"
_SAME_DATE = (1980, 1, 1, 0, 0, 0)  # the first that a zip can hold: bytes must not depend on when they are made


@dataclass(frozen=True)
class HandedOut:
    """What was handed out: names of the folders, how many files were new or changed, and notices in words."""

    folders: tuple
    changed: int
    notices: tuple = ()


def hand_out(course, folder=None, progress=lambda done, total: None):
    """Write what the students get into a folder, the course's own unless one is given.

    What is there and the same is left alone; answer sheets and folders of students who have left are not touched.
    Raises ValueError in words when an exercise can't be made, OSError when the folder can't be written.
    """
    folder = Path(folder) if folder else course.handed_out
    for exercise in course.exercises:
        course.author(exercise.name)
    if course.file.hand_out == ONE_FOR_ALL:
        wanted = [(EVERYONE, None)]
    else:
        wanted = [(file_stem(p.id), p) for p in course.parties]
    folder.mkdir(parents=True, exist_ok=True)
    changed, notices, done, rows = 0, list(course.roster.notices), [], []
    for i, (stem, party) in enumerate(wanted):
        files = files_for(course, party)
        if not files:
            notices.append(f"no exercise is set for {party.id}: nothing handed out")
            continue
        (folder / stem).mkdir(exist_ok=True)
        for name, data in files.items():
            changed += _write(folder / stem / name, data)
        changed += _write(folder / f"{stem}.zip", zipped(file_stem(course.name), files))
        done.append(stem)
        members = party.members if party else course.roster.students
        rows += [(s.id, s.name, s.mail, stem, f"{stem}.zip") for s in members]
        progress(i + 1, len(wanted))
    _write(
        folder / LIST, tables.data_of(("id", "name", "mail", "folder", "zip"), rows, course.file.gradebook_delimiter)
    )
    return HandedOut(tuple(done), changed, tuple(notices))


def files_for(course, party):
    """Return what one party gets (everybody without one), file name to bytes; nothing where nothing is set."""
    enrolled = course.enrolment(party)
    if not enrolled.exercises:
        return {}
    files = {enrolment.FILE: enrolment.data_of(enrolled), "read-me-first.txt": _read_me(course).encode("utf-8")}
    for source, due in enrolled.exercises:
        files[f"exercise-{source.name}.ipynb"] = notebook(course, source.name, due)
        for name in source.files:
            try:
                files[name] = (course.folder / name).read_bytes()
            except OSError as error:
                raise ValueError(f"{name} can't be read from {course.folder}: {error.strerror}") from None
    return files


def zipped(top, files):
    """Return files as a zip, below one folder; stored and not compressed, so that every machine makes the same bytes."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archive:
        for name in sorted(files):
            entry = zipfile.ZipInfo(f"{top}/{name}", _SAME_DATE)
            entry.create_system, entry.external_attr = 3, 0o644 << 16
            archive.writestr(entry, files[name])
    return out.getvalue()


def notebook(course, name, due):
    """Return the notebook of one exercise as bytes: what to do, by the rules of the course, and the form."""
    tries = course.file.tries
    lines = [
        f"# {course.title(name)}",
        "",
        f"Exercise of the course *{_plain(course.name)}*, with numbers of your own. Have pencil, paper and a calculator at hand.",
        "",
        "- Click the first grey cell and press **Shift+Enter**, then the second.",
        "- Type numbers as you like: `41.9`, `41,9`, `1 240`, `3/4`, with or without the unit.",
        f"- Each question takes {tries} {'try' if tries == 1 else 'tries'} that earn points. A hint is free.",
        f"- Every answer is saved at once, in a file beside this page that ends in `{ENDING}`.",
        "- When you are done, hand that file in. You may hand in again when you have gone on.",
    ]
    if due is not None:
        lines.append(f"- It is due on {due:%d %B %Y at %H:%M} ({_ahead(due)}).")
        if not course.file.worked_answers_before_due:
            lines.append("- Worked answers can be seen after that.")
    lines += [
        "",
        "This is a training aid. Before a real flight the aircraft's handbook, the local rules and licensed people come first.",
    ]
    code = ("from walkaround.exercises.form import exercise", f'exercise("{name}")')
    cells = [_cell("markdown", f"{name}-0", "\n".join(lines))]
    cells += [_cell("code", f"{name}-{i}", text) for i, text in enumerate(code, 1)]
    metadata = {
        "kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"},
        "language_info": {"name": "python"},
    }
    book = {"cells": cells, "metadata": metadata, "nbformat": 4, "nbformat_minor": 5}
    return json.dumps(book, ensure_ascii=False, indent=1).encode("utf-8") + b"\n"


def _cell(kind, name, text):
    more = {"execution_count": None, "outputs": []} if kind == "code" else {}
    return {
        "cell_type": kind,
        "id": name.replace("_", "-"),
        "metadata": {},
        "source": text.splitlines(keepends=True),
        **more,
    }


def _ahead(due):
    hours = due.utcoffset().total_seconds() / 3600
    return "UTC" if not hours else f"UTC{hours:+g} h"


def _plain(text):
    return "".join("\\" + c if c in "\\`*_{}[]<>()#!|$&" else c for c in text)


def _read_me(course):
    who = "your group's" if course.file.hand_out == EACH_GROUP else "your"
    begin = f"Exercises of the course {course.name}\n\n"
    if course.file.hand_out == ONE_FOR_ALL:
        begin += "You will be asked for your id: write it as your school does.\n"
    else:
        begin += f"The file enrolment.json holds {who} own numbers: leave it where it is, and give it to nobody.\n"
    return begin + (
        "1. Put this folder where you keep the workbook, and open it in JupyterLab.\n"
        "2. Open a notebook whose name begins with “exercise”, and follow it.\n"
        f"3. Hand in the files whose names end in {ENDING}, by mail, a shared folder or a stick.\n"
    )


def _write(path, data):
    try:
        if path.read_bytes() == data:
            return 0
    except FileNotFoundError:
        pass
    write_whole(path, data)
    return 1
