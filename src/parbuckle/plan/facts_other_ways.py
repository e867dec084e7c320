"""What the rules look at of the other ways: bag and line, the crown line, a load that is put down."""

from __future__ import annotations

from typing import Any

from parbuckle.lift.bag_and_line import light_likely
from parbuckle.plan.bands import high, likely
from parbuckle.plan.other_ways_inputs import hands_of, line_of
from parbuckle.plan.stages import Stages
from parbuckle.quantity.band import LIKELY, at_share


def other_facts(stages: Stages) -> dict[str, Any]:
    """Give the fields of the lift facts that belong to the other ways.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    dict
        By field; what does not apply is left out.
    """
    others = stages.others
    if others is None:
        return {}
    return _line(stages) | _alone(stages) | _down(stages)


def _line(stages: Stages) -> dict[str, Any]:
    line, lift = (stages.others.line if stages.others else None), stages.lift
    if line is None or lift is None:
        return {}
    return {"light_at": light_likely(line), "crown_at_surface": likely(lift.end_depth)}


def _alone(stages: Stages) -> dict[str, Any]:
    alone, told = (stages.others.alone if stages.others else None), stages.case.lift.crown_line
    if alone is None or told is None or told.line is None:
        return {}
    line = line_of(stages.case, stages.kit, told.line)
    return {
        "crown_length": line.length.high if line and line.length else None,
        "crown_reach": None if alone.crown_reach is None else at_share(alone.crown_reach, LIKELY),
        "crown_load": None if alone.crown_load is None else high(alone.crown_load),
        "crown_limit": alone.crown_limit,
    }


def _down(stages: Stages) -> dict[str, Any]:
    down, told = (stages.others.down if stages.others else None), stages.case.lowering
    if down is None or told is None:
        return {}
    hands = hands_of(stages.case)
    return {
        "lower_way": told.way or "",
        "lower_hold": None if down.hold_back is None else high(down.hold_back),
        "lower_limit": down.limit,
        "lower_people": None if down.people is None else float(down.people),
        "lower_hands": None if hands is None else float(hands),
        "lower_doubling": likely(down.doubling),
    }
