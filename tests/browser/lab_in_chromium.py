"""JupyterLab on this machine with the workbook's pages laid out, and the Chromium that drives it."""

import json
import os
import secrets
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
import warnings
from contextlib import suppress
from pathlib import Path

from walkaround.exercises.own_folder import lay_out

LOOPBACK_ONLY = Path(__file__).parent / "loopback_only"
KERNEL = {"kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"}}
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",  # no other machine has a name
]


def chromium():
    """Path of an installed Chromium, or None; WALKAROUND_CHROMIUM names one that is not on the path."""
    names = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
    return os.environ.get("WALKAROUND_CHROMIUM") or next(filter(None, map(shutil.which, names)), None)


class Lab:
    """A JupyterLab of its own, with the workbook's pages laid out to work in."""

    def __init__(self, folder):
        self.folder = folder
        lay_out(folder)
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = probe.getsockname()[1]
        self.token = secrets.token_hex(16)
        self.log = folder / "lab.log"
        self.reached_out = folder / "reached-out.txt"  # what the server or a kernel asked of another machine, refused
        home = folder / "home"
        home.mkdir()
        own = {
            name: str(home / name)
            for name in ("JUPYTER_CONFIG_DIR", "JUPYTER_DATA_DIR", "JUPYTER_RUNTIME_DIR", "IPYTHONDIR")
        }
        own["JUPYTERLAB_SETTINGS_DIR"] = str(home / "settings")
        # Cells out of sight stay in the page, where a test finds them, and no question about news covers anything.
        for plugin, setting in (
            ("notebook-extension/tracker", '{"windowingMode": "none"}'),
            ("apputils-extension/notification", '{"fetchNews": "false"}'),
        ):
            file = home / "settings" / "@jupyterlab" / f"{plugin}.jupyterlab-settings"
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(setting, encoding="utf-8")
        command = [
            sys.executable,
            "-m",
            "jupyterlab",
            "--no-browser",
            "--allow-root",
            "--ServerApp.ip=127.0.0.1",
            f"--ServerApp.port={self.port}",
            f"--IdentityProvider.token={self.token}",
            f"--ServerApp.root_dir={folder}",
            "--LabApp.expose_app_in_browser=True",
            "--LabApp.news_url=None",
            "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
        ]
        self.process = subprocess.Popen(
            command,
            stdout=self.log.open("w"),
            stderr=subprocess.STDOUT,
            env={
                **os.environ,
                **own,
                "WALKAROUND_UNITS": "",
                "PYTHONPATH": os.pathsep.join(filter(None, (str(LOOPBACK_ONLY), os.environ.get("PYTHONPATH")))),
                "WALKAROUND_REACHED_OUT": str(self.reached_out),
            },
            cwd=folder,
        )
        for _ in range(240):
            try:
                self.asks("status")
                return
            except OSError:
                assert self.process.poll() is None, self.log.read_text()
                time.sleep(0.25)
        raise AssertionError("JupyterLab did not start:\n" + self.log.read_text())

    def url(self, path):
        return f"http://127.0.0.1:{self.port}/lab/tree/{path}?token={self.token}&reset"

    def asks(self, path, method="GET"):
        """What the server's own interface answers."""
        request = urllib.request.Request(f"http://127.0.0.1:{self.port}/api/{path}?token={self.token}", method=method)
        return urllib.request.urlopen(request, timeout=30).read()

    def end_kernels(self):
        """End all kernels; one that is just starting or ending may refuse, and then ends with JupyterLab."""
        for session in json.loads(self.asks("sessions")):
            with suppress(OSError):
                self.asks(f"sessions/{session['id']}", "DELETE")

    def stop(self):
        self.process.terminate()
        try:
            self.process.wait(20)
        except subprocess.TimeoutExpired:
            self.process.kill()


REST = """() => {
    const k = document.querySelector('.jp-NotebookPanel:not(.lm-mod-hidden) .jp-Notebook-ExecutionIndicator');
    const dialog = document.querySelector('.jp-Dialog');
    if (dialog) throw new Error('a dialog is open: ' + dialog.innerText);
    const waiting = [...document.querySelectorAll('.jp-InputPrompt')].some(e => e.innerText.includes('*'));
    const status = document.querySelector('#jp-main-statusbar');
    return k && k.dataset.status === 'idle' && status && status.innerText.includes('| Idle') && !waiting;
}"""
SEEN = """() => JSON.stringify({
    indicators: [...document.querySelectorAll('.jp-Notebook-ExecutionIndicator')].map(e => e.dataset.status),
    status: document.querySelector('#jp-main-statusbar')?.innerText,
    prompts: [...document.querySelectorAll('.jp-InputPrompt')].map(e => e.innerText).join(' '),
    panels: [...document.querySelectorAll('.jp-NotebookPanel')].map(e => e.className),
})"""


def wait_for_kernel(page, seconds=120):
    from playwright.sync_api import TimeoutError as TooLong

    try:
        page.wait_for_function(REST, timeout=seconds * 1000)
    except TooLong:
        raise RestlessKernelError(f"no kernel at rest within {seconds} s: {page.evaluate(SEEN)}") from None


class RestlessKernelError(AssertionError):
    """The page still says that its kernel works, or has none."""


def run_all_cells(page):
    """Run every cell by the menu, as a person would, and wait until the kernel rests."""
    page.click("li.lm-MenuBar-item:has-text('Run')")
    page.click(".lm-Menu-item:has-text('Run All Cells') >> nth=0")
    page.wait_for_timeout(500)
    wait_for_kernel(page)


def open_notebook(page, lab, path):
    """Open a notebook and wait for its kernel; JupyterLab is loaded once more where it misses that the kernel has started."""
    try:
        load_notebook(page, lab, path, 60)
    except RestlessKernelError as stuck:
        warnings.warn(f"{path} was loaded a second time; {stuck}\n{lab.log.read_text()[-1500:]}", stacklevel=2)
        load_notebook(page, lab, path, 120)


def load_notebook(page, lab, path, seconds):
    page.goto(lab.url(path))
    page.wait_for_selector(".jp-NotebookPanel:not(.lm-mod-hidden) .jp-Cell")
    wait_for_kernel(page, seconds)


def open_in_its_place(page, path, same_kernel=False):
    """Open a notebook in a JupyterLab that is loaded, in place of what is open there: much faster than loading it anew.

    In the same kernel as that, a page need not wait for Python to start.
    """
    page.evaluate(
        """async ([path, sameKernel]) => {
            const {commands, shell} = window.jupyterapp;
            const kernel = sameKernel ? {id: shell.currentWidget.sessionContext.session.kernel.id} : undefined;
            for (const widget of [...shell.widgets('main')]) { if (widget.context) widget.context.model.dirty = false; }
            await commands.execute('application:close-all');
            await commands.execute('docmanager:open', {path, kernel});
        }""",
        [path, same_kernel],
    )
    page.wait_for_selector(".jp-NotebookPanel:not(.lm-mod-hidden) .jp-Cell")
    wait_for_kernel(page)
