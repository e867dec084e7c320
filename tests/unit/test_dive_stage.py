"""The dive stage: window, tasks, several dives, gas, over-run, held against sums by hand and against changed cases."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from parbuckle.dive.cylinders import Breathed
from parbuckle.dive.problem import DiveProblem, Diver, DiveRules, DivingProblem, Earlier, Stream, Task
from parbuckle.dive.profile import Water
from parbuckle.dive.result import DiveResult
from parbuckle.dive.stage import solve
from parbuckle.dive.tasks import blocks, tooth
from parbuckle.dive.window import slack_time, window
from parbuckle.quantity.breathing import parse_gas
from parbuckle.quantity.errors import RangeError

N = 64
MINUTE, HOUR, BAR, LITRE = 60.0, 3600.0, 1e5, 1e-3
FLOW = LITRE / MINUTE
ONES = np.ones(N)
SURFACE, DENSITY = 101325.0, 1025.0
NOON = 1.8e9


def task(minutes: float, by: tuple[str, ...] = (), depth: float = 20.0, **more: Any) -> Task:
    """One task of an exact time."""
    return Task("rig", by, minutes * MINUTE * ONES, minutes * MINUTE, more.pop("effort", "easy"), depth * ONES, **more)


def diver(name: str = "Ines", gas: str = "air", bar: float = 200.0, **more: Any) -> Diver:
    """One diver with a 15 l cylinder."""
    kit = Breathed(15 * LITRE, bar * BAR * ONES, parse_gas(gas), 1, 288.15, SURFACE * ONES)
    return Diver(name, "searcher", parse_gas(gas), kit, 20 * FLOW * ONES, 40 * FLOW * ONES, 0.5 * ONES, **more)


def dive(*tasks: Task, start: float | None = NOON, divers: tuple[Diver, ...] | None = None, **more: Any) -> DiveProblem:
    """One dive."""
    return DiveProblem("dive 1 (search)", "search", 0, start, tasks, divers or (diver(),), **more)


def problem(*dives: DiveProblem, **more: Any) -> DivingProblem:
    """Dives in the sea."""
    rules = DiveRules(
        factors=(0.5, 0.8),
        stop_depth=5.0,
        stop_time=3 * MINUTE,
        down=18 / MINUTE,
        up=9 / MINUTE,
        stress=60 * FLOW * ONES,
        sort_out=MINUTE,
        least=50 * BAR,
        overrun=10 * MINUTE,
        sawtooth=3.0,
        oxygen=1.4 * BAR,
    )
    asked = DivingProblem(dives, Water(SURFACE * ONES, DENSITY * ONES), 288.15, 0.0, None, True, None, None, rules)
    return replace(asked, **more)


def only(*dives: DiveProblem, **more: Any) -> DiveResult:
    """The last of the dives, worked out."""
    return solve(problem(*dives, **more)).dives[-1]


# ---- slack ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("limit", "minutes"), [(0.1, 23), (0.2, 46), (0.3, 70), (0.4, 94), (0.5, 120)])
def test_slack_of_a_sine_of_twelve_hours(limit: float, minutes: float) -> None:
    """The published table of the duration of slack for 1 kn (recalled), to its own half minute."""
    assert float(slack_time(limit, 1.0, 12.0 * HOUR)) / MINUTE == pytest.approx(minutes, abs=0.5)


def test_slack_is_refused_where_it_never_ends() -> None:
    with pytest.raises(RangeError):
        slack_time(1.1, 1.0, 12.0 * HOUR)


def sine(period: float, rows: int, error: float = 0.0) -> Stream:
    """A stream that swings like a sine to 1 m/s, with slack at noon, as a table of one period."""
    times = tuple(NOON + period * (i / (rows - 1) - 0.5) for i in range(rows))
    east = tuple(np.sin(2 * np.pi * (t - NOON) / period) * ONES for t in times)
    return Stream(times, east, tuple(0.0 * e for e in east), 0.3, error * ONES)


def test_a_fine_table_gives_the_sine_back() -> None:
    period = 12.4206 * HOUR
    found = window(sine(period, 2001), NOON, 600.0 * ONES)
    whole = float(slack_time(0.3, 1.0, period))
    assert found.closes - found.opens == pytest.approx(whole, abs=0.5)
    assert found.slack == pytest.approx(NOON, abs=0.5)
    assert found.opens == pytest.approx(NOON - whole / 2, abs=0.5)


def test_a_turning_stream_has_no_slack() -> None:
    """Interpolated as a vector: a stream that turns through the north never falls to nothing."""
    east = (ONES, 0.0 * ONES, -ONES)
    north = (0.0 * ONES, 0.8 * ONES, 0.0 * ONES)
    turning = Stream((NOON, NOON + HOUR, NOON + 2 * HOUR), east, north, 0.3, 0.0 * ONES)
    found = window(turning, NOON, 600.0 * ONES)
    assert not found.exists.any()
    assert not found.fits.any()
    assert not found.fits_on_sight.any()


def test_nothing_is_slack_beyond_the_table() -> None:
    calm = Stream((NOON, NOON + HOUR), (0.0 * ONES, 0.0 * ONES), (0.0 * ONES, 0.0 * ONES), 0.3, 0.0 * ONES)
    assert window(calm, NOON, HOUR * ONES).fits.all()
    assert not window(calm, NOON, (HOUR + 1.0) * ONES).fits.any()
    assert not window(calm, NOON - 1.0, 600.0 * ONES).fits.any()


def test_a_late_slack_shifts_the_window_and_its_end() -> None:
    on_time, late = (window(sine(12 * HOUR, 401, by), NOON, 600.0 * ONES) for by in (0.0, 1200.0))
    assert late.opens - on_time.opens == pytest.approx(1200.0)
    assert late.closes - late.opens == pytest.approx(on_time.closes - on_time.opens)


def test_the_clock_fits_less_than_the_eye() -> None:
    error = np.linspace(-1.0, 1.0, N) * 40 * MINUTE
    found = only(dive(task(20.0)), stream=replace(sine(12 * HOUR, 401), error=error)).window
    assert found is not None
    assert 0.0 < found.fits.mean() < found.fits_on_sight.mean() == 1.0


# ---- tasks ---------------------------------------------------------------------------------------------------------


def test_bottom_time_is_descent_and_tasks() -> None:
    found = only(dive(task(5.0), task(7.0)))
    assert found.bottom_time == pytest.approx(20.0 / 18.0 * MINUTE + 12 * MINUTE)
    assert found.way_up == pytest.approx(20.0 / 9.0 * MINUTE + 3 * MINUTE)


def test_meanwhile_takes_no_longer_than_the_longer_one() -> None:
    both = blocks([task(5.0, ("Ines",)), task(7.0, ("Tomas",), meanwhile=True), task(1.0)])
    assert [float(b.time[0]) / MINUTE for b in both] == [7.0, 1.0]


def test_who_is_not_needed_rests() -> None:
    pair = (diver("Ines"), diver("Tomas"))
    found = only(dive(task(10.0, ("Ines",), effort="work"), divers=pair))
    busy, idle = found.divers
    there = (SURFACE + DENSITY * 9.80665 * 20.0) / SURFACE
    assert busy.gas.used - idle.gas.used == pytest.approx(20 * LITRE * 10 * there, rel=1e-9)


def test_gas_by_hand() -> None:
    found = only(dive(task(10.0, effort="work")))
    bars = DENSITY * 9.80665 / SURFACE
    at = {depth: 1.0 + bars * depth for depth in (0.0, 5.0, 20.0)}
    down = 30 * 20 / 18 * (at[0.0] + at[20.0]) / 2
    up = 30 * (15 / 9 * (at[20.0] + at[5.0]) / 2 + 5 / 9 * (at[5.0] + at[0.0]) / 2) + 20 * 3 * at[5.0]
    assert found.divers[0].gas.used / LITRE == pytest.approx(down + 40 * 10 * at[20.0] + up, rel=1e-9)
    two = 2 * 60 * (at[20.0] + 15 / 9 * (at[20.0] + at[5.0]) / 2 + 3 * at[5.0] + 5 / 9 * (at[5.0] + at[0.0]) / 2)
    assert found.divers[0].gas.shared / LITRE == pytest.approx(two, rel=1e-9)


@pytest.mark.parametrize("share", [0.5, 1 / 3])
def test_a_search_turns_when_its_share_of_the_gas_is_used(share: float) -> None:
    asked = problem(dive(task(10.0)))
    gas = only(*asked.dives, rules=replace(asked.rules, turn_share=share)).divers[0].gas
    kit = asked.dives[0].divers[0].kit
    assert kit is not None and gas.start is not None and gas.leave is not None and gas.turn is not None
    out, back = kit.content(gas.start) - kit.content(gas.turn), kit.content(gas.turn) - kit.content(gas.leave)
    assert out / (out + back) == pytest.approx(share, rel=1e-9)


def test_who_starts_with_no_more_than_the_way_up_needs_has_no_turn() -> None:
    assert only(dive(task(10.0), divers=(diver(bar=60.0),))).divers[0].gas.turn is None


def test_up_and_down_again_is_a_tooth() -> None:
    assert tooth(blocks([task(1.0, depth=20.0), task(1.0, depth=8.0), task(1.0, depth=15.0)])) == 7.0
    assert tooth(blocks([task(1.0, depth=20.0), task(1.0, depth=15.0), task(1.0, depth=8.0)])) == 0.0


def test_more_depth_and_time_leave_less() -> None:
    ends = [only(dive(task(m, depth=d))).divers[0].gas.end for m, d in ((10.0, 20.0), (12.0, 20.0), (12.0, 24.0))]
    assert all(end is not None for end in ends)
    assert float(ends[0][0]) > float(ends[1][0]) > float(ends[2][0])  # type: ignore[index]


def test_an_empty_cylinder_is_empty_and_never_below() -> None:
    gas = only(dive(task(60.0, effort="work"), divers=(diver(bar=100.0),))).divers[0].gas
    assert gas.empty.all()
    assert gas.under.all()
    assert gas.late.all()
    assert gas.end is not None
    assert (gas.end == pytest.approx(0.0, abs=1.0)) and (gas.end >= 0.0).all()


# ---- dives after dives -----------------------------------------------------------------------------------------------


def test_an_earlier_dive_shortens_both_limits() -> None:
    before = Earlier(30.0 * ONES, 20 * MINUTE * ONES, parse_gas("air"), NOON - 1.0 * HOUR)
    fresh, tired = (only(dive(task(10.0), divers=(diver(earlier=e),))).divers[0] for e in ((), (before,)))
    assert (tired.limit < fresh.limit).all()
    assert tired.table is not None
    assert fresh.table is not None
    assert tired.table < fresh.table
    assert tired.interval is not None
    assert tired.interval == pytest.approx(HOUR)
    assert fresh.interval is None


def test_a_longer_interval_is_never_worse() -> None:
    limits = []
    for hours in (1.0, 2.0, 6.0, 24.0):
        before = Earlier(30.0 * ONES, 20 * MINUTE * ONES, parse_gas("air"), NOON - hours * HOUR)
        limits.append(float(only(dive(task(10.0), divers=(diver(earlier=(before,)),))).divers[0].limit[0]))
    assert limits == sorted(limits)


def test_a_dive_of_the_case_counts_like_an_earlier_one() -> None:
    """The same dive told as an earlier one and planned as the first one, without the stop that an earlier one lacks."""
    none = replace(problem().rules, stop_time=0.0)
    first = dive(task(5.0, depth=30.0))
    second = dive(task(10.0), start=NOON + 2 * HOUR)
    both = solve(problem(first, second, rules=none)).dives
    surfaced = float((NOON + both[0].bottom_time + both[0].way_up)[0])
    told = Earlier(30.0 * ONES, both[0].bottom_time.copy(), parse_gas("air"), surfaced)
    alone = only(dive(task(10.0), start=NOON + 2 * HOUR, divers=(diver(earlier=(told,)),)), rules=none)
    assert both[1].divers[0].limit == pytest.approx(alone.divers[0].limit, rel=1e-9)
    assert both[1].divers[0].group_before == alone.divers[0].group_before


def test_another_diver_is_not_touched() -> None:
    first = dive(task(20.0, depth=30.0), divers=(diver("Tomas"),))
    second = dive(task(10.0), start=NOON + HOUR)
    assert solve(problem(first, second)).dives[1].divers[0].limit == pytest.approx(only(second).divers[0].limit)


def test_oxygen_of_a_day_is_added_and_of_the_day_before_is_not() -> None:
    pair = (diver(gas="EAN32"),)
    first = dive(task(20.0, depth=30.0), divers=pair)
    alone = only(first).divers[0].oxygen
    for hours, factor in ((3.0, 2.0), (30.0, 1.0)):
        again = dive(task(20.0, depth=30.0), start=NOON + hours * HOUR, divers=pair)
        oxygen = solve(problem(first, again)).dives[1].divers[0].oxygen
        assert oxygen.daily == pytest.approx(factor * alone.daily)
        assert oxygen.dose == pytest.approx(factor * alone.dose)


def test_fresh_from_the_sea_is_worse_than_living_there() -> None:
    high = {"water": Water(84556.0 * ONES, 1000.0 * ONES), "climbed": 1500.0}
    limits = [
        float(only(dive(task(10.0)), **high, lives_there=lives, arrived=at).divers[0].limit[0])
        for lives, at in ((False, None), (False, NOON - 3 * HOUR), (False, NOON - 48 * HOUR), (True, None))
    ]
    assert limits == sorted(limits)
    assert limits[0] < limits[1] < limits[2]


# ---- stops and the over-run ------------------------------------------------------------------------------------------


def test_a_long_dive_has_stops_and_its_gas_counts_them() -> None:
    short, long = only(dive(task(10.0, depth=30.0))), only(dive(task(40.0, depth=30.0)))
    assert not short.stops
    assert long.stops
    assert (long.way_up - short.way_up)[0] == pytest.approx(sum(s.time for s in long.stops), rel=1e-6)
    assert (long.divers[0].surfacing <= 0.8 + 1e-6).all()


def test_the_over_run_is_at_least_so_much_longer() -> None:
    found = only(dive(task(5.0), task(10.0, effort="work")))
    assert found.over_run is not None
    assert found.over_run.bottom_time - found.bottom_time[0] == pytest.approx(10 * MINUTE)
    end = dict(found.over_run.ends)["Ines"]
    assert found.divers[0].gas.end is not None
    assert end < found.divers[0].gas.end[0]


def test_long_ends_that_are_longer_still_count_whole() -> None:
    slow = replace(task(10.0, effort="work"), longest=40 * MINUTE)
    found = only(dive(slow))
    assert found.over_run is not None
    assert found.over_run.bottom_time == pytest.approx(20 / 18 * MINUTE + 40 * MINUTE)


def test_up_beside_the_load_takes_longer_than_alone() -> None:
    alone, beside = only(dive(task(5.0))), only(dive(task(5.0), beside=(6 / MINUTE, 6.0)))
    extra = 14.0 / (6 / MINUTE) - 14.0 / (9 / MINUTE)
    assert beside.way_up - alone.way_up == pytest.approx(extra)


def test_helium_has_no_table_and_no_air_depth() -> None:
    found = only(dive(task(10.0, depth=30.0), divers=(diver(gas="21/35"),))).divers[0]
    assert found.table is None
    assert "helium" in found.table_why
    assert found.oxygen.air_depth is None
    assert np.isfinite(found.limit).all()


def test_the_safer_end_of_stream_and_daylight_decides() -> None:
    light = NOON + 30 * MINUTE
    found = only(dive(task(10.0)), stream=sine(12 * HOUR, 401), daylight=light)
    assert found.latest_from == "daylight"
    assert found.latest_leave == pytest.approx(light - float(found.way_up[0]))
    later = only(dive(task(10.0)), stream=sine(12 * HOUR, 401), daylight=NOON + 12 * HOUR)
    assert later.latest_from == "stream"
