"""Loads, limits and flags of rigging, at the edge of every limit."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from parbuckle.lift.rigging import rigging
from parbuckle.lift.rigging_problem import RiggingItem, RiggingProblem
from parbuckle.lift.rigging_result import RiggingResult
from parbuckle.lift.rigging_table import (
    choke_share,
    class_limits,
    design_factor,
    dynamic_factor,
    end_share,
    hitch_factor,
    rigging_table,
)
from parbuckle.lift.sling import hung
from parbuckle.quantity.errors import RangeError

LEAST, CAUTION = math.radians(30.0), math.radians(60.0)


def solve(*items: RiggingItem, peak: float = 1000.0, **more: Any) -> RiggingResult:
    return rigging(RiggingProblem(np.array([peak]), items, LEAST, CAUTION, **more))


def codes(result: RiggingResult) -> list[str]:
    return [hint.code for hint in result.hints]


MARKED = {
    "connector": ({"make": "bow shackle"}, "over_limit_connector"),
    "sling": ({"make": "webbing"}, "over_limit_sling"),
    "line": ({"kept": 1.0}, "over_limit_line"),
    "bag": ({}, "over_limit_attachment"),
    "lift point": ({}, "over_limit_lift_point"),
}


@pytest.mark.parametrize("kind", MARKED)
def test_at_its_limit_an_item_holds_and_a_hair_over_it_does_not(kind: str) -> None:
    more, code = MARKED[kind]
    held = solve(RiggingItem("X", kind, limit=1000.0, **more))  # type: ignore[arg-type]
    assert held.rows[0].ok is True
    assert held.rows[0].used == pytest.approx(1.0)
    assert codes(held) == []
    over = solve(RiggingItem("X", kind, limit=999.999, **more))  # type: ignore[arg-type]
    assert over.rows[0].ok is False
    assert codes(over) == [code]
    assert over.hints[0].value == pytest.approx(1000.0)
    assert over.hints[0].limit == pytest.approx(999.999)


def test_marked_strength_is_divided_by_the_design_factor() -> None:
    row = solve(RiggingItem("K", "connector", make="carabiner", strength=24000.0, locking=True)).rows[0]
    assert (row.limit_n, row.factor) == (4800.0, 5.0)
    assert row.gate_open_n == pytest.approx(1400.0)
    assert row.cross_n == pytest.approx(1400.0)
    assert "5:1" in row.source


def test_a_sling_marked_with_its_strength_takes_seven() -> None:
    row = solve(RiggingItem("W", "sling", make="webbing", strength=70000.0)).rows[0]
    assert (row.limit_n, row.factor) == (10000.0, 7.0)


def test_a_knot_halves_a_line_whatever_is_marked() -> None:
    assert solve(RiggingItem("L", "line", strength=12000.0)).rows[0].limit_n == pytest.approx(1200.0)
    assert solve(RiggingItem("L", "line", limit=3000.0)).rows[0].limit_n == pytest.approx(1500.0)
    assert solve(RiggingItem("L", "line", strength=12000.0, kept=0.9)).rows[0].limit_n == pytest.approx(2160.0)


def test_shackle_factor_is_five() -> None:
    assert design_factor("bow shackle", "connector").value == 5.0
    assert design_factor("D shackle", "connector").value == 5.0


def test_unknown_make_falls_back_to_its_kind() -> None:
    assert design_factor("", "connector").value == 5.0
    assert design_factor("sail cloth", "sling").value == 7.0
    assert design_factor("", "lift point").value == 5.0


@pytest.mark.parametrize(
    ("degrees", "share"),
    [
        (180, 1.0),
        (135, 1.0),
        (120.001, 1.0),
        (120, 0.87),
        (90, 0.87),
        (89.999, 0.74),
        (60, 0.74),
        (59.999, 0.62),
        (30, 0.62),
        (29.999, 0.49),
        (0, 0.49),
    ],
)
def test_choke_steps_at_their_edges(degrees: float, share: float) -> None:
    assert choke_share(math.radians(degrees)) == share


@pytest.mark.parametrize("degrees", [-0.1, 180.1])
def test_choke_angle_outside_its_range_is_refused(degrees: float) -> None:
    with pytest.raises(RangeError, match="choke angle"):
        choke_share(math.radians(degrees))


def test_choke_takes_the_mode_factor_and_the_step() -> None:
    natural = solve(RiggingItem("W", "sling", hitch="choke", choke_angle=math.radians(130), limit=9806.65)).rows[0]
    assert natural.limit_n == pytest.approx(0.8 * 9806.65)
    assert natural.factor == pytest.approx(0.8)
    unknown = solve(RiggingItem("W", "sling", hitch="choke", limit=9806.65)).rows[0]
    assert unknown.limit_n == pytest.approx(0.8 * 0.87 * 9806.65)
    assert any("Choke angle not given" in note for note in unknown.notes)


@pytest.mark.parametrize(
    "call",
    [
        lambda: hitch_factor("twisted"),
        lambda: dynamic_factor("storm"),
        lambda: class_limits("Z"),
        lambda: end_share(0.0),
        lambda: end_share(1.01),
        lambda: RiggingItem("X", "rope ladder"),
        lambda: RiggingItem("X", "sling", legs=0),
        lambda: RiggingItem("X", "sling", spread=-0.1),
        lambda: RiggingItem("X", "line", strength=-1.0),
    ],
)
def test_words_and_numbers_outside_the_tables_are_refused(call: Any) -> None:
    with pytest.raises(RangeError):
        call()


def test_end_share_at_its_upper_end_is_allowed() -> None:
    assert end_share(1.0).value == 1.0


def sling_at(degrees: float, **more: Any) -> RiggingItem:
    return RiggingItem("R", "sling", legs=2, length=1.0, spread=2 * math.cos(math.radians(degrees)), limit=9e3, **more)


@pytest.mark.parametrize(
    ("degrees", "expected"),
    [(60.01, []), (59.9, ["flat_sling"]), (30.01, ["flat_sling"]), (29.9, ["flat_sling_refused"])],
)
def test_flat_slings_at_the_edges_of_the_house_rule(degrees: float, expected: list[str]) -> None:
    result = solve(sling_at(degrees))
    assert codes(result) == expected
    assert result.rows[0].ok is (expected != ["flat_sling_refused"])
    assert result.sling_angle == pytest.approx(math.radians(degrees))


def test_house_rule_moves_the_edge() -> None:
    steep = RiggingProblem(np.array([1000.0]), (sling_at(50.0),), math.radians(55.0), math.radians(70.0))
    assert codes(rigging(steep)) == ["flat_sling_refused"]


def test_two_of_four_rigid_legs_carry() -> None:
    spread = 2 * math.cos(math.radians(60.0))
    two, four = (
        solve(RiggingItem("R", "sling", legs=legs, length=1.0, spread=spread, limit=9e3)).rows[0] for legs in (2, 4)
    )
    assert two.load_n == pytest.approx(four.load_n) == pytest.approx(1000.0 / 2 / math.sin(math.radians(60.0)))
    assert any("two are taken" in note for note in four.notes)
    assert two.notes == ()


def test_basket_with_parallel_legs_holds_twice_one_leg() -> None:
    row = solve(RiggingItem("W", "sling", hitch="basket", spread=0.0, length=2.0, limit=500.0)).rows[0]
    assert row.load_n == pytest.approx(500.0)
    assert row.ok is True


def test_unknown_leg_angle_takes_the_flattest_leg_and_says_so() -> None:
    row = solve(RiggingItem("R", "sling", legs=2, length=1.0, limit=9e3)).rows[0]
    assert row.load_n == pytest.approx(1000.0)
    assert row.angle is None
    assert any("Leg angle not known" in note for note in row.notes)


def test_unequal_legs_load_the_worse_leg_and_tell_the_tilt() -> None:
    row = solve(RiggingItem("R", "sling", legs=2, length=1.0, second_length=1.2, spread=1.0, limit=9e3)).rows[0]
    even = solve(RiggingItem("R", "sling", legs=2, length=1.0, spread=1.0, limit=9e3)).rows[0]
    assert row.load_n > even.load_n / 1.2
    assert any("out of level" in note for note in row.notes)


@pytest.mark.parametrize("off", [-0.1, 0.1])
def test_the_most_loaded_leg_counts_on_either_side(off: float) -> None:
    pair = hung(1.0, 1.0, 1.0, off)
    row = solve(RiggingItem("R", "sling", legs=2, length=1.0, spread=1.0, off_middle=off, limit=9e3)).rows[0]
    assert pair.first != pytest.approx(pair.second)
    assert row.load_n == pytest.approx(1000.0 * max(pair.first, pair.second))
    assert row.angle == min(pair.first_angle, pair.second_angle)


def test_a_gate_that_is_not_told_to_lock_is_flagged() -> None:
    for locking in (None, False):
        item = RiggingItem("K", "connector", make="carabiner", strength=24000.0, locking=locking)
        assert codes(solve(item)) == ["connector_unlocked"]
        assert solve(item).rows[0].locking is False
    shackle = RiggingItem("S", "connector", make="bow shackle", limit=14709.0)
    assert codes(solve(shackle)) == []
    assert solve(shackle).rows[0].locking is None


def test_nothing_marked_is_flagged_and_no_limit_is_made_up() -> None:
    connector = solve(RiggingItem("K", "connector", make="shackle"))
    assert codes(connector) == ["connector_unmarked"]
    assert (connector.rows[0].limit_n, connector.rows[0].ok, connector.rows[0].used) == (None, None, None)
    for kind in ("sling", "line"):
        assert codes(solve(RiggingItem("X", kind))) == ["strength_unmarked"]


def test_two_things_on_one_attachment_are_flagged() -> None:
    items = (
        RiggingItem("A", "line", strength=5e4, on="crown ring"),
        RiggingItem("B", "line", strength=5e4, on="crown ring"),
        RiggingItem("C", "line", strength=5e4, on="load"),
        RiggingItem("D", "line", strength=5e4),
        RiggingItem("E", "line", strength=5e4),
    )
    result = solve(*items)
    assert [(h.code, h.item, h.value, h.limit) for h in result.hints] == [("shared_attachment", "A and B", 2.0, 1.0)]
    assert [row.shares_with for row in result.rows] == ["B", "A", "", "", ""]


@pytest.mark.parametrize(("sea", "factor"), [("calm", 1.3), ("waves", 2.0)])
def test_the_surface_multiplies_what_leaves_the_water(sea: str, factor: float) -> None:
    items = (
        RiggingItem("K", "connector", make="shackle", limit=9e3, at_surface=True),
        RiggingItem("S", "connector", make="shackle", limit=9e3),
    )
    out, under = solve(*items, peak=500.0, surface=np.array([700.0]), sea=sea).rows
    assert out.load_n == pytest.approx(factor * 700.0)
    assert "judgement" in out.notes[0]
    assert under.load_n == 500.0


def test_the_larger_of_bags_and_surface_governs() -> None:
    item = RiggingItem("K", "connector", make="shackle", limit=9e3, at_surface=True)
    row = solve(item, peak=5000.0, surface=np.array([700.0])).rows[0]
    assert row.load_n == 5000.0
    assert row.notes == ()


def test_an_own_load_replaces_the_pull_on_the_pick_point() -> None:
    assert solve(RiggingItem("C10", "bag", load=np.array([100.0]), limit=588.0)).rows[0].load_n == 100.0


def test_the_high_end_of_the_draws_is_held_against_the_limit() -> None:
    peak = np.linspace(0.0, 1000.0, 1001)
    item = RiggingItem("K", "connector", make="shackle", limit=950.0)
    assert rigging(RiggingProblem(peak, (item,), LEAST, CAUTION)).rows[0].ok is True
    item = RiggingItem("K", "connector", make="shackle", limit=949.9)
    assert rigging(RiggingProblem(peak, (item,), LEAST, CAUTION)).rows[0].ok is False


def test_the_document_row_has_the_keys_of_the_plan() -> None:
    row = solve(RiggingItem("K", "connector", make="shackle", limit=9e3)).rows[0].document()
    assert {"item", "load_n", "limit_n", "factor", "source"} <= set(row)


def test_every_row_of_the_table_has_source_and_mark() -> None:
    table = rigging_table()
    marks = {"read", "read second-hand", "computed", "recalled", "common practice", "judgement"}
    rows = [row for name in ("hitch", "choke", "design") for row in table[name]]
    rows += [table[name] for name in ("angle", "legs", "knot", "connector", "dynamic", "haul")]
    assert rows
    assert all(row["source"] and row["mark"] in marks for row in rows)


def test_no_items_give_no_rows() -> None:
    assert solve().rows == ()
    assert solve().sling_angle is None
