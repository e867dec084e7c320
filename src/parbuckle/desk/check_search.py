"""Search theory with published answers: circular normal maps, allocations, updates and looks."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import lru_cache

import numpy as np

from parbuckle.quantity.frozen import Floats
from parbuckle.search.accounts import R95, account_share
from parbuckle.search.area import inside_share
from parbuckle.search.detection import coverage, pod
from parbuckle.search.effort import Allocation, allocate, water_filling
from parbuckle.search.grid import Grid
from parbuckle.search.law_table import law_table
from parbuckle.search.problem import PointAccount

_R50 = math.sqrt(2.0 * math.log(2.0))  # radius that holds half, in standard deviations
_CELL, _ACROSS = 0.02, 260  # standard deviations; cells along a side of one quarter of the map
_RINGS, _FAR = 20_000, 40.0  # rings of equal area; square of the outer radius in standard deviations
_FINE, _CORNERS = 150, 600  # cells and corners of a quarter circle
_HALVINGS, _GOLDEN = 45, 0.5 * (math.sqrt(5.0) - 1.0)


def normal_cell(right: float, up: float) -> float:
    """Give the share of one cell of 10 m round a point with a standard deviation of 20 m.

    Parameters
    ----------
    right, up : float
        Cells from the middle one.

    Returns
    -------
    float
        Share.
    """
    share = _square_map(9)
    return float(share[4 + int(up), 4 + int(right)])


def normal_block(across: float) -> float:
    """Give the share of a block of cells of 10 m round a point with a standard deviation of 20 m.

    Parameters
    ----------
    across : float
        Cells along a side.

    Returns
    -------
    float
        Share.
    """
    return float(_square_map(int(across)).sum())


def square_share(half: float) -> float:
    """Give the share of a circular normal map in a square about its middle.

    Parameters
    ----------
    half : float
        Half the side, in radii that hold half.

    Returns
    -------
    float
        Share.
    """
    return float(_point(Grid(-half * _R50, -half * _R50, 2.0 * half * _R50, 1, 1)).sum())


def circle_share(radius: float) -> float:
    """Give the share of a circular normal map in a circle about its middle, summed over the cells of a grid.

    Parameters
    ----------
    radius : float
        In radii that hold half.

    Returns
    -------
    float
        Share.
    """
    r = radius * _R50
    grid = Grid(0.0, 0.0, r / _FINE, _FINE, _FINE)
    quarter = [(r * math.sin(a), r * math.cos(a)) for a in np.linspace(0.0, 0.5 * math.pi, _CORNERS).tolist()]
    return 4.0 * float(np.vdot(_point(grid), inside_share((((0.0, 0.0), *quarter),), grid)))


def even_disc(effort: float, factor: float) -> float:
    """Give the chance of a disc that is searched evenly under the random law, the best one times a factor in size.

    Parameters
    ----------
    effort : float
        H = W L / (pi s^2).
    factor : float
        Radius over the best one, which is found by trial.

    Returns
    -------
    float
        Chance.
    """

    def chance(radius: float) -> float:
        inside = 1.0 - math.exp(-0.5 * radius * radius)
        return inside * float(pod("random", coverage(1.0, math.pi * effort, math.pi * radius * radius)))

    return chance(factor * _highest(chance, 0.2, 6.0))


def wrong_disc(factor: float) -> float:
    """Give what a disc of the wrong size has of the chance of the best one, H = 4.

    Parameters
    ----------
    factor : float
        Radius over the best one.

    Returns
    -------
    float
        Share.
    """
    return even_disc(4.0, factor) / even_disc(4.0, 1.0)


def even_square(effort: float, law: str, what: str) -> float:
    """Find the best square about a point that is searched evenly.

    Parameters
    ----------
    effort : float
        W L over the square of the radius that holds half.
    law : str
        Law of detection.
    what : str
        ``factor``, half the side in radii that hold half; ``coverage``; or ``chance``.

    Returns
    -------
    float
        What was asked.
    """

    def chance(half: float) -> float:
        return square_share(half) * float(pod(law, coverage(1.0, effort, 4.0 * half * half)))

    best = _highest(chance, 0.2, 4.0)
    return {"factor": best, "coverage": effort / (4.0 * best * best), "chance": chance(best)}[what]


def best_on_map(law: str, effort: float) -> float:
    """Give the chance of success of the best allocation on a circular normal map.

    Parameters
    ----------
    law : str
        Law of detection.
    effort : float
        H = W L / (pi s^2).

    Returns
    -------
    float
        Chance.
    """
    table = law_table(law, np.ones(1))
    return 4.0 * allocate(_quarter(), _CELL * _CELL, table, 0.25 * math.pi * effort).chance


def definite_bound(effort: float) -> float:
    """Give what no law can beat on a circular normal map, summed over rings of equal area.

    Parameters
    ----------
    effort : float
        H = W L / (pi s^2).

    Returns
    -------
    float
        Chance.
    """
    return allocate(_rings(), _ring_area(), law_table("definite range", np.ones(1)), math.pi * effort).chance


def random_search(effort: float, what: str) -> float:
    """Give the exact best allocation under the random law on a circular normal map, over rings of equal area.

    Parameters
    ----------
    effort : float
        H = W L / (pi s^2).
    what : str
        ``chance``; ``radius`` of what is searched, in standard deviations; or ``coverage`` in the middle.

    Returns
    -------
    float
        What was asked.
    """
    found = _filled(effort)
    if what == "chance":
        return found.chance
    if what == "coverage":
        return float(1.5 * found.effort[0] - 0.5 * found.effort[1]) / _ring_area()  # straight in r^2
    return math.sqrt(2.0 * math.log(1.0 / (2.0 * math.pi * found.price)))


def time_until(chance: float) -> float:
    """Give the time after which a share of the searches has found it: s = 20 m, W = 3 m, v = 0.25 m/s, random law.

    Parameters
    ----------
    chance : float
        Share.

    Returns
    -------
    float
        s.
    """
    low, high = 0.0, 64.0
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if _filled(middle).chance < chance else (low, middle)
    return 0.5 * (low + high) * math.pi * 20.0**2 / (3.0 * 0.25)


def _point(grid: Grid) -> Floats:
    return account_share(PointAccount("", 1.0, None, (0.0, 0.0), R95), grid)


def _square_map(across: int) -> Floats:
    return _point(Grid(-0.25 * across, -0.25 * across, 0.5, across, across))


@lru_cache(maxsize=1)
def _quarter() -> Floats:
    return _point(Grid(0.0, 0.0, _CELL, _ACROSS, _ACROSS))


@lru_cache(maxsize=64)
def _filled(effort: float) -> Allocation:
    return water_filling(_rings(), np.array([1.0 / _ring_area()]), math.pi * effort)


@lru_cache(maxsize=1)
def _rings() -> Floats:
    """Circular normal shares of rings of equal area."""
    return -np.diff(np.exp(-0.5 * np.linspace(0.0, _FAR, _RINGS + 1)))


def _ring_area() -> float:
    return math.pi * _FAR / _RINGS


def _highest(value: Callable[[float], float], low: float, high: float) -> float:
    """Golden section."""
    for _ in range(_HALVINGS):
        a, b = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
        low, high = (low, b) if value(a) > value(b) else (a, high)
    return 0.5 * (low + high)
