"""Collecting: every file below a folder, and in archives and mail there, with its bytes or why it was not read.

No link is followed. What operating systems leave lying about is passed over.
"""

import errno
import os
import stat
from pathlib import Path

from walkaround.classroom import archives
from walkaround.classroom.archives import DAMAGED, NOT_A_SHEET, TOO_LARGE, Found
from walkaround.classroom.texts import shown

__all__ = ["DAMAGED", "NOT_A_SHEET", "TOO_LARGE", "Found", "files_below", "read"]

_REFUSES_LINKS = hasattr(os, "O_NOFOLLOW")
_NO_FOLLOWING = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)


def files_below(folder, leave_out=()):
    """List the files below a folder, or the one file given, in the same order every time; links are listed too.

    Folders in `leave_out` are skipped. Raises ValueError when there is no such folder.
    """
    folder = Path(folder).expanduser()
    if not os.path.lexists(folder):
        raise ValueError(f"there is no folder {shown(str(folder))}")
    if not folder.is_dir():
        return [folder]
    leave_out = [os.stat(p) for p in leave_out if os.path.exists(p)]
    found, folders = [], [str(folder)]
    while folders:
        top = folders.pop()
        try:
            with os.scandir(top) as entries:
                for entry in entries:
                    if archives.litter(entry.name):
                        continue
                    if not entry.is_dir(follow_symlinks=False):
                        found.append(entry.path)
                    elif not any(os.path.samestat(os.stat(entry.path), left) for left in leave_out):
                        folders.append(entry.path)
        except OSError:
            found.append(top)
    return [Path(name) for name in sorted(found, key=lambda name: name.split(os.sep))]


def read(path, top):
    """Yield a `Found` for a file, or for each entry if it is an archive; never raises for what the file is."""
    place = _place(path, top)
    try:
        if not _REFUSES_LINKS and path.is_symlink():
            raise OSError(errno.ELOOP, "")
        handle = os.open(path, os.O_RDONLY | _NO_FOLLOWING)
    except OSError as error:
        if error.errno == errno.ELOOP or os.path.islink(path):
            yield Found(place, status=NOT_A_SHEET, reason="a link, which is not followed")
        else:
            yield Found(place, status=DAMAGED, reason=f"can't be read: {error.strerror}")
        return
    try:
        about = os.fstat(handle)
        if not stat.S_ISREG(about.st_mode):
            yield Found(place, status=NOT_A_SHEET, reason="not an ordinary file")
            return
        data = _read_from(handle, archives.SHEET_BYTES + 1)
        kind = archives.kind_of(path.name, data[:300])
        if not kind:
            yield archives.whole(place, data)
            return
        with os.fdopen(handle, "rb", closefd=False) as file:
            file.seek(0)
            yield from archives.unpacked(kind, file, about.st_size, place)
    except OSError as error:
        yield Found(place, status=DAMAGED, reason=f"can't be read: {error.strerror}")
    finally:
        os.close(handle)


def _read_from(handle, most):
    """At most `most` bytes from a file; the system may give fewer at a time than it was asked for."""
    data = piece = os.read(handle, most)
    while piece and len(data) < most:
        data += (piece := os.read(handle, most - len(data)))
    return data


def _place(path, top):
    whole, above = str(path), os.path.join(top, "")
    if whole == str(top):
        return shown(path.name, 300)
    return shown(whole[len(above) :] if whole.startswith(above) else whole, 300)
