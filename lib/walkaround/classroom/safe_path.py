"""Processes that are started to help find no module in the current folder, where collected files may lie."""

import os
import sys
from contextlib import contextmanager


@contextmanager
def safe_path():
    """Keep the current folder off the import path of processes started while the block runs.

    A new interpreter puts it first unless the environment says otherwise, and then takes this one's path.
    """
    path, environment = sys.path[:], os.environ.get("PYTHONSAFEPATH")
    sys.path[:], os.environ["PYTHONSAFEPATH"] = filter(None, path), "1"
    try:
        yield
    finally:
        sys.path[:] = path
        if environment is None:
            del os.environ["PYTHONSAFEPATH"]
        else:
            os.environ["PYTHONSAFEPATH"] = environment
