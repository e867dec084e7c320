"""Which ways up the case and the kit allow, and which one is proposed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.case.kit import Kit
from parbuckle.case.model import Case
from parbuckle.duties.house import House
from parbuckle.lift.choose import Choice
from parbuckle.lift.hauling import HaulProblem, HaulResult, hauling
from parbuckle.lift.method import WITH_BAGS, MethodRow, row
from parbuckle.load.result import LoadResult
from parbuckle.physics.constants import G
from parbuckle.plan.surface_inputs import onward
from parbuckle.quantity.band import HIGH, LIKELY, at_share
from parbuckle.quantity.frozen import Floats

GATE_WORDS = {
    "spare": "one bag more than is needed",
    "light": "a full bag alone lifts the light load while it is being filled",
    "budget": "it grows faster than the team reacts",
    "runaway": "if it gets away it is too fast",
    "restraint": "there is no restraint to hold it",
    "float": "it may not lift the load",
    "reserve": "too little reserve at the surface",
}
"""What each gate says when a set of bags does not pass it."""


@dataclass(frozen=True)
class WaysUp:
    """The comparison of the ways up.

    Parameters
    ----------
    rows : tuple of MethodRow
        All ways, the safest first.
    haul : HaulResult or None
        What the line to the surface feels; None without a line.
    """

    rows: tuple[MethodRow, ...]
    haul: HaulResult | None


def ways_up(
    case: Case,
    kit: Kit | None,
    house: House,
    load: LoadResult,
    depth: Floats,
    choices: dict[str, Choice],
    restrained: float,
) -> WaysUp:
    """Compare the ways up.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit or None
        What the team owns.
    house : House
        House rules.
    load : LoadResult
        What it weighs.
    depth : Floats
        Depth of the load, m, shape (n,).
    choices : dict of str to Choice
        Choice of bags under each method that uses bags.
    restrained : float
        What a restraint can stop, kg.

    Returns
    -------
    WaysUp
        One row for each method.
    """
    rate = case.lift.rate.target.mid if case.lift.rate.target else house["target"]
    rise = at_share(depth, LIKELY) / rate
    high = at_share(load.wet_weight, HIGH)
    stuck = at_share(load.breakout, HIGH)
    carry = house["carry_limit"]
    haul = _haul(case, kit, load)
    light = high + stuck <= carry
    by_hand = f"{high + stuck:.0f} kg in water with break-out"
    rows = [
        row("carried", light, f"{by_hand}; the house limit for a load in the hands is {carry:.0f} kg.", 0.0, rise),
        _hauled(case, haul, rise),
    ]
    rows += [_with_bags(case, m, choices.get(m), haul, restrained, rise, load) for m in WITH_BAGS]
    rows.append(row("crane or others", True, "Always left: somebody with a crane, or nobody at all.", 0.0))
    return WaysUp(tuple(rows), haul)


def should_fall(load: LoadResult) -> float:
    """Give what a line under bag and line holds should the bag fail: the weight in water, high end.

    Parameters
    ----------
    load : LoadResult
        What it weighs.

    Returns
    -------
    float
        N.
    """
    return max(at_share(load.wet_weight, HIGH), 0.0) * G


def _haul(case: Case, kit: Kit | None, load: LoadResult) -> HaulResult | None:
    lines = {line.id: line for line in kit.line} if kit else {}
    line = lines.get(case.surface.line_to_surface or "")
    if line is None or line.strength is None:
        return None
    pull = np.maximum(load.wet_weight + load.breakout, 0.0) * G
    way = onward(case.surface.then)
    out = load.leaving_water * G if way.hauled and not way.lifted_out else None
    return hauling(HaulProblem(pull, leaving=out, strength=line.strength.low))


def _hauled(case: Case, haul: HaulResult | None, minutes: float) -> MethodRow:
    if haul is None or haul.limit is None:
        return row("hauled", False, "No line to the surface whose strength is known.")
    pull, limit = haul.tension_high / G, haul.limit / G
    words = f"The line feels up to {pull:.0f} kg, break-out included; it may work at {limit:.0f} kg"
    if not haul.line_ok:
        return row("hauled", False, f"{words}.")
    return row("hauled", True, f"{words}. It needs {haul.people_needed} people on the line, or a davit.", 0.0, minutes)


def _with_bags(
    case: Case,
    method: str,
    choice: Choice | None,
    haul: HaulResult | None,
    restrained: float,
    minutes: float,
    load: LoadResult,
) -> MethodRow:
    if method == "unaccompanied" and restrained <= 0.0:
        return row(method, False, "No restraint with a known line and anchor.")
    if choice is None or choice.best is None:
        return row(method, False, "No bag that is in date is known.")
    best = choice.best
    if method == "bag and line":
        if haul is None or haul.limit is None:
            return row(method, False, "No line to the surface whose strength is known.")
        if should_fall(load) > haul.limit:
            return row(
                method, False, f"The line may work at {haul.limit / G:.0f} kg; it must hold the load should a bag fail."
            )
    if not choice.passes:
        return row(method, False, f"{' + '.join(best.fill)}: {GATE_WORDS[best.failed[0]]}.")
    stuck = at_share(load.breakout, LIKELY)
    words = f"{' + '.join(best.fill)} pass every gate."
    if method == "accompanied" and not case.lift.reference:
        words += " A shot line or the like, to read the rate from, is part of it."
    return row(method, True, words, min(stuck, restrained) if restrained else None, minutes)
