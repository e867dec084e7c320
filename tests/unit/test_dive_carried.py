"""Cylinders beside the set: changes of gas, tissues across them, gas of each cylinder, what two may have to share."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from parbuckle.case.read import read_case
from parbuckle.desk.planning import plan
from parbuckle.dive.carried import Breathing, Carried, Change
from parbuckle.dive.climb import up
from parbuckle.dive.cylinders import Breathed
from parbuckle.dive.loading import at_rest, load
from parbuckle.dive.problem import DiveProblem, Diver, DiveRules, DivingProblem, Task
from parbuckle.dive.profile import Water, leg
from parbuckle.dive.result import CarriedPlan, DiveResult
from parbuckle.dive.stage import solve
from parbuckle.dive.stops import way_up
from parbuckle.dive.tasks import merged
from parbuckle.quantity.breathing import parse_gas
from parbuckle.quantity.errors import CaseError
from sample_dives import integrated

N = 32
MINUTE, BAR, LITRE = 60.0, 1e5, 1e-3
FLOW = LITRE / MINUTE
ONES = np.ones(N)
SURFACE, DENSITY = 101325.0, 1025.0
AIR, RICH, OXYGEN = parse_gas("air"), parse_gas("EAN50"), parse_gas("EAN100")
BARS = DENSITY * 9.80665 / SURFACE


def stage(name: str = "S7-1", gas: str = "EAN50", at: float | None = 20.0, litres: float = 7.0) -> Carried:
    """One cylinder beside the set."""
    kit = Breathed(litres * LITRE, 190.0 * BAR * ONES, parse_gas(gas), 1, 288.15, SURFACE * ONES)
    return Carried(name, kit, parse_gas(gas), at)


def diver(name: str = "Ines", *carried: Carried, gas: str = "air") -> Diver:
    """One diver with a twin set."""
    kit = Breathed(12 * LITRE, 220.0 * BAR * ONES, parse_gas(gas), 2, 288.15, SURFACE * ONES)
    return Diver(
        name, "searcher", parse_gas(gas), kit, 20 * FLOW * ONES, 40 * FLOW * ONES, 0.5 * ONES, carried=tuple(carried)
    )


def problem(*divers: Diver, minutes: float = 35.0, depth: float = 36.0, **rules: Any) -> DivingProblem:
    """One dive in the sea."""
    told = DiveRules(
        factors=(0.5, 0.8),
        stop_depth=5.0,
        stop_time=0.0,
        down=18 / MINUTE,
        up=9 / MINUTE,
        stress=60 * FLOW * ONES,
        sort_out=MINUTE,
        least=50 * BAR,
        overrun=10 * MINUTE,
        sawtooth=3.0,
        oxygen=1.4 * BAR,
        change=MINUTE,
        carried_share=2.0 / 3.0,
        oxygen_up=1.62 * BAR,
    )
    work = Task("work", (), minutes * MINUTE * ONES, minutes * MINUTE, "work", depth * ONES)
    dive = DiveProblem("dive 1 (lift)", "lift", 0, None, (work,), divers)
    water = Water(SURFACE * ONES, DENSITY * ONES)
    return DivingProblem((dive,), water, 288.15, 0.0, None, True, None, None, replace(told, **rules))


def only(*divers: Diver, **more: Any) -> DiveResult:
    """The dive, worked out."""
    return solve(problem(*divers, **more)).dives[0]


def row(found: DiveResult, name: str = "S7-1") -> CarriedPlan:
    """What one cylinder gives."""
    return next(each for diver in found.divers for each in diver.carried if each.name == name)


# ---- stops and tissues ---------------------------------------------------------------------------------------------


def test_a_richer_gas_on_the_way_up_shortens_the_stops() -> None:
    stops = [sum(s.time for s in only(diver("Ines", *carried)).stops) for carried in ((), (stage(),))]
    assert 0.0 < stops[1] < 0.75 * stops[0]


def test_oxygen_as_a_second_change_shortens_them_more() -> None:
    one = only(diver("Ines", stage()))
    two = only(diver("Ines", stage(), stage("O3", "EAN100", 5.9)))
    assert sum(s.time for s in two.stops if s.depth <= 6.0) < sum(s.time for s in one.stops if s.depth <= 6.0)


def test_the_way_up_across_changes_equals_an_integration() -> None:
    """Tissues on arrival by a numerical integration of the same legs, each on its own gas; and the rule of the stops.

    Waiting at a stop ends when the next one up is just tolerated: a second less and it is not.
    """
    water = Water(np.array([SURFACE]), np.array([DENSITY]))
    bottom = leg(water, 36.0, 36.0, 35 * MINUTE, parse_gas("21/35"))
    start = load(at_rest(SURFACE), [bottom])
    changes = (Change(21.0, RICH, 1), Change(6.0, OXYGEN, 2))
    found = way_up(start, 36.0, water, parse_gas("21/35"), 0.15, (0.3, 0.8), changes=changes, pause=MINUTE)
    gases = list(dict.fromkeys(each.gas.text for each in found.legs))
    assert gases == ["21/35", "EAN50", "EAN100"]
    moving = [each for each in found.legs if each.time[0] > 0.0]
    assert found.tissues == pytest.approx(integrated(start, moving), rel=1e-6)
    depth_of = (water.at(21.0)[0], water.at(6.0)[0])
    for at, gas in zip(depth_of, ("21/35", "EAN50"), strict=True):
        waits = [e for e in found.legs if e.start[0] == e.end[0] == pytest.approx(at) and e.gas.text == gas]
        assert any(float(e.time[0]) == MINUTE for e in waits), "the change takes its minute on the gas before it"


@pytest.mark.parametrize("seed", range(12))
def test_less_nitrogen_and_an_earlier_change_never_lengthen_the_stops(seed: int) -> None:
    """Any dive: richer gas, and the same gas from deeper, with no time for the change itself."""
    rng = np.random.default_rng(seed)
    water, depth = Water(np.array([SURFACE]), np.array([DENSITY])), float(rng.uniform(24.0, 45.0))
    start = load(at_rest(SURFACE), [leg(water, depth, depth, float(rng.uniform(20.0, 50.0)) * MINUTE, AIR)])
    shallow, deep = sorted(rng.uniform(5.0, 21.0, 2))

    def stops(gas: str, at: float) -> float:
        changes = (Change(at, parse_gas(gas), 1),)
        return sum(s.time for s in way_up(start, depth, water, AIR, 0.15, (0.5, 0.8), changes=changes).stops)

    none = sum(s.time for s in way_up(start, depth, water, AIR, 0.15, (0.5, 0.8)).stops)
    assert none + 0.1 >= stops("EAN36", shallow) >= stops("EAN50", shallow) - 0.1
    assert stops("EAN50", shallow) + 0.1 >= stops("EAN50", deep)


def test_a_change_to_the_same_gas_changes_nothing_but_the_minute() -> None:
    water = Water(np.array([SURFACE]), np.array([DENSITY]))
    start = load(at_rest(SURFACE), [leg(water, 36.0, 36.0, 35 * MINUTE, AIR)])
    plain = way_up(start, 36.0, water, AIR, 0.15, (0.5, 0.8))
    same = way_up(start, 36.0, water, AIR, 0.15, (0.5, 0.8), changes=(Change(20.0, AIR, 1),), pause=0.0)
    assert [s.time for s in same.stops] == pytest.approx([s.time for s in plain.stops], abs=0.01)
    assert same.tissues == pytest.approx(plain.tissues, rel=1e-9)


def test_legs_on_two_gases_are_never_joined() -> None:
    told = Breathing(AIR, (Change(6.0, RICH, 1),))
    asked = problem(diver())
    pieces = up(36.0 * ONES, asked.dives[0], asked.water, told, asked.rules, ())
    assert sum((each.time for each in merged(pieces)), np.zeros(N)) == pytest.approx(
        sum((p.leg.time for p in pieces), np.zeros(N))
    )
    assert {each.gas.text for each in merged(pieces)} == {"air", "EAN50"}


def test_the_team_waits_together_and_comes_up_together() -> None:
    alone, pair = only(diver()), only(diver(), diver("Tomas", stage()))
    assert (pair.way_up[0] - alone.way_up[0]) == pytest.approx(
        MINUTE + sum(s.time for s in pair.stops) - sum(s.time for s in alone.stops)
    )
    assert sum(s.time for s in pair.stops) > sum(s.time for s in only(diver("Ines", stage())).stops)


def test_nobody_surfaces_over_the_high_factor() -> None:
    for carried in ((), (stage(),), (stage(), stage("O3", "EAN100", 5.9))):
        found = only(diver("Ines", *carried))
        assert found.divers[0].surfacing.max() <= 0.8 + 1e-6


# ---- gas -----------------------------------------------------------------------------------------------------------


def test_gas_of_each_cylinder_by_hand() -> None:
    found = only(diver("Ines", stage()), minutes=10.0, depth=30.0)
    assert not found.stops
    at = {depth: 1.0 + BARS * depth for depth in (0.0, 20.0, 30.0)}
    own = 30 * (10 / 9) * (at[30.0] + at[20.0]) / 2 + 20 * 1 * at[20.0]
    rich = 30 * (20 / 9) * (at[20.0] + at[0.0]) / 2
    assert found.divers[0].gas.way_up / LITRE == pytest.approx(own, rel=1e-9)
    assert row(found).needed / LITRE == pytest.approx(rich, rel=1e-9)
    start, end = row(found).start, row(found).end
    assert start is not None and end is not None
    kit = stage().kit
    assert kit is not None
    assert (kit.content(start) - kit.content(end)) / LITRE == pytest.approx(rich, rel=1e-6)


def test_two_share_one_set_only_up_to_where_everybody_has_another_one() -> None:
    at = {depth: 1.0 + BARS * depth for depth in (0.0, 20.0, 30.0)}
    up_to = 2 * 60 * (at[30.0] + 10 / 9 * (at[30.0] + at[20.0]) / 2 + at[20.0])
    whole = up_to + 2 * 60 * 20 / 9 * (at[20.0] + at[0.0]) / 2
    both = only(diver("Ines", stage()), diver("Tomas", stage("S7-2")), minutes=10.0, depth=30.0)
    one = only(diver("Ines", stage()), diver("Tomas"), minutes=10.0, depth=30.0)
    spare = only(diver("Ines", stage(at=None)), diver("Tomas", stage("S7-2", at=None)), minutes=10.0, depth=30.0)
    assert both.divers[0].gas.shared / LITRE == pytest.approx(up_to, rel=1e-9)
    assert one.divers[0].gas.shared / LITRE == pytest.approx(whole, rel=1e-9)
    assert spare.divers[0].gas.shared / LITRE == pytest.approx(whole - 2 * 60 * at[20.0], rel=1e-9)


def test_what_is_kept_for_an_emergency_brings_one_up_and_is_not_breathed() -> None:
    at = {depth: 1.0 + BARS * depth for depth in (0.0, 30.0)}
    wanted = 60 * (at[30.0] + 30 / 9 * (at[30.0] + at[0.0]) / 2)
    big, small = (
        only(diver("Ines", stage("B", "air", None, litres)), minutes=10.0, depth=30.0) for litres in (7.0, 1.5)
    )
    plain = only(diver(), minutes=10.0, depth=30.0)
    assert row(big, "B").needed / LITRE == pytest.approx(wanted, rel=1e-9)
    assert not row(big, "B").short.any()
    assert row(small, "B").short.all()
    assert big.divers[0].gas.used == pytest.approx(plain.divers[0].gas.used)
    assert (big.divers[0].surfacing == plain.divers[0].surfacing).all()


def test_a_third_is_kept_back() -> None:
    needed = float(row(only(diver("Ines", stage()))).needed[0])
    kit = stage().kit
    assert kit is not None
    whole = float((kit.content(190 * BAR) - kit.content(0.0))[0])
    share = needed / whole
    for factor, short in ((0.999, True), (1.001, False)):
        found = only(diver("Ines", stage()), carried_share=share * factor)
        assert bool(row(found).short.all()) is short


def test_an_empty_one_is_empty_and_never_below() -> None:
    found = row(only(diver("Ines", stage(litres=0.5))))
    assert found.empty.all() and found.short.all()
    assert found.end is not None and (found.end == pytest.approx(0.0, abs=1.0)) and (found.end >= 0.0).all()


def test_the_over_run_names_what_is_then_short() -> None:
    needed = float(row(only(diver("Ines", stage()))).needed[0])
    kit = stage().kit
    assert kit is not None
    share = 1.01 * needed / float((kit.content(190 * BAR) - kit.content(0.0))[0])
    found = only(diver("Ines", stage()), carried_share=share)
    assert not row(found).short.any()
    assert found.over_run is not None and found.over_run.short == ("S7-1",)


# ---- oxygen --------------------------------------------------------------------------------------------------------


def test_oxygen_where_it_is_breathed_deepest_and_last() -> None:
    found = only(diver("Ines", stage(), stage("O3", "EAN100", 5.9)))
    first, second = row(found), row(found, "O3")
    pressure = {depth: SURFACE + DENSITY * 9.80665 * depth for depth in (20.0, 5.9)}
    assert first.oxygen == pytest.approx(0.5 * pressure[20.0])
    assert first.oxygen_least == pytest.approx(0.5 * pressure[5.9])
    assert second.oxygen == pytest.approx(pressure[5.9])
    assert second.oxygen_least == pytest.approx(SURFACE)
    assert first.mod == pytest.approx((1.62 * BAR / 0.5 - SURFACE) / (DENSITY * 9.80665))


def test_oxygen_of_the_way_up_is_counted() -> None:
    plain, rich = (only(diver("Ines", *carried)).divers[0].oxygen for carried in ((), (stage(),)))
    assert plain.dose is not None and rich.dose is not None and rich.single is not None and plain.single is not None
    assert (rich.dose > plain.dose).all()
    assert (rich.single > plain.single).all()


def test_a_bottom_above_the_change_is_changed_on_leaving() -> None:
    found = only(diver("Ines", stage(at=25.0)), minutes=10.0, depth=15.0)
    assert row(found).oxygen == pytest.approx(0.5 * (SURFACE + DENSITY * 9.80665 * 15.0))


# ---- as a case -----------------------------------------------------------------------------------------------------

INES = '{ person = "Ines", role = "searcher", cylinder = "D12-1" }'
STAGE = """[[cylinder]]
id = "S7-1"
use = "breathing"
volume = "7 l"
pressure = "190 bar"
gas = "EAN50"

[[cylinder]]
id = "B3"
use = "breathing"
volume = "3 l"
pressure = "190 bar"

"""


def written(folder: Path, root: Path, carries: str, gas: str = "EAN50", house: str = "") -> Path:
    """The shipped case with cylinders beside a set."""
    cases = root / "src" / "parbuckle" / "data" / "cases"
    kit = (cases / "kit.toml").read_text(encoding="utf-8")
    (folder / "kit.toml").write_text(kit.replace("[[cylinder]]", STAGE.replace("EAN50", gas) + "[[cylinder]]", 1))
    case = (cases / "tidal-frame.toml").read_text(encoding="utf-8")
    assert INES in case
    changed = case.replace(INES, f"{INES[:-2]}, carries = [{carries}] }}", 1) + house
    (folder / "tidal-frame.toml").write_text(changed, encoding="utf-8")
    return folder / "tidal-frame.toml"


BROKEN = {
    "lift gas": ('{ cylinder = "L12", change_at = "18 m" }', "carries[1].cylinder", "anybody breathes from"),
    "nobody's": ('{ cylinder = "S8" }', "carries[1].cylinder", "S8"),
    "the set itself": ('{ cylinder = "D12-1" }', "carries[1].cylinder", "the set itself"),
    "another's set": ('{ cylinder = "D12-2" }', "dive[1].team[2].cylinder", "two divers"),
    "twice": ('{ cylinder = "B3" }, { cylinder = "B3" }', "carries[2].cylinder", "stands twice"),
    "one depth": (
        '{ cylinder = "S7-1", change_at = "18 m" }, { cylinder = "B3", change_at = "18 m" }',
        "carries[2].change_at",
        "one change",
    ),
    "above the water": ('{ cylinder = "S7-1", change_at = "-3 m" }', "carries[1].change_at", "-3"),
}


@pytest.mark.parametrize("name", BROKEN)
def test_one_clear_message_at_its_key(name: str, root: Path, tmp_path: Path) -> None:
    carries, key, says = BROKEN[name]
    with pytest.raises(CaseError) as caught:
        read_case(written(tmp_path, root, carries))
    assert key in str(caught.value)
    assert says in str(caught.value)


def document(path: Path) -> dict[str, Any]:
    """The plan of a case, few draws."""
    return plan(path, 32, 1)


@pytest.mark.parametrize(
    ("carries", "gas", "code", "fires"),
    [
        ('{ cylinder = "S7-1", change_at = "23 m" }', "EAN50", "change_oxygen_high", True),
        ('{ cylinder = "S7-1", change_at = "20 m" }', "EAN50", "change_oxygen_high", False),
        ('{ cylinder = "S7-1" }', "EAN50", "change_oxygen_high", True),
        ('{ cylinder = "S7-1", change_at = "20 m" }', "10/50", "change_oxygen_low", True),
        ('{ cylinder = "S7-1", change_at = "20 m" }', "21/35", "change_oxygen_low", False),
        ('{ cylinder = "B3" }', "EAN50", "emergency_gas_short", True),
    ],
)
def test_what_cannot_be_breathed_is_found(
    carries: str, gas: str, code: str, fires: bool, root: Path, tmp_path: Path
) -> None:
    found = document(written(tmp_path, root, carries, gas))
    assert (code in [row["code"] for row in found["findings"]]) is fires


def test_the_document_tells_it_and_the_lift_gas_stays_the_lift_gas(root: Path, tmp_path: Path) -> None:
    plain = document(written(tmp_path, root, ""))
    found = document(written(tmp_path, root, '{ cylinder = "S7-1", change_at = "18 m" }'))
    assert found["lift"] == plain["lift"]
    dive = found["dives"][0]
    assert dive["gas_changes"] == [
        {"depth_m": 18.0, "min": 1.0, "who": [{"name": "Ines", "gas": "EAN50", "cylinder": "S7-1"}]}
    ]
    carried = dive["divers"][0]["carried"]
    assert [each["cylinder"] for each in carried] == ["S7-1"]
    assert dive["divers"][1]["carried"] == []
    assert carried[0]["end_pressure_bar"]["high"] < carried[0]["start_bar"]["low"]
    assert any("change gas: Ines to EAN50 (S7-1)" in text for text in dive["ascent"]["plan"])
    assert dive["way_up_min"]["likely"] == pytest.approx(plain["dives"][0]["way_up_min"]["likely"] + 1.0)
