"""Control over random lifts: growth, runaway bound and point of no return; what drives a band, with noise and pairs."""

from __future__ import annotations

import numpy as np
import pytest

from parbuckle.lift import control
from parbuckle.physics.forces import Body
from parbuckle.physics.rise import SURFACE, left_alone
from parbuckle.plan.drivers import drivers
from parbuckle.quantity.draws import uniforms
from sample_bodies import Array

G0 = 9.80665


def one_bag(rng: np.random.Generator, n: int, gas_share: Array, drag: float) -> tuple[Body, Array]:
    """Loads under one bag each, weightless gas, at the neutral point and a little more; and their depth."""
    rho, depth = rng.uniform(998.0, 1030.0, n), rng.uniform(6.0, 35.0, n)
    air = rng.uniform(85e3, 101325.0, n)
    wet = np.exp(rng.uniform(np.log(5.0), np.log(500.0), n))
    pressure = air + rho * G0 * depth
    outline = wet * rng.uniform(0.2, 0.8, n) / rho
    return Body(
        water_density=rho,
        surface_pressure=air,
        temperature=np.full(n, 281.0),
        weight=wet * G0,
        mass=wet * rng.uniform(1.2, 3.0, n),
        bag_added_mass=np.zeros(n),
        drag_area=drag * rng.uniform(0.5, 2.0, n) * outline ** (2 / 3),
        bag_drag=drag * rng.uniform(0.5, 2.0, n),
        reach=np.zeros(n),
        capacity=(wet / rho / gas_share)[None],
        gas=(wet / rho)[None],
        gas_pressure=pressure,
        over_pressure=np.zeros((1, n)),
        molar_mass=0.0,
    ), depth


def test_the_growth_rate_is_what_the_ascent_does_off_neutral() -> None:
    """Just above neutral, drag left out: z = z0 cosh(lambda t), so speed / displacement is lambda tanh(lambda t)."""
    rng = np.random.default_rng(5)
    body, depth = one_bag(rng, 50, np.full(50, 0.3), 0.0)
    start = 1e-3  # m above neutral
    rate = control.growth_rate(body.water_density, body.gas[0], body.gas_pressure, body.mass)
    end = 0.05  # m above neutral
    up = left_alone(body, depth - start, depth - end, depth, tolerance=1e-8)
    assert set(up.end) == {SURFACE}
    assert np.allclose(np.arccosh(end / start) / up.time, rate, rtol=1e-2)
    assert np.allclose(up.speed, rate * np.sqrt(end**2 - start**2), rtol=1e-2)
    assert np.allclose(control.growth_rate(body.water_density, 0.0 * rate, body.gas_pressure, body.mass), 0.0)


def test_no_ascent_exceeds_the_bound_of_the_runaway() -> None:
    rng = np.random.default_rng(6)
    n = 200
    body, depth = one_bag(rng, n, rng.uniform(0.3, 1.0, n), 1.0)
    body = Body(
        **{
            **{k: getattr(body, k) for k in body.__dataclass_fields__},
            "gas": np.minimum(body.gas * 1.02, body.capacity),
        }
    )
    up = left_alone(body, depth, np.zeros(n), depth)
    surplus = (body.water_density * body.capacity[0]) - body.weight / G0
    # a bag that is not yet full drags less: with the drag area of the start the bound holds at every moment
    least = body.drag_area + body.bag_drag * body.gas[0] ** (2 / 3)
    assert (up.steps_speed <= control.runaway_bound(surplus, body.water_density, least) * (1 + 1e-6)).all()
    full = body.drag_area + body.bag_drag * body.capacity[0] ** (2 / 3)
    printed = control.runaway_bound(surplus, body.water_density, full)
    rose = up.end == SURFACE
    assert rose.sum() > 150
    assert (up.steps_speed[:, rose] <= printed[rose] * (1 + 1e-3)).all()
    assert (up.speed[rose] > 0.9 * printed[rose]).any()
    assert control.runaway_bound(np.array([-3.0]), np.array([1000.0]), np.array([0.2]))[0] == 0.0


def test_the_point_of_no_return_against_a_bisection() -> None:
    rng = np.random.default_rng(7)
    found = 0
    for _ in range(100):
        rho, depth, air = rng.uniform(998, 1030), rng.uniform(4, 35), 101325.0
        growing, room, thrust = rng.uniform(0.002, 0.08), rng.uniform(0.001, 0.05), rng.uniform(2.0, 12.0)
        p = air + rho * G0 * depth

        def surplus(h: float) -> float:
            grown = growing * (p / (p - rho * G0 * h) - 1.0)  # noqa: B023
            return rho * min(grown, room) - thrust  # noqa: B023

        mine = control.no_return(thrust, *(np.array([x]) for x in (rho, growing, room, p, depth)))[0]
        if surplus(depth) <= 0.0:
            assert mine == np.inf
            continue
        low, high = 0.0, float(depth)
        for _ in range(60):
            half = 0.5 * (low + high)
            low, high = (half, high) if surplus(half) < 0.0 else (low, half)
        assert mine == pytest.approx(high, rel=1e-9)
        found += 1
    assert 20 < found < 95


def test_limits_of_the_delay_budget_and_of_the_neutral_window() -> None:
    area, p, rho = np.array([0.3]), np.array([131e3]), np.array([1025.0])
    assert control.delay_budget(area, 0.15, p, rho, np.array([0.0]))[0] == np.inf
    assert control.delay_budget(area, 0.15, p, rho, np.array([-1e-9]))[0] == np.inf
    one = control.delay_budget(area, 0.15, p, rho, np.array([0.05]))[0]
    assert control.delay_budget(area, 0.15, p, rho, np.array([0.1]))[0] == pytest.approx(one / 2.0)
    assert control.delay_budget(2 * area, 0.15, p, rho, np.array([0.05]))[0] == pytest.approx(2 * one)
    # half of damping over stiffness of the linear balance at the rate: damping rho CdA w, stiffness (rho g)^2 V / p
    damping, stiffness = rho * area * 0.15, (rho * G0) ** 2 * 0.05 / p
    assert one == pytest.approx((0.5 * damping / stiffness)[0])
    # the gas of the window lifts exactly what the drag at the rate holds
    window = control.neutral_window(area, 0.15)
    assert window[0] * rho[0] * G0 == pytest.approx(0.5 * rho[0] * area[0] * 0.15**2)
    assert control.neutral_window(area, 0.0)[0] == 0.0
    # growth rate and budget of the same lift: lambda^2 m = stiffness
    rate = control.growth_rate(rho, np.array([0.05]), p, np.array([80.0]))
    assert rate[0] ** 2 * 80.0 == pytest.approx(stiffness[0])


N = 2048


def column(name: str, n: int = N) -> Array:
    return uniforms(1, name, n)


def test_shares_of_a_sum_are_the_variances_of_its_parts() -> None:
    inputs = {k: column(k) for k in ("a", "b", "c")}
    a, b, c = (inputs[k] for k in "abc")
    told = drivers(3.0 * a + 2.0 * b * b + 0.0 * c, inputs)
    parts = {"a": 9.0 / 12.0, "b": 4.0 * (1.0 / 5.0 - 1.0 / 9.0)}
    for name, share in told[:2]:
        assert share == pytest.approx(parts[name] / sum(parts.values()), abs=0.01)
    assert [name for name, _ in told] == ["a", "b", "c", "together"]
    assert told[2][1] < 0.002 and told[3][1] < 0.01


def test_what_two_inputs_do_only_together_is_told_so() -> None:
    inputs = {k: column(k) for k in ("a", "b")}
    told = dict(drivers((inputs["a"] - 0.5) * (inputs["b"] - 0.5), inputs))
    assert told["together"] > 0.97 and told["a"] < 0.02 and told["b"] < 0.02
    half = dict(drivers(inputs["a"] + np.sqrt(12.0) * (inputs["a"] - 0.5) * (inputs["b"] - 0.5), inputs))
    assert half["a"] == pytest.approx(0.5, abs=0.05) and half["together"] == pytest.approx(0.5, abs=0.05)


def test_noise_explains_nothing() -> None:
    """Thirty inputs that do nothing explain nothing, once the accident of each coefficient is subtracted."""
    inputs = {f"i{k}": column(f"i{k}", 512) for k in range(30)}
    told = dict(drivers(np.random.default_rng(4).normal(size=512), inputs))
    assert told["together"] > 0.85
    assert max(told[k] for k in inputs) < 0.04


def test_too_few_draws_or_nothing_to_explain_gives_nothing() -> None:
    inputs = {k: column(k, 16) for k in ("a", "b", "c")}
    assert drivers(inputs["a"], inputs) == []
    assert drivers(np.full(N, 3.0), {"a": column("a")}) == []
    assert drivers(column("a", 17), {"a": column("a", 17)}) != []
