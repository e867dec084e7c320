"""Loads and limits of everything between the bags and the load: each item, its load, its limit and the factor."""

from __future__ import annotations

import math
from collections import defaultdict

import numpy as np

from parbuckle.lift.rigging_problem import RiggingItem, RiggingProblem
from parbuckle.lift.rigging_result import Hint, RiggingResult, RiggingRow
from parbuckle.lift.rigging_table import (
    Factor,
    class_limits,
    design_factor,
    dynamic_factor,
    end_share,
    hitch_factor,
    rigging_table,
)
from parbuckle.lift.sling import hang_item, leg_share
from parbuckle.quantity.band import HIGH, at_share
from parbuckle.quantity.frozen import Floats

_OVER = {
    "connector": "over_limit_connector",
    "sling": "over_limit_sling",
    "line": "over_limit_line",
    "bag": "over_limit_attachment",
    "lift point": "over_limit_lift_point",
}


def rigging(problem: RiggingProblem) -> RiggingResult:
    """Give load, limit, factor and flags of every item of the rigging.

    Load = the most of the pull under water and, for what is lifted out, leaving weight times the dynamic factor; for a
    sling times the share of its most loaded leg. Limit = marked limit x hitch, or marked strength / design factor x
    hitch; a line's knot halves it. The high end of the load (95 of 100) is held against the limit.

    Parameters
    ----------
    problem : RiggingProblem
        Pull on the pick point, weight hauled out, items.

    Returns
    -------
    RiggingResult
        One row for each item in the order given, hints for findings, sources.

    Raises
    ------
    RangeError
        When a word is not in the tables, or the legs of a sling do not reach.

    Notes
    -----
    Source: EN 1492, EN 12275, ASME B30.9, RR-C-271D and common practice, as each row says.

    Examples
    --------
    >>> from parbuckle.lift.rigging_problem import RiggingItem, RiggingProblem
    >>> k1 = RiggingItem("K1", "connector", make="carabiner", strength=24000.0, locking=True)
    >>> row = rigging(RiggingProblem(np.array([500.0]), (k1,), 0.52, 1.05)).rows[0]
    >>> row.load_n, row.limit_n, row.factor, row.ok
    (500.0, 4800.0, 5.0, True)
    """
    rows = tuple(_row(item, problem) for item in problem.items)
    hints = [hint for item, row in zip(problem.items, rows, strict=True) for hint in _hints(item, row, problem)]
    hints += _shared(problem.items)
    return RiggingResult(rows, tuple(hints), tuple(dict.fromkeys(row.source for row in rows)))


def _row(item: RiggingItem, problem: RiggingProblem) -> RiggingRow:
    share, angle, notes = _side(item)
    pull, why = _pull(item, problem)
    load = share * pull
    high = at_share(load, HIGH)
    limit, factor, source, mark = _limit(item)
    if item.hitch == "choke" and item.choke_angle is None:
        notes.append("Choke angle not given: one step below a natural choke is taken. Do not beat it down.")
    low = angle is not None and angle < problem.least_angle
    gate = _gate(item)
    return RiggingRow(
        item=item.id, kind=item.kind, load=load, load_n=high, limit_n=limit, factor=factor, source=source, mark=mark,
        used=None if not limit else high / limit,
        ok=None if limit is None else bool(high <= limit and not low),
        angle=angle, notes=(*why, *notes), gate_open_n=gate.get("open"), cross_n=gate.get("minor"),
        locking=item.locking is True if _gated(item) else None, shares_with=_others(item, problem.items),
    )  # fmt: skip


def _others(item: RiggingItem, items: tuple[RiggingItem, ...]) -> str:
    return " and ".join(other.id for other in items if item.on and other.on == item.on and other is not item)


def _side(item: RiggingItem) -> tuple[float, float | None, list[str]]:
    """Give the share of the pull on the most loaded leg, the flattest leg's angle, and notes."""
    if item.kind != "sling" or (item.legs <= 1 and item.hitch != "basket"):
        return 1.0, None, []
    notes = (
        ["Three or more rigid legs: two are taken to carry."] if item.legs > rigging_table()["legs"]["carry"] else []
    )
    pair = hang_item(item)
    if pair is None:
        flattest = math.radians(rigging_table()["angle"]["spread_unknown"])
        return leg_share(flattest, 2.0), None, [*notes, "Leg angle not known: the flattest leg allowed is taken."]
    if abs(pair.tilt) > 0.0:
        notes.append(f"The load hangs {math.degrees(abs(pair.tilt)):.0f} deg out of level.")
    return max(pair.first, pair.second), min(pair.first_angle, pair.second_angle), notes


def _pull(item: RiggingItem, problem: RiggingProblem) -> tuple[Floats, list[str]]:
    """Give the pull that reaches the item, N, shape (n,), and a note on what governs it."""
    wet = problem.peak if item.load is None else item.load
    if not item.at_surface or problem.surface is None:
        return wet, []
    factor = dynamic_factor(problem.sea)
    out = problem.surface * factor.value
    words = f"Lifted out of the water: weight on leaving times {factor.value:g} ({factor.mark})."
    return np.maximum(wet, out), [words] if at_share(out, HIGH) > at_share(wet, HIGH) else []


def _limit(item: RiggingItem) -> tuple[float | None, float | None, str, str]:
    """Give limit, factor, source and mark of an item in the way it is used."""
    leg = hitch_factor(item.hitch, item.choke_angle)
    end = end_share(item.kept) if item.kind == "line" else Factor(1.0, "limit as marked", "as marked")
    if item.limit is not None:
        factor = leg.value * end.value
        why = leg if item.kind == "sling" else end
        return item.limit * factor, factor, why.source, why.mark
    if item.strength is not None:
        design = design_factor(item.make, item.kind)
        return item.strength / design.value * leg.value * end.value, design.value, design.source, design.mark
    return None, None, "nothing marked or told", "not known"


def _gate(item: RiggingItem) -> dict[str, float]:
    """Give the open-gate and cross limits of a connector with a gate, from the lowest class of its standard."""
    return class_limits("B") if item.kind == "connector" and _gated(item) else {}


def _gated(item: RiggingItem) -> bool:
    return item.make.lower() in rigging_table()["connector"]["gated"]


def _hints(item: RiggingItem, row: RiggingRow, problem: RiggingProblem) -> list[Hint]:
    found = []
    if row.limit_n is not None and row.load_n > row.limit_n:
        found.append(Hint(_OVER[item.kind], item.id, row.load_n, row.limit_n))
    if item.kind == "connector":
        found += _connector_hints(item, row)
    elif item.kind in ("sling", "line") and row.limit_n is None:
        found.append(Hint("strength_unmarked", item.id, None, None))
    if row.angle is not None and row.angle < problem.least_angle:
        found.append(Hint("flat_sling_refused", item.id, row.angle, problem.least_angle))
    elif row.angle is not None and row.angle < problem.caution_angle:
        found.append(Hint("flat_sling", item.id, row.angle, problem.caution_angle))
    return found


def _connector_hints(item: RiggingItem, row: RiggingRow) -> list[Hint]:
    found = []
    if _gated(item) and item.locking is not True:
        found.append(Hint("connector_unlocked", item.id, row.load_n, row.gate_open_n))
    if item.limit is None and item.strength is None:
        found.append(Hint("connector_unmarked", item.id, None, None))
    return found


def _shared(items: tuple[RiggingItem, ...]) -> list[Hint]:
    """Flag every attachment that carries two things."""
    on: dict[str, list[str]] = defaultdict(list)
    for item in items:
        if item.on:
            on[item.on].append(item.id)
    return [Hint("shared_attachment", " and ".join(ids), float(len(ids)), 1.0) for ids in on.values() if len(ids) > 1]
