"""Which examples Hypothesis takes, and which tests run side by side.

In CI the examples are the same in every run, so that a red run can be repeated; elsewhere they are new ones. With
`--hypothesis-seed=N` they follow from N, in CI too: that is how CI takes new ones, and how to repeat them.

Each processor has a worker of its own. `pytest -n 0` runs all tests in one process, for a debugger.
"""

import os
import sys

import pytest
from hypothesis import settings
from xdist.scheduler import LoadScopeScheduling

settings.register_profile("new examples", deadline=None, derandomize=False)
settings.register_profile("the same examples", deadline=None, derandomize=True)


# What whoever runs the tests has chosen on their own pages must not change what is compared.
os.environ["WALKAROUND_UNITS"] = "none"


def pytest_configure(config):
    seeded = config.getoption("hypothesis_seed", None) is not None
    settings.load_profile("the same examples" if os.environ.get("CI") and not seeded else "new examples")


@pytest.fixture
def own_choice_of_units(tmp_path, monkeypatch):
    """A folder of the test's own for the choice of units, with nothing chosen and nothing open."""
    from walkaround.live import units_choice

    monkeypatch.setenv("JUPYTER_CONFIG_DIR", str(tmp_path / "config"))
    monkeypatch.delenv(units_choice.VARIABLE)
    units_choice._open.clear()
    yield
    units_choice._unsaved.clear()


class ByFile(LoadScopeScheduling):
    """A worker takes whole files, since the tests of a file share what is slow to make."""

    def _split_scope(self, nodeid):
        return nodeid.split("::")[0]


def pytest_xdist_make_scheduler(config, log):
    return ByFile(config, log)


def pytest_sessionfinish():
    """Save the coverage that CI measures: a worker that is slow to end is killed, and Python then saves nothing."""
    if "coverage" in sys.modules and (measured := sys.modules["coverage"].Coverage.current()):
        measured.save()
