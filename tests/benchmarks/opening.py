"""How long until a lesson shows its first live picture, and how much memory all demonstrations take.

    python tests/benchmarks/opening.py [times]

Opens an empty notebook and then each lesson in JupyterLab, and prints the seconds from the address to an idle kernel
(JupyterLab's own start) and to the first live picture. Then one kernel opens every demonstration, and its memory is
printed. Linux only: the memory is read from /proc.
"""

import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import nbformat
from nbformat.v4 import new_code_cell, new_notebook
from walkaround.lessons.table import LESSONS

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "browser"))
from lab_in_chromium import FLAGS, KERNEL, Lab, chromium, wait_for_kernel

ALL = "\n".join(
    ["import IPython.display"]
    + [f"from walkaround.lessons import {lesson.name}" for lesson in LESSONS]
    + [f"IPython.display.display({x.name}.{function}())" for x in LESSONS for function, _ in x.demonstrations]
    + ["print([line for line in open('/proc/self/status') if line.startswith('VmRSS')][0].split()[1])"]
)


def opened(browser, lab, path, ready):
    """Seconds from the address to a page that is ready."""
    page = browser.new_context(viewport={"width": 1366, "height": 768}).new_page()
    began = time.perf_counter()
    page.goto(lab.url(path))
    ready(page)
    took = time.perf_counter() - began
    wait_for_kernel(page)
    page.context.close()
    return took


def picture(page):
    """Wait for the first live picture."""
    page.wait_for_selector(".wa-stage[data-frames] canvas", timeout=60_000)


def main(times=3):
    from playwright.sync_api import sync_playwright

    lab = Lab(Path(tempfile.mkdtemp()))
    try:
        with sync_playwright() as play:
            browser = play.chromium.launch(executable_path=chromium(), args=FLAGS)
            nbformat.write(new_notebook(cells=[new_code_cell("")], metadata=KERNEL), lab.folder / "empty.ipynb")
            opened(browser, lab, "empty.ipynb", wait_for_kernel)  # the first one warms the server
            base = statistics.median(opened(browser, lab, "empty.ipynb", wait_for_kernel) for _ in range(times))
            print(f"JupyterLab's own start {base:.1f} s")
            for lesson in LESSONS:
                took = statistics.median(
                    opened(browser, lab, f"notebooks/{lesson.file}", picture) for _ in range(times)
                )
                print(f"{lesson.name:16s} first picture {took - base:.1f} s beyond it (aim: 3 or less)", flush=True)
            browser.close()
    finally:
        lab.stop()
    lines = subprocess.run([sys.executable, "-c", ALL], capture_output=True, text=True, check=True).stdout.split()
    print(f"all demonstrations in one process: {int(lines[-1]) / 1024:.0f} MB (aim: under 300 in a kernel)")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 3)
