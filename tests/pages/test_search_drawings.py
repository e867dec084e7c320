"""Sketch and map of a search: to scale, north up, inside their frame, every lane on it."""

from __future__ import annotations

import math
import re
from typing import Any
from xml.etree import ElementTree

import pytest
from sample_document import sample
from sample_search_section import patterns, search_section, with_search

from parbuckle.brief.drawing import Board
from parbuckle.brief.figures import Figures
from parbuckle.brief.search_ground import Ground, ring
from parbuckle.brief.search_legs import ends_of_arcs, leg_table, slate_rows
from parbuckle.brief.search_map import search_map
from parbuckle.brief.search_page import search_page, share
from parbuckle.brief.search_sketch import search_sketch

WIDE, TALL = 320.0, 300.0
SQUARE = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]


def sketch(name: str, size: float = 9.0) -> dict[str, Any]:
    drawn = search_sketch(patterns()[name], search_section(), WIDE, TALL, Figures(), size)
    assert drawn is not None
    return drawn


def texts(svg: str) -> list[str]:
    return [element.text or "" for element in ElementTree.fromstring(svg).iter() if element.tag.endswith("text")]


def points(svg: str) -> list[tuple[float, float]]:
    listed = re.findall(r'<poly(?:line|gon) points="([^"]+)"', svg)
    pairs = [pair.split(",") for one in listed for pair in one.split()]
    return [(float(x), float(y)) for x, y in pairs]


@pytest.mark.parametrize("name", sorted(patterns()))
def test_all_lanes_are_numbered_and_all_lies_on_the_sheet(name: str) -> None:
    drawn = sketch(name)
    told = texts(drawn["svg"])
    count = sum(leg["kind"] != "shift" for leg in patterns()[name]["legs"])
    assert str(count) in told
    assert sum(text.isdigit() for text in told) >= count - 1
    assert "N" in told and any(re.search(r"\d\D?m \(\d+\D?ft\)", text) for text in told)
    assert any("start" in text for text in told) and any("end" in text for text in told)
    assert all(-1.0 <= x <= WIDE + 1.0 and -1.0 <= y <= TALL + 1.0 for x, y in points(drawn["svg"]))


def test_the_scale_bar_is_as_long_as_it_says() -> None:
    seen = [(0.0, 0.0), (40.0, 30.0)]
    board = Board(WIDE, TALL)
    ground = Ground(board, (10.0, 10.0, WIDE - 10.0, TALL - 40.0), seen)
    ground.signs(Figures())
    drawn = board.svg()
    length = float(re.findall(r"\d+", next(text for text in texts(drawn) if "ft" in text))[0])
    bar = [p for p in points(drawn) if math.isclose(p[1], TALL - 5.0, abs_tol=0.01)]
    assert math.isclose(
        max(x for x, _ in bar if x < WIDE / 2) - min(x for x, _ in bar), length * ground.scale, abs_tol=0.1
    )


def test_north_is_up_and_east_to_the_right() -> None:
    ground = Ground(Board(100.0, 100.0), (0.0, 0.0, 100.0, 100.0), SQUARE)
    west, east, north = (ground.at(place) for place in ((0.0, 5.0), (10.0, 5.0), (5.0, 10.0)))
    assert west[0] < east[0] and west[1] == east[1] and north[1] < east[1]


def test_a_far_datum_is_left_off_and_said() -> None:
    best = patterns()["sector"]
    far = {
        **best,
        "legs": [
            {**leg, "from": [leg["from"][0] + 200, leg["from"][1]], "to": [leg["to"][0] + 200, leg["to"][1]]}
            for leg in best["legs"]
        ],
    }
    drawn = search_sketch(far, search_section(), WIDE, TALL, Figures())
    assert drawn is not None and "datum lies outside" in drawn["caption"] and "datum" not in texts(drawn["svg"])
    assert "datum" in " ".join(texts(sketch("circles")["svg"]))


def test_without_legs_there_is_no_sketch() -> None:
    assert search_sketch({"pattern": "circles"}, {}, WIDE, TALL, Figures()) is None


def test_a_shape_is_cut_at_the_box() -> None:
    ground = Ground(Board(100.0, 100.0), (0.0, 0.0, 100.0, 100.0), SQUARE)
    cut = ground.within([(-50.0, 5.0), (50.0, 5.0), (50.0, 50.0), (-50.0, 50.0)])
    assert {(round(x), round(y)) for x, y in cut} == {(0, 50), (100, 50), (100, 0), (0, 0)}
    assert ground.within([(20.0, 20.0), (30.0, 20.0), (30.0, 30.0)]) == []


@pytest.mark.parametrize("turn", [90.0, -220.0, 360.0])
def test_an_arc_keeps_its_radius_and_ends_where_it_is_told(turn: float) -> None:
    places = ring((3.0, -2.0), 7.0, 40.0, 40.0 + turn)
    assert all(math.isclose(math.dist(place, (3.0, -2.0)), 7.0) for place in places)
    end = math.radians(40.0 + turn)
    assert math.dist(places[-1], (3.0 + 7.0 * math.sin(end), -2.0 + 7.0 * math.cos(end))) < 1e-9


def test_the_map_has_its_lines_dots_accounts_and_datum() -> None:
    drawn = search_map(with_search(), WIDE, TALL)
    assert drawn is not None
    told = texts(drawn["svg"])
    for text in ("50\u202f%", "75\u202f%", "90\u202f%", "95\u202f%", "Skipper", "Angler", "datum", "N"):
        assert text in told, text
    assert drawn["svg"].count("<circle") >= len(search_section()["dots"])
    assert "Crossed: cannot be searched." in drawn["caption"]


def test_the_map_of_little_is_still_a_map() -> None:
    assert search_map(sample(), WIDE, TALL) is None
    only = {**sample(), "search": {"dots": [[0.0, 0.0], [4.0, 4.0]]}}
    drawn = search_map(only, WIDE, TALL)
    assert drawn is not None and drawn["svg"].count("<circle") >= 2


def test_lanes_that_go_to_and_fro_share_a_row_and_others_do_not() -> None:
    made = patterns()
    assert [row[0] for row in leg_table(made["jackstay lanes"], Figures())["rows"]] == ["1, 3 … 13", "2, 4 … 14"]
    assert len(leg_table(made["sector"], Figures())["rows"]) == 18
    assert leg_table(made["compass lanes"], Figures())["head"][0] == "Lane"
    assert leg_table(made["arcs"], Figures())["head"][0] == "Arc"
    turns = [row[-1] for row in leg_table(made["circles"], Figures())["rows"]]
    assert turns[:4] == ["right", "left", "right", "left"]


def test_arcs_say_between_which_bearings_and_whole_rings_do_not() -> None:
    made = patterns()
    assert ends_of_arcs(made["arcs"]) == [("Between", "297° to 077° mag, 300° to 080° true")]
    assert ends_of_arcs(made["circles"]) == []
    legs = [dict(leg) for leg in made["circles"]["legs"]]
    legs[-1]["ring"] = {**legs[-1]["ring"], "from_deg": 10.0, "to_deg": 250.0}
    assert ends_of_arcs({"legs": legs}) == [("Ring 11", "007° to 247° mag, 010° to 250° true")]


def test_a_long_table_goes_on_over_several_sides() -> None:
    sides = slate_rows(patterns()["sector"], Figures())["sides"]
    assert [len(side) for side in sides] == [8, 8, 2]
    assert [row[0] for side in sides for row in side] == [str(n) for n in range(1, 19)]


def test_chances_are_never_sure_unless_they_are() -> None:
    assert [share(value) for value in (0.0, 0.001, 0.994, 0.9999, 1.0, None)] == [
        "0\u202f%", "under 1\u202f%", "99\u202f%", "over 99\u202f%", "100\u202f%", "",
    ]  # fmt: skip


def test_the_page_keeps_the_order_and_names_what_cannot_be_swum() -> None:
    refused = {"pattern": "along a wall", "why_not": "it needs a wall, and none is given", "chance": None}
    page = search_page(with_search(alternatives=[patterns()["arcs"], refused]), 500.0)
    assert page is not None
    assert [row["pattern"] for row in page["ways"]] == ["circles", "arcs", "along a wall"]
    assert page["ways"][-1] == {
        "pattern": "along a wall",
        "chance": "",
        "of_bound": "",
        "minutes": "",
        "why": "It needs a wall, and none is given.",
    }
    assert search_page(sample(), 500.0) is None
