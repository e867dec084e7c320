"""Fits two patterns for one dive: the second takes what the first leaves, then each is fitted again beside it."""

from __future__ import annotations

from dataclasses import dataclass

from parbuckle.quantity.frozen import Floats
from parbuckle.search.choice_desk import Desk
from parbuckle.search.fit_lanes import fit_lanes
from parbuckle.search.fit_problem import FEW_PLACES, PLACES
from parbuckle.search.fit_rounds import fit_circles
from parbuckle.search.fit_score import Fitted, climb_on
from parbuckle.search.legs import Pattern
from parbuckle.search.practice import Practice, common, splits
from parbuckle.search.swim import seconds

_MINUTE = 60.0
_KEPT = 2  # splits of the time that are fitted on
_HOPE = 0.95  # of one alone: two that begin lower are not fitted on
_ROUNDS = 2  # times that each is fitted again beside the other

Swum = tuple[Practice, Pattern]
"""A pattern and how it is swum."""


@dataclass(frozen=True)
class _Half:
    """One of the two: how it is swum, its time, what was fitted."""

    row: Practice
    time: float
    fitted: Fitted


def best_pair(desk: Desk, rows: list[Practice], alone: float = 0.0) -> tuple[Swum, Swum] | None:
    """Find two patterns for one dive.

    Parameters
    ----------
    desk : Desk
        The choice.
    rows : list of Practice
        Patterns of which the two are made.
    alone : float
        Quick score of the best one alone.

    Returns
    -------
    tuple of two, each of Practice and Pattern, or None
        In the order in which they are swum; None where the time does not allow two, or one alone does as well.
    """
    whole = _MINUTE * desk.problem.minutes
    tried: list[tuple[float, _Half, _Half]] = []
    for part in splits():
        first = _best(desk, rows, part * whole, None)
        if first is None:
            continue
        left = whole - common("move") - seconds(first.fitted.pattern, first.row, desk.speed)
        second = _best(desk, rows, left, first) if left > 0.0 else None
        if second is not None:
            tried.append((first.fitted.score + second.fitted.score, first, second))
    tried.sort(key=lambda each: -each[0])
    if not tried or tried[0][0] <= _HOPE * alone:
        return None
    again = [_together(desk, first, second, FEW_PLACES) for _, first, second in tried[:_KEPT]]
    promised, first, second = max(again, key=lambda each: each[0])
    if promised <= alone:
        return None
    _, first, second = _together(desk, first, second, PLACES // 2, 1)
    return (first.row, first.fitted.pattern), (second.row, second.fitted.pattern)


def _best(desk: Desk, rows: list[Practice], time: float, other: _Half | None) -> _Half | None:
    made: list[_Half] = []
    for row in rows:
        fit = desk.fit(row, time, FEW_PLACES, _left(desk, other, row, FEW_PLACES))
        found = fit_circles(fit, walk=False) if row.name == "circles" else fit_lanes(fit, walk=False)
        made += [_Half(row, time, found)] if found else []
    return max(made, key=lambda each: each.fitted.score, default=None)


def _left(desk: Desk, other: _Half | None, row: Practice, count: int) -> Floats | None:
    """Chance that the other pattern misses it at each of the places of this one."""
    if other is None:
        return None
    return other.fitted.quick.missed(other.fitted.numbers, *desk.places(row.error.placement, count))


def _together(desk: Desk, first: _Half, second: _Half, count: int, rounds: int = _ROUNDS) -> tuple[float, _Half, _Half]:
    """Fit each again beside the other, in turn; with the chance of both."""
    for _ in range(rounds):
        first = _beside(desk, first, second, count)
        second = _beside(desk, second, first, count)
    alone = first.fitted.quick.on(desk.fit(first.row, first.time, count)).score(first.fitted.numbers)
    return alone + second.fitted.score, first, second


def _beside(desk: Desk, one: _Half, other: _Half, count: int) -> _Half:
    fit = desk.fit(one.row, one.time, count, _left(desk, other, one.row, count))
    return _Half(one.row, one.time, climb_on(one.fitted, fit))
