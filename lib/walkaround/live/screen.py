"""The files of the workbook's own front end: what every part of it begins with, and how a part is put together."""

from pathlib import Path

_HERE = Path(__file__).parent


def sources(*files, folder=_HERE):
    """Return files of the front end, from a folder (this one unless another is given), as one text.

    >>> "function element" in sources("screen.js")
    True
    """
    return "".join((Path(folder) / file).read_text(encoding="utf-8") for file in files)
