"""What to show in class, at the desk: a line for each thing, with a link that opens it on a page of its own."""

import importlib.util
import os
from pathlib import Path

import anywidget
from traitlets import List, Unicode

from walkaround.assessment.files import write_whole
from walkaround.classroom import projector
from walkaround.exercises import notebooks, server_place
from walkaround.live.screen import sources

FOLDER = "in-class"  # the pages that the links open
_HERE = Path(__file__).parent


class InClassLinks(anywidget.AnyWidget):
    """What to show in class, a line for each `in_class.Showing`, with links to pages that are written into a folder."""

    _esm = server_place.JS + sources("in_class_links.js", folder=_HERE)
    rows: "List[tuple[str, str, str]]" = List().tag(sync=True)  # why, where, the page's file name
    pages = Unicode().tag(sync=True)  # the folder, from where the notebook is
    kernel = Unicode().tag(sync=True)
    route = Unicode().tag(sync=True)

    def __init__(self, folder):
        self._folder = Path(folder, FOLDER)
        # Where Voilà is not installed, JupyterLab itself shows the page.
        route = "voila/render" if importlib.util.find_spec("voila") else "doc/tree"
        super().__init__(kernel=server_place.kernel_id(), route=route)

    def show(self, found):
        """Show a list of `Showing`; raises OSError when their pages can't be written."""
        self.pages = Path(os.path.relpath(self._folder)).as_posix()  # before the rows, whose links need it
        self.rows = [(s.why, s.where, self._page(s) if s.function else "") for s in found]

    def _page(self, s):
        name, book = projector.page(s.lesson, s.function, s.preset)
        self._folder.mkdir(exist_ok=True)
        write_whole(self._folder / name, notebooks.data_of(book))
        return name
