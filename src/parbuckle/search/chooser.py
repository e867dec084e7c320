"""Chooses the pattern: each is fitted to the map and the time, the best chance wins, and of equals the simpler one."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from parbuckle.search.choice_desk import Desk, Site
from parbuckle.search.fit_lanes import fit_lanes, fit_sector, fit_square, fit_wall
from parbuckle.search.fit_pair import best_pair
from parbuckle.search.fit_problem import PLACES, Fit
from parbuckle.search.fit_rounds import fit_arcs, fit_circles, middle_of
from parbuckle.search.fit_score import Fitted, climb_on
from parbuckle.search.legs import Pattern, Place
from parbuckle.search.pattern_result import Choice, PatternAnswer, PatternPair, PatternRefused
from parbuckle.search.practice import Practice, common, practices
from parbuckle.search.probability import ProbabilityMap
from parbuckle.search.problem import SearchProblem
from parbuckle.search.swim import seconds

_MINUTE = 60.0
_LED = ("circles", "jackstay")  # led by a line: these are paired


NOWHERE = Site()
"""No boat, no shore, no wall."""


def choose_pattern(
    problem: SearchProblem,
    before: ProbabilityMap,
    site: Site = NOWHERE,
    rows: Sequence[Practice] | None = None,
    pairs: bool = True,
) -> Choice:
    """Fit every pattern to the map and the time, and rank them.

    The pattern with the best chance is proposed, or the simplest of those that come near it. The bound has the same
    minutes, speed and law, the sweep width averaged over the same draws, and neither turns nor ways.

    Parameters
    ----------
    problem : SearchProblem
        Law, sweep width, speed, minutes, divers, visibility, gas.
    before : ProbabilityMap
        The map as it is now.
    site : Site
        Boat, shore and wall.
    rows : sequence of Practice or None
        Patterns to try with their times and errors; None: all of the data.
    pairs : bool
        Whether two patterns in one dive are tried as well.

    Returns
    -------
    Choice
        Answers, the proposed one first; no answers where nothing can be swum in the time.
    """
    desk = Desk(problem, before, site)
    found: list[tuple[Practice, Fit, Fitted]] = []
    refused: list[PatternRefused] = []
    centre: Place | None = None
    for row in rows or practices():
        missing = _missing(row, problem, site)
        fit = desk.fit(row, _MINUTE * problem.minutes)
        made = None if missing else _fitted(row, fit, desk, centre)
        if made is None:
            refused.append(PatternRefused(row.name, missing or "there is not time for one leg of it"))
            continue
        if row.name == "circles":
            centre = middle_of(made.pattern)
        found.append((row, fit, made))
    if not found:
        return Choice((), tuple(refused), None, np.zeros(before.grid.shape))
    top = max(made.score for _, _, made in found)
    near = common("good")
    answers = []
    for row, fit, made in found:
        close = made.score >= near * top
        best = climb_on(made, desk.fit(row, fit.seconds, PLACES)) if close else made
        answers.append((desk.chance(best.pattern, row, close), row, best.pattern))
    ranked = _ranked(answers)
    coverage = desk.coverage(ranked[0][2], ranked[0][1])
    led = [row for row in rows or practices() if row.name in _LED]
    pair = _two(desk, led, ranked, top) if pairs else None
    told = tuple(_answer(desk, chance, row, pattern, ranked) for chance, row, pattern in ranked)
    return Choice(told, tuple(refused), pair, coverage)


def _missing(row: Practice, problem: SearchProblem, site: Site) -> str:
    """What is not there for a pattern; empty when it can be swum."""
    there = {"nothing": True, "wall": bool(site.wall), "shore": bool(site.stands), "boat": site.boat}
    seen = float(np.median(problem.visibility))
    if not there[row.needs]:
        return f"it needs a {row.needs}, and none is given"
    if problem.divers < row.swimmers:
        return f"it needs {row.swimmers} swimmers, and there are {problem.divers}"
    if seen < row.least_visibility:
        return f"it needs {row.least_visibility:g} m of visibility, and there is {seen:.2g} m"
    return ""


def _fitted(row: Practice, fit: Fit, desk: Desk, centre: Place | None) -> Fitted | None:
    if row.name == "circles":
        return fit_circles(fit)
    if row.name == "arcs":
        return fit_arcs(fit, desk.site.stands)
    if row.name == "along a wall":
        return fit_wall(fit, desk.site.wall, desk.site.wall_side)
    if row.name in ("expanding square", "sector"):
        start = centre or (float(np.median(fit.east)), float(np.median(fit.north)))
        return fit_square(fit, start) if row.name == "expanding square" else fit_sector(fit, start)
    abreast = row.swimmers > 1
    seen = float(np.median(desk.problem.visibility))
    return fit_lanes(fit, desk.problem.divers if abreast else 1, seen if abreast else math.inf)


def _ranked(answers: list[tuple[float, Practice, Pattern]]) -> list[tuple[float, Practice, Pattern]]:
    """By chance; but of those near the best the simplest comes first."""
    by_chance = sorted(answers, key=lambda row: (-row[0], row[1].simple))
    enough = common("near") * by_chance[0][0]
    proposed = min((row for row in by_chance if row[0] >= enough), key=lambda row: row[1].simple)
    return [proposed, *(row for row in by_chance if row is not proposed)]


def _answer(
    desk: Desk, chance: float, row: Practice, pattern: Pattern, ranked: list[tuple[float, Practice, Pattern]]
) -> PatternAnswer:
    minutes = seconds(pattern, row, desk.speed) / _MINUTE
    bound = desk.bound(row)
    share = chance / bound if bound > 0.0 else 0.0
    judged = "good" if share >= common("good") else "fair" if share >= common("poor") else "poor"
    why = (
        f"{row.name}: {100.0 * chance:.0f} %, {100.0 * share:.0f} % of what is possible in "
        f"{desk.problem.minutes:.0f} minutes with this visibility"
    )
    best = max(ranked, key=lambda each: each[0])
    if pattern is ranked[0][2] and best[2] is not pattern:
        why += f"; {best[1].name} has {100.0 * best[0]:.0f} %, but this is simpler: {row.because}"
    reaches = minutes <= desk.problem.gas_minutes
    return PatternAnswer(
        pattern, chance, bound, minutes, reaches, desk.outside(pattern), judged, why, row.positions, row.snags
    )


def _two(
    desk: Desk, rows: list[Practice], ranked: list[tuple[float, Practice, Pattern]], top: float
) -> PatternPair | None:
    """Two patterns on lines in one dive, where they promise more than the best one alone."""
    alone = max(each[0] for each in ranked)
    found = best_pair(desk, rows, top)
    if found is None:
        return None
    (one, first), (two, second) = found
    seen = [desk.coverage(pattern, row)[desk.open] for row, pattern in found]
    chance = float(desk.ground.share @ (1.0 - (1.0 - seen[0]) * (1.0 - seen[1])))
    if chance <= alone:
        return None
    clearly = chance * common("near") > alone
    time = (seconds(first, one, desk.speed) + seconds(second, two, desk.speed) + common("move")) / _MINUTE
    why = f"{one.name}, then {two.name}: {100.0 * chance:.0f} %, more than one pattern alone ({100.0 * alone:.0f} %)"
    return PatternPair(first, second, (one.name, two.name), chance, desk.bound(one), time, clearly, why)
