"""The dives of a case, after all the other stages: they need the depth, the filling and the way up."""

from __future__ import annotations

from dataclasses import replace

from parbuckle.dive.stage import solve
from parbuckle.plan.dive_inputs import diving_problem
from parbuckle.plan.stages import Stages
from parbuckle.quantity.memory import memory


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
    return replace(stages, diving_problem=problem, diving=memory.ask(problem, lambda: solve(problem)))
