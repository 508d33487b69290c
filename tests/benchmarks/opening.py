"""How long until a lesson shows its first live picture, and how much memory all demonstrations take.

    python tests/benchmarks/opening.py [times]

Opens an empty notebook and then each lesson in JupyterLab, and prints the seconds from the address to an idle kernel
(JupyterLab's own start), to the first picture on a stage, and until that follows its controls. Then one kernel opens
every demonstration, and its memory is printed. Linux only: the memory is read from /proc.
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


def opened(browser, lab, path, *ready):
    """Seconds from the address until a page is ready, in each of some senses."""
    page = browser.new_context(viewport={"width": 1366, "height": 768}).new_page()
    began = time.perf_counter()
    page.goto(lab.url(path))
    took = []
    for each in ready:
        each(page)
        took.append(time.perf_counter() - began)
    wait_for_kernel(page)
    page.context.close()
    return took


def picture(page):
    """Wait until a stage shows its picture."""
    page.wait_for_selector(".wa-stage:is([data-begun], [data-frames]) canvas", timeout=60_000)


def live(page):
    """Wait until it follows the controls, which is when the kernel has run the page."""
    page.wait_for_selector(".wa-stage[data-frames] canvas", timeout=60_000)


def main(times=3):
    from playwright.sync_api import sync_playwright

    lab = Lab(Path(tempfile.mkdtemp()))
    try:
        with sync_playwright() as play:
            browser = play.chromium.launch(executable_path=chromium(), args=FLAGS)
            nbformat.write(new_notebook(cells=[new_code_cell("")], metadata=KERNEL), lab.folder / "empty.ipynb")
            opened(browser, lab, "empty.ipynb", wait_for_kernel)  # the first one warms the server
            base = statistics.median(opened(browser, lab, "empty.ipynb", wait_for_kernel)[0] for _ in range(times))
            print(f"JupyterLab's own start {base:.1f} s")
            for lesson in LESSONS:
                took = [opened(browser, lab, f"notebooks/{lesson.file}", picture, live) for _ in range(times)]
                first, follows = (statistics.median(each) - base for each in zip(*took, strict=True))
                print(
                    f"{lesson.name:16s} first picture {first:.1f} s beyond it (aim: 3 or less), follows the controls {follows:.1f} s",
                    flush=True,
                )
            browser.close()
    finally:
        lab.stop()
    lines = subprocess.run([sys.executable, "-c", ALL], capture_output=True, text=True, check=True).stdout.split()
    print(f"all demonstrations in one process: {int(lines[-1]) / 1024:.0f} MB (aim: under 300 in a kernel)")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 3)
