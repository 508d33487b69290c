"""Browser tests: skipped with a reason where there is no Chromium, failing in CI."""

import os
from pathlib import Path

import pytest
from lab_in_chromium import FLAGS, Lab, chromium, open_notebook, run_all_cells


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
def lab(browser, tmp_path_factory):
    running = Lab(tmp_path_factory.mktemp("lab"))
    yield running
    running.stop()


@pytest.fixture
def page(browser, lab):
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    opened = context.new_page()
    opened.set_default_timeout(60_000)
    yield opened
    context.close()


@pytest.fixture
def opened(lab, page):
    """Return a function that opens a notebook by path, runs all cells unless told not to, and waits for the kernel."""

    def open_it(path, run=True):
        open_notebook(page, lab, path)
        if run:
            run_all_cells(page)
        return page

    return open_it
