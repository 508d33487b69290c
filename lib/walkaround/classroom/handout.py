"""Handing out: a folder and a zip for each student, for each group, or one for all; always the same bytes."""

import io
import zipfile
from dataclasses import dataclass
from pathlib import Path

from walkaround import measures
from walkaround.assessment import kept_paper
from walkaround.assessment.answer_sheet import ENDING
from walkaround.assessment.files import remove_parts, sync_folder
from walkaround.classroom import tables
from walkaround.classroom.course import EVERYONE, LIST, Party
from walkaround.classroom.course_file import EACH_GROUP, KEPT, ONE_FOR_ALL
from walkaround.classroom.gradebook import write_if_new
from walkaround.classroom.lock import locked
from walkaround.classroom.roster import by_group_and_name
from walkaround.classroom.texts import file_stem, number_of
from walkaround.exercises import enrolment, notebooks

NEW_IDS = "If these really are new ids, hand out with --new-ids, or tick “New ids” at the desk and hand out again."
_SAME_DATE = (1980, 1, 1, 0, 0, 0)  # the earliest in a zip: its bytes must not depend on when it is made


@dataclass(frozen=True)
class HandedOut:
    """What was handed out: names of the folders, how many files were new or changed, and notices in words."""

    folders: tuple[str, ...]
    changed: int
    notices: tuple[str, ...] = ()

    def says(self, where):
        """Say what is in the folder that was handed out to."""
        folders = number_of(len(self.folders), "folder and zip", "folders and zips")
        return (
            f"{folders} in {where}; {number_of(self.changed, 'file')} new or changed. {LIST} there says who gets which."
        )


def hand_out(course, folder=None, progress=lambda done, total: None, new_ids=False):
    """Write what the students get into a folder, the course's own unless one is given; returns `HandedOut`.

    Files that are the same already are left as they are; so are answer sheets, and folders of students who have left.
    Raises ValueError in words when an exercise can't be made, the course's name, secret or `hand_out` has changed, or
    ids have lost zeros and are not said to be new; OSError when the folder can't be written.
    """
    if renamed := course.renamed(folder):
        raise ValueError(renamed)
    if not new_ids and (asked := course.zeros_lost(folder)):
        raise ValueError(f"{asked} {NEW_IDS}")
    with locked(course.folder, "handing out"):
        return _hand_out(course, Path(folder) if folder else course.handed_out, progress)


def _hand_out(course, folder, progress):
    for exercise in course.exercises:
        course.author(exercise.name)
    wanted: list[tuple[str, Party | None]] = [(file_stem(p.id), p) for p in course.sorted_parties]
    if course.file.hand_out == ONE_FOR_ALL:
        wanted = [(EVERYONE, None)]
    folder.mkdir(parents=True, exist_ok=True)
    remove_parts(folder)
    changed, notices, done, rows = 0, [*course.roster.notices, *filter(None, [course.overdue()])], [], []
    for i, (stem, party) in enumerate(wanted, 1):
        files = files_for(course, party)
        if not files:
            notices.append(f"no exercise is set for {party.id if party else EVERYONE}: nothing handed out")
            continue
        (folder / stem).mkdir(exist_ok=True)
        remove_parts(folder / stem)
        for name, data in files.items():
            changed += write_if_new(folder / stem / name, data, sync=False)
        sync_folder(folder / stem)
        changed += write_if_new(folder / f"{stem}.zip", zipped(file_stem(course.name), files), sync=False)
        done.append(stem)
        members = sorted(party.members if party else course.roster.students, key=by_group_and_name)
        rows += [(s.id, s.name, s.mail, stem, f"{stem}.zip") for s in members]
        progress(i, len(wanted))
    columns = ("id", "name", "mail", "folder", "zip")
    write_if_new(folder / LIST, tables.data_of(columns, rows, course.file.gradebook_delimiter), private=True)
    sync_folder(folder)
    return HandedOut(tuple(done), changed, tuple(notices))


def files_for(course, party):
    """Return what a party gets, or everybody without one: file names and their bytes, nothing where nothing is set."""
    enrolled = course.enrolment(party)
    if not enrolled.exercises:
        return {}
    files = {enrolment.FILE: enrolment.data_of(enrolled), "read-me-first.txt": _read_me(course).encode("utf-8")}
    for source, due in enrolled.exercises:
        if source.paper:
            others = {system: course.paper(source.name, party.id, system) for system in measures.SYSTEMS}
            files[source.paper] = kept_paper.data_of(course.paper(source.name, party.id), others)
        files[f"exercise-{source.name}.ipynb"] = notebook(course, source.name, due)
        for name in source.files:
            try:
                files[name] = (course.folder / name).read_bytes()
            except OSError as error:
                raise ValueError(f"{name} can't be read from {course.folder}: {error.strerror}") from None
    return files


def zipped(top, files):
    """Return files as a zip, below one folder; not compressed, so that every machine makes the same bytes."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archive:
        for name in sorted(files):
            entry = zipfile.ZipInfo(f"{top}/{name}", _SAME_DATE)
            entry.create_system, entry.external_attr = 3, 0o644 << 16
            archive.writestr(entry, files[name])
    return out.getvalue()


def notebook(course, name, due):
    """Return the notebook of one exercise as bytes: what to do, by the rules of the course, and the form."""
    more = ["When you are done, hand that file in. You may hand it in again when you have gone on."]
    kept = course.exercise(name).kind == KEPT
    paper = None if kept else course.any_paper(name)
    if due is not None:
        late = "" if kept or course.file.worked_answers_before_due else " Worked answers can be seen after that."
        more.append(f"It is due on {due:%d %B %Y at %H:%M} ({_ahead(due)}).{late}")
    book = notebooks.exercise_notebook(
        f"exercise-{name}",
        name,
        course.title(name),
        first=f"An exercise of the course *{_plain(course.name)}*.",
        asks_for="id" if course.file.hand_out == ONE_FOR_ALL else "",
        tries=0 if kept else course.file.tries,
        fewer=bool(paper) and notebooks.takes_fewer(paper, course.rules),
        more=more,
    )
    return notebooks.data_of(book)


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
        begin += (
            f"The file enrolment.json makes {who} own numbers and signs {who} answers: leave it where it is, and give "
            "it to nobody.\n"
        )
    return begin + (
        "1. Put this folder where you keep the workbook, and open it in JupyterLab.\n"
        "2. Open a notebook whose name begins with “exercise”, and follow it.\n"
        f"3. Hand in the files whose names end in {ENDING}, by mail, a shared folder or a stick.\n"
    )
