"""Several estimates made into one: weights from their covariance, or the envelope where they disagree."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from parbuckle.load.problem import Combination
from parbuckle.physics.ranges import Range
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.normal import NINETEEN_IN_TWENTY

SAME_WAY = 0.7
"""Correlation of two estimates made in the same way, when nothing better is known (common practice; a judgement)."""

CORRELATION = Range("correlation of two estimates", 0.0, 0.99, "", "1 would make two people one")

_NOTHING = 1e-12  # share of the mean square below which a variance is taken as none


def covariance(wets: Floats, methods: Sequence[str], same_way: float = SAME_WAY) -> Floats:
    """Give the covariance of the estimates' weights in water, with what two people who did the same share.

    C_ij = s_i s_j max(r_ij, same_way) for two of one method, else s_i s_j r_ij, with r the correlation over the draws
    (two parts of one material share their density, so r is not always zero). If that matrix is not a covariance, the
    correlations are drawn together towards zero until it is.

    Parameters
    ----------
    wets : Floats
        Weights in water, kg, shape (k, n).
    methods : sequence of str
        Method of each.
    same_way : float
        Correlation of two of one method, 0 to 0.99.

    Returns
    -------
    Floats
        kg2, shape (k, k).

    Raises
    ------
    RangeError
        If ``same_way`` lies outside its range.

    Examples
    --------
    >>> wets = np.array([[1.0, 2.0, 3.0, 4.0], [2.0, 1.0, 1.0, 2.0]])
    >>> c = covariance(wets, ("shape", "shape"))
    >>> round(float(c[0, 1] / np.sqrt(c[0, 0] * c[1, 1])), 3)
    0.7
    """
    CORRELATION.check(same_way)
    k, n = wets.shape
    sampled = np.atleast_2d(np.cov(wets)) if n > 1 else np.zeros((k, k))
    sd = np.sqrt(np.diag(sampled))
    scale = np.outer(sd, sd)
    r = np.divide(sampled, scale, out=np.zeros((k, k)), where=scale > 0.0)
    same = np.array([[a == b for b in methods] for a in methods])
    r = np.where(same, np.maximum(r, same_way), r)
    np.fill_diagonal(r, 1.0)
    least = float(np.linalg.eigvalsh(r)[0])
    if least < 0.0:
        r = (r - least * np.eye(k)) / (1.0 - least)
    return np.asarray(scale * r, dtype=np.float64)


def best_weights(c: Floats) -> Floats:
    """Give the weights of the best linear unbiased mean: minimise w'Cw with sum w = 1 and no w negative.

    Solved by an active set: weights that would turn negative are set to zero, and taken in again if that helps.

    Parameters
    ----------
    c : Floats
        Covariance, shape (k, k), symmetric, no negative eigenvalue.

    Returns
    -------
    Floats
        Weights, shape (k,).

    Raises
    ------
    RangeError
        If no set of weights is found (a matrix that is no covariance).

    Notes
    -----
    Source: Gauss and Markov; quadratic program with the Karush-Kuhn-Tucker conditions, common practice.

    Examples
    --------
    >>> best_weights(np.diag([1.0, 3.0])).round(2).tolist()
    [0.75, 0.25]
    """
    k = c.shape[0]
    mean = float(np.trace(c)) / k
    if mean <= 0.0:
        return np.full(k, 1.0 / k)
    ridged = c / mean + _NOTHING * np.eye(k)
    w, free = np.full(k, 1.0 / k), np.ones(k, dtype=np.bool_)
    for _ in range(50 * k):
        target = np.zeros(k)
        solved = np.linalg.solve(ridged[np.ix_(free, free)], np.ones(int(free.sum())))
        target[free] = solved / solved.sum()
        if (target >= 0.0).all():
            w, slope = target, ridged @ target
            level = float(w @ slope)
            waiting = np.where(free, np.inf, slope)
            if free.all() or float(waiting.min()) >= level * (1.0 - 1e-9):
                return w
            free[int(np.argmin(waiting))] = True
            continue
        falling = free & (target < 0.0)
        reach = np.where(falling, w / np.where(falling, w - target, 1.0), np.inf)
        w = w + min(1.0, float(reach.min())) * (target - w)
        out = int(np.argmin(reach))
        w[out], free[out] = 0.0, False
    raise RangeError("no weights were found for the estimates: their covariance is not one")


def combination(wets: Floats, methods: Sequence[str]) -> Combination:
    """Find the weights of the estimates, and whether they agree.

    Two disagree when their means differ by more than 1.96 times the standard deviation of their difference.

    Parameters
    ----------
    wets : Floats
        Weights in water, kg, shape (k, n); enough draws to give a covariance.
    methods : sequence of str
        Method of each.

    Returns
    -------
    Combination
        Weights, agreement, largest difference of two means and variance of the weighted mean.

    Examples
    --------
    >>> combination(np.array([[30.0, 34.0], [60.0, 61.0]]), ("parts", "balance")).agree
    False
    """
    c = covariance(wets, methods)
    w = best_weights(c)
    means = wets.mean(axis=1)
    apart = np.abs(means[:, None] - means[None, :])
    variance = np.diag(c)[:, None] + np.diag(c)[None, :] - 2.0 * c
    allowed = NINETEEN_IN_TWENTY * np.sqrt(np.maximum(variance, 0.0))
    rounding = 1e-9 * (np.abs(means[:, None]) + np.abs(means[None, :]))
    agree = bool((apart <= allowed + rounding).all())
    return Combination(tuple(float(x) for x in w), agree, float(apart.max()), float(w @ c @ w))


def weighted(values: Floats, wets: Floats, chosen: Combination) -> Floats:
    """Give the weighted mean of a quantity, with the spread that the covariance of the weights in water asks for.

    The draws of two people are independent in the ensemble although their errors are not; deviations from the mean are
    therefore stretched until the weight in water has the variance w'Cw. The same factor serves mass and volume.

    Parameters
    ----------
    values : Floats
        Quantity of each estimate, shape (k, n).
    wets : Floats
        Weights in water of each estimate, kg, shape (k, n).
    chosen : Combination
        The weights and their variance.

    Returns
    -------
    Floats
        Shape (n,).

    Examples
    --------
    >>> wets = np.array([[1.0, 3.0], [1.0, 3.0]])
    >>> weighted(wets, wets, Combination((0.5, 0.5), True, 0.0, 8.0)).tolist()
    [0.0, 4.0]
    """
    w = np.array(chosen.weights)
    mixed = w @ values
    spread = float(np.var(w @ wets, ddof=1)) if wets.shape[1] > 1 else 0.0
    mean = float(mixed.mean())
    if spread <= _NOTHING * max(float(np.mean((w @ wets) ** 2)), 1e-300):
        return mixed
    return np.asarray(mean + (mixed - mean) * np.sqrt(chosen.variance / spread), dtype=np.float64)


def picked(values: Floats, which_u: Floats) -> Floats:
    """Give, for each draw, the value of one estimate picked by a uniform: the envelope of estimates that disagree.

    Parameters
    ----------
    values : Floats
        Quantity of each estimate, shape (k, n).
    which_u : Floats
        Uniforms, strictly between 0 and 1, shape (n,).

    Returns
    -------
    Floats
        Shape (n,).

    Examples
    --------
    >>> picked(np.array([[1.0, 2.0], [10.0, 20.0]]), np.array([0.2, 0.9])).tolist()
    [1.0, 20.0]
    """
    index = np.minimum((which_u * values.shape[0]).astype(np.int64), values.shape[0] - 1)
    return np.asarray(values[index, np.arange(values.shape[1])], dtype=np.float64)
