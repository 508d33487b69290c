"""Hypothesis: the same examples in every CI run, so that a red run can be repeated; new ones on a contributor's machine."""

import os

from hypothesis import settings

settings.register_profile("here", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "here")
