"""A bag through the surface: how far, what spills, floats or sinks."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from parbuckle.physics.broach import Arrival, broach, piston_rise
from parbuckle.physics.constants import G
from parbuckle.quantity.errors import RangeError

RHO, AIR = 1025.0, 101_325.0


def arrival(rise: list[float], share: float = 1.0, relief: float = 0.0, needed: float = 0.058) -> Arrival:
    """A 75 l bag of 0.4 m height, filled to a share of what it holds; 58 l hold the load."""
    one = np.ones(len(rise))
    pressure = AIR + RHO * G * needed / (0.075 / 0.4)
    return Arrival(
        rise=np.array(rise),
        mass=120.0 * one,
        capacity=0.075 * one,
        height=0.4 * one,
        product=0.075 * share * pressure * one,
        needed=needed * one,
        relief=relief * one,
        water_density=RHO * one,
        surface_pressure=AIR * one,
    )


def test_slow_fast_and_too_fast() -> None:
    told = broach(arrival([0.15, 1.0, 1.6]))
    assert np.allclose(told.overshoot[:2], [0.0379, 0.2524], atol=1e-3)
    assert told.mouth_out.tolist() == [False, False, True]
    assert told.floats.tolist() == [True, True, False]
    assert told.left[2] == 0.0 and told.spilled[2] == pytest.approx(0.075 * 1.030, rel=0.01)


def test_it_is_the_height_of_the_energy() -> None:
    bag = arrival([0.4, 0.9])
    y = broach(bag).overshoot
    lifted = 0.5 * RHO * G * (0.075 / 0.4) * y**2
    assert np.allclose(0.5 * bag.mass * bag.rise**2, lifted, rtol=1e-12)
    flown = broach(arrival([2.0]))
    under = 0.4 - (0.075 - 0.058) / (0.075 / 0.4)
    spring = 0.5 * RHO * G * (0.075 / 0.4) * under**2 + RHO * G * 0.058 * (float(flown.overshoot[0]) - under)
    assert spring == pytest.approx(0.5 * 120.0 * 4.0, rel=1e-12)


def test_a_full_bag_spills_what_expands_and_a_part_filled_one_nothing() -> None:
    full, part = broach(arrival([0.5])), broach(arrival([0.5], share=0.85))
    assert full.spilled[0] == pytest.approx(0.075 * RHO * G * full.overshoot[0] / AIR, rel=1e-9)
    assert part.spilled[0] == 0.0 and part.floats[0]


def test_a_bag_just_enough_sinks_back_after_a_small_spill() -> None:
    assert not broach(arrival([0.5], needed=0.0745)).floats[0]
    assert broach(arrival([0.0], needed=0.0745)).floats[0]


def test_a_closed_bag_keeps_its_gas_out_of_the_water() -> None:
    told = broach(arrival([1.6], relief=10e3))
    assert told.mouth_out[0] and told.floats[0] and told.spilled[0] == 0.0


def test_faster_is_never_lower_and_spills_never_less() -> None:
    told = broach(arrival(np.linspace(0.0, 3.0, 200).tolist()))
    assert (np.diff(told.overshoot) >= 0.0).all() and (np.diff(told.spilled) >= 0.0).all()


def test_published_heights_of_a_piston() -> None:
    heights = piston_rise(np.array([9.0, 60.0, 100.0]) / 60.0, np.array(120.0), np.array(0.19), np.array(RHO))
    assert np.allclose(heights, [0.04, 0.25, 0.42], atol=0.005)


def test_a_bag_that_cannot_hold_the_load_and_a_wrong_sign_are_refused() -> None:
    with pytest.raises(RangeError, match="does not hold"):
        broach(arrival([0.1], share=0.7))
    with pytest.raises(RangeError):
        replace(arrival([0.1]), rise=np.array([-0.1]))
