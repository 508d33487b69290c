"""Collecting: every file below a folder, and in the zips there, with its bytes or the reason why it was not read.

Nothing is unpacked to disk, no link is followed, and nothing that a zip says of itself is believed: how much comes out
of it is counted while it is read.
"""

import errno
import io
import os
import stat
import struct
import zipfile
import zlib
from dataclasses import dataclass
from pathlib import Path

from walkaround.classroom.texts import shown

NOT_A_SHEET, TOO_LARGE, DAMAGED = "not a sheet", "too large", "damaged"
SHEET_BYTES = 1_000_000
ZIP_BYTES = 300_000_000  # of a zip in a folder
INNER_ZIP_BYTES = 30_000_000  # of a zip in a zip, which has to be held in memory
UNPACKED_BYTES = 200_000_000  # of all that is read out of one zip, inner ones included
ZIP_INDEX_BYTES = 4_000_000  # of a zip's list of entries: some 40,000 of them
NESTED = 3
_REFUSES_LINKS = hasattr(os, "O_NOFOLLOW")
_NO_FOLLOWING = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
_ZIP_END = b"PK\x05\x06"
# What reading a damaged zip may raise; RuntimeError also says that it has a password, or that its packing is not known.
_NOT_READABLE = (
    zipfile.BadZipFile,
    zlib.error,
    struct.error,
    OSError,
    ValueError,
    EOFError,
    RuntimeError,
    OverflowError,
    MemoryError,
)


@dataclass(frozen=True)
class Found:
    """One file: where it was (for an entry of a zip, "zip › name"), and its bytes, or a status and the reason."""

    place: str
    data: bytes | None = None
    status: str = ""
    reason: str = ""


def files_below(folder, leave_out=()):
    """List the files below a folder, or the one file given, in the same order every time; links are listed too.

    Folders in `leave_out` are skipped. Raises ValueError when there is no such folder.
    """
    folder = Path(folder).expanduser()
    if not os.path.lexists(folder):
        raise ValueError(f"there is no folder {shown(str(folder))}")
    if not folder.is_dir():
        return [folder]
    leave_out = {os.path.realpath(p) for p in leave_out}
    found: list[str] = []
    unread: list[OSError] = []
    for top, folders, files in os.walk(folder, onerror=unread.append):
        found += [os.path.join(top, name) for name in files]
        found += [link for name in folders if os.path.islink(link := os.path.join(top, name))]
        folders[:] = [n for n in folders if os.path.realpath(os.path.join(top, n)) not in leave_out]
    found += [error.filename for error in unread]
    return [Path(name) for name in sorted(found, key=lambda name: name.split(os.sep))]


def read(path, top):
    """Yield a `Found` for a file, or for each entry if it is a zip; never raises for what the file is."""
    place = _place(path, top)
    try:
        if not _REFUSES_LINKS and path.is_symlink():
            raise OSError(errno.ELOOP, "")
        handle = os.open(path, os.O_RDONLY | _NO_FOLLOWING)
    except OSError as error:
        if error.errno == errno.ELOOP or path.is_symlink():
            yield Found(place, status=NOT_A_SHEET, reason="a link, which is not followed")
        else:
            yield Found(place, status=DAMAGED, reason=f"can't be read: {error.strerror}")
        return
    try:
        about = os.fstat(handle)
        if not stat.S_ISREG(about.st_mode):
            yield Found(place, status=NOT_A_SHEET, reason="not an ordinary file")
            return
        data = _read_from(handle, SHEET_BYTES + 1)
        if not _is_zip(data[:4], path.name):
            yield _whole(place, data)
            return
        with os.fdopen(handle, "rb", closefd=False) as file:
            file.seek(0)
            yield from _zip(file, about.st_size, ZIP_BYTES, place, 1, [UNPACKED_BYTES])
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


def _whole(place, data):
    if len(data) > SHEET_BYTES:
        return Found(place, status=TOO_LARGE, reason=f"larger than {SHEET_BYTES:,} bytes, which no answer sheet is")
    return Found(place, data)


def _is_zip(start, name):
    return start == b"PK\x03\x04" or start == _ZIP_END or name.casefold().endswith(".zip")


def _zip(file, size, most, place, depth, left):
    """Entries of a zip; `left` holds how many bytes may still be unpacked, shared with the zips inside."""
    if depth > NESTED:
        yield Found(place, status=TOO_LARGE, reason=f"a zip more than {NESTED} zips deep")
        return
    if size > most:
        yield Found(place, status=TOO_LARGE, reason=f"a zip larger than {most:,} bytes")
        return
    if _index_bytes(file, size) > ZIP_INDEX_BYTES:
        yield Found(place, status=TOO_LARGE, reason="a zip with more entries than a class has sheets")
        return
    try:
        archive = zipfile.ZipFile(file)
        entries = sorted(archive.infolist(), key=lambda e: e.filename)
    except _NOT_READABLE as error:
        yield Found(place, status=DAMAGED, reason=f"not a zip that can be read: {shown(str(error))}")
        return
    if not entries:
        yield Found(place, status=NOT_A_SHEET, reason="an empty zip")
    for entry in entries:
        if entry.filename.endswith("/"):
            continue
        # The entry's name is only shown: nothing is written under it.
        inner = f"{place} › {shown(entry.filename)}"
        if left[0] <= 0:
            yield Found(inner, status=TOO_LARGE, reason=f"the zip unpacks to more than {UNPACKED_BYTES:,} bytes")
            continue
        if stat.S_ISLNK(entry.external_attr >> 16):
            yield Found(inner, status=NOT_A_SHEET, reason="a link, which is not followed")
            continue
        if entry.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            # Other packings can't be read up to a limit.
            yield Found(inner, status=DAMAGED, reason="packed in an unusual way; unpack it and pack it again")
            continue
        nested = entry.filename.casefold().endswith(".zip")
        limit = min(INNER_ZIP_BYTES if nested else SHEET_BYTES, left[0])
        try:
            with archive.open(entry) as stream:
                data = stream.read(limit + 1)
        except _NOT_READABLE as error:
            yield Found(inner, status=DAMAGED, reason=f"can't be unpacked: {shown(str(error)) or type(error).__name__}")
            continue
        left[0] -= len(data)
        if nested and len(data) <= INNER_ZIP_BYTES:
            yield from _zip(io.BytesIO(data), len(data), INNER_ZIP_BYTES, inner, depth + 1, left)
        elif nested:
            yield Found(inner, status=TOO_LARGE, reason=f"a zip in a zip larger than {INNER_ZIP_BYTES:,} bytes")
        else:
            yield _whole(inner, data)


def _index_bytes(file, size):
    """Size of a zip's list of entries as its end record states it, 0 without one: what reading it would take."""
    file.seek(max(0, size - 66_000))
    end = file.read()
    file.seek(0)
    at = end.rfind(_ZIP_END)
    if at < 0 or len(end) < at + 22:
        return 0
    return struct.unpack_from("<I", end, at + 12)[0]


def _place(path, top):
    whole, above = str(path), os.path.join(top, "")
    if whole == str(top):
        return shown(path.name, 300)
    return shown(whole[len(above) :] if whole.startswith(above) else whole, 300)
