"""Alone in its phases: gas to let out, the way up, the crown line when a bag breaks away."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from parbuckle.lift.phases import CrownProblem, PhasesProblem, breakaway_pull, phases
from parbuckle.physics.constants import G
from parbuckle.physics.rise import SURFACE
from parbuckle.quantity.errors import RangeError
from sample_lines import RHO, body, metres


def crown(length: float = 3.0, **more: Any) -> CrownProblem:
    one = np.ones(1)
    fields: dict[str, Any] = {
        "lift": 500.0 * one, "mass": 30.0 * one, "drag_area": 0.2 * one, "density": RHO * one, "reach": 2.5 * one,
        "length": length, "strength": 9000.0, "stretch": 0.05,
    }  # fmt: skip
    return CrownProblem(**{**fields, **more})


def asked(**more: Any) -> PhasesProblem:
    fields: dict[str, Any] = {"surplus": np.array([10.0]), "lift_density": np.array([1020.0])}
    return PhasesProblem(body(45.0, 25.0, 20.0, 20.0), metres(20.0), metres(1.0), **{**fields, **more})


def test_what_is_let_out_lifts_the_surplus() -> None:
    result = phases(asked())
    assert result.vent[0] * 1020.0 == pytest.approx(10.0)
    assert result.rise.end[0] == SURFACE
    assert result.crown_load is None


def test_without_slack_a_bag_that_breaks_away_pulls_twice_its_lift() -> None:
    result = phases(asked(crown=crown(length=2.5)))
    assert result.crown_load is not None
    assert result.crown_load[0] == pytest.approx(1000.0)
    assert result.crown_limit == pytest.approx(900.0)


def test_slack_makes_it_worse_up_to_the_terminal_speed() -> None:
    pulls = [float(breakaway_pull(500.0, 30.0, 0.2, RHO, slack, 50e3)) for slack in (0.0, 0.1, 0.5, 2.0, 50.0, 100.0)]
    assert pulls == sorted(pulls)
    top = 2.0 * 500.0 / (RHO * 0.2)
    assert pulls[-1] == pytest.approx(500.0 + np.sqrt(500.0**2 + 50e3 * 30.0 * top))
    assert pulls[-1] == pytest.approx(pulls[-2])


def test_energy_is_kept_where_no_drag_takes_it() -> None:
    pull = float(breakaway_pull(500.0, 30.0, 1e-9, RHO, 0.4, 50e3))
    stretch = pull / 50e3
    assert 0.5 * 50e3 * stretch**2 == pytest.approx(500.0 * (0.4 + stretch), rel=1e-6)


def test_a_line_shorter_than_its_way_has_no_slack() -> None:
    short, just = phases(asked(crown=crown(length=2.0))), phases(asked(crown=crown(length=2.5)))
    assert short.crown_load is not None
    assert just.crown_load is not None
    assert short.crown_load[0] == pytest.approx(just.crown_load[0])


@pytest.mark.parametrize(
    "wrong", [{"lift": 0.0}, {"mass": 0.0}, {"drag_area": 0.0}, {"slack": -0.1}, {"stiffness": 0.0}]
)
def test_what_cannot_be_is_refused(wrong: dict[str, float]) -> None:
    right = {"lift": 500.0, "mass": 30.0, "drag_area": 0.2, "density": RHO, "slack": 0.1, "stiffness": 50e3}
    with pytest.raises(RangeError):
        breakaway_pull(**(right | wrong))


def test_the_way_up_is_that_of_the_force_balance() -> None:
    """Just off neutral it leaves slowly; more gas arrives sooner."""
    slow, fast = (
        phases(PhasesProblem(body(w, 25.0, 20.0, 20.0), metres(20.0), metres(1.0), np.zeros(1), np.ones(1)))
        for w in (45.5, 44.0)
    )
    assert slow.rise.time[0] > fast.rise.time[0]
    assert 44.0 * G < RHO * G * 0.045
