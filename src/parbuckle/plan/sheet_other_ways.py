"""The other ways in the plan document: bag and line, alone in its phases, lowering."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from parbuckle.lift.bag_and_line import LineLiftResult, light_likely
from parbuckle.lift.lowering import LoweringResult
from parbuckle.lift.problem import LiftProblem
from parbuckle.lift.result import Supply
from parbuckle.physics.constants import G
from parbuckle.physics.rise import BOTTOM, SURFACE
from parbuckle.plan.bands import BAR, LITRES, MINUTE, band_of, likely
from parbuckle.plan.methods import should_fall
from parbuckle.plan.other_ways import bags_down
from parbuckle.plan.other_ways_inputs import chosen, hands_of, lowering_speed
from parbuckle.plan.stages import Stages
from parbuckle.plan.surface_inputs import onward
from parbuckle.quantity.band import HIGH, LIKELY, at_share
from parbuckle.quantity.shown import show

Row = dict[str, Any]


def other_sections(stages: Stages) -> Row:
    """Give ``bag_and_line``, ``phases`` and ``lowering`` of the ascent; None where the plan has no such part.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    dict
        Three keys.
    """
    others = stages.others
    line, down = (others.line, others.down) if others else (None, None)
    return {
        "bag_and_line": None if line is None else _bag_and_line(stages, line),
        "phases": _phases(stages),
        "lowering": None if down is None else _lowering(stages, down),
    }


def lowered_section(stages: Stages) -> Row | None:
    """Give the lift section of a load that is put down: no ways up, the rigging, the gas.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    dict or None
        None when nothing says what it weighs.
    """
    problem, supply = stages.lift_problem, stages.supply
    if problem is None:
        return None
    way = stages.case.lowering.way if stages.case.lowering else None
    section: Row = {
        "methods": [],
        "method": stages.method,
        "method_given": True,
        "method_why": f"It is put down, not lifted: by {way}." if way else "It is put down: say how in [lowering].",
        "proposed": None,
        "catches": _catches_down(stages, way),
        "required_kg": band_of(problem.wet + problem.rigging),
        "bags": [],
        "filling": [],
        "alternatives": [],
        "rigging": [r.document() for r in stages.rigging.rows] if stages.rigging else [],
    }
    if supply is not None and stages.others and stages.others.down:
        section |= _bags_down(stages, problem, supply)
        section["bag_volume_l"] = band_of(supply.bag_volume, LITRES)
        section["free_gas_l"] = band_of(supply.free_gas, LITRES)
    return section


def _bags_down(stages: Stages, problem: LiftProblem, supply: Supply) -> Row:
    """Bags that carry it down, how full at the start, and the cylinder."""
    left, bags, filling = at_share(supply.bag_volume, LIKELY), [], []
    for bag in chosen(problem, bags_down(stages.case, problem)):
        mark = min(left, at_share(bag.really, LIKELY))
        fill = "full" if mark < left else "part"
        left -= mark
        row = {"id": bag.id, "style": bag.style, "fill": fill, "marked_l": bag.marked * LITRES, "height_m": bag.height}
        bags.append(row | {"really_l": band_of(bag.really, LITRES)})
        filling.append(
            {
                "bag": bag.id,
                "kind": fill,
                "litres": mark * LITRES,
                "mark_l": mark * LITRES,
                "seconds": None,
                "gauge_bar": None,
            }
        )
    section: Row = {"bags": bags, "filling": filling, "cylinder": None}
    if problem.cylinder is not None and supply.usable is not None:
        section["cylinder"] = {
            "id": problem.cylinder.id,
            "goes": problem.cylinder.goes,
            "use": "lifting",
            "pressure_bar": at_share(problem.cylinder.pressure, LIKELY) / BAR,
            "usable_l": at_share(supply.usable, LIKELY) * LITRES,
            "pressure_after_bar": band_of(supply.pressure_after, 1.0 / BAR),
            "tries": problem.tries,
        }
    return section


def _catches_down(stages: Stages, way: str | None) -> str | None:
    if way in ("line", "bag and line"):
        told = stages.case.lowering
        return f"The line {(told.line if told else None) or stages.case.surface.line_to_surface or 'from above'}."
    return "Nobody: let it go, it sinks." if way == "bag" else None


def _bag_and_line(stages: Stages, told: LineLiftResult) -> Row:
    units, haul = stages.case.case.units, told.haul
    hands = hands_of(stages.case)
    machine = onward(stages.case.surface.then).lifted_out
    davit = machine or (hands is not None and haul.people_needed > max(hands, 1))
    least, load = at_share(told.heavy, 1.0 - HIGH), stages.load
    words = [
        "Stop filling while it is still heavy. Only then the line takes it.",
        "The line feels most on the bottom, with its hold. It grows lighter on the way up.",
    ]
    if load is not None and haul.limit is not None:
        words.append(
            f"Should a bag fail, the line holds up to {_kg(should_fall(load) / G, units)}; "
            f"it may work at {_kg(haul.limit / G, units)}."
        )
    if stages.lift is not None:
        speed = likely(stages.lift.control.runaway) or 0.0
        words.append(f"Too much gas: it floats up past the line, at most {_rate(speed, units)}. Slack in: stop, vent.")
    if least <= 0.0:
        words.append("In some draws it is not heavy at all after filling: pull by hand first.")
    return {
        "heavy_kg": band_of(told.heavy),
        "line_kg": band_of(told.tension, 1.0 / G),
        "line_limit_kg": None if haul.limit is None else haul.limit / G,
        "people": haul.people_needed,
        "people_there": hands,
        "davit": davit,
        "words": words,
        "light_at_m": band_of(np.where(told.stays_heavy, 0.0, told.light_at), 1.0, ~told.stays_heavy, of=True),
        "stays_heavy_share": float(told.stays_heavy.mean()),
        "vent_l": band_of(told.vent, LITRES),
        "if_line_parts": _parts(told, units),
        "bags_grow": _grow(told, units),
    }


def _parts(told: LineLiftResult, units: str) -> str:
    speed = likely(told.sinks_at) or 0.0
    low = f"If the line parts near the bottom it sinks, at about {_rate(speed, units)}."
    depth = light_likely(told)
    if depth is None:
        some = "" if told.stays_heavy.all() else " In some draws it floats up instead, near the surface."
        return f"{low} It does so all the way up.{some}"
    return f"{low} Above about {show(depth, 'length', units)} it floats up instead. Nobody over it, nobody under it."


def _grow(told: LineLiftResult, units: str) -> str:
    depth, litres = light_likely(told), likely(told.vent, LITRES) or 0.0
    if depth is None:
        rest = "" if told.stays_heavy.all() else " in most draws; feel the line, and let gas out when it grows light"
        return f"The gas grows, but it stays heavy to the surface{rest}."
    return (
        f"The gas takes the weight off the line by about {show(depth, 'length', units)}: stop below that, let gas out. "
        f"To stay as heavy as on the bottom, {show(litres, 'volume', units)} have to go on the way."
    )


def _phases(stages: Stages) -> list[Row] | None:
    alone, lift, problem = (stages.others.alone if stages.others else None), stages.lift, stages.lift_problem
    if alone is None or lift is None or problem is None:
        return None
    return [_hold(stages), _release(stages), _up(stages)]


def _hold(stages: Stages) -> Row:
    hold, told, units = stages.restraint, stages.case.lift.restraint, stages.case.case.units
    row: Row = {"n": 1, "name": "break-out against the restraint", "who": None}
    if hold is None or told is None:
        return row | {
            "tension_n": None, "anchor_n": None, "rise_m": None,
            "words": ["The restraint is not known: line with strength, length and stretch, and anchor."],
        }  # fmt: skip
    load, bag = (show(at_share(v, HIGH) / G, "mass", units) for v in (hold.on_load, hold.on_bag))
    words = [
        "Gas goes in only when both ends of the restraint are checked. Nobody over the line or over the bag.",
        f"When it comes free: up to {load} on a restraint on the load, up to {bag} on one on the bag. "
        f"This one is on the {told.on}.",
    ]
    if told.slack is None:
        words.append("It is taken as having no slack. Slack makes the pull greater.")
    anchored = {True: "The anchor is heavy enough.", False: "The anchor is too light."}.get(hold.anchor_ok is True)
    words.append("The weight of the anchor is not known." if hold.anchor_ok is None else str(anchored))
    return row | {
        "tension_n": band_of(hold.tension),
        "on_load_n": band_of(hold.on_load),
        "on_bag_n": band_of(hold.on_bag),
        "snatch": likely(hold.snatch),
        "anchor_n": hold.anchor_needed,
        "line_limit_n": hold.limit,
        "rise_m": band_of(hold.rise),
        "who": told.checked_by,
        "words": words,
    }


def _release(stages: Stages) -> Row:
    others, lift, units = stages.others, stages.lift, stages.case.case.units
    assert others is not None and others.alone is not None and lift is not None
    told = stages.case.lift.restraint
    window, pull = likely(lift.control.window, LITRES) or 0.0, likely(lift.control.pull, LITRES)
    words = [
        "Vent until it neither pulls up nor hangs. Slack the line. Only then let it go.",
        "Never cut it under load, never undo it under load.",
        f"Between still and rising at the target rate lie {show(window, 'volume', units)} of gas.",
    ]
    if pull is not None:
        fine = "finer" if pull <= window else "coarser"
        words.append(f"One short pull lets out {show(pull, 'volume', units)}: {fine} than that.")
    else:
        words.append("What one short pull lets out was not measured: pull, wait, feel the line.")
    if not (told and told.released_by):
        words.append("Nobody is named who lets it go.")
    return {
        "n": 2,
        "name": "slack and release",
        "words": words,
        "tension_n": None,
        "anchor_n": None,
        "rise_m": None,
        "vent_l": band_of(others.alone.vent, LITRES),
        "window_l": window,
        "pull_l": pull,
        "who": told.released_by if told else None,
    }


def _up(stages: Stages) -> Row:
    others, units = stages.others, stages.case.case.units
    assert others is not None and others.alone is not None
    alone, line = others.alone, stages.case.lift.crown_line
    up = alone.rise.end == SURFACE
    to = (line.to or "not told") if line else None
    words = ["Nobody beside it, nobody over it, the boat outside the circle."]
    words.append(f"The crown line {line.line} goes to the {to}." if line else "No crown line is told.")
    if alone.crown_load is not None and alone.crown_limit is not None:
        high, limit = at_share(alone.crown_load, HIGH) / G, alone.crown_limit / G
        words.append(
            f"If a bag breaks away, the line feels up to {_kg(high, units)} before it tips the bag; "
            f"it may work at {_kg(limit, units)}."
        )
    return {
        "n": 3,
        "name": "up with the crown line",
        "words": words,
        "tension_n": None,
        "anchor_n": None,
        "rise_m": None,
        "time_s": band_of(alone.rise.time, 1.0, up),
        "arrival_speed_m_s": band_of(alone.rise.speed, 1.0, up),
        "crown_n": band_of(alone.crown_load),
        "crown_limit_n": alone.crown_limit,
        "who": None,
    }


def _lowering(stages: Stages, told: LoweringResult) -> Row:
    case, load, units = stages.case, stages.load, stages.case.case.units
    assert case.lowering is not None and case.lowering.way is not None and load is not None
    way, on_line = case.lowering.way, told.hold_back is not None
    fall, down = told.let_go, told.let_go.end == BOTTOM
    return {
        "way": way,
        "load_kg": band_of(load.wet_weight),
        "over_the_side_kg": band_of(load.dry_mass),
        "hold_back_n": band_of(told.hold_back),
        "line_limit_n": told.limit,
        "speed_m_min": lowering_speed(case, stages.asking) * MINUTE,
        "gas_to_add_l": band_of(told.gas_to_add, LITRES) if way != "line" else None,
        "by_depth": [
            {
                "depth_m": depth,
                "gas_l": at_share(gas, LIKELY) * LITRES if way != "line" else None,
                "tension_n": at_share(np.maximum(kept, 0.0), HIGH) if on_line else None,
                "tension_without_gas_n": at_share(np.maximum(none, 0.0), HIGH) if on_line else None,
            }
            for depth, gas, kept, none in told.table
        ],
        "people": told.people,
        "people_there": hands_of(case),
        "turns": case.lowering.turns,
        "turns_for_one": told.turns_for_one,
        "doubling_time_s": likely(told.doubling),
        "no_return_m": likely(told.no_return),
        "if_let_go": {
            "speed_m_s": band_of(-fall.speed, 1.0, down),
            "time_s": band_of(fall.time, 1.0, down),
            "keep_clear_m": math.ceil(at_share(told.keep_clear, HIGH)),
            "words": _let_go(told, units),
        },
        "words": _down_words(way, told, units),
    }


def _let_go(told: LoweringResult, units: str) -> str:
    clear = show(math.ceil(at_share(told.keep_clear, HIGH)), "length", units)
    return f"Let go, it sinks to the bottom. Keep {clear} clear around the place. Nobody under it, ever."


def _down_words(way: str, told: LoweringResult, units: str) -> list[str]:
    words = []
    if told.turns_for_one is not None and told.people is not None:
        turns = f"{told.turns_for_one} turns round a post" if told.turns_for_one else "no turn"
        words.append(f"One person holds it with {turns}. Nobody stands in a bight.")
    if way != "line":
        doubling = likely(told.doubling)
        words.append("The bag shrinks on the way down. Add gas a little at a time, never more than the table says.")
        if doubling is not None:
            words.append(f"Left alone, a move away from neutral doubles in about {doubling:.1f} s near the surface.")
        deep = likely(told.no_return)
        if way == "bag" and deep is not None:
            words.append(f"Sunk {show(deep, 'length', units)} below neutral, two divers no longer stop it: let it go.")
    if told.hold_back is not None and way == "bag and line":
        words.append("The pull holds for the case that nobody adds gas.")
    return words


def _kg(value: float, units: str) -> str:
    return show(value, "mass", units)


def _rate(speed: float, units: str) -> str:
    return show(speed * MINUTE, "rate", units)
