"""People, clock, steps and sketch of the plan document."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import numpy as np

from parbuckle.plan.bands import LITRES
from parbuckle.plan.other_ways_inputs import lowering_speed
from parbuckle.plan.people import abort, lift_dive, people, signals, steps
from parbuckle.plan.stages import Stages
from parbuckle.quantity.band import HIGH, LIKELY, at_share
from parbuckle.quantity.shown import show

_GAP = 0.7  # m: arm's length between a diver and load or bag
_SIDES = {"bag tender": ("up-stream", -1.0), "load tender": ("up-stream", -1.0), "instructor": ("level", 1.0)}


def people_rows(stages: Stages) -> list[dict[str, Any]]:
    """Give everybody with role, place and what they breathe.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    list of dict
        In the order of the case.
    """
    gases = {c.id: c.gas.text for c in stages.kit.cylinder} if stages.kit else {}
    rows = people(stages.case, stages.method or "others")
    return [{**row, "gas": gases.get(row["cylinder"] or "")} for row in rows]


def step_rows(stages: Stages) -> list[dict[str, Any]]:
    """Give the numbered steps, filled with the numbers of this plan.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    list of dict
        ``n``, ``text``, ``who``, ``check``, ``stop_point``.
    """
    units = stages.case.case.units
    problem, lift = stages.lift_problem, stages.lift
    facts: dict[str, Any] = {}
    if stages.method == "accompanied" and stages.case.lift.leave_load_at is None:
        facts["leave_load_at"] = show(stages.house["leave_load_at"], "length", units)
    if stages.method == "lowered":
        facts["down_speed"] = show(lowering_speed(stages.case, stages.asking) * 60.0, "rate", units)
    if problem is not None:
        facts["kept_heavy"] = show(problem.held, "mass", units) if problem.held > 0.0 else None
        facts["target"] = show(problem.target * 60.0, "rate", units)
        facts["rate_ceiling"] = show(problem.ceiling * 60.0, "rate", units)
    if lift is not None:
        facts["ceiling"] = show(float(np.floor(lift.ceiling)), "mass", units, digits=3)
        facts["bags"] = [
            {
                "bag": s.bag,
                "fill": s.fill,
                "litres": show(float(np.floor(s.mark * LITRES)), "volume", units),
                "seconds": f"{np.floor(s.seconds):.0f} s" if s.seconds else None,
            }
            for s in lift.filling
        ]
    return steps(stages.case, stages.method or "others", facts)


def team_sections(stages: Stages) -> dict[str, Any]:
    """Give people, steps, signals and the abort list.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    dict
        Sections of the document.
    """
    when, action = abort()
    return {
        "people": people_rows(stages),
        "steps": step_rows(stages),
        "signals": signals(),
        "abort": when,
        "abort_action": action,
    }


def clock_section(stages: Stages) -> dict[str, Any]:
    """Give the clock: earliest in, latest off the bottom, and what is known of it now.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    dict
        ``earliest_in``, ``latest_off_bottom``, ``known``.
    """
    site, when = stages.case.site, stages.when
    dive = lift_dive(stages.case)
    known = []
    if when is None:
        known.append("No start of the lift is planned.")
    latest = None
    if site.daylight_until is not None:
        rise = at_share(stages.site.depth, HIGH) / stages.house["ceiling"]
        latest = site.daylight_until - timedelta(seconds=rise + stages.house["daylight_margin"])
        known.append("Latest off the bottom comes from daylight alone.")
    tasks = [t.time for t in dive.tasks if t.time is not None] if dive else []
    if tasks:
        shortest, longest = sum(t.low for t in tasks) / 60.0, sum(t.high for t in tasks) / 60.0
        known.append(f"The work on the bottom takes {shortest:.0f} to {longest:.0f} min, by its tasks.")
    if site.slack_error is not None:
        known.append(f"Slack may be {site.slack_error.text} early or late: start when the float stands upright.")
    elif site.stream:
        known.append("Start when the float stands upright; the clock is only a bound.")
    if site.stream and not stages.site.stream_known:
        known.append("The stream at that time is not in the table.")
    if stages.diving is None:
        known.append("No-stop time and breathing gas are not worked out: no dive has a task.")
    return {
        "earliest_in": when.isoformat() if when else None,
        "latest_off_bottom": latest.isoformat() if latest else None,
        "known": known,
    }


def sketch_section(stages: Stages) -> dict[str, Any] | None:
    """Give the geometry of the sketch: load, bags, people, circles.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    dict or None
        None without a load.
    """
    load, lift, problem = stages.load, stages.lift, stages.lift_problem
    if load is None or problem is None:
        return None
    depth = at_share(stages.site.depth, LIKELY)
    size = float(np.cbrt(at_share(load.envelope, LIKELY)))
    strop = at_share(problem.strop, LIKELY)
    bags = {b.id: b for b in problem.bags}
    rows: list[dict[str, Any]] = []
    for step in lift.filling if lift else ():
        bag = bags[step.bag]
        width = 2.0 * float(np.sqrt(bag.marked / (np.pi * bag.height)))
        share = 0.0 if step.fill == "empty" else at_share(step.volume / bag.really, LIKELY)
        rows.append({"id": bag.id, "width_m": width, "height_m": bag.height, "fill_share": share})
    top = strop + max((b["height_m"] for b in rows), default=0.0)
    angle = stages.rigging.sling_angle if stages.rigging else None
    surface, told = stages.case.surface, stages.case.lift
    return {
        "depth_m": depth,
        "strop_m": strop,
        "load": {"length_m": 1.5 * size, "height_m": size},
        "bags": rows,
        "people": _places(stages, depth, size, strop, top),
        "bottom_circle_m": at_share(lift.fall.keep_clear, HIGH) if lift else None,
        "surface_circle_m": at_share(lift.fall.surfaces_within, HIGH) if lift else None,
        "sling_angle_deg": None if angle is None else float(np.degrees(angle)),
        "line_to_surface": surface.line_to_surface,
        "restraint": told.restraint.line if told.restraint else None,
        "crown_line": told.crown_line.line if told.crown_line else None,
    }


def _places(stages: Stages, depth: float, size: float, strop: float, top: float) -> list[dict[str, Any]]:
    """Put the people who are in the water where their role says: level with bag or load, at arm's length."""
    rows: list[dict[str, Any]] = []
    for person in people_rows(stages):
        if not person["in_water"]:
            continue
        side, sign = _SIDES.get(person["role"], ("level", 1.0))
        up = {"bag tender": strop + 0.5 * (top - strop), "load tender": size}.get(person["role"], top)
        far = _GAP + 0.75 * size if person["role"] != "instructor" else 2.0 * _GAP + size
        if person["role"] == "load tender":
            side, sign = "level", 1.0
        x = sign * (far + (0.4 * len([r for r in rows if r["side"] == side])))
        rows.append({"name": person["name"], "role": person["role"], "side": side, "x_m": x, "depth_m": depth - up})
    return rows
