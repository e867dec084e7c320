"""What all patterns of one choice share: the cells, the laws, the time, and what was already worked out."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen
from parbuckle.search.bounds import best_allocation
from parbuckle.search.curves import Curve
from parbuckle.search.expected import Ground, expected_chance, expected_coverage, width_nodes
from parbuckle.search.fit_problem import FEW_PLACES, LEAST_PLACES, PLACES, Fit, places
from parbuckle.search.legs import Pattern, Place
from parbuckle.search.practice import Practice
from parbuckle.search.probability import ProbabilityMap
from parbuckle.search.problem import SearchProblem
from parbuckle.search.track_error import adds_up

_NODES = 3  # sweep widths that stand for all draws
_STEP = 0.5  # cells between places at which a leg is held against the closed cells
_MINUTE = 60.0


@dataclass(frozen=True)
class Site(Frozen):
    """What there is to search from.

    Parameters
    ----------
    boat : bool
        Whether a boat can tow a diver.
    stands : tuple of Place
        Line along the shore where a tender may stand, or one place; empty: no shore.
    wall : tuple of Place
        Corners of a wall or a pier; empty: none.
    wall_side : float
        1 when the water lies on the right hand of the wall as given, -1 on its left.
    """

    boat: bool = False
    stands: tuple[Place, ...] = ()
    wall: tuple[Place, ...] = ()
    wall_side: float = 1.0


class Desk:
    """The cells, the laws and the time of one choice.

    Parameters
    ----------
    problem : SearchProblem
        Law, sweep width, speed, minutes, divers.
    before : ProbabilityMap
        The map as it is now.
    site : Site
        Boat, shore and wall.

    Raises
    ------
    RangeError
        If no cell that can be searched holds a chance.
    """

    def __init__(self, problem: SearchProblem, before: ProbabilityMap, site: Site) -> None:
        self.problem, self.before, self.site = problem, before, site
        self.speed = float(np.median(problem.speed))
        east, north = before.grid.mesh()
        self.open = ~before.closed
        self.ground = Ground(east[self.open], north[self.open], before.share[self.open], before.grid.cell)
        self.widths = width_nodes(np.atleast_1d(problem.sweep_width), _NODES)
        self.on_map = float(self.ground.share.sum())
        if not self.on_map > 0.0:
            raise RangeError("search: no cell that can be searched holds a chance; look at the accounts and the area")
        self._held = held(self.ground)
        self._drawn: dict[tuple[float, int], tuple[Floats, Floats]] = {}
        self._bounds: dict[tuple[float, float], float] = {}
        self._curves: dict[float, Curve] = {}

    def curves(self, row: Practice) -> list[Curve]:
        """Give the laws of one pass, one for each equally likely sweep width.

        Parameters
        ----------
        row : Practice
            The pattern.

        Returns
        -------
        list of Curve
            At most three.
        """
        return [Curve(self.problem.law, float(w) * row.pass_width, self.problem.p0) for w in self.widths]

    def places(self, placement: float, count: int = PLACES) -> tuple[Floats, Floats]:
        """Give equally likely places on the map, shaken by the placement.

        Parameters
        ----------
        placement : float
            Standard deviation, m.
        count : int
            How many.

        Returns
        -------
        tuple of Floats
            East and north, m.
        """
        key = (placement, count)
        if key not in self._drawn:
            self._drawn[key] = places(self._held, placement, count)
        return self._drawn[key]

    def fit(self, row: Practice, time: float, count: int | None = None, weight: Floats | None = None) -> Fit:
        """Give what a pattern is fitted to.

        Parameters
        ----------
        row : Practice
            The pattern.
        time : float
            Time there is, s.
        count : int or None
            How many places; None: few.
        weight : Floats or None
            Chance that nothing else finds it at each place.

        Returns
        -------
        Fit
            Places, law at the mean sweep width, time.
        """
        few = LEAST_PLACES if adds_up(row.error) else FEW_PLACES
        east, north = self.places(row.error.placement, few if count is None else count)
        key = row.pass_width
        if key not in self._curves:
            width = float(np.mean(self.problem.sweep_width)) * row.pass_width
            self._curves[key] = Curve(self.problem.law, width, self.problem.p0, rough=True)
        return Fit(east, north, self.on_map, self._curves[key], row, time, self.speed, weight)

    def chance(self, pattern: Pattern, row: Practice, near: bool = True) -> float:
        """Give the chance that a pattern finds it.

        Parameters
        ----------
        pattern : Pattern
            What is swum.
        row : Practice
            How it errs.
        near : bool
            False takes fewer places: for a pattern that will not be proposed.

        Returns
        -------
        float
            0 to 1.
        """
        east, north = self.places(row.error.placement, PLACES if near or not adds_up(row.error) else FEW_PLACES)
        swims = {} if near else {"swims": _NODES}
        return self.on_map * expected_chance(pattern, self.curves(row), row.error, east, north, **swims)

    def coverage(self, pattern: Pattern, row: Practice) -> Floats:
        """Give the chance to see it in each cell.

        Parameters
        ----------
        pattern : Pattern
            What is swum.
        row : Practice
            How it errs.

        Returns
        -------
        Floats
            Shape (rows, columns), 0 in closed cells.
        """
        out = np.zeros(self.before.grid.shape)
        out[self.open] = expected_coverage(pattern, self.curves(row), row.error, self.ground)
        return out

    def bound(self, row: Practice) -> float:
        """Give the chance of the best allocation of all the time under the same law.

        Parameters
        ----------
        row : Practice
            The pattern, for its speed and the width of its pass.

        Returns
        -------
        float
            0 to 1.
        """
        many = self.problem.divers if row.swimmers > 1 else 1
        length = _MINUTE * self.problem.minutes * self.speed * row.speed * many
        key = (length, row.pass_width)
        if key not in self._bounds:
            widths = self.problem.sweep_width * row.pass_width
            best = best_allocation(self.before, self.problem.law, widths, length, self.problem.p0)
            self._bounds[key] = best.chance
        return self._bounds[key]

    def outside(self, pattern: Pattern) -> float:
        """Give the length of the legs over closed cells.

        Parameters
        ----------
        pattern : Pattern
            What is swum.

        Returns
        -------
        float
            m.
        """
        if not self.before.closed.any():
            return 0.0
        grid, total = self.before.grid, 0.0
        for leg in pattern.lanes:
            n = max(1, math.ceil(leg.length / (_STEP * grid.cell)))
            part = (np.arange(n) + 0.5) / n
            if leg.centre is not None:
                bearing = leg.begins + part * leg.turns
                x = leg.centre[0] + leg.radius * np.sin(bearing)
                y = leg.centre[1] + leg.radius * np.cos(bearing)
            else:
                x = leg.start[0] + part * (leg.end[0] - leg.start[0])
                y = leg.start[1] + part * (leg.end[1] - leg.start[1])
            i = np.floor((y - grid.south) / grid.cell).astype(np.int64)
            j = np.floor((x - grid.west) / grid.cell).astype(np.int64)
            on = (i >= 0) & (i < grid.rows) & (j >= 0) & (j < grid.columns)
            total += leg.length / n * float(self.before.closed[i[on], j[on]].sum())
        return total


def held(ground: Ground) -> Ground:
    """Give the cells that hold a chance.

    Parameters
    ----------
    ground : Ground
        All cells.

    Returns
    -------
    Ground
        Those with a share above 0.
    """
    some = ground.share > 0.0
    return Ground(ground.east[some], ground.north[some], ground.share[some], ground.cell)
