"""Imports run one way through the house, those inside functions included, and an import that runs back is seen."""

import ast
import sys
from pathlib import Path

import pytest
import walkaround

PACKAGE = Path(walkaround.__file__).parent
STANDARD = sys.stdlib_module_names

# What each room may import of the package: a room is a folder or a module of it, and may always import itself.
BASE = {"units", "checks", "measures"}
BELOW_LESSONS = {*BASE, "numerics", "physics", "aircraft", "live", "assessment"}
MAY = {
    "units": set(),
    "checks": set(),
    "measures": {"units"},
    "numerics": {"units", "checks"},
    "physics": {"units", "checks", "numerics"},
    "aircraft": {*BASE, "numerics", "physics"},
    "live": BASE,
    "assessment": BASE,
    "lessons": BELOW_LESSONS,
    "exercises": {*BELOW_LESSONS, "lessons"},
    "classroom": {*BELOW_LESSONS, "lessons", "exercises"},
    "__main__": {"exercises", "classroom"},
    "__init__": set(),
}
# And what it may import from outside, besides the standard library.
NUMPY = {"numpy"}
FROM_OUTSIDE = {
    "units": NUMPY,
    "checks": NUMPY,
    "measures": set(),
    "numerics": NUMPY,
    "physics": NUMPY,
    "aircraft": {"numpy", "pydantic"},
    "live": {"numpy", "matplotlib", "PIL", "anywidget", "traitlets", "jupyter_core", "jupyter_server"},
    "assessment": set(),
    "lessons": {"numpy", "matplotlib", "lazy_loader"},
    "exercises": {"anywidget", "ipywidgets", "IPython", "lazy_loader", "nbformat", "traitlets"},
    "classroom": {
        *("numpy", "matplotlib", "pydantic", "jinja2", "mistune", "nbformat", "filelock"),
        *("anywidget", "ipywidgets", "IPython", "traitlets"),
    },
    "__main__": set(),
    "__init__": set(),
}


def imports(source):
    """Dotted names that a module imports, wherever it does: `from a import b` gives a.b, since b may be a module.

    A relative import begins with its dots, and so runs back whatever it names: the package writes them out.
    """
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            start = "." * node.level + (node.module or "")
            yield from (f"{start}.{alias.name}" for alias in node.names)
        elif isinstance(node, ast.Call) and ast.unparse(node.func).endswith("import_module"):
            yield from (arg.value for arg in node.args[:1] if isinstance(arg, ast.Constant))


def back(room, source):
    """The imports of a module that its room may not make, each as it is written."""
    found = []
    for name in imports(source):
        top, _, rest = name.partition(".")
        inside = rest.split(".")[0]
        if top != "walkaround":
            if top not in STANDARD and top not in FROM_OUTSIDE[room]:
                found.append(name)
        elif inside and inside not in ("__version__", room) and inside not in MAY[room]:
            found.append(name)
    return found


def modules():
    for path in sorted(PACKAGE.rglob("*.py")):
        parts = path.relative_to(PACKAGE).parts
        yield pytest.param(path, parts[0].removesuffix(".py"), id="/".join(parts))


@pytest.mark.parametrize(("path", "room"), list(modules()))
def test_arrows_run_one_way(path, room):
    assert back(room, path.read_text(encoding="utf-8")) == []


LESSONS = PACKAGE / "lessons"
ROUND = "round"  # goes to every stop: it may use what their lessons have, and the table; none of them may use it


def files_of(folder):
    return [pytest.param(p, id=p.relative_to(folder).as_posix()) for p in sorted(folder.rglob("*.py"))]


@pytest.mark.parametrize("path", files_of(LESSONS))
def test_a_lesson_knows_no_other_lesson(path):
    for name in imports(path.read_text(encoding="utf-8")):
        own = path.relative_to(LESSONS).parts[0]
        if name.startswith("walkaround.lessons.") and path.parent != LESSONS and own != ROUND:
            assert name.split(".")[2] == own, name


@pytest.mark.parametrize("lesson", [p.parent for p in LESSONS.glob("*/__init__.py")], ids=lambda p: p.name)
def test_questions_need_no_pictures(lesson):
    files = {*lesson.glob("questions.py"), *lesson.glob("questions/*.py"), *lesson.glob("own_aircraft/*.py")}
    assert files
    for path in files:
        for name in imports(path.read_text(encoding="utf-8")):
            assert not name.startswith(("matplotlib", "ipywidgets", "IPython", "PIL", "walkaround.live")), name


@pytest.mark.parametrize(
    ("room", "source"),
    [
        ("physics", "from walkaround.lessons import table"),
        ("physics", "import matplotlib.pyplot"),
        ("physics", "def f():\n    from walkaround import aircraft\n"),
        ("assessment", "def late():\n    import walkaround.lessons.loading.questions\n"),
        ("live", "from walkaround.lessons.loading import demos"),
        ("live", "from walkaround.physics import loading"),
        ("lessons", "from walkaround.exercises import form"),
        ("exercises", "class A:\n    def b(self):\n        from walkaround.classroom import course\n"),
        ("numerics", "from walkaround.physics.air import atmosphere"),
        ("aircraft", "import ipywidgets"),
        ("physics", "from ...lessons import table"),
        ("assessment", "import importlib\nimportlib.import_module('walkaround.lessons.loading')"),
    ],
)
def test_an_arrow_back_is_seen(room, source):
    assert len(back(room, source)) == 1
