"""The way up on paper: what the team reads, what only the supervisor reads, the card for the water."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cache
from typing import Any

import pytest
from sample_ascent import ascents, tended
from sample_document import sample, with_stops

from parbuckle.brief.control_view import chance, control_view
from parbuckle.brief.render import brief_view, render_brief
from parbuckle.brief.states import holding_stops
from parbuckle.brief.way_page import way_page

WRITTEN = "2027-04-13 22:10 +01:00"
NINE, SIXTEEN = 9.0, 16.0
TENDED = ("tended", "edge", "not_held", "feet")
CHANCE = re.compile(r"\b(of|in) (a hundred|100)\b|chance")

MakePdf = Callable[[bytes], Any]


@cache
def brief(name: str, paper: str = "a4") -> bytes:
    return render_brief(ascents()[name], WRITTEN, paper)


@pytest.mark.parametrize(
    ("name", "paper"), [*((name, "a4") for name in sorted(ascents())), ("tended", "us-letter"), ("alone", "us-letter")]
)
def test_each_way_has_its_page_behind_page_one(name: str, paper: str, pdf: MakePdf) -> None:
    pages = pdf(brief(name, paper)).pages()
    assert "Emergency" in pages[0]
    assert ("The way down" if name == "down" else "The way up") in pages[1]
    assert "For the supervisor" in pages[2]
    assert "Slate" in pages[-1]


@pytest.mark.parametrize("name", TENDED)
def test_people_in_the_water_get_no_chances(name: str, pdf: MakePdf) -> None:
    pages = pdf(brief(name)).pages()
    for page in (pages[0], pages[-2], pages[-1]):
        assert not CHANCE.search(page), page
    way = pages[1].replace("90 of 100 between the thin lines", "")
    assert not CHANCE.search(way), way
    assert CHANCE.search(pages[2])


def test_the_page_says_what_to_do_where_and_when_to_let_go(pdf: MakePdf) -> None:
    document = tended()
    told = document["ascent"]["under_control"]
    page = pdf(brief("tended")).pages()[1]
    texts = [
        *told["let_go_if"],
        told["policy_words"],
        told["people_words"],
        *(row["words"] for row in told["expect"][:4]),
    ]
    texts += [row["does"] for row in told["who"]]
    for text in texts:
        assert text in page
    assert told["expect"][4]["words"] not in page  # nobody is there any more
    assert "Can be held." in page
    assert "nobody vents" in page


def test_the_card_is_big_and_stands_before_the_slate(pdf: MakePdf) -> None:
    document = tended()
    made = pdf(brief("tended"))
    pages = made.pages()
    card = pages[-2].replace(" ", "")
    for text in document["ascent"]["under_control"]["runaway_card"]:
        assert text.replace(" ", "") in card.replace("-\n", "-")
    sizes = made.sizes(len(pages) - 1)
    assert min(size for size in sizes if size > NINE) >= SIXTEEN
    assert not re.search(r"\d", "".join(document["ascent"]["under_control"]["runaway_card"]))


@pytest.mark.parametrize("name", sorted(ascents()))
def test_no_word_is_smaller_than_nine_points(name: str, pdf: MakePdf) -> None:
    made = pdf(brief(name))
    for number in range(1, len(made.pages()) + 1):
        assert all(size >= NINE for size in made.sizes(number)), number


def test_a_stop_stands_on_the_page_and_on_the_card(pdf: MakePdf) -> None:
    document = tended()
    document["findings"] = with_stops()["findings"]
    for page in pdf(render_brief(document, WRITTEN)).pages():
        for text in holding_stops(document):
            assert text in page


@pytest.mark.parametrize("name", sorted(ascents()))
def test_every_page_is_stamped(name: str, pdf: MakePdf) -> None:
    document = ascents()[name]
    pages = pdf(brief(name)).pages()
    for number, page in enumerate(pages, start=1):
        assert f"page {number} of {len(pages)}" in page
        assert document["case"]["title"] in page
        assert WRITTEN in page
        assert all(line in page for line in document["cautions_footer"])


@pytest.mark.parametrize("name", sorted(ascents()))
def test_no_number_is_invented(name: str, pdf: MakePdf) -> None:
    document = ascents()[name]
    allowed = {number for text in _texts(brief_view(document, WRITTEN)) for number in _numbers(text)}
    allowed |= {str(number) for number in range(1, 8)}  # pages
    for page in pdf(brief(name)).pages():
        assert set(_numbers(page)) <= allowed


def test_without_a_measured_pull_no_count_is_told() -> None:
    document = tended()
    labels = [row["label"] for row in (control_view(document) or {})["numbers"]]
    assert "Dump opens" in labels
    document["ascent"]["pull_measured"] = False
    numbers = (control_view(document) or {})["numbers"]
    assert "Dump opens" not in [row["label"] for row in numbers]
    assert "One pull (not measured)" in [row["label"] for row in numbers]


def test_a_lift_that_is_not_tended_has_no_page(pdf: MakePdf) -> None:
    assert way_page(sample(), 530.0) is None
    pages = pdf(render_brief(sample(), WRITTEN)).pages()
    assert not [page for page in pages if "The way up" in page or "If it runs away" in page]


@pytest.mark.parametrize("state", ["can be held", "on the edge", "cannot be held"])
def test_page_one_and_the_way_up_say_the_same_state(state: str, pdf: MakePdf) -> None:
    document = tended()
    document["ascent"]["under_control"]["state"] = state
    pages = pdf(render_brief(document, WRITTEN)).pages()
    assert f"State: {state}." in pages[0]
    assert f"{state[0].upper()}{state[1:]}." in pages[1]


def test_a_load_that_is_put_down_is_held_back_on_page_one(pdf: MakePdf) -> None:
    page = pdf(brief("down")).pages()[0]
    assert "To hold back" in page
    assert "Left over when it lets go" not in page
    assert ascents()["down"]["ascent"]["lowering"]["if_let_go"]["words"] in page


@pytest.mark.parametrize(
    ("share", "error", "text"),
    [
        (None, None, ""),
        (0.0, 0.003, "under 1 of 100"),
        (0.004, 0.003, "under 1 of 100"),
        (0.006, 0.003, "1 of 100 (± 1)"),
        (0.994, 0.003, "99 of 100 (± 1)"),
        (0.996, 0.003, "over 99 of 100"),
        (1.0, None, "over 99 of 100"),
        (0.5, 0.031, "50 of 100 (± 4)"),
        (0.5, None, "50 of 100"),
    ],
)
def test_a_chance_is_never_told_as_certain(share: float | None, error: float | None, text: str) -> None:
    assert chance(share, error) == text


@pytest.mark.parametrize(
    ("longest", "least", "words"),
    [
        (None, False, "No reaction time that was tried holds it."),
        (1.5, False, "Held up to a reaction of 1.5\u202fs."),
        (3.0, True, "Held up to a reaction of at least 3\u202fs."),
    ],
)
def test_the_longest_reaction_is_told(longest: float | None, least: bool, words: str) -> None:
    document = tended()
    document["ascent"]["under_control"] |= {"longest_delay_s": longest, "longest_delay_at_least": least}
    assert (control_view(document) or {})["longest"] == words


def _texts(view: Any) -> Iterator[str]:
    if isinstance(view, dict):
        for value in view.values():
            yield from _texts(value)
    elif isinstance(view, list):
        for value in view:
            yield from _texts(value)
    elif isinstance(view, str):
        yield view if not view.startswith("<svg") else " ".join(re.findall(r">([^<]+)<", view))


def _numbers(text: str) -> list[str]:
    return re.findall(r"\d+(?:[.,]\d+)*", text)
