"""Slings behave as slings do: balance of forces, order, symmetry."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from parbuckle.lift.sling import hung, leg_share, mode_factor
from parbuckle.quantity.errors import RangeError

LENGTH = st.floats(0.4, 4.0)
SPAN = st.floats(0.2, 3.0)


@given(span=SPAN, first=LENGTH, second=LENGTH, off=st.floats(-0.5, 0.5), below=st.floats(0.0, 1.0))
def test_the_two_legs_balance_the_weight(span: float, first: float, second: float, off: float, below: float) -> None:
    try:
        pair = hung(span, first, second, off * span, below)
    except RangeError:
        assume(False)
        return
    upward = pair.first * math.sin(pair.first_angle) + pair.second * math.sin(pair.second_angle)
    sideways = pair.first * math.cos(pair.first_angle) - pair.second * math.cos(pair.second_angle)
    assert upward == pytest.approx(1.0, rel=1e-6, abs=1e-6)
    assert abs(sideways) < 1e-6 * max(1.0, pair.first, pair.second)


@given(span=SPAN, first=LENGTH, second=LENGTH, off=st.floats(-0.4, 0.4), below=st.floats(0.0, 1.0))
def test_a_load_turned_round_hangs_as_its_mirror(
    span: float, first: float, second: float, off: float, below: float
) -> None:
    try:
        here, there = hung(span, first, second, off * span, below), hung(span, second, first, -off * span, below)
    except RangeError:
        assume(False)
        return
    assert here.first == pytest.approx(there.second, rel=1e-9)
    assert here.tilt == pytest.approx(-there.tilt, abs=1e-9)


@given(flat=st.floats(5.0, 89.0), more=st.floats(0.5, 20.0))
def test_a_flatter_sling_pulls_harder(flat: float, more: float) -> None:
    assume(flat + more <= 90.0)
    assert leg_share(math.radians(flat)) > leg_share(math.radians(flat + more))


@given(angle=st.floats(5.0, 89.9), legs=st.integers(1, 4))
def test_mode_factor_and_leg_share_are_each_others_inverse(angle: float, legs: int) -> None:
    turned = math.pi / 2 - math.radians(angle)
    assert mode_factor(turned, legs) * leg_share(math.pi / 2 - turned, legs) == pytest.approx(1.0)


def test_equal_legs_agree_with_the_angle_formula() -> None:
    for length in (0.6, 0.8, 1.5, 4.0):
        pair = hung(1.0, length, length)
        assert pair.first == pytest.approx(leg_share(pair.first_angle, 2))
        assert pair.first == pytest.approx(pair.second)
        assert pair.tilt == 0.0


def test_the_end_under_the_longer_leg_hangs_lower() -> None:
    assert hung(1.0, 1.0, 1.2).tilt > 0.0
    assert hung(1.0, 1.2, 1.0).tilt < 0.0


def test_the_heavier_end_hangs_lower_and_its_leg_pulls_harder() -> None:
    pair = hung(1.0, 1.0, 1.0, off_middle=0.1)
    assert pair.tilt > 0.0
    assert pair.second > pair.first


def test_a_deeper_centre_of_gravity_tilts_less() -> None:
    assert hung(1.0, 1.0, 1.0, 0.1, below=1.0).tilt < hung(1.0, 1.0, 1.0, 0.1, below=0.0).tilt


def test_the_pick_point_comes_over_the_centre_of_gravity() -> None:
    span, first, second, off, below = 1.0, 1.1, 0.9, 0.05, 0.2
    pair = hung(span, first, second, off, below)
    x = (first**2 - second**2) / (2 * span)
    turned = math.cos(pair.tilt) * (off - x) - math.sin(pair.tilt) * (pair.reach + below)
    assert turned == pytest.approx(0.0, abs=1e-12)
