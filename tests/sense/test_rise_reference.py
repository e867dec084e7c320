"""The ascent left alone against a solver of high order, written out again in plain floats; what must always hold."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from parbuckle.physics.forces import Body
from parbuckle.physics.rise import BOTTOM, STAYS, SURFACE, Rise, left_alone
from sample_bodies import AIR, G0, GAS, Array, Lane, body_of_lanes, draw_lanes, reference

few = settings(deadline=None, derandomize=True, max_examples=15)
seeds = st.integers(0, 10_000)
NAMES = {"surface": SURFACE, "bottom": BOTTOM}


def column(lanes: list[Lane], name: str) -> Array:
    return np.array([getattr(lane, name) for lane in lanes])


def run(lanes: list[Lane], body: Body | None = None, tolerance: float | None = None) -> Rise:
    depth, surface = column(lanes, "depth"), column(lanes, "surface")
    more = {} if tolerance is None else {"tolerance": tolerance}
    return left_alone(body_of_lanes(lanes) if body is None else body, depth, surface, depth, **more)


@pytest.mark.parametrize(("gamma", "seed"), [(1.0, 11), (1.4, 12)])
def test_250_ascents_agree_with_the_reference(gamma: float, seed: int) -> None:
    lanes = draw_lanes(250, seed, gamma)
    body, mine = body_of_lanes(lanes), run(lanes)
    flips = np.zeros(len(lanes), dtype=bool)
    for factor in (1.0 - 1e-6, 1.0 + 1e-6):
        flips |= run(lanes, replace(body, weight=body.weight * factor)).end != mine.end
    assert flips.mean() <= 0.02
    for i in np.flatnonzero(~flips):
        end, time, speed = reference(lanes[i])
        assert mine.end[i] == NAMES[end], lanes[i]
        assert mine.time[i] == pytest.approx(time, rel=1e-3), lanes[i]
        assert mine.speed[i] == pytest.approx(speed, rel=1e-3), lanes[i]


def test_a_start_in_mid_water_agrees_with_the_reference_up_and_down() -> None:
    rng = np.random.default_rng(14)
    lanes = []
    for lane in draw_lanes(200, 13):
        parted = all(v < 0.7 * c for v, c in zip(lane.gas, lane.capacity, strict=True))
        if parted and lane.depth > 6.0 and lane.surface < 3.0:  # no bag is full near the start: none can spill and sink
            lanes.append(replace(lane, weight=lane.weight * rng.uniform(1.05, 1.3)))
    depth = column(lanes, "depth") * rng.uniform(0.8, 0.95, len(lanes))
    speed = rng.uniform(-0.3, 0.3, len(lanes))
    body = body_of_lanes(lanes)
    mine = left_alone(body, depth, column(lanes, "surface"), column(lanes, "depth"), speed)
    assert len(lanes) > 20 and {float(x) for x in mine.end} == {SURFACE, BOTTOM}
    flips = np.zeros(len(lanes), dtype=bool)
    for factor in (1.0 - 1e-6, 1.0 + 1e-6):
        other = replace(body, weight=body.weight * factor)
        flips |= left_alone(other, depth, column(lanes, "surface"), column(lanes, "depth"), speed).end != mine.end
    assert flips.mean() <= 0.02
    for i in np.flatnonzero(~flips):
        end, time, arrival = reference(lanes[i], float(speed[i]), float(depth[i]))
        assert mine.end[i] == NAMES[end]
        assert mine.time[i] == pytest.approx(time, rel=1e-3)
        assert mine.speed[i] == pytest.approx(arrival, rel=1e-3)


@few
@given(seeds)
def test_without_drag_the_work_of_the_gas_becomes_speed(seed: int) -> None:
    """Boyle: the work of a growing bag is p0 V0 ln(p0/p); a full bag lifts with what it holds."""
    lanes = [replace(lane, relief=(0.0,) * len(lane.gas)) for lane in draw_lanes(12, seed)]
    body = body_of_lanes(lanes)
    zero = np.zeros(len(lanes))
    body = replace(body, drag_area=zero, bag_drag=zero, bag_added_mass=zero)
    mine = run(lanes, body)
    for i, lane in enumerate(lanes):
        start, end = lane.pressure, lane.air + lane.rho * G0 * (lane.surface - lane.reach)
        per_pascal = AIR / (GAS * lane.kelvin)
        work = -lane.weight * (lane.depth - lane.surface)
        for gas, holds in zip(lane.gas, lane.capacity, strict=True):
            full = max(end, start * gas / holds)
            work += gas * start * np.log(start / full) - gas * start * per_pascal * (start - full) / lane.rho
            work += holds * (full - end) - holds * per_pascal * (full**2 - end**2) / (2.0 * lane.rho)
        assert 0.5 * lane.mass * mine.speed[i] ** 2 == pytest.approx(work, rel=2e-3)


def test_the_order_of_bags_and_an_empty_bag_change_nothing() -> None:
    lanes = draw_lanes(40, 21)
    body, mine = body_of_lanes(lanes), run(lanes)
    turned = run(
        lanes, replace(body, **{k: getattr(body, k)[::-1].copy() for k in ("gas", "capacity", "over_pressure")})
    )
    more = {
        "gas": np.vstack([body.gas, np.zeros((1, len(lanes)))]),
        "capacity": np.vstack([body.capacity, np.full((1, len(lanes)), 0.05)]),
        "over_pressure": np.vstack([body.over_pressure, np.zeros((1, len(lanes)))]),
    }
    empty = run(lanes, replace(body, **more))
    assert np.allclose(turned.time, mine.time, rtol=1e-9) and np.allclose(turned.speed, mine.speed, rtol=1e-9)
    assert np.array_equal(empty.time, mine.time) and np.array_equal(empty.speed, mine.speed)


@few
@given(seeds)
def test_lanes_do_not_see_each_other(seed: int) -> None:
    """Turned round bit for bit; each on its own to the rounding of a sum."""
    lanes = draw_lanes(9, seed)
    mine, turned = run(lanes), run(lanes[::-1])
    assert np.array_equal(turned.time[::-1], mine.time) and np.array_equal(turned.speed[::-1], mine.speed)
    alone = [run([lane]) for lane in lanes]
    assert np.allclose([a.time[0] for a in alone], mine.time, rtol=1e-12)
    assert np.allclose([a.speed[0] for a in alone], mine.speed, rtol=1e-12)


def test_a_finer_tolerance_comes_nearer() -> None:
    lanes = draw_lanes(60, 31)
    fine = run(lanes, tolerance=1e-9)
    worst = [np.abs(run(lanes, tolerance=t).time / fine.time - 1.0).max() for t in (1e-2, 1e-4, 1e-6)]
    assert worst[0] > 3.0 * worst[1] > 0.0
    assert worst[1] > worst[2]
    assert worst[1] < 1e-3


def test_a_bag_that_starts_full_lifts_with_what_it_holds() -> None:
    """A full open bag keeps its volume: constant thrust but for the weight of its gas, so the end is terminal speed."""
    lane = draw_lanes(1, 41)[0]
    lane = replace(lane, depth=35.0, reach=0.0, surface=0.0, weight=100 * G0, mass=150.0, area=0.4, relief=(0.0,))
    lane = replace(lane, gas=(0.11,), capacity=(0.11,), bag_added=0.0, bag_drag=0.0)
    mine = run([lane])
    lift = (lane.rho - lane.air * AIR / (GAS * lane.kelvin)) * 0.11 * G0 - lane.weight
    assert mine.speed[0] == pytest.approx(np.sqrt(2.0 * lift / (lane.rho * lane.area)), rel=5e-3)
    assert mine.speed[0] == pytest.approx(reference(lane)[2], rel=1e-3)


def test_marks_at_the_start_end_it_at_once() -> None:
    lanes = [replace(lane, surface=lane.depth) for lane in draw_lanes(20, 51)]
    mine = run(lanes)
    assert set(mine.end) == {SURFACE}
    assert mine.time.max() < 0.1 and np.abs(mine.steps_depth[-1] - mine.steps_depth[0]).max() <= 1e-4


def test_too_little_gas_stays_and_a_start_downward_ends_on_the_bottom() -> None:
    lanes = draw_lanes(20, 61)
    heavy = replace(body_of_lanes(lanes), weight=column(lanes, "weight") * 2.0)
    depth, surface = column(lanes, "depth"), column(lanes, "surface")
    assert set(run(lanes, heavy).end) == {STAYS}
    above = 0.5 * (depth + surface)
    down = left_alone(heavy, above, surface, depth, np.full(len(lanes), -0.2))
    assert set(down.end) == {BOTTOM} and (down.speed < 0.0).all()
    at_rest = left_alone(heavy, above, surface, depth)
    assert set(at_rest.end) == {BOTTOM} and (at_rest.time > down.time).all()


def test_more_drag_is_slower_and_more_gas_is_sooner() -> None:
    lanes = draw_lanes(60, 71)
    mine, body = run(lanes), body_of_lanes(lanes)
    dragged = run(lanes, replace(body, drag_area=body.drag_area * 2.0, bag_drag=body.bag_drag * 2.0))
    lighter = run(lanes, replace(body, weight=body.weight * 0.99))
    assert (dragged.time > mine.time).all() and (dragged.speed < mine.speed).all()
    assert (lighter.time < mine.time).all()
