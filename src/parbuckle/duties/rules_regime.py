"""Rules that law, published guidance or the team itself sets for one country, regime or site."""

from __future__ import annotations

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over, under
from parbuckle.duties.house import House
from parbuckle.duties.regimes import Limit, limits_for
from parbuckle.duties.rules_lift import BAG_METHODS


def _law(facts: Facts) -> dict[str, Limit]:
    return limits_for(facts.country, facts.rules, facts.own_rules)


def _hit(code: str, value: float | None, limit: Limit, what: str = "") -> Hit:
    """A limit of one's own brings its own source."""
    return Hit(code, value, limit.value, what, limit.line if limit.by else "")


def _value(law: dict[str, Limit], key: str) -> float | None:
    return law[key].value if key in law else None


def _scuba(facts: Facts, house: House) -> Hits:
    """Depth and stream limits for scuba at work."""
    law, depth = _law(facts), facts.site.depth
    if over(depth, _value(law, "scuba_depth")):
        yield _hit("regime_depth", depth, law["scuba_depth"])
    elif over(depth, _value(law, "scuba_chamber_depth")):
        yield _hit("regime_chamber", depth, law["scuba_chamber_depth"])
    tended = facts.answers.comms.strip().lower() == "line"
    for dive in facts.dives:
        if not tended and over(dive.stream, _value(law, "scuba_stream")):
            yield _hit("regime_stream", dive.stream, law["scuba_stream"], dive.label)


def _tidal_waters(facts: Facts, house: House) -> Hits:
    """Wreck is reported; a lift may need a marine licence."""
    law = _law(facts)
    if not facts.site.tidal or facts.purpose != "recovery":
        return
    if "wreck_report" in law:
        yield _hit("wreck_report", None, law["wreck_report"])
    if over(facts.clock.since_lost, _value(law, "licence_age")):
        yield _hit("licence_age", facts.clock.since_lost, law["licence_age"])
    if facts.lift.method in BAG_METHODS and over(facts.load.wet_high, _value(law, "licence_lift")):
        yield _hit("licence_lift", facts.load.wet_high, law["licence_lift"])


def _own(facts: Facts, house: House) -> Hits:
    """What the team's own rules ask for: depth, people, roles; and what they change is told."""
    law = _law(facts)
    if over(facts.site.depth, _value(law, "deepest")):
        yield _hit("own_depth", facts.site.depth, law["deepest"])
    for dive in facts.dives:
        people = float(len({member.name for member in dive.team}))
        if under(people, _value(law, "team")):
            yield _hit("own_team", people, law["team"], dive.label)
        for role, source in facts.own_roles:
            if all(member.role != role for member in dive.team):
                yield Hit("own_role", role, None, dive.label, source)
    for limit in law.values():
        if limit.looser and limit.instead is not None:
            yield Hit("own_looser", limit.text, limit.instead.text, limit.key, limit.line)
    own = [f"{limit.key} = {limit.text}" for limit in law.values() if limit.by]
    if own:
        yield Hit("own_limits", ", ".join(own))


RULES: tuple[Rule, ...] = (_scuba, _tidal_waters, _own)
"""Every rule of one country, regime or site."""
