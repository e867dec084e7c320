"""Fits circles on a line to a map: centre, spacing and number of rings for the time there is."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np

from parbuckle.quantity.frozen import Floats
from parbuckle.search.fit_problem import Fit
from parbuckle.search.fit_score import HALVINGS, Fitted, climb
from parbuckle.search.legs import FULL, Pattern, Place
from parbuckle.search.patterns.rounds import arcs, circles

_SPACINGS = np.geomspace(0.4, 3.2, 14)
_LATTICE = 9
_BINS = 160
_ROUNDS = 3
_BEARINGS = 6
_ANGLES = np.radians([40.0, 70.0, 110.0, 160.0])
_STANDS = 9


def rings_for(spacing: float, fit: Fit) -> tuple[int, float]:
    """Give how many rings the time allows, and the share of the last one.

    Parameters
    ----------
    spacing : float
        Spacing of the rings, m.
    fit : Fit
        Time, speed, and the cost of a turn.

    Returns
    -------
    tuple of int and float
        Rings, 0 when there is not time for any; share of the last, more than 0 and at most 1.
    """
    turn = fit.practice.turn * fit.speed * fit.practice.speed
    left, rings = fit.run, 0
    while (rings + 0.5) * spacing <= fit.practice.limit:
        extra = spacing * (1.0 if rings else 0.5) / fit.practice.ways + (turn if rings else 0.0)
        ring = FULL * (rings + 0.5) * spacing
        if left <= extra:
            break
        if left < extra + ring:
            return rings + 1, (left - extra) / ring
        left -= extra + ring
        rings += 1
    return rings, 1.0


def fit_circles(fit: Fit, walk: bool = True) -> Fitted | None:
    """Find the circles that promise most.

    All centres on a lattice are tried with all spacings by their chance at each radius; then all is refined.

    Parameters
    ----------
    fit : Fit
        What they are fitted to.
    walk : bool
        Whether the best of the lattice is refined.

    Returns
    -------
    Fitted or None
        None when there is no time for one ring.
    """
    options = [(s, *rings_for(float(s), fit)) for s in _SPACINGS * fit.curve.sweep_width]
    options = [option for option in options if option[1]]
    if not options:
        return None
    reach = 1.3 * max(float(np.ptp(fit.east)), float(np.ptp(fit.north)), fit.curve.sweep_width)
    radius: Floats = (np.arange(_BINS, dtype=np.float64) + 0.5) * (reach / _BINS)
    seen = np.stack([_chance_at(radius, s, n, last, fit) for s, n, last in options])
    lattice = np.arange(_LATTICE, dtype=np.float64) / (_LATTICE - 1)
    ends = [np.quantile(each, (0.02, 0.98)).tolist() for each in (fit.east, fit.north)]
    xs, ys = (low + (high - low) * lattice for low, high in ends)
    step = max(float(np.ptp(xs)), float(np.ptp(ys)), 1.0) / (_LATTICE - 1)
    centre, option = (0.0, 0.0), 0
    for _ in range(_ROUNDS):
        grid = [(float(x), float(y)) for x in xs for y in ys]
        chance = _counts(grid, radius, fit) @ seen.T
        row, option = divmod(int(np.argmax(chance)), len(options))
        centre, step = grid[row], 0.4 * step
        xs, ys = (centre[0] + step * np.arange(-2, 3), centre[1] + step * np.arange(-2, 3))

    def build(v: Sequence[float]) -> Pattern | None:
        x, y, begins, spacing = v
        if not spacing > 0.0:
            return None
        n, last = rings_for(spacing, fit)
        return circles((x, y), spacing, n, last, begins) if n else None

    s = float(options[option][0])
    starts = [(*centre, k * FULL / _BEARINGS, s) for k in range(_BEARINGS)]
    steps = (step, step, FULL / _BEARINGS, 0.06 * s)
    return climb(build, starts if walk else starts[:1], steps, fit, HALVINGS if walk else 0)


def _chance_at(radius: Floats, spacing: float, rings: int, last: float, fit: Fit) -> Floats:
    """Chance to see at each radius; the last ring counts for the share of it that is swum."""
    ring: Floats = (np.arange(rings, dtype=np.float64)[:, None] + 0.5) * spacing
    beside = np.where(np.arange(rings) == rings - 1, last, 1.0)[:, None]
    error = fit.practice.error
    missed = fit.curve.miss(radius - ring, np.hypot(error.across, error.share * ring), spacing, beside)
    seen: Floats = 1.0 - missed.prod(axis=0)
    return seen


def _counts(centres: list[Place], radius: Floats, fit: Fit) -> Floats:
    """How many places lie at each radius from each centre, each at its weight, shape (centres, bins)."""
    x, y = (np.array([c[k] for c in centres])[:, None] for k in (0, 1))
    away = np.hypot(fit.east - x, fit.north - y)
    index = np.minimum((away * (0.5 / radius[0])).astype(np.int64), radius.size - 1)
    index += np.arange(len(centres))[:, None] * radius.size
    weight = None if fit.weight is None else np.broadcast_to(fit.weight, index.shape).ravel()
    return np.bincount(index.ravel(), weight, len(centres) * radius.size).reshape(len(centres), -1).astype(np.float64)


def fit_arcs(fit: Fit, shore: tuple[Place, ...]) -> Fitted | None:
    """Find the arcs from the shore that promise most.

    Parameters
    ----------
    fit : Fit
        What they are fitted to.
    shore : tuple of Place
        Where a tender may stand: corners of a line, or one place.

    Returns
    -------
    Fitted or None
        None when there is no time for one arc, or nothing lies within the line.
    """
    middle = (float(np.median(fit.east)), float(np.median(fit.north)))
    tried: list[tuple[float, ...]] = []
    for stand in _stands(shore):
        away = math.dist(stand, middle)
        bearing = math.atan2(middle[0] - stand[0], middle[1] - stand[1])
        for turns in _ANGLES:
            for spacing in (0.8 * fit.curve.sweep_width, 1.3 * fit.curve.sweep_width):
                for nearest in (0.5 * spacing, 0.4 * away, 0.7 * away):
                    numbers = (*stand, bearing - 0.5 * turns, nearest, spacing, float(turns))
                    tried.append(numbers)
    w = fit.curve.sweep_width
    return climb(lambda v: _arcs_for(v, fit), tried, (0.0, 0.0, 0.2, 2.0 * w, 0.15 * w, 0.25), fit)


def _stands(shore: tuple[Place, ...]) -> list[Place]:
    if not shore[1:]:
        return list(shore)
    run = np.concatenate([[0.0], np.cumsum([math.dist(a, b) for a, b in itertools.pairwise(shore)])])
    at = np.linspace(0.0, run[-1], _STANDS)
    x, y = (np.interp(at, run, [p[k] for p in shore]) for k in (0, 1))
    return list(zip(x.tolist(), y.tolist(), strict=True))


def _arcs_for(numbers: Sequence[float], fit: Fit) -> Pattern | None:
    """Arcs from the nearest outward, as many as the time and the line allow."""
    x, y, begins, nearest, spacing, turns = numbers
    if not (nearest > 0.0 and spacing > 0.0 and 0.0 < turns <= FULL):
        return None
    pace = fit.practice.turn * fit.speed * fit.practice.speed
    left, count = fit.run, 0
    while nearest + count * spacing <= fit.practice.limit:
        left -= turns * (nearest + count * spacing) + ((spacing / fit.practice.ways + pace) if count else 0.0)
        if left < 0.0:
            break
        count += 1
    return arcs((x, y), nearest, spacing, count, begins, turns) if count else None


def middle_of(pattern: Pattern) -> Place:
    """Give the middle of a pattern: its only mark, or the mean of its corners.

    Parameters
    ----------
    pattern : Pattern
        What is swum.

    Returns
    -------
    Place
        Metres east and north of the datum.

    Examples
    --------
    >>> middle_of(circles((1.0, 2.0), 1.0, 1))
    (1.0, 2.0)
    """
    n = len(pattern.marks)
    return sum(p[0] for p in pattern.marks) / n, sum(p[1] for p in pattern.marks) / n
