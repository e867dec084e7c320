"""Rules on the other ways: bag and line, the crown line of a load that goes up alone, a load that is put down."""

from __future__ import annotations

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over, under
from parbuckle.duties.house import House


def _line_light(facts: Facts, house: House) -> Hits:
    """A load under bag and line stays heavy to the surface."""
    if facts.lift.method == "bag and line" and over(facts.lift.light_at, facts.lift.crown_at_surface):
        yield Hit("line_goes_light", facts.lift.light_at)


def _crown(facts: Facts, house: House) -> Hits:
    """The crown line reaches from the crown to the load, and holds a bag that breaks away."""
    lift = facts.lift
    if lift.method != "unaccompanied":
        return
    if under(lift.crown_length, lift.crown_reach):
        yield Hit("crown_line_short", lift.crown_length, lift.crown_reach)
    if over(lift.crown_load, lift.crown_limit):
        yield Hit("crown_line_weak", lift.crown_load, lift.crown_limit)


def _lowered(facts: Facts, house: House) -> Hits:
    """What holds a load on its way down is strong enough, and somebody holds it."""
    lift = facts.lift
    if over(lift.lower_hold, lift.lower_limit):
        yield Hit("lower_over_limit", lift.lower_hold, lift.lower_limit)
    if over(lift.lower_people, lift.lower_hands):
        yield Hit("lower_hands_short", lift.lower_people, lift.lower_hands)
    if lift.lower_way == "bag":
        yield Hit("lower_by_bag_alone", lift.lower_doubling)


RULES: tuple[Rule, ...] = (_line_light, _crown, _lowered)
"""Every rule on the other ways."""
