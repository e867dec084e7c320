"""Rules on the questions that must be asked: hazards, permission, emergency, limits, comms, standby."""

from __future__ import annotations

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule
from parbuckle.duties.house import House
from parbuckle.duties.words import understood

HAZARDS = {
    "ordnance": "ordnance or explosives",
    "remains_or_evidence": "human remains or evidence",
    "protected": "protected wreck, place or species",
    "fuel": "fuel or oil",
    "electrics": "live electrics or batteries",
    "snags": "snags, nets, cables",
    "traffic": "boats, anglers, swimmers",
}
"""Keys of [hazards] and how they are asked for."""

NEVER_LIFT = {
    "ordnance": "ordnance_told",
    "remains_or_evidence": "remains_or_evidence_told",
    "protected": "protected_told",
}
"""Hazards that end the job."""

PERMISSION = {"owner": "the owner", "site": "the site", "insurer": "the insurer"}
EMERGENCY = {
    "call": "whom to call",
    "position": "the position to give",
    "help": "where help comes from",
    "recall": "the recall",
}
LIMITS = {"limit_visibility": "visibility", "limit_stream": "stream", "limit_wind": "wind"}


def _hazards(facts: Facts, house: House) -> Hits:
    """Each hazard has an answer."""
    for key, asked in HAZARDS.items():
        if understood(getattr(facts.answers, key)) == "open":
            yield Hit("hazard_unanswered", f"hazards.{key}", None, asked)


def _never_lift(facts: Facts, house: House) -> Hits:
    """Some hazards end the job."""
    for key, code in NEVER_LIFT.items():
        text = getattr(facts.answers, key)
        if understood(text) in ("yes", "words"):
            yield Hit(code, text, None, HAZARDS[key])


def _fuel(facts: Facts, house: House) -> Hits:
    """Fuel is a caution when somebody said how much and where, a stop when not."""
    said = understood(facts.answers.fuel)
    if said == "yes":
        yield Hit("fuel_without_plan", facts.answers.fuel, None, HAZARDS["fuel"])
    if said == "words":
        yield Hit("fuel_told", facts.answers.fuel, None, HAZARDS["fuel"])


def _electrics_and_traffic(facts: Facts, house: House) -> Hits:
    """Electrics and traffic are cautions."""
    for key, code in (("electrics", "electrics_told"), ("traffic", "traffic_told")):
        text = getattr(facts.answers, key)
        if understood(text) in ("yes", "words"):
            yield Hit(code, text, None, HAZARDS[key])


def _snags(facts: Facts, house: House) -> Hits:
    """A snag beside divers needs a restraint."""
    text = facts.answers.snags
    if understood(text) in ("yes", "words"):
        beside = facts.lift.method == "accompanied" and not facts.lift.restraint
        yield Hit("snag_held" if beside else "snag_told", text, None, HAZARDS["snags"])


def _permission(facts: Facts, house: House) -> Hits:
    """Owner, site and insurer have said something."""
    said = {key: understood(getattr(facts.answers, key)) for key in PERMISSION}
    missing = [key for key in PERMISSION if said[key] == "open"]
    if missing:
        keys = ", ".join(f"permission.{key}" for key in missing)
        yield Hit("permission_unanswered", keys, None, ", ".join(PERMISSION[key] for key in missing))
    for key in ("owner", "site"):
        if said[key] == "none":
            yield Hit("permission_refused", getattr(facts.answers, key), None, PERMISSION[key])
    if said["insurer"] == "none":
        yield Hit("insurer_not_confirmed", facts.answers.insurer, None, PERMISSION["insurer"])


def _emergency(facts: Facts, house: House) -> Hits:
    """The emergency block is complete."""
    missing = [key for key in EMERGENCY if understood(getattr(facts.answers, key)) != "words"]
    if missing:
        keys = ", ".join(f"emergency.{key}" for key in missing)
        yield Hit("emergency_unanswered", keys, None, ", ".join(EMERGENCY[key] for key in missing))


def _comms(facts: Facts, house: House) -> Hits:
    """It is known how the surface talks to the divers."""
    said = understood(facts.answers.comms)
    if said == "open":
        yield Hit("comms_unanswered", "emergency.comms", None, "comms")
    if said == "none":
        yield Hit("no_comms", facts.answers.comms, None, "comms")


def _limits(facts: Facts, house: House) -> Hits:
    """Limits were set before the day."""
    missing = [key for key in LIMITS if getattr(facts.answers, key) is None]
    if missing:
        keys = ", ".join(f"limits.{LIMITS[key]}" for key in missing)
        yield Hit("limits_unanswered", keys, None, ", ".join(LIMITS[key] for key in missing))


def _standby(facts: Facts, house: House) -> Hits:
    """A team is named; whether it has a standby diver is another rule."""
    if not any(dive.team for dive in facts.dives):
        yield Hit("standby_unanswered", "dive.team", None, "standby diver")


RULES: tuple[Rule, ...] = (
    _hazards,
    _never_lift,
    _fuel,
    _electrics_and_traffic,
    _snags,
    _permission,
    _emergency,
    _comms,
    _limits,
    _standby,
)
"""Every rule on answers."""
