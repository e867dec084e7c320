"""The ascent with people on it, over the draws of shipped cases: definitions, limits, gas, forms, its keys."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from guard.leaves import put, toml
from guard.shipped import shipped
from parbuckle.case.read import read_case
from parbuckle.desk.planning import plan
from parbuckle.duties.house import load_house
from parbuckle.lift import tending
from parbuckle.lift.tending import HANDS, tend
from parbuckle.lift.tending_problem import TendingProblem
from parbuckle.lift.tending_result import TendingResult
from parbuckle.physics.rise import SURFACE as UP
from parbuckle.physics.tended import BOTTOM, SURFACE
from parbuckle.plan.stages import Stages, run_stages

Document = dict[str, Any]
DRAWS = 64


def stages_of(folder: Path, case: Document, kit: Document | None = None, draws: int = DRAWS) -> Stages:
    (folder / "kit.toml").write_text(toml(kit or shipped("kit")), encoding="utf-8")
    (folder / "case.toml").write_text(toml(case), encoding="utf-8")
    loaded = read_case(folder / "case.toml")
    return run_stages(loaded, load_house(loaded.case.house), draws, 1)


def planned(folder: Path, case: Document, kit: Document | None = None, draws: int = DRAWS) -> Document:
    (folder / "kit.toml").write_text(toml(kit or shipped("kit")), encoding="utf-8")
    (folder / "case.toml").write_text(toml(case), encoding="utf-8")
    return plan(folder / "case.toml", draws)


@pytest.fixture(scope="module")
def quarry(tmp_path_factory: pytest.TempPathFactory) -> Stages:
    return stages_of(tmp_path_factory.mktemp("quarry"), shipped("quarry-outboard"))


def parts(stages: Stages) -> tuple[Any, Any, TendingProblem, TendingResult]:
    assert stages.lift_problem and stages.lift and stages.tending_problem and stages.tending
    return stages.lift_problem, stages.lift, stages.tending_problem, stages.tending


def test_chances_are_what_the_contract_says(quarry: Stages) -> None:
    problem, _, _, found = parts(quarry)
    rise, ceiling = found.rise, problem.ceiling
    up = rise.end == SURFACE
    assert np.array_equal(found.outcome.within, up & (rise.max_mean <= ceiling))
    assert np.array_equal(found.outcome.runaway, rise.max_speed > 2.0 * ceiling)
    assert np.array_equal(found.outcome.sinks_back, rise.end == BOTTOM)
    assert 0.0 < found.outcome.within.mean() < 1.0
    assert not (found.outcome.within & found.outcome.sinks_back).any()


def test_the_best_policy_is_taken(quarry: Stages) -> None:
    _, _, _, found = parts(quarry)
    assert {t.name for t in found.policies} == set(HANDS)
    assert found.policy == max(found.policies, key=lambda t: t.within).name


def test_an_asked_policy_is_taken_even_if_it_is_not_the_best(quarry: Stages) -> None:
    problem, lift, asked, found = parts(quarry)
    worst = min(found.policies, key=lambda t: t.within).name
    other = tend(problem, lift, replace(asked, policy=worst))
    assert other.policy == worst != found.policy
    assert other.outcome.within.mean() < found.outcome.within.mean()


def test_no_gas_is_lost_from_the_count(quarry: Stages) -> None:
    problem, lift, _, found = parts(quarry)
    start = (lift.required * (1.0 + problem.overfill)) / problem.lift_density
    really = sum(b.really for b in problem.bags if b.id in lift.choice.best.fill)
    free = np.minimum(start, really) * problem.gas_pressure / problem.surface_pressure
    rise = found.rise
    told = rise.gas.sum(axis=0) + rise.vented + rise.spilled - rise.added
    assert np.max(np.abs(told / free - 1.0)) < 1e-9


def test_with_nobody_on_it_it_is_the_ascent_left_alone(quarry: Stages) -> None:
    problem, lift, asked, _ = parts(quarry)
    none = np.zeros(DRAWS)
    alone = replace(asked, people=replace(asked.people, drag=none), lost=np.full(DRAWS, 1e-12), policy="hold")
    found = tend(replace(problem, surplus=lift.surplus_start), lift, alone)
    both = (found.rise.end == SURFACE) & (lift.left_alone.end == UP)
    assert both.mean() > 0.9
    assert np.array_equal(found.rise.end == SURFACE, lift.left_alone.end == UP)
    assert np.max(np.abs(found.rise.time[both] / lift.left_alone.time[both] - 1.0)) < 1e-3
    assert np.max(np.abs(found.rise.speed[both] / lift.left_alone.speed[both] - 1.0)) < 1e-3


def test_a_hand_that_comes_too_late_holds_nothing(quarry: Stages) -> None:
    problem, lift, asked, found = parts(quarry)
    late = tend(problem, lift, replace(asked, people=replace(asked.people, delay=np.full(DRAWS, 10.0))))
    assert late.outcome.within.mean() < 0.5 * found.outcome.within.mean()


def test_a_drogue_helps(quarry: Stages) -> None:
    problem, lift, asked, found = parts(quarry)
    big = tend(problem, lift, replace(asked, drogue=np.full(DRAWS, 1.0)))
    assert big.outcome.within.mean() > found.outcome.within.mean()
    assert {t.name: t.within for t in found.changes}["drogue"] > found.outcome.within.mean()


def test_the_longest_delay_is_the_longest_with_the_asked_chance(quarry: Stages) -> None:
    problem, lift, asked, _ = parts(quarry)
    found = tend(problem, lift, replace(asked, drogue=np.full(DRAWS, 2.0), asked_chance=0.8))
    good = [d for d, share in zip(found.delays, found.held, strict=True) if share >= 0.8]
    assert found.longest_delay == max(good)
    assert found.delays == tuple(sorted(found.delays))


def test_both_forms_and_two_runs_give_the_same(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    problem, lift, asked, found = parts(stages_of(tmp_path, shipped("quarry-outboard"), draws=12))
    asked = replace(asked, slots=8, delays=(0.5, 1.5))
    again = tend(problem, lift, asked)
    real = tending.simulate_all
    monkeypatch.setattr(tending, "simulate_all", lambda lifts, wait=False: real(lifts, form="lockstep"))
    slow = tend(problem, lift, asked)
    assert again.rise.digest() == slow.rise.digest() == found.rise.digest()
    assert again.policies == slow.policies
    assert (again.held, again.changes) == (slow.held, slow.changes)


def test_one_draw_is_the_middle(tmp_path: Path) -> None:
    told = planned(tmp_path, shipped("training-drum"), draws=1)["ascent"]["under_control"]
    assert told["n"] == 1
    assert told["delay_s"] == {"low": 1.0, "likely": 1.0, "high": 1.0}


@pytest.mark.parametrize("case", ["tidal-frame", "first-answer"])
def test_nobody_tends_what_goes_alone(tmp_path: Path, case: str) -> None:
    stages = stages_of(tmp_path, shipped(case), draws=16)
    assert stages.tending is None


def test_a_point_is_not_tended(tmp_path: Path) -> None:
    stages = stages_of(tmp_path, put(shipped("quarry-outboard"), ("lift", "as_point"), True), draws=16)
    assert stages.lift is not None
    assert stages.tending is None


def tender(**keys: str) -> Document:
    return put(shipped("training-drum"), ("lift", "tender"), keys)


def kit_with(kind: str, name: str, **keys: Any) -> Document:
    kit = shipped("kit")
    key = "name" if kind == "person" else "id"
    for row in kit[kind]:
        if row[key] == name:
            row |= keys
    return kit


Told = Callable[[Document], Any]


@pytest.mark.parametrize(
    ("keys", "told"),
    [
        ({"who": "novice"}, lambda d: d["person"]),
        ({"policy": "hold"}, lambda d: d["policy"]),
        ({"delay": "0.4 s"}, lambda d: d["delay_s"]),
        ({"pull": "0.2 s"}, lambda d: d["dumps"]),
        ({"watch": "6 s"}, lambda d: d["dumps"]),
        ({"thrust": "5 N"}, lambda d: d["time_s"]),
        ({"drag": "0.1 m2"}, lambda d: d["time_s"]),
        ({"count": "1 m"}, lambda d: d["time_s"]),
        ({"drogue": "0.6 m2"}, lambda d: d["time_s"]),
    ],
    ids=lambda value: next(iter(value)) if isinstance(value, dict) else "",
)
def test_every_key_of_the_tender_acts(tmp_path: Path, keys: dict[str, str], told: Told) -> None:
    plain = {"policy": "pulls"}
    before = told(planned(tmp_path, tender(**plain), draws=16)["ascent"]["under_control"])
    assert told(planned(tmp_path, tender(**(plain | keys)), draws=16)["ascent"]["under_control"]) != before


def test_a_timed_person_goes_before_the_assumed_one(tmp_path: Path) -> None:
    case = shipped("quarry-outboard")
    told = planned(tmp_path, case, kit_with("person", "Ines", reaction="0.7 s"), 16)["ascent"]["under_control"]
    assert told["delay_s"]["likely"] == 0.7
    assert told["person"] == "own numbers"
    other = planned(tmp_path, case, kit_with("person", "Tomas", reaction="0.7 s"), 16)["ascent"]["under_control"]
    assert other["person"] == "practised"


def test_gas_is_added_only_where_the_cylinder_goes_up(tmp_path: Path) -> None:
    case = put(shipped("training-drum"), ("lift", "tender"), {"policy": "hold"})
    for goes, some in (("stays on the bottom", False), ("with the bag tender", True), ("on the load", True)):
        told = planned(tmp_path, put(case, ("lift", "cylinder_goes"), goes))["ascent"]["under_control"]
        assert (told["gas_added_l"]["high"] > 0.0) is some, goes


def test_a_pull_that_nobody_measured_gives_no_count(tmp_path: Path) -> None:
    kit = shipped("kit")
    for row in kit["bag"]:
        row.pop("pull", None)
    document = planned(tmp_path, shipped("quarry-outboard"), kit, 32)
    ascent = document["ascent"]
    assert ascent["pull_measured"] is False
    assert ascent["pull_l"] is None
    assert ascent["pull_l_band"]["high"] > 3.0 * ascent["pull_l_band"]["low"]
    told = ascent["under_control"]
    assert not [row for row in told["expect"] if "pull each" in row["words"]]
    assert "measured pull" in [row["what"] for row in told["changes"]]
    assert "pull_unmeasured" in [f["code"] for f in document["findings"]]


def test_a_pull_from_its_bore(tmp_path: Path) -> None:
    kit = shipped("kit")
    for row in kit["bag"]:
        row.pop("pull", None)
        row["dump_bore"] = "20 mm"
    wide = planned(tmp_path, shipped("quarry-outboard"), kit, 32)["ascent"]["pull_l_band"]
    for row in kit["bag"]:
        row["dump_bore"] = "10 mm"
    narrow = planned(tmp_path, shipped("quarry-outboard"), kit, 32)["ascent"]["pull_l_band"]
    assert wide["likely"] == pytest.approx(4.0 * narrow["likely"], rel=1e-9)


def test_the_time_of_the_measured_pull_sets_the_dump(tmp_path: Path) -> None:
    case, kit = shipped("quarry-outboard"), shipped("kit")
    longer = kit_with("bag", "C15", pull_in="2 s")
    first, second = (planned(tmp_path, case, k, 32)["ascent"]["vent_l_s"][-1]["can"]["likely"] for k in (kit, longer))
    assert second < 0.5 * first


def test_a_closed_bag_is_followed_through_its_bore(tmp_path: Path) -> None:
    case = put(shipped("quarry-outboard"), ("lift", "bags"), ["C25", "C15"])
    kit = kit_with("bag", "C25", relief_bore="6 mm", withstands="0.3 bar")
    rows = {r["bag"]: r for r in planned(tmp_path, case, kit, 32)["ascent"]["closed"]}
    assert rows["C25"]["bore_known"]
    assert not rows["C15"]["bore_known"]
    assert rows["C25"]["most_bar"]["high"] >= rows["C25"]["relief_bar"]
    assert rows["C25"]["margin_bar"] == pytest.approx(0.3 - rows["C25"]["most_bar"]["high"])
    assert rows["C15"]["margin_bar"] is None
    tight = kit_with("bag", "C25", relief_bore="0.2 mm", withstands="0.3 bar")
    squeezed = {r["bag"]: r for r in planned(tmp_path, case, tight, 32)["ascent"]["closed"]}
    assert squeezed["C25"]["most_bar"]["likely"] > rows["C25"]["most_bar"]["likely"]


def test_the_map_is_the_closed_form(tmp_path: Path) -> None:
    ascent = planned(tmp_path, shipped("quarry-outboard"))["ascent"]
    told = ascent["under_control"]["map"]
    held = np.array(told["held"])
    assert held.shape == (len(told["share"]), len(told["delay_s"]))
    assert (np.diff(held, axis=0) <= 0.0).all()
    assert (np.diff(held, axis=1) <= 0.0).all()
    here = int(np.argmin(np.abs(np.array(told["share"]) - told["here"]["share"])))
    middle = np.interp(0.5, held[here][::-1], np.array(told["delay_s"])[::-1])
    assert middle == pytest.approx(ascent["delay_budget_s"], rel=0.15)


def test_every_set_has_its_sentence(tmp_path: Path) -> None:
    lift = planned(tmp_path, shipped("quarry-outboard"))["lift"]
    assert lift["sentence"].startswith("can be held, budget ")
    for row in lift["alternatives"]:
        assert "budget" in row["sentence"] or "nothing in it can grow" in row["sentence"]


def test_the_document_holds_numbers_only(tmp_path: Path) -> None:
    document = planned(tmp_path, tender(drogue="5 m2"), draws=16)
    json.dumps(document, allow_nan=False)
