"""Lines round the likeliest part of a map: closed, the inside on the left, and holding what they say."""

from __future__ import annotations

import math

import numpy as np
import pytest

from parbuckle.quantity.errors import RangeError
from parbuckle.search.accounts import R95
from parbuckle.search.contours import contours, dots, level_of
from parbuckle.search.grid import grid_over
from parbuckle.search.probability import ProbabilityMap, probability_map
from parbuckle.search.problem import AreaAccount, PointAccount, Water
from parbuckle.search.told import told_map


def normal(sd: float = 8.0) -> ProbabilityMap:
    account = PointAccount("a", 1.0, None, (3.0, -2.0), sd * R95)
    return told_map((account,), 0.1, Water(), grid_over(-40.0, -40.0, 40.0, 40.0, 0.5, 100_000))


def area(ring: tuple[tuple[float, float], ...]) -> float:
    x, y = np.array(ring).T
    return 0.5 * float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1)))


@pytest.mark.parametrize("share", [0.5, 0.75, 0.9, 0.95])
def test_the_line_of_a_circular_normal_is_its_circle(share: float) -> None:
    (ring,) = contours(normal(), share)
    radius = 8.0 * math.sqrt(-2.0 * math.log(1.0 - share))
    far = [math.dist(p, (3.0, -2.0)) for p in ring]
    assert far == pytest.approx([radius] * len(far), abs=0.75)
    assert area(ring) == pytest.approx(math.pi * radius**2, rel=0.02)


def test_a_hole_runs_the_other_way() -> None:
    east, north = normal().grid.mesh()
    far = np.hypot(east, north)
    ring = probability_map(normal().grid, ((far > 10.0) & (far < 20.0)).astype(float), 0.0)
    outer, inner = sorted((area(r) for r in contours(ring, 0.95)), reverse=True)
    assert outer == pytest.approx(math.pi * 400.0, rel=0.05)
    assert inner == pytest.approx(-math.pi * 100.0, rel=0.1)


def test_a_plateau_lies_inside_its_line() -> None:
    square = ((-10.0, -10.0), (10.0, -10.0), (10.0, 10.0), (-10.0, 10.0))
    grid = grid_over(-15.0, -15.0, 15.0, 15.0, 1.0, 10_000)
    told = told_map((AreaAccount("a", 1.0, None, square),), 0.0, Water(), grid)
    assert [area(r) for r in contours(told, 0.9)] == pytest.approx([20.0**2], rel=0.01)


def test_two_hills_have_two_lines() -> None:
    both = (PointAccount("a", 1.0, None, (-25.0, 0.0), 10.0), PointAccount("b", 1.0, None, (25.0, 0.0), 10.0))
    told = told_map(both, 0.0, Water(), grid_over(-45.0, -20.0, 45.0, 20.0, 1.0, 100_000))
    assert len(contours(told, 0.9)) == 2


def test_dots_are_drawn_from_the_map() -> None:
    drawn = np.array(dots(normal(), 2000))
    assert len(drawn) == round(2000 * normal().on_map)
    assert drawn.mean(axis=0) == pytest.approx([3.0, -2.0], abs=0.3)
    assert drawn.std(axis=0) == pytest.approx([8.0, 8.0], rel=0.05)
    assert dots(normal(), 50) == dots(normal(), 50)


def test_closed_cells_get_no_dot() -> None:
    told = normal()
    shut = ProbabilityMap(told.grid, told.share, told.elsewhere, told.grid.mesh()[0] > 3.0)
    assert all(east <= 3.5 for east, _ in dots(shut, 500))


def test_a_share_outside_its_range_is_refused() -> None:
    with pytest.raises(RangeError, match="above 0 to below 1"):
        level_of(np.ones(3), 1.0)
    with pytest.raises(RangeError, match="of more than 0"):
        level_of(np.zeros(3), 0.5)
