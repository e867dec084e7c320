"""What the rules look at of the lift, its bags, its gas, its rigging and the surface."""

from __future__ import annotations

from typing import Any

import numpy as np

from parbuckle.case.written import answered
from parbuckle.duties.lift_facts import BagFacts, GasFacts, LiftFacts, RigItem, SurfaceFacts
from parbuckle.lift.method import WITH_BAGS
from parbuckle.lift.supply import flow_at
from parbuckle.physics.constants import G
from parbuckle.plan.bands import likely
from parbuckle.plan.facts_other_ways import other_facts
from parbuckle.plan.methods import GATE_WORDS, should_fall
from parbuckle.plan.people import lift_dive
from parbuckle.plan.stages import Stages
from parbuckle.quantity.band import HIGH, LIKELY, LOW, at_share, chance
from parbuckle.quantity.frozen import Floats

_KINDS = {"bag": "attachment"}


def lift_facts(stages: Stages) -> LiftFacts:
    """Give what the rules look at of the lift.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    LiftFacts
        Plain values.
    """
    told, lift, method = stages.case.lift, stages.lift, stages.method
    rows = {r.method: r for r in stages.ways.rows} if stages.ways else {}
    mine = rows.get(method or "")
    problem, hold = stages.lift_problem, stages.restraint
    stop = stages.case.exposure.stop
    words: dict[str, Any] = {
        "method": method or "",
        "method_possible": mine.possible if mine and told.method in ("hauled", "bag and line") else None,
        "method_why": mine.why if mine else "",
        "reference": told.reference if told.reference and answered(told.reference) else "",
        "restraint": told.restraint is not None and told.restraint.line is not None,
        "restraint_released_by": (told.restraint.released_by or "") if told.restraint else "",
        "anchor": told.restraint.anchor.low if told.restraint and told.restraint.anchor else None,
        "anchor_needed": hold.anchor_needed / G if hold else None,
        "crown_line_to": (told.crown_line.to or "") if told.crown_line else "",
        "leave_load_at": told.leave_load_at.low if told.leave_load_at else None,
        "stop_depth": stop.depth.high if stop and stop.depth else None,
        "rate_ceiling": problem.ceiling if problem else None,
        "rig_checked": _checked(stages),
        **other_facts(stages),
    }
    if method in ("hauled", "bag and line") and stages.ways and stages.ways.haul and stages.load:
        needed = stages.ways.haul.tension_high if method == "hauled" else should_fall(stages.load)
        words |= {"haul_needed": needed, "haul_limit": stages.ways.haul.limit}
    if lift is None or problem is None or lift.choice.best is None:
        wants = method in WITH_BAGS and told.bags is None and stages.kit is not None
        words |= {"choice_failed": True, "choice_why": "no bag is in date and not set aside"} if wants else {}
        return LiftFacts(**words)
    floats = chance(lift.floats)
    free = lift.surplus_at_release[lift.comes_free]
    failed = lift.choice.best.failed
    words |= {
        "choice_failed": None if told.bags is not None else not lift.choice.passes,
        "choice_why": GATE_WORDS[failed[0]] if failed else "",
        "required_low": _end(lift.required, LOW),
        "required_high": _end(lift.required, HIGH),
        "chance_floats": floats.share,
        "chance_error": floats.error,
        "surplus_high": _end(free, HIGH) if free.size else max(lift.ceiling - _end(lift.required, LOW), 0.0),
        "growing_share": likely(lift.control.growing_share),
        "delay_budget": likely(lift.control.budget),
        "runaway_speed": likely(lift.control.runaway),
        "keep_clear": _end(lift.fall.keep_clear, HIGH),
    }
    return LiftFacts(**words)


def bag_facts(stages: Stages) -> tuple[BagFacts, ...]:
    """Give what the rules look at of the bags in use.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    tuple of BagFacts
        In the order of filling.
    """
    lift, problem, kit = stages.lift, stages.lift_problem, stages.kit
    if lift is None or problem is None or kit is None:
        return ()
    measured = {b.id: b.really is not None for b in kit.bag}
    bags = {b.id: b for b in problem.bags}
    held = problem.restrained > 0.0
    rows = []
    for step in lift.filling:
        bag = bags[step.bag]
        rows.append(
            BagFacts(
                id=bag.id,
                style=bag.style,
                fill=step.fill,
                fill_share=None if step.fill == "empty" else at_share(step.volume / bag.really, LIKELY),
                lift_high=_end(bag.really * problem.lift_density - bag.weight, HIGH),
                relief=bag.relief,
                measured=measured[bag.id],
                restrained=held,
            )
        )
    return tuple(rows)


def gas_facts(stages: Stages) -> GasFacts:
    """Give what the rules look at of the lift gas.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    GasFacts
        Plain values.
    """
    problem, supply, kit = stages.lift_problem, stages.supply, stages.kit
    name = stages.case.lift.cylinder or ""
    owned = {c.id: c for c in kit.cylinder} if kit else {}
    use = owned[name].use if name in owned else ""
    if problem is None or supply is None or problem.cylinder is None or supply.usable is None:
        return GasFacts(cylinder=name, use=use)
    least = problem.gas_pressure - problem.surface_pressure + problem.rules.cylinder_margin
    return GasFacts(
        cylinder=name,
        use=use,
        usable=_end(supply.usable, LOW),
        needed=_end(supply.one_try, HIGH),
        needed_all=_end(supply.free_gas, HIGH),
        pressure=_end(problem.cylinder.pressure, LOW),
        pressure_needed=_end(least, HIGH),
        flow=_end(flow_at(problem.cylinder, problem.gas_pressure, problem.rules.intermediate), HIGH),
    )


def rig_facts(stages: Stages) -> tuple[RigItem, ...]:
    """Give what the rules look at of the rigging.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    tuple of RigItem
        One for each item.
    """
    rows = stages.rigging.rows if stages.rigging else ()
    return tuple(
        RigItem(
            item=r.item,
            kind=_KINDS.get(r.kind, r.kind),
            load=r.load_n,
            limit=r.limit_n,
            locking=r.locking,
            angle=r.angle,
            shares_with=r.shares_with,
        )
        for r in rows
    )


def surface_facts(stages: Stages) -> SurfaceFacts:
    """Give what the rules look at of the surface.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    SurfaceFacts
        Plain values.
    """
    floating, lift, load = stages.surface, stages.lift, stages.load
    line = stages.case.surface.line_to_surface or ""
    lines = {row.id: row for row in stages.kit.line} if stages.kit else {}
    told = lines[line].length if line in lines else None
    length = told.low if told is not None else None
    return SurfaceFacts(
        reserve=likely(lift.reserve) if lift else None,
        leaving_likely=likely(load.leaving_water) if load else None,
        leaving_high=_end(load.leaving_water, HIGH) if load else None,
        leaving_limit=floating.limit if floating else None,
        hang=floating.hang_high if floating else None,
        shallowest=floating.shallowest if floating else None,
        grounds_at=floating.grounds[0] if floating and floating.grounds else None,
        line=line,
        line_length=length,
        depth_highest=float(np.max(stages.site.depth)),
    )


def _checked(stages: Stages) -> bool | None:
    dive = lift_dive(stages.case)
    rigs = [t for t in dive.tasks if "rig" in t.do.lower().replace(",", " ").split()] if dive else []
    if not rigs:
        return None
    return all(answered(t.check) and t.check not in t.by for t in rigs)


def _end(values: Floats, share: float) -> float:
    return at_share(values, share)
