"""What the screen sides decide without a screen, tested by node's own test runner."""

import shutil
import subprocess
from pathlib import Path

import pytest

NODE = shutil.which("node")


@pytest.mark.skipif(NODE is None, reason="node is not installed")
@pytest.mark.parametrize("file", ["answer_logic", "server_place"])
def test_the_logic_of_a_screen_side(file):
    done = subprocess.run(
        [NODE, "--test", str(Path(__file__).parent / f"{file}.test.mjs")], capture_output=True, text=True, timeout=120
    )
    assert done.returncode == 0, done.stdout + done.stderr
