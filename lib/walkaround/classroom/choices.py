"""Which of several sheets that contradict each other counts, as the instructor chose: a table in the course folder.

It is needed where one folder is handed out for all: sheets can't be signed there, so anyone could have made them.
"""

import re
from fnmatch import fnmatchcase

from walkaround.assessment.files import write_whole
from walkaround.classroom import tables
from walkaround.classroom.gradebook import FILES
from walkaround.classroom.lock import locked
from walkaround.classroom.mark_collected import MARKED, SUPERSEDED, TO_CHOOSE
from walkaround.classroom.texts import shown

FILE = "choices.csv"
COLUMNS = ("id", "exercise", "sha256")


def read(course):
    """Return the digest of the sheet chosen, by (party's id, exercise); what can't be read is passed over."""
    if not (course.folder / FILE).exists():
        return {}
    rows = [{k.casefold(): v for k, v in row.items()} for _, row in _rows(course.folder / FILE)]
    parties = [(course.party(row.get("id", "")), row) for row in rows]
    return {(p.id, row.get("exercise", "")): row.get("sha256", "") for p, row in parties if p}


def choose(course, file):
    """Let a file count, named as the table of files names it, or as a console shows that; returns student and exercise.

    Raises ValueError when no sheet of that name was collected, or several were.
    """
    with locked(course.folder, "choosing a sheet"):
        rows = [row for _, row in _rows(course.results / FILES)]
        sheets = [row for row in rows if row["status"] in (MARKED, SUPERSEDED, TO_CHOOSE)]
        # A console shows ? for a letter that it does not have, which here stands for any letter.
        pattern = re.sub(r"[*\[]", r"[\g<0>]", file)
        found = [r for r in sheets if r["file"] == file] or [r for r in sheets if fnmatchcase(r["file"], pattern)]
        if len(found) == 1:
            row = found[0]
            made = read(course) | {(row["student"], row["exercise"]): row["sha256"]}
            chosen = [(*key, digest) for key, digest in made.items()]
            data = tables.data_of(COLUMNS, chosen, course.file.gradebook_delimiter)
            write_whole(course.folder / FILE, data, private=True)
            return row["student"], row["exercise"]
    if found:
        raise ValueError(f"{shown(file)!r} may be any of {', '.join(shown(r['file']) for r in found[:3])}: name one")
    for row in rows:
        if row["file"] == file:
            raise ValueError(f"{shown(file)!r} can't count: {row['reason'] or row['status']}")
    raise ValueError(f"no answer sheet was collected as {shown(file)!r}; allowed: a name in {FILES}, after marking")


def _rows(path):
    return tables.read(path, bounded=False).rows
