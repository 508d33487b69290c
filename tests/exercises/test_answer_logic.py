"""The answer box's logic that needs no screen, tested by node's own test runner."""

import shutil
import subprocess
from pathlib import Path

import pytest

NODE = shutil.which("node")


@pytest.mark.skipif(NODE is None, reason="node is not installed")
def test_the_logic_of_the_answer_box():
    done = subprocess.run(
        [NODE, "--test", str(Path(__file__).parent / "answer_logic.test.mjs")],
        capture_output=True,
        text=True,
        timeout=120,
    )
    assert done.returncode == 0, done.stdout + done.stderr
