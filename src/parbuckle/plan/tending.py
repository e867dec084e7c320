"""The stage under control, asked once: the same question is answered from memory."""

from __future__ import annotations

from dataclasses import dataclass

from parbuckle.lift.problem import LiftProblem
from parbuckle.lift.result import FillStep, LiftResult
from parbuckle.lift.tending import tend
from parbuckle.lift.tending_problem import TendingProblem
from parbuckle.lift.tending_result import TendingResult
from parbuckle.quantity.frozen import Floats, Frozen
from parbuckle.quantity.memory import memory


@dataclass(frozen=True)
class _Question(Frozen):
    problem: LiftProblem
    asked: TendingProblem
    filling: tuple[FillStep, ...]
    required: Floats


def tended(problem: LiftProblem, lift: LiftResult, asked: TendingProblem) -> TendingResult:
    """Follow the lift with the team on it, unless the very same lift and team were followed before.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    lift : LiftResult
        The chosen bags and their filling.
    asked : TendingProblem
        The team.

    Returns
    -------
    TendingResult
        One column for each draw.
    """
    question = _Question(problem, asked, lift.filling, lift.required)
    return memory.ask(question, lambda: tend(problem, lift, asked))
