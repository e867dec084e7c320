"""How the tests meet the page: by its addresses, its fields by their keys, its verdict by its state."""

from __future__ import annotations

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Locator, Page, expect

STAGES = ("call", "search", "object", "lift", "dive", "brief")
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
VIEWS = ("tonight", "compare", "sources", "history", "files")


def show(page: Page, case: str, stage: str = "call") -> None:
    """Open a stage or a view of a case and wait until it is there; a stage with its answer."""
    page.goto(f"/#/case/{case}/{stage}")
    expect(page.locator("main h1").first).to_be_visible()
    if stage in STAGES:
        wait_for_verdict(page)


def wait_for_verdict(page: Page, state: str = "known") -> Locator:
    """Wait until the verdict is of a state: ``known``, ``working`` or ``wrong``."""
    found = page.locator(f"[data-verdict={state}]").first
    expect(found).to_be_visible()
    return found


def field(page: Page, key: str) -> Locator:
    """Give the box of a field by its key, such as ``object.part[1].mass``."""
    return page.locator(f"[data-key='{key}']").first


def entry(page: Page, key: str) -> Locator:
    """Give what can be typed into of a field."""
    return field(page, key).locator("input, textarea, select").first


def no_sideways_scrolling(page: Page) -> None:
    """Hold the page against the width of its window."""
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")


def nothing_for_axe(page: Page) -> None:
    """Hold the page against the rules of WCAG 2.2 AA."""
    found = Axe().run(
        page, options={"runOnly": {"type": "tag", "values": RULES}, "resultTypes": ["violations"], "iframes": False}
    )
    assert found.violations_count == 0, found.generate_report()
