"""Rules on how it comes up: method, break-out, restraint, the ascent beside the load."""

from __future__ import annotations

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over, under
from parbuckle.duties.house import House

BAG_METHODS = ("bag and line", "accompanied", "unaccompanied")


def _method(facts: Facts, house: House) -> Hits:
    """The method works with this load and this kit."""
    lift = facts.lift
    if lift.method_possible is False:
        yield Hit("method_not_possible", lift.method_why, None, lift.method)
    if lift.method == "carried" and over(facts.load.wet_high, house["carry_limit"]):
        yield Hit("carry_heavy", facts.load.wet_high, house["carry_limit"])
    if lift.method in ("hauled", "bag and line") and over(lift.haul_needed, lift.haul_limit):
        yield Hit("haul_over_limit", lift.haul_needed, lift.haul_limit)


def _floats(facts: Facts, house: House) -> Hits:
    """The bags float it once free, in the share of draws that is asked for."""
    lift = facts.lift
    if lift.chance_floats is None:
        return
    wanted = house["float_chance"] if lift.chance_wanted is None else lift.chance_wanted
    edge = 2 * lift.chance_error
    if lift.chance_floats < wanted - edge:
        yield Hit("chance_missed", lift.chance_floats, wanted)
    elif lift.chance_floats < wanted + edge:
        yield Hit("chance_on_edge", lift.chance_floats, wanted)


def _release(facts: Facts, house: House) -> Hits:
    """What is left over at the instant of release can be stopped."""
    lift = facts.lift
    if not lift.restraint and over(lift.surplus_high, house["surplus_limit"]):
        yield Hit("surplus_over_limit", lift.surplus_high, house["surplus_limit"])


def _beside(facts: Facts, house: House) -> Hits:
    """Divers can answer what a load beside them does."""
    lift = facts.lift
    if lift.method != "accompanied":
        return
    reaction = house["reaction"] if lift.reaction is None else lift.reaction
    if under(lift.delay_budget, reaction):
        yield Hit("delay_budget_short", lift.delay_budget, reaction)
    if over(lift.runaway_speed, house["runaway_speed"]):
        yield Hit("runaway_fast", lift.runaway_speed, house["runaway_speed"])
    if over(lift.rate_ceiling, house["ceiling"]):
        yield Hit("rate_over_ceiling", lift.rate_ceiling, house["ceiling"])


def _reference(facts: Facts, house: House) -> Hits:
    """Divers beside a load have something to read the rate from."""
    if facts.lift.method != "accompanied" or facts.lift.reference.strip().lower() not in ("", "none", "no", "unknown"):
        return
    poor = house["poor_visibility"]
    if under(facts.site.visibility, poor):
        yield Hit("no_rate_reference_poor", facts.site.visibility, poor)
    else:
        yield Hit("no_rate_reference", facts.lift.reference)


def _stop_aside(facts: Facts, house: House) -> Hits:
    """The divers' stop is not made beside the load."""
    lift = facts.lift
    if lift.method != "accompanied" or lift.stop_depth is None:
        return
    leave = house["leave_load_at"] if lift.leave_load_at is None else lift.leave_load_at
    if leave <= lift.stop_depth:
        yield Hit("stop_beside_load", leave, lift.stop_depth)


def _restraint(facts: Facts, house: House) -> Hits:
    """A load that goes up alone is held for the break-out, and let go by somebody."""
    lift = facts.lift
    if lift.method == "unaccompanied" and not lift.restraint:
        yield Hit("no_restraint")
    if lift.restraint and not lift.restraint_released_by.strip():
        yield Hit("no_release_plan")
    if lift.restraint and under(lift.anchor, lift.anchor_needed):
        yield Hit("anchor_light", lift.anchor, lift.anchor_needed)


def _crown_line(facts: Facts, house: House) -> Hits:
    """The crown line of a bag that goes up alone is made fast to the load."""
    to = facts.lift.crown_line_to.strip().lower()
    if facts.lift.method == "unaccompanied" and to != "load":
        yield Hit("no_crown_line", f"it goes to {to}" if to else "there is none", "load")


def _around(facts: Facts, house: House) -> Hits:
    """Nobody stands where it can fall, and a second person checks the rigging."""
    if over(facts.lift.keep_clear, 0):
        yield Hit("keep_clear", facts.lift.keep_clear)
    if facts.lift.rig_checked is False:
        yield Hit("rig_not_checked")


RULES: tuple[Rule, ...] = (
    _method,
    _floats,
    _release,
    _beside,
    _reference,
    _stop_aside,
    _restraint,
    _crown_line,
    _around,
)
"""Every rule on the lift."""
