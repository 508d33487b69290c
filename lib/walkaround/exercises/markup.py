"""Texts, tables and worked answers as small pieces of HTML, for the desk and for printed pages."""

import html


def paragraph(text, strong=False):
    """Return a text as a paragraph; nothing in it is taken for HTML."""
    body = html.escape(text)
    return f"<p style='line-height:1.45;margin:4px 0'>{f'<b>{body}</b>' if strong else body}</p>"


def table(rows):
    """Return rows of texts as a table, the first row as its head; without rows an empty text."""
    if not rows:
        return ""
    cell = "padding:2px 14px 2px 0;text-align:{};border-bottom:1px solid #bbb"
    lines = []
    for i, row in enumerate(rows):
        tag = "th" if i == 0 else "td"
        cells = "".join(
            f"<{tag} style='{cell.format('left' if j == 0 else 'right')}'>{html.escape(text)}</{tag}>"
            for j, text in enumerate(row)
        )
        lines.append(f"<tr>{cells}</tr>")
    return f"<table style='border-collapse:collapse;margin:4px 0'>{''.join(lines)}</table>"


def worked(question):
    """Return the steps of the worked answer as a list."""
    steps = "".join(f"<li>{html.escape(line)}</li>" for line in question.worked)
    return f"<p style='margin:4px 0'><b>Worked answer</b></p><ol style='margin:2px 0;line-height:1.45'>{steps}</ol>"
