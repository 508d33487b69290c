"""Mutation testing makes each change by itself, and only changes that run."""

import importlib.util
from pathlib import Path

import pytest

_spec = importlib.util.spec_from_file_location("mutation", Path(__file__).with_name("mutation.py"))
mutation = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(mutation)


@pytest.mark.parametrize(
    ("source", "changed"),
    [
        ("a < b", ["a <= b"]),
        ("a - b * c", ["a + b * c", "a - b / c"]),
        ("-a", ["a"]),
        ("f(a, low=0)", ["f(a)", "f(a, low=1)", "pass"]),
        ("np.minimum(a, 2.5)[0]", ["np.maximum(a, 2.5)[0]", "np.minimum(a, 2.5)[1]", "np.minimum(a, 3.5)[0]"]),
        ("if a:\n    b = True", ["if a:\n    b = False", "if not a:\n    b = True"]),
        ("raise ValueError(f'{a + 1}')", []),
        ("def f():\n    return None", []),
        ("def f(a: int = 3) -> 'b':\n    'Says it.'\n    return a", ["return None"]),
    ],
)
def test_changes_one_thing(source, changed):
    made = [mutation.mutant(source, *place)[-1] for place in mutation.places(source)]
    assert len(set(made)) == len(made)
    assert all(compile(text, "changed", "exec") for text in made)
    for wanted in changed:
        assert any(wanted in text for text in made), wanted
    assert bool(made) == bool(changed)


def test_the_modules_and_tests_that_it_names_are_there():
    for files, tests in mutation.MODULES.values():
        assert all((mutation.TOP / "lib/walkaround" / file).is_file() for file in files)
        assert all((mutation.TOP / test).exists() for test in tests)
