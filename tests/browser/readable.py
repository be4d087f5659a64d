"""What axe-core finds amiss on a page that somebody reads with their ears, or in weak light."""

from axe_playwright_python.sync_playwright import DEFAULT_OPTIONS, Axe
from playwright.sync_api import Page

__all__ = ["amiss"]

FIND = """([where, how]) => axe.run(where ?? document, how).then(({ violations }) =>
    violations.map(({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 160)}`))"""


def amiss(page: Page, where: str | None = None) -> list[str]:
    """Return each rule that a page breaks, or a part of it, with the first place.

    axe-core, half a megabyte, is given to a page once.
    """
    if not page.evaluate("'axe' in window"):
        page.evaluate(Axe().axe_script)
    found: list[str] = page.evaluate(FIND, [where, DEFAULT_OPTIONS])
    return found
