"""One pattern of the plan document: legs with headings, marks, kick cycles, time and gas."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from parbuckle.physics.pressure import absolute_pressure
from parbuckle.plan.bands import LITRES, MINUTE, band_of
from parbuckle.plan.search_inputs import SearchAsked
from parbuckle.plan.search_words import pattern_words
from parbuckle.plan.searching import Searched
from parbuckle.plan.stages import Stages
from parbuckle.quantity.frozen import Floats
from parbuckle.search.legs import FULL, Leg, Pattern
from parbuckle.search.pattern_result import PatternAnswer, PatternPair
from parbuckle.search.practice import practices
from parbuckle.search.swim import kick_cycles, line_marks

Row = dict[str, Any]

PATTERN_NAMES = {"jackstay": "jackstay lanes"}
"""Names in the document where they differ from those of the case."""

_CENTIMETRES = 2
_DEGREES = 7
_WHOLE = 1e-9
_NEEDS = {
    "circles": ("a shot weight and buoy", "a search line with marks", "a marker buoy"),
    "arcs": ("a tended search line with marks", "a marker buoy"),
    "jackstay": ("a weighted line", "two end weights and buoys", "a marker buoy"),
    "along a wall": ("a short line", "a marker buoy"),
    "line abreast": ("a line across with loops", "a compass", "a marker buoy"),
    "towed diver": ("a boat and driver", "a tow board and line", "an observer", "a marker buoy"),
}
_BY_COMPASS = ("a compass", "a counted kick", "a marker buoy")


def pattern_section(stages: Stages, found: Searched, answer: PatternAnswer) -> Row:
    """Give one answer as the document holds it.

    Parameters
    ----------
    stages : Stages
        Case and results.
    found : Searched
        The search.
    answer : PatternAnswer
        The pattern with its chance.

    Returns
    -------
    dict
        Pattern of the document.
    """
    definite = found.limits.definite_range
    return _swim(stages, found, answer.pattern, answer.minutes) | {
        "why": answer.why,
        "chance": answer.chance,
        "chance_error": None,
        "share_of_bound": answer.share_of_bound,
        "share_of_definite_bound": answer.chance / definite if definite > 0.0 else 0.0,
        "judged": answer.judged,
        "outside_m": answer.outside,
        "gas_l": gas_of(stages, found.asked, answer.minutes),
        "positions_words": [answer.positions],
        "snags_words": [answer.snags],
        "needs": list(_NEEDS.get(answer.pattern.name, _BY_COMPASS)),
        "why_not": None,
    }


def pair_section(stages: Stages, found: Searched, pair: PatternPair) -> Row:
    """Give two patterns in one dive as the document holds them.

    Parameters
    ----------
    stages : Stages
        Case and results.
    found : Searched
        The search.
    pair : PatternPair
        Two patterns.

    Returns
    -------
    dict
        Chance and time of the two, and each with its legs.
    """
    parts = [_swim(stages, found, p, None) for p in (pair.first, pair.second)]
    return {
        "pattern": ", then ".join(p["pattern"] for p in parts),
        "why": pair.why,
        "chance": pair.chance,
        "share_of_bound": pair.share_of_bound,
        "minutes": pair.minutes,
        "gas_l": gas_of(stages, found.asked, pair.minutes),
        "parts": parts,
    }


def gas_of(stages: Stages, asked: SearchAsked, minutes: float) -> Row | None:
    """Give what each diver breathes on the pattern, without descent, ascent and reserve.

    Parameters
    ----------
    stages : Stages
        Rates of the people, depth, water.
    asked : SearchAsked
        Who searches.
    minutes : float
        Time on the pattern, min.

    Returns
    -------
    dict
        Band of each diver in litres at the surface; under ``each diver`` where nobody is named.
    """
    names = asked.divers or ("each diver",)
    return {name: band_of(gas_breathed(stages, name, minutes), LITRES) for name in names}


def gas_breathed(stages: Stages, name: str, minutes: float) -> Floats:
    """Give what one diver breathes on the pattern, as gas at the surface.

    V = rate p(bottom) / p(surface) T.

    Parameters
    ----------
    stages : Stages
        Rates of the people, depth, water.
    name : str
        Who.
    minutes : float
        Time on the pattern, min.

    Returns
    -------
    Floats
        m3, shape (n,).
    """
    site = stages.site
    ratio = absolute_pressure(site.depth, site.water_density, site.surface_pressure) / site.surface_pressure
    return np.asarray(easy_rate(stages, name) * ratio * minutes * MINUTE)


def easy_rate(stages: Stages, name: str) -> Floats:
    """Give the breathing rate of a diver at easy effort.

    Parameters
    ----------
    stages : Stages
        Case, kit and draws.
    name : str
        Who.

    Returns
    -------
    Floats
        m3/s at the diver's own pressure, shape (n,).
    """
    from parbuckle.plan.defaults import defaults

    kit, draw = stages.kit, stages.asking.ensemble.draw
    people = {p.name: p for p in (*(kit.person if kit else ()), *stages.case.trainee)}
    person, stand_in, path = people.get(name), defaults(), f"person.{name}"
    resting = draw(f"{path}.resting_rate", _told(person, "resting_rate") or stand_in["resting_rate"].value)
    working = draw(f"{path}.working_rate", _told(person, "working_rate") or stand_in["working_rate"].value)
    easy = draw(f"{path}.easy", stand_in["easy_share"].value)
    return np.asarray(resting + easy * (np.maximum(working, resting) - resting))


def _told(person: Any, key: str) -> Any:
    return getattr(person, key) if person is not None else None


def _swim(stages: Stages, found: Searched, pattern: Pattern, minutes: float | None) -> Row:
    asked = found.asked
    name = PATTERN_NAMES.get(pattern.name, pattern.name)
    start = pattern.legs[0].start
    lat, lon = asked.datum.to_globe(np.array([start[0]]), np.array([start[1]]))
    area = sum(leg.length * leg.strip for leg in pattern.lanes)
    width = float(np.median(asked.problem.sweep_width))
    kick = stages.case.search.kick
    return {
        "pattern": name,
        "words": pattern_words(stages.case.case.units, pattern),
        "coverage_mean": width * pattern.track / area if area > 0.0 else None,
        "spacing_m": dict(pattern.parameters).get("spacing"),
        "start": {
            "east_m": round(start[0], _CENTIMETRES),
            "north_m": round(start[1], _CENTIMETRES),
            "lat": round(float(lat[0]), _DEGREES),
            "lon": round(float(lon[0]), _DEGREES),
        },
        "length_m": pattern.search_length,
        "turns": pattern.turns,
        "shifts": pattern.shifts,
        "minutes": minutes,
        "legs": leg_rows(pattern, asked.declination, kick.mid if kick else None),
        "line_marks_m": [round(m, _CENTIMETRES) for m in line_marks(pattern)],
    }


def leg_rows(pattern: Pattern, declination: float | None, kick: float | None) -> list[Row]:
    """Give the legs of a pattern as the document holds them.

    Parameters
    ----------
    pattern : Pattern
        The pattern, or what was swum of it.
    declination : float or None
        Magnetic declination, rad; None where it is not known.
    kick : float or None
        Way of one kick, m.

    Returns
    -------
    list of dict
        In the order in which they are swum.
    """
    return [_leg(n, leg, pattern, declination, kick) for n, leg in enumerate(pattern.legs, start=1)]


def _leg(n: int, leg: Leg, pattern: Pattern, declination: float | None, kick: float | None) -> Row:
    ring = None
    if leg.centre is not None:
        begins = math.degrees(leg.begins)
        ring = {
            "centre": _pair(leg.centre),
            "radius_m": round(leg.radius, _CENTIMETRES),
            "from_deg": begins,
            "to_deg": begins + math.degrees(leg.turns),
        }
    by_compass = pattern.name in _compass_names()
    return {
        "n": n,
        "lane": leg.lane,
        "from": _pair(leg.start),
        "to": _pair(leg.end),
        "heading_true_deg": math.degrees(leg.heading),
        "heading_mag_deg": None if declination is None else math.degrees(leg.heading - declination) % 360.0,
        "length_m": leg.length,
        "kick_cycles": kick_cycles(leg, kick) if by_compass else None,
        "mark_m": round(leg.radius, _CENTIMETRES) if leg.centre is not None else None,
        "kind": _kind(leg),
        "ring": ring,
    }


def _kind(leg: Leg) -> str:
    if not leg.lane:
        return "shift"
    if leg.centre is None:
        return "leg"
    return "ring" if abs(leg.turns) >= FULL - _WHOLE else "arc"


def _compass_names() -> tuple[str, ...]:
    """Patterns whose legs are counted: those that err by heading and distance."""
    return tuple(row.name for row in practices() if row.error.heading > 0.0)


def _pair(place: tuple[float, float]) -> list[float]:
    return [round(place[0], _CENTIMETRES), round(place[1], _CENTIMETRES)]
