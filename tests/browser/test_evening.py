"""An evening with the app: a case from the call to the printed brief, every stage of the three cases, undo, units."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from browser.meeting import STAGES, VIEWS, entry, field, no_sideways_scrolling, nothing_for_axe, show, wait_for_verdict
from browser.running import SCREENS, Server

TITLES = ("Outboard off the pump-house pontoon", "Current-meter frame, east channel", "Exercise: raise the drum")
CASES = ("quarry-outboard", "tidal-frame", "training-drum")


def test_the_first_page_lists_the_three_cases_and_the_way_to_a_new_one(page: Page) -> None:
    page.goto("/")
    for title in TITLES:
        expect(page.get_by_role("link", name=title).first).to_be_visible()
    expect(page.get_by_role("link", name="New case").first).to_be_visible()
    nothing_for_axe(page)


@pytest.mark.parametrize("name", CASES)
def test_every_stage_and_view_of_a_case(page: Page, server: Server, name: str) -> None:
    case = server.example(name)
    for place in (*STAGES, *VIEWS):
        show(page, case, place)
        page.wait_for_timeout(300)
        nothing_for_axe(page)
        no_sideways_scrolling(page)
        page.screenshot(path=SCREENS / f"{name}-{place}-wide.png", full_page=True)


@pytest.mark.parametrize("name", CASES)
def test_every_stage_and_view_on_a_phone(phone: Page, server: Server, name: str) -> None:
    case = server.example(name)
    for place in (*STAGES, *VIEWS):
        show(phone, case, place)
        phone.wait_for_timeout(300)
        no_sideways_scrolling(phone)
        phone.screenshot(path=SCREENS / f"{name}-{place}-phone.png", full_page=True)
    nothing_for_axe(phone)


@pytest.mark.parametrize("theme", ["dark", "sun"])
def test_other_themes_and_print(page: Page, server: Server, theme: str) -> None:
    case = server.example("quarry-outboard")
    page.goto("/")
    page.evaluate(f"localStorage.setItem('parbuckle.theme', '{theme}')")
    page.reload()
    for place in ("object", "lift", "tonight"):
        show(page, case, place)
        assert page.locator("html").get_attribute("data-theme") == theme
        nothing_for_axe(page)
        page.screenshot(path=SCREENS / f"quarry-{place}-{theme}.png", full_page=True)
    page.emulate_media(media="print")
    page.pdf(path=SCREENS / f"quarry-tonight-{theme}.pdf")


def test_a_wrong_unit_is_told_beside_the_field_and_takes_the_verdict_away(page: Page, server: Server) -> None:
    case = server.example("quarry-outboard")
    show(page, case, "call")
    entry(page, "site.depth").fill("16 parsecs")
    wait_for_verdict(page, "wrong")
    expect(field(page, "site.depth").locator(".fault")).to_contain_text("parsecs")
    expect(page.get_by_text("No stop found in what you told me")).to_have_count(0)
    entry(page, "site.depth").fill("52.5 ft")
    wait_for_verdict(page)
    expect(field(page, "site.depth").locator(".fault")).to_have_count(0)
    expect(field(page, "site.depth")).to_contain_text("16 m")


def test_undo_and_redo_after_a_reload(page: Page, server: Server) -> None:
    case = server.example("quarry-outboard")
    show(page, case, "call")
    before = entry(page, "site.depth").input_value()
    entry(page, "site.depth").fill("21 m")
    wait_for_verdict(page)
    page.reload()
    show(page, case, "call")
    expect(entry(page, "site.depth")).to_have_value("21 m")
    page.get_by_role("button", name="Undo").first.click()
    expect(entry(page, "site.depth")).to_have_value(before)
    page.get_by_role("button", name="Redo").first.click()
    expect(entry(page, "site.depth")).to_have_value("21 m")


def test_a_control_without_a_name_and_a_wide_page_would_be_seen(page: Page) -> None:
    page.goto("/")
    expect(page.locator("main h1").first).to_be_visible()
    page.evaluate("document.querySelector('main').append(document.createElement('button'))")
    with pytest.raises(AssertionError, match="button-name"):
        nothing_for_axe(page)
    page.evaluate("document.querySelector('main h1').style.width = '3000px'")
    with pytest.raises(AssertionError):
        no_sideways_scrolling(page)
