"""How model tissues take up and give off inert gas: at one depth, on the way down or up, and between dives."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

import numpy as np

from parbuckle.dive.compartments import Compartments, compartments, water_vapour
from parbuckle.dive.profile import PRESSURE_RANGE, TIME_RANGE, Leg
from parbuckle.physics.ranges import FloatsLike, Range, positive
from parbuckle.quantity.breathing import AIR_OXYGEN, Gas
from parbuckle.quantity.frozen import Floats

AIR = Gas("air", AIR_OXYGEN, 0.0)
"""What is breathed between dives."""

SHARE_RANGE = Range("share of a gas", 0.0, 1.0, "", "a share of one whole")


def inspired(pressure: FloatsLike, share: FloatsLike) -> Floats:
    """Give the partial pressure of an inert gas in the lung.

    p_i = f (p - p_H2O).

    Parameters
    ----------
    pressure : FloatsLike
        Absolute pressure of the surroundings, Pa, any shape.
    share : FloatsLike
        Share of the gas in what is breathed, any shape that fits.

    Returns
    -------
    Floats
        Partial pressure, Pa.

    Raises
    ------
    RangeError
        Outside 0.3 to 31 bar, or for a share outside 0 to 1.

    Notes
    -----
    Source: Bühlmann's form with a respiratory quotient of 1.

    Examples
    --------
    >>> round(float(inspired(101325.0, 0.79)), 2)
    75093.45
    """
    return np.asarray(SHARE_RANGE.check(share) * (PRESSURE_RANGE.check(pressure) - water_vapour()))


def ramp(tissue: FloatsLike, start: FloatsLike, end: FloatsLike, time: FloatsLike, half: FloatsLike) -> Floats:
    """Give the pressure in a tissue after the lung's pressure went evenly from one value to another.

    P = P_i0 + R (t - 1/k) - (P_i0 - P_0 - R/k) e^(-k t), k = ln 2 / T, R = (P_i1 - P_i0) / t; with R = 0 it is
    Haldane's P_0 + (P_i - P_0)(1 - 2^(-t/T)).

    Parameters
    ----------
    tissue : FloatsLike
        Pressure in the tissue before, Pa, any shape.
    start, end : FloatsLike
        Partial pressure in the lung at both ends, Pa, any shape that fits.
    time : FloatsLike
        How long it takes, s, any shape that fits.
    half : FloatsLike
        Half-time of the tissue, s, any shape that fits.

    Returns
    -------
    Floats
        Pressure in the tissue after, Pa.

    Raises
    ------
    RangeError
        For a time outside 0 to a week, or a half-time that is not above 0.

    Notes
    -----
    Source: Schreiner and Kelley 1971, written so that it also holds for no time at all.

    Examples
    --------
    >>> round(float(ramp(75093.45, 312093.45, 312093.45, 1200.0, 480.0)))
    270197
    """
    kept, taken = _kept_and_taken(start, end, time, half)
    return np.asarray(tissue * kept + taken)


def _kept_and_taken(start: FloatsLike, end: FloatsLike, time: FloatsLike, half: FloatsLike) -> tuple[Floats, Floats]:
    """Share of what a tissue holds that stays, and what is added to it."""
    x = TIME_RANGE.check(time) * np.log(2.0) / positive("half-time", half, "s")
    gone = -np.expm1(-x)
    before, after = np.asarray(start, dtype=np.float64), np.asarray(end, dtype=np.float64)
    if np.array_equal(before, after):
        return 1.0 - gone, before * gone
    mean = np.divide(gone, x, out=np.ones_like(gone), where=x > 0.0)
    return 1.0 - gone, before * gone + (after - before) * (1.0 - mean)


class Step:
    """What one leg does to any tissues, worked out once for everybody who makes it.

    Parameters
    ----------
    leg : Leg
        The leg.
    model : Compartments, optional
        Coefficients; left out: set C.
    """

    def __init__(self, leg: Leg, model: Compartments | None = None) -> None:
        self.leg = leg
        self._half = (model or compartments()).half[:, :, None]

    def on(self, tissues: Floats) -> Floats:
        """Give the tissues after the leg.

        Parameters
        ----------
        tissues : Floats
            Partial pressures before, Pa, shape (2, 16, n) or (2, 16, 1).

        Returns
        -------
        Floats
            Partial pressures after, Pa, shape (2, 16, n).
        """
        kept, taken = self._nitrogen
        nitrogen = tissues[0] * kept + taken
        if not (self.leg.gas.helium > 0.0 or tissues[1].any()):  # without helium half the work
            return np.stack([nitrogen, np.zeros_like(nitrogen)])
        kept, taken = self._helium
        return np.stack([nitrogen, tissues[1] * kept + taken])

    def parts(self) -> tuple[Floats, Floats]:
        """Give the share of what a tissue holds that stays, and what is added to it.

        Returns
        -------
        tuple of Floats
            A share, and Pa; shape (2, 16, n).
        """
        shape = (16, self.leg.time.size)
        rows = zip(self._nitrogen, self._helium, strict=True)
        kept, added = (np.stack([np.broadcast_to(part, shape) for part in both]) for both in rows)
        return kept, added

    @cached_property
    def _nitrogen(self) -> tuple[Floats, Floats]:
        return self._of(0, max(0.0, self.leg.gas.nitrogen))  # 0 but for rounding

    @cached_property
    def _helium(self) -> tuple[Floats, Floats]:
        return self._of(1, self.leg.gas.helium)

    def _of(self, gas: int, share: float) -> tuple[Floats, Floats]:
        time = self.leg.time
        if time.size > 1 and (time == time[0]).all():
            time = time[:1]
        before, after = inspired(self.leg.start, share), inspired(self.leg.end, share)
        return _kept_and_taken(before, after, time, self._half[gas])


def at_rest(surface: FloatsLike, gas: Gas = AIR) -> Floats:
    """Give the tissues of somebody who has lived at one air pressure for days.

    Parameters
    ----------
    surface : FloatsLike
        Air pressure, Pa, one number or shape (n,).
    gas : Gas
        What was breathed.

    Returns
    -------
    Floats
        Partial pressures, Pa, shape (2, 16, n): nitrogen, helium.

    Raises
    ------
    RangeError
        Outside 0.3 to 31 bar.

    Examples
    --------
    >>> at_rest(101325.0).shape
    (2, 16, 1)
    """
    lung = inspired(np.atleast_1d(np.asarray(surface, dtype=np.float64)), 1.0)
    return np.stack([np.tile(share * lung, (16, 1)) for share in (gas.nitrogen, gas.helium)])


def load(tissues: Floats, legs: Iterable[Leg | Step], model: Compartments | None = None) -> Floats:
    """Take tissues through the legs of a dive.

    Parameters
    ----------
    tissues : Floats
        Partial pressures before, Pa, shape (2, 16, n) or (2, 16, 1).
    legs : iterable of Leg or Step
        The dive, in order.
    model : Compartments, optional
        Coefficients; left out: set C.

    Returns
    -------
    Floats
        Partial pressures after, Pa, shape (2, 16, n).

    Raises
    ------
    RangeError
        As for ``ramp`` and ``inspired``.

    Examples
    --------
    >>> from parbuckle.dive.profile import Water, leg
    >>> sea = Water(np.array([101325.0]), np.array([1025.0]))
    >>> after = load(at_rest(101325.0), [leg(sea, 18.0, 18.0, 1800.0, AIR)])
    >>> bool(after[0, 0, 0] > after[0, 15, 0])
    True
    """
    for piece in legs:
        tissues = (piece if isinstance(piece, Step) else Step(piece, model)).on(tissues)
    return tissues


def rest(tissues: Floats, surface: FloatsLike, time: FloatsLike, model: Compartments | None = None) -> Floats:
    """Let tissues give off gas on air at the surface: between dives, or after arrival at another altitude.

    Parameters
    ----------
    tissues : Floats
        Partial pressures before, Pa, shape (2, 16, n).
    surface : FloatsLike
        Air pressure there, Pa, one number or shape (n,).
    time : FloatsLike
        How long, s, one number or shape (n,).
    model : Compartments, optional
        Coefficients; left out: set C.

    Returns
    -------
    Floats
        Partial pressures after, Pa, shape (2, 16, n).

    Raises
    ------
    RangeError
        As for ``Leg``.

    Examples
    --------
    >>> low, high = at_rest(101325.0), at_rest(80000.0)
    >>> bool((rest(low, 80000.0, 3600.0)[0] > high[0]).all())
    True
    """
    there, lasts = (
        np.array(part)
        for part in np.broadcast_arrays(
            np.atleast_1d(np.asarray(surface, dtype=np.float64)), np.atleast_1d(np.asarray(time, dtype=np.float64))
        )
    )
    return load(tissues, [Leg(there, there, lasts, AIR)], model)
