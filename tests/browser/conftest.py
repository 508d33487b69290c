"""Browser tests: skipped with a reason where there is no Chromium, failing in CI."""

import os
from pathlib import Path

import pytest
from lab_in_chromium import FLAGS, Lab, chromium, open_in_its_place, run_all_cells, wait_for_kernel

SCREEN = {"width": 1366, "height": 768}


def pytest_collection_modifyitems(items):
    for item in items:
        if Path(__file__).parent in Path(item.path).parents:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def browser():
    program = chromium()
    if program is None:
        reason = "no Chromium found: install it, or set WALKAROUND_CHROMIUM to its path, to run the browser tests"
        if os.environ.get("CI"):
            pytest.fail(f"{reason} (in CI this is an error)")
        pytest.skip(reason)
    sync_api = pytest.importorskip("playwright.sync_api")
    with sync_api.sync_playwright() as play:
        running = play.chromium.launch(executable_path=program, args=FLAGS)
        yield running
        running.close()


@pytest.fixture(scope="session")
def jupyterlab(browser, tmp_path_factory):
    running = Lab(tmp_path_factory.mktemp("lab"))
    yield running
    running.stop()


@pytest.fixture(scope="module")
def lab(jupyterlab):
    """The JupyterLab of all tests. Kernels end with their file: those of thirty files need more memory than many machines have."""
    yield jupyterlab
    jupyterlab.end_kernels()


@pytest.fixture
def page(browser, lab):
    context = browser.new_context(viewport=SCREEN)
    opened = context.new_page()
    opened.set_default_timeout(60_000)
    yield opened
    context.close()


@pytest.fixture(scope="module")
def loaded(browser, lab):
    """A page with JupyterLab, loaded once for all tests of a file."""
    context = browser.new_context(viewport=SCREEN)
    page = context.new_page()
    page.set_default_timeout(60_000)
    page.goto(lab.url("").replace("/tree/", ""))
    page.wait_for_function("window.jupyterapp?.shell.restored")
    yield page
    context.close()


@pytest.fixture
def opened(loaded):
    """Return a function that opens a notebook by path, waits until its cells have run, and gives the page."""

    def open_it(path, run=True):
        loaded.set_viewport_size(SCREEN)
        open_in_its_place(loaded, path)
        if run and not runs_by_itself(path):
            run_all_cells(loaded)
        elif run:
            loaded.wait_for_function(HAS_RUN)
            wait_for_kernel(loaded)
        return loaded

    return open_it


HAS_RUN = """() => [...document.querySelectorAll('.jp-NotebookPanel:not(.lm-mod-hidden) .jp-CodeCell .jp-InputPrompt')].every(
    prompt => /\\d/.test(prompt.innerText)
)"""


def runs_by_itself(path):
    """Whether a page is one of the workbook's own, which need nobody to run them."""
    return path.startswith(("notebooks/", "exercises/", "solutions/"))
