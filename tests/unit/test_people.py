"""People, steps, signals and abort list: every template filled, every fit checked, snags before every fill."""

from __future__ import annotations

import re
from importlib.resources import files
from itertools import product
from pathlib import Path
from typing import Any, get_args

import pytest

from parbuckle.case.model import Case
from parbuckle.case.people import Role
from parbuckle.case.read import read_case
from parbuckle.plan.people import abort, lift_dive, people, people_table, role_row, signals, steps

METHODS = ("accompanied", "unaccompanied", "bag and line", "hauled", "carried", "others")
CASES = ("quarry-outboard", "tidal-frame", "training-drum", "first-answer")
BAGS = [
    {"bag": "C25", "fill": "full", "seconds": "40 s"},
    {"bag": "C15", "fill": "part", "litres": "12 l", "seconds": "20 s"},
    {"bag": "C10", "fill": "empty"},
]
FACTS: dict[str, Any] = {"bags": BAGS, "ceiling": "40 kg"}
BAG_METHODS = METHODS[:3]
PHASES = ["before", "rig", "fill", "up", "surface"]


def case(name: str) -> Case:
    return read_case(Path(str(files("parbuckle.data").joinpath("cases", f"{name}.toml")))).case


def texts(name: str, method: str, **facts: Any) -> list[str]:
    return [row["text"] for row in steps(case(name), method, FACTS | facts)]


@pytest.mark.parametrize("row", people_table()["step"], ids=lambda row: row["text"][:40])
def test_every_word_in_braces_is_asked_for_or_always_there(row: dict[str, Any]) -> None:
    named = set(re.findall(r"\{(\w+)\}", row["text"]))
    always = {"top_up_text", "released_text", "turns_text"} | (
        {"bag", "litres_text", "seconds_text"} if "each" in row else set()
    )
    assert named <= set(row.get("needs", ())) | always
    assert set(row) <= {"phase", "text", "who", "check", "methods", "needs", "without", "each", "stop_point"}
    assert set(row.get("methods", METHODS)) <= {*METHODS, "lowered"}


@pytest.mark.parametrize(("name", "method"), [*product(CASES, METHODS), ("mooring-block", "lowered")])
def test_steps_are_numbered_short_sentences_in_the_order_of_the_work(name: str, method: str) -> None:
    rows = steps(case(name), method, FACTS)
    assert [row["n"] for row in rows] == list(range(1, len(rows) + 1))
    order = [PHASES.index(row["phase"]) for row in rows]
    assert order == sorted(order)
    for row in rows:
        assert re.match(r"[A-Z][a-z]+ ", row["text"])
        assert row["text"].endswith(".")
        assert "{" not in row["text"]
        assert "None" not in row["text"]
        assert row["who"]
        assert row["check"] != row["who"]


@pytest.mark.parametrize("method", BAG_METHODS)
def test_snags_are_felt_for_before_every_fill(method: str) -> None:
    rows = texts("quarry-outboard", method)
    fills = [i for i, text in enumerate(rows) if re.match(r"Fill C(25|15)", text)]
    assert len(fills) == 2
    assert all(rows[i - 1].startswith("Feel for snags, before") for i in fills)


@pytest.mark.parametrize("method", BAG_METHODS)
def test_what_is_fitted_is_checked_by_another_before_the_first_gas(method: str) -> None:
    rows = steps(case("tidal-frame"), method, FACTS)
    gas = next(i for i, row in enumerate(rows) if row["text"].startswith("Fill "))
    for what in ("Fit S1", "Fit C25", "Fit the crown line", "Fit the restraint"):
        fit = next(i for i, row in enumerate(rows) if row["text"].startswith(what))
        check = rows[fit + 1]
        assert check["text"].startswith("Check")
        assert check["who"] != rows[fit]["who"]
        assert fit + 1 < gas


def test_the_restraint_is_a_stop_point_before_any_gas() -> None:
    rows = steps(case("tidal-frame"), "unaccompanied", FACTS)
    check = next(row for row in rows if row["text"].startswith("Check both ends of the restraint"))
    assert check["stop_point"] is True
    released = next(row["text"] for row in rows if row["text"].startswith("Let the slack restraint go"))
    assert "from up-stream" in released
    assert "Never cut" in released


@pytest.mark.parametrize("method", ["accompanied", "unaccompanied"])
def test_hose_off_is_a_step_of_its_own_before_it_goes_up(method: str) -> None:
    rows = steps(case("tidal-frame"), method, FACTS)
    hose = next(i for i, row in enumerate(rows) if row["text"].startswith("Take the hose off"))
    last_fill = max(i for i, row in enumerate(rows) if row["text"].startswith("Fill C") and row["phase"] == "fill")
    assert last_fill < hose < next(i for i, row in enumerate(rows) if row["phase"] == "surface")


def test_the_bag_for_the_reserve_goes_up_empty_and_is_filled_at_the_surface() -> None:
    rows = steps(case("quarry-outboard"), "accompanied", FACTS)
    placed = [row["phase"] for row in rows if "C10" in row["text"]]
    assert placed == ["before", "rig", "surface"]


def test_numbers_of_the_plan_stand_in_the_steps() -> None:
    rows = " ".join(texts("quarry-outboard", "accompanied"))
    for told in (
        "40 kg",
        "12 l",
        "20 s",
        "6 m/min",
        "9 m/min",
        "at 6 m",
        "5 m for 3 min",
        "limit 150 kg",
        "HAUL",
        "L7",
    ):
        assert told in rows


def test_what_is_not_known_is_left_out_and_never_made_up() -> None:
    rows = " ".join(row["text"] for row in steps(case("first-answer"), "accompanied", {}))
    assert "Stop filling at the mark" in rows
    assert "Fill the bag in small fills" in rows
    assert not re.search(r"\d", rows)


def test_nothing_found_counts_as_not_known() -> None:
    assert any("Stop filling at the mark" in text for text in texts("quarry-outboard", "accompanied", ceiling=None))


def test_a_load_under_bag_and_line_is_kept_heavy() -> None:
    kept = texts("quarry-outboard", "bag and line", kept_heavy="3 kg")
    assert any("3 kg heavy" in text for text in kept)
    assert not any("40 kg of lift" in text for text in kept)
    assert any("some kilos heavy" in text for text in texts("quarry-outboard", "bag and line"))


def test_the_divers_stop_is_made_aside_and_the_load_is_left_before() -> None:
    rows = texts("quarry-outboard", "accompanied")
    leave = next(i for i, text in enumerate(rows) if text.startswith("Leave the load at"))
    assert rows[leave + 1].startswith("Make the stop well aside")


def test_trainees_hand_in_their_numbers_first_and_the_instructor_checks() -> None:
    first = steps(case("training-drum"), "accompanied", FACTS)[0]
    assert first["check"] == "Sefa"
    assert first["stop_point"] is True
    assert not any("Hand in" in text for text in texts("quarry-outboard", "accompanied"))


def test_heads_are_counted_before_and_after() -> None:
    rows = texts("quarry-outboard", "accompanied")
    assert [text.startswith("Tick every name") for text in (rows[0], rows[-1])] == [True, True]


def test_an_unknown_method_gives_the_steps_for_others() -> None:
    assert texts("quarry-outboard", "crane") == texts("quarry-outboard", "others")


def test_people_have_places_by_method() -> None:
    rows = {row["role"]: row for row in people(case("quarry-outboard"), "accompanied")}
    assert [row["name"] for row in rows.values()] == ["Ines", "Tomas", "Kaya", "Lio", "Ada"]
    assert "up-stream" in rows["bag tender"]["place"]
    assert "never under" in rows["load tender"]["place"]
    assert [row["in_water"] for row in rows.values()] == [True, True, False, False, False]
    assert rows["standby diver"]["ready_in_s"] == 120.0
    alone = {row["role"]: row for row in people(case("tidal-frame"), "unaccompanied")}
    assert "well aside before it is let go" in alone["bag tender"]["place"]


def test_without_a_lift_dive_there_are_no_people_and_roles_stand_in_for_names() -> None:
    told = case("first-answer")
    assert lift_dive(told) is None
    assert people(told, "hauled") == []
    assert {row["who"] for row in steps(told, "hauled", {})} >= {"supervisor", "divers"}


def test_roles_exclude_each_other_both_ways_and_every_role_is_known() -> None:
    assert {row["name"] for row in people_table()["role"]} == set(get_args(Role))
    for row in people_table()["role"]:
        assert row["place"]
        assert row["source"]
        assert row["name"] not in row["excludes"]
        for other in row["excludes"]:
            assert row["name"] in role_row(other)["excludes"]
    assert set(role_row("standby diver")["excludes"]) == set(get_args(Role)) - {"standby diver"}
    assert "bag tender" in role_row("supervisor")["excludes"]
    assert role_row("cook") == {}


def test_signals_are_messages_without_a_code() -> None:
    rows = signals()
    assert {"stop", "recall", "ready to fill", "letting it go", "emergency"} <= {row["message"] for row in rows}
    assert {row["means"] for row in rows} == {"agreed by the team: ____"}
    assert not any(re.search(r"\bpulls?\b|\d", row["message"]) for row in rows)


def test_abort_has_reasons_and_one_action() -> None:
    when, action = abort()
    assert "Anyone calls stop." in when
    assert action.startswith("Stop gas.")
    assert "Let it go" in action
