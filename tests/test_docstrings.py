"""Every example in a docstring runs, every public function has words, and physics imports no more than it may."""

import ast
import doctest
import importlib
import pkgutil
from pathlib import Path

import pytest
import walkaround

PACKAGE = Path(walkaround.__file__).parent
MODULES = sorted(
    m.name
    for m in pkgutil.walk_packages([str(PACKAGE)], "walkaround.")
    if not m.name.endswith(("__main__", "jupyterhub_config"))
)
PHYSICS = sorted(p.stem for p in PACKAGE.glob("*.py") if p.stem not in ("__init__", "__main__", "lessons"))


@pytest.mark.parametrize("name", MODULES)
def test_examples_run(name):
    assert doctest.testmod(importlib.import_module(name)).failed == 0


def imports(path):
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (a.name for a in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.module
            yield from (f"{node.module}.{a.name}" for a in node.names)


@pytest.mark.parametrize("name", PHYSICS)
def test_physics_imports_numpy_and_physics_alone(name):
    standard = {
        "__future__",
        "collections",
        "csv",
        "dataclasses",
        "functools",
        "io",
        "itertools",
        "math",
        "pathlib",
        "re",
        "typing",
        "enum",
    }
    for module in imports(PACKAGE / f"{name}.py"):
        root, _, rest = module.partition(".")
        assert root in {"numpy", "walkaround", *standard}, module
        if root == "walkaround" and rest:
            assert rest.split(".")[0] in PHYSICS, module


@pytest.mark.parametrize(
    ("folder", "never"),
    [
        (
            "figures",
            (
                "ipywidgets",
                "IPython",
                "walkaround.demos",
                "walkaround.exercises",
                "walkaround.classroom",
                "matplotlib.pyplot",
            ),
        ),
        ("exercises", ("matplotlib", "walkaround.demos", "walkaround.figures", "walkaround.classroom")),
        ("demos", ("walkaround.classroom", "matplotlib.pyplot")),
        ("aircraft", ("ipywidgets", "IPython", "matplotlib", "walkaround.demos")),
    ],
)
def test_arrows_run_one_way(folder, never):
    for path in (PACKAGE / folder).glob("*.py"):
        for module in imports(path):
            assert not module.startswith(never), f"{path.name} imports {module}"
