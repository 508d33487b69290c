"""Each solutions notebook ends in full marks, whoever the student is."""

from pathlib import Path

import nbformat
import pytest
from IPython.core.interactiveshell import InteractiveShell
from walkaround.lessons.table import LESSONS

TOP = Path(__file__).resolve().parents[1]
STUDENTS = ["Example Student", "Ines Okafor", "Tomas Brandvold", "李小龙", "Zoë d'Arc", "Student 17", "Student 23"]


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda x: x.name)
@pytest.mark.parametrize("student", STUDENTS)
def test_full_marks(lesson, student):
    book = nbformat.read(TOP / "solutions" / lesson.file, as_version=4)
    code = [c.source for c in book.cells if c.cell_type == "code"]
    assert code[0].startswith("student = ")
    shell = InteractiveShell()
    for source in [f"student = {student!r}", *code[1:]]:
        done = shell.run_cell(source)
        assert done.success, source
    assert done.result.endswith("points: full marks.")
