"""Puts the workbook's pages into the wheel, for `walkaround open`; an editable install takes them from the checkout."""

from pathlib import Path

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class PagesInWheel(BuildHookInterface):
    """Adds the pages to the package, one by one: answers and drafts that lie beside them stay where they are."""

    def initialize(self, version, build_data):
        """Name each page's file and its place in the wheel."""
        if version == "editable":
            return
        for folder in ("notebooks", "exercises", "solutions"):
            for page in Path(self.root, folder).glob("[0-9][0-9]-*.*"):
                if page.suffix in (".ipynb", ".csv"):
                    build_data["force_include"][str(page)] = f"walkaround/pages/{folder}/{page.name}"
