"""A verdict, and the line that shows it: a mark, a kind of border and a colour, so that no meaning hangs on colour."""

import html

from walkaround.live.colours import BLUE, GREEN, VERMILION

OK, STOP, NOTE = "ok", "stop", "note"
_MARKS = {OK: ("✓", "solid", GREEN), STOP: ("✕", "double", VERMILION), NOTE: ("•", "dashed", BLUE)}


def status_html(text, verdict, size="100%"):
    """Return a text with its verdict (OK, STOP or NOTE) as HTML that a screen reader reads when it changes.

    >>> "✕" in status_html("Over its limit", STOP)
    True
    """
    mark, line, colour = _MARKS[verdict]
    return (
        f"<p role='status' aria-live='polite' style='font-size:{size};line-height:1.4;margin:4px 0;"
        f"padding:6px 10px;border-left:6px {line} {colour}'>"
        f"<span aria-hidden='true'>{mark}</span> {html.escape(text)}</p>"
    )
