"""The choice of bags and the lift, asked once: the same question is answered from memory."""

from __future__ import annotations

from dataclasses import dataclass, replace

from parbuckle.lift.choose import Choice, Judged, choose
from parbuckle.lift.problem import LiftProblem
from parbuckle.lift.result import LiftResult
from parbuckle.lift.stage import solve
from parbuckle.quantity.frozen import Frozen
from parbuckle.quantity.memory import memory


@dataclass(frozen=True)
class _Choosing(Frozen):
    problem: LiftProblem
    restrained: float
    alone: bool


@dataclass(frozen=True)
class _Lifting(Frozen):
    problem: LiftProblem
    choice: Choice


def choices_of(problem: LiftProblem, restrained: float, alone: bool) -> dict[str, Choice]:
    """Choose bags under each method that uses them.

    Parameters
    ----------
    problem : LiftProblem
        The lift under the method that is asked for, or with divers beside it.
    restrained : float
        Weight in water that a restraint holds, kg.
    alone : bool
        True when a load that goes up alone is looked at as well.

    Returns
    -------
    dict of str to Choice
        By method.
    """
    return dict(memory.ask(_Choosing(problem, restrained, alone), lambda: _chosen(problem, restrained, alone)))


def lifted(problem: LiftProblem, choice: Choice) -> LiftResult:
    """Follow the lift of a choice, unless the very same lift was followed before.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    choice : Choice
        Its bags.

    Returns
    -------
    LiftResult
        One column for each draw.
    """
    return memory.ask(_Lifting(problem, choice), lambda: solve(problem, choice))


def _chosen(problem: LiftProblem, restrained: float, alone: bool) -> tuple[tuple[str, Choice], ...]:
    judged: Judged = {}
    found = [
        (way, choose(replace(problem, method=way, restrained=held, held=0.0), judged))
        for way, held in (("accompanied", 0.0), *([("unaccompanied", restrained)] if alone else []))
    ]
    own = problem.method == "bag and line"
    return (*found, ("bag and line", choose(problem) if own else found[0][1]))
