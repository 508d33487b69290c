"""What lies in a zip, a tar or saved mail: each entry with its bytes, or the reason why it was not read.

Nothing is unpacked to disk, so no name can lead anywhere; nothing is run. What an archive says of itself is not
believed: bytes and entries are counted while they are read, and what has no bound is bounded before it is parsed.
"""

import binascii
import gzip
import io
import re
import stat
import struct
import tarfile
import zipfile
import zlib
from dataclasses import dataclass, field
from email import message_from_bytes
from email.errors import MessageError
from email.header import decode_header, make_header
from functools import partial
from itertools import islice

from walkaround.classroom.texts import shown

NOT_A_SHEET, TOO_LARGE, DAMAGED = "not a sheet", "too large", "damaged"
SHEET_BYTES = 1_000_000
ARCHIVE_BYTES = 300_000_000  # of a zip or tar in a folder
INNER_BYTES = 20_000_000  # of one in another, and of mail, which are held in memory
UNPACKED_BYTES = 100_000_000  # of all that is read out of one file, inner ones included
ZIP_INDEX_BYTES = 2_500_000  # of a zip's list of entries
ENTRIES = 12_000  # in one file, inner ones included, litter not
NESTED = 3
MAIL_NESTED, MAIL_HEADER_BYTES, MAIL_FIELD_BYTES = 10, 100_000, 2_000
ZIP, TAR, TAR_GZ, MAIL, MAILBOX = "zip", "tar", "tar.gz", "mail", "mailbox"
_ENDINGS = {".zip": ZIP, ".tar": TAR, ".tar.gz": TAR_GZ, ".tgz": TAR_GZ, ".eml": MAIL, ".mbox": MAILBOX}
# Mail that lost its ending begins with a header, a mailbox with the line between its mails.
_MAIL = re.compile(
    rb"(?i)(?:return-path|delivered-to|received|mime-version|message-id|from|to|subject|date|x-[a-z-]+):[ \t]"
)
_NOT_OPENED = {
    **{b"Rar!": "a rar", b"7z\xbc\xaf": "a 7z", b"BZh": "a bz2", b"\xfd7zXZ": "an xz"},
    **{b"\xd0\xcf\x11\xe0": "mail or a document of Microsoft Office", b"\x78\x9f\x3e\x22": "winmail.dat of Outlook"},
}
# What reading something damaged may raise; RuntimeError also says that a zip has a password or an unknown packing.
_NOT_READABLE = (
    *(zipfile.BadZipFile, zlib.error, struct.error, tarfile.TarError, MessageError, OSError, ValueError, LookupError),
    *(TypeError, AttributeError, EOFError, RuntimeError, OverflowError, MemoryError),
)
_LITTER = {
    *(".ds_store", ".localized", ".appledouble", ".spotlight-v100", ".trashes", ".fseventsd", ".temporaryitems"),
    *("__macosx", "icon\r", "thumbs.db", "ehthumbs.db", "desktop.ini", "$recycle.bin", "system volume information"),
    *(".directory", ".walkaround.lock", ".walkaround.lock-holder"),
}
_FIELD = re.compile(rb"(?im)^content-[a-z-]+:[^\n]*(?:\n[ \t][^\n]*)*")


class TooMuchError(Exception):
    """More bytes or entries than are read out of one file; its text says which."""


@dataclass(frozen=True)
class Found:
    """One file: where it was (for an entry of a zip, "zip › name"), and its bytes, or a status and the reason."""

    place: str
    data: bytes | None = field(default=None, repr=False)
    status: str = ""
    reason: str = ""


class Budget:
    """How many bytes and entries may still be read out of one file, shared with the archives inside it."""

    def __init__(self):
        self.bytes, self.entries = UNPACKED_BYTES, ENTRIES

    def spend(self, spent=0, entries=0):
        """Count what was read; raises TooMuchError when that is more than is left."""
        self.bytes, self.entries = self.bytes - spent, self.entries - entries
        if self.entries < 0:
            raise TooMuchError("more entries than a class has sheets")
        if self.bytes < 0:
            raise TooMuchError(f"it unpacks to more than {UNPACKED_BYTES:,} bytes")


def litter(name):
    r"""Whether a file or folder is one that an operating system or office program leaves lying about.

    >>> litter("__MACOSX/._loading.answers.json"), litter("a\\Thumbs.db"), litter("loading.answers.json")
    (True, True, False)
    """
    parts = name.casefold().replace("\\", "/").split("/")
    return not _LITTER.isdisjoint(parts) or any(part.startswith(("._", "~$", ".~lock.")) for part in parts)


def kind_of(name, start=b""):
    """Return which kind of archive a file is by its first bytes and its name, empty for none.

    >>> kind_of("class.TGZ"), kind_of("Inbox", b"From x"), kind_of("a.json", b"{")
    ('tar.gz', 'mailbox', '')
    """
    if start[:4] in (b"PK\x03\x04", b"PK\x05\x06"):
        return ZIP
    if start[:2] == b"\x1f\x8b":
        return TAR_GZ
    if start[257:262] == b"ustar":
        return TAR
    end = name[-8:].casefold()
    by_name = next((kind for ending, kind in _ENDINGS.items() if end.endswith(ending)), "")
    return by_name or (MAILBOX if start[:5] == b"From " else MAIL if _MAIL.match(start) else "")


def whole(place, data):
    """Return a file that is no archive, or none that is opened, as `Found`."""
    for start, what in _NOT_OPENED.items():
        if data.startswith(start):
            return Found(place, status=DAMAGED, reason=f"{what}, not opened here: collect what it holds")
    if len(data) > SHEET_BYTES:
        return Found(place, status=TOO_LARGE, reason=f"larger than {SHEET_BYTES:,} bytes, which no answer sheet is")
    return Found(place, data)


def unpacked(kind, file, size, place, budget=None, depth=1):
    """Yield a `Found` for each entry of an archive, and for those of the archives in it; never raises for what it is.

    `file` is open for reading and `size` its bytes.
    """
    budget = budget or Budget()
    most = INNER_BYTES if depth > 1 or kind in (MAIL, MAILBOX) else ARCHIVE_BYTES
    if depth > NESTED or size > most:
        why = f"more than {NESTED} archives deep" if depth > NESTED else f"a {kind} larger than {most:,} bytes"
        yield Found(place, status=TOO_LARGE, reason=why)
        return
    entries = {ZIP: _zip, TAR: _tar, TAR_GZ: _tar_gz, MAIL: _mail, MAILBOX: _mailbox}[kind]
    try:
        for found in entries(file, place, budget):
            inner = kind_of(found.place, found.data[:300]) if found.data is not None else ""
            if inner:
                yield from unpacked(inner, io.BytesIO(found.data), len(found.data), found.place, budget, depth + 1)
            else:
                yield found
    except TooMuchError as error:
        yield Found(place, status=TOO_LARGE, reason=f"a {kind} with too much in it: {error}")
    except _NOT_READABLE as error:
        why = shown(str(error)) or type(error).__name__
        yield Found(place, status=DAMAGED, reason=f"not a {kind} that can be read: {why}")


def _entry(place, name, read, budget):
    """What became of one entry: `read(most)` gives its bytes."""
    inner = bool(kind_of(name))
    place = f"{place} › {shown(name)}"  # only shown: nothing is written under it
    limit = min(INNER_BYTES if inner else SHEET_BYTES, max(budget.bytes, 0))
    if not limit:
        return Found(place, status=TOO_LARGE, reason=f"all together unpacks to more than {UNPACKED_BYTES:,} bytes")
    try:
        data = read(limit + 1)
    except _NOT_READABLE as error:
        why = shown(str(error)) or type(error).__name__
        return Found(place, status=DAMAGED, reason=f"can't be unpacked: {why}")
    if inner and len(data) > limit:
        return Found(place, status=TOO_LARGE, reason=f"larger than {limit:,} bytes, in another archive")
    return Found(place, data) if inner else whole(place, data)


class _Counted:
    """A file that raises TooMuchError when more is read than is allowed: in one piece, or in all from a budget."""

    def __init__(self, file, most=None, budget=None):
        self._file, self.most, self._budget = file, most, budget

    def read(self, n=-1):
        data = self._file.read(n if self.most is None or 0 <= n <= self.most else self.most + 1)
        if self.most is not None and len(data) > self.most:
            raise TooMuchError("more entries than a class has sheets")
        if self._budget is not None:
            self._budget.spend(len(data))
        return data

    def __getattr__(self, name):
        return getattr(self._file, name)


def _zip(file, place, budget):
    # The list of entries is read in one piece, however long the end record says it is.
    counted = _Counted(file, ZIP_INDEX_BYTES)
    archive = zipfile.ZipFile(counted)
    counted.most = None
    entries = [e for e in archive.infolist() if not e.filename.endswith("/") and not litter(e.filename)]
    entries.sort(key=lambda e: e.filename)
    budget.spend(entries=len(entries))
    if not entries:
        yield Found(place, status=NOT_A_SHEET, reason="an empty zip")
    for entry in entries:
        if stat.S_ISLNK(entry.external_attr >> 16):
            reason = "a link, which is not followed"
            yield Found(f"{place} › {shown(entry.filename)}", status=NOT_A_SHEET, reason=reason)
        elif entry.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            # Other packings can't be read up to a limit.
            reason = "packed in an unusual way; unpack it and pack it again"
            yield Found(f"{place} › {shown(entry.filename)}", status=DAMAGED, reason=reason)
        else:
            found = _entry(place, entry.filename, lambda most, entry=entry: _read_zipped(archive, entry, most), budget)
            budget.bytes -= min(entry.file_size, INNER_BYTES if kind_of(entry.filename) else SHEET_BYTES)
            yield found


def _read_zipped(archive, entry, most):
    with archive.open(entry) as stream:
        return stream.read(most)


class _Member(tarfile.TarInfo):
    """An entry of a tar whose long name, or record of extended fields, is no longer than a name can be."""

    @classmethod
    def frombuf(cls, buf, encoding, errors):
        made = super().frombuf(buf, encoding, errors)
        extended = (tarfile.XHDTYPE, tarfile.XGLTYPE, tarfile.SOLARIS_XHDTYPE, tarfile.GNUTYPE_LONGNAME)
        if made.type in (*extended, tarfile.GNUTYPE_LONGLINK, tarfile.GNUTYPE_SPARSE) and made.size > 20_000:
            raise TooMuchError("a name longer than any")
        return made


def _tar(file, place, budget):
    # As a stream: what is passed over is read too, so every byte is counted, whatever the headers say.
    with tarfile.open(fileobj=_Counted(file, None, budget), mode="r|", tarinfo=_Member) as archive:
        empty = True
        for member in archive:
            empty = False
            budget.spend(entries=1)
            if member.isdir() or litter(member.name):
                continue
            if not member.isreg():
                reason = "a link or no ordinary file, which is not followed"
                yield Found(f"{place} › {shown(member.name)}", status=NOT_A_SHEET, reason=reason)
            else:
                yield _entry(place, member.name, (archive.extractfile(member) or io.BytesIO()).read, budget)
    if empty:
        yield Found(place, status=NOT_A_SHEET, reason="an empty tar")


def _tar_gz(file, place, budget):
    with gzip.GzipFile(fileobj=file) as stream:
        yield from _tar(stream, place, budget)


def _mailbox(file, place, budget):
    data = _lines(file)
    # What comes first is a mail whatever its first line; in a later one a header follows, not the rest of a sentence.
    starts = re.finditer(rb"\A(?:\n*From [^\n]*\n)?|\n\nFrom [^\n]*\n(?=[!-9;-~]+:)", data)
    for i, (this, ends) in enumerate(_each_with_end(starts, len(data)), 1):
        yield from _attachments(data, this.end(), ends, f"{place} › mail {i}", budget)


def _mail(file, place, budget):
    data = _lines(file)
    yield from _attachments(data, 0, len(data), place, budget)


def _lines(file):
    return file.read().replace(b"\r\n", b"\n").replace(b"\r", b"\n")


def _attachments(data, start, end, place, budget):
    attached = False
    for head, begins, ends in _parts(data, start, end, budget):
        name = head.get_filename()
        if name and not litter(name):
            attached = True
            body = partial(_body, head, data, begins, ends, budget)
            yield _entry(place, _decoded(name), body, budget)
    if not attached:
        yield Found(place, status=NOT_A_SHEET, reason="a mail with no file attached")


def _parts(data, start, end, budget, depth=1):
    """Yield each part of a mail that holds no others: its header, and where in the data its body begins and ends.

    The email package reads the header. It would hold a body several times over, line by line.
    """
    if depth > MAIL_NESTED:
        raise TooMuchError("parts in parts, deeper than in any mail")
    blank = start - 1 if data[start : start + 1] == b"\n" else data.find(b"\n\n", start, end)
    body = blank + 2 if blank >= 0 else end
    fields = [m[0] for m in islice(_FIELD.finditer(data[start : min(body, start + MAIL_HEADER_BYTES)]), 20)]
    if any(len(field) > MAIL_FIELD_BYTES for field in fields):
        raise TooMuchError("longer headers than a mail has")
    # A part takes longer to read than an entry of a zip, the more so the longer its header is.
    budget.spend(entries=2 + sum(map(len, fields)) // 100)
    head = message_from_bytes(b"\n".join(fields))
    boundary = str(head.get_boundary("") or "").encode("ascii", "replace")
    if head.get_content_type() == "message/rfc822":
        yield from _parts(data, body, end, budget, depth + 1)
    elif boundary and head.get_content_maintype() == "multipart":
        line = re.compile(b"\n--" + re.escape(boundary) + rb"(--)?[ \t]*(?=\n|\Z)")
        for this, ends in _each_with_end(line.finditer(data, max(body - 1, 0), end), end):
            if this[1]:
                break
            yield from _parts(data, min(this.end() + 1, end), ends, budget, depth + 1)
    else:
        yield head, body, end


def _each_with_end(matches, end):
    """Yield each match with where the next one begins; the last goes to the end."""
    before = None
    for match in matches:
        if before:
            yield before, match.start()
        before = match
    if before:
        yield before, end


def _body(head, data, start, end, budget, most):
    """The bytes of an attachment, at most so many."""
    body, packing = data[start:end], str(head["content-transfer-encoding"]).strip().casefold()
    if packing == "base64":
        try:
            body = binascii.a2b_base64(body)
        except binascii.Error:  # cut off, or its padding left out
            body = binascii.a2b_base64(body + b"==")
    elif packing == "quoted-printable":
        body = binascii.a2b_qp(body)
    budget.spend(len(body))
    return body[:most]


def _decoded(name):
    try:
        return str(make_header(decode_header(name)))
    except _NOT_READABLE:
        return name
