"""Rules on gas for the bags."""

from __future__ import annotations

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over, under
from parbuckle.duties.house import House
from parbuckle.duties.rules_lift import BAG_METHODS


def _one_use(facts: Facts, house: House) -> Hits:
    """Lift gas never comes from a cylinder that anybody breathes from."""
    gas = facts.gas
    names = [
        f"{cylinder} of {member.name}"
        for dive in facts.dives
        for member in dive.team
        for cylinder, use in ((member.cylinder, member.cylinder_use), *member.carried)
        if cylinder and (use == "lifting" or cylinder == gas.cylinder)
    ]
    if gas.cylinder and gas.use == "breathing":
        names.append(gas.cylinder)
    for name in dict.fromkeys(names):
        yield Hit("breathing_gas_for_bag", name, None, f"Cylinder {name}")


def _named(facts: Facts, house: House) -> Hits:
    """A lift with bags names its cylinder."""
    if facts.lift.method in BAG_METHODS and not facts.gas.cylinder:
        yield Hit("no_lift_cylinder", "lift.cylinder")


def _enough(facts: Facts, house: House) -> Hits:
    """The gas covers the heavy case, and every try."""
    gas = facts.gas
    if over(gas.needed, gas.usable):
        yield Hit("gas_short_one_fill", gas.usable, gas.needed, gas.cylinder)
    elif over(gas.needed_all, gas.usable):
        yield Hit("gas_short_tries", gas.usable, gas.needed_all, gas.cylinder)
    if under(gas.pressure, gas.pressure_needed):
        yield Hit("cylinder_below_useful", gas.pressure, gas.pressure_needed, gas.cylinder)


def _freeze(facts: Facts, house: House) -> Hits:
    """Cold water and a fast fill can freeze a first stage open."""
    cold = under(facts.site.temperature, house["freeze_temperature"])
    if cold and over(facts.gas.flow, house["fast_fill"]):
        yield Hit("freeze_open", facts.site.temperature, house["freeze_temperature"], facts.gas.cylinder)


RULES: tuple[Rule, ...] = (_one_use, _named, _enough, _freeze)
"""Every rule on lift gas."""
