"""The pool-test sheet and the laminated table: pages, words, legible type."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from parbuckle.brief.bag_table import render_table, table_view
from parbuckle.brief.pool_sheet import pool_view, render_pool_sheet

WRITTEN = "2027-04-13 22:10 +01:00"
BAGS: list[dict[str, Any]] = [
    {"id": "C25", "style": "closed", "marked_l": 25.0, "really_l": {"low": 25.6, "likely": 26.1, "high": 26.6}},
    {"id": "C15", "style": "closed", "marked_l": 15.0, "really_l": None},
    {"id": "P50 #1", "style": "open", "marked_l": 50.0},
]
KIT: dict[str, Any] = {
    "team": "Crew *one*",
    "version": "0.1.0",
    "bags": BAGS,
    "cylinders": ["L7"],
    "people": ["Ines", "Tomas"],
}
LEAST = 8.0

MakePdf = Callable[[bytes], Any]


def _cell(load: float, depth: float) -> dict[str, Any]:
    bags = [
        {"id": "C25", "fill": "full", "litres": 26.1, "seconds": 30.0 + depth},
        {"id": "C15", "fill": "part", "litres": load / 4, "seconds": 12.0},
    ]
    if load > BAGS[2]["marked_l"]:
        return {"depth_m": depth, "bags": [], "bar": None, "note": "no bag of this team"}
    return {"depth_m": depth, "bags": bags, "bar": 20.0 + depth, "note": ""}


def _table() -> dict[str, Any]:
    depths = [3.0 * number for number in range(1, 11)]
    rows = [
        {"load_kg": load, "cells": [_cell(load, depth) for depth in depths]} for load in (10.0, 20.0, 30.0, 40.0, 60.0)
    ]
    waters = [{"name": "Sea water", "rows": rows}, {"name": "Fresh water", "rows": rows}]
    return {
        "team": "Crew",
        "version": "0.1.0",
        "cylinder": "L7, 200 bar, air",
        "bags": BAGS,
        "waters": waters,
        "assumptions": ["No stream."],
    }


def test_the_table_is_two_pages_one_for_each_water(pdf: MakePdf) -> None:
    made = pdf(render_table(_table(), WRITTEN))
    pages = made.pages()
    assert len(pages) == len(_table()["waters"])
    assert "Sea water" in pages[0]
    assert "Fresh water" in pages[1]
    assert made.info("Tagged") == "yes"
    assert all(row[-5] == "yes" for row in made.fonts())


def test_the_table_stays_legible_when_it_is_full(pdf: MakePdf) -> None:
    table = _table()
    for water in table["waters"]:
        water["rows"] = water["rows"][:4] * 3 + water["rows"][4:]
    made = pdf(render_table(table, WRITTEN))
    assert len(made.pages()) == len(table["waters"])
    assert min(made.sizes(1) | made.sizes(2)) >= LEAST


def test_the_table_holds_what_it_was_given(pdf: MakePdf) -> None:
    page = pdf(render_table(_table(), WRITTEN)).pages()[0]
    for words in ("no bag of this team", "L7, 200 bar, air", "No stream.", "C25 full", "Local rules"):
        assert words in page


def test_the_marks_of_the_table_are_rounded_down() -> None:
    table = _table()
    table["waters"][0]["rows"][0]["cells"][0]["bags"][1]["litres"] = 12.9
    cell = table_view(table, WRITTEN)["waters"][0]["rows"][0]["cells"][0]
    assert cell["bags"][1]["fill"].startswith("to 12")


def test_a_table_in_imperial_units_starts_with_them() -> None:
    view = table_view({**_table(), "units": "imperial"}, WRITTEN)
    assert view["waters"][0]["rows"][0]["load"]["first"].endswith("lb")
    assert view["waters"][0]["depths"][0]["first"].endswith("ft")


def test_the_pool_sheet_names_every_bag_and_diver(pdf: MakePdf) -> None:
    made = pdf(render_pool_sheet(KIT, WRITTEN))
    pages = made.pages()
    assert len(pages) in (1, 2)
    text = " ".join(pages)
    for words in (
        "Crew *one*",
        "C25",
        "P50 #1",
        "L7",
        "Ines",
        "Tomas",
        "One pull",
        "Marks at",
        "Hand",
        "At rest",
        "seen",
    ):
        assert words in text
    assert all(row[-5] == "yes" for row in made.fonts())


def test_an_empty_kit_still_has_boxes(pdf: MakePdf) -> None:
    pages = pdf(render_pool_sheet({}, WRITTEN)).pages()
    assert "Pool test" in pages[0]
    assert pool_view({}, WRITTEN)["bags"] == []


@pytest.mark.parametrize("render", [lambda: render_table(_table(), WRITTEN), lambda: render_pool_sheet(KIT, WRITTEN)])
def test_same_input_same_bytes(render: Callable[[], bytes]) -> None:
    assert render() == render()
