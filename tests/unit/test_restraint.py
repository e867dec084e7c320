"""Hold-back and haul lines: pulls, anchors, people, edges."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from parbuckle.lift.hauling import HaulProblem, hauling
from parbuckle.lift.restraint import RestraintProblem, line_limit, restraint
from parbuckle.quantity.errors import RangeError


def hold(surplus: float = 300.0, full: float = 900.0, **more: Any) -> RestraintProblem:
    return RestraintProblem(np.array([surplus]), np.array([full]), 18000.0, 3.0, 0.05, **more)


def test_without_slack_the_pull_is_twice_the_surplus_whatever_the_line() -> None:
    for stretch in (0.03, 0.2):
        result = restraint(RestraintProblem(np.array([300.0]), np.array([900.0]), 18000.0, 3.0, stretch))
        assert result.on_load[0] == pytest.approx(600.0)
        assert result.snatch[0] == pytest.approx(2.0)


def test_both_pulls_are_given_and_the_place_decides() -> None:
    on_load, on_bag = restraint(hold()), restraint(hold(on="bag"))
    assert on_load.on_bag[0] == on_bag.on_bag[0] == 900.0
    assert on_load.tension[0] == pytest.approx(600.0)
    assert on_bag.tension[0] == 900.0


def test_slack_makes_it_worse_and_the_rise_counts_it() -> None:
    tight, slack = restraint(hold()), restraint(hold(slack=0.3))
    assert slack.on_load[0] > 2 * tight.on_load[0]
    assert slack.rise[0] > 0.3 + tight.rise[0]
    assert tight.rise[0] == pytest.approx(600.0 / (18000.0 / (0.05 * 3.0)))


def test_energy_is_kept_when_the_line_stops_it() -> None:
    problem = hold(slack=0.3)
    result, stiffness = restraint(problem), 18000.0 / (0.05 * 3.0)
    stored = result.on_load[0] ** 2 / (2 * stiffness)
    assert stored == pytest.approx(300.0 * result.rise[0])


def test_a_load_that_does_not_come_free_pulls_nothing() -> None:
    result = restraint(RestraintProblem(np.array([0.0, 300.0]), np.array([900.0, 900.0]), 18000.0, 3.0, 0.05))
    assert result.on_load[0] == 0.0
    assert result.snatch[0] == 2.0


def test_the_anchor_at_its_edge() -> None:
    assert restraint(hold(anchor=600.0)).anchor_ok is True
    assert restraint(hold(anchor=599.9)).anchor_ok is False
    assert restraint(hold()).anchor_ok is None
    assert restraint(hold()).anchor_needed == pytest.approx(600.0)


def test_the_line_at_its_edge() -> None:
    assert restraint(hold(surplus=900.0)).line_ok is True
    assert restraint(hold(surplus=900.1)).line_ok is False
    assert restraint(hold(surplus=900.1, kept=0.9)).line_ok is True


@pytest.mark.parametrize(
    "problem", [hold(on="boat"), hold(surplus=-1.0), hold(slack=-0.1), hold(kept=0.0), hold(kept=1.1)]
)
def test_what_cannot_be_is_refused(problem: RestraintProblem) -> None:
    with pytest.raises(RangeError):
        restraint(problem)


def test_a_line_without_strength_is_refused() -> None:
    with pytest.raises(RangeError):
        line_limit(0.0)


def haul(**more: Any) -> HaulProblem:
    return HaulProblem(np.array([300.0]), sea="calm", **more)


def test_people_at_the_edge() -> None:
    exact = HaulProblem(np.array([300.0 / 1.3]), people=2)
    assert hauling(exact).people_needed == 2
    assert hauling(exact).by_hand is True
    more = HaulProblem(np.array([300.1 / 1.3]), people=2)
    assert hauling(more).people_needed == 3
    assert hauling(more).by_hand is False
    assert hauling(haul()).by_hand is None


def test_leaving_the_water_counts_when_the_line_takes_it_out() -> None:
    assert hauling(haul()).tension[0] == pytest.approx(390.0)
    assert hauling(haul(leaving=np.array([700.0]))).tension[0] == pytest.approx(910.0)
    assert hauling(haul(leaving=np.array([100.0]))).tension[0] == pytest.approx(390.0)


def test_waves_pull_harder() -> None:
    assert hauling(HaulProblem(np.array([300.0]), sea="waves")).tension[0] == pytest.approx(600.0)


def test_the_haul_line_at_its_edge() -> None:
    assert hauling(haul(strength=3900.0)).line_ok is True
    assert hauling(haul(strength=3899.0)).line_ok is False
    assert hauling(haul()).line_ok is None


def test_a_floating_load_needs_no_hauling() -> None:
    with pytest.raises(RangeError, match="float"):
        HaulProblem(np.array([-1.0]))
