"""The stage under control, asked once: the same question is answered from memory."""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass
from threading import Lock

from parbuckle.lift.problem import LiftProblem
from parbuckle.lift.result import FillStep, LiftResult
from parbuckle.lift.tending import tend
from parbuckle.lift.tending_problem import TendingProblem
from parbuckle.lift.tending_result import TendingResult
from parbuckle.quantity.frozen import Floats, Frozen

_KEPT = 16


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
    digest = _Question(problem, asked, lift.filling, lift.required).digest()
    with _lock:
        if digest in _answers:
            _answers.move_to_end(digest)
            return _answers[digest]
    found = tend(problem, lift, asked)
    with _lock:
        _answers[digest] = found
        while len(_answers) > _KEPT:
            _answers.popitem(last=False)
    return found


_answers: OrderedDict[str, TendingResult] = OrderedDict()
_lock = Lock()
