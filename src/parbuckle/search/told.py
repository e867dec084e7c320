"""All accounts together become one map, and the cautions that belong to them."""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats
from parbuckle.search.accounts import account_extent, account_share, middle_and_radius
from parbuckle.search.area import closed_cells
from parbuckle.search.grid import Grid, grid_over
from parbuckle.search.numbers import number
from parbuckle.search.probability import ProbabilityMap
from parbuckle.search.problem import Account, BearingAccount, SearchProblem, Water
from parbuckle.search.result import Caution


def search_grid(accounts: tuple[Account, ...], sweep_width: float) -> Grid:
    """Choose the grid: large enough for every account, cells half as wide as the sweep.

    Parameters
    ----------
    accounts : tuple of Account
        At least one.
    sweep_width : float
        m, above zero.

    Returns
    -------
    Grid
        The cells; larger ones where there would be too many.

    Raises
    ------
    RangeError
        Without an account, or for a sweep width that is not above zero.
    """
    if not accounts:
        raise RangeError("search: no account was given; at least one is needed")
    west, south, east, north = zip(*(account_extent(a) for a in accounts), strict=True)
    cell = sweep_width / number("grid", "cells_per_sweep")
    return grid_over(min(west), min(south), max(east), max(north), cell, int(number("grid", "most_cells")))


def told_map(accounts: tuple[Account, ...], elsewhere: float, water: Water, grid: Grid) -> ProbabilityMap:
    """Mix all accounts by their weights into one map.

    share = (1 - elsewhere) sum_k w_k m_k / sum_k w_k. What an account puts beyond the grid is counted as elsewhere.

    Parameters
    ----------
    accounts : tuple of Account
        At least one.
    elsewhere : float
        Chance that it is not on the map at all, 0 to below 1.
    water : Water
        Where can be searched.
    grid : Grid
        The cells.

    Returns
    -------
    ProbabilityMap
        Sums to one.

    Raises
    ------
    RangeError
        Without an account, for a weight that is not above zero, for ``elsewhere`` outside its range, or as each
        account.
    """
    total = sum(account.weight for account in accounts)
    if not (accounts and all(account.weight > 0.0 for account in accounts)):
        raise RangeError("search: at least one account is needed, and every weight above zero")
    if not 0.0 <= elsewhere < 1.0:
        raise RangeError(f"search: chance that it is elsewhere: given {elsewhere:g}, allowed 0 to below 1")
    share = np.zeros(grid.shape)
    for account in accounts:
        share += account.weight / total * account_share(account, grid)
    share *= (1.0 - elsewhere) / max(1.0, float(share.sum()))
    return ProbabilityMap(grid, share, max(0.0, 1.0 - float(share.sum())), closed_cells(water, grid))


def map_of(problem: SearchProblem) -> ProbabilityMap:
    """Choose the grid for a problem and make its map.

    Parameters
    ----------
    problem : SearchProblem
        What is known.

    Returns
    -------
    ProbabilityMap
        Before any pass.
    """
    grid = search_grid(problem.accounts, float(problem.sweep_width.mean()))
    return told_map(problem.accounts, problem.elsewhere, problem.water, grid)


def cautions(accounts: tuple[Account, ...]) -> tuple[Caution, ...]:
    """Name what a person has to look at: distances over water, and accounts that may be one.

    Parameters
    ----------
    accounts : tuple of Account
        What was told.

    Returns
    -------
    tuple of Caution
        ``range over water`` for every distance that was judged: people say too little; values: the share to add.
        ``counted twice`` for every two accounts of one name, or whose middles lie nearer to each other than a quarter
        of the smaller radius; values: metres between them, and the smaller radius.
    """
    share = number("caution", "range_over_water")
    found = [Caution("range over water", (a.who,), (share,)) for a in accounts if isinstance(a, BearingAccount)]
    for a, b in combinations(accounts, 2):
        (place_a, radius_a), (place_b, radius_b) = middle_and_radius(a), middle_and_radius(b)
        apart, radius = math.dist(place_a, place_b), min(radius_a, radius_b)
        same = bool(a.who) and a.who.strip().casefold() == b.who.strip().casefold()
        if same or apart < number("caution", "counted_twice") * radius:
            found.append(Caution("counted twice", (a.who, b.who), (apart, radius)))
    return tuple(found)


def longer(distance: Floats) -> Floats:
    """Give the distances of a witness as they may really be: longer by the known bias of people over water.

    Parameters
    ----------
    distance : Floats
        As told, m, any shape.

    Returns
    -------
    Floats
        m.

    Notes
    -----
    Source: Nelson, How do you know where to start looking?: add 25 % (40 ft told are 50 ft).

    Examples
    --------
    >>> longer(np.array([40.0])).tolist()
    [50.0]
    """
    return np.asarray(distance * (1.0 + number("caution", "range_over_water")))
