"""How long it takes to mark a large class: python tests/benchmarks/classroom.py [sheets]

Ten thousand answer sheets, each of ten answered questions and with numbers of its own, are marked from a folder into a
gradebook by two processes. Beside it, in the same run, stands what executing the solutions notebook of one exercise
once for each student would take: a few are executed and the time is scaled, since ten thousand would take hours.
"""

import contextlib
import os
import random
import subprocess
import sys
import tempfile
import threading
import time
from datetime import UTC, datetime
from pathlib import Path

import psutil
from walkaround.classroom import demo_course, gradebook
from walkaround.classroom.course import begin_course, read_course
from walkaround.classroom.mark_collected import mark_folders

TOP = Path(__file__).resolve().parent.parent.parent
BEGUN = datetime(2026, 3, 1, tzinfo=UTC)
NOTEBOOKS = 3
MARK = "--mark"


def made_class(folder, sheets):
    """A course of `sheets` students, each of whom has answered ten questions."""
    begin_course(folder, "Benchmark")
    (folder / "roster.csv").write_text("id,name\n" + "".join(f"s{i},Student {i}\n" for i in range(sheets)))
    found = read_course(folder)
    for i, party in enumerate(found.parties):
        answers = demo_course.made_answers(found.paper("loading", party.id), 1.0, random.Random(i), BEGUN)
        del answers["steps"]  # the exercise has eleven
        data = demo_course.sheet_data(found, party.id, "loading", answers)
        (found.collected / f"loading-{party.id}.answers.json").write_bytes(data)


class Memory(threading.Thread):
    """Watches the most memory that a process and its helpers take together, each page that they share counted once."""

    def __init__(self, pid):
        super().__init__(daemon=True)
        self.most, self._watched = 0, psutil.Process(pid)

    def run(self):
        with contextlib.suppress(psutil.Error):
            while True:
                taken = self._watched.memory_full_info().pss
                for helper in self._watched.children(recursive=True):
                    with contextlib.suppress(psutil.Error):
                        taken += helper.memory_full_info().pss
                self.most = max(self.most, taken)
                time.sleep(1.0)


def mark(folder):
    """Mark the class in a folder; prints seconds and processor seconds."""
    me = psutil.Process()
    before, start = sum(me.cpu_times()[:4]), time.perf_counter()
    found = read_course(folder)
    outcome = mark_folders(found, [found.collected], gradebook.first_seen(found), workers=2)
    gradebook.write(found, outcome, gradebook.rows(found, outcome, {}))
    seconds, busy = time.perf_counter() - start, sum(me.cpu_times()[:4]) - before
    assert outcome.count("marked") == len(found.parties)
    print(seconds, busy)


def marked(folder):
    """Mark the class in a folder in a process of its own, as an instructor does; returns (seconds, busy, bytes)."""
    with subprocess.Popen([sys.executable, __file__, MARK, str(folder)], stdout=subprocess.PIPE) as process:
        memory = Memory(process.pid)
        memory.start()
        seconds, busy = map(float, process.communicate()[0].split())
    return seconds, busy, memory.most


def executed():
    """Seconds to execute the solutions notebook once."""
    # Here and not above: every process that marks reads this file first, and would take seconds over these two.
    import nbformat
    from nbclient import NotebookClient

    path = TOP / "solutions" / "01-loading.ipynb"
    start = time.perf_counter()
    for _ in range(NOTEBOOKS):
        book = nbformat.read(path, as_version=4)
        NotebookClient(
            book, timeout=300, kernel_name="python3", resources={"metadata": {"path": path.parent}}
        ).execute()
    return (time.perf_counter() - start) / NOTEBOOKS


def main(sheets):
    rates, seconds = [], 0.0
    for count in (sheets // 10, sheets // 3, sheets):
        with tempfile.TemporaryDirectory() as folder:
            folder = Path(folder) / "course"
            made_class(folder, count)
            os.sync()  # so that writing the made sheets does not go on while they are marked
            seconds, busy, memory = marked(folder)
        rates.append(1000 * seconds / count)
        print(
            f"{count:6,} sheets of 10 questions: {seconds:6.1f} s ({rates[-1]:.2f} ms a sheet; processors busy "
            f"{busy:.1f} s), at most {memory / 1e6:.0f} MB"
        )
    print(
        f"time a sheet, largest class to smallest: {rates[-1] / rates[0]:.2f} (1 is in proportion; starting the "
        "processes counts in the smallest)"
    )
    one = executed()
    print(
        f"executing the solutions notebook: {one:.1f} s each (mean of {NOTEBOOKS}); scaled, not run: "
        f"{one * sheets / 2 / 3600:.1f} hours for {sheets:,} students on two processors, "
        f"{one * sheets / 2 / seconds:,.0f} times as long"
    )


if __name__ == "__main__" and MARK in sys.argv:
    mark(Path(sys.argv[2]))
elif __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
