"""The command line, walkaround: open the workbook, or run a term by typing rather than clicking."""

import os
import sys

# python -m puts the current folder first on the path: an argparse.py among collected files would run. Both of these
# modules were imported when Python started, so they come from nowhere else; the path is cleaned before any other.
if __name__ == "__main__" and not sys.flags.safe_path and sys.path[0] in ("", os.getcwd()):
    del sys.path[0]

import argparse
import shutil
from pathlib import Path

from walkaround import __version__

ABOUT = """\
A student needs one line, which lays the workbook out in a folder and opens it:
  {0} open

All else is for an instructor: hand out exercises in which every student has their own numbers, collect what comes
back, mark it all in one go, and see what the class got wrong. Everything stays in one folder, the course; nothing
leaves this computer.

A term in five lines:
  {0} begin autumn --name "Ground school, autumn"
  (fill in autumn/roster.csv, look through autumn/course.toml)
  {0} hand-out autumn
  (put what comes back into autumn/collected)
  {0} mark autumn
"""


def program():
    """Return what to type to run this again: where no environment is activated, the program with its folder."""
    called = sys.argv[0]
    return "walkaround" if shutil.which("walkaround") or not called.endswith(("walkaround", ".exe")) else called


def parser():
    """Return the parser of the command line."""
    top = argparse.ArgumentParser(
        prog=program(), description=ABOUT.format(program()), formatter_class=argparse.RawDescriptionHelpFormatter
    )
    top.add_argument("--version", action="version", version=f"walkaround {__version__}")
    verbs = top.add_subparsers(title="what to do", dest="verb", metavar="VERB", required=True)
    opened = verbs.add_parser(
        "open",
        help="lay the pages out in a folder of your own, and open JupyterLab at the start page",
        description="Lay the workbook's pages out in a folder of your own and open JupyterLab at the start page. A "
        "page that you changed stays as it is, and so does everything else in the folder, answers above all.",
    )
    opened.add_argument("folder", nargs="?", help="the folder (default: walkaround-workbook in your home folder)")
    opened.add_argument("--lay-out-only", action="store_true", help="lay the pages out, and don't start JupyterLab")

    def verb(name, does, more=""):
        made = verbs.add_parser(name, help=does, description=f"{does[0].upper()}{does[1:]}. {more}".strip())
        made.add_argument(
            "course", nargs="?", default=".", type=Path, help="folder of the course (default: the current folder)"
        )
        return made

    begin = verb("begin", "begin a course: write its course file, with a new secret, and an empty roster")
    begin.add_argument(
        "--name", help="name of the course; the students' numbers depend on it, so don't change it later"
    )
    begin.add_argument(
        "--made-up", action="store_true", help="begin a made-up course instead, with answers, to try everything with"
    )
    verb("check", "check a course before you hand it out: course file, roster, own aircraft, own questions")
    questions = verb("new-questions", "write a question set into the course folder, to be changed into your own")
    questions.add_argument("name", help="name of the set: small letters, figures and _")
    out = verb(
        "hand-out",
        "write a folder and a zip for each student (or each group, or one for all)",
        "The same course and roster always give the same bytes, so you can hand out again when someone has joined: "
        "nothing changes for the others.",
    )
    out.add_argument(
        "--to", type=Path, metavar="FOLDER", help="where to write (default: handed-out in the course folder)"
    )
    out.add_argument(
        "--new-ids",
        action="store_true",
        help="ids that differ from earlier ones only in zeros at the front are new ones: write new folders for them",
    )
    mark = verb(
        "mark",
        "mark everything that has come back; write gradebook, feedback pages and reports",
        "Looks for answer sheets in folders, and in zips there. Marking again with nothing new changes nothing.",
    )
    mark.add_argument(
        "--from",
        dest="sources",
        type=Path,
        action="append",
        metavar="FOLDER",
        help="where to look (default: collected in the course folder); can be given several times; what was collected "
        "before still counts",
    )
    mark.add_argument(
        "--forget",
        action="store_true",
        help="let go of what was collected before and is no longer there, and of the marks that rest on it",
    )
    mark.add_argument("--quiet", action="store_true", help="no progress line")
    paper = verb(
        "print",
        "print on paper: a paper for each student, the key, and tables to type the answers into",
        "PDFs are made by Chromium or Chrome, or by WeasyPrint (the extra print). The same course and roster always "
        "give the same papers.",
    )
    paper.add_argument("--only", default="", metavar="NAME", help="only this exercise of the course")
    paper.add_argument("--lessons", action="store_true", help="instead, hand-outs of the lessons")
    paper.add_argument(
        "--sheets",
        action="store_true",
        help="instead, a load sheet, filled in and blank, the warm-up table and the round's list, one page each; in "
        "the units of the course if there is one, else in those last chosen on a page",
    )
    paper.add_argument(
        "--to", type=Path, metavar="FOLDER", help="where to write (default: printed in the course folder)"
    )
    paper.add_argument("--letter", action="store_true", help="on US Letter instead of A4")
    paper.add_argument("--quiet", action="store_true", help="no progress line")
    type_in = verb(
        "type-in",
        "make answer sheets of a table into which you typed answers from paper",
        "Nothing is written unless the whole table is sound. Choices are letters (A C), an order is the numbers in the "
        "boxes (3 1 2). An answer sheet that is there already is never overwritten.",
    )
    type_in.add_argument("files", nargs="+", type=Path, metavar="FILE", help="a table that print wrote, filled in")
    choose = verb("choose", "choose the sheet that counts where several contradict each other")
    choose.add_argument("file", help="name of the file, as the files table and the desk show it")
    hand = verb("set-mark", "set a mark by hand, with a reason; it stays when everything is marked again")
    hand.add_argument("id", help="id of the student")
    hand.add_argument("exercise", help="name of the exercise")
    hand.add_argument("points", help="the points that count from now on")
    hand.add_argument("reason", nargs="+", help="why; the gradebook and the student's page show it")
    verbs.add_parser(
        "show",
        help="show the demonstrations on pages of their own, for a projector",
        description="Show the demonstrations on pages of their own, without notebook or code. It needs the extra "
        "classroom. Ctrl+C ends it.",
    )
    return top


def main(arguments=None):
    """Do what the command line says; returns 0 if all went well, 1 if there is something to put right."""
    from walkaround.classroom.texts import in_words

    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a console that can't show a letter shows ?
    chosen = parser().parse_args((sys.argv[1:] if arguments is None else arguments) or ["--help"])
    try:
        return VERBS[chosen.verb](chosen)
    except Exception as error:
        print(in_words(error), file=sys.stderr)
    except KeyboardInterrupt:
        print("\nStopped. The files written so far are complete.", file=sys.stderr)
    return 1


def _typed(path):
    return f'"{path}"' if " " in str(path) else path


# Each verb imports what it needs when it is used, so that help appears at once.
def _begin(chosen):
    from walkaround.classroom import demo_course
    from walkaround.classroom.course import begin_course, read_course

    if chosen.made_up:
        if (chosen.course / "course.toml").exists():
            raise ValueError(f"there is a course in {chosen.course} already")
        demo_course.make(chosen.course)
        print(f"A made-up course, with answers, is in {chosen.course}. Try: {program()} mark {_typed(chosen.course)}")
        return 0
    begin_course(chosen.course, (chosen.name or "").strip() or chosen.course.resolve().name)
    where = "this folder" if chosen.course == Path() else chosen.course
    if read_course(chosen.course).roster.students:
        print(f"The course is in {where}, with the roster that was there. Look through course.toml.")
        return _check(chosen)
    print(f"The course is in {where}. Fill in roster.csv and look through course.toml there, then type:")
    print(f"  {program()} check {_typed(chosen.course)}")
    return 0


def _check(chosen):
    from walkaround.classroom.course import check_course, read_course
    from walkaround.classroom.texts import number_of

    found = read_course(chosen.course)
    problems = [*check_course(found), *filter(None, [found.zeros_lost()])]
    for line in dict.fromkeys((*found.roster.notices, *filter(None, [found.overdue()]), *problems)):
        print(line)
    ready = "not ready" if problems else "ready"
    students, exercises = number_of(len(found.roster.students), "student"), number_of(len(found.exercises), "exercise")
    print(f"{found.name}: {students}, {exercises}, {ready}.")
    return 1 if problems else 0


def _new_questions(chosen):
    from walkaround.classroom import question_sets
    from walkaround.classroom.course import read_course

    read_course(chosen.course)
    path = question_sets.new(chosen.course, chosen.name)
    print(f"{path} works as it is. Change it into your own, add these lines to course.toml, then: check.")
    print(question_sets.entry(chosen.name))
    return 0


def _hand_out(chosen):
    from walkaround.classroom import handout
    from walkaround.classroom.course import check_course, read_course

    found = read_course(chosen.course)
    problems = check_course(found)
    if problems:
        raise ValueError("\n".join(problems))
    made = handout.hand_out(found, chosen.to, new_ids=chosen.new_ids)
    for line in made.notices:
        print(line)
    print(made.says(chosen.to or found.handed_out))
    return 0


def _mark(chosen):
    from walkaround.classroom.course import read_course
    from walkaround.classroom.results import mark_and_write, overview

    found = read_course(chosen.course)
    show = None if chosen.quiet else Bar(sys.stderr)
    results = mark_and_write(found, chosen.sources, progress=show or (lambda *_: None), forget=chosen.forget)
    if show:
        show.close()
    print("\n".join(overview(results)))
    print(f"Results are in {found.results}: gradebook.csv, where-they-stand.html, class-report.html, feedback.")
    return 0


def _print(chosen):
    from walkaround.classroom import course_file, lesson_pages, on_paper, one_page, to_pdf
    from walkaround.classroom.course import read_course

    show = None if chosen.quiet else Bar(sys.stderr)
    values = {"sheet": "Letter" if chosen.letter else "A4", "progress": show or (lambda *_: None)}
    if chosen.lessons or chosen.sheets:
        course = read_course(chosen.course) if (chosen.course / course_file.FILE).exists() else None
        folder = chosen.to or (course.folder if course else Path()) / on_paper.PRINTED
        units = course.file.units if course else None
        made = [
            *(lesson_pages.print_all(folder, units=units, **values) if chosen.lessons else ()),
            *(one_page.print_all(folder, units=units, **values) if chosen.sheets else ()),
        ]
        says = [f"{len(made)} files in {folder}: {', '.join(path.name for path in made)}."]
        says += [to_pdf.NEITHER] * (not to_pdf.can_print())
    else:
        printed = on_paper.print_course(read_course(chosen.course), chosen.to, chosen.only, **values)
        says = [*printed.notices, printed.says()]
    if show:
        show.close()
    print("\n".join(says))
    return 0


def _type_in(chosen):
    from walkaround.classroom import typed_in
    from walkaround.classroom.course import read_course

    found = read_course(chosen.course)
    print("\n".join(typed_in.type_in(found, chosen.files).says(found)))
    return 0


def _choose(chosen):
    from walkaround.classroom import choices
    from walkaround.classroom.course import read_course

    student, exercise = choices.choose(read_course(chosen.course), chosen.file)
    print(f"{chosen.file} counts for {student} in {exercise}. Mark again to update the gradebook.")
    return 0


def _set_mark(chosen):
    from walkaround.classroom import overrides
    from walkaround.classroom.course import read_course

    given = (chosen.id, chosen.exercise, chosen.points, " ".join(chosen.reason))
    try:
        overrides.set_by_hand(read_course(chosen.course), *given)
    except ValueError as error:
        taken = ", ".join(map(repr, (str(chosen.course), *given)))
        raise ValueError(f"{error}\nThe order is COURSE ID EXERCISE POINTS REASON; here: {taken}") from None
    print(f"{chosen.id} has {chosen.points} points in {chosen.exercise} by hand. Mark again to update the gradebook.")
    return 0


class Bar:
    """A progress line on a terminal; nothing where the output is not a terminal."""

    def __init__(self, out):
        self.out, self.written = out, False

    def __call__(self, what, done, total):
        """Show how far the work is."""
        if self.out.isatty():
            share = done / total if total else 1.0
            self.out.write(f"\r{what}: [{'#' * int(30 * share):<30}] {done:,} of {total:,} ")
            self.out.flush()
            self.written = True

    def close(self):
        """End the line."""
        if self.written:
            self.out.write("\n")


def _show(_chosen):
    import tempfile

    from walkaround.classroom import projector

    with tempfile.TemporaryDirectory() as folder:
        return projector.serve(folder)


def _open(chosen):
    from walkaround.exercises import own_folder

    command = None if chosen.lay_out_only else own_folder.lab_command()
    laid_out = own_folder.lay_out(own_folder.HOME if chosen.folder is None else chosen.folder)
    print(laid_out.says(), flush=True)
    if not command:
        return 0
    print("JupyterLab opens in your browser. It runs until you press Ctrl+C here.", flush=True)
    return own_folder.run(command, laid_out.folder)


VERBS = {
    "open": _open,
    "show": _show,
    "begin": _begin,
    "check": _check,
    "new-questions": _new_questions,
    "hand-out": _hand_out,
    "mark": _mark,
    "print": _print,
    "type-in": _type_in,
    "set-mark": _set_mark,
    "choose": _choose,
}

if __name__ == "__main__":
    sys.exit(main())
