"""Sheets that were collected before: each is kept with the results, so that a mark outlasts the folder that it came from.

A sheet's file is named by the SHA-256 of its content, which also tells whether it is whole.
"""

import os
from hashlib import sha256

from walkaround.assessment.answer_sheet import ENDING
from walkaround.assessment.files import private_folder

FOLDER = "sheets"
NOTE = " (collected before)"  # behind the place of a sheet that is no longer in the folders


def read(course, places):
    """Return (place, bytes) of every sheet kept; `places` has by digest where they were found."""
    found = []
    for path in sorted((course.results / FOLDER).glob(f"*{ENDING}")):
        data, digest = path.read_bytes(), path.name.removesuffix(ENDING)
        if sha256(data).hexdigest() == digest:
            found.append((places.get(digest, path.name).removesuffix(NOTE) + NOTE, data))
        else:
            path.unlink()  # written half when a marking was stopped
    return found


def keeper(course):
    """Return what keeps a sheet, called with its digest and bytes."""
    folder = private_folder(course.results / FOLDER)

    def keep(digest, data):
        path = folder / f"{digest}{ENDING}"
        if not path.exists():
            with os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | getattr(os, "O_BINARY", 0), 0o600), "wb") as file:
                file.write(data)

    return keep


def forget(course, digests):
    """Remove every sheet kept but those with these digests."""
    for path in (course.results / FOLDER).glob(f"*{ENDING}"):
        if path.name.removesuffix(ENDING) not in digests:
            path.unlink()
