"""Rules that law or published guidance sets for one country or one regime."""

from __future__ import annotations

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over
from parbuckle.duties.house import House
from parbuckle.duties.regimes import legal_limits
from parbuckle.duties.rules_lift import BAG_METHODS


def _scuba(facts: Facts, house: House) -> Hits:
    """Depth and stream limits for scuba at work."""
    law = legal_limits(facts.country, facts.rules)
    if over(facts.site.depth, law.get("scuba_depth")):
        yield Hit("regime_depth", facts.site.depth, law["scuba_depth"])
    elif over(facts.site.depth, law.get("scuba_chamber_depth")):
        yield Hit("regime_chamber", facts.site.depth, law["scuba_chamber_depth"])
    tended = facts.answers.comms.strip().lower() == "line"
    for dive in facts.dives:
        if not tended and over(dive.stream, law.get("scuba_stream")):
            yield Hit("regime_stream", dive.stream, law["scuba_stream"], dive.label)


def _tidal_waters(facts: Facts, house: House) -> Hits:
    """Wreck is reported; a lift may need a marine licence."""
    law = legal_limits(facts.country, facts.rules)
    if not facts.site.tidal or facts.purpose != "recovery":
        return
    if "wreck_report" in law:
        yield Hit("wreck_report", None, law["wreck_report"])
    if over(facts.clock.since_lost, law.get("licence_age")):
        yield Hit("licence_age", facts.clock.since_lost, law["licence_age"])
    if facts.lift.method in BAG_METHODS and over(facts.load.wet_high, law.get("licence_lift")):
        yield Hit("licence_lift", facts.load.wet_high, law["licence_lift"])


RULES: tuple[Rule, ...] = (_scuba, _tidal_waters)
"""Every rule of one country or regime."""
