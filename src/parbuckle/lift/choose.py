"""The choice of bags from what is owned: control is a gate, not lifting is a cost.

Gates, in this order: no full bag lifts the light load alone (unless restrained); the team is faster than the growth
and a runaway stays under the house bound (accompanied), or there is a restraint (unaccompanied); it floats with the
asked-for chance; the reserve at the surface is reached, if need be with bags carried up empty. Among the sets that
pass: fewest bags rigged on the bottom, then the longest delay budget, then fewest empty bags, then ids.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np

from parbuckle.lift.problem import LiftProblem
from parbuckle.lift.sets import BagTable, Sets, bag_table, judge_sets

FIRST_DRAWS = 1024
"""The choice looks at the first so many draws, whatever the number of draws of the plan."""

_BUDGET_STEP = 0.05  # s: delay budgets nearer than this are a tie
_LONG = 99.0  # s: delay budgets above this are as good as endless
_MOST_BAGS = 6  # more bags than this are not rigged on the bottom by two people
_SHOWN = 6

Judged = dict[tuple[int, bool], Sets]
"""Closed forms by number of bags and whether a restraint holds the load."""

GATES = ("spare", "light", "budget", "runaway", "restraint", "float", "reserve")
"""Names of the gates in the order in which they are asked."""


@dataclass(frozen=True)
class Candidate:
    """One set of bags with what its closed forms say.

    Parameters
    ----------
    fill : tuple of str
        Ids in the order of filling; the last one in part.
    empty : tuple of str
        Ids carried up empty and filled at the surface.
    failed : tuple of str
        Gates that it does not pass; empty when it passes all.
    chance : float
        Share of draws in which it floats the load.
    budget : float
        Delay budget, s.
    runaway : float
        Bound of the speed of a runaway, m/s.
    light_lift : float
        How much its strongest full bag lifts over the light load, kg.
    reserve : float
        Lift of all bags over the required lift at the surface, share.
    """

    fill: tuple[str, ...]
    empty: tuple[str, ...]
    failed: tuple[str, ...]
    chance: float
    budget: float
    runaway: float
    light_lift: float
    reserve: float

    def rank(self) -> tuple[int, float, int, tuple[str, ...], tuple[str, ...]]:
        """Give the order of preference: smaller is better.

        Returns
        -------
        tuple
            Bags on the bottom, quantised budget, empty bags, ids.
        """
        steps = -np.floor(self.budget / _BUDGET_STEP + 1e-9) if np.isfinite(self.budget) else -np.inf
        return len(self.fill), float(steps), len(self.empty), tuple(sorted(self.fill)), tuple(sorted(self.empty))


@dataclass(frozen=True)
class Choice:
    """What was chosen and what was not.

    Parameters
    ----------
    best : Candidate or None
        The chosen set; None when there is no bag to choose from.
    passes : bool
        True when it passes every gate.
    others : tuple of Candidate
        The few next best and the most telling that fall out.
    """

    best: Candidate | None
    passes: bool
    others: tuple[Candidate, ...]


def choose(problem: LiftProblem, judged: Judged | None = None) -> Choice:
    """Choose the bags, or judge the ones that the case asks for.

    Parameters
    ----------
    problem : LiftProblem
        The lift; ``wanted`` fixes the set.
    judged : dict, optional
        Closed forms by number of bags, kept from a choice under another method and added to.

    Returns
    -------
    Choice
        The best set, whether it passes, and others for comparison.
    """
    table = bag_table(problem, FIRST_DRAWS)
    if not table.ids:
        return Choice(None, False, ())
    if problem.wanted is not None:
        return _wanted(problem, table, problem.wanted)
    seen: list[Candidate] = []
    best: Candidate | None = None
    for size in range(1, min(len(table.ids), _MOST_BAGS) + 1):
        if best is not None:  # what one more bag would buy
            more = judge_sets(problem, table, size, holding=tuple(table.ids.index(i) for i in best.fill))
            seen += [_candidate(problem, table, more, i) for i in range(len(more.rows))]
            break
        found = candidates(problem, table, size, judged)
        seen += found
        best = min((c for c in found if not c.failed), key=Candidate.rank, default=None)
    if best is None:
        best = min(seen, key=_nearest)
    rest = [c for c in seen if c is not best]
    return Choice(best, not best.failed, _telling(rest, best))


def candidates(problem: LiftProblem, table: BagTable, size: int, judged: Judged | None = None) -> list[Candidate]:
    """Judge every set of a size and name the gates that each fails.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    table : BagTable
        Its bags.
    size : int
        Number of bags rigged on the bottom.
    judged : dict, optional
        Closed forms that are kept.

    Returns
    -------
    list of Candidate
        One for each set.
    """
    kept, key = judged if judged is not None else {}, (size, problem.restrained > 0.0)
    if key not in kept:
        kept[key] = judge_sets(problem, table, size)
    sets = kept[key]
    return [_candidate(problem, table, sets, i) for i in range(len(sets.rows))]


def _wanted(problem: LiftProblem, table: BagTable, wanted: tuple[str, ...]) -> Choice:
    numbers = tuple(sorted(table.ids.index(i) for i in wanted))
    best = _candidate(problem, table, judge_sets(problem, table, len(numbers), numbers), 0)
    smaller = [c for size in (1, 2) if size < len(table.ids) for c in candidates(problem, table, size)]
    others = [c for c in smaller if sorted(c.fill) != sorted(best.fill)]
    return Choice(best, not best.failed, _telling(others, best))


def _candidate(problem: LiftProblem, table: BagTable, sets: Sets, i: int) -> Candidate:
    rules = problem.rules
    fill = tuple(table.ids[j] for j in sets.rows[i])
    empty, reserve = _reserve(rules.reserve, table, tuple(int(j) for j in sets.rows[i]), float(sets.lift[i]))
    accompanied = problem.method != "unaccompanied"
    checks = {
        "spare": bool(sets.spare[i]),
        "light": problem.restrained <= 0.0 and sets.light_lift[i] >= 0.0,
        "budget": accompanied and sets.budget[i] < rules.reaction,
        "runaway": accompanied and sets.runaway[i] > rules.runaway_speed,
        "restraint": not accompanied and problem.restrained <= 0.0,
        "float": sets.chance[i] < rules.float_chance,
        "reserve": reserve < rules.reserve,
    }
    failed = tuple(gate for gate in GATES if checks[gate])
    return Candidate(
        fill,
        empty,
        failed,
        float(sets.chance[i]),
        float(sets.budget[i]),
        float(sets.runaway[i]),
        float(sets.light_lift[i]),
        reserve,
    )


def _reserve(wanted: float, table: BagTable, used: tuple[int, ...], lift: float) -> tuple[tuple[str, ...], float]:
    """Add the fewest, then smallest, bags carried up empty until the reserve is reached; give them and the reserve."""
    missing = table.need * (1.0 + wanted) - lift
    left = [j for j in range(len(table.ids)) if j not in used]
    pick: tuple[int, ...] = ()
    if missing > 0.0 and left:
        some = [c for count in (1, 2) for c in combinations(left, count)]
        extra = {c: sum(table.extra[j] for j in c) for c in some}
        fits = [c for c in some if extra[c] >= missing]
        pick = (
            min(fits, key=lambda c: (len(c), round(extra[c], 6), [table.ids[j] for j in c]))
            if fits
            else max(some, key=lambda c: (round(extra[c], 6), [table.ids[j] for j in c]))
        )
    lift += sum(table.extra[j] for j in pick)
    return tuple(table.ids[j] for j in pick), lift / table.need - 1.0


def _nearest(c: Candidate) -> tuple[object, ...]:
    """Order sets that all fail: those that float the load by fewest failed gates, the rest by what they lift."""
    if "float" in c.failed:
        return 1, "spare" in c.failed, -round(c.chance, 3), -round(c.reserve, 3), c.rank()
    return 0, "spare" in c.failed, len(c.failed), -min(c.budget, _LONG), c.rank()


def _telling(rest: list[Candidate], best: Candidate) -> tuple[Candidate, ...]:
    """Pick the few that teach most: the next that pass, then those that fail just one gate, each gate once or twice."""
    passing = sorted((c for c in rest if not c.failed), key=Candidate.rank)[:3]
    single = sorted((c for c in rest if len(c.failed) == 1), key=Candidate.rank)
    shown = list(passing)
    for gate in ("budget", "runaway", "light", "float", "reserve", "restraint"):
        shown += [c for c in single if c.failed == (gate,)][:1]
    alone = [c for c in rest if len(c.fill) == 1 and c.chance >= best.chance and c not in shown]
    shown += sorted(alone, key=_nearest)[:1]
    return tuple(shown[:_SHOWN])
