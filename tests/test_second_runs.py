"""What lets CI run tests a second time: vector instructions turned off, and new examples for properties."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[1]
PROPERTY = """
from hypothesis import given, strategies as st

@given(st.integers(0, 10**12))
def test_shows_its_examples(n):
    print(n)
"""


def output(*command, **environment):
    done = subprocess.run(
        [sys.executable, *map(str, command)],
        cwd=TOP,
        env={**os.environ, **environment},
        capture_output=True,
        check=True,
        text=True,
    )
    return done.stdout


@pytest.mark.skipif(not (TOP / ".ci").exists(), reason="no scripts of CI beside the tests")
def test_every_vector_instruction_that_numpy_found_can_be_turned_off():
    found = output(TOP / ".ci/vectors.py", NPY_DISABLE_CPU_FEATURES="").strip()
    assert output(TOP / ".ci/vectors.py", NPY_DISABLE_CPU_FEATURES=found).strip() == ""


@pytest.fixture
def examples(tmp_path):
    """Return a function that runs a property in a folder of its own and returns the examples that it met."""
    (tmp_path / "conftest.py").write_text((TOP / "tests/conftest.py").read_text(encoding="utf-8"), encoding="utf-8")
    (tmp_path / "test_property.py").write_text(PROPERTY, encoding="utf-8")

    def run(*options, ci):
        own = ["--rootdir", tmp_path, "-c", os.devnull, "-p", "no:cacheprovider", "-q", "-s", "-p", "no:nbval"]
        return output("-m", "pytest", *own, *options, tmp_path, CI=ci)

    return run


def numbers(printed):
    return [line for line in printed.splitlines() if line.isdigit()]


def test_ci_repeats_its_examples_and_a_seed_brings_new_ones_that_can_be_repeated(examples):
    once, again = numbers(examples(ci="true")), numbers(examples(ci="true"))
    assert len(once) > 50
    assert once == again
    seeded, repeated = (numbers(examples("--hypothesis-seed=7", ci="true")) for _ in range(2))
    assert seeded == repeated
    assert seeded != once


def test_elsewhere_each_run_has_new_examples(examples):
    assert numbers(examples(ci="")) != numbers(examples(ci=""))
