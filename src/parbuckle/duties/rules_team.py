"""Rules on who goes and in which role."""

from __future__ import annotations

from collections import defaultdict

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over
from parbuckle.duties.house import House
from parbuckle.duties.people_facts import Dive, Member
from parbuckle.duties.rules_lift import BAG_METHODS

STANDBY = "standby diver"
SUPERVISOR = "supervisor"
INSTRUCTOR = "instructor"
BAG_TENDER = "bag tender"


def _roles(dive: Dive) -> dict[str, list[Member]]:
    """Members of one dive by role."""
    found: dict[str, list[Member]] = defaultdict(list)
    for member in dive.team:
        found[member.role].append(member)
    return found


def _people(dive: Dive) -> dict[str, list[Member]]:
    """Roles of one dive by person."""
    found: dict[str, list[Member]] = defaultdict(list)
    for member in dive.team:
        found[member.name].append(member)
    return found


def _standby(facts: Facts, house: House) -> Hits:
    """Each dive has a standby diver who does nothing else and is ready soon."""
    for dive in facts.dives:
        standby = _roles(dive)[STANDBY]
        if dive.team and not standby:
            yield Hit("no_standby", dive.label, None, dive.label)
        for member in standby:
            others = [other.role for other in dive.team if other.name == member.name and other.role != STANDBY]
            if others:
                yield Hit("standby_busy", f"{member.name}, {', '.join(others)}", None, dive.label)
            if over(member.ready_in, house["standby_ready"]):
                yield Hit("standby_slow", member.ready_in, house["standby_ready"], member.name)


def _supervisor(facts: Facts, house: House) -> Hits:
    """Each dive has a supervisor, who stays out of the water."""
    for dive in facts.dives:
        supervisors = _roles(dive)[SUPERVISOR]
        if dive.team and not supervisors:
            yield Hit("no_supervisor", dive.label, None, dive.label)
        for member in supervisors:
            if any(other.name == member.name and other.in_water for other in dive.team):
                yield Hit("supervisor_in_water", member.name, None, dive.label)


def _tender(facts: Facts, house: House) -> Hits:
    """A lift with bags has a bag tender."""
    for dive in facts.dives:
        lifts = dive.does == "lift" and facts.lift.method in BAG_METHODS
        if lifts and dive.team and not _roles(dive)[BAG_TENDER]:
            yield Hit("no_bag_tender", dive.label, None, dive.label)


def _trainees(facts: Facts, house: House) -> Hits:
    """Trainees in the water have an instructor in the water."""
    for dive in facts.dives:
        trainees = any(member.trainee and member.in_water for member in dive.team)
        if trainees and not any(member.in_water for member in _roles(dive)[INSTRUCTOR]):
            yield Hit("no_instructor", dive.label, None, dive.label)


def _one_role(facts: Facts, house: House) -> Hits:
    """One person, one role; a busy standby diver and a supervisor in the water are rules of their own."""
    for dive in facts.dives:
        for name, members in _people(dive).items():
            roles = list(dict.fromkeys(member.role for member in members))
            wet_supervisor = SUPERVISOR in roles and any(member.in_water for member in members)
            if len(roles) > 1 and STANDBY not in roles and not wet_supervisor:
                excluded = any(role in member.excludes for member in members for role in roles)
                code = "roles_exclude" if excluded else "two_roles"
                yield Hit(code, ", ".join(roles), None, f"{name}, on {dive.label},")


def _allowed(facts: Facts, house: House) -> Hits:
    """The team's own list allows the role."""
    pairs = {
        (member.name, member.role)
        for dive in facts.dives
        for member in dive.team
        if member.may is not None and member.role not in member.may
    }
    for name, role in sorted(pairs):
        yield Hit("not_allowed", role, None, name)


def _alone(facts: Facts, house: House) -> Hits:
    """Nobody is in the water alone without a line or voice."""
    if facts.answers.comms.strip().lower() in ("line", "voice"):
        return
    for dive in facts.dives:
        divers = list(dict.fromkeys(member.name for member in dive.team if member.in_water))
        if len(divers) == 1:
            yield Hit("alone_in_water", divers[0], None, f"{divers[0]}, on {dive.label}")


RULES: tuple[Rule, ...] = (_standby, _supervisor, _tender, _trainees, _one_role, _allowed, _alone)
"""Every rule on people."""
