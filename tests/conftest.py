"""Which examples Hypothesis takes: in CI the same in every run, so that a red run can be repeated; elsewhere new ones.

With `--hypothesis-seed=N` the examples follow from N, in CI too: that is how CI takes new ones, and how to repeat them.
"""

import os

from hypothesis import settings

settings.register_profile("new examples", deadline=None, derandomize=False)
settings.register_profile("the same examples", deadline=None, derandomize=True)


def pytest_configure(config):
    seeded = config.getoption("hypothesis_seed", None) is not None
    settings.load_profile("the same examples" if os.environ.get("CI") and not seeded else "new examples")
