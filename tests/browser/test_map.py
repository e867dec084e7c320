"""Places on the map: moved by arrow keys and by pointer, written into the case, and taken back."""

from __future__ import annotations

from playwright.sync_api import Locator, Page, expect

from browser.meeting import show
from browser.running import Server

METRE_NORTH = 1.0 / 111_200.0  # degrees, to the third figure


def datum(server: Server, case: str) -> tuple[float, float]:
    """Give the origin of the map as it is kept."""
    told = server.ask(f"cases/{case}")["document"]["site"]["datum"]
    return told["lat"], told["lon"]


def mark(page: Page, words: str) -> Locator:
    """Give a place on the map by the beginning of its name."""
    found = page.locator(f"[aria-roledescription=place][aria-label^='{words}']").first
    expect(found).to_be_visible()
    return found


def saved(page: Page) -> None:
    expect(page.locator("[data-saving=saved]").first).to_be_visible()


def test_arrow_keys_move_a_place_by_metres_and_undo_takes_it_back(page: Page, server: Server) -> None:
    case = server.example("quarry-outboard")
    show(page, case, "search")
    before = datum(server, case)
    mark(page, "datum").focus()
    page.keyboard.press("Shift+ArrowUp")
    expect(page.get_by_role("button", name="Undo").first).to_be_enabled()
    saved(page)
    moved = datum(server, case)
    assert abs(moved[0] - before[0] - 10.0 * METRE_NORTH) < 0.2 * METRE_NORTH
    assert moved[1] == before[1] or abs(moved[1] - before[1]) < 1e-6
    page.get_by_role("button", name="Undo").first.click()
    expect(page.get_by_role("button", name="Undo").first).to_be_disabled()
    assert datum(server, case) == before


def test_a_place_is_dragged_and_written_when_it_is_let_go(page: Page, server: Server) -> None:
    case = server.example("quarry-outboard")
    show(page, case, "search")
    before = datum(server, case)
    place = mark(page, "datum")
    place.scroll_into_view_if_needed()
    box = place.bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 30, y + 5, steps=6)
    assert datum(server, case) == before
    page.mouse.up()
    expect(page.get_by_role("button", name="Undo").first).to_be_enabled()
    saved(page)
    moved = datum(server, case)
    assert moved[1] > before[1]
    assert abs(moved[1] - before[1]) > abs(moved[0] - before[0])
