"""Rules on the ascent with people on it: cautions only, for what was followed draw by draw never decides."""

from __future__ import annotations

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over, under
from parbuckle.duties.house import House


def _held(facts: Facts, house: House) -> Hits:
    """People who tend it keep the rate, in the share of draws that is asked for."""
    told, wanted = facts.control, house["rate_chance"]
    if under(told.within, wanted - 2 * told.within_error):
        yield Hit("control_unsure", told.within, wanted)


def _sinks(facts: Facts, house: House) -> Hits:
    """It does not come back to the bottom."""
    told, limit = facts.control, house["sink_chance"]
    if over(told.sinks_back, limit + 2 * told.sinks_error):
        yield Hit("sinks_back", told.sinks_back, limit)


def _afloat(facts: Facts, house: House) -> Hits:
    """What comes up stays up."""
    told, wanted = facts.control, house["float_chance"]
    if under(told.floats, wanted - 2 * told.floats_error):
        yield Hit("spills_at_surface", told.floats, wanted)


def _pull(facts: Facts, house: House) -> Hits:
    """What one short pull loses has been measured."""
    if facts.control.pull_unmeasured:
        yield Hit("pull_unmeasured", None, None, facts.control.pull_unmeasured)


RULES: tuple[Rule, ...] = (_held, _sinks, _afloat, _pull)
"""Every rule on the ascent with people on it."""
