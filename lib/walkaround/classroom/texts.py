"""Texts from outside, made fit to be shown, to be written to a table, or to name a file."""

import errno
import hashlib
import re
import unicodedata

from walkaround.assessment.variant import same_name

MOST_SHOWN = 120
MOST_SORTED = 200  # letters of a text that sort it
# What a spreadsheet takes for a formula (the wide forms count too), at the start of a cell or where a spreadsheet that
# expects another separator begins a new one; any quotes before it are those of `cell`.
_FORMULA = re.compile(r"(?<![^,;\t|])([\s\"]*)('*[=+\-@＝＋－＠])")
_MADE_SAFE = re.compile(r"(?<![^,;\t|])([\s\"]*)'('*[=+\-@＝＋－＠])")
# Letters with a stroke, and joined ones: Unicode does not take them apart.
_PLAIN = str.maketrans({"ø": "o", "ł": "l", "đ": "d", "ð": "d", "ħ": "h", "ı": "i", "æ": "ae", "œ": "oe", "þ": "th"})
# Names that one system or another keeps for itself.
_RESERVED = {"con", "prn", "aux", "nul", *(f"{d}{n}" for d in ("com", "lpt") for n in range(10))}


def shown(text, most=MOST_SHOWN):
    r"""Return a text on one line, cut to a length, without characters that can't be written or that move the cursor.

    >>> shown("a\x00b\nc" + "\ud800")
    'a b c?'
    """
    if not text.isprintable():
        text = text[: 4 * most].encode("utf-8", "replace").decode("utf-8")
        text = "".join(" " if unicodedata.category(c) in ("Cc", "Cf", "Zl", "Zp") else c for c in text)
    text = " ".join(text.split())
    return text if len(text) <= most else text[: most - 1] + "…"


def cell(value):
    """Return a value as the text of a table's cell; what a spreadsheet would run as a formula gets a quote before it.

    >>> cell("=1+1"), cell(-2.5), cell("a; @SUM(A1)")
    ("'=1+1", '-2.5', "a; '@SUM(A1)")
    """
    if not isinstance(value, str):
        return "" if value is None else f"{value:.10g}" if isinstance(value, float) else str(value)
    text = shown(value, 2000)
    return text if text.isalnum() else _FORMULA.sub(r"\1'\2", text)


def from_cell(text):
    """Return what `cell` made a table's cell of.

    >>> from_cell("a; '@SUM(A1)"), from_cell("'tis")
    ('a; @SUM(A1)', "'tis")
    """
    return _MADE_SAFE.sub(r"\1\2", text) if "'" in text else text


def in_words(error):
    """Say what went wrong to someone who does not program.

    >>> in_words(FileNotFoundError(2, "No such file or directory", "roster.csv"))
    'roster.csv: No such file or directory'
    """
    if isinstance(error, ValueError):
        return str(error)
    if not isinstance(error, OSError):
        return f"Something went wrong that should not have: {type(error).__name__}: {error}"
    file = f"{error.filename}: " if error.filename else ""
    if error.errno in (errno.ENOSPC, getattr(errno, "EDQUOT", None)):
        return f"{file}not written, the disk is full. What was saved before is still there: make room and do it again."
    return f"{file}{error.strerror or error}"


def number_of(n, one, many=""):
    """Return a number of things in words; `many` is their name where it is more than an s longer.

    >>> number_of(1, "file"), number_of(2, "file"), number_of(0, "try", "tries")
    ('1 file', '2 files', '0 tries')
    """
    return f"{n} {one if n == 1 else many or one + 's'}"


def sort_key(text):
    """Return what sorts a text as people do: case, accents and marks make no difference, and 2 comes before 10.

    >>> sorted(["Zoë", "Group 10", "O'Neil", "Øberg", "Group 2", "Oboe", "zander"], key=sort_key)
    ['Group 2', 'Group 10', 'Øberg', 'Oboe', "O'Neil", 'zander', 'Zoë']
    """
    plain = unicodedata.normalize("NFKD", text[:MOST_SORTED].casefold().translate(_PLAIN))
    words = "".join(c for c in plain if c.isalnum() or c.isspace() or c == "-").replace("-", " ").split()
    parts = re.split(r"([0-9]+)", " ".join(words))
    return [int(p) if i % 2 else p for i, p in enumerate(parts)], text


def file_stem(name):
    """Return a file name for an id: the same on every system, and different for different ids.

    >>> file_stem("S017"), file_stem("../s017")
    ('s017', 's017-2df60851')
    """
    plain = same_name(name)
    stem = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:40]
    if stem and stem == plain and stem not in _RESERVED:
        return stem
    # A hash stands for what was left out, so that “a/b” and “a b” do not meet in one file.
    return f"{stem or 'id'}-{hashlib.sha256(plain.encode('utf-8', 'surrogatepass')).hexdigest()[:8]}"
