"""Bag and load on a strop against closed forms and conservation."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from parbuckle.physics.strop import Snatch, Strop, snatch, snatch_tension
from parbuckle.quantity.errors import RangeError

RNG = np.random.default_rng(5)
N = 40


def drawn() -> Strop:
    def flat(low: float, high: float) -> np.ndarray:
        return RNG.uniform(low, high, N)

    zero = np.zeros(N)
    return Strop(
        stiffness=flat(1e4, 1e5),
        slack=zero,
        bag_force=zero,
        load_force=zero,
        bag_mass=flat(20.0, 80.0),
        load_mass=flat(50.0, 300.0),
        bag_area=zero,
        load_area=zero,
        bag_rise=flat(0.1, 1.0),
        load_rise=zero,
        water_density=np.full(N, 1025.0),
    )


def peak(strop: Strop, pull: np.ndarray | float = 0.0) -> np.ndarray:
    speed = strop.bag_rise - strop.load_rise
    return snatch_tension(speed, strop.stiffness, strop.bag_mass, strop.load_mass, np.zeros(N) + pull)


def run(strop: Strop, seconds: float = 1.0) -> Snatch:
    return snatch(strop, seconds)


def test_without_forces_it_is_v_sqrt_k_m() -> None:
    strop = drawn()
    reduced = strop.bag_mass * strop.load_mass / (strop.bag_mass + strop.load_mass)
    told = run(strop)
    assert np.allclose(told.tension, strop.bag_rise * np.sqrt(strop.stiffness * reduced), rtol=2e-4)
    quarter = 0.5 * np.pi * np.sqrt(reduced / strop.stiffness)
    assert np.allclose(told.when, quarter, rtol=0.03)
    assert (told.slacks == 1).all()  # it parts and never meets again
    momentum = strop.bag_mass * told.bag_rise + strop.load_mass * told.load_rise
    assert np.allclose(momentum, strop.bag_mass * strop.bag_rise, rtol=1e-9)


def test_with_lift_and_weight_it_is_the_closed_form() -> None:
    bare = drawn()
    weight = RNG.uniform(100.0, 900.0, N)
    strop = replace(bare, bag_force=weight, load_force=-weight)
    told = run(strop)
    assert np.allclose(told.tension, peak(strop, weight), rtol=2e-4)
    assert (told.tension > 2.0 * weight).all()


def test_a_load_that_never_gives_way_takes_the_whole_snatch() -> None:
    bare = drawn()
    strop = replace(bare, load_force=np.full(N, -1e7), lies=True)
    told = run(strop)
    held = snatch_tension(bare.bag_rise, bare.stiffness, bare.bag_mass, np.full(N, np.inf), np.zeros(N))
    assert np.allclose(told.tension, held, rtol=2e-4) and (told.load_moved == 0.0).all()


def test_slack_makes_the_bag_faster_and_drag_makes_it_slower() -> None:
    bare = drawn()
    lift = np.full(N, 200.0)
    strop = replace(bare, bag_force=lift, load_force=-lift, bag_rise=np.zeros(N))
    tight, slack = run(strop), run(replace(strop, slack=np.full(N, 0.3)), 3.0)
    assert np.allclose(tight.tension, 2.0 * lift, rtol=2e-4)  # applied at once: twice the steady pull
    assert (slack.tension > tight.tension).all()
    dragged = run(replace(strop, slack=np.full(N, 0.3), bag_area=np.full(N, 0.3)), 3.0)
    assert (dragged.tension < slack.tension).all()


def test_what_cannot_be_is_refused() -> None:
    strop = drawn()
    with pytest.raises(RangeError):
        replace(strop, stiffness=np.zeros(N))
    for seconds in (0.0, 1e6):
        with pytest.raises(RangeError):
            snatch(strop, seconds)
