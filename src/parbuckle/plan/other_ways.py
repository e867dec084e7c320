"""The other ways up and down of a plan, worked out: bag and line, alone in its phases, lowering."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from parbuckle.case.kit import Kit
from parbuckle.case.model import Case
from parbuckle.lift.bag_and_line import LineLiftResult, line_lift
from parbuckle.lift.choose import choose
from parbuckle.lift.lowering import LoweringResult, lowering
from parbuckle.lift.phases import PhasesResult, phases
from parbuckle.lift.problem import LiftProblem
from parbuckle.lift.result import LiftResult
from parbuckle.load.result import LoadResult
from parbuckle.plan.asking import Asking
from parbuckle.plan.other_ways_inputs import line_lift_problem, lowering_problem, phases_problem
from parbuckle.quantity.memory import memory

LOWERED = "lowered"
"""The method of a load that is put down and not lifted."""


@dataclass(frozen=True)
class OtherWays:
    """What was worked out besides a lift beside the load; None where it does not apply.

    Parameters
    ----------
    line : LineLiftResult or None
        Bag and line.
    alone : PhasesResult or None
        A load that goes up alone, after the break-out.
    down : LoweringResult or None
        A load that is put down.
    """

    line: LineLiftResult | None = None
    alone: PhasesResult | None = None
    down: LoweringResult | None = None


def other_ways(
    case: Case,
    kit: Kit | None,
    asking: Asking,
    method: str | None,
    problem: LiftProblem,
    load: LoadResult,
    lift: LiftResult | None,
) -> OtherWays:
    """Work out the way that this plan takes, and the way down where the case tells of one.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit or None
        Its kit.
    asking : Asking
        Where inputs are drawn.
    method : str or None
        Method of the plan.
    problem : LiftProblem
        Water, bags, rules.
    load : LoadResult
        What it weighs.
    lift : LiftResult or None
        The lift with its bags; None without bags.

    Returns
    -------
    OtherWays
        One part for each way.
    """
    best = lift.choice.best if lift is not None else None
    line = alone = down = None
    if lift is not None and best is not None and method == "bag and line":
        line_asked = line_lift_problem(case, kit, asking, problem, best)
        line = memory.ask(line_asked, lambda: line_lift(line_asked))
    if lift is not None and best is not None and method == "unaccompanied":
        surplus = np.maximum(lift.ceiling - lift.required, 0.0)
        alone_asked = phases_problem(case, kit, problem, best, surplus)
        alone = memory.ask(alone_asked, lambda: phases(alone_asked))
    if case.lowering is not None or method == LOWERED:
        asked = lowering_problem(case, kit, asking, problem, load, best.fill if best else bags_down(case, problem))
        down = memory.ask(asked, lambda: lowering(asked)) if asked is not None else None
    return OtherWays(line, alone, down)


def bags_down(case: Case, problem: LiftProblem) -> tuple[str, ...]:
    """Give the bags that carry a load down when nothing is lifted: those of the case, else those that carry it best.

    Parameters
    ----------
    case : Case
        The case.
    problem : LiftProblem
        Load and bags.

    Returns
    -------
    tuple of str
        Ids in the order of filling; empty when a line alone lets it down, or there is no bag.
    """
    if case.lowering is None or case.lowering.way in (None, "line"):
        return ()
    best = choose(replace(problem, method="bag and line")).best
    return best.fill if best is not None else ()
