"""Passes that were swum: from what was typed, or from a track, to legs and to the chance that each cell was seen."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

import numpy as np

from parbuckle.case.searched import Pass
from parbuckle.plan.search_inputs import SearchAsked
from parbuckle.plan.stages import Stages
from parbuckle.quantity.bearing import is_magnetic, to_true
from parbuckle.quantity.errors import CaseError
from parbuckle.quantity.frozen import Floats
from parbuckle.search.bayes import after
from parbuckle.search.chooser import choose_pattern
from parbuckle.search.curves import Curve
from parbuckle.search.expected import Ground, expected_coverage, width_nodes
from parbuckle.search.legs import Leg, Pattern, Place, arc
from parbuckle.search.patterns.lanes import lanes
from parbuckle.search.patterns.rounds import circles
from parbuckle.search.patterns.squares import expanding_square, sector
from parbuckle.search.practice import Practice, TrackError, practices
from parbuckle.search.probability import ProbabilityMap

_NODES = 3
_FIX = 4.9 / 2.4477  # m: standard deviation of a satellite fix, 4.9 m 95 of 100 (a phone under open sky)
_LANES = ("jackstay", "compass lanes", "line abreast")


@dataclass(frozen=True)
class Swum:
    """One pass as it was swum.

    Parameters
    ----------
    name : str
        Pattern, or ``track``.
    pattern : Pattern
        Legs that were swum.
    error : TrackError
        How far it erred.
    width : float
        Sweep width of that pass, m; 0 takes that of the search.
    pass_width : float
        Sweep width of one pass over one diver's.
    completed : float
        Share of the pattern that was swum.
    by : str
        ``typed`` or ``track``.
    """

    name: str
    pattern: Pattern
    error: TrackError
    width: float
    pass_width: float
    completed: float
    by: str


def passes_of(stages: Stages, asked: SearchAsked, prior: ProbabilityMap) -> tuple[Swum, ...]:
    """Give the passes of a case in order.

    Parameters
    ----------
    stages : Stages
        The case.
    asked : SearchAsked
        Datum, sweep width and patterns.
    prior : ProbabilityMap
        Before the first pass.

    Returns
    -------
    tuple of Swum
        Empty when none was swum.

    Raises
    ------
    CaseError
        If a pass is not whole, or its track cannot be read.
    """
    swum: list[Swum] = []
    now = prior
    for n, told in enumerate(stages.case.search.pass_, start=1):
        one = _swum(stages, asked, now, f"search.pass[{n}]", told)
        swum.append(one)
        now = after(now, seen_on(now, asked, one))
    return tuple(swum)


def seen_on(before: ProbabilityMap, asked: SearchAsked, one: Swum) -> Floats:
    """Give the chance that a pass saw the object in each cell, had it been there.

    Parameters
    ----------
    before : ProbabilityMap
        The map.
    asked : SearchAsked
        Law and sweep width.
    one : Swum
        The pass.

    Returns
    -------
    Floats
        0 to 1, shape (rows, columns); 0 in closed cells.
    """
    out = np.zeros(before.grid.shape)
    if not one.pattern.lanes:
        return out
    widths = width_nodes(np.atleast_1d(asked.problem.sweep_width), _NODES)
    widths = np.array([one.width]) if one.width else widths
    curves = [Curve(asked.problem.law, float(w) * one.pass_width, asked.problem.p0) for w in widths]
    east, north = before.grid.mesh()
    inside = ~before.closed
    ground = Ground(east[inside], north[inside], before.share[inside], before.grid.cell)
    out[inside] = np.clip(expected_coverage(one.pattern, curves, one.error, ground), 0.0, 1.0)
    return out


def begun(pattern: Pattern, share: float) -> Pattern:
    """Give the first part of a pattern: the lanes up to a share of the length that is searched.

    Parameters
    ----------
    pattern : Pattern
        The whole.
    share : float
        0 to 1.

    Returns
    -------
    Pattern
        Whole lanes, and the part of the one that was broken off.
    """
    left = share * pattern.track
    legs: list[Leg] = []
    for leg in pattern.legs:
        if not leg.lane:
            legs.append(leg)
            continue
        if left <= 0.0:
            break
        legs.append(leg if leg.length <= left else _part(leg, left / leg.length))
        left -= leg.length
    return replace(pattern, legs=tuple(legs))


def _part(leg: Leg, share: float) -> Leg:
    if leg.centre is not None:
        return arc(leg.centre, leg.radius, leg.begins, share * leg.turns, leg.lane, leg.strip)
    end = (leg.start[0] + share * (leg.end[0] - leg.start[0]), leg.start[1] + share * (leg.end[1] - leg.start[1]))
    return replace(leg, end=end)


def _swum(stages: Stages, asked: SearchAsked, now: ProbabilityMap, key: str, told: Pass) -> Swum:
    share = told.completed.mid if told.completed else 1.0
    width = told.sweep_width.mid if told.sweep_width else 0.0
    places = _tracked(stages, asked, key, told)
    if places:
        off = told.float_line.mid / 2.0 if told.float_line else 0.0
        error = TrackError(across=math.hypot(_FIX, off), along=math.hypot(_FIX, off))
        strip = width or float(np.mean(asked.problem.sweep_width))
        pattern = _line(places, strip)
        return Swum("track", begun(pattern, share), error, width, 1.0, share, "track" if told.track else "typed")
    if told.pattern is None:
        raise CaseError(
            "a pass is a pattern, places along it, or a track",
            key=key,
            allowed="pattern, along, or track",
            do='write pattern = "circles"',
        )
    row = next(r for r in practices() if r.name == told.pattern)
    whole = _measured(asked, key, told, row) or _proposed(asked, now, key, row)
    return Swum(told.pattern, begun(whole, share), row.error, width, row.pass_width, share, "typed")


def _tracked(stages: Stages, asked: SearchAsked, key: str, told: Pass) -> tuple[Place, ...]:
    points: Sequence[tuple[float, float]] = [(p.lat, p.lon) for p in told.along]
    if told.track is not None:
        from parbuckle.case.tracks import read_track
        from parbuckle.search.positions import read_position

        points = read_track(stages.loaded.path.parent / told.track, f"{key}.track", read_position)
    if not points:
        return ()
    lat, lon = np.array(points).T
    east, north = asked.datum.to_local(lat, lon)
    return tuple(zip(east.tolist(), north.tolist(), strict=True))


def _line(places: Sequence[Place], strip: float) -> Pattern:
    legs = tuple(Leg(a, b, n, strip) for n, (a, b) in enumerate(pairwise(places), start=1) if a != b)
    return Pattern("track", (), legs, max(len(legs) - 1, 0), 0, ())


def _proposed(asked: SearchAsked, now: ProbabilityMap, key: str, row: Practice) -> Pattern:
    rows = [r for r in asked.rows if r.name == row.name] or [row]
    found = choose_pattern(asked.problem, now, asked.site, rows, pairs=False)
    if not found.answers:
        why = found.refused[0].why if found.refused else ""
        raise CaseError("this pattern cannot be swum here", key=f"{key}.pattern", given=row.name, do=why)
    return found.answers[0].pattern


def _measured(asked: SearchAsked, key: str, told: Pass, row: Practice) -> Pattern | None:
    """The pattern with the measures that were typed; None when none was."""
    given = [told.centre, told.radius, told.spacing, told.heading, told.length, told.lanes]
    if all(value is None for value in given):
        return None
    heading = _heading(asked, key, told)
    if row.name == "circles":
        centre, spacing, radius = _needs(asked, key, told, "centre", "spacing", "radius")
        return circles(centre, spacing, max(1, round(radius / spacing + 0.5)))
    if row.name in _LANES:
        centre, length, spacing, count = _needs(asked, key, told, "centre", "length", "spacing", "lanes")
        return lanes(centre, heading, length, spacing, count, row.name)
    if row.name == "expanding square":
        centre, spacing, count = _needs(asked, key, told, "centre", "spacing", "lanes")
        return expanding_square(centre, spacing, count, heading)
    if row.name == "sector":
        centre, radius = _needs(asked, key, told, "centre", "radius")
        return sector(centre, radius, heading)
    raise CaseError(
        "this pattern has no measures of its own", key=key, given=row.name, do="write along = [...], or a track"
    )


def _heading(asked: SearchAsked, key: str, told: Pass) -> float:
    if told.heading is None:
        return 0.0
    if is_magnetic(told.heading) and asked.declination is None:
        do = "give site.declination, or the date of a dive"
        raise CaseError("a magnetic heading needs the declination", key=f"{key}.heading", do=do)
    return to_true(told.heading, asked.declination or 0.0).mid


def _needs(asked: SearchAsked, key: str, told: Pass, *names: str) -> list[Any]:
    values = []
    for name in names:
        value = getattr(told, name)
        if value is None:
            raise CaseError(
                f"a pass of {told.pattern} needs {', '.join(names)}", key=key, do=f"write {name}, or none of them"
            )
        if name == "centre":
            east, north = asked.datum.to_local(value.lat, value.lon)
            value = (float(east), float(north))
        values.append(value if name in ("centre", "lanes") else value.mid)
    return values
