"""The stage: combined estimates, water and mud that come along, what was found in the water only."""

from __future__ import annotations

import numpy as np
import pytest

from parbuckle.load.pieces import from_solid, from_wet, mass_and_volume, trial_weight
from parbuckle.load.problem import Combination
from parbuckle.load.weigh import settled, weigh
from parbuckle.quantity.errors import RangeError
from sample_loads import N, estimate, full, problem, spread


def test_two_of_mass_volume_and_density_make_a_piece() -> None:
    mass, volume, density = np.array([27.0]), np.array([0.010]), np.array([2700.0])
    for given in ((mass, volume, None), (mass, None, density), (None, volume, density)):
        got = mass_and_volume(*given)
        assert (float(got[0][0]), float(got[1][0])) == pytest.approx((27.0, 0.010))
    for short in ((mass, None, None), (None, volume, None), (None, None, density), (None, None, None)):
        with pytest.raises(RangeError, match="two of"):
            mass_and_volume(*short)
    with pytest.raises(RangeError):
        mass_and_volume(-mass, volume, None)


def test_a_trial_lift_says_no_more_than_what_moved() -> None:
    one = np.ones(1)
    free = float(trial_weight(0.04 * one, 1000.0 * one, 2.6e5 * one, 281.0 * one, 0.0 * one)[0])
    stuck = float(trial_weight(0.04 * one, 1000.0 * one, 2.6e5 * one, 281.0 * one, 0.8 * one)[0])
    assert stuck == pytest.approx(free / 1.8)
    assert free < 40.0


def test_one_estimate_passes_as_it_is() -> None:
    thing = estimate("list", spread("mass", 60.0, 2.0))
    got = weigh(problem(thing))
    assert np.array_equal(got.dry_mass, thing.mass)
    assert np.array_equal(got.wet_weight, thing.wet)
    assert got.agree
    assert got.weights == (1.0,)


def test_two_that_agree_make_a_mean_between_them() -> None:
    a, b = estimate("A", spread("a", 60.0, 3.0)), estimate("B", spread("b", 62.0, 2.0), method="known")
    got = weigh(problem(a, b))
    assert got.agree
    assert 60.0 < float(got.dry_mass.mean()) < 62.0
    assert np.std(got.wet_weight) < min(np.std(a.wet), np.std(b.wet))


def test_two_that_disagree_give_the_envelope_and_are_told() -> None:
    a, b = estimate("A", spread("a", 30.0, 1.0)), estimate("B", spread("b", 60.0, 1.0), method="known")
    got = weigh(problem(a, b))
    assert not got.agree
    assert got.disagreement_kg == pytest.approx(30.0 * (1.0 - 1000.0 / 2700.0), rel=0.01)
    assert got.dry_mass.min() < 31.0
    assert got.dry_mass.max() > 59.0
    assert 0.45 < float(np.mean(got.dry_mass < 45.0)) < 0.55


def test_the_order_of_the_estimates_does_not_matter() -> None:
    a, b = estimate("A", spread("a", 60.0, 3.0)), estimate("B", spread("b", 62.0, 2.0), method="known")
    c = estimate("C", spread("c", 61.0, 2.5), method="shape")
    assert weigh(problem(a, b, c)).digest() == weigh(problem(c, a, b)).digest()


def test_a_spring_balance_takes_the_density_of_the_parts() -> None:
    parts = estimate("list", spread("a", 60.0, 6.0), density=7850.0)
    read = from_wet("A", "spring balance", "balance", full(52.0), full(2700.0), full(1000.0))
    balance, _ = settled((parts, read), full(1000.0))
    assert balance.in_water
    assert np.allclose(balance.mass / balance.displaced, 7850.0)
    assert np.allclose(balance.mass - 1000.0 * balance.displaced, 52.0)


def test_a_spring_balance_alone_keeps_its_wide_density() -> None:
    density = spread("density", 3000.0, 500.0)
    read = from_wet("A", "spring balance", "balance", spread("w", 52.0, 1.0), density, full(1000.0))
    got = weigh(problem(read))
    assert np.std(got.wet_weight) == pytest.approx(1.0, rel=0.02)
    assert np.std(got.dry_mass) > 3.0
    assert np.allclose(got.dry_mass - 1000.0 * got.displaced, got.wet_weight)


def test_a_balance_keeps_its_stand_in_where_the_rest_floats() -> None:
    wood = estimate("list", full(60.0), density=990.0)
    read = from_wet("A", "spring balance", "balance", full(5.0), full(2700.0), full(1000.0))
    assert np.allclose(settled((wood, read), full(1000.0))[0].mass, read.mass)


def test_a_weight_in_water_needs_something_that_sinks() -> None:
    with pytest.raises(RangeError):
        from_wet("A", "spring balance", "balance", full(5.0), full(990.0), full(1000.0))


def test_water_in_spaces_and_gaps_comes_up_with_it() -> None:
    mass = full(27.0)
    thing = from_solid("A", "touched", "shape", mass, full(0.010), full(0.030), full(1000.0))
    got = weigh(problem(thing, flooded_cavity=full(0.004)))
    assert np.allclose(got.entrapped_water, 4.0 + 0.9 * 20.0)
    assert np.allclose(got.leaving_water, 27.0 + 22.0)
    assert np.allclose(got.envelope, 0.034)


def test_mud_comes_along_only_where_it_clings() -> None:
    thing = estimate("list", full(60.0))
    clean, muddy = weigh(problem(thing, on="sand")), weigh(problem(thing, on="soft mud"))
    assert np.allclose(clean.leaving_water, 60.0)
    mud = muddy.leaving_water - 60.0
    assert mud.min() >= 0.0
    assert mud.max() == pytest.approx(0.5 * 1500.0 * 0.2 * 0.1, rel=0.01)


def test_it_presses_on_what_it_touches() -> None:
    thing = estimate("list", full(27.0))
    got = weigh(problem(thing, footprint=full(0.1)))
    assert np.allclose(got.bearing_pressure, 17.0 * 9.80665 / 0.1)
    assert not weigh(problem(thing, footprint=full(0.0))).bearing_pressure.any()


def test_a_combined_mass_is_cut_at_zero_and_that_is_told() -> None:
    a, b = (estimate(by, np.abs(spread(by, 2.0, 1.6)), method="known") for by in "AB")
    given = Combination((0.5, 0.5), True, 0.0, 9.0)
    got = weigh(problem(a, b, combination=given))
    assert got.dry_mass.min() == 0.0
    assert "cut at zero" in got.warnings[0]


def test_weights_handed_in_are_used() -> None:
    a, b = estimate("A", full(60.0, 1)), estimate("B", full(62.0, 1), method="known")
    got = weigh(problem(a, b, combination=Combination((0.25, 0.75), True, 1.0, 1.0)))
    assert float(got.dry_mass[0]) == pytest.approx(0.25 * 62.0 + 0.75 * 60.0)  # known comes before parts


def test_records_are_frozen_and_checked() -> None:
    thing = estimate("list", full(60.0))
    got = weigh(problem(thing))
    with pytest.raises(ValueError, match="read-only"):
        got.wet_weight[0] = 1.0
    with pytest.raises(RangeError, match="no estimate"):
        problem_without = problem(thing)
        type(problem_without)(**(problem_without.__dict__ | {"estimates": ()}))
    with pytest.raises(RangeError, match="draws"):
        problem(thing, footprint=full(0.2, N + 1))
    with pytest.raises(RangeError, match="method"):
        estimate("list", full(1.0), method="guess")
