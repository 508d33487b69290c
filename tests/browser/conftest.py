"""JupyterLab on this machine, driven in Chromium: skipped with a reason where there is no Chromium, failing in CI."""

import os
import secrets
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[2]
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip


def pytest_collection_modifyitems(items):
    for item in items:
        if Path(__file__).parent in Path(item.path).parents:
            item.add_marker(pytest.mark.browser)


def chromium():
    """Path of an installed Chromium, or None; WALKAROUND_CHROMIUM names one that is not on the path."""
    names = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
    return os.environ.get("WALKAROUND_CHROMIUM") or next(filter(None, map(shutil.which, names)), None)


@pytest.fixture(scope="session")
def browser():
    program = chromium()
    if program is None:
        reason = (
            "no Chromium found: install it, or set WALKAROUND_CHROMIUM to its path, to run the browser tests"
        )
        if os.environ.get("CI"):
            pytest.fail(f"{reason} (in CI this is an error)")
        pytest.skip(reason)
    sync_api = pytest.importorskip("playwright.sync_api")
    with sync_api.sync_playwright() as play:
        running = play.chromium.launch(executable_path=program, args=FLAGS)
        yield running
        running.close()


class Lab:
    """A JupyterLab of its own, with a copy of the workbook's folders to work in."""

    def __init__(self, folder):
        self.folder = folder
        for name in ("notebooks", "exercises", "solutions"):
            shutil.copytree(
                TOP / name,
                folder / name,
                ignore=shutil.ignore_patterns("*.answers*.json", ".ipynb_checkpoints"),
            )
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = probe.getsockname()[1]
        self.token = secrets.token_hex(16)
        self.log = folder / "lab.log"
        home = folder / "home"
        home.mkdir()
        own = {
            name: str(home / name)
            for name in ("JUPYTER_CONFIG_DIR", "JUPYTER_DATA_DIR", "JUPYTER_RUNTIME_DIR", "IPYTHONDIR")
        }
        command = [
            sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root", "--ServerApp.ip=127.0.0.1",
            f"--ServerApp.port={self.port}", f"--IdentityProvider.token={self.token}", f"--ServerApp.root_dir={folder}",
            "--LabApp.news_url=None", "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
        ]  # fmt: skip
        self.process = subprocess.Popen(
            command,
            stdout=self.log.open("w"),
            stderr=subprocess.STDOUT,
            env={**os.environ, **own},
            cwd=folder,
        )
        for _ in range(240):
            try:
                urllib.request.urlopen(
                    f"http://127.0.0.1:{self.port}/api?token={self.token}", timeout=2
                ).read()
                return
            except OSError:
                assert self.process.poll() is None, self.log.read_text()
                time.sleep(0.25)
        raise AssertionError("JupyterLab did not start:\n" + self.log.read_text())

    def url(self, path):
        return f"http://127.0.0.1:{self.port}/lab/tree/{path}?token={self.token}&reset"

    def stop(self):
        self.process.terminate()
        try:
            self.process.wait(20)
        except subprocess.TimeoutExpired:
            self.process.kill()


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
def open_notebook(lab, page):
    """Return a function that opens a notebook by path, runs all cells if told so, and waits until the kernel rests."""

    def open_it(path, run=True):
        page.goto(lab.url(path))
        page.wait_for_selector(".jp-NotebookPanel:not(.lm-mod-hidden) .jp-Cell")
        wait_for_kernel(page)
        if run:
            page.click("li.lm-MenuBar-item:has-text('Run')")
            page.click(".lm-Menu-item:has-text('Run All Cells') >> nth=0")
            page.wait_for_timeout(500)
            wait_for_kernel(page)
        return page

    return open_it


def wait_for_kernel(page):
    page.wait_for_function(
        """() => {
            const k = document.querySelector('.jp-NotebookPanel:not(.lm-mod-hidden) .jp-Notebook-ExecutionIndicator');
            const dialog = document.querySelector('.jp-Dialog');
            if (dialog) throw new Error('a dialog is open: ' + dialog.innerText);
            const waiting = [...document.querySelectorAll('.jp-InputPrompt')].some(e => e.innerText.includes('*'));
            const status = document.querySelector('#jp-main-statusbar');
            return k && k.dataset.status === 'idle' && status && status.innerText.includes('| Idle') && !waiting;
        }""",
        timeout=120_000,
    )
