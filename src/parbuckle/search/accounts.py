"""One account becomes shares of cells: a point, a bearing and a distance, a track, or an area."""

from __future__ import annotations

import math

import numpy as np

from parbuckle.physics.ranges import positive
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.normal import NINETEEN_IN_TWENTY
from parbuckle.search.grid import Grid
from parbuckle.search.numbers import number
from parbuckle.search.problem import Account, AreaAccount, BearingAccount, Place, PointAccount, TrackAccount
from parbuckle.search.sinking import landed, widest

R95 = math.sqrt(-2.0 * math.log(0.05))
"""Radius that holds 95 of 100 of a circular normal spread, in standard deviations (2.447747)."""

_TURNS, _SPANS = 288, 144  # directions and distances of one sector
_erf = np.vectorize(math.erf, otypes=[np.float64])
Rectangle = tuple[float, float, float, float]
"""West, south, east and north, m."""


def account_share(account: Account, grid: Grid) -> Floats:
    """Give the chance of every cell that one account gives, if it is right.

    A point: the circular normal integrated over each cell, s = r95 / 2.447747. A bearing and a distance: equally likely
    places of the sector. A track: evenly along the line, normal across it. An area: the part of each cell inside.

    Parameters
    ----------
    account : Account
        What was told.
    grid : Grid
        The cells.

    Returns
    -------
    Floats
        Shares, shape (rows, columns); the sum is 1 less what lies beyond the grid.

    Raises
    ------
    RangeError
        For a radius that is not above zero, a line of fewer than two points, or a polygon without an area.

    Notes
    -----
    Source: circular normal error (GNSS accuracy note); the rest is geometry.
    """
    share = _at_surface(account, grid)
    return share if account.sinking is None else landed(account.sinking, share, grid.cell)


def account_extent(account: Account) -> Rectangle:
    """Give the rectangle that holds nearly all of one account.

    Parameters
    ----------
    account : Account
        What was told.

    Returns
    -------
    Rectangle
        West, south, east and north, m.
    """
    east, north, reach = _hold(account)
    drifted = (0.0, 0.0, 0.0, 0.0) if account.sinking is None else widest(account.sinking)
    return (
        float(east.min()) - reach + drifted[0],
        float(north.min()) - reach + drifted[1],
        float(east.max()) + reach + drifted[2],
        float(north.max()) + reach + drifted[3],
    )


def middle_and_radius(account: Account) -> tuple[Place, float]:
    """Give the middle of an account and the radius that holds about 95 of 100, before any sinking.

    Parameters
    ----------
    account : Account
        What was told.

    Returns
    -------
    tuple[Place, float]
        East and north, and the radius, m.
    """
    if isinstance(account, PointAccount):
        return account.at, account.within
    east, north, reach = _hold(account)
    middle = (float(east.mean()), float(north.mean()))
    return middle, float(np.quantile(np.hypot(east - middle[0], north - middle[1]), 0.95)) + reach


def _hold(account: Account) -> tuple[Floats, Floats, float]:
    """Places that an account lies between, and how far it reaches beyond them."""
    if isinstance(account, PointAccount):
        return *_columns((account.at,)), number("grid", "reach") * account.within / R95
    if isinstance(account, TrackAccount):
        return *_columns(account.along), number("grid", "reach") * account.within / NINETEEN_IN_TWENTY
    if isinstance(account, AreaAccount):
        return *_columns(account.ring), 0.0
    if isinstance(account, BearingAccount):
        return *_sector(account), 0.0
    raise RangeError(f"accounts: {type(account).__name__} is none of the known kinds")


def _columns(places: tuple[Place, ...]) -> tuple[Floats, Floats]:
    both = np.array(places, dtype=np.float64)
    return both[:, 0], both[:, 1]


def _at_surface(account: Account, grid: Grid) -> Floats:
    if isinstance(account, PointAccount):
        return _normal(grid, account.at, float(positive("radius of a point", account.within, "m")) / R95)
    if isinstance(account, BearingAccount):
        return _sector_share(account, grid)
    if isinstance(account, TrackAccount):
        return _track(account, grid)
    if isinstance(account, AreaAccount):
        return _area(account, grid)
    raise RangeError(f"accounts: {type(account).__name__} is none of the known kinds")


def _normal(grid: Grid, at: Place, sd: float) -> Floats:
    east, north = grid.edges()
    across = np.diff(0.5 * _erf((east - at[0]) / (sd * math.sqrt(2.0))))
    up = np.diff(0.5 * _erf((north - at[1]) / (sd * math.sqrt(2.0))))
    return np.asarray(up[:, None] * across[None, :])


def _sector(account: BearingAccount) -> tuple[Floats, Floats]:
    """Equally likely places: every direction at every distance, turned a little from ring to ring."""
    if not float(np.min(account.distance)) >= 0.0:
        raise RangeError("distance of an account: must not be negative")
    distance = _steps(account.distance, _SPANS)
    shift = (np.arange(_SPANS) * _GOLDEN) % 1.0
    u = (np.arange(_TURNS)[None, :] + shift[:, None]) / _TURNS
    k = (np.arange(account.bearing.size) + 0.5) / account.bearing.size
    bearing = np.interp(u, k, np.sort(account.bearing))
    east = account.stood[0] + distance[:, None] * np.sin(bearing)
    return east.ravel(), (account.stood[1] + distance[:, None] * np.cos(bearing)).ravel()


_GOLDEN = 0.5 * (math.sqrt(5.0) - 1.0)


def _steps(values: Floats, count: int) -> Floats:
    """Equally likely steps of a column of equally likely values."""
    k = (np.arange(values.size) + 0.5) / values.size
    return np.interp((np.arange(count) + 0.5) / count, k, np.sort(values))


def _sector_share(account: BearingAccount, grid: Grid) -> Floats:
    return _spread_out(grid, *_sector(account))


def _spread_out(grid: Grid, east: Floats, north: Floats) -> Floats:
    """Share equally likely places out over the four nearest cells each."""
    x, y = (east - grid.west) / grid.cell - 0.5, (north - grid.south) / grid.cell - 0.5
    left, low = np.floor(x).astype(np.int64), np.floor(y).astype(np.int64)
    dx, dy = x - left, y - low
    wide = grid.columns + 2
    out = np.zeros((grid.rows + 2) * wide)
    for row, share_y in ((low + 1, 1.0 - dy), (low + 2, dy)):
        for column, share_x in ((left + 1, 1.0 - dx), (left + 2, dx)):
            inside = (row >= 0) & (row < grid.rows + 2) & (column >= 0) & (column < wide)
            where = row[inside] * wide + column[inside]
            out += np.bincount(where, (share_x * share_y)[inside] / x.size, minlength=out.size)
    inner: Floats = out.reshape(grid.rows + 2, wide)[1:-1, 1:-1]
    return inner


def _track(account: TrackAccount, grid: Grid) -> Floats:
    if len(account.along) < len((0, 1)):
        raise RangeError("track of an account: at least two points are needed")
    sd = float(positive("distance from a track", account.within, "m")) / NINETEEN_IN_TWENTY
    points = np.array(account.along)
    length = np.append(0.0, np.cumsum(np.hypot(*np.diff(points, axis=0).T)))
    if not length[-1] > 0.0:
        raise RangeError("track of an account: all its points are one; give a point with a radius")
    steps = max(1, math.ceil(length[-1] / min(sd, grid.cell)))
    at = (np.arange(steps) + 0.5) / steps * length[-1]
    east, north = np.interp(at, length, points[:, 0]), np.interp(at, length, points[:, 1])
    edge_e, edge_n = grid.edges()
    across = np.diff(0.5 * _erf((edge_e[None, :] - east[:, None]) / (sd * math.sqrt(2.0))), axis=1)
    up = np.diff(0.5 * _erf((edge_n[None, :] - north[:, None]) / (sd * math.sqrt(2.0))), axis=1)
    share: Floats = up.T @ across / steps
    return share


def _area(account: AreaAccount, grid: Grid) -> Floats:
    from parbuckle.search.area import inside_share

    inside = inside_share((account.ring,), grid)
    whole = _ring_area(account.ring)
    if not whole > 0.0:
        raise RangeError("area of an account: the polygon has no area")
    return inside * grid.area / whole


def _ring_area(ring: tuple[Place, ...]) -> float:
    x, y = np.array(ring).T
    return 0.5 * abs(float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))))
