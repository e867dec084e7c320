"""Accounts become a map: each kind keeps its share, its place and its spread; what cannot be searched is marked."""

import math
from typing import Any

import numpy as np
import pytest

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats
from parbuckle.search.accounts import R95, account_extent, account_share
from parbuckle.search.area import cell_depth, closed_cells, inside_share
from parbuckle.search.grid import Grid, grid_over
from parbuckle.search.probability import ProbabilityMap, probability_map
from parbuckle.search.problem import (
    Account,
    AreaAccount,
    BearingAccount,
    PointAccount,
    SearchProblem,
    Sinking,
    TrackAccount,
    Water,
)
from parbuckle.search.told import cautions, longer, map_of, search_grid, told_map

WIDE = Grid(-100.0, -100.0, 1.0, 200, 200)
POINT = PointAccount("helm", 2.0, None, (10.0, -5.0), 18.0)
_MIDDLES = (np.arange(400) + 0.5) / 400
SECTOR = BearingAccount("angler", 1.0, None, (-20.0, -30.0), np.radians(20 + 16 * _MIDDLES), 30 + 30 * _MIDDLES)
TRACK = TrackAccount("boat", 1.0, None, ((-40.0, 0.0), (0.0, 0.0), (0.0, 40.0)), 6.0)
AREA = AreaAccount("diver", 1.0, None, ((0.0, 0.0), (30.5, 0.0), (30.5, 20.25), (0.0, 20.25)))
ALL = (POINT, SECTOR, TRACK, AREA)


def moments(share: Floats, grid: Grid) -> tuple[float, float, float, float]:
    east, north = grid.mesh()
    total = share.sum()
    e, n = float((share * east).sum() / total), float((share * north).sum() / total)
    return e, n, float((share * (east - e) ** 2).sum() / total), float((share * (north - n) ** 2).sum() / total)


@pytest.mark.parametrize("account", ALL, ids=lambda a: type(a).__name__)
def test_an_account_keeps_its_share_on_a_wide_grid(account: Account) -> None:
    share = account_share(account, WIDE)
    assert share.sum() == pytest.approx(1.0, abs=1e-9)
    assert share.min() >= 0.0
    west, south, east, north = account_extent(account)
    e, n = WIDE.mesh()
    assert share[(e > west - 1) & (e < east + 1) & (n > south - 1) & (n < north + 1)].sum() > 0.99


def test_a_point_has_its_place_and_its_radius() -> None:
    e, n, var_e, var_n = moments(account_share(POINT, WIDE), WIDE)
    sd = 18.0 / R95
    assert (e, n) == pytest.approx((10.0, -5.0), abs=1e-9)
    assert (var_e, var_n) == pytest.approx((sd**2 + 1 / 12, sd**2 + 1 / 12), rel=1e-6)
    east, north = WIDE.mesh()
    inside = np.hypot(east - 10.0, north + 5.0) < 18.0
    assert account_share(POINT, WIDE)[inside].sum() == pytest.approx(0.95, abs=0.003)


def test_a_sector_is_what_drawn_witnesses_say() -> None:
    rng = np.random.default_rng(5)
    bearing, distance = np.radians(rng.uniform(20, 36, 400_000)), rng.uniform(30, 60, 400_000)
    east, north = -20.0 + distance * np.sin(bearing), -30.0 + distance * np.cos(bearing)
    coarse = account_share(SECTOR, WIDE).reshape(40, 5, 40, 5).sum(axis=(1, 3))
    drawn = np.histogram2d(north, east, bins=40, range=((-100, 100), (-100, 100)))[0] / east.size
    assert np.abs(coarse - drawn).max() < 0.003  # chance of the drawing, and a cell of blur at the rim
    assert np.abs(coarse - drawn).sum() < 0.03


def test_a_track_is_even_along_its_line_and_normal_across() -> None:
    share = account_share(TRACK, WIDE)
    east, north = WIDE.mesh()
    first = (east > -28.0) & (east < -18.0)
    assert share[first].sum() == pytest.approx(10.0 / 80.0, rel=1e-3)
    assert share[first & (np.abs(north) < 6.0)].sum() / share[first].sum() == pytest.approx(0.95, abs=1e-3)
    assert share[(north > 18.0) & (north < 28.0)].sum() == pytest.approx(10.0 / 80.0, rel=1e-3)


def test_an_area_is_even_inside_and_cells_on_its_edge_have_their_part() -> None:
    share = account_share(AREA, WIDE)
    assert share[105, 105] == pytest.approx(1.0 / (30.5 * 20.25), rel=1e-9)
    assert share[105, 130] == pytest.approx(0.5 * share[105, 105], rel=1e-9)
    assert share[120, 105] == pytest.approx(0.25 * share[105, 105], rel=1e-9)
    assert share[99, 105] == 0.0


def test_sinking_moves_the_map_down_stream_and_widens_it() -> None:
    draws = np.full(3, 20.0)
    sinking = Sinking(draws, np.array([0.5, 0.5, 0.5]), np.full(3, 0.2), np.full(3, math.pi / 2), math.radians(10.0))
    before = account_share(POINT, WIDE)
    share = account_share(PointAccount("rail", 1.0, sinking, (10.0, -5.0), 18.0), WIDE)
    e0, n0, ve0, _ = moments(before, WIDE)
    e, n, ve, vn = moments(share, WIDE)
    delta = 20.0 * math.tan(math.radians(10.0))
    assert share.sum() == pytest.approx(1.0, abs=1e-9)
    assert (e - e0, n - n0) == pytest.approx((8.0, 0.0), abs=1e-6)  # u d / v = 0.2 * 20 / 0.5
    # a half-normal radius: its mean square is delta^2, half of it on each axis; a cell adds 1/6 m2 for each move
    assert ve - ve0 == pytest.approx(delta**2 / 2, abs=0.45)
    assert ve == pytest.approx(vn, abs=0.3)


def test_sixty_eight_of_a_hundred_land_within_the_scale() -> None:
    fine = Grid(-30.0, -30.0, 0.25, 240, 240)
    sinking = Sinking(np.array([20.0]), np.array([1.0]), np.array([0.0]), np.array([0.0]), math.radians(15.0))
    share = account_share(PointAccount("rail", 1.0, sinking, (0.0, 0.0), 0.02), fine)
    east, north = fine.mesh()
    delta = 20.0 * math.tan(math.radians(15.0))
    assert share[np.hypot(east, north) < delta].sum() == pytest.approx(0.6827, abs=0.006)


def test_what_lies_beyond_the_grid_is_elsewhere() -> None:
    narrow = Grid(-1.0, -100.0, 1.0, 200, 200)
    found = told_map((PointAccount("", 1.0, None, (-1.0, 0.0), 20.0),), 0.1, Water(), narrow)
    assert found.elsewhere == pytest.approx(0.1 + 0.9 * 0.5, abs=1e-6)
    assert found.share.sum() + found.elsewhere == pytest.approx(1.0, abs=1e-12)


def test_weights_mix_the_accounts() -> None:
    far = PointAccount("b", 3.0, None, (60.0, 60.0), 5.0)
    found = told_map((PointAccount("a", 1.0, None, (-60.0, -60.0), 5.0), far), 0.2, Water(), WIDE)
    east, _ = WIDE.mesh()
    assert found.share[east > 0].sum() == pytest.approx(0.8 * 0.75, abs=1e-9)


def test_the_grid_follows_the_sweep_and_never_grows_too_large() -> None:
    small = search_grid((POINT,), 3.0)
    assert small.cell == pytest.approx(1.5)
    large = search_grid((PointAccount("", 1.0, None, (0.0, 0.0), 900.0),), 2.0)
    assert large.rows * large.columns <= 40_000
    assert large.cell > 1.0
    assert grid_over(-3.0, -3.0, 3.0, 3.0, 2.0, 16).rows == 4
    assert grid_over(-3.0, -3.0, 3.0, 3.0, 2.0, 15).rows < 4


def problem(**changes: Any) -> SearchProblem:
    given: dict[str, Any] = {
        "accounts": (POINT, SECTOR),
        "elsewhere": 0.08,
        "water": Water(),
        "law": "random",
        "p0": 1.0,
        "sweep_width": np.array([2.0, 3.2]),
        "speed": np.array([0.2, 0.3]),
        "minutes": 40.0,
        "visibility": np.array([2.5, 2.5]),
    }
    return SearchProblem(**{**given, **changes})


def test_a_problem_becomes_a_map_that_sums_to_one() -> None:
    found = map_of(problem())
    assert found.share.sum() + found.elsewhere == pytest.approx(1.0, abs=1e-12)
    assert 0.08 <= found.elsewhere < 0.085
    assert found.on_map + found.elsewhere + found.closed_share == pytest.approx(1.0, abs=1e-12)


def test_a_problem_without_accounts_or_time_is_refused() -> None:
    with pytest.raises(RangeError, match="at least one"):
        problem(accounts=())
    with pytest.raises(RangeError, match="above zero"):
        problem(minutes=0.0)


def test_cells_outside_the_area_ashore_or_too_deep_are_closed_and_counted() -> None:
    grid = Grid(-10.0, -10.0, 1.0, 20, 20)
    square = ((-5.0, -10.0), (10.0, -10.0), (10.0, 10.0), (-5.0, 10.0))
    west = closed_cells(Water(area=(square,)), grid)
    assert west[:, :5].all()
    assert not west[:, 5:].any()
    slope = Water(shore_bearing=math.pi / 2, shore_profile=((0.0, 20.0), (8.0, 0.5)), depth=20.0, depth_limit=12.0)
    closed = closed_cells(slope, grid)
    depth, ashore = cell_depth(slope, grid)
    assert closed[:, 18:].all()
    assert ashore[:, 18:].all()  # beyond the profile's end: land
    assert not closed[:, 14:18].any()
    assert depth[0, 0] == 20.0
    assert closed[:, :13].all()  # deeper than the limit
    found = told_map((PointAccount("", 1.0, None, (0.0, 0.0), 8.0),), 0.0, Water(area=(square,)), grid)
    assert found.closed_share == pytest.approx(float(found.share[:, :5].sum()))
    assert found.closed_share > 0.05
    assert found.searchable()[:, :5].sum() == 0.0


def test_the_part_inside_a_polygon_adds_up_to_its_area() -> None:
    grid = Grid(-10.0, -10.0, 1.3, 16, 16)
    ring = tuple((7.0 * math.sin(a), 5.0 * math.cos(a)) for a in np.linspace(0, 2 * math.pi, 60)[:-1].tolist())
    east, north = np.array(ring).T
    area = 0.5 * abs(float(np.dot(east, np.roll(north, -1)) - np.dot(north, np.roll(east, -1))))
    assert inside_share((ring,), grid).sum() * grid.area == pytest.approx(area, rel=1e-12)


@pytest.mark.parametrize("ring", [((0.0, 0.0), (1.0, 1.0)), ((0.0, 0.0), (1.0, 1.0), (1.0, 0.0), (0.0, 1.0))])
def test_a_polygon_that_is_none_is_refused(ring: tuple[tuple[float, float], ...]) -> None:
    with pytest.raises(RangeError, match="polygon"):
        inside_share((ring,), WIDE)


def test_cautions_name_distances_over_water_and_accounts_that_may_be_one() -> None:
    near = PointAccount("mate", 1.0, None, (12.0, -5.0), 20.0)
    found = cautions((POINT, SECTOR, near))
    assert [(c.code, c.who) for c in found] == [("range over water", ("angler",)), ("counted twice", ("helm", "mate"))]
    assert found[1].values == pytest.approx((2.0, 18.0))
    apart = PointAccount("mate", 1.0, None, (16.0, -5.0), 20.0)  # a third of the radius away
    assert not cautions((POINT, apart))
    same = PointAccount(" Helm", 1.0, None, (90.0, 90.0), 20.0)
    assert [c.code for c in cautions((POINT, same))] == ["counted twice"]


def test_a_told_distance_may_be_a_quarter_longer() -> None:
    assert longer(np.array([40.0, 60.0])) == pytest.approx([50.0, 75.0])


def test_a_map_that_does_not_sum_to_one_is_refused() -> None:
    grid = Grid(0.0, 0.0, 1.0, 1, 2)
    none = np.zeros((1, 2), dtype=bool)
    with pytest.raises(RangeError, match="make 1"):
        ProbabilityMap(grid, np.array([[0.5, 0.3]]), 0.1, none)
    with pytest.raises(RangeError, match="below zero"):
        ProbabilityMap(grid, np.array([[1.5, -0.5]]), 0.0, none)
    with pytest.raises(RangeError, match="on a grid"):
        ProbabilityMap(grid, np.array([[0.5, 0.3, 0.2]]), 0.0, np.zeros((1, 3), dtype=bool))
    with pytest.raises(RangeError, match="map"):
        probability_map(grid, np.zeros((1, 2)), 0.0)


@pytest.mark.parametrize(
    "account",
    [
        PointAccount("", 1.0, None, (0.0, 0.0), 0.0),
        TrackAccount("", 1.0, None, ((0.0, 0.0),), 5.0),
        TrackAccount("", 1.0, None, ((0.0, 0.0), (0.0, 0.0)), 5.0),
        BearingAccount("", 1.0, None, (0.0, 0.0), np.zeros(2), np.array([-1.0, 2.0])),
    ],
)
def test_an_account_that_is_none_is_refused(account: Account) -> None:
    with pytest.raises(RangeError):
        account_share(account, WIDE)
