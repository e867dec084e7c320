"""The map of coverage: the chance that a pattern finds an object, for each place where it may lie."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from parbuckle.quantity.frozen import Floats
from parbuckle.search.curves import Curve, below
from parbuckle.search.even_table import EvenTable
from parbuckle.search.legs import FULL, Leg

_SHARP = 1e-9
_SAME = 1e-6  # m or rad: nearer than this it is the same
_HALF = 0.5  # chance to be abeam from which the last ring counts in the table
_FEW = 2  # legs for which no table is made
_NEAR = 30_000  # places times legs worked on at once
_MANY = 5000  # places from which the table is close
_CLOSE, _WIDE = 64.0, 20.0  # steps of the table to one sweep width


@dataclass(frozen=True)
class LegError:
    """How far one leg may lie off, standard deviations.

    Parameters
    ----------
    across, along : float
        Across the leg and at its ends, m.
    """

    across: float
    along: float


EXACT = LegError(0.0, 0.0)
"""A leg that lies where it should."""


def chance_to_see(
    legs: Sequence[Leg], east: Floats, north: Floats, curve: Curve, errors: Sequence[LegError] | None = None
) -> Floats:
    """Give the chance that an object at each place is seen on at least one leg.

    1 - product of the chances to miss; legs err apart from each other.

    Parameters
    ----------
    legs : sequence of Leg
        Legs on which the team searches.
    east, north : Floats
        Places, m, one shape.
    curve : Curve
        Law of detection for one pass.
    errors : sequence of LegError or None
        One for each leg; None for legs that lie where they should.

    Returns
    -------
    Floats
        From 0 to 1, shape of ``east``.

    Notes
    -----
    Source: independent looks, 1 - prod(1 - p) (national search manual vol. I, table 8-2).

    Examples
    --------
    >>> leg = Leg((0.0, -5.0), (0.0, 5.0), 1, 2.0)
    >>> chance_to_see([leg], np.array([0.5, 3.0]), np.array([0.0, 0.0]), Curve("definite range", 2.0)).tolist()
    [1.0, 0.0]
    """
    off = list(errors) if errors is not None else [EXACT] * len(legs)
    rest = list(zip(legs, off, strict=True))
    missed = np.ones_like(east)
    if len(rest) > _FEW and all(_is_ring(leg, legs[0]) for leg in legs[:-1]):
        x, y = legs[0].centre or (0.0, 0.0)
        missed = _from_table(np.hypot(east - x, north - y), [leg.radius for leg in legs[:-1]], rest[:-1], curve)
        rest = rest[-1:]
    elif len(rest) > _FEW and _are_beside(legs, off):
        return 1.0 - _parallel(rest, east, north, curve)
    if len(rest) > _FEW and all(leg.centre is None for leg, _ in rest):
        return 1.0 - _straight(rest, east, north, curve)
    for leg, error in rest:
        across, beside = leg_frame(leg, east, north, error.along)
        missed *= curve.miss(across, error.across, leg.strip, beside)
    return 1.0 - missed


def chance_over_widths(
    legs: Sequence[Leg], east: Floats, north: Floats, curves: Sequence[Curve], errors: Sequence[LegError]
) -> Floats:
    """Give the chance to see an object at each place, averaged over equally likely sweep widths.

    Parameters
    ----------
    legs : sequence of Leg
        Legs on which the team searches.
    east, north : Floats
        Places, m, one shape.
    curves : sequence of Curve
        One law at several sweep widths.
    errors : sequence of LegError
        One for each leg.

    Returns
    -------
    Floats
        From 0 to 1, shape of ``east``.

    Notes
    -----
    Rings: two tables over the radius, with and without the last ring, do for all widths; only places near the ends of
    a last ring that is not whole are worked out width by width.

    Examples
    --------
    >>> leg = Leg((0.0, -5.0), (0.0, 5.0), 1, 2.0)
    >>> two = [Curve("definite range", w) for w in (2.0, 8.0)]
    >>> chance_over_widths([leg], np.array([3.0]), np.array([0.0]), two, [EXACT]).tolist()
    [0.5]
    """
    exact = curves[0].law == "definite range" and min(each.across for each in errors) <= _SHARP
    if exact or len(legs) <= _FEW or not all(_is_ring(leg, legs[0]) for leg in legs[:-1]):
        chances = [chance_to_see(legs, east, north, curve, errors) for curve in curves]
        return np.asarray(np.mean(chances, axis=0))
    x, y = legs[0].centre or (0.0, 0.0)
    away = np.hypot(east - x, north - y)
    low, high = float(away.min()), float(away.max())
    step = min(curve.sweep_width for curve in curves) / (_CLOSE if east.size > _MANY else _WIDE)
    at = np.linspace(low, max(high, low + step), max(1, math.ceil((high - low) / step)) + 1)
    radii, error, strip = (np.array(each)[:, None] for each in zip(*_rows_of(legs, errors), strict=True))
    each_leg = [curve.miss(at - radii, error, strip) for curve in curves]
    others = np.mean([miss[:-1].prod(axis=0) for miss in each_leg], axis=0)
    table = EvenTable(low, float(at[-1]), others, np.mean([miss.prod(axis=0) for miss in each_leg], axis=0))
    abeam = np.broadcast_to(leg_frame(legs[-1], east, north, errors[-1].along)[1], away.shape)
    seen = 1.0 - table.at(away, abeam > _HALF)
    soft = (abeam > _SHARP) & (abeam < 1.0 - _SHARP)
    if soft.any():
        near = [chance_to_see(legs, east[soft], north[soft], curve, errors) for curve in curves]
        seen[soft] = np.mean(near, axis=0)
    return seen


def _rows_of(legs: Sequence[Leg], errors: Sequence[LegError]) -> list[tuple[float, float, float]]:
    return [(leg.radius, each.across, leg.strip) for leg, each in zip(legs, errors, strict=True)]


def _straight(legs: list[tuple[Leg, LegError]], east: Floats, north: Floats, curve: Curve) -> Floats:
    """Chance to miss on straight legs, all together, so many places at once that they lie near the processor."""
    ends = np.array([(*leg.start, *leg.end, leg.strip, e.across, e.along) for leg, e in legs])
    x, y, dx, dy = (ends[:, 0], ends[:, 1], ends[:, 2] - ends[:, 0], ends[:, 3] - ends[:, 1])
    length = np.maximum(np.hypot(dx, dy), _SHARP)
    s, c, half = dx / length, dy / length, 0.5 * length
    side, ahead = (x * c - y * s)[:, None], (x * s + y * c + half)[:, None]
    strip, error, along = ends[:, 4][:, None], ends[:, 5][:, None], ends[:, 6][:, None]
    soft = bool(np.max(along) > _SHARP)
    over, up = east.ravel(), north.ravel()
    missed = np.empty(over.shape)
    step = max(1, _NEAR // len(legs))
    for begin in range(0, over.size, step):
        e, n = over[begin : begin + step], up[begin : begin + step]
        beyond = np.abs(np.outer(s, e) + np.outer(c, n) - ahead) - half[:, None]
        beside = below(-beyond / np.maximum(along, _SHARP)) if soft else beyond <= 0.0
        across = np.outer(c, e) - np.outer(s, n) - side
        missed[begin : begin + step] = curve.miss(across, error, strip, beside).prod(axis=0)
    return missed.reshape(east.shape)


def _is_ring(leg: Leg, first: Leg) -> bool:
    return leg.centre is not None and leg.centre == first.centre and abs(leg.turns) >= FULL - _SHARP


def _are_beside(legs: Sequence[Leg], errors: list[LegError]) -> bool:
    """Whether all legs are straight and run beside the first one over the same length."""
    along, heading = errors[0].along, legs[0].heading
    if any(leg.centre is not None for leg in legs) or any(error.along != along for error in errors):
        return False
    ends = np.array([(*leg.start, *leg.end) for leg in legs])
    s, c = math.sin(heading), math.cos(heading)
    begin, finish = ends[:, 0] * s + ends[:, 1] * c, ends[:, 2] * s + ends[:, 3] * c
    low, high = np.minimum(begin, finish), np.maximum(begin, finish)
    across = np.abs((ends[:, 0] - ends[:, 2]) * c - (ends[:, 1] - ends[:, 3]) * s)
    return bool(max(float(across.max()), float(np.ptp(low)), float(np.ptp(high))) < _SAME)


def _from_table(where: Floats, lines: list[float], legs: list[tuple[Leg, LegError]], curve: Curve) -> Floats:
    """Chance to miss on lines that are all crossed by one coordinate, from a table over that coordinate."""
    strip = np.array([leg.strip for leg, _ in legs])[:, None]
    error = np.array([off.across for _, off in legs])[:, None]
    across = np.array(lines)[:, None]
    if curve.law == "definite range" and float(error.min()) <= _SHARP:  # a table would smear its edges
        steps = range(0, where.size, max(1, _NEAR // len(legs)))
        parts = [where.ravel()[k : k + steps.step] - across for k in steps]
        return np.concatenate([curve.miss(part, error, strip).prod(axis=0) for part in parts]).reshape(where.shape)
    step = curve.sweep_width / (_CLOSE if where.size > _MANY else _WIDE)
    low, high = float(where.min()), float(where.max())
    high = max(high, low + step)
    at = np.linspace(low, high, math.ceil((high - low) / step) + 1)
    return EvenTable(low, high, curve.miss(at - across, error, strip).prod(axis=0)).at(where)


def _parallel(legs: list[tuple[Leg, LegError]], east: Floats, north: Floats, curve: Curve) -> Floats:
    """Chance to miss on lanes beside each other: by table abeam of them, leg by leg near their ends."""
    first, error = legs[0]
    s, c = math.sin(first.heading), math.cos(first.heading)
    lines = [0.5 * ((leg.start[0] + leg.end[0]) * c - (leg.start[1] + leg.end[1]) * s) for leg, _ in legs]
    beside = np.broadcast_to(leg_frame(first, east, north, error.along)[1], east.shape)
    missed = np.where(beside >= 1.0 - _SHARP, _from_table(east * c - north * s, lines, legs, curve), 1.0)
    ends = (beside > _SHARP) & (beside < 1.0 - _SHARP)
    if ends.any():
        across, part = east[ends] * c - north[ends] * s, np.ones(int(ends.sum()))
        for line, (leg, off) in zip(lines, legs, strict=True):
            part *= curve.miss(across - line, off.across, leg.strip, beside[ends])
        missed[ends] = part
    return missed


def leg_frame(leg: Leg, east: Floats, north: Floats, along: float) -> tuple[Floats, Floats | float]:
    """Give the distance across one leg, and the chance to be abeam of it.

    Parameters
    ----------
    leg : Leg
        Straight or an arc.
    east, north : Floats
        Places, m, one shape.
    along : float
        Standard deviation of where the leg ends, m.

    Returns
    -------
    tuple of Floats and Floats or float
        Distance across, m; chance to be abeam, from 0 to 1.

    Examples
    --------
    >>> leg = Leg((0.0, -5.0), (0.0, 5.0), 1, 2.0)
    >>> off, beside = leg_frame(leg, np.array([3.0]), np.array([6.0]), 0.0)
    >>> float(off[0]), float(beside[0])
    (3.0, 0.0)
    """
    if leg.centre is not None:
        x, y = east - leg.centre[0], north - leg.centre[1]
        off = np.hypot(x, y) - leg.radius
        if abs(leg.turns) >= FULL - _SHARP:
            return off, 1.0
        angle = (np.arctan2(x, y) - (leg.begins + min(leg.turns, 0.0))) % FULL
        half = 0.5 * abs(leg.turns)
        run = leg.radius * (np.abs(angle - half) - half)
        return off, _ends(np.where(angle > half + math.pi, leg.radius * (FULL - angle), run), along)
    x, y = east - leg.start[0], north - leg.start[1]
    length = leg.length
    if length <= _SHARP:
        return x, 0.0
    dx, dy = (leg.end[0] - leg.start[0]) / length, (leg.end[1] - leg.start[1]) / length
    run = np.abs(x * dx + y * dy - 0.5 * length) - 0.5 * length
    return x * dy - y * dx, _ends(run, along)


def _ends(beyond: Floats, along: float) -> Floats:
    """Chance to be abeam, from how far a place lies beyond the nearer end."""
    return (beyond <= 0.0).astype(np.float64) if along <= _SHARP else below(-beyond / along)


def sub_places(east: Floats, north: Floats, cell: float, fine: int) -> tuple[Floats, Floats]:
    """Give fine x fine places inside each cell, evenly spread, so that a cell has its mean coverage.

    Parameters
    ----------
    east, north : Floats
        Middles of cells, m, shape (n,).
    cell : float
        Side of a cell, m.
    fine : int
        Places along each side.

    Returns
    -------
    tuple of Floats
        Places, m, shape (fine * fine, n).

    Examples
    --------
    >>> sub_places(np.array([0.0]), np.array([0.0]), 2.0, 2)[0][:, 0].tolist()
    [-0.5, 0.5, -0.5, 0.5]
    """
    steps = ((np.arange(fine) + 0.5) / fine - 0.5) * cell
    up, over = (a.ravel()[:, None] for a in np.meshgrid(steps, steps, indexing="ij"))
    return east[None, :] + over, north[None, :] + up
