"""From the call to the printed brief: ten questions with a thumb, a first answer at once, paper at the end."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from browser.meeting import no_sideways_scrolling, nothing_for_axe, wait_for_verdict
from browser.running import Server

BOXES = "main form input[inputmode=decimal]"
TYPED = {"What is it?": "anchor", "Where was it lost?": "North pontoon"}


def answer(page: Page, ask: str) -> None:
    """Answer one question: type what is to be typed, press the first word else, or give an amount."""
    if ask in TYPED:
        page.locator("main form input").first.fill(TYPED[ask])
    elif page.locator(BOXES).count():
        for place, box in enumerate(page.locator(BOXES).all()):  # low and high
            box.fill(str(10 + 2 * place))
    else:
        page.locator("main form .word").first.click()


def test_a_new_case_from_the_call_to_the_printed_brief(phone: Page, server: Server) -> None:
    phone.goto("/#/new")
    for n in range(1, 11):
        expect(phone.get_by_text(f"Question {n} of 10")).to_be_visible()
        answer(phone, phone.locator("main h1").inner_text())
        no_sideways_scrolling(phone)
        if phone.get_by_text(f"Question {n} of 10").count():
            phone.locator("main form button[type=submit]").click()
    nothing_for_axe(phone)
    phone.get_by_role("button", name="Make the case and answer").click()
    expect(phone).to_have_url(re.compile(r"#/case/\w+/first$"))
    wait_for_verdict(phone)
    nothing_for_axe(phone)
    case = re.findall(r"/case/(\w+)/", phone.url)[0]
    document = server.ask(f"cases/{case}")["document"]
    assert (document["object"]["name"], document["site"]["name"]) == ("anchor", "North pontoon")
    phone.goto(f"/#/case/{case}/files")
    paper = phone.locator("a[href*='brief.pdf']").first
    expect(paper).to_be_visible()
    given = phone.request.get(str(paper.get_attribute("href")))
    assert given.status == 200
    assert given.body().startswith(b"%PDF")
