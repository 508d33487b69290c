"""Sheets that were collected before: each is kept with the results, so a mark outlasts the folder that it came from.

A sheet's file is named by the SHA-256 of its content, which also tells whether it is whole.
"""

import os

from walkaround.assessment.answer_sheet import ENDING
from walkaround.assessment.files import private_folder

FOLDER = "sheets"
NOTE = " (collected before)"  # behind the place of a sheet that is no longer in the folders


def read(course, places):
    """Return (place, path) of every sheet kept, by its digest; `places` has by digest where they were found."""
    found = {}
    for path in sorted((course.results / FOLDER).glob(f"*{ENDING}")):
        digest = path.name.removesuffix(ENDING)
        found[digest] = (places.get(digest, path.name).removesuffix(NOTE) + NOTE, path)
    return found


def keeper(course):
    """Return what keeps a sheet, called with its digest and bytes."""
    folder = private_folder(course.results / FOLDER)

    def keep(digest, data):
        path = folder / f"{digest}{ENDING}"
        if not path.exists() or path.stat().st_size != len(data):  # written half when a marking was stopped
            handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC | getattr(os, "O_BINARY", 0), 0o600)
            try:
                with os.fdopen(handle, "wb") as file:
                    file.write(data)
            except OSError as error:
                error.filename = str(path)
                raise

    return keep


def forget(course, digests):
    """Remove every sheet kept but those with these digests."""
    for path in (course.results / FOLDER).glob(f"*{ENDING}"):
        if path.name.removesuffix(ENDING) not in digests:
            path.unlink()
