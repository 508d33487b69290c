"""What Deque's axe-core finds in a part of a page: its rules for WCAG 2.2 AA, and its best practice."""

from axe_playwright_python.sync_playwright import Axe

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


def violations(page, part):
    """Return what is found in whatever a selector finds, a line for each."""
    options = {"runOnly": {"type": "tag", "values": TAGS}}
    found = Axe().run(page, context={"include": [[part]]}, options=options).response["violations"]
    return [f"{v['id']}: {v['help']}: {node['html'][:200]}" for v in found for node in v["nodes"][:3]]
