"""The search of a case: map, passes, patterns, bounds and the dives after the first one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from parbuckle.plan.search_inputs import SearchAsked, search_asked
from parbuckle.plan.search_passes import Swum, passes_of, seen_on
from parbuckle.plan.stages import Stages
from parbuckle.quantity.frozen import Frozen
from parbuckle.quantity.memory import memory
from parbuckle.search.bayes import Proof, after, chance_of_success, proved
from parbuckle.search.bounds import bounds
from parbuckle.search.chooser import choose_pattern
from parbuckle.search.numbers import number
from parbuckle.search.pattern_result import Choice
from parbuckle.search.practice import Practice
from parbuckle.search.probability import ProbabilityMap
from parbuckle.search.result import Bounds, Caution
from parbuckle.search.told import cautions, map_of

_DIVES = 3  # dives that are planned after one another
_MINUTE = 60.0


@dataclass(frozen=True)
class NextDive:
    """One dive of the sequence.

    Parameters
    ----------
    choice : Choice
        Its pattern, on the map that the dives before have left.
    chance : float
        Chance that it finds the object on this dive, seen from before the first one.
    cumulative : float
        Chance that this dive or one before it finds it.
    """

    choice: Choice
    chance: float
    cumulative: float


@dataclass(frozen=True)
class Searched:
    """Everything that the search found.

    Parameters
    ----------
    asked : SearchAsked
        What it was asked.
    prior : ProbabilityMap
        Before any pass.
    now : ProbabilityMap
        After the passes that were swum.
    swum : tuple of Swum
        Passes.
    had : tuple of float
        Chance that each pass had to find it, when it was swum.
    proof : Proof or None
        What they have proved; None without a pass.
    choice : Choice
        Patterns, the proposed one first.
    limits : Bounds
        What no plan can beat.
    sequence : tuple of NextDive
        The next dives; the first is the proposed one.
    cautions : tuple of Caution
        About the accounts.
    """

    asked: SearchAsked
    prior: ProbabilityMap
    now: ProbabilityMap
    swum: tuple[Swum, ...]
    had: tuple[float, ...]
    proof: Proof | None
    choice: Choice
    limits: Bounds
    sequence: tuple[NextDive, ...]
    cautions: tuple[Caution, ...]


@dataclass(frozen=True)
class _Question(Frozen):
    asked: SearchAsked
    swum: tuple[Swum, ...]
    whole: bool


def searched(stages: Stages, minutes: float | None = None, whole: bool = True) -> Searched | None:
    """Work the search of a case out; the same question is answered from memory.

    Parameters
    ----------
    stages : Stages
        Case and what the stages before found.
    minutes : float, optional
        Time on the pattern, min; left out: as the case says.
    whole : bool
        True looks for two patterns in one dive and plans the dives after it as well.

    Returns
    -------
    Searched or None
        None when nobody told anything and no area is given.

    Raises
    ------
    CaseError
        If an account or a pass is not whole.
    RangeError
        If no cell that can be searched holds a chance.
    """
    asked = search_asked(stages, minutes)
    if asked is None:
        return None
    prior = memory.ask(asked.problem, lambda: map_of(asked.problem))
    swum = passes_of(stages, asked, prior)
    return memory.ask(_Question(asked, swum, whole), lambda: _work_out(asked, prior, swum, whole))


def _work_out(asked: SearchAsked, prior: ProbabilityMap, swum: Sequence[Swum], whole: bool) -> Searched:
    problem, now, had, pods = asked.problem, prior, [], []
    for one in swum:
        pod = seen_on(now, asked, one)
        had.append(chance_of_success(now, pod))
        pods.append(pod)
        now = after(now, pod)
    choice = choose_pattern(problem, now, asked.site, asked.rows, pairs=whole)
    length = _MINUTE * problem.minutes * float(np.median(problem.speed))
    return Searched(
        asked=asked,
        prior=prior,
        now=now,
        swum=tuple(swum),
        had=tuple(had),
        proof=proved(prior, pods, number("proof", "enough")) if pods else None,
        choice=choice,
        limits=bounds(now, problem.law, problem.sweep_width, length, problem.p0),
        sequence=_sequence(asked, now, choice) if whole else (),
        cautions=cautions(problem.accounts),
    )


def _sequence(asked: SearchAsked, now: ProbabilityMap, first: Choice) -> tuple[NextDive, ...]:
    """Each dive takes the proposed pattern where the dives before have left most."""
    dives: list[NextDive] = []
    rows = _of_kind(asked.rows, first)
    choice, left, total = first, 1.0, 0.0
    for n in range(_DIVES if first.answers else 0):
        if n:
            choice = choose_pattern(asked.problem, now, asked.site, rows, pairs=False)
            if not choice.answers:
                break
        found = left * chance_of_success(now, choice.coverage)
        total += found
        dives.append(NextDive(choice, found, total))
        left, now = left - found, after(now, choice.coverage)
    return tuple(dives)


def _of_kind(rows: Sequence[Practice], choice: Choice) -> tuple[Practice, ...]:
    name = choice.answers[0].pattern.name if choice.answers else ""
    return tuple(replace(row) for row in rows if row.name == name)
