"""Tissues along logged profiles: samples at one interval, many of them, for one gas.

Between two samples the pressure is taken as straight. With one interval Schreiner's equation becomes
P' = E P + B p + (A - B) p0 with fixed factors, p the lung's pressure after the step and p0 before it. Only the state
Q = P - B p has to be carried: Q' = E Q + C p0, C = E B + A - B. What is left at the end is then a weighted sum of all
samples, which is one product of matrices; the way in between needs the steps.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from parbuckle.dive.ceilings import FACTOR_RANGE
from parbuckle.dive.compartments import Compartments, compartments, water_vapour
from parbuckle.dive.log_kernel import CEILING_SIGNATURE, LANES, ceiling_runner
from parbuckle.dive.profile import PRESSURE_RANGE
from parbuckle.physics.compiled import compiled
from parbuckle.physics.ranges import Range
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats

INTERVAL_RANGE = Range("interval between samples", 0.1, 600.0, "s", "logs of dives")

_CHUNK = 128  # profiles at a time, so that they stay near the processor between the check and the sum


@dataclass(frozen=True)
class Factors:
    """The fixed factors of one interval.

    Parameters
    ----------
    e, c, b : Floats
        Kept of the state, taken from the sample before, and left to add at the end, shape (2, 16).
    """

    e: Floats
    c: Floats
    b: Floats


def factors(interval: float, model: Compartments | None = None) -> Factors:
    """Give the factors for samples at one interval.

    E = e^(-x), A = 1 - E, B = 1 - (1 - E) / x, x = t ln 2 / T; C = E B + A - B.

    Parameters
    ----------
    interval : float
        Time between two samples, s.
    model : Compartments, optional
        Coefficients; left out: set C.

    Returns
    -------
    Factors
        For all tissues.

    Raises
    ------
    RangeError
        Outside 0.1 to 600 s.

    Notes
    -----
    Source: Schreiner's equation for one step, own rearrangement.

    Examples
    --------
    >>> factors(4.0).e.shape
    (2, 16)
    """
    x = float(INTERVAL_RANGE.check(interval)) * np.log(2.0) / (model or compartments()).half
    kept, gone = np.exp(-x), -np.expm1(-x)
    b = 1.0 - gone / x
    return Factors(kept, kept * b + gone - b, b)


def loaded_at_end(
    tissues: Floats,
    pressure: Floats,
    interval: float,
    gas: Gas,
    model: Compartments | None = None,
) -> Floats:
    """Give the tissues at the end of logged profiles.

    P_n = E^(n-1) Q_0 + sum of E^(n-2-i) C p_i + B p_n.

    Parameters
    ----------
    tissues : Floats
        Partial pressures before, Pa, shape (2, 16, m) or (2, 16, 1).
    pressure : Floats
        Absolute pressure at each sample, Pa, shape (m, samples), at least two samples.
    interval : float
        Time between two samples, s.
    gas : Gas
        What is breathed.
    model : Compartments, optional
        Coefficients; left out: set C.

    Returns
    -------
    Floats
        Partial pressures after, Pa, shape (2, 16, m).

    Raises
    ------
    RangeError
        For an interval or a pressure outside its range, or fewer than two samples.

    Notes
    -----
    Source: own work; equals ``load`` on the same straight legs to rounding. All gases go in one product of matrices,
    so that each sample is read once; a compiled loop over the samples was measured to be slower.

    Examples
    --------
    >>> from parbuckle.dive.loading import AIR, at_rest
    >>> loaded_at_end(at_rest(101325.0), np.full((3, 100), 101325.0), 4.0, AIR).shape
    (2, 16, 3)
    """
    fixed, samples = factors(interval, model), _samples(pressure)
    count, steps = samples.shape[0], samples.shape[1] - 1
    shares = _shares(gas)
    whole = np.power(fixed.e, float(steps))[:, :, None]
    ends = whole * tissues + np.zeros(count)
    breathed = np.flatnonzero(shares)
    e, b, c = fixed.e[breathed], shares[breathed] * fixed.b[breathed], shares[breathed] * fixed.c[breathed]
    each = [_weights(steps, *row).T for row in zip(e, b, c, strict=True)]
    sums = np.ascontiguousarray(np.concatenate(each)) if each else None
    for first in range(0, count, _CHUNK):
        some = samples[first : first + _CHUNK]
        _check(some)
        if sums is not None:
            state = (sums @ some[:, :-1].T).reshape(len(e), LANES, -1)
            ends[breathed, :, first : first + _CHUNK] += state + b[:, :, None] * some[:, -1]
    return np.asarray(ends - shares[:, :, None] * water_vapour() * (1.0 - whole))


def highest_ceiling(
    tissues: Floats,
    pressure: Floats,
    interval: float,
    gas: Gas,
    factor: float = 1.0,
    model: Compartments | None = None,
    plain: bool = False,
) -> tuple[Floats, Floats]:
    """Give the tissues at the end of logged profiles, and how far the ceiling was above the pressure on the way.

    Parameters
    ----------
    tissues : Floats
        Partial pressures before, Pa, shape (2, 16, m) or (2, 16, 1).
    pressure : Floats
        Absolute pressure at each sample, Pa, shape (m, samples), at least two samples.
    interval : float
        Time between two samples, s.
    gas : Gas
        What is breathed.
    factor : float
        Gradient factor.
    model : Compartments, optional
        Coefficients; left out: set C.
    plain : bool
        Take the NumPy form although the compiled one could be had.

    Returns
    -------
    tuple of Floats
        Partial pressures after, Pa, shape (2, 16, m); largest of tolerated pressure less pressure over all samples
        after the first, Pa, shape (m,): above 0 where a ceiling was passed.

    Raises
    ------
    RangeError
        For an interval or a pressure outside its range, or fewer than two samples.

    Notes
    -----
    Source: as for ``tolerated`` and ``factors``. Both forms do the same steps and agree to rounding.

    Examples
    --------
    >>> from parbuckle.dive.loading import AIR, at_rest
    >>> bool(highest_ceiling(at_rest(101325.0), np.full((1, 100), 101325.0), 4.0, AIR)[1][0] < 0.0)
    True
    """
    chosen = model or compartments()
    samples, fixed, shares = _samples(pressure), factors(interval, chosen), _shares(gas)
    _check(samples)
    FACTOR_RANGE.check(factor)
    table = np.stack([fixed.e, shares * fixed.c, shares * fixed.b, chosen.a, chosen.b])
    lung = samples - water_vapour()
    state = np.moveaxis(tissues - table[2][:, :, None] * lung[:, 0], 2, 0).copy()
    above = np.full((samples.shape[0], LANES), -np.inf)
    run = None if plain else compiled(ceiling_runner, CEILING_SIGNATURE, ())
    if run is None:
        _in_columns(lung, state, table, factor, above)
    else:
        run(lung, state, table.reshape(len(table), -1), float(factor), above)
    return np.moveaxis(state, 0, 2).copy(), above.max(axis=1) - water_vapour()


def _in_columns(lung: Floats, state: Floats, table: Floats, factor: float, above: Floats) -> None:
    """Follow all profiles side by side: the same steps in NumPy."""
    e, c, b, coefficient_a, coefficient_b = table
    for before, now in pairwise(lung.T[:, :, None]):
        state *= e
        state += c * before[:, :, None]
        first, second = state[:, 0] + b[0] * now, state[:, 1] + b[1] * now
        held = first + second
        share = second / held
        a = coefficient_a[0] + (coefficient_a[1] - coefficient_a[0]) * share
        slope = coefficient_b[0] + (coefficient_b[1] - coefficient_b[0]) * share
        np.maximum(above, (held - factor * a) * slope / (factor + (1.0 - factor) * slope) - now, out=above)
    state += b * lung[:, -1, None, None]


def _weights(steps: int, e: Floats, b: Floats, c: Floats) -> Floats:
    """Give what each sample but the last adds to the state at the end, shape (steps, 16)."""
    weights = c * np.power(e, np.arange(steps - 1, -1, -1)[:, None])
    weights[0] -= b * np.power(e, float(steps))
    return np.asarray(weights)


def _shares(gas: Gas) -> Floats:
    return np.array([[max(0.0, gas.nitrogen)], [gas.helium]])  # 0 but for rounding


def _samples(pressure: Floats) -> Floats:
    samples = np.ascontiguousarray(np.atleast_2d(pressure), dtype=np.float64)
    if samples.shape[1] <= 1:
        raise RangeError(f"given {samples.shape[1]} sample, allowed 2 and more")
    return samples


def _check(samples: Floats) -> None:
    least, most = samples.min(), samples.max()
    if not (PRESSURE_RANGE.low <= least and most <= PRESSURE_RANGE.high):  # quicker than to ask each time
        PRESSURE_RANGE.check(np.array([least, most]))
