"""Sense of the updates: nothing is counted twice, the order of passes does not matter, elsewhere can only grow."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats
from parbuckle.search.bayes import after, chance_of_success, proved
from parbuckle.search.grid import Grid
from parbuckle.search.probability import ProbabilityMap

GRID = Grid(0.0, 0.0, 2.0, 7, 9)


def drawn(seed: int, passes: int, elsewhere: float = 0.1, closed: bool = False) -> tuple[ProbabilityMap, list[Floats]]:
    rng = np.random.default_rng(seed)
    share = rng.dirichlet(np.full(63, 0.3)).reshape(GRID.shape)
    shut = rng.random(GRID.shape) < 0.2 if closed else np.zeros(GRID.shape, dtype=bool)
    share *= (1.0 - elsewhere) / share.sum()
    total = float(share.sum()) + elsewhere
    before = ProbabilityMap(GRID, share / total, elsewhere / total, shut)
    return before, [rng.random(GRID.shape) ** rng.uniform(0.05, 8.0) for _ in range(passes)]


def run(before: ProbabilityMap, pods: list[Floats]) -> ProbabilityMap:
    for pod in pods:
        before = after(before, pod)
    return before


@given(st.integers(0, 10**6), st.integers(1, 40), st.floats(0.0, 0.9), st.booleans())
@settings(max_examples=60, deadline=None)
def test_the_sum_stays_one_after_any_sequence(seed: int, passes: int, elsewhere: float, closed: bool) -> None:
    now = run(*drawn(seed, passes, elsewhere, closed))
    assert abs(float(now.share.sum()) + now.elsewhere - 1.0) < 1e-12
    assert abs(now.on_map + now.elsewhere + now.closed_share - 1.0) < 1e-12


@given(st.integers(0, 10**6), st.permutations(range(6)))
@settings(max_examples=60, deadline=None)
def test_the_order_of_passes_does_not_matter(seed: int, order: list[int]) -> None:
    before, pods = drawn(seed, 6, closed=seed % 2 == 0)
    one, other = run(before, pods), run(before, [pods[k] for k in order])
    assert one.share == pytest.approx(other.share, abs=1e-12, rel=1e-10)
    assert one.elsewhere == pytest.approx(other.elsewhere, rel=1e-10)


@given(st.integers(0, 10**6))
@settings(max_examples=40, deadline=None)
def test_two_passes_are_one_of_both_together(seed: int) -> None:
    before, (a, b) = drawn(seed, 2)
    assert run(before, [a, b]).share == pytest.approx(after(before, 1.0 - (1.0 - a) * (1.0 - b)).share, rel=1e-10)


@given(st.integers(0, 10**6), st.integers(1, 12))
@settings(max_examples=40, deadline=None)
def test_elsewhere_and_closed_can_only_grow(seed: int, passes: int) -> None:
    now, pods = drawn(seed, passes, closed=True)
    for pod in pods:
        later = after(now, pod)
        assert later.elsewhere >= now.elsewhere * (1.0 - 1e-12)
        assert later.closed_share >= now.closed_share * (1.0 - 1e-12)
        now = later


@given(st.integers(0, 10**6))
@settings(max_examples=40, deadline=None)
def test_chances_of_a_sequence_multiply(seed: int) -> None:
    """The chance to find it in none of the passes is the product over the maps before each."""
    before, pods = drawn(seed, 5, closed=True)
    missed, now = 1.0, before
    for pod in pods:
        missed *= 1.0 - chance_of_success(now, pod)
        now = after(now, pod)
    seen = 1.0 - np.prod([1.0 - pod for pod in pods], axis=0)
    assert missed == pytest.approx(1.0 - chance_of_success(before, seen), rel=1e-9)


def test_an_unsearched_map_stays_and_a_hidden_cell_keeps_its_chance() -> None:
    before, _ = drawn(1, 0, closed=True)
    assert after(before, np.zeros(GRID.shape)).share == pytest.approx(before.share, rel=1e-15)
    now = after(before, np.ones(GRID.shape))  # all that can be searched was seen
    assert float(now.searchable().sum()) == 0.0
    assert now.closed_share / now.elsewhere == pytest.approx(before.closed_share / before.elsewhere)


def test_what_is_proved_adds_up() -> None:
    before, pods = drawn(3, 3, elsewhere=0.2, closed=True)
    found = proved(before, pods, 0.5)
    assert found.left + found.elsewhere + found.closed == pytest.approx(1.0)
    assert 0.0 < found.searched < 1.0 - before.elsewhere
    assert found.covered * before.on_map == pytest.approx(
        chance_of_success(before, 1.0 - np.prod([1.0 - pod for pod in pods], axis=0))
    )
    assert found.not_here > 1.0 - found.searched  # looking in vain speaks against where was looked
    nothing = proved(before, [], 0.5)
    assert (nothing.covered, nothing.searched) == (0.0, 0.0)
    assert nothing.not_here == 1.0


def test_no_look_is_proof_where_nothing_was_well_seen() -> None:
    before, _ = drawn(3, 0)
    assert proved(before, [np.full(GRID.shape, 0.3)], 0.5).not_here == 1.0
    assert proved(before, [np.full(GRID.shape, 0.3)] * 2, 0.5).searched == pytest.approx(1.0 - before.elsewhere)


def test_what_cannot_be_is_refused() -> None:
    before, _ = drawn(3, 0, elsewhere=0.0)
    with pytest.raises(RangeError, match="could not have missed"):
        after(before, np.ones(GRID.shape))
    with pytest.raises(RangeError, match="shape"):
        after(before, np.ones((2, 2)))
    with pytest.raises(RangeError, match="chance"):
        after(before, np.full(GRID.shape, 1.1))
    with pytest.raises(RangeError, match="counts as searched"):
        proved(before, [], 0.0)
