"""The plan as others call it: the shape of its JSON, its exit codes, the same bytes twice, and what may be given."""

from __future__ import annotations

import json
import math
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from guard.leaves import put, toml
from guard.shipped import CASES, shipped

Call = Callable[..., "subprocess.CompletedProcess[str]"]
Document = dict[str, Any]

EXIT = {"first-answer": 2, "quarry-outboard": 0, "tidal-frame": 2, "training-drum": 0}

BAND, NUMBER, TEXT, WORD, TRUTH, WHOLE = "band", "number", "text", "text or null", "truth", "whole"
MAYBE, BAND_MAYBE = "number or null", "band or null"

SHAPE: dict[str, dict[str, Any]] = {
    "case": {"title": TEXT, "purpose": TEXT},
    "draws": {"n": WHOLE, "seed": WHOLE},
    "site": {"water_density_kg_m3": NUMBER, "surface_pressure_pa": NUMBER, "bottom_pressure_pa": NUMBER},
    "load": {
        "dry_mass_kg": BAND,
        "displaced_l": BAND,
        "wet_weight_kg": BAND,
        "breakout_kg": BAND,
        "leaving_water_kg": BAND,
        "estimates": [{"by": TEXT, "how": TEXT, "wet_weight_kg": BAND}],
        "drivers": [{"input": TEXT, "share": NUMBER}],
    },
    "lift": {
        "methods": [{"method": TEXT, "possible": TRUTH, "why": TEXT, "people_in_water": WHOLE, "surplus_kg": MAYBE}],
        "method": TEXT,
        "required_kg": BAND,
        "ceiling_kg": NUMBER,
        "bags": [{"id": TEXT, "style": TEXT, "fill": TEXT, "marked_l": NUMBER, "really_l": BAND}],
        "bag_volume_l": BAND,
        "free_gas_l": BAND,
        "filling": [{"bag": TEXT, "litres": NUMBER, "seconds": MAYBE, "gauge_bar": BAND_MAYBE}],
        "cylinder": {"id": TEXT, "goes": TEXT, "usable_l": NUMBER, "pressure_after_bar": BAND},
        "chance_floats_once_free": NUMBER,
        "surplus_at_release_kg": BAND_MAYBE,
        "alternatives": [{"bags": [TEXT], "why_not": TEXT}],
        "rigging": [{"item": TEXT, "load_n": NUMBER, "limit_n": MAYBE, "factor": NUMBER, "source": TEXT}],
    },
    "ascent": {
        "left_alone": {"time_s": BAND_MAYBE, "arrival_speed_m_s": BAND_MAYBE},
        "growing_share": NUMBER,
        "doubling_time_s": MAYBE,
        "point_of_no_return_m": MAYBE,
        "neutral_window_l": NUMBER,
        "vent_l_s": [{"depth_m": NUMBER, "needed": NUMBER}],
        "pull_l": MAYBE,
        "delay_budget_s": MAYBE,
        "full_at_m": MAYBE,
        "fall": {"speed_m_s": NUMBER, "time_s": NUMBER, "keep_clear_m": NUMBER},
        "surfaces_within_m": NUMBER,
    },
}
"""Keys that stay, with what stands there, for the sections that a plan fills when bags are known."""

CONTROL: dict[str, Any] = {
    "target_m_min": NUMBER,
    "ceiling_m_min": NUMBER,
    "policy": TEXT,
    "delay_s": BAND,
    "chance_within_rate": NUMBER,
    "chance_runaway": NUMBER,
    "chance_sinks_back": NUMBER,
    "longest_delay_s": MAYBE,
}
"""Keys of the ascent under control that stay."""

DIVES: list[dict[str, Any]] = [
    {
        "does": TEXT,
        "bottom_time_min": BAND,
        "no_stop_min": {"model": MAYBE, "navy_table": MAYBE},
        "divers": [{"name": TEXT, "gas_needed_l": BAND, "leave_bottom_bar": NUMBER, "end_pressure_bar": BAND}],
        "oxygen": {"oxygen_bar": BAND, "mod_m": NUMBER},
    }
]
"""Keys of the dives that stay; ``stops`` is a list and ``window`` may be null."""

FINDING = ("level", "code", "text", "value", "limit", "source", "override")
SEARCH: dict[str, Any] = {
    "cells": NUMBER,
    "chance_on_map": NUMBER,
    "minutes": NUMBER,
    "best": {"pattern": TEXT, "chance": NUMBER, "share_of_bound": NUMBER},
    "alternatives": [{"pattern": TEXT, "chance": MAYBE, "share_of_bound": MAYBE}],
}
"""Keys of the search that stay; it is there where somebody told where it may be."""


def plan_of(parbuckle: Call, folder: Path, case: Document, *more: str) -> tuple[int, Document]:
    """Write a case and the shipped kit, plan it, give exit code and document."""
    (folder / "kit.toml").write_text(toml(shipped("kit")), encoding="utf-8")
    (folder / "case.toml").write_text(toml(case), encoding="utf-8")
    done = parbuckle("plan", "case.toml", "--json", *more)
    assert done.returncode in (0, 2), done.stderr
    return done.returncode, json.loads(done.stdout)


@pytest.fixture(scope="module")
def planned(root: Path) -> dict[str, Document]:
    from parbuckle.desk.planning import plan

    folder = root / "src" / "parbuckle" / "data" / "cases"
    return {name: json.loads(json.dumps(plan(folder / f"{name}.toml"))) for name in CASES}


def misfit(shape: Any, value: Any, path: str) -> Iterator[str]:
    """Name what does not have the shape."""
    if isinstance(shape, dict):
        for key, inner in shape.items():
            if not isinstance(value, dict) or key not in value:
                yield f"{path}.{key} is missing"
            else:
                yield from misfit(inner, value[key], f"{path}.{key}")
    elif isinstance(shape, list):
        for row in value if isinstance(value, list) else [None]:
            yield from misfit(shape[0], row, f"{path}[]")
    elif not fits(shape, value):
        yield f"{path} is no {shape}: {value!r}"


def fits(word: str, value: Any) -> bool:
    if word.endswith(" or null"):
        return value is None or fits(word.removesuffix(" or null"), value)
    if word == BAND:
        return isinstance(value, dict) and {"low", "likely", "high"} <= set(value)
    if word == NUMBER:
        return isinstance(value, (int, float)) and not isinstance(value, bool)
    return isinstance(value, {TEXT: str, TRUTH: bool, WHOLE: int}[word])


def walk(value: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    yield path, value
    rows = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in rows:
        yield from walk(inner, f"{path}.{key}")


@pytest.mark.parametrize("name", [n for n in CASES if n != "first-answer"])
def test_the_listed_keys_are_there(planned: dict[str, Document], name: str) -> None:
    assert planned[name]["schema"] == 1
    assert not [m for section, shape in SHAPE.items() for m in misfit(shape, planned[name].get(section), section)]


def test_without_a_kit_the_rest_is_still_there(planned: dict[str, Document]) -> None:
    document = planned["first-answer"]
    sections = {key: SHAPE[key] for key in ("case", "draws", "site", "load")}
    assert not [m for section, shape in sections.items() for m in misfit(shape, document.get(section), section)]
    assert document["lift"]["bags"] == []
    assert "ascent" not in document


def test_a_misfit_is_seen(planned: dict[str, Document]) -> None:
    broken = put(planned["quarry-outboard"], ("lift", "required_kg"), 3.0)
    del broken["ascent"]["fall"]["time_s"]
    found = [m for section in ("lift", "ascent") for m in misfit(SHAPE[section], broken[section], section)]
    assert found == ["lift.required_kg is no band: 3.0", "ascent.fall.time_s is missing"]


@pytest.mark.parametrize("name", CASES)
def test_bands_are_in_order_and_numbers_are_numbers(planned: dict[str, Document], name: str) -> None:
    seen = 0
    for path, value in walk(planned[name]):
        if isinstance(value, float):
            assert math.isfinite(value), path
        if isinstance(value, dict) and "likely" in value:
            seen += 1
            assert value["low"] <= value["likely"] <= value["high"], path
            assert 0.0 <= value.get("of", 1.0) <= 1.0, path
        if isinstance(value, (int, float)) and ("share" in path.split(".")[-1] or "chance" in path.split(".")[-1]):
            assert -1e-9 <= value <= 1.0 + 1e-9, path
    assert seen > 5


@pytest.mark.parametrize("name", CASES)
def test_the_dives_are_there_where_a_dive_has_tasks(planned: dict[str, Document], name: str) -> None:
    dives = planned[name].get("dives")
    if name == "first-answer":
        assert dives is None
        return
    assert not list(misfit(DIVES, dives, "dives"))
    assert all("window" in dive and isinstance(dive["stops"], list) for dive in dives)


@pytest.mark.parametrize("name", CASES)
def test_the_search_is_there_where_somebody_told_where_it_may_be(planned: dict[str, Document], name: str) -> None:
    told = planned[name].get("search")
    if name == "first-answer":
        assert told is None
        return
    assert not list(misfit(SEARCH, told, "search"))


@pytest.mark.parametrize("name", CASES)
def test_the_ascent_under_control_is_there_where_people_go_up_beside_it(
    planned: dict[str, Document], name: str
) -> None:
    document = planned[name]
    told = document.get("ascent", {}).get("under_control")
    if document["lift"]["method"] != "accompanied" or not document["lift"]["bags"]:
        assert told is None
        return
    assert not list(misfit(CONTROL, told, "under_control"))
    assert told["n"] == document["draws"]["n"]
    for key in ("chance_within_rate", "chance_runaway", "chance_sinks_back"):
        assert 0.0 < told[f"{key}_error"] <= 1.0


@pytest.mark.parametrize("name", CASES)
def test_findings_and_unanswered(planned: dict[str, Document], name: str) -> None:
    document = planned[name]
    assert document["findings"]
    for finding in document["findings"]:
        assert set(FINDING) <= set(finding)
        assert finding["level"] in ("stop", "unanswered", "caution", "note")
        assert finding["override"] in ("never", "reason")
        assert finding["text"]
        assert finding["source"]
    assert all(set(row) == {"key", "stage", "why"} for row in document["unanswered"])
    order = [f["level"] for f in document["findings"] if not f["lifted"]]
    assert order == sorted(order, key=("stop", "unanswered", "caution", "note").index)


@pytest.mark.parametrize("name", CASES)
def test_two_processes_print_the_same_one_document(parbuckle: Call, root: Path, name: str) -> None:
    case = root / "src" / "parbuckle" / "data" / "cases" / f"{name}.toml"
    first, second = (parbuckle("plan", case, "--json", PYTHONHASHSEED=seed) for seed in ("1", "2"))
    assert first.returncode == second.returncode == EXIT[name], first.stderr
    assert first.stdout == second.stdout
    assert first.stderr == ""
    document = json.loads(first.stdout, parse_constant=lambda word: pytest.fail(word))
    assert document["draws"] == {"n": 1024, "seed": 1}


def test_draws_and_seed_are_used(parbuckle: Call, tmp_path: Path) -> None:
    case = shipped("quarry-outboard")
    told = {s: plan_of(parbuckle, tmp_path, case, "--draws", "200", "--seed", s)[1] for s in ("1", "2")}
    assert [d["draws"] for d in told.values()] == [{"n": 200, "seed": 1}, {"n": 200, "seed": 2}]
    one, two = (d["load"]["wet_weight_kg"]["likely"] for d in told.values())
    assert one != two
    assert one == pytest.approx(two, rel=0.02)


def test_one_draw_is_the_middle_of_all_inputs(parbuckle: Call, tmp_path: Path) -> None:
    document = plan_of(parbuckle, tmp_path, shipped("quarry-outboard"), "--draws", "1")[1]
    wet = document["load"]["wet_weight_kg"]
    assert wet["low"] == wet["likely"] == wet["high"]
    assert wet["likely"] == pytest.approx(37.0, abs=0.5)


def test_the_brief_is_written_beside_the_json(parbuckle: Call, tmp_path: Path) -> None:
    code, document = plan_of(parbuckle, tmp_path, shipped("quarry-outboard"), "--brief", "brief.pdf")
    assert code == 0
    assert document["schema"] == 1
    assert (tmp_path / "brief.pdf").read_bytes().startswith(b"%PDF")


def test_checks_have_their_shape(parbuckle: Call) -> None:
    done = parbuckle("checks", "--json")
    rows = json.loads(done.stdout)["checks"]
    assert done.returncode == (0 if all(r["ok"] for r in rows) else 1)
    assert len(rows) > 50
    for row in rows:
        assert {"id", "quantity", "value", "ours", "tolerance", "source", "mark", "ok"} <= set(row)
        assert row["mark"] in ("read", "computed", "recalled", "common practice")
        assert isinstance(row["ok"], bool)
    assert len({row["id"] for row in rows}) == len(rows)
