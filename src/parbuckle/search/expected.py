"""What a pattern promises: its map of coverage with all its errors, averaged over the sweep width, and its chance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from parbuckle.quantity.frozen import Floats, Frozen, Numbers
from parbuckle.search.coverage import chance_over_widths, sub_places
from parbuckle.search.curves import Curve
from parbuckle.search.legs import Pattern
from parbuckle.search.practice import TrackError
from parbuckle.search.track_error import Tracks, adds_up, leg_errors, shifts, swum_tracks

_THREE = ((-1.7320508075688772, 1.0 / 6.0), (0.0, 2.0 / 3.0), (1.7320508075688772, 1.0 / 6.0))
"""Three places of a normal error and their weights (Gauss-Hermite)."""

_SWIMS = 96
_POOL = 997  # drawn swims that the places share
_QUICK = 6
_FINE = 3
_BLOCK = 30_000  # places times swims worked on at once


@dataclass(frozen=True)
class Ground(Frozen):
    """Cells in which it may lie and which can be searched.

    Parameters
    ----------
    east, north : Floats
        Middles, m, shape (n,).
    share : Floats
        Chance that it lies in each, shape (n,).
    cell : float
        Side of a cell, m.
    """

    east: Floats
    north: Floats
    share: Floats
    cell: float


def width_nodes(widths: Floats, nodes: int) -> Floats:
    """Stand in for many draws of the sweep width by a few: means of equal parts of the sorted draws.

    Parameters
    ----------
    widths : Floats
        Draws, m, shape (n,).
    nodes : int
        How many.

    Returns
    -------
    Floats
        Shape (at most nodes,); their mean is the mean of the draws when the parts are equal.

    Examples
    --------
    >>> width_nodes(np.array([1.0, 2.0, 3.0, 4.0]), 2).tolist()
    [1.5, 3.5]
    """
    ordered = np.sort(widths)
    if ordered[0] == ordered[-1]:
        return ordered[:1].copy()
    return np.array([part.mean() for part in np.array_split(ordered, min(nodes, ordered.size))])


def expected_coverage(
    pattern: Pattern, curves: Sequence[Curve], error: TrackError, ground: Ground, swims: int = _SWIMS
) -> Floats:
    """Give the chance that an object in each cell is found, errors and sweep width averaged.

    Legs on a line err apart from each other: exact product of blurred curves. By compass the errors add up and hang
    together: mean over drawn swims. The placement shifts the whole pattern.

    Parameters
    ----------
    pattern : Pattern
        What is swum.
    curves : sequence of Curve
        Laws of one pass, one for each equally likely sweep width.
    error : TrackError
        How far the track errs.
    ground : Ground
        Cells.
    swims : int
        Drawn swims by compass.

    Returns
    -------
    Floats
        Shape (n,).

    Examples
    --------
    >>> from parbuckle.search.patterns.rounds import circles
    >>> ground = Ground(np.array([0.5]), np.array([0.5]), np.array([1.0]), 1.0)
    >>> rings = circles((0.0, 0.0), 2.0, 1)
    >>> round(float(expected_coverage(rings, [Curve("definite range", 2.0)], TrackError(), ground)[0]), 6)
    1.0
    """
    if adds_up(error):
        return _over_swims(pattern, curves, error, ground, swims)
    errors = leg_errors(pattern, error)
    still = error.placement <= 0.0
    if still:
        east, north = sub_places(ground.east, ground.north, ground.cell, _FINE)
        weights: Floats = np.full(_FINE * _FINE, 1.0 / (_FINE * _FINE))
    else:
        moves = [(error.placement * a, error.placement * b, u * v) for a, u in _THREE for b, v in _THREE]
        over, up, weights = (np.array(each) for each in zip(*moves, strict=True))
        east, north = ground.east - over[:, None], ground.north - up[:, None]
    seen: Floats = weights @ chance_over_widths(pattern.lanes, east, north, curves, errors)
    return seen


def _over_swims(pattern: Pattern, curves: Sequence[Curve], error: TrackError, ground: Ground, swims: int) -> Floats:
    tracks = swum_tracks(pattern, error, swims)
    over, up = shifts(error.placement, swims)
    total = np.zeros(ground.east.shape)
    step = max(1, _BLOCK // ground.east.size)
    for width, curve in enumerate(curves):
        mine = np.arange(width, swims, len(curves))
        for begin in range(0, mine.size, step):
            rows = mine[begin : begin + step]
            seen = _swum_chance(tracks, rows, over, up, curve, ground)
            total += seen.sum(axis=0)
    return total / swims


def _swum_chance(tracks: Tracks, rows: Numbers, over: Floats, up: Floats, curve: Curve, ground: Ground) -> Floats:
    """Chance to see in each cell on each of some swims, shape (swims, cells); one place of each cell is looked at."""
    jitter = ((np.outer(rows + 1, (0.7548776662466927, 0.5698402909980532)) % 1.0) - 0.5) * ground.cell
    missed = np.ones((rows.size, ground.east.size))
    for k, strip in enumerate(tracks.strips):
        s, c = np.sin(tracks.heading[rows, k]), np.cos(tracks.heading[rows, k])
        x0 = tracks.east[rows, k] + over[rows] - jitter[:, 0]
        y0 = tracks.north[rows, k] + up[rows] - jitter[:, 1]
        half = 0.5 * tracks.length[rows, k]
        off = np.outer(c, ground.east) - np.outer(s, ground.north) - (x0 * c - y0 * s)[:, None]
        run = np.outer(s, ground.east) + np.outer(c, ground.north) - (x0 * s + y0 * c + half)[:, None]
        beside = np.abs(run, out=run) <= half[:, None]
        missed *= curve.miss(off, 0.0, strip, beside)
    return 1.0 - missed


def expected_chance(
    pattern: Pattern, curves: Sequence[Curve], error: TrackError, east: Floats, north: Floats, swims: int = _QUICK
) -> float:
    """Give the chance that a pattern finds it, from equally likely places that are already shaken by the placement.

    Parameters
    ----------
    pattern : Pattern
        What is swum.
    curves : sequence of Curve
        Laws of one pass, one for each equally likely sweep width.
    error : TrackError
        How far the track errs.
    east, north : Floats
        Places, m, shape (k,).
    swims : int
        Drawn swims by compass that each place is looked at from.

    Returns
    -------
    float
        Share of the places that are found.

    Examples
    --------
    >>> from parbuckle.search.patterns.rounds import circles
    >>> here = np.array([0.5])
    >>> expected_chance(circles((0.0, 0.0), 2.0, 1), [Curve("definite range", 2.0)], TrackError(), here, here)
    1.0
    """
    if not adds_up(error):
        errors = leg_errors(pattern, error)
        return float(chance_over_widths(pattern.lanes, east, north, curves, errors).mean())
    tracks = Swims(pattern, error, min(_POOL, 2 * east.size - 1))
    total = 0.0
    for k in range(swims):
        rows = np.arange(east.size) * swims + k
        total += 1.0 - float(tracks.missed(east, north, curves[k % len(curves)], rows).mean())
    return total / swims


class Swims:
    """Drawn swims by compass, each place looked at from one of them.

    Parameters
    ----------
    pattern : Pattern
        What is swum.
    error : TrackError
        How far the track errs.
    pool : int
        How many swims are drawn.
    """

    def __init__(self, pattern: Pattern, error: TrackError, pool: int) -> None:
        tracks = swum_tracks(pattern, error, pool)
        s, c, half = np.sin(tracks.heading), np.cos(tracks.heading), 0.5 * tracks.length
        side, ahead = (tracks.east * c - tracks.north * s, tracks.east * s + tracks.north * c + half)
        self._lines = np.ascontiguousarray(np.stack([s, c, side, ahead, half]).transpose(0, 2, 1))
        self._strips = np.array(tracks.strips)[:, None]
        self._pool = pool

    def missed(self, east: Floats, north: Floats, curve: Curve, rows: Numbers) -> Floats:
        """Give the chance to miss at each place.

        Parameters
        ----------
        east, north : Floats
            Places, m, shape (k,).
        curve : Curve
            Law of one pass.
        rows : Numbers
            From which swim each place is looked at, shape (k,); counted round and round.

        Returns
        -------
        Floats
            Shape (k,).
        """
        out = np.empty(east.shape)
        step = max(1, _BLOCK // self._strips.size)
        for begin in range(0, east.size, step):
            part = slice(begin, begin + step)
            s, c, side, ahead, half = self._lines[:, :, rows[part] % self._pool]
            x, y = east[part], north[part]
            beside = np.abs(x * s + y * c - ahead) <= half
            out[part] = curve.miss(x * c - y * s - side, 0.0, self._strips, beside).prod(axis=0)
        return out
