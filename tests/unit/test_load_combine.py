"""Weights of several estimates, against scipy; agreement and the envelope."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize

from parbuckle.load.combine import SAME_WAY, best_weights, combination, covariance, picked, weighted
from parbuckle.load.problem import Combination
from parbuckle.quantity.errors import RangeError
from sample_loads import full, spread

N = 512


def plain(c: np.ndarray) -> np.ndarray:
    """Minimise w'Cw with sum w = 1 and w >= 0 by a general solver."""
    k = c.shape[0]
    scaled = c / np.trace(c)
    found = minimize(
        lambda w: float(w @ scaled @ w),
        np.full(k, 1.0 / k),
        jac=lambda w: 2.0 * scaled @ w,
        bounds=[(0.0, 1.0)] * k,
        constraints={"type": "eq", "fun": lambda w: w.sum() - 1.0, "jac": lambda w: np.ones(k)},
        method="SLSQP",
        options={"ftol": 1e-14, "maxiter": 500},
    )
    return np.asarray(found.x)


@settings(deadline=None, derandomize=True, max_examples=60)
@given(st.integers(1, 6), st.integers(0, 10_000))
def test_the_weights_are_those_of_a_general_solver(k: int, seed: int) -> None:
    rng = np.random.default_rng(seed)
    root = rng.normal(size=(k, k)) * rng.uniform(0.2, 5.0, size=(k, 1))
    c = root @ root.T + 1e-3 * np.trace(root @ root.T) / k * np.eye(k)
    mine, judge = best_weights(c), plain(c)
    assert mine.min() >= 0.0
    assert mine.sum() == pytest.approx(1.0)
    assert mine @ c @ mine <= (judge @ c @ judge) * (1.0 + 1e-7)
    assert np.allclose(mine, judge, atol=2e-3)


def test_without_correlation_weights_go_with_the_inverse_variance() -> None:
    assert best_weights(np.diag([1.0, 4.0])).round(9).tolist() == [0.8, 0.2]


def test_a_much_worse_and_correlated_estimate_gets_nothing() -> None:
    c = np.array([[1.0, 0.7 * 3.0], [0.7 * 3.0, 9.0]])
    assert best_weights(c).tolist() == [1.0, 0.0]


def test_exact_estimates_share_alike_and_one_exact_takes_all() -> None:
    assert best_weights(np.zeros((2, 2))).tolist() == [0.5, 0.5]
    assert best_weights(np.diag([0.0, 4.0]))[0] == pytest.approx(1.0, abs=1e-9)


def test_two_who_did_the_same_are_not_independent() -> None:
    wets = np.stack([spread("a", 40.0, 3.0, N), spread("b", 41.0, 3.0, N)])
    same, other = covariance(wets, ("shape", "shape")), covariance(wets, ("shape", "balance"))
    assert same[0, 1] == pytest.approx(SAME_WAY * 9.0, rel=0.01)
    assert abs(other[0, 1]) < 1.0
    assert combination(wets, ("shape", "shape")).variance > 1.5 * combination(wets, ("shape", "balance")).variance


def test_what_the_draws_share_is_counted() -> None:
    common = spread("density", 0.0, 3.0, N)
    wets = np.stack([40.0 + common, 40.0 + common])
    assert covariance(wets, ("parts", "shape"))[0, 1] == pytest.approx(9.0, rel=0.01)


def test_correlations_that_cannot_be_are_drawn_together() -> None:
    x, y = spread("x", 0.0, 1.0, N), spread("y", 0.0, 1.0, N)
    wets = np.stack([x + 0.1 * y, -x + 0.1 * y, x - 0.1 * y])
    c = covariance(wets, ("shape", "shape", "shape"))
    assert np.linalg.eigvalsh(c)[0] > -1e-9
    assert np.allclose(np.diag(c), np.var(wets, axis=1, ddof=1))


def test_correlation_has_a_range() -> None:
    wets = np.stack([spread("a", 1.0, 1.0, N), spread("b", 1.0, 1.0, N)])
    assert covariance(wets, ("shape", "shape"), 0.99).shape == (2, 2)
    for wrong in (-0.01, 1.0):
        with pytest.raises(RangeError):
            covariance(wets, ("shape", "shape"), wrong)


@pytest.mark.parametrize(("apart", "agree"), [(5.4, True), (5.7, False)])
def test_they_agree_up_to_their_bands(apart: float, agree: bool) -> None:
    wets = np.stack([spread("a", 40.0, 2.0, 4096), spread("b", 40.0 + apart, 2.0, 4096)])
    chosen = combination(wets, ("parts", "shape"))  # 1.96 sqrt(4 + 4) = 5.54
    assert chosen.agree is agree
    assert chosen.disagreement_kg == pytest.approx(apart, abs=0.01)


def test_the_same_exact_number_twice_agrees_and_two_do_not() -> None:
    assert combination(np.stack([full(0.3), full(0.1 + 0.2)]), ("parts", "shape")).agree
    assert not combination(np.stack([full(30.0), full(30.1)]), ("parts", "shape")).agree


def test_the_combined_spread_is_that_of_the_covariance() -> None:
    wets = np.stack([spread("a", 40.0, 3.0, N), spread("b", 41.0, 3.0, N)])
    chosen = combination(wets, ("shape", "shape"))
    mixed = weighted(wets, wets, chosen)
    assert np.var(mixed, ddof=1) == pytest.approx(chosen.variance)
    assert mixed.mean() == pytest.approx(np.array(chosen.weights) @ wets.mean(axis=1))


def test_mass_and_volume_are_stretched_alike() -> None:
    mass = np.stack([spread("a", 60.0, 3.0, N), spread("b", 62.0, 3.0, N)])
    wets = mass - 1000.0 * (mass / 2700.0)
    chosen = combination(wets, ("shape", "shape"))
    wet = weighted(mass, wets, chosen) - 1000.0 * weighted(mass / 2700.0, wets, chosen)
    assert np.allclose(wet, weighted(wets, wets, chosen))


def test_the_envelope_takes_each_estimate_as_often() -> None:
    values = np.stack([full(1.0, N), full(2.0, N), full(3.0, N)])
    got = picked(values, (np.arange(N) + 0.5) / N)
    assert [int((got == x).sum()) for x in (1.0, 2.0, 3.0)] == pytest.approx([N / 3] * 3, abs=1)
    assert picked(values[:, :1], np.array([1.0 - 2.0**-53])).tolist() == [3.0]


def test_weights_without_spread_pass_unchanged() -> None:
    wets = np.stack([full(3.0), full(5.0)])
    assert np.allclose(weighted(wets, wets, Combination((0.5, 0.5), True, 2.0, 1.0)), 4.0)
