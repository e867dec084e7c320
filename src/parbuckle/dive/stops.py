"""The way up of divers: straight up where that is allowed, with the stops that are due where it is not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from parbuckle.dive.carried import Change
from parbuckle.dive.ceilings import factor_at, tolerated
from parbuckle.dive.compartments import Compartments
from parbuckle.dive.loading import load
from parbuckle.dive.profile import Leg, Water, leg, travel
from parbuckle.physics.ranges import Range
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Bools, Floats, Frozen

STEP_RANGE = Range("distance between stops", 1.0, 6.0, "m", "3 m is usual")

_MINUTE = 60.0
_LONGEST = 86400.0  # s; a stop that would last longer is refused
_AT_ONCE = 60  # times that are looked at together: minutes, seconds, and finer
_FINE = 1e-4  # s; the last but one width
_ROUNDING = 1e-6  # Pa


@dataclass(frozen=True)
class Stop(Frozen):
    """One stop.

    Parameters
    ----------
    depth : float
        Depth, m.
    time : float
        How long, s.
    """

    depth: float
    time: float


@dataclass(frozen=True)
class WayUp(Frozen):
    """A way up.

    Parameters
    ----------
    stops : tuple of Stop
        Stops that are due, deepest first; none for a straight way up.
    legs : tuple of Leg
        All of it.
    tissues : Floats
        Partial pressures on arrival at the surface, Pa, shape (2, 16, 1).
    """

    stops: tuple[Stop, ...]
    legs: tuple[Leg, ...]
    tissues: Floats

    @property
    def time(self) -> float:
        """Time from leaving the bottom to the surface, s."""
        return float(sum(piece.time[0] for piece in self.legs))


def way_up(
    tissues: Floats,
    depth: float,
    water: Water,
    gas: Gas,
    rate: float,
    factors: tuple[float, float] = (1.0, 1.0),
    step: float = 3.0,
    model: Compartments | None = None,
    changes: Sequence[Change] = (),
    pause: float = 0.0,
) -> WayUp:
    """Give the way up of one diver with the stops that are due.

    None is due while the surface is tolerated with the high factor. Otherwise the first stop is the deepest multiple of
    the step at which the low factor holds the diver, and from there the factor goes evenly to the high one. A stop ends
    as soon as the next one up is tolerated; times are exact and not rounded up to minutes.

    Parameters
    ----------
    tissues : Floats
        Partial pressures on leaving the bottom, Pa, shape (2, 16, 1).
    depth : float
        Depth that is left, m.
    water : Water
        One column.
    gas : Gas
        What is breathed on leaving the bottom.
    rate : float
        Speed upward, m/s.
    factors : tuple of float
        Gradient factors, low and high.
    step : float
        Distance between stops, m; the last one is a step below the surface.
    model : Compartments, optional
        Coefficients; left out: set C.
    changes : sequence of Change
        Changes of gas on the way, deepest first.
    pause : float
        How long each takes, s, on the gas before it.

    Returns
    -------
    WayUp
        Stops, legs and tissues.

    Raises
    ------
    RangeError
        For more than one column, a step outside 1 to 6 m, or a stop that would last more than a day.

    Notes
    -----
    Source: Baker 1998 for the factors.

    Examples
    --------
    >>> from parbuckle.dive.loading import AIR, at_rest
    >>> sea = Water(np.array([101325.0]), np.array([1025.0]))
    >>> at_the_end = load(at_rest(101325.0), [leg(sea, 36.0, 36.0, 1800.0, AIR)])
    >>> [stop.depth for stop in way_up(at_the_end, 36.0, sea, AIR, 0.15, (0.5, 0.8)).stops]
    [12.0, 9.0, 6.0, 3.0]
    """
    if tissues.shape[-1] != 1:
        raise RangeError(f"a way up is made for one diver: given {tissues.shape[-1]} columns, allowed 1")
    low, high = factors
    climb = _Climb(tissues, depth, water, gas, rate, model)
    climb.changes, climb.pause = list(changes), pause
    stops: list[Stop] = []
    if not climb.tolerates(0.0, high):
        for here, above in pairwise(_rungs(depth, float(STEP_RANGE.check(step)))):
            climb.go(here)
            first = stops[0].depth if stops else here
            if not stops and climb.tolerates(above, low):
                continue
            wait = climb.wait(above, float(factor_at(above, first, low, high)))
            if wait > 0.0:
                stops.append(Stop(here, wait))
    climb.go(0.0)
    return WayUp(tuple(stops), tuple(climb.legs), climb.tissues)


def _rungs(depth: float, step: float) -> list[float]:
    """Give the depths where a stop may be made, deepest first, and the surface; from shallow water the depth itself."""
    below = [step * i for i in range(int(np.ceil(depth / step)) - 1, 0, -1)]
    return [*(below or [depth]), 0.0]


class _Climb:
    """A diver on the way up: where, with which tissues, after which legs."""

    def __init__(
        self, tissues: Floats, depth: float, water: Water, gas: Gas, rate: float, model: Compartments | None
    ) -> None:
        self.tissues, self.depth, self.water, self.gas, self.rate, self.model = tissues, depth, water, gas, rate, model
        self.legs: list[Leg] = []
        self.changes: list[Change] = []
        self.pause = 0.0

    def go(self, depth: float) -> None:
        """Go up, with the changes of gas on the way and at the end of it."""
        while self.changes and self.changes[0].depth >= depth:
            change = self.changes.pop(0)
            self._rise(change.depth)
            if self.pause > 0.0:
                self._add(self._stay(np.array([self.pause])))
            self.gas = change.gas
        self._rise(depth)

    def _rise(self, depth: float) -> None:
        if depth < self.depth:
            self._add(travel(self.water, self.depth, depth, self.rate, self.gas))
            self.depth = depth

    def tolerates(self, depth: float, factor: float) -> bool:
        return bool(self._fits(self.tissues, depth, factor)[0])

    def wait(self, above: float, factor: float) -> float:
        """Stay until the depth above is tolerated; give the time."""
        if self.tolerates(above, factor):
            return 0.0
        start, width = 0.0, _MINUTE * _AT_ONCE
        while (found := self._first(start, width, above, factor)) is None:
            start += width
            if start >= _LONGEST:
                raise RangeError(f"a stop at {self.depth:g} m would last more than {_LONGEST / 3600.0:g} h")
        while width > _FINE:
            width /= _AT_ONCE
            found = self._first(found - width, width, above, factor) or found
        self._add(self._stay(np.array([found])))
        return found

    def _first(self, start: float, width: float, above: float, factor: float) -> float | None:
        """Give the first of some evenly spaced times after which the depth above is tolerated."""
        times = start + width / _AT_ONCE * np.arange(1.0, _AT_ONCE + 1.0)
        fits = self._fits(load(self.tissues, [self._stay(times)], self.model), above, factor)
        return float(times[fits.argmax()]) if fits.any() else None

    def _fits(self, tissues: Floats, depth: float, factor: float) -> Bools:
        return np.asarray(tolerated(tissues, factor, self.model) <= self.water.at(depth)[0] + _ROUNDING)

    def _stay(self, time: Floats) -> Leg:
        return leg(self.water, self.depth, self.depth, time, self.gas)

    def _add(self, piece: Leg) -> None:
        self.tissues = load(self.tissues, [piece], self.model)
        self.legs.append(piece)
