"""Bag and line: the pull over depth, where it goes slack, people, limits and signs."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from parbuckle.lift.bag_and_line import LineLiftProblem, light_likely, line_lift
from parbuckle.lift.line_pull import light_at, line_pull
from parbuckle.physics.constants import G
from parbuckle.quantity.errors import RangeError
from sample_lines import AIR, RHO, body, metres

BARE: dict[str, Any] = {"molar_mass": 0.0}


def problem(weight: float = 50.0, part: float = 20.0, **more: Any) -> LineLiftProblem:
    fields: dict[str, Any] = {"breakout": np.zeros(1), "rate": 0.1, "strength": 12000.0, "hands": 2}
    return LineLiftProblem(body(weight, 25.0, part, 20.0), metres(20.0), metres(1.0), **{**fields, **more})


def test_the_pull_is_weight_less_lift() -> None:
    pull = line_pull(body(50.0, 25.0, 20.0, 20.0, **BARE), metres(20.0))
    assert pull[0] == pytest.approx((50.0 - RHO * 0.045) * G)


def test_hauling_pulls_more_and_letting_down_pulls_less() -> None:
    one = body(50.0, 25.0, 20.0, 20.0)
    still, up, down = (line_pull(one, metres(20.0), rate)[0] for rate in (0.0, 0.2, -0.2))
    assert up - still == pytest.approx(still - down)
    assert up > still > down


def test_it_goes_light_at_the_closed_form() -> None:
    """Without the weight of the gas: p = rho g V_part p0 / (W - rho g V_full)."""
    one = body(50.0, 25.0, 20.0, 20.0, **BARE)
    p0 = AIR + RHO * G * 20.0
    p = RHO * 0.020 * p0 / (50.0 - RHO * 0.025)
    assert light_at(one, metres(20.0), metres(0.5))[0] == pytest.approx((p - AIR) / (RHO * G), abs=1e-6)


def test_the_weight_of_the_gas_moves_that_depth_little() -> None:
    bare, true = (light_at(body(50.0, 25.0, 20.0, 20.0, **m), metres(20.0), metres(0.5))[0] for m in (BARE, {}))
    assert true < bare
    assert true == pytest.approx(bare, abs=0.3)


def test_with_nothing_that_grows_it_stays_heavy() -> None:
    result = line_lift(problem(weight=28.0, part=0.0))
    assert result.stays_heavy.all()
    assert np.isneginf(result.light_at).all()
    assert light_likely(result) is None


def test_a_load_that_is_light_at_once_says_so() -> None:
    light = light_at(body(40.0, 25.0, 20.0, 20.0), metres(20.0), metres(0.5))
    assert light[0] == 20.0
    assert line_lift(problem(weight=40.0)).sinks_at[0] == 0.0


def test_a_heavier_load_is_light_later() -> None:
    depths = [light_at(body(w, 25.0, 20.0, 20.0), metres(20.0), metres(0.5))[0] for w in (47.0, 50.0, 55.0, 60.0)]
    assert depths == sorted(depths, reverse=True)
    assert len(set(depths)) == 4


def test_the_line_feels_the_hold_of_the_bottom_too() -> None:
    free, stuck = line_lift(problem()), line_lift(problem(breakout=np.array([10.0])))
    assert stuck.tension[0] - free.tension[0] == pytest.approx(10.0 * G)
    assert stuck.heavy[0] == free.heavy[0]


def test_vented_by_so_much_it_is_as_heavy_at_the_surface() -> None:
    result = line_lift(problem(weight=70.0))
    one = body(70.0, 25.0, 20.0, 20.0, **BARE)
    less = (line_pull(one, metres(20.0)) - line_pull(one, metres(1.0)))[0]
    assert result.vent[0] * RHO * G == pytest.approx(less, rel=0.02)


def test_people_and_limit_at_the_edge() -> None:
    result = line_lift(problem(weight=60.0))
    needed = result.haul.tension_high
    assert result.haul.people_needed == int(np.ceil(needed / 150.0))
    assert line_lift(problem(weight=60.0, strength=10.0 * needed)).haul.line_ok is True
    assert line_lift(problem(weight=60.0, strength=9.99 * needed)).haul.line_ok is False


def test_it_parts_and_sinks_at_its_terminal_speed() -> None:
    result = line_lift(problem(weight=50.0))
    area = 0.1 + 0.025 ** (2 / 3) + 0.020 ** (2 / 3)
    assert 0.5 * RHO * area * result.sinks_at[0] ** 2 == pytest.approx(result.heavy[0] * G)


def test_an_end_below_the_start_is_refused() -> None:
    with pytest.raises(RangeError):
        light_at(body(50.0, 25.0, 20.0, 20.0), metres(1.0), metres(2.0))
