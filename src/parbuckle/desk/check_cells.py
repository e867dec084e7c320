"""A few cells or boxes with published answers: updates after a pass, shares of effort, and sequences of looks."""

from __future__ import annotations

import numpy as np

from parbuckle.search.bayes import after
from parbuckle.search.effort import water_filling
from parbuckle.search.grid import Grid
from parbuckle.search.looks import looks
from parbuckle.search.probability import ProbabilityMap


def posterior(prior: list[float], chances: list[float], elsewhere: float, cell: float) -> float:
    """Give the chance of one cell after a pass that found nothing.

    Parameters
    ----------
    prior : list of float
        Chances of the cells.
    chances : list of float
        Chance to see it in each cell if it is there.
    elsewhere : float
        Chance before that it is not on the map.
    cell : float
        Which cell, from 1; one more than there are: elsewhere.

    Returns
    -------
    float
        Chance.
    """
    grid = Grid(0.0, 0.0, 1.0, 1, len(prior))
    before = ProbabilityMap(grid, np.array([prior]), elsewhere, np.zeros(grid.shape, dtype=bool))
    now = after(before, np.array([chances]))
    return now.elsewhere if int(cell) > len(prior) else float(now.share[0, int(cell) - 1])


def share_of_effort(shares: list[float], rates: list[float], total: float, what: str) -> float:
    """Share effort out over a few cells under the random law.

    Parameters
    ----------
    shares : list of float
        Chances of the cells.
    rates : list of float
        Coverage of one unit of effort in each.
    total : float
        Effort.
    what : str
        ``chance``, ``price``, or the number of a cell from 1.

    Returns
    -------
    float
        What was asked.
    """
    found = water_filling(np.array(shares), np.array(rates), total)
    if what in ("chance", "price"):
        return float(getattr(found, what))
    return float(found.effort[int(what) - 1])


def look(shares: list[float], detection: list[float], cost: list[float], count: float, what: str) -> float:
    """Give what a sequence of looks has come to.

    Parameters
    ----------
    shares, detection, cost : list of float
        Of each box.
    count : float
        Looks.
    what : str
        ``found``, ``cost``, ``index`` of the last look, or ``expected`` cost until the find.

    Returns
    -------
    float
        What was asked.
    """
    done = looks(np.array(shares), np.array(detection), np.array(cost), int(count))
    if what == "expected":
        gains = np.diff([0.0, *(one.found for one in done)])
        return float(gains @ np.array([one.cost for one in done]))
    return float(getattr(done[-1], what))
