"""What the steps of a plan can name: facts of the case beside those that the stages found."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from parbuckle.case.model import Case
from parbuckle.case.raising import Rigged
from parbuckle.case.written import answered
from parbuckle.plan.surface_inputs import onward
from parbuckle.quantity.spread import Spread


def step_facts(case: Case, found: Mapping[str, Any]) -> dict[str, Any]:
    """Gather the facts by the names that the steps use; what is not known is absent.

    Parameters
    ----------
    case : Case
        The case.
    found : Mapping of str to object
        What the stages found, as texts; goes before what the case says. None counts as not known.

    Returns
    -------
    dict
        recall, reference, rigging, line, restraint, crown_line, crown_to, cylinder, target, rate_ceiling,
        leave_load_at, stop, then, lowered, down_line, down_bag, turns_text,
        lifted_out, lesson, bags_all, bags_down, top_up_text and all that was found.
    """
    facts: dict[str, Any] = {**_lift_facts(case), **_surface_facts(case)}
    facts["recall"] = case.emergency.recall if answered(case.emergency.recall) else None
    facts["lesson"] = True if case.lesson is not None else None
    facts |= _down_facts(case)
    facts |= dict(found)
    facts |= _bag_facts(facts.get("bags") or ())
    return {name: value for name, value in facts.items() if value is not None}


def _lift_facts(case: Case) -> dict[str, Any]:
    lift = case.lift
    stop, held = case.exposure.stop, lift.restraint
    made = [_text(stop.depth), _text(stop.time)] if stop else []
    return {
        "reference": lift.reference if answered(lift.reference) else None,
        "rigging": " and ".join(_rigged(row) for row in lift.rigging) or None,
        "restraint": held.line if held else None,
        "released_text": f" ({held.released_by})" if held and answered(held.released_by) else "",
        "crown_line": lift.crown_line.line if lift.crown_line else None,
        "crown_to": (lift.crown_line.to or "load") if lift.crown_line else None,
        "cylinder": lift.cylinder,
        "target": _text(lift.rate.target),
        "rate_ceiling": _text(lift.rate.ceiling),
        "leave_load_at": _text(lift.leave_load_at),
        "stop": " for ".join(text for text in made if text) or None,
    }


def _down_facts(case: Case) -> dict[str, Any]:
    """Facts of a load that is put down and not lifted."""
    told = case.lowering
    if case.lift.method != "lowered":
        return {}
    way, line = (told.way or "", told.line) if told else ("", None)
    turns = told.turns if told else None
    return {
        "lowered": True,
        "down_line": (line or case.surface.line_to_surface or "the line") if "line" in way else None,
        "down_bag": True if "bag" in way else None,
        "turns_text": f", {turns} full turn{'s' if turns > 1 else ''}" if turns else "",
    }


def _surface_facts(case: Case) -> dict[str, Any]:
    way = onward(case.surface.then)
    return {
        "line": case.surface.line_to_surface,
        "then": way.words if answered(case.surface.then) else None,
        "lifted_out": True if way.lifted_out else None,
        "top_up_text": f" ({case.surface.top_up})" if answered(case.surface.top_up) else "",
    }


def _bag_facts(bags: Any) -> dict[str, Any]:
    down = [bag["bag"] for bag in bags if bag["fill"] != "empty"]
    return {
        "bags_all": ", ".join(bag["bag"] for bag in bags) or None,
        "bags_down": " and ".join(down) or None,
        "any_full": True if any(bag["fill"] == "full" for bag in bags) else None,
    }


def _rigged(row: Rigged) -> str:
    name = row.connector or row.sling or row.line or ""
    hitch = {"choke": " (choked)", "basket": " (basket)"}.get(row.hitch or "", "")
    legs = f" ({row.legs} legs)" if row.legs > 1 else ""
    return f"{name}{hitch}{legs}"


def _text(value: Spread | None) -> str | None:
    return value.text or None if value is not None else None
