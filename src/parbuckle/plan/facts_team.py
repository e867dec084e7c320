"""What the rules look at of the people and of the things they own."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

import numpy as np

from parbuckle.case.diving import Dive as CaseDive
from parbuckle.case.diving import Member as CaseMember
from parbuckle.case.kit import Owned
from parbuckle.duties.intervals import table_date
from parbuckle.duties.people_facts import Dive, KitItem, Member
from parbuckle.plan.other_ways import bags_down
from parbuckle.plan.people import people_table
from parbuckle.plan.site_inputs import stream_at, tide_at
from parbuckle.plan.stages import Stages
from parbuckle.quantity.band import HIGH, at_share

_DAY = 86400.0


def dive_facts(stages: Stages) -> tuple[Dive, ...]:
    """Give every dive with its team and the water at its time.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    tuple of Dive
        In order.
    """
    return tuple(_dive(stages, dive, number) for number, dive in enumerate(stages.case.dive, start=1))


def kit_facts(stages: Stages) -> tuple[KitItem, ...]:
    """Give every item of the kit with what is left until its due date.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    tuple of KitItem
        All items; ``used`` says which ones this case uses.
    """
    kit = stages.kit
    if kit is None:
        return ()
    day = stages.when.date() if stages.when else None
    used = _used(stages)
    rows: list[KitItem] = []
    groups: tuple[tuple[str, tuple[Owned, ...]], ...] = (
        ("bag", kit.bag),
        ("cylinder", kit.cylinder),
        ("sling", kit.sling),
        ("connector", kit.connector),
        ("line", kit.line),
    )
    for what, items in groups:
        rows += [KitItem(i.id, what, i.id in used, _left(i.due, day), i.quarantined) for i in items]
    return tuple(rows)


def intervals_age(stages: Stages) -> float | None:
    """Give the age of the country's table of inspection intervals on the day of the lift.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    float or None
        s; None when the country has no table or the day is not known.
    """
    country = stages.kit.team.country if stages.kit else None
    made = table_date(country) if country else None
    if made is None or stages.when is None:
        return None
    return max((stages.when.date() - made).days, 0) * _DAY


def _dive(stages: Stages, dive: CaseDive, number: int) -> Dive:
    times = _times(dive)
    streams = [s for s in (stream_at(stages.case, stages.asking, t) for t in times) if s is not None]
    known = bool(times) and len(streams) == len(times)
    fastest = max(at_share(np.hypot(e, n), HIGH) for e, n in streams) if known else None
    charted = stages.case.site.depth_how == "chart datum"
    inside = all(tide_at(stages.case, stages.asking, t) is not None for t in times) if charted else None
    team = tuple(_member(stages, m) for m in dive.team)
    return Dive(dive.does, team, f"dive {number} ({dive.does})", fastest, inside)


def _times(dive: CaseDive) -> list[datetime]:
    """Start and late end of the work of a dive."""
    if dive.start is None:
        return []
    long = sum(t.time.high for t in dive.tasks if t.time is not None)
    return [dive.start, dive.start + timedelta(seconds=long)] if long else [dive.start]


def _member(stages: Stages, member: CaseMember) -> Member:
    people = {p.name: p for p in stages.kit.person} if stages.kit else {}
    cylinders = {c.id: c for c in stages.kit.cylinder} if stages.kit else {}
    role: dict[str, Any] = next((r for r in people_table()["role"] if r["name"] == member.role), {})
    known = people.get(member.person)
    cylinder = cylinders.get(member.cylinder or "")
    return Member(
        name=member.person,
        role=member.role,
        in_water=bool(role.get("in_water", False)),
        may=known.may if known and known.may else None,
        trainee=any(t.name == member.person for t in stages.case.trainee),
        cylinder=member.cylinder or "",
        cylinder_use=cylinder.use if cylinder else "",
        carried=tuple((c.cylinder, cylinders[c.cylinder].use) for c in member.carries if c.cylinder in cylinders),
        ready_in=member.ready_in.high if member.ready_in else None,
        excludes=tuple(role.get("excludes", ())),
    )


def _used(stages: Stages) -> set[str]:
    """Ids of everything that this case uses."""
    lift = stages.case.lift
    names = {lift.cylinder, stages.case.surface.line_to_surface}
    names |= {r.connector or r.sling or r.line for r in lift.rigging}
    names |= {lift.restraint.line if lift.restraint else None, lift.crown_line.line if lift.crown_line else None}
    names |= {m.cylinder for d in stages.case.dive for m in d.team}
    names |= {each.cylinder for d in stages.case.dive for m in d.team for each in m.carries}
    names |= {s.bag for s in stages.lift.filling} if stages.lift else set()
    if stages.case.lowering is not None and stages.lift_problem is not None:
        names |= {stages.case.lowering.line, *(() if stages.lift else bags_down(stages.case, stages.lift_problem))}
    return {n for n in names if n}


def _left(due: date | None, day: date | None) -> float | None:
    return (due - day).days * _DAY if due and day else None
