"""The instructor's desk in a notebook: open a course, hand out, mark, and see; buttons and tables, no code to write."""

import os
import tempfile
from pathlib import Path

import ipywidgets as widgets

from walkaround.classroom import analysis, class_report, demo_course, feedback, handout, likeness, overrides, results
from walkaround.classroom.course import begin_course, check_course, read_course
from walkaround.classroom.course_file import FILE
from walkaround.classroom.pages import table
from walkaround.exercises import markup
from walkaround.live.status import NOTE, OK, STOP, status_html

_AUTO = widgets.Layout(width="auto")
_ROW = widgets.Layout(flex_flow="row wrap", align_items="center")
_SCROLL = widgets.Layout(max_height="420px", overflow="auto", width="99%")
TABS = ("1 Hand out", "2 Collect and mark", "3 Marks", "4 Questions", "5 Worth asking", "6 One student", "7 Files")


class Desk(widgets.VBox):
    """The instructor's desk; `folder` is where courses are looked for."""

    def __init__(self, folder="."):
        self.course = self.results = None
        found = courses_below(folder)
        self.path = widgets.Combobox(
            options=found, value=found[0] if found else "", placeholder="folder of the course", ensure_option=False,
            description="Course folder", style={"description_width": "initial"}, layout=widgets.Layout(width="34em"),
        )  # fmt: skip
        self.open_it = _button("Open", "folder-open", self._open, "Open the course in that folder")
        self.begin_it = _button("Begin a new course", "plus", self._begin, "Write a new course into that folder")
        self.demo_it = _button(
            "Made-up course", "flask", self._demo, "Open an invented course, with answers, to try everything with"
        )
        self.message = widgets.HTML()
        self.parts = {name: widgets.VBox() for name in TABS}
        self.tabs = widgets.Tab(list(self.parts.values()), titles=list(TABS))
        self.tabs.layout.display = "none"
        self._make_parts()
        top = widgets.HBox([self.path, self.open_it, self.begin_it, self.demo_it], layout=_ROW)
        super().__init__([top, self.message, self.tabs])
        self._say("Choose the folder of your course, or begin with the made-up one.", NOTE)

    def _make_parts(self):
        self.about, self.out_text = widgets.HTML(), widgets.HTML()
        self.check_it = _button(
            "Check the course", "check", self._check, "Try every exercise, file and name of the course"
        )
        self.hand_out_it = _button("Hand out", "share", self._hand_out, "Write a folder and a zip for each student")
        self.parts[TABS[0]].children = [
            self.about,
            widgets.HBox([self.check_it, self.hand_out_it], layout=_ROW),
            self.out_text,
        ]
        self.source = widgets.Text(
            placeholder="the course's own folder “collected”", description="Look in", tooltip="Folder in which answer sheets came back",
            style={"description_width": "initial"}, layout=widgets.Layout(width="40em"),
        )  # fmt: skip
        self.mark_it = _button(
            "Mark everything", "pencil", self._mark, "Look through the folder and mark every answer sheet"
        )
        self.progress = widgets.IntProgress(0, 0, 1, layout=widgets.Layout(width="40em", display="none"))
        self.mark_text = widgets.HTML()
        self.parts[TABS[1]].children = [self.source, widgets.HBox([self.mark_it, self.progress]), self.mark_text]
        self.marks_table = widgets.HTML()
        self.who, self.what = _choice("Student"), _choice("Exercise")
        self.points = widgets.Text(description="Points", layout=widgets.Layout(width="14em"))
        self.reason = widgets.Text(description="Reason", layout=widgets.Layout(width="30em"))
        self.set_it = _button(
            "Set this mark by hand", "hand-paper-o", self._set_mark, "It stays when everything is marked again"
        )
        self.set_text = widgets.HTML()
        by_hand = [
            widgets.HTML("<b>A mark by hand</b>, when you know better than the marking:"),
            widgets.HBox([self.who, self.what, self.points, self.reason, self.set_it], layout=_ROW),
        ]
        self.parts[TABS[2]].children = [widgets.Box([self.marks_table], layout=_SCROLL), *by_hand, self.set_text]
        self.which, self.items = _choice("Exercise"), widgets.HTML()
        self.which.observe(lambda _: self._show_items(), "value")
        self.parts[TABS[3]].children = [self.which, self.items]
        self.alike = widgets.HTML()
        self.parts[TABS[4]].children = [self.alike]
        self.one, self.one_page = _choice("Student"), widgets.HTML()
        self.one.observe(lambda _: self._show_one(), "value")
        self.parts[TABS[5]].children = [self.one, widgets.Box([self.one_page], layout=_SCROLL)]
        self.files = widgets.HTML()
        self.parts[TABS[6]].children = [widgets.Box([self.files], layout=_SCROLL)]

    def _say(self, text, verdict):
        self.message.value = status_html(text, verdict)

    def _guarded(self, work, say):
        """Do some work; what the instructor has to mend is said in words."""
        try:
            return work()
        except ValueError as error:
            say(" ".join(str(error).splitlines()), STOP)
        except OSError as error:
            say(f"{error.strerror or error}: {error.filename or ''}", STOP)
        except Exception as error:
            # Nobody who teaches should have to read a traceback.
            say(f"Something went wrong that should not have: {type(error).__name__}: {error}", STOP)
        return None

    def _open(self):
        if not self.path.value.strip():
            self._say("Write the folder of the course first.", NOTE)
            return
        found = self._guarded(lambda: read_course(self.path.value.strip()), self._say)
        if found is not None:
            self._take(found)

    def _begin(self):
        folder = self.path.value.strip()
        if not folder:
            self._say("Write the name of a new folder first.", NOTE)
            return
        if self._guarded(lambda: begin_course(folder, Path(folder).name) or True, self._say):
            self._open()
            self._say(
                f"A course has begun in {folder}. Fill in roster.csv there, look through {FILE}, save both, then press Open.",
                OK,
            )

    def _demo(self):
        folder = self._guarded(lambda: demo_course.make(tempfile.mkdtemp(prefix="walkaround-")), self._say)
        if folder is not None:
            self.path.value = str(folder)
            self._open()
            self._say(
                "This course, its people and their answers are invented. Go through the tabs from left to right.", NOTE
            )

    def _take(self, found):
        self.course, self.results = found, None
        self.tabs.layout.display = ""
        self.tabs.selected_index = 0
        students = [(f"{p.name} ({p.id})" if p.name != p.id else p.id, p.id) for p in found.parties]
        self.who.options = self.one.options = students
        self.what.options = self.which.options = [e.name for e in found.exercises]
        for choice in (self.who, self.one, self.what, self.which):
            choice.index = 0 if choice.options else None
        rows = [("exercise", "due", "for")]
        for e in found.exercises:
            due = found.due(e)
            rows.append(
                (
                    e.name,
                    f"{due:%d %B %Y, %H:%M} {due.tzname()}" if due else "no date",
                    ", ".join(e.groups) or "everybody",
                )
            )
        notices = "".join(status_html(n, NOTE) for n in found.roster.notices)
        self.about.value = (
            markup.paragraph(f"{found.name}: {len(found.roster.students)} students.", strong=True)
            + markup.table(rows)
            + notices
        )
        later = markup.paragraph("Mark first: tab 2.")
        for place in (self.marks_table, self.items, self.alike, self.one_page, self.files):
            place.value = later
        self.out_text.value = self.mark_text.value = self.set_text.value = ""
        self._say(f"{found.name} is open.", OK)

    def _again(self):
        # The instructor may have changed the roster or the course file since it was opened.
        self.course = read_course(self.course.folder)
        return self.course

    def _check(self):
        problems = self._guarded(lambda: check_course(self._again()), self._say_out)
        if problems is not None:
            self.out_text.value = "".join(status_html(p, STOP) for p in problems) or status_html(
                "The course is ready to hand out.", OK
            )
        return problems == []

    def _say_out(self, text, verdict):
        self.out_text.value = status_html(text, verdict)

    def _hand_out(self):
        if not self._check():
            return
        made = self._guarded(lambda: handout.hand_out(self.course), self._say_out)
        if made is not None:
            self._say_out(
                f"{len(made.folders)} folders and zips are in {self.course.handed_out}; {made.changed} files are new or changed. "
                f"{handout.LIST} there says who gets which.", OK,
            )  # fmt: skip
            self.out_text.value += "".join(status_html(n, NOTE) for n in made.notices)

    def _mark(self):
        self.progress.layout.display = ""
        self.mark_it.disabled = True
        try:
            sources = [Path(self.source.value.strip())] if self.source.value.strip() else None
            done = self._guarded(
                lambda: results.mark_and_write(self._again(), sources, progress=self._advance), self._say_mark
            )
        finally:
            self.progress.layout.display = "none"
            self.mark_it.disabled = False
        if done is not None:
            self.results = done
            lines = results.overview(done)
            self.mark_text.value = status_html(lines[0], OK) + "".join(
                markup.paragraph(line.strip()) for line in lines[1:]
            )
            self.mark_text.value += markup.paragraph(
                f"Gradebook, report and feedback pages are in {self.course.results}."
            )
            self._show_all()

    def _say_mark(self, text, verdict):
        self.mark_text.value = status_html(text, verdict)

    def _advance(self, what, done, total):
        self.progress.description, self.progress.max, self.progress.value = what, max(total, 1), done

    def _show_all(self):
        names = [e.name for e in self.course.exercises]
        head = ("id", "name", "group", *names, "points", "%")
        rows = []
        for r in self.results.rows:
            cells = [
                f"{s.points:g} of {s.of:g}" if s.status in ("marked", "by hand") else s.status for s in r.standings
            ]
            rows.append((r.student.id, r.student.name, r.student.group, *cells, f"{r.points:g}", f"{r.percent:.0f}"))
        self.marks_table.value = _framed(table(head, rows, range(3, len(head))))
        titles = {(e.name, i.key): i.title for e in analysis.analyse(self.course, self.results.rows) for i in e.items}
        people = {r.party.id: r.party.name for r in self.results.rows}
        self.alike.value = class_report.alike_part(likeness.find(self.course, self.results.outcome), people, titles)
        self.files.value = class_report.files_part(self.results.outcome)
        self._show_items()
        self._show_one()

    def _show_items(self):
        if self.results is None or not self.which.value:
            return
        found = next(e for e in analysis.analyse(self.course, self.results.rows) if e.name == self.which.value)
        self.items.value = _framed(class_report.exercise_part(found))

    def _show_one(self):
        row = next((r for r in self.results.rows if r.party.id == self.one.value), None) if self.results else None
        if row is not None:
            page = feedback.student_page(self.course, row).decode("utf-8")
            self.one_page.value = _framed(page[page.index("<body>") + 6 : page.index("</body>")])

    def _set_mark(self):
        def work():
            overrides.set_by_hand(
                self.course, self.who.value or "", self.what.value or "", self.points.value, self.reason.value
            )
            return True

        def say(text, verdict):
            self.set_text.value = status_html(text, verdict)

        if self._guarded(work, say):
            self._mark()
            say(f"{self.who.value} has {self.points.value} points in {self.what.value} by hand.", OK)

    def _repr_mimebundle_(self, **kwargs):
        data = super()._repr_mimebundle_(**kwargs)
        # The same text whoever opens it: a stored notebook names nobody.
        data["text/plain"] = "The instructor's desk: run the cell to use it."
        return data


def courses_below(folder):
    """List the folders with a course file, no more than two folders down."""
    top, found = Path(folder), []
    for here, folders, files in os.walk(top):
        if FILE in files:
            found.append(os.path.relpath(here, top) if top == Path() else here)
        deep = len(Path(here).relative_to(top).parts)
        folders[:] = sorted(f for f in folders if not f.startswith(".")) if deep < 2 else []
    return found


def desk(folder="."):
    """Show the instructor's desk."""
    return Desk(folder)


def _framed(inside):
    """Return HTML with the look of the printed pages, and nothing beside it touched."""
    look = "".join(
        f".walkaround-desk {rule}"
        for rule in (
            "table{border-collapse:collapse}",
            "th,.walkaround-desk td{text-align:left;vertical-align:top;padding:2px 14px 2px 0;border-bottom:1px solid #bbb}",
            "td.n,.walkaround-desk th.n{text-align:right}",
            "p,.walkaround-desk li{line-height:1.45;margin:4px 0}",
            "h2,.walkaround-desk h3{line-height:1.3;margin:10px 0 4px}",
            "svg{width:100%;max-width:760px;height:auto}",
        )
    )
    return f"<style>{look}</style><div class='walkaround-desk'>{inside}</div>"


def _button(text, icon, work, tooltip):
    made = widgets.Button(description=text, icon=icon, tooltip=tooltip, layout=_AUTO)
    made.on_click(lambda _: work())
    return made


def _choice(label):
    return widgets.Dropdown(options=[], description=label, layout=widgets.Layout(width="24em"))
