"""The page shows a verdict for exactly what stands there, keeps what is typed, and writes over nobody in silence."""

from __future__ import annotations

import json
from typing import Any

from playwright.sync_api import BrowserContext, Page, Route, expect

from browser.meeting import entry, show, wait_for_verdict
from browser.running import WATCHES, Server


def test_answers_that_come_late_and_out_of_order_are_not_shown(page: Page, server: Server) -> None:
    """Every answer is held back; the older ones are let go last, and none of them is taken for the newest."""
    case = server.example("quarry-outboard")
    show(page, case, "call")
    held: list[Route] = []
    page.route(f"**/api/cases/{case}/plan", lambda route: held.append(route))
    for depth in ("17 m", "18 m", "19 m"):
        entry(page, "site.depth").fill(depth)
        wait_for_verdict(page, "working")
        page.wait_for_timeout(250)
    assert held
    newest, older = held[-1], held[:-1]
    old = server.ask(f"cases/{case}/plan")
    stale = json.dumps({**old, "revision": old["revision"] - 1, "digest": "older"})
    for route in older:
        route.fulfill(status=200, content_type="application/json", body=stale)
    page.wait_for_timeout(300)
    wait_for_verdict(page, "working")
    newest.continue_()
    wait_for_verdict(page)
    assert server.ask(f"cases/{case}")["document"]["site"]["depth"] == "19 m"


def test_the_verdict_is_gone_while_an_answer_is_on_its_way(page: Page, server: Server) -> None:
    case = server.example("quarry-outboard")
    show(page, case, "call")
    page.route(f"**/api/cases/{case}/edits", lambda route: (page.wait_for_timeout(600), route.continue_()))
    entry(page, "site.depth").fill("18 m")
    wait_for_verdict(page, "working")
    expect(page.locator("[data-verdict=known]")).to_have_count(0)
    wait_for_verdict(page)


def test_two_windows_see_each_other(context: BrowserContext, server: Server) -> None:
    case = server.example("quarry-outboard")
    one, two = context.new_page(), context.new_page()
    show(one, case, "call")
    show(two, case, "call")
    entry(one, "site.depth").fill("22 m")
    expect(entry(two, "site.depth")).to_have_value("22 m")
    entry(two, "site.visibility").fill("2 m")
    expect(entry(one, "site.visibility")).to_have_value("2 m")
    wait_for_verdict(one)
    wait_for_verdict(two)


def test_two_people_at_one_field_are_told_of_each_other(context: BrowserContext, server: Server) -> None:
    page = context.new_page()
    case = server.example("quarry-outboard")
    show(page, case, "call")
    page.route("**/api/events", lambda route: route.abort())
    page.route(f"**/api/cases/{case}/edits", lambda route: _first(server, case, route))
    entry(page, "site.depth").fill("23 m")
    told = page.get_by_role("alertdialog").or_(page.get_by_role("dialog")).or_(page.get_by_role("alert")).first
    expect(told).to_contain_text("Bo")
    document = server.ask(f"cases/{case}")["document"]
    assert document["site"]["depth"] == "30 m"
    WATCHES[context].forgive("409", "ERR_FAILED")


def _first(server: Server, case: str, route: Route) -> None:
    """Let somebody else be first, once."""
    told: dict[str, Any] = server.ask(f"cases/{case}")
    if told["document"]["site"]["depth"] != "30 m":
        change = {"op": "set", "path": ["site", "depth"], "value": "30 m"}
        server.ask(f"cases/{case}/edits", {"base": told["revision"], "who": "Bo", "changes": [change]})
    route.continue_()


def test_a_server_that_dies_loses_nothing(own_context: BrowserContext, own_server: Server) -> None:
    case = own_server.example("quarry-outboard")
    page = own_context.new_page()
    show(page, case, "call")
    own_server.stop()
    entry(page, "site.depth").fill("19 m")
    expect(page.locator("[data-banner=away]").first).to_be_visible()
    expect(page.locator("[data-verdict=known]")).to_have_count(0)
    expect(entry(page, "site.depth")).to_have_value("19 m")
    own_server.start()
    expect(page.locator("[data-banner=away]")).to_have_count(0, timeout=30_000)
    wait_for_verdict(page)
    expect(entry(page, "site.depth")).to_have_value("19 m")
    assert own_server.ask(f"cases/{case}")["document"]["site"]["depth"] == "19 m"
    WATCHES[own_context].forgive("ERR_CONNECTION", "Failed to load", "ERR_INCOMPLETE")
