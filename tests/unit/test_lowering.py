"""Putting a load down: pull over depth, gas to add, turns, the way of one that is let go."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from parbuckle.lift.lowering import LoweringProblem, left_by_turns, lowering, turns_for
from parbuckle.physics.constants import G
from parbuckle.physics.rise import BOTTOM
from parbuckle.quantity.errors import RangeError
from sample_lines import AIR, RHO, body, metres

CALM = 1.3


def asked(way: str = "bag and line", weight: float = 50.0, litres: float = 46.0, **more: Any) -> LoweringProblem:
    fields: dict[str, Any] = {
        "body": body(weight, 0.0, litres, 2.0, molar_mass=0.0), "start": metres(2.0), "depth": metres(12.0),
        "speed": 0.1, "steps": (2.0, 6.0, 12.0), "stream": metres(0.0), "angle": 0.26, "share": 0.99,
        "divers_stop": 8.0, "strength": 12000.0,
    }  # fmt: skip
    return LoweringProblem(way=way, **{**fields, **more})


def test_a_line_alone_holds_the_weight_in_water_all_the_way() -> None:
    result = lowering(asked("line", litres=0.0))
    assert result.hold_back is not None
    assert result.hold_back[0] == pytest.approx(50.0 * G * CALM)
    assert [float(kept[0]) for _, _, kept, _ in result.table] == pytest.approx([50.0 * G] * 3)
    assert result.gas_to_add[0] == 0.0
    assert np.isinf(result.doubling[0]) and np.isinf(result.no_return[0])


def test_the_bag_shrinks_by_boyle_and_the_pull_grows() -> None:
    result = lowering(asked())
    pulls = [float(none[0]) for _, _, _, none in result.table]
    assert pulls == sorted(pulls)
    shrunk = 0.046 * (AIR + RHO * G * 2.0) / (AIR + RHO * G * 12.0)
    assert pulls[-1] == pytest.approx((50.0 - RHO * shrunk) * G)
    assert result.hold_back is not None
    assert result.hold_back[0] == pytest.approx(CALM * pulls[-1])


def test_the_gas_that_is_added_keeps_the_pull() -> None:
    result = lowering(asked())
    kept = [float(kept[0]) for _, _, kept, _ in result.table]
    assert kept == pytest.approx([(50.0 - RHO * 0.046) * G] * 3)
    assert result.gas_to_add[0] == pytest.approx(0.046 * RHO * G * 10.0 / AIR)
    assert float(result.table[-1][1][0]) == pytest.approx(float(result.gas_to_add[0]))
    assert float(result.table[0][1][0]) == 0.0


def test_a_bag_alone_has_no_line_and_no_people() -> None:
    result = lowering(asked("bag"))
    assert (result.hold_back, result.people, result.limit, result.by_hand) == (None, None, None, None)
    assert np.isfinite(result.doubling[0])


def test_sunk_to_the_point_of_no_return_the_lost_lift_is_what_divers_stop() -> None:
    h = float(lowering(asked("bag")).no_return[0])
    p = AIR + RHO * G * 2.0
    assert RHO * 0.046 * (1.0 - p / (p + RHO * G * h)) == pytest.approx(8.0)
    assert np.isinf(lowering(asked("bag", weight=8.0, litres=7.0)).no_return[0])


def test_let_go_it_reaches_the_bottom_faster_when_heavier() -> None:
    slow, fast = (lowering(asked(weight=w)).let_go for w in (50.0, 60.0))
    assert slow.end[0] == fast.end[0] == BOTTOM
    assert slow.time[0] > fast.time[0]
    assert slow.speed[0] > fast.speed[0]  # downward is negative
    assert fast.speed[0] < 0.0


def test_a_stream_widens_the_circle() -> None:
    still, drifts = lowering(asked()), lowering(asked(stream=metres(0.3)))
    assert drifts.keep_clear[0] - still.keep_clear[0] == pytest.approx(0.3 * still.let_go.time[0])


def test_turns_take_the_pull_off_the_hands() -> None:
    none, two = lowering(asked()), lowering(asked(turns=2))
    assert none.people is not None and two.people is not None
    assert two.people < none.people
    assert none.by_hand is not None and two.by_hand is not None
    assert two.by_hand[0] == pytest.approx(none.by_hand[0] * left_by_turns(1) ** 2)


@pytest.mark.parametrize("pull", [100.0, 151.0, 600.0, 5000.0])
def test_so_many_turns_are_enough_and_one_less_is_not(pull: float) -> None:
    turns = turns_for(pull, 150.0)
    assert pull * left_by_turns(turns) <= 150.0 * (1.0 + 1e-12)
    assert turns == 0 or pull * left_by_turns(turns - 1) > 150.0


def test_a_load_on_the_bottom_at_once_falls_nowhere() -> None:
    result = lowering(asked(depth=metres(2.0), steps=(2.0,)))
    assert result.let_go.time[0] == 0.0
    assert result.gas_to_add[0] == 0.0


@pytest.mark.parametrize("wrong", [{"way": "crane"}, {"speed": 0.0}, {"turns": -1}, {"depth": metres(1.0)}])
def test_what_cannot_be_is_refused(wrong: dict[str, Any]) -> None:
    with pytest.raises(RangeError):
        replace(asked(), **wrong)


def test_turns_and_hands_that_cannot_be_are_refused() -> None:
    with pytest.raises(RangeError):
        left_by_turns(-1.0)
    with pytest.raises(RangeError):
        turns_for(100.0, 0.0)
