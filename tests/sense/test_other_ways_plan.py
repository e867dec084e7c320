"""Bag and line, alone in its phases and lowering as a whole plan tells them: shipped cases, changed."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from guard.tree import PACKAGE
from parbuckle.brief.first_page import first_page
from parbuckle.brief.other_ways import other_ways
from parbuckle.brief.second_page import second_page
from parbuckle.desk.planning import plan
from parbuckle.quantity.errors import CaseError

CASES = PACKAGE / "data" / "cases"
Change = tuple[str, str]
Edit = Callable[..., dict[str, Any]]
BLOCK, TIDAL, QUARRY = "mooring-block", "tidal-frame", "quarry-outboard"


@pytest.fixture
def edit(tmp_path: Path) -> Edit:
    """Plan a shipped case with some of its text, or of its kit's, replaced."""

    def planned(case: str, *changes: Change, kit: tuple[Change, ...] = ()) -> dict[str, Any]:
        for name, pairs in ((case, changes), ("kit", kit)):
            text = (CASES / f"{name}.toml").read_text(encoding="utf-8")
            for old, new in pairs:
                assert old in text, old
                text = text.replace(old, new, 1)
            (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")
        return plan(tmp_path / f"{case}.toml", 256, 1)

    return planned


def codes(document: dict[str, Any]) -> set[str]:
    return {f["code"] for f in document["findings"]}


def down(document: dict[str, Any]) -> dict[str, Any]:
    told: dict[str, Any] = document["ascent"]["lowering"]
    return told


def test_a_block_is_put_down_without_any_lift(edit: Edit) -> None:
    document = edit(BLOCK)
    told = down(document)
    assert document["lift"]["method"] == "lowered"
    assert document["load"]["breakout_kg"]["high"] == 0.0
    assert document["unanswered"] == []
    assert told["hold_back_n"]["low"] < told["hold_back_n"]["high"] < told["line_limit_n"]
    assert [row["gas_l"] for row in told["by_depth"]] == sorted(row["gas_l"] for row in told["by_depth"])
    assert told["by_depth"][-1]["gas_l"] == pytest.approx(told["gas_to_add_l"]["likely"], rel=1e-6)
    assert any("by the table" in step["text"] for step in document["steps"])
    assert not any("snags" in step["text"] or "Do not lift" in step["text"] for step in document["steps"])
    json.dumps(document, allow_nan=False)


def test_every_view_takes_a_load_that_is_put_down(edit: Edit) -> None:
    document = edit(BLOCK)
    assert first_page(document)["method"]["name"] == "Lowered"
    assert second_page(document)["methods"] == []
    assert other_ways(document)["down"] is not None


def test_a_line_alone_needs_no_gas_and_a_bag_alone_no_line(edit: Edit) -> None:
    line = edit(BLOCK, ('way = "bag and line"', 'way = "line"'), ('cylinder = "L7"\n', ""))
    bag = edit(BLOCK, ('way = "bag and line"', 'way = "bag"'))
    assert down(line)["gas_to_add_l"] is None
    assert line["unanswered"] == []
    assert down(line)["hold_back_n"]["likely"] > down(edit(BLOCK))["hold_back_n"]["likely"]
    assert down(bag)["hold_back_n"] is None
    assert "lower_by_bag_alone" in codes(bag)
    assert "lower_by_bag_alone" not in codes(line)


def test_what_is_not_told_of_the_way_down_is_asked(edit: Edit) -> None:
    no_way = edit(BLOCK, ('way = "bag and line"\n', ""))
    assert [row["key"] for row in no_way["unanswered"]] == ["lowering.way"]
    assert "ascent" not in no_way
    assert "lowering.line" in [row["key"] for row in edit(BLOCK, ('line = "HAUL"\n', ""))["unanswered"]]


def test_a_weak_line_and_few_hands_are_told(edit: Edit) -> None:
    assert not {"lower_over_limit", "lower_hands_short"} & codes(edit(BLOCK))
    assert "lower_over_limit" in codes(edit(BLOCK, kit=(('strength = "12 kN"', 'strength = "2 kN"'),)))
    assert "lower_hands_short" in codes(edit(BLOCK, ("turns = 2\n", "")))


def test_more_turns_take_fewer_people(edit: Edit) -> None:
    some = [down(edit(BLOCK, ("turns = 2", f"turns = {turns}")))["people"] for turns in (1, 2, 3)]
    assert some == sorted(some, reverse=True)
    assert some[0] > some[-1]


def test_deeper_takes_more_gas_and_a_longer_fall(edit: Edit) -> None:
    near, deep = down(edit(BLOCK)), down(edit(BLOCK, ('depth = "11 m"', 'depth = "22 m"')))
    assert deep["gas_to_add_l"]["likely"] > near["gas_to_add_l"]["likely"]
    assert deep["if_let_go"]["time_s"]["likely"] > near["if_let_go"]["time_s"]["likely"]
    assert deep["hold_back_n"]["likely"] > near["hold_back_n"]["likely"]


def test_its_own_speed_is_told_and_a_default_is_named(edit: Edit) -> None:
    assert down(edit(BLOCK, ('speed = "6 m/min"', 'speed = "4 m/min"')))["speed_m_min"] == pytest.approx(4.0)
    silent = edit(BLOCK, ('speed = "6 m/min"\n', ""))
    assert any("speed of a load that is put down" in str(row) for row in silent["find_out_first"])


def test_a_line_that_nobody_has_is_refused(edit: Edit) -> None:
    with pytest.raises(CaseError, match="HAUK"):
        edit(BLOCK, ('line = "HAUL"', 'line = "HAUK"'))


def test_a_load_may_be_put_down_and_lifted(edit: Edit) -> None:
    document = edit(QUARRY, ("[surface]", '[lowering]\nway = "bag"\n\n[surface]'))
    assert down(document)["way"] == "bag"
    assert document["ascent"]["left_alone"]["time_s"] == edit(QUARRY)["ascent"]["left_alone"]["time_s"]


def test_alone_it_goes_in_three_phases(edit: Edit) -> None:
    document = edit(TIDAL)
    first, second, third = document["ascent"]["phases"]
    assert [row["n"] for row in (first, second, third)] == [1, 2, 3]
    assert first["anchor_n"] == pytest.approx(first["tension_n"]["high"])
    assert first["on_load_n"]["likely"] < first["on_bag_n"]["likely"]
    assert second["who"] == "bag tender, from up-stream, once neutral"
    assert third["time_s"]["likely"] > 0.0
    assert document["ascent"]["bag_and_line"] is None
    assert edit(QUARRY)["ascent"]["phases"] is None


def test_slack_in_the_restraint_pulls_harder(edit: Edit) -> None:
    tight, slack = (
        edit(TIDAL, ('restraint = { line = "HOLD",', f'restraint = {{ line = "HOLD",{more}'))["ascent"]["phases"][0]
        for more in ("", ' slack = "0.2 m",')
    )
    assert slack["tension_n"]["likely"] > 2.0 * tight["tension_n"]["likely"]
    assert slack["rise_m"]["likely"] > 0.2 + tight["rise_m"]["likely"]


def test_a_crown_line_that_does_not_reach_is_told(edit: Edit) -> None:
    longer = (('strength = "9 kN"\nlength = "2 m"', 'strength = "9 kN"\nlength = "2.6 m"'),)
    assert "crown_line_short" in codes(edit(TIDAL))
    assert "crown_line_short" not in codes(edit(TIDAL, kit=longer))
    strong = (('strength = "9 kN"', 'strength = "90 kN"'),)
    assert "crown_line_weak" in codes(edit(TIDAL))
    assert "crown_line_weak" not in codes(edit(TIDAL, kit=strong))


def kept(edit: Edit, mass: str) -> dict[str, Any]:
    return edit(TIDAL, ('method = "unaccompanied"', f'method = "bag and line"\nkept_heavy = "{mass}"'))


def test_kept_heavier_it_is_light_later_and_needs_more_hands(edit: Edit) -> None:
    light, heavy = (kept(edit, mass)["ascent"]["bag_and_line"] for mass in ("2 kg", "30 kg"))
    assert light["heavy_kg"]["likely"] == pytest.approx(2.0, abs=0.2)
    assert heavy["line_kg"]["likely"] > light["line_kg"]["likely"]
    assert heavy["people"] >= light["people"]
    assert heavy["stays_heavy_share"] >= light["stays_heavy_share"]
    assert light["vent_l"]["likely"] > 0.0
    assert "line_goes_light" in codes(kept(edit, "2 kg"))


def test_bag_and_line_says_what_if_it_parts(edit: Edit) -> None:
    told = kept(edit, "3 kg")["ascent"]["bag_and_line"]
    assert "sinks" in told["if_line_parts"]
    assert "floats" in told["if_line_parts"]
    assert other_ways({"ascent": {"bag_and_line": told}})["line"]["parts"] == told["if_line_parts"]
