"""The best use of effort: against a brute search, against the closed form, and what it refuses."""

import math
import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from parbuckle.quantity.errors import RangeError
from parbuckle.search.accounts import R95, account_share
from parbuckle.search.bayes import after
from parbuckle.search.bounds import best_allocation, bounds
from parbuckle.search.detection import LAWS, pod
from parbuckle.search.effort import allocate, water_filling
from parbuckle.search.grid import Grid
from parbuckle.search.law_table import law_table
from parbuckle.search.looks import looks
from parbuckle.search.probability import ProbabilityMap, probability_map
from parbuckle.search.problem import PointAccount, Water
from parbuckle.search.told import told_map

SHARES = st.lists(st.floats(1e-6, 1.0), min_size=2, max_size=12)


@given(SHARES, st.floats(0.0, 20.0), st.randoms(use_true_random=False))
@settings(max_examples=80, deadline=None)
def test_no_small_move_of_effort_helps(shares: list[float], total: float, rng: random.Random) -> None:
    p = np.array(shares) / sum(shares)
    w = np.array([0.2 + 2.0 * rng.random() for _ in shares])
    found = water_filling(p, w, total)
    assert found.effort.sum() == pytest.approx(total, abs=1e-9)
    assert found.effort.min() >= 0.0
    gain = p * w * np.exp(-w * found.effort)  # what one more unit would add
    assert (gain <= found.price * (1 + 1e-9)).all()
    assert gain[found.effort > 1e-9] == pytest.approx(found.price, rel=1e-6)
    assert found.chance == pytest.approx(float(p @ (1.0 - np.exp(-w * found.effort))), abs=1e-12)


def test_one_rate_for_all_is_as_many_equal_ones() -> None:
    p = np.random.default_rng(2).dirichlet(np.ones(60))
    one, many = water_filling(p, np.array([0.7]), 9.0), water_filling(p, np.full(60, 0.7), 9.0)
    assert one.effort == pytest.approx(many.effort, abs=1e-12)


def test_a_grid_converges_to_the_closed_form() -> None:
    errors = []
    for cells in (40, 80, 160):
        grid = Grid(0.0, 0.0, 5.6 / cells, cells, cells)
        share = account_share(PointAccount("", 1.0, None, (0.0, 0.0), R95), grid)
        chance = 4.0 * water_filling(share, np.array([1.0 / grid.area]), 0.25 * math.pi * 4.0).chance
        errors.append(abs(chance - 0.5939941503))  # 1 - 3 exp(-2)
    assert errors[2] < 4e-5
    assert errors[0] / errors[1] == pytest.approx(4.0, rel=0.15)
    assert errors[1] / errors[2] == pytest.approx(4.0, rel=0.15)


def test_an_elliptical_spread_has_its_closed_form() -> None:
    grid = Grid(-180.0, -60.0, 1.0, 120, 360)
    east, north = grid.mesh()
    before = probability_map(grid, np.exp(-0.5 * (east / 30.0) ** 2 - 0.5 * (north / 10.0) ** 2), 0.0)
    found = best_allocation(before, "random", np.array([3.0]), 900.0)
    assert found.chance == pytest.approx(0.504443, abs=2e-4)
    searched = found.effort > 0.0
    assert np.abs(east[searched]).max() == pytest.approx(55.196, abs=1.0)
    assert np.abs(north[searched]).max() == pytest.approx(18.399, abs=1.0)


@pytest.mark.parametrize("law", LAWS)
def test_a_table_beats_every_drawn_allocation(law: str) -> None:
    rng = np.random.default_rng(11)
    p = rng.dirichlet(np.ones(5) * 0.6)
    best = allocate(p, 1.0, law_table(law, np.ones(1)), 3.0)
    assert best.effort.sum() == pytest.approx(3.0, rel=1e-9)
    drawn = rng.dirichlet(np.ones(5), 2000) * 3.0
    chances = (p * pod(law, drawn)).sum(axis=1)
    assert best.chance >= chances.max() - 2e-4


def test_the_table_of_the_random_law_is_water_filling() -> None:
    p = np.random.default_rng(4).dirichlet(np.ones(300) * 0.4).reshape(15, 20)
    table = allocate(p, 2.0, law_table("random", np.array([3.0])), 120.0)
    exact = water_filling(p, np.array([1.5]), 120.0)
    assert table.chance == pytest.approx(exact.chance, abs=2e-5)
    assert table.effort.shape == (15, 20)


def test_more_effort_than_the_definite_range_needs_is_not_spent() -> None:
    p = np.array([0.5, 0.5])
    found = allocate(p, 10.0, law_table("definite range", np.array([2.0])), 1e6)
    assert found.chance == pytest.approx(1.0)


def test_bounds_are_in_order_and_leave_closed_cells_out() -> None:
    grid = Grid(-40.0, -40.0, 1.0, 80, 80)
    half = ((-40.0, -40.0), (0.0, -40.0), (0.0, 40.0), (-40.0, 40.0))
    account = PointAccount("", 1.0, None, (0.0, 0.0), 25.0)
    width = np.array([2.0, 3.0])
    open_map, half_map = (told_map((account,), 0.1, water, grid) for water in (Water(), Water(area=(half,))))
    for law in LAWS:
        found = bounds(open_map, law, width, 300.0)
        assert 0.0 < found.allocation <= found.definite_range + 1e-4
        assert found.definite_range < open_map.on_map
        assert bounds(half_map, law, width, 300.0).allocation < found.allocation
    assert best_allocation(half_map, "random", width, 300.0).effort[:, 40:].sum() == 0.0


def test_the_best_pass_levels_what_it_searched() -> None:
    p = np.array([[0.40, 0.25, 0.15, 0.12, 0.08]])
    before = ProbabilityMap(Grid(0.0, 0.0, 1.0, 1, 5), p, 0.0, np.zeros((1, 5), dtype=bool))
    now = after(before, 1.0 - np.exp(-water_filling(p, np.ones(1), 2.0).effort))
    assert now.share[0] == pytest.approx([0.218363, 0.218363, 0.218363, 0.206947, 0.137965], abs=1e-6)


def test_looks_take_the_best_box_and_both_of_a_tie() -> None:
    given = np.array([0.4, 0.3, 0.2, 0.1]), np.array([0.5, 0.8, 0.6, 0.9]), np.array([1.0, 2.0, 1.0, 1.5])
    done = looks(*given, 10)
    assert {done[1].box, done[2].box} == {1, 2}
    assert [one.box for one in done[3:]] == [0, 3, 0, 2, 0, 1, 2]
    assert done[-1].cost == 12.5
    counts = np.bincount([one.box for one in done[:6]], minlength=4)
    assert counts.tolist() == [3, 1, 1, 1]


@pytest.mark.parametrize(
    ("shares", "rates", "total"),
    [([-0.1, 1.0], [1.0], 1.0), ([0.5, 0.5], [0.0], 1.0), ([0.5, 0.5], [1.0], -1.0), ([0.0, 0.0], [1.0], 1.0)],
)
def test_an_allocation_that_is_none_is_refused(shares: list[float], rates: list[float], total: float) -> None:
    with pytest.raises(RangeError):
        water_filling(np.array(shares), np.array(rates), total)
    with pytest.raises(RangeError):
        allocate(np.array(shares), rates[0], law_table("random", np.ones(1)), total)


def test_looks_refuse_what_is_no_chance() -> None:
    with pytest.raises(RangeError, match="looks"):
        looks(np.array([0.5]), np.array([0.0]), np.array([1.0]), 1)
