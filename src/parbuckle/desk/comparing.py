"""Variants of a plan side by side: the rows worth comparing, and where they differ."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from typing import Any

from parbuckle.brief.dive_rows import limit
from parbuckle.desk.tonight_words import Document, band, gauges, listed, one, safe, share, texts_of, time_band
from parbuckle.quantity.shown import NOT_KNOWN, clock

Cell = Callable[[Document], str]

NO_PLAN = "not planned: something is written wrongly"
"""What stands in every cell of a variant that cannot be planned."""

_NOT = "—"
_LEVELS = {"stop": "STOP", "unanswered": "unanswered", "caution": "caution"}


def compare(columns: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """Put plans side by side.

    Parameters
    ----------
    columns : sequence of mapping
        One for each variant: ``id``, ``title``, ``variant``, ``revision`` and ``plan``, its plan document or None.

    Returns
    -------
    dict
        ``columns`` (without the plans) and ``rows``: ``section``, ``name``, ``cells`` (text for each column) and
        ``differs``.
    """
    plans = [column["plan"] for column in columns]
    rows = [_row(section, name, [_cell(cell, plan) for plan in plans]) for section, name, cell in _rows(plans)]
    heads = [{key: value for key, value in column.items() if key != "plan"} for column in columns]
    shown = [row for row in rows if any(text not in (_NOT, NO_PLAN, NOT_KNOWN) for text in row["cells"])]
    return {"columns": heads, "rows": shown}


def _row(section: str, name: str, cells: list[str]) -> dict[str, Any]:
    return {"section": section, "name": name, "cells": cells, "differs": len(set(cells)) > 1}


def _cell(cell: Cell, plan: Document | None) -> str:
    if plan is None:
        return NO_PLAN
    try:
        return cell(plan) or _NOT
    except (KeyError, TypeError, IndexError, AttributeError):  # this plan has no such section
        return _NOT


def _rows(plans: Sequence[Document | None]) -> Iterator[tuple[str, str, Cell]]:
    yield from _FIXED
    most = max((len(plan.get("dives") or []) for plan in plans if plan), default=0)
    for place in range(most):
        yield from _dive(place)
    yield from _findings([plan for plan in plans if plan])


def _banded(path: str, kind: str) -> Cell:
    return lambda plan: band(plan, _at(plan, path), kind) if _at(plan, path) else _NOT


def _single(path: str, kind: str) -> Cell:
    return lambda plan: one(plan, _at(plan, path), kind) if _at(plan, path) is not None else _NOT


def _limit(path: str, kind: str, up: bool) -> Cell:
    return lambda plan: safe(plan, _at(plan, path), kind, up) if _at(plan, path) is not None else _NOT


def _words(path: str) -> Cell:
    return lambda plan: str(_at(plan, path) or _NOT)


def _at(plan: Document, path: str) -> Any:
    here: Any = plan
    for step in path.split("."):
        here = here[step]
    return here


def _bags(plan: Document) -> str:
    return listed(f"{row['id']} {row['fill']}" for row in plan["lift"]["bags"])


def _cylinder(plan: Document) -> str:
    row = plan["lift"]["cylinder"]
    enough = f", enough for {row['enough_for_tries']} tries" if row.get("enough_for_tries") else ""
    return f"{row['id']}{enough}"


def _rigging(plan: Document) -> str:
    """The item that comes nearest to its limit."""
    used = [row for row in plan["lift"]["rigging"] if row.get("used") is not None]
    worst = max(used, key=lambda row: row["used"], default=None)
    return _NOT if worst is None else f"{worst['item']} at {share(worst['used'])} of its limit"


def _in_water(plan: Document) -> str:
    return listed(row["name"] for row in plan["people"] if row["in_water"])


_FIXED: tuple[tuple[str, str, Cell], ...] = (
    ("Verdict", "In one line", _words("verdict.line")),
    ("Verdict", "Stops", lambda plan: str(plan["verdict"]["stops"])),
    ("Verdict", "Not answered", lambda plan: str(plan["verdict"]["unanswered"])),
    ("Verdict", "Cautions", lambda plan: str(plan["verdict"]["cautions"])),
    ("Object", "Weight in water", _banded("load.wet_weight_kg", "mass")),
    ("Object", "Break-out", _banded("load.breakout_kg", "mass")),
    ("Object", "Leaving the water", _banded("load.leaving_water_kg", "mass")),
    ("Lift", "Way up", _words("lift.method")),
    ("Lift", "Why", _words("lift.method_why")),
    ("Lift", "Bags", _bags),
    ("Lift", "Needed", _banded("lift.required_kg", "mass")),
    ("Lift", "Filling stops at", _limit("lift.ceiling_kg", "mass", up=False)),
    ("Lift", "Over when it lets go", _banded("lift.surplus_at_release_kg", "mass")),
    ("Lift", "Over at most", _limit("lift.surplus_at_most_kg", "mass", up=True)),
    ("Lift", "What catches it", _words("lift.catches")),
    ("Lift", "Floats once free in", _words("lift.chance_floats_words")),
    ("Lift", "Reserve at the surface", _banded("lift.reserve.reached_share", "share")),
    ("Lift", "Free gas, all tries", _banded("lift.free_gas_l", "free_gas")),
    ("Lift", "Lifting cylinder", _cylinder),
    ("Lift", "Rigging nearest to its limit", _rigging),
    ("Ascent", "Can it be held", _words("ascent.words.state")),
    ("Ascent", "Time to react", _single("ascent.delay_budget_s", "time")),
    ("Ascent", "Share that can grow", _single("ascent.growing_share", "share")),
    ("Ascent", "Left alone: time", _banded("ascent.left_alone.time_s", "time")),
    ("Ascent", "Left alone: speed at the surface", _banded("ascent.left_alone.arrival_speed_m_s", "rise")),
    ("Ascent", "Stays within the rate", _single("ascent.under_control.chance_within_rate", "share")),
    ("Ascent", "Runs away", _single("ascent.under_control.chance_runaway", "share")),
    ("Ascent", "Sinks back", _single("ascent.under_control.chance_sinks_back", "share")),
    ("Ascent", "Keep clear on the bottom", _limit("circles.bottom_m", "length", up=True)),
    ("Ascent", "Keep clear at the surface", _limit("circles.surface_m", "length", up=True)),
    ("Search", "Pattern", _words("search.best.words")),
    ("Search", "Chance to find it", _single("search.best.chance", "share")),
    ("Search", "Time on the pattern", _single("search.best.minutes", "minutes")),
    ("Dive", "In the water", _in_water),
    ("Dive", "Off the bottom by", lambda plan: clock(plan["clock"]["latest_off_bottom"])),
)


def _dive(place: int) -> Iterator[tuple[str, str, Cell]]:
    def of(plan: Document) -> dict[str, Any]:
        row: dict[str, Any] = plan["dives"][place]
        return row

    name = f"Dive {place + 1}"
    yield name, "What for", lambda plan: str(of(plan)["does"])
    yield name, "Start", lambda plan: clock(of(plan)["start"], with_date=True)
    yield name, "Bottom time", lambda plan: band(plan, of(plan)["bottom_time_min"], "minutes")
    yield name, "No-stop limit, the shorter", lambda plan: _no_stop(of(plan)["no_stop_min"])
    yield name, "Stops due", lambda plan: _stops(plan, of(plan)["stops"])
    yield name, "Turn at, where it is a search", lambda plan: gauges(plan, _searchers(of(plan)), "turn_bar")
    yield name, "Leave the bottom at", lambda plan: gauges(plan, of(plan)["divers"], "leave_bottom_bar")
    yield name, "Slack at", lambda plan: time_band(of(plan)["window"]["slack"])
    yield name, "Fits slack by the clock", lambda plan: share(of(plan)["window"]["chance_fits"])


def _searchers(dive: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    return list(dive["divers"]) if "search" in dive["does"] else []


def _no_stop(row: Mapping[str, Any]) -> str:
    return limit(row[row["shorter"] or "model"])


def _stops(plan: Document, rows: Sequence[Mapping[str, Any]]) -> str:
    told = [f"{one(plan, row['min'], 'minutes')} at {one(plan, row['depth_m'], 'length')}" for row in rows]
    return listed(told) or "none"


def _findings(plans: Sequence[Document]) -> Iterator[tuple[str, str, Cell]]:
    """What a rule says in one plan and not, or not alike, in another."""
    seen: dict[str, str] = {}
    for level in _LEVELS:
        for plan in plans:
            for row in plan["findings"]:
                if row["level"] == level:
                    seen.setdefault(row["code"], level)
    for code in seen:
        cells = [_texts(code, plan) for plan in plans]
        if len(set(cells)) > 1:
            yield "What the rules say", _LEVELS[seen[code]], partial(_texts, code)


def _texts(code: str, plan: Document) -> str:
    return " ".join(texts_of(plan, (code,))) or _NOT
