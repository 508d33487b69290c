"""The instructor's desk in a notebook: open a course, hand out, mark, and look; with buttons and tables, no code."""

import os
import tempfile
from contextlib import contextmanager
from pathlib import Path

import ipywidgets as widgets

from walkaround.classroom import (
    analysis,
    choices,
    class_report,
    demo_course,
    feedback,
    handout,
    in_class,
    on_paper,
    overrides,
    results,
    standing,
    typed_in,
)
from walkaround.classroom.course import Course, begin_course, check_course, read_course
from walkaround.classroom.course_file import FILE, ONE_FOR_ALL
from walkaround.classroom.in_class_links import InClassLinks
from walkaround.classroom.mark_collected import TO_CHOOSE
from walkaround.classroom.pages import part
from walkaround.classroom.texts import in_words, number_of
from walkaround.exercises import markup
from walkaround.live.status import NOTE, OK, STOP, status_html

_ROW = widgets.Layout(flex_flow="row wrap", align_items="center")
_SCROLL = widgets.Layout(max_height="60vh", overflow="auto", width="99%")
WEAKER = (
    "One folder for all: its sheets can't be signed, so anyone can hand one in under another's id. Where two "
    "contradict each other, you choose the one that counts. A folder for each student proves whose a sheet is."
)
ALL_GROUPS, BY_NAME, FEWEST_FIRST = "all groups", "by group and name", "fewest points first"
TABS = ("1 Hand out", "2 Collect and mark", "3 Marks", "4 Questions", "5 Worth asking", "6 One student", "7 Files")


class Desk(widgets.VBox):
    """The instructor's desk; `folder` is where courses are looked for."""

    course: Course  # once one is open
    marked: results.Results | None = None
    exercises: tuple[analysis.Exercise, ...] = ()

    def __init__(self, folder="."):
        self.top = (workbook_folder() if folder == "." else Path(folder)).absolute()  # a message can say where it is
        self._folder, found = folder, courses_below(self.top)
        self.path = widgets.Combobox(
            options=found,
            value=found[0] if found else "",
            placeholder="folder of the course",
            ensure_option=False,
            description="Course folder",
            style={"description_width": "initial"},
            layout=widgets.Layout(width="34em"),
        )
        self.open_it = _button("Open", "folder-open", self._open, "Open the course in that folder")
        self.begin_it = _button("Begin a new course", "plus", self._begin, "Write a new course into that folder")
        self.demo_it = _button(
            "Made-up course", "flask", self._demo, "Open an invented course, with answers, to try everything with"
        )
        self.message = widgets.HTML()
        self.tabs = widgets.Tab(
            [
                self._hand_out_tab(),
                self._mark_tab(),
                self._marks_tab(),
                self._questions_tab(),
                self._alike_tab(),
                self._student_tab(),
                self._files_tab(),
            ],
            titles=list(TABS),
        )
        self.tabs.layout.display = "none"
        top = widgets.HBox([self.path, self.open_it, self.begin_it, self.demo_it], layout=_ROW)
        super().__init__([top, self.message, self.tabs])
        _say(self.message, "Choose the folder of your course, or begin with the made-up one.", NOTE)

    def _hand_out_tab(self):
        self.about, self.out_text = widgets.HTML(), widgets.HTML()
        self.check_it = _button(
            "Check the course", "check", self._check, "Try every exercise, file and name of the course"
        )
        self.hand_out_it = _button("Hand out", "share", self._hand_out, "Write a folder and a zip for each student")
        self.new_ids = widgets.Checkbox(description="New ids: write new folders for them", indent=False)
        self.new_ids.layout.display = "none"  # until it is asked
        self.print_it = _button(
            "Print on paper", "print", self._print, "Write a paper for each student, the key, and tables to type into"
        )
        self.printing = _progress()
        buttons = widgets.HBox(
            [self.check_it, self.hand_out_it, self.new_ids, self.print_it, self.printing], layout=_ROW
        )
        return widgets.VBox([self.about, buttons, self.out_text])

    def _mark_tab(self):
        self.source = widgets.Text(
            placeholder="the course's own folder “collected”",
            description="Look in",
            tooltip="Folder in which answer sheets came back",
            style={"description_width": "initial"},
            layout=widgets.Layout(width="40em"),
        )
        self.mark_it = _button(
            "Mark everything", "pencil", self._mark, "Look through the folder and mark every answer sheet"
        )
        self.forget = widgets.Checkbox(
            description="Forget what was collected before and is no longer there, and its marks",
            indent=False,
            layout=widgets.Layout(width="auto"),
        )
        self.progress, self.mark_text, self.typed_text = _progress(), widgets.HTML(), widgets.HTML()
        self.table = widgets.Combobox(
            placeholder="a table that you filled in",
            ensure_option=False,
            description="From paper",
            tooltip="Table into which you typed answers from paper",
            style={"description_width": "initial"},
            layout=widgets.Layout(width="40em"),
        )
        self.type_in_it = _button(
            "Type in",
            "keyboard-o",
            self._type_in,
            "Make answer sheets of the table; nothing is written if it has a mistake",
        )
        return widgets.VBox(
            [
                self.source,
                self.forget,
                widgets.HBox([self.mark_it, self.progress]),
                self.mark_text,
                widgets.HBox([self.table, self.type_in_it], layout=_ROW),
                self.typed_text,
            ]
        )

    def _marks_tab(self):
        self.marks_table, self.set_text = widgets.HTML(), widgets.HTML()
        self.again, self.again_text = InClassLinks(self._folder), widgets.HTML()
        self.group, self.order = _choice("Group"), _choice("Order")
        self.order.options, self.order.index = [BY_NAME, FEWEST_FIRST], 0
        for choice in (self.group, self.order):
            choice.observe(lambda _: self._show_marks(), "value")
        self.who, self.what = _choice("Student", "36em"), _choice("Exercise")
        self.points = widgets.Text(description="Points", layout=widgets.Layout(width="14em"))
        self.reason = widgets.Text(description="Reason", layout=widgets.Layout(width="30em"))
        self.set_it = _button(
            "Set this mark by hand", "hand-paper-o", self._set_mark, "It stays when everything is marked again"
        )
        return widgets.VBox(
            [
                self.again,
                self.again_text,
                widgets.HBox([self.group, self.order], layout=_ROW),
                widgets.Box([self.marks_table], layout=_SCROLL),
                widgets.HTML("<b>A mark by hand</b>, when you know better than the marking:"),
                widgets.HBox([self.who, self.what, self.points, self.reason, self.set_it], layout=_ROW),
                self.set_text,
            ]
        )

    def _questions_tab(self):
        self.which, self.items = _choice("Exercise"), widgets.HTML()
        self.in_class, self.in_class_text = InClassLinks(self._folder), widgets.HTML()
        self.which.observe(lambda _: self._show_items(), "value")
        return widgets.VBox([self.which, self.in_class, self.in_class_text, widgets.Box([self.items], layout=_SCROLL)])

    def _alike_tab(self):
        self.alike = widgets.HTML()
        return widgets.VBox([widgets.Box([self.alike], layout=_SCROLL)])

    def _student_tab(self):
        self.one, self.one_page = _choice("Student", "36em"), widgets.HTML()
        self.one.observe(lambda _: self._show_one(), "value")
        return widgets.VBox([self.one, widgets.Box([self.one_page], layout=_SCROLL)])

    def _files_tab(self):
        self.files, self.choose_text, self.sheet = widgets.HTML(), widgets.HTML(), _choice("Sheet", "64em")
        self.choose_it = _button("This one counts", "hand-paper-o", self._choose, "It stays when all is marked again")
        self.choosing = widgets.VBox(
            [
                widgets.HTML(
                    "<b>Sheets that contradict each other</b>: they are not signed, so only you can tell which is "
                    "right."
                ),
                widgets.HBox([self.sheet, self.choose_it], layout=_ROW),
            ]
        )
        self.choosing.layout.display = "none"
        return widgets.VBox([self.choosing, self.choose_text, widgets.Box([self.files], layout=_SCROLL)])

    def _typed(self, box):
        """The folder that was typed: a relative one is where a terminal would look for it."""
        typed = box.value.strip().strip("\"'").strip()  # file managers copy a path with quotation marks
        if not typed:
            raise ValueError("Name the folder of the course first.")
        return self.top / Path(typed).expanduser()

    def _open(self):
        with _saying(self.message):
            self._take(read_course(self._typed(self.path)))

    def _begin(self):
        with _saying(self.message):
            folder = self._typed(self.path)
            begin_course(folder, folder.name)
            self._take(read_course(folder))
            text = f"A course has begun in {folder}. Fill in roster.csv there, in a spreadsheet or an editor (here: "
            text += f"right-click it, Open With, Editor), look through {FILE}, save both, then press Open."
            _say(self.message, text, OK)

    def _demo(self):
        with _saying(self.message):
            folder = demo_course.make(tempfile.mkdtemp(prefix="walkaround-"))
            self.path.value = str(folder)
            self._take(read_course(folder))
            text = "This course, its people and their answers are invented. Go through the tabs from left to right."
            _say(self.message, text, NOTE)

    def _take(self, course):
        self.course, self.marked = course, None
        self.tabs.layout.display = ""
        self.tabs.selected_index = 0
        self._show_course()
        for place in (self.marks_table, self.items, self.alike, self.one_page, self.files):
            place.value = markup.paragraph("Mark first: tab 2.")
        self.in_class.rows, self.again.rows, self.in_class_text.value = [], [], ""
        self.out_text.value = self.mark_text.value = self.set_text.value = self.typed_text.value = ""
        self.table.value = ""
        self._list_tables()
        _say(self.message, f"{course.name} is open: {course.folder}", OK)

    def _read_again(self):
        # The instructor may have changed the roster or the course file since it was opened.
        self.course = read_course(self.course.folder)
        self._show_course()

    def _show_course(self):
        """Show who is in the course and what is set, and list both in the menus."""
        course = self.course
        students = [(f"{p.name} ({p.id})" if p.name != p.id else p.id, p.id) for p in course.sorted_parties]
        exercises = [e.name for e in course.exercises]
        groups = [ALL_GROUPS, *dict.fromkeys(r.group for p in course.sorted_parties for r in p.members)]
        for choice, options in (
            (self.who, students),
            (self.one, students),
            (self.what, exercises),
            (self.which, exercises),
            (self.group, groups),
        ):
            if choice.options != tuple(options):  # what is chosen stays where nothing has changed
                choice.options = options
                choice.index = 0 if options else None
        rows = [("exercise", "due", "for")]
        for e in course.exercises:
            due = course.due(e)
            when = f"{due:%d %B %Y, %H:%M} {due.tzname()}" if due else "no date"
            rows.append((e.name, when, ", ".join(e.groups) or "everybody"))
        about = markup.paragraph(f"{course.name}: {number_of(len(course.roster.students), 'student')}.", strong=True)
        self.about.value = about + markup.table(rows) + _notices(course.roster.notices)
        if course.file.hand_out == ONE_FOR_ALL:
            self.about.value += status_html(WEAKER, NOTE)

    def _check(self):
        """Check the course; returns whether it is ready."""
        with _saying(self.out_text):
            self._read_again()
            problems = check_course(self.course)
            _say(self.out_text, "The course is ready to hand out.", OK)
            if not problems:
                self.out_text.value += _notices(filter(None, [self.course.overdue()]))
                return True
            self.out_text.value = "".join(status_html(p, STOP) for p in problems)
        return False

    def _hand_out(self):
        if not self._check():
            return
        with _saying(self.out_text):
            self.new_ids.layout.display = "" if self.course.zeros_lost() else "none"
            made = handout.hand_out(self.course, new_ids=self.new_ids.value)
            self.new_ids.value, self.new_ids.layout.display = False, "none"
            _say(self.out_text, made.says(self.course.handed_out), OK)
            self.out_text.value += _notices(made.notices)

    def _print(self):
        if not self._check():
            return
        self.printing.layout.display, self.print_it.disabled = "", True
        try:
            with _saying(self.out_text):
                made = on_paper.print_course(self.course, progress=lambda *now: _advance(self.printing, *now))
                _say(self.out_text, made.says(), OK)
                self.out_text.value += _notices(made.notices)
                self._list_tables()
        finally:
            self.printing.layout.display, self.print_it.disabled = "none", False

    def _list_tables(self):
        folder = self.course.folder / on_paper.PRINTED / on_paper.FOR_INSTRUCTOR
        self.table.options = sorted(map(str, folder.glob("*.csv")))

    def _type_in(self):
        with _saying(self.typed_text):
            if not self.table.value.strip():
                raise ValueError("Name the table first: those that Print on paper has written are listed.")
            self._read_again()
            first, *more = typed_in.type_in(self.course, [self._typed(self.table)]).says(self.course)
            _say(self.typed_text, first, OK)
            self.typed_text.value += "".join(markup.paragraph(line) for line in more)

    def _mark(self):
        self.progress.layout.display = ""
        self.mark_it.disabled = True
        try:
            with _saying(self.mark_text):
                self._read_again()
                sources = [self._typed(self.source)] if self.source.value.strip() else None
                self.marked = marked = results.mark_and_write(
                    self.course, sources, progress=lambda *now: _advance(self.progress, *now), forget=self.forget.value
                )
                self.forget.value = False
                first, *more = results.overview(marked)
                more.append(f"Gradebook, report and feedback pages are in {self.course.results}.")
                _say(self.mark_text, first, OK)
                self.mark_text.value += "".join(markup.paragraph(line.strip()) for line in more)
                self._show_all(marked.rows, marked.outcome)
        finally:
            self.progress.layout.display = "none"
            self.mark_it.disabled = False

    def _show_all(self, rows, outcome):
        self._show_marks()
        self.again_text.value = ""
        with _saying(self.again_text):
            self.again.show([standing.need(self.course, standing.stops(self.course, rows))])
        self.exercises = analysis.analyse(self.course, rows)
        self.alike.value = _framed(class_report.alike_part(self.course, outcome, rows, self.exercises))
        self.files.value = _framed(class_report.files_part(self.course, outcome))
        wanted = {(f.student, f.exercise) for f in outcome.files if f.status == TO_CHOOSE}
        sheets = [f for f in outcome.files if (f.student, f.exercise) in wanted]
        sheets.sort(key=lambda f: class_report.by_student(self.course, f))
        named = [(f"{f.student}, {f.exercise}: {f.place} ({f.status})", f.place) for f in sheets]
        self.sheet.options = [("choose one …", ""), *named]
        self.sheet.index = 0
        self.choosing.layout.display = "" if sheets else "none"
        self._show_items()
        self._show_one()

    def _show_marks(self):
        if not self.marked:
            return
        shown = [r for r in self.marked.rows if self.group.value in (ALL_GROUPS, r.student.group)]
        if self.order.value == FEWEST_FIRST:
            shown.sort(key=lambda r: r.percent)
        self.marks_table.value = _framed(standing.standing_part(self.course, self.marked.rows, shown))

    def _show_items(self):
        for exercise in self.exercises if self.marked else ():
            if exercise.name == self.which.value:
                self.items.value = _framed(class_report.exercise_part(exercise))
                self.in_class_text.value = ""
                with _saying(self.in_class_text):
                    self.in_class.show(in_class.showings(self.course, exercise))

    def _show_one(self):
        for row in self.marked.rows if self.marked else ():
            if row.party.id == self.one.value:
                self.one_page.value = _framed(feedback.student_part(self.course, row))
                break

    def _choose(self):
        file = self.sheet.value
        if not file:
            _say(self.choose_text, "Choose the sheet that counts first.", NOTE)
            return
        with _saying(self.choose_text):
            student, exercise = choices.choose(self.course, file)
            self._mark()
            _say(self.choose_text, f"{file} counts for {student} in {exercise}.", OK)

    def _set_mark(self):
        with _saying(self.set_text):
            student, exercise = self.who.value or "", self.what.value or ""
            overrides.set_by_hand(self.course, student, exercise, self.points.value, self.reason.value)
            self._mark()
            undo = f"To take that back, delete its line in {overrides.FILE} and mark again."
            _say(self.set_text, f"{student} has {self.points.value} points in {exercise} by hand. {undo}", OK)

    def _repr_mimebundle_(self, **kwargs):
        data = super()._repr_mimebundle_(**kwargs)
        # The same text whoever opens it: a stored notebook names nobody.
        data["text/plain"] = "The instructor's desk: run the cell to use it."
        return data


@contextmanager
def _saying(place):
    """Say in an HTML widget whatever goes wrong inside: nobody who teaches should have to read a traceback."""
    try:
        yield
    except Exception as error:
        _say(place, " ".join(in_words(error).splitlines()), STOP)


def courses_below(folder):
    """List the folders with a course file, as seen from a folder and no more than two folders down."""
    top, found = Path(folder), []
    for here, folders, files in os.walk(top):
        if FILE in files:
            found.append(os.path.relpath(here, top))
        deep = len(Path(here).relative_to(top).parts)
        folders[:] = sorted(f for f in folders if not f.startswith(".")) if deep < 2 else []
    return found


def workbook_folder():
    """Return the folder of README.md, where a terminal is opened: a kernel starts in the notebook's folder below it."""
    here = Path.cwd()
    return here.parent if here.name == "notebooks" and (here.parent / "README.md").exists() else Path()


def desk(folder="."):
    """Show the instructor's desk."""
    return Desk(folder)


def _progress():
    return widgets.IntProgress(0, 0, 1, layout=widgets.Layout(width="40em", display="none"))


def _advance(bar, what, done, total):
    bar.description, bar.max, bar.value = what, max(total, 1), done


def _say(place, text, verdict):
    place.value = status_html(text, verdict)


def _notices(notices):
    return "".join(status_html(n, NOTE) for n in notices)


def _framed(inside):
    return part("desk.html", inside=inside)


def _button(text, icon, work, tooltip):
    made = widgets.Button(description=text, icon=icon, tooltip=tooltip, layout=widgets.Layout(width="auto"))
    made.on_click(lambda _: work())
    return made


def _choice(label, width="24em"):
    return widgets.Dropdown(options=[], description=label, layout=widgets.Layout(width=width, max_width="99%"))
