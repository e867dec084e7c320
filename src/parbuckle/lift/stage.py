"""The lift stage: from a load and a register of bags to a set, its filling, its gas and its ascent."""

from __future__ import annotations

import numpy as np

from parbuckle.lift.ascent import body_of, control, end_depth, fall, let_go
from parbuckle.lift.choose import Choice, choose
from parbuckle.lift.marks import ceiling, marks, put_in
from parbuckle.lift.problem import LiftProblem
from parbuckle.lift.result import LiftResult
from parbuckle.lift.supply import filling, supply
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats


def solve(problem: LiftProblem, choice: Choice | None = None) -> LiftResult:
    """Choose bags and follow the lift from the first gas to the surface, left alone.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    choice : Choice, optional
        A choice made before, such as that of the ensemble for the run at middle inputs.

    Returns
    -------
    LiftResult
        Bands and chances are taken from its columns.

    Raises
    ------
    RangeError
        If there is no bag.
    """
    choice = choose(problem) if choice is None else choice
    if choice.best is None:
        raise RangeError("there is no bag to choose from")
    bags = {b.id: b for b in problem.bags}
    fill = tuple(bags[i] for i in choice.best.fill)
    empty = tuple(bags[i] for i in choice.best.empty)
    borne = problem.on_load + sum((b.weight for b in fill + empty), np.zeros_like(problem.wet))
    required = borne + problem.held
    really = np.array([b.really for b in fill])
    stop_at, ceiling_from = ceiling(problem, fill, borne)
    surplus = np.minimum(problem.breakout, np.maximum(stop_at - borne, 0.0))
    start = _start(problem, borne, surplus)
    gas = put_in(really, (borne + start) / problem.lift_density)
    body = body_of(problem, fill, required, gas)
    rise = let_go(problem, body, fill)
    lift = really.sum(axis=0) * problem.lift_density
    need = borne / problem.lift_density
    at_surface = sum((b.really for b in empty), really.sum(axis=0)) * problem.water_density
    return LiftResult(
        choice=choice,
        required=required,
        ceiling=stop_at,
        ceiling_from=ceiling_from,
        lift=lift,
        floats=lift >= borne,
        surplus_at_release=surplus,
        comes_free=borne + problem.breakout <= stop_at,
        surplus_start=start,
        reserve=(at_surface - required) / required,
        filling=filling(problem, fill, put_in(really, need), marks(problem, fill, stop_at), empty),
        supply=supply(problem, need, gas.sum(axis=0), empty),
        control=control(problem, fill, borne, body),
        left_alone=rise,
        start_depth=problem.depth,
        end_depth=end_depth(problem, fill),
        fall=fall(problem, rise),
    )


def _start(problem: LiftProblem, borne: Floats, surplus: Floats) -> Floats:
    """Give the net lift at lift-off: as the case says, else the rest of the break-out and a little too much gas."""
    if problem.surplus is not None:
        return problem.surplus
    return surplus + (problem.overfill * borne if problem.held == 0.0 else 0.0)
