"""The quick score of one pattern at many places: its shape is worked out once, the places are turned into its frame."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import numpy as np

from parbuckle.quantity.frozen import Floats
from parbuckle.search.coverage import LegError, chance_to_see
from parbuckle.search.even_table import EvenTable
from parbuckle.search.expected import Swims
from parbuckle.search.fit_problem import Fit
from parbuckle.search.legs import FULL, Leg, Pattern
from parbuckle.search.track_error import adds_up, leg_errors

Build = Callable[[Sequence[float]], Pattern | None]
"""Makes a pattern from numbers; None where it cannot be swum."""

_Missed = Callable[[Floats, Floats], Floats]
"""Chance to miss at places in the frame of the pattern."""

_STEPS = 20.0  # steps of a table to one sweep width
_BEYOND = 1.3  # how far the tables reach, of the width of the places
_MOST = 4000  # rows of one table
_SAME = 1e-6  # m: nearer than this it is the same
_POOL = 127  # drawn swims that the places share
_PLACED = 3  # numbers that place a pattern: east, north, turned by


class Quick:
    """Scores one family of patterns on one set of places.

    The first three numbers place the pattern: east, north, and by how much it is turned; the others shape it. One sweep
    width. On a line legs err apart from each other and their ends are sharp; by compass each place has its own drawn
    swim.

    Parameters
    ----------
    build : callable
        Makes a pattern from numbers.
    fit : Fit
        Places, law, time.
    framed : bool
        False when the numbers do not begin with place and turn: each pattern is then built anew.
    """

    def __init__(self, build: Build, fit: Fit, framed: bool = True) -> None:
        self.build, self.fit, self.framed = build, fit, framed
        self._shapes: dict[tuple[float, ...], _Missed | None] = {}
        wide = math.hypot(float(np.ptp(fit.east)), float(np.ptp(fit.north)))
        self._reach = _BEYOND * wide + _PLACED * fit.curve.sweep_width

    def on(self, fit: Fit) -> Quick:
        """Give the same for other places, with the shapes that are already known.

        Parameters
        ----------
        fit : Fit
            Same pattern, law and time; other places.

        Returns
        -------
        Quick
            The score on those places.
        """
        other = Quick(self.build, fit, self.framed)
        other._reach, other._shapes = self._reach, self._shapes
        return other

    def score(self, numbers: Sequence[float]) -> float:
        """Give the chance that a pattern finds it, quickly.

        Parameters
        ----------
        numbers : sequence of float
            What makes the pattern.

        Returns
        -------
        float
            Chance; below 0 where it cannot be swum.
        """
        missed = self.missed(numbers, self.fit.east, self.fit.north)
        if missed is None:
            return -1.0
        weight = self.fit.weight
        found = 1.0 - float(missed.mean()) if weight is None else float(weight @ (1.0 - missed)) / weight.size
        return self.fit.share * found

    def missed(self, numbers: Sequence[float], east: Floats, north: Floats) -> Floats | None:
        """Give the chance to miss at each place.

        Parameters
        ----------
        numbers : sequence of float
            What makes the pattern.
        east, north : Floats
            Places, m, shape (k,).

        Returns
        -------
        Floats or None
            Shape (k,); None where it cannot be swum.
        """
        if not self.framed:
            pattern = self.build(numbers)
            return None if pattern is None else _any_shape(pattern, self.fit)(east, north)
        shape = tuple(numbers[_PLACED:])
        if shape not in self._shapes:
            pattern = self.build((0.0, 0.0, 0.0, *shape))
            self._shapes[shape] = None if pattern is None else _shaped(pattern, self.fit, self._reach)
        there = self._shapes[shape]
        if there is None:
            return None
        x, y, turned = numbers[0], numbers[1], numbers[2]
        s, c = math.sin(turned), math.cos(turned)
        return there(c * east - s * north - (x * c - y * s), s * east + c * north - (x * s + y * c))


def _shaped(pattern: Pattern, fit: Fit, reach: float) -> _Missed:
    legs = pattern.lanes
    if adds_up(fit.practice.error):
        swims = Swims(pattern, fit.practice.error, _POOL)
        return lambda east, north: swims.missed(east, north, fit.curve, np.arange(east.size))
    errors = [each.across for each in leg_errors(pattern, fit.practice.error)]
    if all(leg.centre == (0.0, 0.0) for leg in legs):
        return _round_shape(legs, errors, fit, reach)
    if all(leg.centre is None for leg in legs):
        same = max(abs(abs(leg.start[1]) - abs(legs[0].start[1])) + abs(leg.start[0] - leg.end[0]) for leg in legs)
        if same < _SAME:
            return _lane_shape(legs, errors, fit, reach)
    return _any_shape(pattern, fit)


def _any_shape(pattern: Pattern, fit: Fit) -> _Missed:
    errors = [LegError(each.across, 0.0) for each in leg_errors(pattern, fit.practice.error)]
    return lambda east, north: 1.0 - chance_to_see(pattern.lanes, east, north, fit.curve, errors)


def _round_shape(legs: Sequence[Leg], errors: Sequence[float], fit: Fit, reach: float) -> _Missed:
    """Rings and arcs by their radius; arcs that are not whole all lie between the same two bearings."""
    whole = [k for k, leg in enumerate(legs) if abs(leg.turns) >= FULL - _SAME]
    parts = [k for k, leg in enumerate(legs) if abs(leg.turns) < FULL - _SAME]
    n = min(_MOST, math.ceil(_STEPS * reach / fit.curve.sweep_width) + 2)
    radius: Floats = np.linspace(0.0, reach, n)
    full = _table(radius, [legs[k].radius for k in whole], [legs[k] for k in whole], [errors[k] for k in whole], fit)
    if not parts:
        rings = EvenTable(0.0, reach, full)
        return lambda east, north: rings.at(np.hypot(east, north))
    part = full * _table(
        radius, [legs[k].radius for k in parts], [legs[k] for k in parts], [errors[k] for k in parts], fit
    )
    both = EvenTable(0.0, reach, full, part)
    first = legs[parts[0]]
    low, span = first.begins + min(first.turns, 0.0), abs(first.turns)

    def missed(east: Floats, north: Floats) -> Floats:
        return both.at(np.hypot(east, north), (np.arctan2(east, north) - low) % FULL <= span)

    return missed


def _lane_shape(legs: Sequence[Leg], errors: Sequence[float], fit: Fit, reach: float) -> _Missed:
    half = abs(legs[0].start[1])
    lines = [leg.start[0] for leg in legs]
    wide = max(map(abs, lines)) + reach
    n = min(_MOST, math.ceil(_STEPS * 2.0 * wide / fit.curve.sweep_width) + 2)
    across: Floats = np.linspace(-wide, wide, n)
    table = EvenTable(-wide, wide, _table(across, lines, legs, errors, fit))
    return lambda east, north: np.where(np.abs(north) <= half, table.at(east), 1.0)


def _table(at: Floats, lines: Sequence[float], legs: Sequence[Leg], errors: Sequence[float], fit: Fit) -> Floats:
    if not legs:
        return np.ones_like(at)
    line, error = np.array(lines)[:, None], np.array(errors)[:, None]
    strip = np.array([leg.strip for leg in legs])[:, None]
    missed: Floats = fit.curve.miss(at - line, error, strip).prod(axis=0)
    return missed
