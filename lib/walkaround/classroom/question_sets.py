"""A new question set in a course: a file that works and can be changed, and what to write into the course file."""

from pathlib import Path

from walkaround.assessment.files import write_whole
from walkaround.assessment.question_file import NAME_FORM, TAKEN
from walkaround.lessons.table import names as lesson_names

TEMPLATE = Path(__file__).parent / "question_template.py"


def new(folder, name):
    """Write a question set of that name into a course folder; returns its path.

    Raises ValueError when the name is not one, or there is a file with that name already.
    """
    path = Path(folder) / f"{name}.py"
    if not NAME_FORM.fullmatch(name) or name in TAKEN or name in lesson_names():
        allowed = "small letters, figures and _, a letter first, and not the name of a lesson or a Python module"
        raise ValueError(f"the name is {name!r}; allowed: {allowed}")
    if path.exists():
        raise ValueError(f"there is a file {path.name} already")
    text = TEMPLATE.read_text(encoding="utf-8").replace('NAME = "bags"', f'NAME = "{name}"')
    write_whole(path, text.encode("utf-8"))
    return path


def entry(name):
    """Return what to add to the course file for a question set.

    >>> print(entry("wind"))
    [[exercises]]
    name = "wind"
    questions = "wind.py"
    """
    return f'[[exercises]]\nname = "{name}"\nquestions = "{name}.py"'
