"""Pages of HTML made into PDF: by Chromium where it is installed, else by WeasyPrint; nothing reaches the network."""

import importlib.util
import os
import re
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import NamedTuple

from walkaround.assessment.files import write_whole

VARIABLE = "WALKAROUND_CHROMIUM"  # names a Chromium that is not on the path; "none" for none
NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "msedge")
ELSEWHERE = (
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    r"C:\Program Files\Google\Chrome\Application\chrome.exe",
    r"C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe",
)
FLAGS = (
    *("--headless", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"),
    *("--disable-component-update", "--disable-sync", "--host-resolver-rules=MAP * ~NOTFOUND"),
)
PATIENCE_S = 300  # for one document
NEITHER = (
    "No Chromium and no WeasyPrint was found, so these are HTML pages: open each in a browser and print it there. "
    'For PDF, install Chromium or Chrome, or type: pip install "walkaround[print]"'
)


class Document(NamedTuple):
    """A page of HTML, as bytes, and the file without its ending that it is to be printed to.

    A private one can be read by its owner only.
    """

    path: Path
    html: bytes
    private: bool = False


def chromium():
    """Path of an installed Chromium, Chrome or Edge; None without one."""
    named = os.environ.get(VARIABLE)
    if named:
        return None if named == "none" else named
    return next(filter(None, map(shutil.which, (*NAMES, *ELSEWHERE))), None)


def _command(tagged=False):
    """What prints a page, called with paths of HTML, PDF and a folder for its own use; None if nothing does."""
    if browser := chromium():
        # Chromium won't run as root inside its sandbox; it opens nothing here but pages of our own.
        root = ("--no-sandbox",) * (hasattr(os, "geteuid") and os.geteuid() == 0)
        return lambda html, pdf, own: [
            *(browser, *FLAGS, *root, f"--user-data-dir={own}", "--no-pdf-header-footer"),
            *(f"--print-to-pdf={pdf}", html.resolve().as_uri(), *("--disable-pdf-tagging",) * (not tagged)),
        ]
    if importlib.util.find_spec("weasyprint"):
        return lambda html, pdf, own: [sys.executable, "-P", "-m", "weasyprint", "--quiet", str(html), str(pdf)]
    return None


def can_print():
    """Whether this computer has something that makes PDF.

    >>> can_print() in (True, False)
    True
    """
    return _command() is not None


def write(documents, progress=lambda done, total: None, tagged=False):
    """Print documents to PDF, several at a time; returns the paths written.

    Where nothing on this computer makes PDF, the HTML itself is written. Tagged PDFs can be read aloud by a screen
    reader, and are three times as large.
    Raises ValueError when a document could not be printed, OSError when a file can't be written.
    """
    documents, command = list(documents), _command(tagged)
    for folder in {d.path.parent for d in documents}:
        folder.mkdir(parents=True, exist_ok=True)

    def one(document):
        path = document.path.with_name(f"{document.path.name}.{'pdf' if command else 'html'}")
        write_whole(path, _printed(command, document.html, path) if command else document.html, document.private)
        return path

    written = []
    with ThreadPoolExecutor(min(os.cpu_count() or 1, 8)) as pool:
        for path in pool.map(one, documents):
            written.append(path)
            progress(len(written), len(documents))
    return written


def _printed(command, html, path):
    # Beside the file that it makes: a packaged Chromium may look into no other folder.
    with tempfile.TemporaryDirectory(prefix="printing-", dir=path.parent, ignore_cleanup_errors=True) as folder:
        page, pdf = Path(folder) / "page.html", Path(folder) / "page.pdf"
        page.write_bytes(html)
        said = b""
        try:
            run = subprocess.run(
                command(page, pdf, Path(folder) / "own"), capture_output=True, timeout=PATIENCE_S, check=False
            )
            said = run.stderr
        except subprocess.TimeoutExpired:
            said = f"not done after {PATIENCE_S} s".encode()
        except OSError as error:
            said = str(error).encode()
        if not pdf.exists() or not pdf.stat().st_size:
            why = " ".join(said.decode("utf-8", "replace").split())[-300:]
            raise ValueError(
                f"{path.name} could not be printed: {why or 'nothing was written'}. Set {VARIABLE} to none "
                "in the environment to get HTML pages, which any browser prints"
            )
        # Chromium dates its files; the same pages shall make the same bytes.
        return re.sub(rb"/(Creation|Mod)Date \(D:\d{14}", rb"/\1Date (D:19800101000000", pdf.read_bytes())
