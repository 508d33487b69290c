"""Every page in JupyterLab without a network: no request leaves this machine, nothing is missing, and axe-core finds nothing.

The pages are opened in one JupyterLab one after another, those of a folder in one kernel. Chromium is refused every
request that is not to this machine, and so are the server and its kernels: see loopback_only/sitecustomize.py.
"""

import os
import re
import subprocess
import sys

import nbformat
import pytest
from axe_rules import violations
from lab_in_chromium import LOOPBACK_ONLY, open_in_its_place, open_notebook, wait_for_kernel
from walkaround.exercises.own_folder import source

PAGES = [
    f"{folder}/{p.name}"
    for folder in ("notebooks", "exercises")
    for p in sorted((source() / folder).glob("[0-9][0-9]-*.ipynb"))
]
HERE = ".jp-NotebookPanel:not(.lm-mod-hidden)"
OUTPUT = f"{HERE} .jp-OutputArea-output"
RUN = f"""() => {{
    const prompts = [...document.querySelectorAll('{HERE} .jp-CodeCell .jp-InputPrompt')];
    return prompts.every(prompt => /^\\[\\d+\\]/.test(prompt.innerText))
        && [...document.querySelectorAll('{HERE} .wa-stage')].every(stage => stage.dataset.frames);
}}"""
# What stands on a page by the call in its cell, and what JupyterLab says of itself when pages follow each other quickly.
SHOWN_BY = {
    "quick": ".wa-answer", "exercise": ".wa-who", "mixed_practice": ".wa-who", "round_map": ".wa-map .wa-stop",
    "desk": "button:has-text('Mark')",
}  # fmt: skip
ITS_OWN = re.compile(r"Could not restore the debugger state|ResizeObserver loop")


class Watched:
    """What a page, the server and its kernels ask for and a page is told, noted from now on."""

    def __init__(self, context, lab):
        self.left, self.missing, self.faults, self.folder = [], [], [], ""
        self.reached_out = lab.reached_out
        own = (f"http://127.0.0.1:{lab.port}/", f"ws://127.0.0.1:{lab.port}/", "data:", "blob:")
        context.route(lambda url: not url.startswith(own), lambda route: route.abort())
        self.page = page = context.new_page()
        page.set_default_timeout(60_000)
        page.on("request", lambda asked: asked.url.startswith(own) or self.left.append(asked.url))
        page.on("websocket", lambda opened: opened.url.startswith(own) or self.left.append(opened.url))
        page.on("response", lambda got: got.status < 400 or self.missing.append(f"{got.status} {got.url}"))
        page.on("requestfailed", lambda asked: self.missing.append(f"{asked.failure} {asked.url}"))
        page.on("pageerror", lambda error: self.faults.append(str(error)))
        page.on(
            "console", lambda said: said.type != "error" or ITS_OWN.search(said.text) or self.faults.append(said.text)
        )

    def taken(self):
        """Return what was noted since this was last asked."""
        asked = self.reached_out.read_text(encoding="utf-8").splitlines() if self.reached_out.exists() else []
        self.reached_out.unlink(missing_ok=True)
        found = {"left": self.left + asked, "missing": [*self.missing], "faults": [*self.faults]}
        for noted in (self.left, self.missing, self.faults):
            noted.clear()
        return found


@pytest.fixture(scope="module")
def watched(browser, lab):
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    noted = Watched(context, lab)
    open_notebook(noted.page, lab, PAGES[0])
    yield noted
    context.close()


@pytest.fixture(scope="module", params=PAGES)
def path(request, watched):
    """A page of the workbook, opened, that has run by itself to its end."""
    folder, _, _ = request.param.partition("/")
    open_in_its_place(watched.page, request.param, same_kernel=folder == watched.folder)
    watched.folder = folder
    watched.page.wait_for_function(RUN)
    wait_for_kernel(watched.page)
    return request.param


def test_no_request_leaves_and_nothing_is_missing(watched, lab, path):
    cells = [cell for cell in nbformat.read(lab.folder / path, 4).cells if cell.cell_type == "code"]
    kinds = [output.get("data", {}) for cell in cells for output in cell.outputs]
    # What JupyterLab shows as a picture: it prefers a table as HTML.
    pictures = sum("image/png" in kind and "text/html" not in kind for kind in kinds)
    here = watched.page.locator(HERE)
    assert here.locator(".wa-stage[data-frames], .jp-RenderedImage img").count() == pictures
    for call, selector in SHOWN_BY.items():
        calls = sum(cell.source.startswith(f"{call}(") for cell in cells)
        assert here.locator(selector).count() >= calls, selector
    faults = here.locator("[data-mime-type$='stderr'], [data-mime-type$='error']")
    assert faults.all_inner_texts() == []
    assert watched.taken() == {"left": [], "missing": [], "faults": []}


def test_axe_finds_nothing(watched, path):
    if watched.page.locator(OUTPUT).count():
        assert violations(watched.page, OUTPUT) == []


def test_what_would_leave_is_refused_and_seen(watched, tmp_path):
    watched.page.evaluate("fetch('http://192.0.2.1/news').catch(() => 0)")
    watched.page.evaluate("fetch('/files/no-such-picture.png')")
    found = watched.taken()
    assert found["left"] == ["http://192.0.2.1/news"]
    not_found, refused = sorted(found["missing"])
    assert not_found.startswith("404")
    assert refused == "net::ERR_FAILED http://192.0.2.1/news"
    for asked, event in (
        ("socket.socket().connect(('192.0.2.1', 80))", "socket.connect 192.0.2.1"),
        ("socket.create_connection(('example.org', 80))", "socket.getaddrinfo example.org"),
    ):
        log = tmp_path / event
        own = {"PYTHONPATH": str(LOOPBACK_ONLY), "WALKAROUND_REACHED_OUT": str(log)}
        command = [sys.executable, "-c", f"import socket; {asked}"]
        done = subprocess.run(command, env=os.environ | own, capture_output=True, text=True)
        assert "is not this machine" in done.stderr
        assert log.read_text() == f"{event} by -c\n"
