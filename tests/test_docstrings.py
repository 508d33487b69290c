"""Every example in a docstring runs, and whatever physics and numerics offer has one."""

import doctest
import importlib
import inspect
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
WITH_EXAMPLES = [m for m in MODULES if m.startswith(("walkaround.physics.", "walkaround.numerics."))]


@pytest.mark.parametrize("name", MODULES)
def test_examples_run(name):
    assert doctest.testmod(importlib.import_module(name)).failed == 0


def examples(thing):
    """The source of every example in a docstring, as one text."""
    return "".join(e.source for e in doctest.DocTestParser().get_examples(inspect.getdoc(thing) or ""))


def without_example(module):
    """Names of what a module offers without showing how it is used.

    A function shows it in its own docstring, a class in its own or in that of the function that makes it; a method in
    its own or in an example of its class.
    """
    missing = []
    own = {n: v for n, v in vars(module).items() if getattr(v, "__module__", None) == module.__name__}
    public = {n: v for n, v in own.items() if not n.startswith("_") and (inspect.isfunction(v) or inspect.isclass(v))}
    for name, thing in public.items():
        if not examples(thing):
            missing.append(name)
        if inspect.isclass(thing):
            methods = [n for n, v in vars(thing).items() if inspect.isfunction(v) and not n.startswith("_")]
            missing += [f"{name}.{n}" for n in methods if f".{n}(" not in examples(thing) + examples(vars(thing)[n])]
    return missing


@pytest.mark.parametrize("name", WITH_EXAMPLES)
def test_everything_offered_has_an_example(name):
    assert without_example(importlib.import_module(name)) == []


def test_what_has_no_example_is_found():
    class Shown:
        """Has one.

        >>> Shown().used()
        """

        def used(self):
            """Stands in the example of its class."""

        def unused(self):
            """Stands in none."""

    def bare():
        """Has none."""

    for thing in (Shown, bare):
        thing.__module__ = "made_up"
    module = type(inspect)("made_up")
    module.Shown, module.bare, module._private = Shown, bare, bare
    assert without_example(module) == ["Shown.unused", "bare"]
