"""Geometry of slings: tensions, reach, ranges."""

from __future__ import annotations

import math

import pytest

from parbuckle.lift.rigging_problem import RiggingItem
from parbuckle.lift.sling import hang_item, hung, leg_share, mode_factor, strop_reach
from parbuckle.quantity.errors import RangeError


@pytest.mark.parametrize("angle", [0.0, -0.1, math.radians(90.001), math.pi])
def test_leg_angle_outside_its_range_is_refused(angle: float) -> None:
    with pytest.raises(RangeError, match="sling angle"):
        leg_share(angle)


def test_leg_angle_at_its_upper_end_is_allowed() -> None:
    assert leg_share(math.pi / 2) == 1.0


def test_less_than_one_leg_is_refused() -> None:
    with pytest.raises(RangeError, match="legs"):
        leg_share(1.0, 0.5)


def test_mode_factor_of_vertical_legs_is_their_number() -> None:
    assert mode_factor(0.0, 2) == pytest.approx(2.0)
    with pytest.raises(RangeError):
        mode_factor(math.pi / 2, 2)


@pytest.mark.parametrize(("first", "second"), [(0.4, 0.5), (0.5, 0.5), (3.0, 1.0)])
def test_legs_that_do_not_meet_are_refused(first: float, second: float) -> None:
    span = 1.0 if first < 3.0 else 2.0
    with pytest.raises(RangeError, match=r"do not (reach|meet)"):
        hung(span, first, second)


def test_a_leg_that_would_go_slack_is_refused() -> None:
    with pytest.raises(RangeError, match="slack"):
        hung(1.0, 1.0, 1.0, off_middle=0.7)


def test_a_load_that_would_turn_over_is_refused() -> None:
    with pytest.raises(RangeError, match="turn over"):
        hung(1.0, 1.0, 1.0, below=-1.0)


def test_straight_single_leg_reaches_its_length() -> None:
    assert strop_reach(RiggingItem("W", "sling", length=2.0)) == 2.0
    assert strop_reach(RiggingItem("W", "sling")) == 0.0


def test_two_straight_legs_reach_by_pythagoras() -> None:
    assert strop_reach(RiggingItem("R", "sling", legs=2, spread=1.2, length=1.0)) == pytest.approx(0.8)


def test_basket_reaches_from_what_is_left_of_its_length() -> None:
    item = RiggingItem("W", "sling", hitch="basket", spread=0.3, length=2.0)
    assert strop_reach(item) == pytest.approx(math.sqrt(0.85**2 - 0.15**2))


def test_choke_reaches_half_its_length() -> None:
    assert strop_reach(RiggingItem("W", "sling", hitch="choke", length=2.0)) == 1.0


def test_unknown_spread_stands_at_the_flattest_leg() -> None:
    assert strop_reach(RiggingItem("R", "sling", legs=2, length=1.0)) == pytest.approx(0.5)
    assert strop_reach(RiggingItem("R", "sling", hitch="basket", length=2.0)) == pytest.approx(0.5)


def test_no_spread_hangs_straight_down() -> None:
    pair = hang_item(RiggingItem("R", "sling", legs=2, length=1.0, spread=0.0))
    assert pair is not None
    assert (pair.first, pair.second, pair.reach) == (0.5, 0.5, 1.0)
    assert pair.first_angle == pytest.approx(math.pi / 2)


def test_single_leg_and_unknown_length_have_no_pair() -> None:
    assert hang_item(RiggingItem("W", "sling", length=1.0, spread=0.4)) is None
    assert hang_item(RiggingItem("R", "sling", legs=2, spread=0.4)) is None
