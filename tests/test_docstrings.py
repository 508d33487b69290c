"""Every example in a docstring runs."""

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


@pytest.mark.parametrize("name", MODULES)
def test_examples_run(name):
    assert doctest.testmod(importlib.import_module(name)).failed == 0
