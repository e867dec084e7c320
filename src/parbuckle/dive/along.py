"""Tissues along a logged dive: after every piece of it, and the ceiling that the plan's rule gives at each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from parbuckle.dive.carried import Breathing
from parbuckle.dive.ceilings import gradient, tolerated
from parbuckle.dive.loading import Step
from parbuckle.dive.over_run import stops_due
from parbuckle.dive.problem import DiveRules
from parbuckle.dive.profile import Leg, Water
from parbuckle.quantity.frozen import Floats

Places = NDArray[np.intp]
"""Which pieces of a dive, from 0."""


@dataclass(frozen=True)
class Along:
    """A logged dive, piece by piece.

    Parameters
    ----------
    tissues : Floats
        Partial pressures after each piece, Pa, shape (2, 16, m).
    over : Floats
        Tolerated pressure less pressure after each piece, Pa, shape (m,): above 0 where a ceiling is passed.
    gradient : Floats
        Gradient factor at which the tissues stand after each piece, shape (m,).
    first_stop : float or None
        Depth of the first stop that is due, m; None where none is.
    """

    tissues: Floats
    over: Floats
    gradient: Floats
    first_stop: float | None


def tissues_along(tissues: Floats, pieces: Sequence[tuple[Leg, Places]]) -> Floats:
    """Give the tissues after each piece of a dive.

    P' = K P + A for each piece, K what stays and A what is added, worked out for all pieces of one gas together.

    Parameters
    ----------
    tissues : Floats
        Partial pressures before, Pa, shape (2, 16, 1).
    pieces : sequence of (Leg, Places)
        For each gas a leg with one column for each of its pieces, and the places of these pieces in the dive, from 0.

    Returns
    -------
    Floats
        Pa, shape (2, 16, m), m pieces in the order of the dive.

    Raises
    ------
    RangeError
        As for ``load``.

    Notes
    -----
    Source: Schreiner's equation; it equals ``load`` leg by leg to rounding.

    Examples
    --------
    >>> from parbuckle.dive.loading import AIR, at_rest
    >>> there = np.array([2e5, 2e5])
    >>> both = Leg(there, there.copy(), np.array([60.0, 60.0]), AIR)
    >>> tissues_along(at_rest(101325.0), [(both, np.array([0, 1]))]).shape
    (2, 16, 2)
    """
    m = sum(places.size for _, places in pieces)
    kept, added = np.empty((m, 2, 16)), np.empty((m, 2, 16))
    for leg, places in pieces:
        stays, comes = Step(leg).parts()
        kept[places], added[places] = np.moveaxis(stays, -1, 0), np.moveaxis(comes, -1, 0)
    state, out = tissues[:, :, 0].copy(), np.empty((m, 2, 16))
    for j in range(m):
        state = kept[j] * state + added[j]
        out[j] = state
    return np.ascontiguousarray(np.moveaxis(out, 0, -1))


def along(
    tissues: Floats,
    pieces: Sequence[tuple[Leg, Places]],
    depth: Floats,
    water: Water,
    rules: DiveRules,
) -> Along:
    """Follow a logged dive with the ceiling of the plan's rule.

    While the surface is always tolerated with the high factor, that one holds all the way. Otherwise the first stop is
    found as in a plan, from the moment at which the ceiling by the low factor is deepest; the low factor holds at it
    and below it, and from there it goes evenly to the high one at the surface.

    Parameters
    ----------
    tissues : Floats
        Partial pressures before, Pa, shape (2, 16, 1).
    pieces : sequence of (Leg, Places)
        As for ``tissues_along``.
    depth : Floats
        Depth after each piece, m, shape (m,).
    water : Water
        One column.
    rules : DiveRules
        Gradient factors and rate.

    Returns
    -------
    Along
        One column for each piece.

    Raises
    ------
    RangeError
        As for ``load`` and ``way_up``.

    Notes
    -----
    Source: Baker 1998; the moment from which the first stop counts is an own definition.
    """
    low, high = rules.factors
    after = tissues_along(tissues, pieces)
    pressure = np.empty(depth.size)
    for leg, places in pieces:
        pressure[places] = leg.end
    first = _first_stop(after, pieces, depth, water, rules)
    share = np.zeros(depth.size) if first is None else np.minimum(depth / first, 1.0)
    over = tolerated(after, high + (low - high) * share) - pressure
    return Along(after, over, gradient(after, pressure), first)


def _first_stop(
    after: Floats, pieces: Sequence[tuple[Leg, Places]], depth: Floats, water: Water, rules: DiveRules
) -> float | None:
    low, high = rules.factors
    due = tolerated(after, high) > water.surface
    if not due.any():
        return None
    worst = int(np.where(due, tolerated(after, low), -np.inf).argmax())
    gas = next(leg.gas for leg, places in pieces if worst in places)
    stops = stops_due(after[:, :, worst : worst + 1], float(depth[worst]), water, Breathing(gas), rules)
    return stops[0].depth if stops else None
