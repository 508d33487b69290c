"""The frame of the printed pages: one file that needs nothing else, readable on screen and on paper."""

import html

STYLE = """
body{font:16px/1.45 "DejaVu Sans",Verdana,sans-serif;color:#1a1a1a;background:#fff;max-width:62rem;margin:1.5rem auto;padding:0 1rem}
h1{font-size:1.6rem;margin:.2rem 0}h2{font-size:1.25rem;margin:1.6rem 0 .4rem;border-bottom:2px solid #8a8a8a}h3{font-size:1.05rem;margin:1rem 0 .2rem}
table{border-collapse:collapse;margin:.4rem 0}th,td{text-align:left;vertical-align:top;padding:.2rem .9rem .2rem 0;border-bottom:1px solid #bbb}
td.n,th.n{text-align:right}p.note{border-left:6px dashed #0072b2;padding:.2rem .7rem}p.ask{border-left:6px double #d55e00;padding:.2rem .7rem}
p.small{font-size:.85rem;color:#444}section{break-inside:avoid}svg{width:100%;max-width:760px;height:auto}
@media print{body{margin:0;max-width:none;font-size:11pt}h2{break-after:avoid}a{color:inherit}}
"""


def page(title, body):
    """Return a whole page as bytes; `title` is a text, `body` is HTML."""
    head = f'<meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>{text(title)}</title>'
    # Nothing on the page may be fetched or run, whatever found its way into it.
    head += "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; img-src data:\">"
    return f'<!DOCTYPE html>\n<html lang="en"><head>{head}<style>{STYLE}</style></head>\n<body>\n{body}\n</body></html>\n'.encode(
        "utf-8", "replace"
    )


def text(value):
    """Return a text with nothing in it that is taken for HTML."""
    return html.escape(str(value))


def table(head, rows, numbers=()):
    """Return a table of texts; the columns in `numbers` (from 0) are set to the right."""

    def line(tag, cells):
        inner = "".join(f"<{tag}{' class=n' if i in numbers else ''}>{text(c)}</{tag}>" for i, c in enumerate(cells))
        return f"<tr>{inner}</tr>"

    return f"<table><thead>{line('th', head)}</thead><tbody>{''.join(line('td', r) for r in rows)}</tbody></table>"
