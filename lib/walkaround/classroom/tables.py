"""Reading a table as an office or a spreadsheet saves it, whatever its encoding; writing one that opens cleanly."""

import codecs
import csv
import io
from dataclasses import dataclass

from walkaround.classroom.texts import cell, from_cell, shown

MOST_BYTES = 5_000_000
MOST_LINES, MOST_COLUMNS, MOST_CELLS = 200_000, 200, 1_000_000
DELIMITERS = (",", ";", "\t", "|")
_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),  # begins as UTF-16's mark does, so it is looked for first
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)


@dataclass(frozen=True)
class Table:
    """A table: column names, rows as (line number, cells by column), notices of what was odd, and the delimiter."""

    columns: tuple[str, ...]
    rows: tuple[tuple[int, dict[str, str]], ...]
    notices: tuple[str, ...]
    delimiter: str = ","


def read(path, bounded=True):
    """Read a table from a file; raises ValueError in words when it is not one, or when it is bounded and too large."""
    try:
        with open(path, "rb") as file:
            data = file.read(MOST_BYTES + 1 if bounded else -1)
    except FileNotFoundError:
        raise ValueError(f"{path.name}: there is no such file in {path.parent}") from None
    except OSError as error:
        raise ValueError(f"{path.name}: can't be read: {error.strerror}") from None
    if bounded and len(data) > MOST_BYTES:
        raise ValueError(f"{path.name}: larger than {MOST_BYTES:,} bytes")
    return parse(data, path.name, bounded)


def parse(data, name, bounded=True):
    """Read a table from bytes: comma, semicolon, tab or bar; UTF-8, UTF-16, UTF-32 or Western European.

    >>> parse("id;name\\n7;Zoë".encode("cp1252"), "roster.csv").rows
    ((2, {'id': '7', 'name': 'Zoë'}),)
    """
    if data.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0")):
        raise ValueError(f"{name}: it is in a spreadsheet's own format; save it as CSV, whatever its name")
    text, notices = _decoded(data, name)
    if bounded and text.count("\n") + text.count("\r") > 2 * MOST_LINES:
        raise ValueError(f"{name}: more than {MOST_LINES:,} lines")
    lines = text.splitlines(keepends=True)
    skipped = 0
    first = lines[0].strip().casefold() if lines else ""
    if first.startswith("sep=") and len(first) <= 5:  # a spreadsheet's note of its delimiter
        skipped, lines = 1, lines[1:]
    blank = next((i for i, line in enumerate(lines) if line.strip(" ,;\t|\r\n")), len(lines))
    skipped, lines = skipped + blank, lines[blank:]
    if not lines:
        raise ValueError(f"{name}: there is nothing in it")
    reader = None
    try:
        delimiter = max(DELIMITERS, key=lambda d: len(next(csv.reader([lines[0]], delimiter=d))))
        reader = csv.reader(io.StringIO("".join(lines), newline=""), delimiter=delimiter)
        columns = tuple(from_cell(" ".join(c.split())) or f"column {i}" for i, c in enumerate(next(reader), 1))
        if len(columns) > MOST_COLUMNS:
            raise ValueError(f"{name}, line {skipped + 1}: more than {MOST_COLUMNS} columns")
        if len({c.casefold() for c in columns}) < len(columns):
            twice = next(c for i, c in enumerate(columns) if c.casefold() in [o.casefold() for o in columns[:i]])
            raise ValueError(f"{name}, line {skipped + 1}: the column {shown(twice)!r} is there twice")
        rows: list[tuple[int, dict[str, str]]] = []
        start = reader.line_num
        for values in reader:
            line, start = skipped + start + 1, reader.line_num
            if not any(v.strip() for v in values):
                continue
            if len(values) > len(columns) and any(v.strip() for v in values[len(columns) :]):
                notices.append(f"{name}, line {line}: more cells than columns; the last ones are left out")
            filled = [from_cell(v.strip()) for v in values] + [""] * (len(columns) - len(values))
            if bounded and len(rows) * len(columns) >= MOST_CELLS:
                raise ValueError(f"{name}, line {line}: more than {MOST_CELLS:,} cells")
            rows.append((line, dict(zip(columns, filled, strict=False))))
    except csv.Error as error:
        at = skipped + (reader.line_num if reader else 1)
        raise ValueError(f"{name}, line {at}: not a table: {error}") from None
    return Table(columns, tuple(rows), tuple(notices), delimiter)


def _decoded(data, name):
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return _strictly(data, encoding, name), []
    if b"\0" in data[:200]:  # every second byte of plain text is 0 in UTF-16
        return _strictly(data, "utf-16-be" if data[:1] == b"\0" else "utf-16-le", name), []
    try:
        return data.decode("utf-8"), []
    except UnicodeDecodeError:
        notice = f"{name}: not UTF-8; read as Western European (Windows-1252). Check names with accents."
        return data.decode("cp1252", "replace"), [notice]


def _strictly(data, encoding, name):
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as error:
        raise ValueError(f"{name}: byte {error.start} is not {encoding.upper()}") from None


def data_of(columns, rows, delimiter=","):
    """Return a table as bytes that a spreadsheet opens cleanly: UTF-8 with its mark, formulas neutralised.

    `parse` gives the values back as they were, but for white space.

    >>> data_of(("id", "name"), [("7", "=1+1")]).decode("utf-8-sig").splitlines()
    ['id,name', "7,'=1+1"]
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter=delimiter)
    writer.writerows([cell(value) for value in row] for row in (columns, *rows))
    return out.getvalue().encode("utf-8-sig")
