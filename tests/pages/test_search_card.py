"""The search card on paper: a page for each dive, A6 sides in large type, both units, no chance for the divers."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from functools import cache
from typing import Any

import pytest
from sample_document import sample, with_stops
from sample_search_section import pair_of, patterns, search_section, with_search

from parbuckle.brief.figures import Figures
from parbuckle.brief.render import brief_view, render_brief
from parbuckle.brief.search_card import card_view, render_search_card
from parbuckle.brief.search_legs import leg_table, slate_rows
from parbuckle.brief.search_words import search_words
from parbuckle.quantity.errors import CallError

WRITTEN = "2027-04-13 22:10 +01:00"
SIXTEEN, NINE = 16.0, 9.0
A6 = (297.6, 419.5)
CHANCE = re.compile(r"\d\s*%|chance")
BY_HEADING = ("jackstay lanes", "compass lanes", "expanding square", "sector")

MakePdf = Callable[[bytes], Any]


def one_dive(name: str, **more: Any) -> dict[str, Any]:
    """Give a document with one search dive."""
    return with_search(name, sequence=[], **more)


@cache
def card(name: str, paper: str = "a4") -> bytes:
    return render_search_card(one_dive(name), WRITTEN, paper)


def sizes_of(made: Any) -> list[tuple[float, float]]:
    """Give width and height of each page, points."""
    rows = re.findall(r"Page +\d+ size: +([\d.]+) x ([\d.]+)", made.tool("pdfinfo", "-f", "1", "-l", "99"))
    return [(float(wide), float(tall)) for wide, tall in rows]


def small_pages(made: Any) -> list[str]:
    """Give the texts of the A6 sides."""
    return [
        text for text, size in zip(made.pages(), sizes_of(made), strict=True) if math.isclose(size[0], A6[0], abs_tol=1)
    ]


@pytest.mark.parametrize("name", sorted(patterns()))
def test_each_pattern_has_one_page_the_supervisors_page_and_its_sides(name: str, pdf: MakePdf) -> None:
    made = pdf(card(name))
    pages, sizes = made.pages(), sizes_of(made)
    sides = len(slate_rows(patterns()[name], Figures())["sides"]) + 2
    assert len(pages) == 2 + sides
    assert all(abs(a - b) < 1.0 for size in sizes[2:] for a, b in zip(size, A6, strict=True))
    assert f"Search: {name}" in pages[0] and "For the supervisor".lower() in pages[1].lower()
    assert [f"{n} of {sides}" in page for n, page in enumerate(pages[2:], start=1)] == [True] * sides


@pytest.mark.parametrize("name", sorted(patterns()))
def test_type_on_the_slate_is_sixteen_points_at_least(name: str, pdf: MakePdf) -> None:
    made = pdf(card(name))
    for page in range(3, len(made.pages()) + 1):
        assert {size for size in made.sizes(page) if size < SIXTEEN - 0.4} <= {NINE}, page
    assert min(made.sizes(1)) >= NINE - 0.4


@pytest.mark.parametrize("name", sorted(patterns()))
def test_divers_read_no_chance(name: str, pdf: MakePdf) -> None:
    made = pdf(card(name))
    pages = made.pages()
    for page in (pages[0], *pages[2:]):
        assert not CHANCE.search(page), page
    assert CHANCE.search(pages[1])


@pytest.mark.parametrize("name", BY_HEADING)
def test_headings_are_magnetic_and_true_with_declination_and_date(name: str, pdf: MakePdf) -> None:
    made = pdf(card(name))
    leg = next(leg for leg in patterns()[name]["legs"] if leg["kind"] == "leg")
    told = f"{round(leg['heading_mag_deg']) % 360:03d}° {round(leg['heading_true_deg']) % 360:03d}°"
    first, slates = made.pages()[0], small_pages(made)
    assert told in first and "3.0° east on 2027-04-14" in first
    assert any(told in page and "3.0° east on 2027-04-14" in page for page in slates)


def test_without_declination_the_card_says_that_headings_are_true(pdf: MakePdf) -> None:
    best = {**patterns()["sector"]}
    best["legs"] = [{**leg, "heading_mag_deg": None} for leg in best["legs"]]
    document = one_dive("sector", best=best, declination_deg=None, declination_words="The declination is not known.")
    pages = pdf(render_search_card(document, WRITTEN)).pages()
    assert "Headings are true" in pages[0] and "mag" not in pages[0]
    assert any("not known: true only" in page for page in pages[2:])


@pytest.mark.parametrize("name", sorted(patterns()))
def test_every_lane_stands_on_page_and_slate_in_both_units(name: str, pdf: MakePdf) -> None:
    made = pdf(card(name))
    first, slates = _bare(made.pages()[0]), _bare(" ".join(small_pages(made)))
    pattern = patterns()[name]
    for row in leg_table(pattern, Figures())["rows"]:
        assert _bare("".join(row)) in first, row
    for side in slate_rows(pattern, Figures())["sides"]:
        for row in side:
            assert _bare("".join(row)) in slates, row
    lengths = [leg["length_m"] for leg in pattern["legs"] if leg["kind"] != "shift"]
    assert (
        _bare(f"{lengths[0] / 0.3048:.1f}ft").replace(".0ft", "ft") in first or f"{lengths[0] / 0.3048:.0f}ft" in first
    )


def _bare(text: str) -> str:
    return "".join(sign for sign in text if not sign.isspace())


def test_imperial_units_come_first_when_chosen(pdf: MakePdf) -> None:
    document = one_dive("jackstay lanes")
    document["case"]["units"] = "imperial"
    page = _bare(pdf(render_search_card(document, WRITTEN)).pages()[0])
    assert "98.4ft30m" in page


@pytest.mark.parametrize("name", ["circles", "sector"])
def test_what_to_do_stands_on_page_and_slate(name: str, pdf: MakePdf) -> None:
    made = pdf(card(name))
    first, last = _bare(made.pages()[0]), _bare(made.pages()[-1])
    blocks = {key: block for key, block in search_words().items() if key != "turn"}
    assert set(blocks) == {"found", "not_found", "lost_line", "lost_buddy"}
    for block in blocks.values():
        assert all(_bare(words) in first for words in [block["title"], *block["words"]])
        assert all(_bare(words) in last for words in [block["title"], *block["short"]])
    assert "Donotliftit" in last


def test_the_gauge_at_which_each_diver_turns_is_rounded_to_the_safe_side(pdf: MakePdf) -> None:
    document = one_dive("circles")
    document["dives"] = [
        {"does": "lift", "divers": [{"name": "Ada", "leave_bottom_bar": 60.0}]},
        {
            "does": "search",
            "divers": [{"name": "Ines", "leave_bottom_bar": 88.2}, {"name": "Tomas", "leave_bottom_bar": None}],
        },
    ]
    pages = [_bare(page) for page in pdf(render_search_card(document, WRITTEN)).pages()]
    for page in (pages[0], pages[-1]):
        assert "Ines90bar(1310psi)" in page and "60bar" not in page and "Tomas" not in page
    assert 88.2 < 90 < 1310 / 14.5038


def test_each_dive_has_its_own_gauges_and_a_dive_without_gas_has_none() -> None:
    gauges = [{"name": "Ines", "leave_bottom_bar": 88.2}, {"name": "Kaya", "leave_bottom_bar": 70.0}]
    document = with_search("circles")
    document["search"]["sequence"] = [
        {**row, "dive": n, "team": team}
        for n, (row, team) in enumerate(zip(document["search"]["sequence"], (["Ines"], []), strict=True), start=1)
    ]
    document["dives"] = [{"does": "search", "divers": gauges}]
    first, second = card_view(document, WRITTEN)["dives"]
    assert [row["name"] for row in first["turn"]] == ["Ines"] and second["turn"] == []
    assert first["only_if"] == "" and "found nothing" in second["only_if"]


def test_without_gas_there_is_a_line_to_write_on(pdf: MakePdf) -> None:
    made = pdf(card("circles"))
    assert "bar (psi)" in made.pages()[0] and "bar (psi)" in made.pages()[-1]


def test_each_dive_to_come_has_its_own_card(pdf: MakePdf) -> None:
    made = pdf(render_search_card(with_search("circles"), WRITTEN))
    pages = made.pages()
    assert "Search dive 2: circles" in pages[0] and "Ines, Tomas" in pages[0]
    assert "Search dive 3: jackstay lanes" in pages[1] and "Ada, Jon" in pages[1]
    assert sum("of 3" in page for page in small_pages(made)) == 6


def test_two_patterns_in_one_dive_are_two_cards_in_their_order(pdf: MakePdf) -> None:
    document = one_dive("circles", second=pair_of("circles", "sector"))
    pages = pdf(render_search_card(document, WRITTEN)).pages()
    assert "Search: circles" in pages[0]
    assert "Two in one dive, 1: circles" in pages[1] and "Two in one dive, 2: sector" in pages[2]


def test_stops_stand_on_every_page_and_every_side_stays_one_page(pdf: MakePdf) -> None:
    for name in patterns():
        document = with_stops()
        document["search"] = {**search_section(name), "sequence": []}
        made = pdf(render_search_card(document, WRITTEN))
        pages = made.pages()
        assert len(pages) == len(pdf(card(name)).pages()), name
        assert all("STOP" in page for page in pages), name


def test_the_supervisors_page_says_what_has_been_proved_and_at_what_sight(pdf: MakePdf) -> None:
    page = pdf(card("circles")).pages()[1]
    proved = search_section()["proved"]
    for text in (proved["words"], proved["stop_words"], "never tried on a sample", "55\u202f%", "Skipper", "Angler"):
        assert _bare(text) in _bare(page), text


def test_the_brief_has_the_page_only_with_a_search(pdf: MakePdf) -> None:
    assert brief_view(sample(), WRITTEN)["search"] is None
    pages = pdf(render_brief(with_search(), WRITTEN)).pages()
    found = [n for n, page in enumerate(pages) if "Where it may be" in page]
    assert len(found) == 1 and found[0] > 0
    assert "Slate" in pages[-1] and not CHANCE.search(pages[-1])


def test_many_rings_and_bare_sections_still_make_a_card(pdf: MakePdf) -> None:
    circles = patterns()["circles"]
    ring = next(leg for leg in circles["legs"] if leg["kind"] == "ring")
    many = [{**ring, "n": n, "mark_m": 0.5 * n, "ring": {**ring["ring"], "radius_m": 0.5 * n}} for n in range(1, 46)]
    document = sample()
    document["search"] = {"best": {"pattern": "circles", "legs": many}}
    made = pdf(render_search_card(document, WRITTEN))
    assert _bare("".join(made.pages())).count("22.5m73.8ft") >= 2
    assert all("of 5" in page for page in small_pages(made))
    assert len(small_pages(made)) == 5


def test_without_a_pattern_the_call_is_refused_in_words() -> None:
    for search in (None, {}, {"best": {"pattern": "circles", "legs": []}}):
        with pytest.raises(CallError, match="no search pattern"):
            render_search_card({**sample(), "search": search}, WRITTEN)
    with pytest.raises(CallError, match="not known"):
        card_view(with_search(), WRITTEN, "a3")


def test_equal_calls_give_equal_bytes_with_tags_and_fonts_inside(pdf: MakePdf) -> None:
    again = render_search_card(one_dive("circles"), WRITTEN)
    assert again == card("circles")
    made = pdf(again)
    assert made.info("Tagged") == "yes"
    assert made.fonts() and all("yes" in row for row in made.fonts())


def test_a_text_is_printed_and_never_run(pdf: MakePdf) -> None:
    document = one_dive("circles")
    hostile: Mapping[str, Any] = {**document["search"]["best"], "words": "#panic() *x* $y$", "needs": ["<tag> @home"]}
    document["search"]["best"] = hostile
    page = pdf(render_search_card(document, WRITTEN)).pages()[0]
    assert "#panic() *x* $y$" in page and "<tag> @home" in page
