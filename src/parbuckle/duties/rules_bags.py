"""Rules on the bags in use."""

from __future__ import annotations

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over, under
from parbuckle.duties.house import House


def _relief(facts: Facts, house: House) -> Hits:
    """A closed bag has a relief valve."""
    for bag in facts.bags:
        if bag.style == "closed" and not bag.relief:
            yield Hit("closed_no_relief", bag.style, None, bag.id)


def _alone(facts: Facts, house: House) -> Hits:
    """No full bag lifts the light load by itself."""
    for bag in facts.bags:
        free = bag.fill == "full" and not bag.restrained
        if free and over(bag.lift_high, facts.lift.required_low):
            yield Hit("bag_lifts_alone", bag.lift_high, facts.lift.required_low, bag.id)


def _part_full(facts: Facts, house: House) -> Hits:
    """A bag leaves the bottom well filled, so that little of it can grow."""
    for bag in facts.bags:
        if bag.fill == "part" and under(bag.fill_share, house["fill_least"]):
            yield Hit("bag_part_full", bag.fill_share, house["fill_least"], bag.id)
    if over(facts.lift.growing_share, house["growing_share"]):
        yield Hit("much_can_grow", facts.lift.growing_share, house["growing_share"])


def _several(facts: Facts, house: House) -> Hits:
    """Several bags on the bottom may tilt the load."""
    lifting = [bag.id for bag in facts.bags if bag.fill in ("full", "part")]
    if len(lifting) > 1:
        yield Hit("several_bags", len(lifting), None, ", ".join(lifting))


def _measured(facts: Facts, house: House) -> Hits:
    """The real capacity of a bag has been measured."""
    names = [bag.id for bag in facts.bags if bag.measured is False]
    if names:
        yield Hit("bag_unmeasured", len(names), None, ", ".join(names))


def _choice(facts: Facts, house: House) -> Hits:
    """Some set of the team's bags passes."""
    if facts.lift.choice_failed:
        yield Hit("no_set_passes", facts.lift.choice_why)


RULES: tuple[Rule, ...] = (_relief, _alone, _part_full, _several, _measured, _choice)
"""Every rule on bags."""
