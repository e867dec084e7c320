"""Variants side by side: the rows that matter, marked where they differ."""

from __future__ import annotations

import json
from typing import Any

from guard.leaves import put
from parbuckle.desk.comparing import _FIXED, NO_PLAN, compare
from parbuckle.desk.documents import plan_documents
from sample_documents import ALL, DRAWS, case_of, kit_of, planned


def column(plan: dict[str, Any] | None, variant: str | None = None) -> dict[str, Any]:
    return {"id": variant or "a", "title": "Outboard", "variant": variant, "revision": 3, "plan": plan}


def variant_of(path: tuple[Any, ...], value: Any) -> dict[str, Any]:
    case = put(case_of("quarry-outboard"), path, value)
    document, faults = plan_documents(case, kit_of(case), "x", DRAWS)
    assert document is not None, faults
    return document


def rows_of(*plans: dict[str, Any] | None) -> dict[tuple[str, str], dict[str, Any]]:
    return {(row["section"], row["name"]): row for row in compare([column(plan) for plan in plans])["rows"]}


def test_the_same_plan_differs_nowhere() -> None:
    rows = compare([column(planned("quarry-outboard")), column(planned("quarry-outboard"), "b")])["rows"]
    assert len(rows) > 30
    assert not [row for row in rows if row["differs"]]


def test_other_bags_differ_where_they_should() -> None:
    rows = rows_of(planned("quarry-outboard"), variant_of(("lift", "bags"), ["P50"]))
    assert rows["Lift", "Bags"]["cells"][1] == "P50 part"
    assert {("Lift", "Bags"), ("Ascent", "Share that can grow"), ("Ascent", "Time to react")} <= {
        key for key, row in rows.items() if row["differs"]
    }
    assert not rows["Object", "Weight in water"]["differs"]
    assert not rows["Dive 1", "Start"]["differs"]
    assert ("What the rules say", "STOP") in rows


def test_another_window_differs_in_its_dive() -> None:
    rows = rows_of(planned("quarry-outboard"), variant_of(("dive", 0, "start"), "2027-04-14T12:00:00+01:00"))
    assert rows["Dive 1", "Start"]["cells"] == ["10:00 on 14 Apr 2027", "12:00 on 14 Apr 2027"]
    assert not rows["Lift", "Bags"]["differs"]


def test_a_dive_that_only_one_has_is_a_dash_in_the_other() -> None:
    rows = rows_of(planned("quarry-outboard"), planned("tidal-frame"))
    assert rows["Dive 2", "What for"]["cells"] == ["—", "lift"]
    assert rows["Dive 1", "Slack at"]["cells"][0] == "—"


def test_a_variant_that_cannot_be_planned_says_so_in_every_row() -> None:
    table = compare([column(planned("quarry-outboard")), column(None, "broken")])
    assert {row["cells"][1] for row in table["rows"]} == {NO_PLAN}


def test_columns_come_without_their_plans() -> None:
    table = compare([column(planned("first-answer"), "light")])
    assert table["columns"] == [{"id": "light", "title": "Outboard", "variant": "light", "revision": 3}]
    assert all(len(row["cells"]) == 1 and not row["differs"] for row in table["rows"])
    json.dumps(table)


def test_nothing_is_shown_that_no_plan_has() -> None:
    rows = rows_of(planned("first-answer"))
    assert ("Lift", "Bags") not in rows
    assert all(cell.strip() for row in rows.values() for cell in row["cells"])


def test_limits_are_rounded_to_the_safe_side() -> None:
    plan = planned("tidal-frame")
    dive = plan["dives"][0]
    dive["no_stop_min"] |= {"model": 26.9, "navy_table": 40.0, "shorter": "model"}
    dive["divers"][0] |= {"name": "Ines", "leave_bottom_bar": 71.2, "turn_bar": 141.2}
    plan["circles"] |= {"bottom_m": 12.1}
    rows = rows_of(plan)
    assert rows["Dive 1", "No-stop limit, the shorter"]["cells"] == ["26 min"]
    assert rows["Dive 1", "Leave the bottom at"]["cells"][0].startswith("Ines 75 bar (1090 psi)")
    assert rows["Dive 1", "Turn at, where it is a search"]["cells"][0].startswith("Ines 145 bar (2110 psi)")
    assert rows["Ascent", "Keep clear on the bottom"]["cells"] == ["13 m (40 ft)"]
    dive["no_stop_min"] |= {"model": None, "navy_table": None, "shorter": None}
    assert rows_of(plan)["Dive 1", "No-stop limit, the shorter"]["cells"] == ["no limit"]


def test_a_lifted_stop_differs_from_one_that_holds() -> None:
    lifted = planned("tidal-frame")
    for finding in lifted["findings"]:
        if finding["level"] == "stop":
            finding["lifted"] = {"by": "Ada", "reason": "seen", "at": ""}
    cells = [
        row["cells"] for (section, _), row in rows_of(planned("tidal-frame"), lifted).items() if "rules" in section
    ]
    assert cells
    assert all("Lifted by Ada" in other and "Lifted by" not in first for first, other in cells)


def test_every_row_is_filled_by_some_shipped_plan() -> None:
    shown = {name for plan in map(planned, ALL) for _, name in rows_of(plan)}
    assert not [name for _, name, _ in _FIXED if name not in shown], (
        "a row that nothing fills asks for what is not there"
    )
