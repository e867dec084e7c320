"""The search of the plan document: map, patterns, bounds, the next dives, and what has been proved."""

from __future__ import annotations

import math
from typing import Any

from parbuckle.case.finding import Account as ToldAccount
from parbuckle.plan.bands import band_of
from parbuckle.plan.search_words import (
    account_words,
    caution_words,
    law_words,
    map_words,
    proof_words,
    stop_words,
    window_words,
)
from parbuckle.plan.searching import NextDive, Searched
from parbuckle.plan.sheet_pattern import PATTERN_NAMES, leg_rows, pair_section, pattern_section
from parbuckle.plan.stages import Stages
from parbuckle.search.accounts import middle_and_radius
from parbuckle.search.contours import contours, dots
from parbuckle.search.grid_reference import UTM_LATITUDE
from parbuckle.search.positions import written
from parbuckle.search.problem import PointAccount, TrackAccount

Row = dict[str, Any]

SHARES = (0.5, 0.75, 0.9, 0.95)
"""Parts of the map that the lines go round."""

_DOTS = 300
_CENTIMETRES = 2
_DEGREES = 7


def search_section(stages: Stages, found: Searched | None) -> Row | None:
    """Give the search as the document holds it.

    Parameters
    ----------
    stages : Stages
        Case and results.
    found : Searched or None
        What the search found.

    Returns
    -------
    dict or None
        Keys of the contract and what the views print; None without a search.
    """
    if found is None:
        return None
    asked, problem, now = found.asked, found.asked.problem, found.now
    told = list(stages.case.account) if problem.accounts[0].who != "the area" else []
    return {
        "cells": now.grid.rows * now.grid.columns,
        "cell_m": now.grid.cell,
        "chance_on_map": now.on_map,
        "elsewhere": now.elsewhere,
        "closed_share": now.closed_share,
        "minutes": problem.minutes,
        "law": problem.law,
        "law_words": law_words(problem.law),
        "map_words": map_words(found),
        "sweep_width_m": band_of(problem.sweep_width),
        "sweep_words": asked.sweep_words,
        "tried_on_sample": problem.tried,
        "seen_at_m": asked.seen_at,
        "speed_m_s": band_of(problem.speed),
        "visibility_m": band_of(problem.visibility),
        "accounts": _accounts(found, told),
        "cautions": [caution_words(c) for c in found.cautions],
        "datum": _datum(found),
        "declination_deg": None if asked.declination is None else math.degrees(asked.declination),
        "declination_words": asked.declination_words,
        "contours": _contours(found),
        "dots": [_pair(p) for p in dots(now, _DOTS)],
        "area": [_pair(p) for p in problem.water.area[0]] if problem.water.area else None,
        **_patterns(stages, found),
        "bound": {"chance": found.limits.allocation, "definite": found.limits.definite_range},
        "sequence": [_dive(stages, found, n, dive) for n, dive in enumerate(found.sequence, start=1)],
        "passes": _passes(found),
        "proved": _proved(found),
        "window": window_words(stages, found),
    }


def _patterns(stages: Stages, found: Searched) -> Row:
    choice = found.choice
    sections = [pattern_section(stages, found, answer) for answer in choice.answers]
    refused = [
        {"pattern": PATTERN_NAMES.get(r.name, r.name), "why_not": r.why, "chance": None, "share_of_bound": None}
        for r in choice.refused
    ]
    brief = [{k: v for k, v in s.items() if k != "legs"} | {"why_not": None} for s in sections[1:]]
    return {
        "best": sections[0] if sections else None,
        "second": pair_section(stages, found, choice.pair) if choice.pair else None,
        "alternatives": brief + refused,
    }


def _accounts(found: Searched, told: list[ToldAccount]) -> list[Row]:
    """One row for each account; those that are not whole stand among what is not answered."""
    total = sum(a.weight for a in found.asked.problem.accounts)
    whole = {f"{t.who}": t for t in told}
    rows = []
    for account in found.asked.problem.accounts:
        (east, north), radius = middle_and_radius(account)
        rows.append(
            {
                "who": account.who,
                "words": account_words(account, whole.get(account.who)),
                "weight": account.weight / total,
                "centre_east_m": round(east, _CENTIMETRES),
                "centre_north_m": round(north, _CENTIMETRES),
                "radius95_m": radius if isinstance(account, (PointAccount, TrackAccount)) else None,
                "cautions": [caution_words(c) for c in found.cautions if account.who in c.who],
            }
        )
    return rows


def _datum(found: Searched) -> Row:
    datum = found.asked.datum
    on_grid = UTM_LATITUDE.low <= datum.lat <= UTM_LATITUDE.high
    return {
        "lat": round(datum.lat, _DEGREES),
        "lon": round(datum.lon, _DEGREES),
        "text_dm": written(datum.lat, datum.lon),
        "utm": written(datum.lat, datum.lon, "utm") if on_grid else None,
        "given": found.asked.datum_told,
    }


def _contours(found: Searched) -> list[Row]:
    return [
        {"share": share, "rings": [[_pair(p) for p in ring] for ring in contours(found.now, share)]} for share in SHARES
    ]


def _pair(place: tuple[float, float]) -> list[float]:
    return [round(place[0], _CENTIMETRES), round(place[1], _CENTIMETRES)]


def _dive(stages: Stages, found: Searched, n: int, dive: NextDive) -> Row:
    """One dive of the sequence: its pattern whole, so that each dive can have its card."""
    answer = dive.choice.answers[0]
    searching = [d for d in stages.case.dive if "search" in d.does]
    team = [m.person for m in searching[n - 1].team] if n <= len(searching) else []
    return {
        "dive": n,
        "team": team,
        **pattern_section(stages, found, answer),
        "chance": dive.chance,
        "cumulative_chance": dive.cumulative,
    }


def _passes(found: Searched) -> list[Row]:
    return [
        {
            "n": n,
            "pattern": PATTERN_NAMES.get(one.name, one.name),
            "completed": one.completed,
            "chance_it_had": had,
            "from": one.by,
            "legs": leg_rows(one.pattern, found.asked.declination, None),
        }
        for n, (one, had) in enumerate(zip(found.swum, found.had, strict=True), start=1)
    ]


def _proved(found: Searched) -> Row | None:
    proof = found.proof
    if proof is None:
        return None
    return {
        "covered_share": proof.covered,
        "searched_share": proof.searched,
        "not_here_if_seen_at_m": found.asked.seen_at,
        "chance_not_here": proof.not_here,
        "elsewhere_now": proof.elsewhere,
        "left_share": proof.left,
        "words": proof_words(found),
        "stop_words": stop_words(found),
    }
