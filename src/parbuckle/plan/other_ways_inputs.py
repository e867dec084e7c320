"""From case, kit and the lift to the other ways up and down: bag and line, alone in its phases, lowering."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from parbuckle.case.kit import Kit, Line
from parbuckle.case.model import Case
from parbuckle.lift.ascent import body_of, end_depth
from parbuckle.lift.bag_and_line import LineLiftProblem
from parbuckle.lift.choose import Candidate
from parbuckle.lift.lowering import LoweringProblem
from parbuckle.lift.marks import put_in
from parbuckle.lift.phases import CrownProblem, PhasesProblem
from parbuckle.lift.problem import Bag, LiftProblem
from parbuckle.lift.sets import two_thirds
from parbuckle.load.result import LoadResult
from parbuckle.physics.constants import MOLAR_MASS_AIR, G, R
from parbuckle.physics.pressure import absolute_pressure
from parbuckle.plan.asking import Asking
from parbuckle.plan.defaults import defaults
from parbuckle.plan.people import lift_dive
from parbuckle.quantity.band import LIKELY, at_share
from parbuckle.quantity.frozen import Floats

HANDS = ("boat", "line handler", "tender")
"""Roles that can pull on a line."""

_ROW = 3.0  # m between the rows of the table of a load on its way down
_NO_BAG = 1e-9  # m3: capacity of the one bag that stands for none


def line_of(case: Case, kit: Kit | None, name: str | None) -> Line | None:
    """Give a line of the kit.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit or None
        Its kit.
    name : str or None
        Id; None: the line to the surface.

    Returns
    -------
    Line or None
        None when there is none of that name.
    """
    asked = name or case.surface.line_to_surface
    return next((line for line in kit.line if line.id == asked), None) if kit else None


def hands_of(case: Case) -> int | None:
    """Count those who can pull on a line on the day of the lift.

    Parameters
    ----------
    case : Case
        The case.

    Returns
    -------
    int or None
        None when no team is told.
    """
    dive = lift_dive(case)
    return sum(member.role in HANDS for member in dive.team) if dive is not None and dive.team else None


def kept_heavy(case: Case, asking: Asking) -> Floats:
    """Draw how much heavier than neutral a load is kept under bag and line.

    Parameters
    ----------
    case : Case
        The case.
    asking : Asking
        Where inputs are drawn.

    Returns
    -------
    Floats
        kg, shape (n,).
    """
    value = case.lift.kept_heavy or defaults()["kept_heavy"].value
    return asking.ensemble.draw("lift.kept_heavy", value)


def lowering_speed(case: Case, asking: Asking) -> float:
    """Give the speed of a load on its way down.

    Parameters
    ----------
    case : Case
        The case.
    asking : Asking
        Where defaults are noted.

    Returns
    -------
    float
        m/s.
    """
    told = case.lowering
    return asking.known("lowering.speed", told.speed if told else None, "lowering_speed").mid


def line_lift_problem(
    case: Case, kit: Kit | None, asking: Asking, problem: LiftProblem, best: Candidate
) -> LineLiftProblem:
    """Give the question of bag and line.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit or None
        Its kit.
    asking : Asking
        Where inputs are drawn.
    problem : LiftProblem
        The lift, worked out for bag and line.
    best : Candidate
        The chosen bags.

    Returns
    -------
    LineLiftProblem
        One column for each draw.
    """
    fill = chosen(problem, best.fill)
    required = _required(problem, chosen(problem, best.fill + best.empty))
    really = np.array([b.really for b in fill])
    gas = put_in(really, np.maximum(required - kept_heavy(case, asking), 0.0) / problem.lift_density)
    line = line_of(case, kit, None)
    return LineLiftProblem(
        body=body_of(problem, fill, required, gas),
        depth=problem.depth,
        end=end_depth(problem, fill),
        breakout=problem.breakout,
        rate=problem.target,
        strength=line.strength.low if line and line.strength else None,
        kept=line.knot.low if line and line.knot else None,
        hands=hands_of(case),
    )


def phases_problem(
    case: Case, kit: Kit | None, problem: LiftProblem, best: Candidate, surplus: Floats
) -> PhasesProblem:
    """Give the question of a load that goes up alone: let go neutral, with a little too much gas.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit or None
        Its kit.
    problem : LiftProblem
        The lift, worked out for a load that goes up alone.
    best : Candidate
        The chosen bags.
    surplus : Floats
        Lift left over at break-out, kg, shape (n,).

    Returns
    -------
    PhasesProblem
        One column for each draw.
    """
    fill = chosen(problem, best.fill)
    required = _required(problem, chosen(problem, best.fill + best.empty))
    really = np.array([b.really for b in fill])
    gas = put_in(really, required * (1.0 + problem.overfill) / problem.lift_density)
    return PhasesProblem(
        body=body_of(problem, fill, required, gas),
        depth=problem.depth,
        end=end_depth(problem, fill),
        surplus=surplus,
        lift_density=problem.lift_density,
        crown=_crown(case, kit, problem, fill),
    )


def lowering_problem(
    case: Case, kit: Kit | None, asking: Asking, problem: LiftProblem, load: LoadResult, ids: tuple[str, ...]
) -> LoweringProblem | None:
    """Give the question of a load that is put down.

    Parameters
    ----------
    case : Case
        The case; needs ``lowering.way``.
    kit : Kit or None
        Its kit.
    asking : Asking
        Where inputs are drawn.
    problem : LiftProblem
        Water, depths and bags.
    load : LoadResult
        What it weighs.
    ids : tuple of str
        Bags that carry it, in the order of filling.

    Returns
    -------
    LoweringProblem or None
        None when the way down is not told, or a bag is needed and there is none.
    """
    told = case.lowering
    if told is None or told.way is None:
        asking.lacks("lowering.way", "lowering", "It goes down under a bag, on a line, or both.")
        return None
    fill = () if told.way == "line" else chosen(problem, ids)
    if told.way != "line" and not fill:
        asking.lacks("lift.bags", "lowering", "A bag carries it down; none is known.")
        return None
    weight = problem.wet + problem.rigging + sum((b.weight for b in fill), np.zeros_like(load.wet_weight))
    start = end_depth(problem, fill) if fill else np.zeros_like(problem.depth)
    line = line_of(case, kit, told.line) if told.way != "bag" else None
    if told.way != "bag" and (line is None or line.strength is None):
        asking.lacks("lowering.line", "lowering", "A line of known strength holds it.")
    body = body_of(problem, fill or (_none(problem),), weight, np.zeros((max(len(fill), 1), start.size)))
    if fill:
        pressure = absolute_pressure(start - problem.strop, problem.water_density, problem.surface_pressure)
        lift = problem.water_density - pressure * (MOLAR_MASS_AIR / R) / problem.temperature
        need = np.maximum(weight - kept_heavy(case, asking), 0.0) / lift
        gas = put_in(np.array([b.really for b in fill]), need)
        body = replace(body_of(problem, fill, weight, gas), gas_pressure=pressure)
    return LoweringProblem(
        way=told.way,
        body=body,
        start=start,
        depth=problem.depth,
        speed=lowering_speed(case, asking),
        steps=_steps(at_share(start, LIKELY), at_share(problem.depth, LIKELY)),
        stream=problem.stream,
        angle=problem.rules.falling_angle,
        share=problem.rules.clear_share,
        divers_stop=problem.rules.divers_stop,
        strength=line.strength.low if line and line.strength else None,
        kept=line.knot.low if line and line.knot else None,
        turns=told.turns or 0,
    )


def chosen(problem: LiftProblem, ids: tuple[str, ...]) -> tuple[Bag, ...]:
    """Give bags by their ids.

    Parameters
    ----------
    problem : LiftProblem
        Holds the bags.
    ids : tuple of str
        Which.

    Returns
    -------
    tuple of Bag
        In the same order.
    """
    owned = {b.id: b for b in problem.bags}
    return tuple(owned[i] for i in ids)


def _required(problem: LiftProblem, bags: tuple[Bag, ...]) -> Floats:
    return problem.on_load + problem.held + sum((b.weight for b in bags), np.zeros_like(problem.wet))


def _crown(case: Case, kit: Kit | None, problem: LiftProblem, fill: tuple[Bag, ...]) -> CrownProblem | None:
    told = case.lift.crown_line
    line = line_of(case, kit, told.line) if told and told.line else None
    if line is None or line.strength is None or line.length is None or line.stretch is None:
        return None
    bag = max(fill, key=lambda b: at_share(b.really, LIKELY))
    return CrownProblem(
        lift=np.maximum(bag.really * problem.lift_density - bag.weight, 0.0) * G,
        mass=bag.mass + problem.bag_added_factor * problem.water_density * bag.really,
        drag_area=problem.drag_factor * two_thirds(bag.really),
        density=problem.water_density,
        reach=problem.strop + bag.height,
        length=line.length.mid,
        strength=line.strength.low,
        stretch=line.stretch.mid,
        kept=line.knot.low if line.knot else None,
    )


def _none(problem: LiftProblem) -> Bag:
    zero = np.zeros_like(problem.wet)
    return Bag("none", "open", _NO_BAG, zero + _NO_BAG, zero, zero, 0.0)


def _steps(start: float, depth: float) -> tuple[float, ...]:
    """Depths of the table: the start, every three metres, the bottom."""
    between = np.arange(np.ceil(start / _ROW) * _ROW, depth, _ROW)
    near = _ROW / 3.0
    return (start, *(float(d) for d in between if d - start > near and depth - d > near), depth)
