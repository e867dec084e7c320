"""Patterns against the best that the same effort could do, and sense of the choice."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from parbuckle.search.choice_desk import Site
from parbuckle.search.chooser import choose_pattern
from parbuckle.search.grid import Grid
from parbuckle.search.practice import Practice, TrackError, practices
from parbuckle.search.probability import ProbabilityMap, probability_map
from parbuckle.search.problem import PointAccount, SearchProblem, Water

SIGMA, WIDTH, SPEED = 20.0, 3.0, 0.25
EFFORTS = (300.0, 600.0, 1200.0, 2400.0)
LEAST = {"circles": 0.98, "jackstay": 0.96, "expanding square": 0.96}


def round_map(cell: float = 1.5, elsewhere: float = 0.0) -> ProbabilityMap:
    grid = Grid(-81.0, -81.0, cell, round(162.0 / cell), round(162.0 / cell))
    east, north = grid.mesh()
    return probability_map(grid, np.exp(-(east**2 + north**2) / (2.0 * SIGMA**2)), elsewhere)


def problem(length: float, **changes: object) -> SearchProblem:
    base = SearchProblem(
        accounts=(PointAccount("the helm", 1.0, None, (0.0, 0.0), 49.0),),
        elsewhere=0.0,
        water=Water(),
        law="half-normal",
        p0=1.0,
        sweep_width=np.array([WIDTH]),
        speed=np.array([SPEED]),
        minutes=length / SPEED / 60.0,
        visibility=np.array([3.0]),
    )
    return replace(base, **changes)


def free(name: str) -> Practice:
    """A pattern without turns, ways or errors."""
    row = next(p for p in practices() if p.name == name)
    return replace(row, turn=0.0, shift=0.0, limit=1000.0, error=TrackError(), ways=float("inf"))


@pytest.mark.parametrize("length", EFFORTS)
@pytest.mark.parametrize("name", LEAST)
def test_a_well_sized_pattern_comes_near_the_matched_optimum(name: str, length: float) -> None:
    answer = choose_pattern(problem(length), round_map(), rows=[free(name)], pairs=False).answers[0]
    assert answer.pattern.search_length == pytest.approx(length, rel=1e-6)
    assert answer.share_of_bound >= LEAST[name]
    assert answer.share_of_bound <= 1.005  # the matched optimum is a very near bound, not a strict one


def test_errors_turns_and_less_time_cost_chance() -> None:
    row = free("circles")
    costs = [
        row,
        replace(row, turn=30.0),
        replace(row, error=TrackError(across=0.8)),
        replace(row, error=TrackError(placement=6.0)),
    ]
    best, *worse = (
        choose_pattern(problem(600.0), round_map(3.0), rows=[c], pairs=False).answers[0].chance for c in costs
    )
    assert all(chance < best - 0.003 for chance in worse)
    half = choose_pattern(problem(300.0), round_map(3.0), rows=[row], pairs=False).answers[0].chance
    assert half < best < 2.0 * half


def test_the_proposed_one_is_the_simplest_of_those_near_the_best() -> None:
    choice = choose_pattern(problem(600.0), round_map(3.0), rows=[free("jackstay"), free("circles")], pairs=False)
    assert [a.pattern.name for a in choice.answers] == ["circles", "jackstay"]
    flat = probability_map(Grid(-40.0, -5.0, 2.0, 5, 40), np.ones((5, 40)), 0.0)
    choice = choose_pattern(problem(300.0), flat, rows=[free("circles"), free("jackstay")], pairs=False)
    assert choice.answers[0].pattern.name == "jackstay"
    assert "jackstay:" in choice.answers[0].why
    assert "% of what is possible in 20 minutes" in choice.answers[0].why


def test_coverage_gives_the_promised_chance_and_closed_cells_none() -> None:
    before = round_map(3.0, 0.1)
    east, _ = before.grid.mesh()
    before = replace(before, closed=east > 6.0)
    choice = choose_pattern(problem(600.0), before, pairs=False)
    best = choice.answers[0]
    assert not choice.coverage[before.closed].any()
    assert choice.coverage.min() >= 0.0
    assert choice.coverage.max() <= 1.0
    assert float((before.share * choice.coverage).sum()) == pytest.approx(best.chance, abs=0.01)
    assert best.chance <= before.on_map
    assert best.outside < 0.5 * best.pattern.search_length


def test_what_is_missing_is_said() -> None:
    choice = choose_pattern(problem(600.0, visibility=np.array([1.0])), round_map(3.0), pairs=False)
    why = {r.name: r.why for r in choice.refused}
    assert "a wall" in why["along a wall"]
    assert "a shore" in why["arcs"]
    assert "3 swimmers" in why["line abreast"]
    assert "visibility" in why["compass lanes"]
    site = Site(boat=True, stands=((-30.0, -30.0), (30.0, -30.0)), wall=((-25.0, -10.0), (25.0, -10.0)), wall_side=-1.0)
    rich = problem(600.0, visibility=np.array([8.0]), divers=3)
    choice = choose_pattern(rich, round_map(3.0), site, pairs=False)
    assert not choice.refused
    assert {a.pattern.name for a in choice.answers} == {p.name for p in practices()}
    assert all(a.minutes <= rich.minutes + 1e-6 for a in choice.answers)
    assert all(0.0 < a.share_of_bound <= 1.0 for a in choice.answers)


def test_gas_that_does_not_reach_is_told_and_does_not_shorten() -> None:
    answer = choose_pattern(problem(600.0, gas_minutes=20.0), round_map(3.0), rows=[free("circles")], pairs=False)
    assert not answer.answers[0].gas_reaches
    assert answer.answers[0].minutes == pytest.approx(40.0, abs=0.1)


def test_two_heaps_ask_for_two_patterns() -> None:
    grid = Grid(-75.0, -30.0, 1.5, 40, 100)
    east, north = grid.mesh()
    heaps = [np.exp(-((east - x) ** 2 + north**2) / (2.0 * 6.0**2)) for x in (-50.0, 50.0)]
    two = probability_map(grid, heaps[0] + 0.9 * heaps[1], 0.0)
    choice = choose_pattern(problem(700.0), two, rows=[free("circles")])
    assert choice.pair is not None
    assert choice.pair.clearly
    assert choice.pair.chance > choice.answers[0].chance
    assert choice.pair.minutes <= 700.0 / SPEED / 60.0 + 1e-6
    assert choice.pair.share_of_bound <= 1.0
    one = choose_pattern(problem(700.0), round_map(3.0), rows=[free("circles")])
    assert one.pair is None or not one.pair.clearly


def test_the_same_question_has_the_same_answer() -> None:
    first, again = (choose_pattern(problem(600.0), round_map(3.0), pairs=False) for _ in range(2))
    assert first.digest() == again.digest()
