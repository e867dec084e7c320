"""The breathing gas of one diver on one dive: used, kept back, left; and oxygen, nitrogen and density of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from parbuckle.dive.breathing import breathed, needed, shared_way_up
from parbuckle.dive.carried import Carried, in_order
from parbuckle.dive.cylinders import Breathed, leave_bottom, left_after, turn_pressure
from parbuckle.dive.history import Done
from parbuckle.dive.mixture import equivalent_air_depth, gas_density, narcotic_depth, operating_depth
from parbuckle.dive.oxygen import dose_where_known, limits_used
from parbuckle.dive.problem import Diver, DivingProblem
from parbuckle.dive.profile import Leg, travel
from parbuckle.dive.result import CarriedPlan, GasPlan, Oxygen, Standby
from parbuckle.dive.tasks import Piece, rate_of
from parbuckle.quantity.band import LIKELY, at_share
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats


def gas_plan(
    problem: DivingProblem, diver: Diver, work: Sequence[Piece], way_up: Sequence[Piece], together: Sequence[Leg]
) -> GasPlan:
    """Give what one diver needs from the set and what is left in it.

    Parameters
    ----------
    problem : DivingProblem
        Water and house figures.
    diver : Diver
        Who.
    work : sequence of Piece
        From the surface to leaving the bottom.
    way_up : sequence of Piece
        From there to the surface, with every stop.
    together : sequence of Leg
        The part of it on which two may have to breathe from the set.

    Returns
    -------
    GasPlan
        One column for each draw.

    Notes
    -----
    Reserve: the larger of the house figure at the surface after the diver's own way up, and what two people at the rate
    of stress need from leaving the bottom, with time to sort it out and every stop, up to where everybody has a carried
    cylinder to breathe from. Source: common practice.
    """
    surface, rules = problem.water.surface, problem.rules
    n = diver.resting.shape[-1]
    bottom = needed([(p.leg, rate_of(diver, p)) for p in work], surface)
    own = needed([(p.leg, rate_of(diver, p)) for p in way_up if not p.carried], surface)
    shared = shared_way_up(together, rules.stress, surface, rules.sort_out)
    own, shared, used = (np.array(np.broadcast_to(part, n)) for part in (own, shared, bottom + own))
    nobody = np.zeros(n, dtype=bool)
    if diver.kit is None:
        return GasPlan(used, own, shared, None, None, None, None, nobody, nobody.copy(), nobody.copy())
    leaving, short = left_after(diver.kit, bottom)
    end, missing = left_after(diver.kit, used)
    leave = _leave(diver.kit, own, shared, rules.least)
    start = np.array(np.broadcast_to(diver.kit.gauge, n))
    late = np.ones(n, dtype=bool) if leave is None else np.asarray((leaving < leave) | (short > 0.0))
    turn = _turn(diver.kit, leave, rules.turn_share)
    return GasPlan(used, own, shared, start, leave, leaving, end, missing > 0.0, end < rules.least, late, turn)


def carried_plan(
    problem: DivingProblem, diver: Diver, depth: Floats, way_up: Sequence[Piece]
) -> tuple[CarriedPlan, ...]:
    """Give what the cylinders beside the set give, and what is left in them.

    Parameters
    ----------
    problem : DivingProblem
        Water and house figures.
    diver : Diver
        Who.
    depth : Floats
        Deepest, m, shape (n,).
    way_up : sequence of Piece
        From leaving the bottom to the surface, with every stop.

    Returns
    -------
    tuple of CarriedPlan
        Those of the way up first, deepest change first; then those for an emergency.

    Notes
    -----
    What is kept for an emergency has to bring one person up at the rate of stress, with time to sort it out and every
    stop. Source: common practice.
    """
    own, surface, rules = in_order(diver.carried), problem.water.surface, problem.rules
    rows = []
    for place, each in enumerate(own, start=1):
        mine = [p for p in way_up if p.carried == place]
        used = needed([(p.leg, rate_of(diver, p)) for p in mine], surface)
        pressure = mine[0].leg.start if mine else surface
        last = mine[-1].leg.end if mine else surface
        rows.append(_carried(problem, each, used, pressure, last, rules.carried_share))
    spare = [each for each in diver.carried if each.change is None]
    legs = [p.leg for p in way_up]
    alone = shared_way_up(legs, rules.stress, surface, rules.sort_out, people=1) if spare else np.zeros(1)
    deepest = problem.water.at(depth)
    return (*rows, *(_carried(problem, each, alone, deepest, surface, 1.0) for each in spare))


def _carried(
    problem: DivingProblem, each: Carried, used: Floats, deep: Floats, shallow: Floats, share: float
) -> CarriedPlan:
    n = max(used.shape[-1], deep.shape[-1])
    used, deep, shallow = (np.array(np.broadcast_to(part, n)) for part in (used, deep, shallow))
    start, end, empty, short = None, None, np.zeros(n, dtype=bool), np.zeros(n, dtype=bool)
    if each.kit is not None:
        start = np.array(np.broadcast_to(each.kit.gauge, n))
        end, missing = left_after(each.kit, used)
        empty = missing > 0.0
        short = empty | (used > share * (each.kit.full - each.kit.open))
    return CarriedPlan(
        name=each.name,
        breathes=each.gas.text,
        change=each.change,
        needed=used,
        start=start,
        end=end,
        empty=empty,
        short=short,
        oxygen=each.gas.oxygen * deep,
        oxygen_least=each.gas.oxygen * shallow,
        mod=_operating_depth(problem, each.gas, problem.rules.oxygen_up),
    )


def standby_plan(problem: DivingProblem, diver: Diver, depth: Floats, way_up: Sequence[Leg]) -> Standby | None:
    """Give what somebody who goes down to help has and needs.

    Parameters
    ----------
    problem : DivingProblem
        Water and house figures.
    diver : Diver
        Who waits at the surface.
    depth : Floats
        Deepest, m, shape (n,).
    way_up : sequence of Leg
        The divers' way up from there, with every stop.

    Returns
    -------
    Standby or None
        None without a set.

    Notes
    -----
    Source: common practice; the tissues of somebody who has just come up are not counted here.
    """
    if diver.kit is None:
        return None
    surface, rules = problem.water.surface, problem.rules
    down = breathed(travel(problem.water, 0.0, depth, rules.down, diver.gas), diver.working, surface)
    needed_all = down + shared_way_up(way_up, rules.stress, surface, rules.sort_out)
    over = diver.kit.full - diver.kit.open - needed_all
    spare = np.maximum(over, 0.0) * surface / problem.water.at(depth)
    return Standby(diver.name, diver.gas.text, needed_all, over >= 0.0, spare / diver.working, spare / diver.resting)


def _leave(kit: Breathed, own: Floats, shared: Floats, least: float) -> Floats | None:
    """Pressure at which the bottom is left; None where no filling holds so much."""
    try:
        return leave_bottom(kit, own, shared, least)
    except RangeError:
        return None


def _turn(kit: Breathed, leave: Floats | None, share: float) -> Floats | None:
    """Pressure at which a search turns; None where some draw starts with no more than it leaves with."""
    return None if leave is None or (kit.gauge <= leave).any() else turn_pressure(kit, leave, share)


@dataclass(frozen=True)
class Taken:
    """Oxygen of one dive alone.

    Parameters
    ----------
    single, daily : Floats or None
        Shares of the exposure of one dive, and of 24 hours; None above 1.6 atm.
    dose : Floats or None
        Dose to the lungs, OTU; None above the law's range.
    """

    single: Floats | None
    daily: Floats | None
    dose: Floats | None


def taken(legs: Sequence[Leg]) -> Taken:
    """Give the oxygen of one dive alone; who breathes alike takes the same.

    Parameters
    ----------
    legs : sequence of Leg
        The whole dive.

    Returns
    -------
    Taken
        One column for each draw.
    """
    try:
        single, daily = limits_used(legs)
    except RangeError:
        return Taken(None, None, dose_where_known(legs))
    return Taken(single, daily, dose_where_known(legs))


def oxygen_plan(problem: DivingProblem, diver: Diver, depth: Floats, own: Taken, day: Sequence[Done]) -> Oxygen:
    """Give oxygen, nitrogen and density of what one diver breathes.

    Parameters
    ----------
    problem : DivingProblem
        Water and house figures.
    diver : Diver
        Who.
    depth : Floats
        Deepest, m, shape (n,).
    own : Taken
        Oxygen of this dive.
    day : sequence of Done
        Dives of the last 24 hours.

    Returns
    -------
    Oxygen
        One column for each draw.
    """
    water, gas = problem.water, diver.gas
    pressure = water.at(depth)
    dose = None if own.dose is None else sum((d.dose for d in day if d.dose is not None), own.dose)
    daily = None if own.daily is None else sum((d.daily for d in day if d.daily is not None), own.daily)
    return Oxygen(
        pressure=gas.oxygen * pressure,
        at_surface=gas.oxygen * np.broadcast_to(water.surface, pressure.shape),
        mod=_operating_depth(problem, diver.gas, problem.rules.oxygen),
        single=_wide(own.single, pressure),
        daily=_wide(daily, pressure),
        dose=_wide(dose, pressure),
        density=gas_density(gas, pressure, problem.temperature),
        narcotic_depth=narcotic_depth(gas, depth, water.density, water.surface),
        air_depth=None if gas.helium else equivalent_air_depth(gas, depth, water.density, water.surface),
    )


def _wide(share: Floats | None, like: Floats) -> Floats | None:
    return None if share is None else np.array(np.broadcast_to(share, like.shape))


def _operating_depth(problem: DivingProblem, gas: Gas, limit: float) -> float | None:
    density, surface = at_share(problem.water.density, LIKELY), at_share(problem.water.surface, LIKELY)
    try:
        return float(operating_depth(gas, limit, density, surface))
    except RangeError:
        return None
