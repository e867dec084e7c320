"""Every number of a plan opens something true: its name, formula, source, and the inputs that it follows from."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from guard.leaves import put
from guard.tree import PACKAGE, ROOT
from parbuckle.case.fields import keys_of
from parbuckle.case.kit import Kit
from parbuckle.case.model import Case
from parbuckle.desk.documents import plan_documents
from parbuckle.desk.numbers import number, origin_of
from parbuckle.duties.house import house_rules
from parbuckle.quantity.errors import CallError
from parbuckle.quantity.shown import SHOWN, THIN
from sample_documents import ALL, DRAWS, case_of, kit_of, planned

HEAD = {"schema", "program", "draws", "verdict", "steps"}
"""Sections that hold counts and versions and no answer."""

ROWS: dict[str, dict[str, Any]] = tomllib.loads((PACKAGE / "data" / "numbers.toml").read_text(encoding="utf-8"))


def numbers(value: Any, path: str = "") -> Iterator[str]:
    if isinstance(value, dict):
        if set(value) >= {"low", "likely", "high"}:
            yield path
            return
        for key, inside in value.items():
            yield from numbers(inside, f"{path}.{key}" if path else key)
    elif isinstance(value, list):
        for row, inside in enumerate(value, 1):
            yield from numbers(inside, f"{path}[{row}]")
    elif isinstance(value, (int, float)) and not isinstance(value, bool):
        yield path


def one_of_each(document: dict[str, Any]) -> dict[str, str]:
    found: dict[str, str] = {}
    for path in numbers({key: value for key, value in document.items() if key not in HEAD}):
        found.setdefault(re.sub(r"\[\d+\]", "[]", path), path)
    return found


@pytest.mark.parametrize("name", ALL)
def test_every_number_of_a_plan_has_its_origin(name: str) -> None:
    document, case = planned(name), case_of(name)
    paths = one_of_each(document)
    assert len(paths) > 20
    for path in paths.values():
        row = number(document, path, case, kit_of(case))
        assert row["name"], path
        assert row["formula"], path
        assert row["source"], path
        assert row["value"], path
        assert re.search(r"\d", row["value"]), path


def test_every_row_of_the_table_is_used_or_for_what_no_example_has() -> None:
    paths = [path for name in ALL for path in one_of_each(planned(name)).values()]
    used = {glob_of(path) for path in paths}
    assert set(ROWS) - used <= {
        "site.stream_m_s",
        "circles.drift_towards_deg",
        *(g for g in ROWS if "bag_and_line" in g),
        *(g for g in ROWS if "carried" in g or "gas_changes" in g),
    }


def test_cylinders_beside_the_set_have_their_origins() -> None:
    carries = [{"cylinder": "S7-1", "change_at": "18 m"}]
    case = put(case_of("tidal-frame"), ("dive", 0, "team", 0, "carries"), carries)
    kit = kit_of(case)
    stage = {"id": "S7-1", "use": "breathing", "volume": "7 l", "pressure": "190 bar", "gas": "EAN50"}
    kit = {**kit, "cylinder": [*kit["cylinder"], stage]}
    document, faults = plan_documents(case, kit, "x", 32)
    assert document is not None, faults
    paths = [path for path in one_of_each(document).values() if "carried" in path or "gas_changes" in path]
    assert {glob_of(path) for path in paths} == {g for g in ROWS if "carried." in g or "gas_changes" in g} | {
        "dives.**chance_*"
    }
    assert all(number(document, path, case, kit)["source"] for path in paths)


def test_the_way_that_no_example_takes_has_its_origins() -> None:
    case = put(case_of("quarry-outboard"), ("lift", "method"), "bag and line")
    document, faults = plan_documents(case, kit_of(case), "x", 32)
    assert document is not None, faults
    paths = [path for path in one_of_each(document).values() if "bag_and_line" in path]
    assert len(paths) > 4
    assert all(number(document, path)["source"] for path in paths)


def glob_of(path: str) -> str:
    """The first row of the table that fits, found by itself."""
    bare = re.sub(r"\[\d*\]", "", path)
    for glob in ROWS:
        words = [
            ".*" if step == "**" else "[^.]*" if step == "*" else re.escape(step)
            for step in re.split(r"(\*\*|\*)", glob)
        ]
        if re.fullmatch("".join(words), bare):
            return glob
    raise AssertionError(path)


def test_every_row_of_the_table_is_whole() -> None:
    sections = re.findall(r"^## (\d+)\.", Path(ROOT / "docs" / "method.md").read_text(encoding="utf-8"), re.M)
    for glob, row in ROWS.items():
        assert row["formula"], glob
        assert row["source"], glob
        assert str(row["section"]) in sections, glob
        assert row.get("kind", "") in {"", *SHOWN}, glob
        for key in row["inputs"]:
            assert key == "drivers" or is_key(key), (glob, key)


def is_key(key: str) -> bool:
    if key.startswith("house."):
        return key.removeprefix("house.") in {rule.key for rule in house_rules()}
    model: Any = Kit if key.startswith("kit.") else Case
    for step in key.removeprefix("kit.").split("."):
        found = keys_of(model).get(step) if model else None
        if found is None:
            return False
        model = found.below
    return True


def test_sums_that_are_named_are_in_the_plan() -> None:
    there = {row["name"] for row in planned("quarry-outboard")["sums"]}
    assert {row["sum"] for row in ROWS.values() if "sum" in row} <= there


def test_a_number_shows_its_sum_and_its_inputs() -> None:
    document, case = planned("quarry-outboard"), case_of("quarry-outboard")
    row = number(document, "load.wet_weight_kg", case, kit_of(case))
    band = document["load"]["wet_weight_kg"]
    told = next(each for each in document["sums"] if each["name"] == "Weight in water")
    assert row["name"] == "Weight in water"
    assert row["range"] == [band["low"], band["likely"], band["high"]]
    assert (row["formula"], row["numbers"], row["source"]) == (told["formula"], told["numbers"], told["source"])
    assert row["value"].split(", ")[0] == told["result"].replace(THIN, " ")
    assert {"key": "object.part[1].mass", "text": "46 ± 4 kg"} in row["inputs"]
    assert any("of the spread of the weight" in each["text"] for each in row["inputs"])


def test_inputs_that_nobody_told_are_said_to_be_so() -> None:
    document, case = planned("quarry-outboard"), case_of("quarry-outboard")
    row = number(document, "ascent.delay_budget_s", case, kit_of(case))
    assert {"key": "lift.drag_area", "text": "not told"} in row["inputs"]
    assert number(document, "ascent.delay_budget_s")["inputs"][-1]["text"] == ""


def test_a_number_follows_its_inputs() -> None:
    """The inputs that are named do change the number: a sample of them, each changed once."""
    case = case_of("quarry-outboard")
    changes = {
        "load.wet_weight_kg": (("object", "part", 0, "mass"), "60 kg"),
        "lift.free_gas_l": (("lift", "tries"), 3),
        "lift.ceiling_kg": (("lift", "bags"), ["P50"]),
        "site.water_density_kg_m3": (("site", "water"), "sea"),
        "search.best.chance": (("search", "sweep_width"), "1.0 m"),
        "ascent.neutral_window_l": (("lift", "rate", "target"), "5 m/min"),
        "dives[1].bottom_time_min": (("dive", 0, "tasks", 1, "time"), "20 min"),
        "load.breakout_kg": (("site", "bottom"), "rock"),
    }
    before = planned("quarry-outboard")
    for path, (leaf, value) in changes.items():
        after, faults = plan_documents(put(case, leaf, value), kit_of(case), "x", DRAWS)
        assert after is not None, faults
        key = ".".join(str(step) for step in leaf if isinstance(step, str))
        inputs = origin_of(path)["inputs"]
        assert "drivers" in inputs or any(key == told or key.startswith(f"{told}.") for told in inputs), path
        assert number(before, path)["value"] != number(after, path)["value"], path


@pytest.mark.parametrize(
    "path",
    [
        "",
        "load",
        "load.nothing",
        "lift.bags",
        "lift.bags[9].really_l",
        "lift.bags[0].really_l",
        "load.agree",
        "load.name.x",
        "sums[1]",
    ],
)
def test_what_is_no_number_is_refused(path: str) -> None:
    with pytest.raises(CallError):
        number(planned("quarry-outboard"), path)
