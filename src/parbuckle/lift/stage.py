"""The lift stage: from a load and a register of bags to a set, its filling, its gas and its ascent."""

from __future__ import annotations

import numpy as np

from parbuckle.lift.ascent import body_of, control, end_depth, fall, let_go
from parbuckle.lift.choose import Choice, choose
from parbuckle.lift.problem import Bag, LiftProblem
from parbuckle.lift.result import LiftResult
from parbuckle.lift.supply import filling, supply
from parbuckle.quantity.band import LIKELY, LOW, at_share
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
    ceiling, ceiling_from = _ceiling(problem, fill, borne)
    surplus = np.minimum(problem.breakout, np.maximum(ceiling - borne, 0.0))
    start = _start(problem, borne, surplus)
    gas = _put_in(really, (borne + start) / problem.lift_density)
    body = body_of(problem, fill, required, gas)
    rise = let_go(problem, body, fill)
    lift = really.sum(axis=0) * problem.lift_density
    need = borne / problem.lift_density
    at_surface = sum((b.really for b in empty), really.sum(axis=0)) * problem.water_density
    return LiftResult(
        choice=choice,
        required=required,
        ceiling=ceiling,
        ceiling_from=ceiling_from,
        lift=lift,
        floats=lift >= borne,
        surplus_at_release=surplus,
        comes_free=borne + problem.breakout <= ceiling,
        surplus_start=start,
        reserve=(at_surface - required) / required,
        filling=filling(problem, fill, _put_in(really, need), _marks(problem, fill, ceiling), empty),
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


def _ceiling(problem: LiftProblem, fill: tuple[Bag, ...], required: Floats) -> tuple[float, str]:
    """Give the lift at which filling stops: light-end required lift plus what can be stopped, or the bags' marks."""
    stops = problem.restrained if problem.restrained > 0.0 else problem.rules.divers_stop
    by_stop = at_share(required, LOW) + stops
    by_mark = sum(b.marked for b in fill) * at_share(problem.lift_density, LIKELY)
    return (by_stop, "stop") if by_stop <= by_mark else (by_mark, "mark")


def _put_in(really: Floats, volume: Floats) -> Floats:
    """Share gas out over the bags in the order of filling, each up to what it really holds; shape (k, n)."""
    before = np.cumsum(really, axis=0) - really
    return np.clip(volume - before, 0.0, really)


def _marks(problem: LiftProblem, fill: tuple[Bag, ...], ceiling: float) -> tuple[float, ...]:
    """Give the mark on each bag where filling stops: the brim of the full ones, the ceiling's rest on the last."""
    volume = ceiling / at_share(problem.lift_density, LIKELY)
    rest = volume - sum(at_share(b.really, LIKELY) for b in fill[:-1])
    last = min(max(rest, 0.0), fill[-1].marked)
    return (*(b.marked for b in fill[:-1]), last)
