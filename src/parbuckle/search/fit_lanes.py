"""Fits lanes, squares, sectors and lanes along a wall to a map, for the time there is."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from parbuckle.quantity.frozen import Floats
from parbuckle.search.curves import Curve
from parbuckle.search.fit_problem import Fit
from parbuckle.search.fit_score import HALVINGS, Fitted, climb
from parbuckle.search.legs import Pattern, Place
from parbuckle.search.patterns.lanes import along_wall, lanes
from parbuckle.search.patterns.squares import expanding_square, sector
from parbuckle.search.practice import TrackError

_HEADINGS = np.radians(np.arange(0.0, 180.0, 30.0))
_SPACINGS = (0.6, 0.85, 1.15, 1.6, 2.3)
_COUNTS = (1, 2, 3, 4, 5, 6, 8, 10, 13, 17, 22, 28)
_BINS = 36
_INSIDE = 0.98  # share of the places that the bins hold
_SMALL = 1e-9
_PARTS = 4.0  # of a bin, over which the chance across is summed
_PAIR = 2
_EVERY = 2  # bins from one place that is tried to the next
_STARTS, _STARTS_BY_COMPASS = 5, 2


def lane_length(count: float, spacing: float, fit: Fit) -> float:
    """Give the length of each lane that the time allows, at most the longest line; not above 0 when there is no time.

    Parameters
    ----------
    count : float
        Number of passes.
    spacing : float
        Way from pass to pass, m.
    fit : Fit
        Time, speed, and the cost of turns and shifts.

    Returns
    -------
    float
        m.
    """
    lost = (fit.practice.turn + (fit.practice.shift if fit.practice.name == "jackstay" else 0.0)) * fit.speed
    return min(
        fit.practice.limit,
        (fit.run - (count - 1.0) * (spacing / fit.practice.ways + lost * fit.practice.speed)) / count,
    )


def fit_lanes(fit: Fit, swimmers: int = 1, apart: float = math.inf, walk: bool = True) -> Fitted | None:
    """Find the parallel lanes that promise most.

    The map is turned to each of six headings and laid on bins; all places, lengths and numbers of lanes are tried on
    sums over those bins; then all is refined.

    Parameters
    ----------
    fit : Fit
        What they are fitted to.
    swimmers : int
        Swimmers side by side.
    apart : float
        Farthest that two of them may be apart, m.
    walk : bool
        Whether the best on the bins is refined.

    Returns
    -------
    Fitted or None
        None when there is no time for one lane.
    """
    name = fit.practice.name
    middle = (float(np.median(fit.east)), float(np.median(fit.north)))
    away = np.hypot(fit.east - middle[0], fit.north - middle[1])
    half = float(np.quantile(away, _INSIDE)) + 0.5
    tried = _on_bins(middle, half, _options(half, fit, swimmers, apart), fit)
    if not tried:
        return None

    def build(v: Sequence[float]) -> Pattern | None:
        x, y, heading, spacing, count = v
        n = round(count)
        if n < 1 or not 0.0 < spacing <= apart:
            return None
        length = lane_length(n, spacing * swimmers, fit)
        return lanes((x, y), heading, length, spacing, n, name, swimmers) if length > 0.0 else None

    tried.sort(reverse=True)
    w = fit.curve.sweep_width
    few = _STARTS_BY_COMPASS if fit.practice.error.heading else _STARTS
    starts = [start for _, start in tried[: few if walk else 1]]
    return climb(build, starts, (w, w, math.radians(10.0), 0.12 * w, 1.0), fit, HALVINGS if walk else 0)


_Option = tuple[float, int, int, Floats]
"""Spacing, passes, bins to the length of a lane, and the chance across at each shift, shape (bins, shifts)."""


def _options(half: float, fit: Fit, swimmers: int, apart: float) -> list[_Option]:
    width = 2.0 * half / _BINS
    found = []
    for spacing in (w * fit.curve.sweep_width for w in _SPACINGS if w * fit.curve.sweep_width <= apart):
        across = _chance_across(half, spacing, swimmers, fit.curve, fit.practice.error)
        for n, shifted in zip(_COUNTS, across, strict=True):
            length = lane_length(n, spacing * swimmers, fit)
            if spacing < length:
                found.append((spacing, n, min(_BINS, max(1, round(length / width))), shifted))
    return found


def _on_bins(middle: Place, half: float, options: list[_Option], fit: Fit) -> list[tuple[float, tuple[float, ...]]]:
    """The best place of each option on each heading, with its chance."""
    s, c = np.sin(_HEADINGS)[:, None], np.cos(_HEADINGS)[:, None]
    x, y = fit.east - middle[0], fit.north - middle[1]
    width = 2.0 * half / _BINS
    u, v = (
        (np.clip(w + half, 0.0, 2.0 * half - _SMALL) / width).astype(np.int64) for w in (x * s + y * c, x * c - y * s)
    )
    index = (np.arange(_HEADINGS.size)[:, None] * _BINS + u) * _BINS + v
    weight = None if fit.weight is None else np.broadcast_to(fit.weight, index.shape).ravel()
    counts = np.bincount(index.ravel(), weight, _HEADINGS.size * _BINS * _BINS) / x.size
    heap = np.zeros((_HEADINGS.size, _BINS + 1, _BINS))
    np.cumsum(counts.reshape(-1, _BINS, _BINS), axis=1, out=heap[:, 1:])
    found: list[tuple[float, tuple[float, ...]]] = []
    for spacing, n, window, shifted in options:
        chance = ((heap[:, window::_EVERY] - heap[:, :-window:_EVERY]).reshape(-1, _BINS) @ shifted).reshape(
            _HEADINGS.size, -1
        )
        for k, best in enumerate(chance.argmax(axis=1).tolist()):
            i, j = divmod(best, shifted.shape[1])
            at_u = (_EVERY * i + 0.5 * window) * width - half
            at_v = (_BINS - 0.5 - _EVERY * j) * width - half
            sine, cosine = float(s[k, 0]), float(c[k, 0])
            centre = (middle[0] + at_u * sine + at_v * cosine, middle[1] + at_u * cosine - at_v * sine)
            found.append((float(chance[k, best]), (*centre, float(_HEADINGS[k]), spacing, float(n))))
    return found


@lru_cache(maxsize=32)
def _chance_across(half: float, spacing: float, swimmers: int, curve: Curve, error: TrackError) -> tuple[Floats, ...]:
    """Chance to see in bins across, for each count of lanes and at each shift: shape (bins, shifts)."""
    width = 2.0 * half / _BINS
    offsets: Floats = np.arange(-_BINS + 1, _BINS, dtype=np.float64) * width
    off = max(error.across, 0.02 * spacing) + (0.5 * spacing if error.heading else 0.0)
    beside = np.arange(_COUNTS[-1] * swimmers, dtype=np.float64)[:, None] * spacing
    far, step = float(beside[-1, 0]), width / _PARTS
    at: Floats = np.arange(-2.0 * half - width, 2.0 * half + width + far, step)
    missed = np.cumprod(curve.miss(at - beside, off, spacing), axis=0)
    edges = at[0] + step * (np.arange(at.size + 1) - 0.5)
    found = []
    for n in (swimmers * count for count in _COUNTS):
        whole = np.concatenate([[0.0], np.cumsum(missed[n - 1]) * step])
        middle = 0.5 * (n - 1) * spacing
        low, high = (np.interp(offsets + middle + d, edges, whole) for d in (-0.5 * width, 0.5 * width))
        seen = 1.0 - (high - low) / width
        found.append(np.ascontiguousarray(np.lib.stride_tricks.sliding_window_view(seen, _BINS)[::_EVERY].T))
    return tuple(found)


def fit_square(fit: Fit, start: Place) -> Fitted | None:
    """Find the expanding square that promises most.

    Parameters
    ----------
    fit : Fit
        What it is fitted to.
    start : Place
        Where the walk to a better place begins.

    Returns
    -------
    Fitted or None
        None when there is no time for one leg.
    """

    def build(v: Sequence[float]) -> Pattern | None:
        x, y, heading, spacing = v
        if not spacing > 0.0:
            return None
        n, last = legs_for(spacing, fit)
        return expanding_square((x, y), spacing, n, heading, 1.0, last) if n else None

    w = fit.curve.sweep_width
    return climb(build, [(*start, 0.0, k * w) for k in (0.8, 1.2, 1.7)], (w, w, math.radians(30.0), 0.12 * w), fit)


def legs_for(spacing: float, fit: Fit) -> tuple[int, float]:
    """Give how many legs of an expanding square the time allows, and the share of the last one.

    Parameters
    ----------
    spacing : float
        Distance between legs, m.
    fit : Fit
        Time, speed, and the cost of a turn.

    Returns
    -------
    tuple of int and float
        Legs, 0 when there is not time for any; share of the last, more than 0 and at most 1.
    """
    turn = fit.practice.turn * fit.speed * fit.practice.speed
    left, n = fit.run, 0
    while (n // _PAIR + 1) * spacing <= fit.practice.limit:
        leg = (n // _PAIR + 1) * spacing
        left -= turn if n else 0.0
        if left <= 0.0:
            break
        if left < leg:
            return n + 1, left / leg
        left -= leg
        n += 1
    return n, 1.0


def fit_sector(fit: Fit, start: Place) -> Fitted | None:
    """Find the three-sector search, of one or more sets, that promises most.

    Parameters
    ----------
    fit : Fit
        What it is fitted to.
    start : Place
        Where the walk to a better place begins.

    Returns
    -------
    Fitted or None
        None when there is no time for one set.
    """

    def build(v: Sequence[float]) -> Pattern | None:
        x, y, heading, sets = v
        n = round(sets)
        if n < 1:
            return None
        probe = sector((x, y), 1.0, heading, n)
        turning = probe.turns * fit.practice.turn * fit.speed * fit.practice.speed
        radius = min((fit.run - turning) / probe.search_length, fit.practice.limit)
        return sector((x, y), radius, heading, n) if radius > 0.0 else None

    w = fit.curve.sweep_width
    return climb(build, [(*start, 0.0, float(n)) for n in (1, 2, 3, 4)], (w, w, math.radians(30.0), 0.0), fit)


def fit_wall(fit: Fit, wall: tuple[Place, ...], side: float) -> Fitted | None:
    """Find the lanes along a wall that promise most.

    Parameters
    ----------
    fit : Fit
        What they are fitted to.
    wall : tuple of Place
        Corners of the wall, at least two.
    side : float
        1 when the water lies on its right hand, -1 on its left.

    Returns
    -------
    Fitted or None
        None when there is no time for one lane.
    """
    run = np.concatenate([[0.0], np.cumsum([math.dist(a, b) for a, b in itertools.pairwise(wall)])])
    whole = float(run[-1])

    def build(v: Sequence[float]) -> Pattern | None:
        start, spacing, count = v
        n = round(count)
        if n < 1 or not spacing > 0.0:
            return None
        length = min(lane_length(n, spacing, fit), whole)
        begin = min(max(start, 0.0), whole - length)
        if length <= 0.0:
            return None
        inner = run[(run > begin) & (run < begin + length)]
        at = np.concatenate([[begin], inner, [begin + length]])
        x, y = (np.interp(at, run, [p[k] for p in wall]) for k in (0, 1))
        return along_wall(tuple(zip(x.tolist(), y.tolist(), strict=True)), 0.5 * spacing, spacing, n, side)

    w = fit.curve.sweep_width
    starts = [(f * whole, k * w, float(n)) for f in (0.0, 0.3, 0.6) for k in (0.8, 1.3) for n in (1, 2, 3, 5, 8)]
    return climb(build, starts, (0.1 * whole, 0.12 * w, 1.0), fit, framed=False)
