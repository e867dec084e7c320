"""Facts that fire each code on the team's own rules, and facts just inside."""

from __future__ import annotations

from datetime import date
from typing import Any

from parbuckle.duties.facts import Facts, SiteFacts
from parbuckle.duties.people_facts import Dive, Member
from parbuckle.duties.regimes import OwnRules
from sample_emergency_codes import EMERGENCY
from sample_log_codes import LOGS

TEAM = (Member("Ada", "supervisor"), Member("Ines", "bag tender", in_water=True))
SITE = SiteFacts(depth=24.0)
LIFT = (Dive("lift", TEAM, "dive 1 (lift)"),)


def own(country: str = "GB", rules: str = "private", **limits: tuple[float, str]) -> Facts:
    """A dive at 24 m with two people, under rules of its own."""
    told = OwnRules("the harbour", "permit 14", date(2027, 4, 1), limits)
    return Facts(country=country, rules=rules, site=SITE, dives=LIFT, own_rules=(told,))


def role(name: str) -> Facts:
    """The same with a role that every dive must have."""
    return Facts(site=SITE, dives=LIFT, own_roles=((name, "the harbour: permit 14, 2027-04-01"),))


OWN: dict[str, tuple[Any, Any]] = {
    "own_depth": (own(deepest=(23.99, "23.99 m")), own(deepest=(24.0, "24 m"))),
    "own_team": (own(team=(3.0, "3")), own(team=(2.0, "2"))),
    "own_role": (role("timekeeper"), role("supervisor")),
    "own_looser": (
        own("US", "commercial", scuba_depth=(39.93, "131 ft")),
        own("US", "commercial", scuba_depth=(39.624, "130 ft")),
    ),
    "own_limits": (own(team=(2.0, "2")), own()),
}
"""By code: fires, does not fire."""

TOLD = {**OWN, **EMERGENCY, **LOGS}
"""With the emergency block and the logs."""
