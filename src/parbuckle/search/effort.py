"""The best use of effort over cells: exact for the random law, and for any law given as a table."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.physics.ranges import not_negative
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen, Numbers
from parbuckle.search.law_table import LawTable

_HALVINGS = 80  # of the price; what is left between the two sides is mixed
_SAMPLE = 20_000  # cells of which the price is first guessed
_MARGIN = 0.05  # of the logarithm of the price, below the guess
_LOWER = 0.05  # of the price that a sample tells
_WIDER = 1e-12  # so that rounding keeps the two prices on their sides


@dataclass(frozen=True)
class Allocation(Frozen):
    """How much effort each cell gets.

    Parameters
    ----------
    effort : Floats
        Effort in each cell, in the unit of the total, shape of the shares.
    price : float
        Chance that one more unit of effort would add (lambda), at the last unit spent.
    chance : float
        Chance of success.
    """

    effort: Floats
    price: float
    chance: float


def water_filling(share: Floats, rate: Floats, total: float) -> Allocation:
    """Share effort out at its best under the random law.

    Maximise sum p_i (1 - exp(-w_i t_i)) with sum t_i = T: t_i = max(0, ln(p_i w_i / lambda) / w_i). Newton's rule on
    the dual: start with all cells, drop those below the price, until none falls; ends exactly after finitely many
    steps.

    Parameters
    ----------
    share : Floats
        p_i, chance of each cell, not negative, any shape.
    rate : Floats
        w_i, coverage that one unit of effort gives in the cell (sweep width times speed over area), above zero; one for
        each cell or one for all.
    total : float
        T, effort there is, not negative.

    Returns
    -------
    Allocation
        Sum of the effort is the total.

    Raises
    ------
    RangeError
        For a negative share or total, a rate that is not above zero, or a map without any share.

    Notes
    -----
    Source: Koopman's problem; solution after Charnes and Cooper 1958 (recalled), worked out again.

    Examples
    --------
    >>> p = np.array([0.40, 0.25, 0.15, 0.12, 0.08])
    >>> [round(float(t), 6) for t in water_filling(p, np.ones(1), 2.0).effort]
    [1.150278, 0.680274, 0.169448, 0.0, 0.0]
    """
    p = np.asarray(share, dtype=np.float64).ravel()
    w = np.asarray(rate, dtype=np.float64).ravel()
    effort = float(not_negative("effort", total))
    if not (float(p.min()) >= 0.0 and float(w.min()) > 0.0 and w.size in (1, p.size)):
        raise RangeError("allocation: shares must not be negative, rates above zero, one for each cell or one for all")
    gain = p * w
    if not gain.any():
        raise RangeError("allocation: no cell that can be searched holds a chance")
    cells, log_price = _paying(gain, w, effort)
    wi = w if w.size == 1 else w[cells]
    spent = np.maximum((np.log(gain[cells]) - log_price) / wi, 0.0)  # rounding, where a cell is level
    out = np.zeros(p.shape)
    out[cells] = spent
    chance = float((p[cells] * -np.expm1(-spent * wi)).sum())
    return Allocation(out.reshape(np.shape(share)), float(np.exp(log_price)), chance)


def allocate(share: Floats, area: float, table: LawTable, total: float) -> Allocation:
    """Share track length out at its best over equal cells, under any law that is given as a table.

    The dual price is halved in until the track demanded on both sides of it brackets the total; between the two, which
    are both optimal at that price, the effort is mixed.

    Parameters
    ----------
    share : Floats
        Chance of each cell, not negative, any shape.
    area : float
        Area of one cell, m2, above zero.
    table : LawTable
        Chance against track length per area, concave.
    total : float
        Length of track there is, m, not negative.

    Returns
    -------
    Allocation
        Effort in metres of track in each cell. Less than the total where the table's end is reached everywhere.

    Raises
    ------
    RangeError
        For a negative share or total, an area that is not above zero, or a map without any share.

    Notes
    -----
    Source: Lagrange's rule for a concave law (Stone 1975, chapter II, recalled; worked out again).
    """
    p = np.asarray(share, dtype=np.float64).ravel()
    length = float(not_negative("effort", total, "m"))
    if not (float(p.min()) >= 0.0 and area > 0.0 and bool(p.any())):
        raise RangeError("allocation: shares must not be negative, not all zero, and the area above zero")
    wanted = length / area
    cells = _buyers(p, table, wanted)
    chances = p[cells]
    low, high = _bracket(np.sort(chances), table, wanted)
    low, high = low * (1.0 - _WIDER), high * (1.0 + _WIDER)
    more = table.wanted(low / chances) if low > 0.0 else np.full(chances.shape, table.effort[-1])
    less = table.wanted(high / chances)
    gap = float((more - less).sum())
    mix = min(1.0, (wanted - float(less.sum())) / gap) if gap > 0.0 else 0.0
    density = less + mix * (more - less)
    out = np.zeros(p.shape)
    out[cells] = density * area
    return Allocation(out.reshape(np.shape(share)), high / area, float(np.dot(chances, table.pod_at(density))))


def _buyers(p: Floats, table: LawTable, wanted: float) -> Numbers:
    """Cells that may get effort: those that still buy at a price below the one that a sample of the cells tells."""
    every = max(1, p.size // _SAMPLE)
    some = p[::every][p[::every] > 0.0]
    price = _bracket(np.sort(some), table, wanted / every)[0] if some.size else 0.0
    cells = np.flatnonzero(p * table.slope[0] > price * (1.0 - _LOWER))
    return cells if _demand(np.sort(p[cells]), table, price * (1.0 - _LOWER)) > wanted else np.flatnonzero(p)


def _demand(rising: Floats, table: LawTable, price: float) -> float:
    """What all cells together demand at a price: how many still pay for each piece of the table."""
    paying = table.slope > 0.0
    buyers = rising.size - np.searchsorted(rising, price / table.slope[paying], side="right")
    return float((buyers * np.diff(table.effort)[paying[:-1]]).sum())


def _bracket(rising: Floats, table: LawTable, wanted: float) -> tuple[float, float]:
    """Two prices next to each other: at the lower one more is demanded, at the higher one not."""
    low, high = 0.0, float(table.slope[0]) * float(rising[-1]) * 1.01
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        if _demand(rising, table, middle) > wanted:
            low = middle
        else:
            high = middle
    return low, high


def _paying(gain: Floats, rate: Floats, effort: float) -> tuple[Numbers, float]:
    """Cells that get effort, and the logarithm of the price.

    A sample of the cells tells about where the price lies. All cells that gain more than a little less are taken. Where
    they would take all the effort at that lower price, the price is not lower, and no other cell matters.
    """
    every = max(1, gain.size // _SAMPLE)
    some = np.flatnonzero(gain[::every]) * every
    low = float(np.log(gain.max()))
    if some.size:
        y, per = np.log(gain[some]), _each(1.0 / rate, some)
        low = min(low, _newton(some, y, per, effort / every)[1])
    margin = _MARGIN
    while True:
        low -= margin
        cells = np.flatnonzero(gain > np.exp(low))
        y, per = np.log(gain[cells]), _each(1.0 / rate, cells)
        if float(((y - low) * per).sum()) >= effort:
            return _newton(cells, y, per, effort)
        margin *= 2.0


def _each(values: Floats, cells: Numbers) -> Floats:
    return np.full(cells.shape, values[0]) if values.size == 1 else values[cells]


def _newton(cells: Numbers, y: Floats, per: Floats, effort: float) -> tuple[Numbers, float]:
    """Newton's rule on the dual from all cells given: the price rises until no cell lies below it."""
    while True:
        price = (float((y * per).sum()) - effort) / float(per.sum())
        keep = y > price
        if keep.all() or not keep.any():  # none: no effort, and all are level
            return cells, price
        cells, y, per = cells[keep], y[keep], per[keep]
