"""The dives of a case, after all the other stages: they need the depth, the filling and the way up."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from parbuckle.dive.problem import DivingProblem
from parbuckle.dive.result import DivingResult
from parbuckle.dive.stage import solve
from parbuckle.plan.dive_inputs import diving_problem
from parbuckle.plan.stages import Stages


def with_dives(stages: Stages) -> Stages:
    """Work the dives out.

    Parameters
    ----------
    stages : Stages
        Case and what the stages before found.

    Returns
    -------
    Stages
        With the dives; the same where no dive has a task.

    Raises
    ------
    CaseError
        If dives of one person overlap, or a task cannot be.
    """
    problem = diving_problem(stages)
    if problem is None:
        return stages
    return replace(stages, diving_problem=problem, diving=_solved(_Question(problem.digest(), problem)))


class _Question(NamedTuple):
    """A problem that is told apart by its digest alone."""

    digest: str
    problem: DivingProblem

    def __hash__(self) -> int:
        return hash(self.digest)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Question) and self.digest == other.digest


@lru_cache(maxsize=16)
def _solved(question: _Question) -> DivingResult:
    """The same question is answered from memory."""
    return solve(question.problem)
