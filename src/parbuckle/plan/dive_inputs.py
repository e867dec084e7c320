"""From case and kit to the dives: who, what, how deep, with which gas, after which dives."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from parbuckle.case.diving import Carries, Dive, Member
from parbuckle.case.diving import Earlier as CaseEarlier
from parbuckle.case.kit import Cylinder as KitCylinder
from parbuckle.case.past import PastDive
from parbuckle.case.site import StreamRow
from parbuckle.dive.carried import Carried
from parbuckle.dive.cylinders import Breathed
from parbuckle.dive.loading import AIR
from parbuckle.dive.problem import DiveProblem, Diver, DiveRules, DivingProblem, Earlier, Stream
from parbuckle.dive.profile import Water
from parbuckle.dive.track import Track
from parbuckle.plan.asking import Asking
from parbuckle.plan.defaults import defaults
from parbuckle.plan.dive_carried import changes_below
from parbuckle.plan.dive_tasks import dive_tasks
from parbuckle.plan.dive_times import check_earlier, check_overlap, depth_of_dive
from parbuckle.plan.lift_inputs import capacity_of
from parbuckle.plan.people import lift_dive, role_row
from parbuckle.plan.stages import Stages
from parbuckle.quantity.band import HIGH, LIKELY, at_share
from parbuckle.quantity.draws import Ensemble

STANDBY = "standby diver"
"""The role that waits at the surface."""

FILLED = ("full", "part")
"""Bags that are filled on the bottom."""


def diving_problem(stages: Stages) -> DivingProblem | None:
    """Gather what the dive stage needs.

    Parameters
    ----------
    stages : Stages
        Case, kit and what the stages before found.

    Returns
    -------
    DivingProblem or None
        None when no dive has a task; what is lacking is noted.

    Raises
    ------
    CaseError
        If dives of one person overlap, or a task cannot be.
    """
    case, site = stages.case, stages.site
    if not any(dive.tasks for dive in case.dive):
        return None
    own = Ensemble(stages.asking.ensemble.n, stages.asking.ensemble.seed, {}, stages.asking.ensemble.cuts)
    asking = Asking(own, stages.asking.unanswered, stages.asking.assumed)
    check_overlap(case)
    check_earlier(stages.loaded)
    height = at_share(asking.draw("site.altitude", case.site.altitude, "altitude"), HIGH) if case.site.altitude else 0.0
    dives = tuple(_dive(stages, asking, place, dive) for place, dive in enumerate(case.dive))
    arrived, light = case.exposure.arrived, case.site.daylight_until
    return DivingProblem(
        dives=tuple(sorted(dives, key=lambda d: (d.start is None, d.start or 0.0))),
        water=Water(site.surface_pressure, site.water_density),
        temperature=at_share(site.temperature, LIKELY),
        climbed=max(height, 0.0),
        arrived=arrived.timestamp() if arrived else None,
        lives_there=height <= 0.0,
        stream=_stream(stages, asking),
        daylight=light.timestamp() if light else None,
        rules=_rules(stages, asking),
    )


def _dive(stages: Stages, asking: Asking, place: int, dive: Dive) -> DiveProblem:
    case, label = stages.case, f"dive {place + 1} ({dive.does})"
    depth = depth_of_dive(stages, asking, dive)
    lifts = dive is lift_dive(case)
    seconds = sum(s.seconds for s in stages.lift.filling if s.fill in FILLED) if lifts and stages.lift else 0.0
    tasks = dive_tasks(stages, asking, place, dive, depth, seconds)
    wet = [m for m in dive.team if role_row(m.role).get("in_water")]
    names = list(dict.fromkeys(m.person for m in wet))
    first = [next(m for m in wet if m.person == name) for name in names]
    divers = tuple(_diver(stages, asking, m) for m in first) if tasks else ()
    beside = None
    if lifts and stages.method == "accompanied" and stages.lift_problem is not None:
        told = case.lift.leave_load_at
        leave = told.mid if told else stages.house["leave_load_at"]
        if not changes_below(dive, leave):  # nobody changes gas beside a load that rises
            beside = (stages.lift_problem.target, leave)
    start = dive.start.timestamp() if dive.start else None
    if tasks and dive.start is None:
        asking.lacks(f"dive[{place + 1}].start", "dive", "Slack, daylight and the dives before count from it.")
    waiting = [m for m in dive.team if m.role == STANDBY and m.person not in names and m.cylinder] if tasks else []
    standby = tuple(_diver(stages, asking, m) for m in waiting)
    return DiveProblem(label, dive.does, place, start, tasks, divers, beside, standby)


def _diver(stages: Stages, asking: Asking, member: Member) -> Diver:
    case, kit, n = stages.case, stages.kit, asking.ensemble.n
    known = {p.name: p for p in (*(kit.person if kit else ()), *case.trainee)}
    person = known.get(member.person)
    path = f"person.{member.person}"
    cylinders = {c.id: c for c in kit.cylinder} if kit else {}
    cylinder = cylinders.get(member.cylinder or "")
    if cylinder is None:
        asking.lacks(f"breathing cylinder of {member.person}", "dive", "What is left at the end follows from it.")
    resting = asking.draw(f"{path}.resting_rate", person.resting_rate if person else None, "resting_rate")
    working = asking.draw(f"{path}.working_rate", person.working_rate if person else None, "working_rate")
    easy = defaults()["easy_share"].value
    return Diver(
        name=member.person,
        role=member.role,
        gas=cylinder.gas if cylinder else AIR,
        kit=_set(stages, asking, cylinder) if cylinder else None,
        resting=resting,
        working=np.maximum(working, resting),
        easy=asking.ensemble.draw(f"{path}.easy", easy) if n > 1 else np.array([easy.mid]),
        carried=tuple(_carried(stages, asking, cylinders[each.cylinder], each) for each in member.carries),
        earlier=tuple(
            dive
            for place, e in enumerate(case.exposure.earlier)
            if e.person == member.person
            for dive in _earlier(stages, asking, place, e)
        ),
    )


def _carried(stages: Stages, asking: Asking, cylinder: KitCylinder, told: Carries) -> Carried:
    change = told.change_at.mid if told.change_at else None
    return Carried(cylinder.id, _set(stages, asking, cylinder), cylinder.gas, change)


def _set(stages: Stages, asking: Asking, cylinder: KitCylinder) -> Breathed | None:
    capacity = capacity_of(cylinder)
    if capacity is None:
        asking.lacks(f"kit.cylinder.{cylinder.id}.volume", "dive", "The breathing gas follows from it.")
        return None
    gauge = asking.draw(f"kit.cylinder.{cylinder.id}.pressure", cylinder.pressure, "cylinder_pressure")
    temperature = at_share(stages.site.temperature, LIKELY)
    return Breathed(capacity, gauge, cylinder.gas, 1, temperature, stages.site.surface_pressure)


def _earlier(stages: Stages, asking: Asking, place: int, told: CaseEarlier) -> list[Earlier]:
    """The dives of one row: as it was told, or every dive of its log."""
    if told.log is not None:
        return [_logged(past) for past in stages.loaded.past[place]]
    path = f"exposure.earlier.{told.person}.{told.surfaced.isoformat() if told.surfaced else ''}"
    assert told.surfaced is not None
    depth = asking.draw(f"{path}.depth", told.depth, "depth")
    time = asking.draw(f"{path}.time", told.time, "earlier_dive_time")
    return [Earlier(depth, time, told.gas or AIR, told.surfaced.timestamp())]


def _logged(past: PastDive) -> Earlier:
    """A logged dive; the table sees the gas with the most nitrogen, and has no answer for helium."""
    gases = [gas for _, gas in past.switches] or [AIR]
    weakest = max(gases, key=lambda gas: (gas.helium > 0.0, gas.nitrogen))
    track = Track(np.array(past.time), np.array(past.depth), past.switches)
    return Earlier(np.array([max(past.depth)]), np.array([past.bottom_time]), weakest, past.surfaced, track)


def _stream(stages: Stages, asking: Asking) -> Stream | None:
    site, limit = stages.case.site, stages.case.limits.stream
    if limit is None or site.stream[1:] == ():
        return None
    east, north = [], []
    for row in site.stream:
        path = f"site.stream.{row.time.isoformat()}"
        speed = asking.ensemble.draw(f"{path}.speed", row.speed)
        towards = asking.ensemble.draw(f"{path}.towards", row.towards)
        east.append(np.asarray(speed * np.sin(towards)))
        north.append(np.asarray(speed * np.cos(towards)))
    error = np.zeros(asking.ensemble.n)
    if site.slack_error is not None:  # a bound: anything between as much early and as much late
        most = asking.ensemble.draw("site.slack_error", site.slack_error)
        error = most * (2.0 * asking.ensemble.uniform("site.slack_error.sign") - 1.0)
    return Stream(_times(site.stream), tuple(east), tuple(north), limit.mid, error)


def _times(rows: Sequence[StreamRow]) -> tuple[float, ...]:
    return tuple(row.time.timestamp() for row in rows)


def _rules(stages: Stages, asking: Asking) -> DiveRules:
    told, house = stages.case.exposure, stages.house
    stop = told.stop
    factors = told.gradient or (
        asking.known("exposure.gradient", None, "gradient_low").mid,
        asking.known("exposure.gradient", None, "gradient_high").mid,
    )
    return DiveRules(
        factors=factors,
        stop_depth=asking.known("exposure.stop.depth", stop.depth if stop else None, "stop_depth").mid,
        stop_time=asking.known("exposure.stop.time", stop.time if stop else None, "stop_time").high,
        down=house["descent"],
        up=house["ceiling"],
        stress=asking.ensemble.draw("house.stress_rate", house.spread("stress_rate")),
        sort_out=house["sort_out"],
        least=house["breathing_left"],
        overrun=house["overrun"],
        sawtooth=house["sawtooth"],
        oxygen=house["oxygen_limit"],
        turn_share=house["turn_share"],
        change=house["change_time"],
        carried_share=house["carried_share"],
        oxygen_up=house["oxygen_limit_up"],
    )
