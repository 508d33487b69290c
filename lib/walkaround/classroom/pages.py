"""The printed pages, each one file that needs nothing else, readable on screen and on paper; made from the templates.

Nothing that anyone has typed is taken for HTML: the templates escape it. What they call safe is made by the library.
"""

from jinja2 import Environment, PackageLoader, StrictUndefined

from walkaround.exercises import markup
from walkaround.live.status import status_html

_TEMPLATES = Environment(
    loader=PackageLoader("walkaround.classroom"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)
_TEMPLATES.globals.update(paragraph=markup.paragraph, rows=markup.table, worked=markup.worked, status=status_html)


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
