"""The closed forms of control against the integrator in time, and what drives a band against known functions."""

from __future__ import annotations

import numpy as np
import pytest

from parbuckle.lift.control import delay_budget, growth_rate, neutral_window, no_return, runaway_bound, vent_needed
from parbuckle.physics.constants import G
from parbuckle.physics.forces import Body
from parbuckle.physics.rise import SURFACE, left_alone
from parbuckle.plan.drivers import drivers
from parbuckle.quantity.draws import uniforms
from parbuckle.quantity.frozen import Floats


def _body(load: Floats, gas: Floats, capacity: Floats, area: Floats, depth: Floats) -> Body:
    """One bag on a load, without the weight of gas; arrays of shape (n,)."""
    one = np.ones_like(load)
    pressure = 101325.0 + 1025.0 * G * depth
    return Body(
        water_density=1025.0 * one,
        surface_pressure=101325.0 * one,
        temperature=283.15 * one,
        weight=load * G,
        mass=2.0 * load,
        bag_added_mass=0.0 * one,
        drag_area=area,
        bag_drag=0.0 * one,
        reach=0.0 * one,
        capacity=capacity[None],
        gas=gas[None],
        gas_pressure=pressure,
        over_pressure=0.0 * one[None],
        molar_mass=0.0,
    )


def test_growth_off_neutral_follows_the_closed_form() -> None:
    rng = np.random.default_rng(3)
    load, depth = rng.uniform(10, 500, 50), rng.uniform(8, 40, 50)
    neutral = load / 1025.0
    nudge = 1e-6
    body = _body(load, neutral * (1 + nudge), 4.0 * neutral, np.full(50, 1e-9), depth)
    rate = growth_rate(body.water_density, neutral, body.gas_pressure, body.mass)
    run = left_alone(body, depth, 0.0 * depth, depth, tolerance=1e-8)
    early, late = (run.depth_at(np.array([t]))[0] for t in (3.0, 5.0))
    start = depth - nudge * load * G / (body.mass * rate**2) * (np.cosh(rate * 3.0) - 1.0)
    assert np.all(np.abs(depth - late) < 0.05 * depth)  # still in the linear range
    assert (depth - early) == pytest.approx(depth - start, rel=0.01)


def test_a_runaway_never_exceeds_its_bound() -> None:
    rng = np.random.default_rng(4)
    load, depth, area = rng.uniform(10, 500, 200), rng.uniform(5, 40, 200), rng.uniform(0.1, 1.0, 200)
    capacity = load / 1025.0 * rng.uniform(1.02, 2.0, 200)
    body = _body(load, load / 1025.0 * 1.01, capacity, area, depth)
    run = left_alone(body, depth, 0.0 * depth, depth)
    bound = runaway_bound(capacity * 1025.0 - load, body.water_density, area)
    assert np.all(run.end == SURFACE)
    assert np.all(run.steps_speed.max(axis=0) <= bound * (1.0 + 1e-3))
    assert np.median(run.steps_speed.max(axis=0) / bound) > 0.9


def test_the_point_of_no_return_is_where_growth_meets_the_thrust() -> None:
    rho, depth = np.full(40, 1000.0), np.linspace(8.0, 40.0, 40)
    pressure = 101325.0 + rho * G * depth
    gas = np.full(40, 0.05)
    rise = no_return(8.0, rho, gas, np.full(40, 1.0), pressure, depth)
    grown = rho * gas * (pressure / (pressure - rho * G * rise) - 1.0)
    assert grown == pytest.approx(8.0, rel=1e-12)
    assert np.all(np.isinf(no_return(8.0, rho, gas, np.full(40, 0.007), pressure, depth)))  # the bag is full before
    assert np.all(np.isinf(no_return(8.0, rho, 0.0 * gas, np.full(40, 1.0), pressure, depth)))


def test_venting_is_the_slope_of_boyles_law() -> None:
    depth = np.linspace(1.0, 40.0, 40)

    def pressure(z: Floats) -> Floats:
        return 101325.0 + 1025.0 * G * z

    gas, rate, step = np.full(40, 0.1), 0.15, 1e-4
    slope = gas * (pressure(depth) / pressure(depth - rate * step) - 1.0) / step
    assert vent_needed(gas, np.full(40, 1025.0), rate, pressure(depth)) == pytest.approx(slope, rel=1e-4)


def test_budget_and_window_hold_together() -> None:
    area, rho, p = np.array([0.3]), np.array([1025.0]), np.array([131e3])
    budget = delay_budget(area, 0.1, p, rho, np.array([0.012]))
    # the gas that expansion adds in twice the budget is twice the neutral window: CdA w^2 / g
    grown = vent_needed(np.array([0.012]), rho, 0.1, p) * 2.0 * budget
    assert grown == pytest.approx(2.0 * neutral_window(area, 0.1), rel=1e-12)
    assert np.isinf(delay_budget(area, 0.1, p, rho, np.array([0.0])))[0]
    assert delay_budget(2.0 * area, 0.1, p, rho, np.array([0.012])) == pytest.approx(2.0 * budget)


def test_drivers_find_known_shares() -> None:
    inputs = {name: uniforms(1, name, 1024) for name in "abcd"}
    a, b, c = (inputs[name] - 0.5 for name in "abc")
    told = dict(drivers(3.0 * a + 2.0 * b, inputs))
    assert told["a"] == pytest.approx(9.0 / 13.0, abs=0.01)
    assert told["b"] == pytest.approx(4.0 / 13.0, abs=0.01)
    assert told["c"] < 0.01
    mixed = dict(drivers(12.0 * a * b + a, inputs))
    assert mixed["together"] > 0.8
    assert drivers(np.ones(1024), inputs) == []
    assert drivers(c[:16], {k: v[:16] for k, v in inputs.items()}) == []
