"""Invented search sections for the tests of cards and maps; the numbers belong to no case and are not results."""

from __future__ import annotations

import math
from typing import Any

from sample_document import sample

from parbuckle.search.legs import Leg, Pattern
from parbuckle.search.patterns.lanes import lanes
from parbuckle.search.patterns.rounds import arcs, circles
from parbuckle.search.patterns.squares import expanding_square, sector

Document = dict[str, Any]

EAST_OF_TRUE = 3.0  # invented declination, deg


def _place(place: tuple[float, float]) -> list[float]:
    return [round(place[0], 3), round(place[1], 3)]


def _leg(n: int, leg: Leg, declination: float | None) -> Document:
    true = math.degrees(leg.heading) % 360.0
    whole = math.degrees(abs(leg.turns)) > 359.0
    ring = None
    if leg.centre is not None:
        begins = math.degrees(leg.begins)
        ring = {
            "centre": _place(leg.centre),
            "radius_m": leg.radius,
            "from_deg": begins,
            "to_deg": begins + math.degrees(leg.turns),
        }
    return {
        "n": leg.lane or None,
        "from": _place(leg.start),
        "to": _place(leg.end),
        "heading_true_deg": true,
        "heading_mag_deg": None if declination is None else (true - declination) % 360.0,
        "length_m": leg.length,
        "kick_cycles": round(leg.length / 0.9) if ring is None and leg.lane else None,
        "mark_m": leg.radius if ring else None,
        "kind": "shift" if not leg.lane else "ring" if whole else "arc" if ring else "leg",
        "ring": ring,
    }


def pattern_of(pattern: Pattern, name: str, chance: float, declination: float | None = EAST_OF_TRUE) -> Document:
    """Give a pattern as the document holds it."""
    legs = [_leg(n, leg, declination) for n, leg in enumerate(pattern.legs) if not leg.swimmer]
    start = pattern.legs[0].start
    told = dict(pattern.parameters)
    return {
        "pattern": name,
        "words": f"{len(pattern.lanes)} lanes, {told.get('spacing', 2.0):.1f} m apart.",
        "why": f"{name}: {100 * chance:.0f} %, 98 % of what is possible in 40 minutes with this visibility.",
        "chance": chance,
        "chance_error": None,
        "share_of_bound": 0.98,
        "share_of_definite_bound": 0.71,
        "coverage_mean": 1.2,
        "spacing_m": told.get("spacing"),
        "start": {"east_m": start[0], "north_m": start[1], "lat": 52.4821, "lon": -3.7154},
        "length_m": pattern.search_length,
        "turns": pattern.turns,
        "minutes": 38.0,
        "gas_l": {"Ines": {"low": 900.0, "likely": 1050.0, "high": 1240.0}},
        "legs": legs,
        "line_marks_m": [leg.radius for leg in pattern.lanes if leg.centre],
        "positions_words": ["One diver at the end of the line, one on the line a sweep inside."],
        "snags_words": ["The line stops at anything proud of the bottom: go over it, then check the radius."],
        "needs": ["shot line", "marker float"],
        "why_not": None,
    }


def patterns() -> dict[str, Document]:
    """Give one pattern of each shape."""
    return {
        "circles": pattern_of(circles((12.0, -8.0), 1.8, 11), "circles", 0.41),
        "arcs": pattern_of(arcs((0.0, 0.0), 4.0, 2.0, 8, math.radians(300.0), math.radians(140.0)), "arcs", 0.35),
        "jackstay lanes": pattern_of(lanes((12.0, -8.0), math.radians(35.0), 30.0, 2.2, 14), "jackstay lanes", 0.38),
        "compass lanes": pattern_of(
            lanes((12.0, -8.0), math.radians(35.0), 40.0, 3.0, 9, "compass lanes"), "compass lanes", 0.3
        ),
        "expanding square": pattern_of(expanding_square((12.0, -8.0), 2.5, 15), "expanding square", 0.29),
        "sector": pattern_of(sector((12.0, -8.0), 14.0, 0.4, 2), "sector", 0.25),
    }


def pair_of(first: str, then: str) -> Document:
    """Give two patterns in one dive as the document holds them."""
    made = patterns()
    return {
        "pattern": f"{first}, then {then}",
        "why": f"{first}, then {then}: 46 %.",
        "chance": 0.46,
        "share_of_bound": 0.99,
        "minutes": 40.0,
        "gas_l": None,
        "parts": [made[first], made[then]],
    }


def _rings(east: float, north: float, across: float, along: float) -> list[list[list[float]]]:
    turns = [math.tau * n / 72 for n in range(73)]
    bent = [1.0 + 0.12 * math.sin(3.0 * t + 0.7) for t in turns]
    outline = [
        [east + across * bend * math.cos(t), north + along * bend * math.sin(t)]
        for t, bend in zip(turns, bent, strict=True)
    ]
    return [outline]


def _dots() -> list[list[float]]:
    golden = math.pi * (3.0 - math.sqrt(5.0))
    reach = [math.sqrt(-2.0 * math.log(1.0 - (n + 0.5) / 300.0)) for n in range(300)]
    return [[12.0 + 9.0 * r * math.cos(golden * n), -8.0 + 7.0 * r * math.sin(golden * n)] for n, r in enumerate(reach)]


def search_section(best: str = "circles") -> Document:
    """Give a whole section ``search`` with one logged pass and two dives to come."""
    made = patterns()
    levels = {0.5: 1.18, 0.75: 1.67, 0.9: 2.15, 0.95: 2.45}
    return {
        "cells": 4225,
        "cell_m": 1.0,
        "chance_on_map": 0.82,
        "elsewhere": 0.14,
        "closed_share": 0.04,
        "minutes": 40.0,
        "law": "random",
        "law_words": "The search goes as if at random: the safe choice where nobody has measured.",
        "sweep_width_m": {"low": 1.4, "likely": 2.0, "high": 2.6},
        "sweep_words": "from visibility 3 m and an object of 0.5 m",
        "tried_on_sample": False,
        "seen_at_m": 2.0,
        "speed_m_s": {"low": 0.15, "likely": 0.2, "high": 0.25},
        "visibility_m": 3.0,
        "accounts": [
            {
                "who": "Skipper",
                "words": "fix taken at the rail while it sank",
                "weight": 0.6,
                "centre_east_m": 12.0,
                "centre_north_m": -8.0,
                "radius95_m": 15.0,
                "cautions": [],
            },
            {
                "who": "Angler",
                "words": "seen from the quay, bearing and distance",
                "weight": 0.4,
                "centre_east_m": 20.0,
                "centre_north_m": 4.0,
                "radius95_m": None,
                "cautions": ["Asked away from the place where he stood."],
            },
        ],
        "cautions": ["Two accounts from one boat count once."],
        "datum": {"lat": 52.4821, "lon": -3.7154, "text_dm": "52 28.926 N 003 42.924 W", "utm": "30 N 451401 5814805"},
        "declination_deg": EAST_OF_TRUE,
        "declination_words": "3.0° east on 2027-04-14, from the World Magnetic Model",
        "contours": [
            {"share": share, "rings": _rings(12.0, -8.0, 9.0 * level, 7.0 * level)} for share, level in levels.items()
        ],
        "dots": _dots(),
        "area": [[-30.0, -40.0], [45.0, -40.0], [45.0, 24.0], [-30.0, 24.0], [-30.0, -40.0]],
        "closed": [[[30.0, 10.0], [45.0, 10.0], [45.0, 24.0], [30.0, 24.0], [30.0, 10.0]]],
        "best": made[best],
        "second": None,
        "alternatives": [
            {**made[name], "legs": None} for name in ("jackstay lanes", "arcs", "expanding square") if name != best
        ],
        "bound": {"chance": 0.42, "definite": 0.58},
        "sequence": [
            {"dive": 2, "team": ["Ines", "Tomas"], "cumulative_chance": 0.41, **made[best]},
            {"dive": 3, "team": ["Ada", "Jon"], "cumulative_chance": 0.57, **made["jackstay lanes"]},
        ],
        "passes": [{"n": 1, "pattern": "circles", "completed": 0.55, "chance_it_had": 0.31, "from": "typed"}],
        "proved": {
            "covered_share": 0.62,
            "not_here_if_seen_at_m": 2.0,
            "chance_not_here": 0.58,
            "elsewhere_now": 0.14,
            "words": "We have covered 62 % of where it could be; 58 % that it is not here, if it can be seen at 2 m.",
            "stop_words": "Stop when two more dives have found nothing: ask the witnesses again.",
        },
        "window": {"minutes_needed": 55.0, "fits": True, "words": "Search and lift fit into the slack."},
    }


def with_search(name: str = "circles", **more: Any) -> Document:
    """Give the complete document with a search."""
    document = sample()
    document["search"] = {**search_section(name), **more}
    return document
