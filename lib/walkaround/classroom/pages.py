"""The printed pages, each one file that needs nothing else, readable on screen and on paper; made from the templates.

Nothing that anyone has typed is taken for HTML: the templates escape it. What they call safe is made by the library.
"""

from string import ascii_uppercase

from jinja2 import Environment, PackageLoader, StrictUndefined

from walkaround.exercises import markup
from walkaround.live.status import status_html

SHEETS = ("A4", "Letter")
AID = (
    "A training aid. Aircraft, people and numbers are invented unless they are your own school's. The aircraft's own "
    "handbook, the local rules and licensed people come first."
)
_TEMPLATES = Environment(
    loader=PackageLoader("walkaround.classroom"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)
_TEMPLATES.globals.update(
    letters=ascii_uppercase, paragraph=markup.paragraph, rows=markup.table, worked=markup.worked, status=status_html
)


def page(title, template, **values):
    """Return a whole page as bytes: the template in the frame of all pages.

    >>> b"<title>A &lt;b&gt; title</title>" in page("A <b> title", "files.html", counted="", odd=())
    True
    """
    return part("page.html", title=title, body=template, **values).encode("utf-8", "replace")


def part(template, **values):
    """Return a template filled in, as HTML to stand in a page or on the desk.

    >>> part("files.html", counted="1 <marked>", odd=()).strip()
    '<p>1 &lt;marked&gt;.</p>'
    """
    return _TEMPLATES.get_template(template).render(values)


def printed_page(title, template, sheet="A4", left="", right="", across=False, **values):
    """Return a page to print as bytes: the template in the frame of all paper, `left` and `right` above each sheet.

    The sheet is A4 or Letter, and may lie `across`. `heads` stand on the left of the sections of class x1, x2 …
    instead. Raises ValueError for another sheet.

    >>> b"@page{size:A4" in printed_page("Files", "files.html", counted="", odd=())
    True
    """
    if sheet not in SHEETS:
        raise ValueError(f"the sheet is {sheet!r}; allowed: {', '.join(SHEETS)}")
    values |= {"title": title, "body": template, "left": left, "right": right, "aid": AID}
    values["sheet"] = sheet + " landscape" * across
    return part("print.html", **values).encode("utf-8", "replace")


def css_string(text):
    """Return a text as a string of CSS, which nothing in it ends.

    >>> css_string('a "b" </style>')
    '"a \\\\22 b\\\\22  \\\\3c \\\\2f style\\\\3e "'
    """
    return f'"{"".join(c if c.isalnum() or c in " ·,.:-" else f"{chr(92)}{ord(c):x} " for c in text)}"'


_TEMPLATES.filters["css_string"] = css_string
