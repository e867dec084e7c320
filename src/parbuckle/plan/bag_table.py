"""The team's own table: which of its bags lift which load from which depth, how far they are filled, for how long."""

from __future__ import annotations

from datetime import datetime
from math import ceil, floor
from typing import Any

import numpy as np

from parbuckle.case.kit import Bag as KitBag
from parbuckle.case.kit import Kit
from parbuckle.duties.house import House
from parbuckle.lift.choose import choose
from parbuckle.lift.marks import ceiling, marks
from parbuckle.lift.problem import LiftProblem
from parbuckle.lift.supply import flow_at, gauge_left, usable_gas
from parbuckle.plan.bands import BAR, LITRES, MINUTE
from parbuckle.plan.defaults import defaults
from parbuckle.plan.table_problem import COMPACT, table_problem, with_load
from parbuckle.quantity.band import HIGH, LIKELY, LOW, at_share
from parbuckle.quantity.errors import CaseError

Row = dict[str, Any]

WATERS = {"sea": "Sea water", "fresh": "Fresh water"}
"""The two pages."""

DEPTHS = (3.0, 6.0, 10.0, 15.0, 20.0, 25.0, 30.0)
"""Columns of the table, m."""

LOADS = (5, 10, 15, 20, 30, 40, 50, 70, 100, 150, 200, 300, 500, 700, 1000, 1500, 2000)
"""Weights in water from which the rows are taken, kg."""

_ROWS = 11  # rows that fit on a page and can be read at arm's length
_SHORT = {
    "spare": "one bag too many",
    "light": "a full bag alone lifts it",
    "budget": "grows too fast",
    "runaway": "too fast if lost",
    "restraint": "needs a restraint",
    "float": "too little lift",
    "reserve": "too little reserve",
}


def bag_table(kit: Kit, house: House, version: str, when: datetime | None = None, draws: int = 128) -> Row:
    """Give the table of a kit's own bags against loads and depths.

    Parameters
    ----------
    kit : Kit
        What the team owns.
    house : House
        House rules.
    version : str
        Version of the program.
    when : datetime or None
        Day of the table: bags past their due date are left out.
    draws : int
        Number of draws for one cell.

    Returns
    -------
    dict
        ``team``, ``units``, ``version``, ``cylinder``, ``bags``, ``assumptions``, ``waters``.

    Raises
    ------
    CaseError
        If the kit has no bag that may be used.
    """
    problems = {w: [table_problem(kit, house, w, d, when, draws) for d in DEPTHS] for w in WATERS}
    usable = [b.id for b in problems["sea"][0].bags]
    if not usable:
        raise CaseError(
            "there is no bag to make a table of",
            key="bag",
            given=f"{len(kit.bag)} bags" + (", all set aside or past their due date" if kit.bag else ""),
            allowed="at least one bag that is in date and not set aside",
            do="add the team's bags to the kit",
        )
    owned = [b for b in kit.bag if b.id in usable]
    loads = _loads(owned, house)
    return {
        "team": kit.team.name,
        "units": "metric",
        "version": version,
        "cylinder": _cylinder(kit, problems["sea"][0]),
        "bags": [{"id": b.id, "style": b.style, "marked_l": b.capacity.mid * LITRES} for b in owned],
        "assumptions": _assumptions(kit, house, owned),
        "waters": [
            {"name": name, "rows": [{"load_kg": w, "cells": [_cell(p, w) for p in problems[key]]} for w in loads]}
            for key, name in WATERS.items()
        ],
    }


def _loads(bags: list[KitBag], house: House) -> list[float]:
    """Weights in water above what is carried by hand, up to what all the bags lift; thinned to one page."""
    most = sum(b.capacity.mid for b in bags) * LITRES
    fitting = [float(w) for w in LOADS if house["carry_limit"] < w <= most] or [float(LOADS[0])]
    places = np.linspace(0, len(fitting) - 1, min(len(fitting), _ROWS))
    return [fitting[round(float(i))] for i in places]


def _cell(one: LiftProblem, load: float) -> Row:
    """One load at one depth: the chosen bags, their marks, counted seconds, and what the gauge falls by."""
    problem = with_load(one, one.wet * load)
    cell: Row = {"depth_m": at_share(problem.depth, LIKELY), "bags": [], "bar": None, "note": ""}
    choice = choose(problem)
    best = choice.best
    if best is None or not choice.passes:
        return cell | {"note": f"none passes: {_SHORT[best.failed[0] if best else 'float']}"}
    owned = {b.id: b for b in problem.bags}
    fill = tuple(owned[i] for i in best.fill)
    borne = problem.on_load + sum((b.weight for b in (*fill, *(owned[i] for i in best.empty))), np.zeros_like(one.wet))
    stops = marks(problem, fill, ceiling(problem, fill, borne)[0])
    full = [at_share(b.really, LIKELY) for b in fill[:-1]]
    grows = problem.gas_pressure / problem.surface_pressure
    rows: list[Row] = []
    for bag, volume in zip(fill, (*full, stops[-1]), strict=True):
        seconds = None
        if problem.cylinder is not None:
            flow = flow_at(problem.cylinder, problem.gas_pressure, problem.rules.intermediate)
            seconds = floor(at_share(volume * grows / flow, LIKELY))
        rows.append({"id": bag.id, "fill": "full", "litres": volume * LITRES, "seconds": seconds})
    rows[-1] |= {"fill": "part", "litres": float(floor(stops[-1] * LITRES))}
    notes = [f"{' + '.join(best.empty)} up empty"] if best.empty else []
    if problem.cylinder is not None:
        used = (sum(full) + stops[-1]) * grows * (1.0 + problem.rules.spill_allowance)
        fall = problem.cylinder.pressure - gauge_left(problem, problem.cylinder, used)
        cell["bar"] = float(ceil(at_share(fall, HIGH) / BAR))
        if at_share(usable_gas(problem, problem.cylinder) - used, LOW) < 0.0:
            cell["bar"] = None
            notes.append(f"more gas than {problem.cylinder.id} gives")
    return cell | {"bags": rows, "note": "; ".join(notes)}


def _cylinder(kit: Kit, problem: LiftProblem) -> str | None:
    if problem.cylinder is None:
        return None
    owned = next(c for c in kit.cylinder if c.id == problem.cylinder.id)
    pressure = owned.pressure.text if owned.pressure else defaults()["cylinder_pressure"].value.text
    return f"{owned.id}, {pressure}, {owned.gas.text}"


def _assumptions(kit: Kit, house: House, owned: list[KitBag]) -> list[str]:
    known = defaults()
    left_out = [b.id for b in kit.bag if b not in owned]
    due = min((b.due for b in owned if b.due is not None), default=None)
    unmeasured = [b.id for b in owned if b.really is None]
    told = [
        f"The weight in water is known to 5 % either way. The load is compact, like {COMPACT}: that is the fast case.",
        "Free of the bottom: break-out is not in the table.",
        "Divers go up beside it and read their rate from a line;"
        f" {house['target'] * MINUTE:.0f} m/min, {house['reaction']:.1f} s to react.",
        f"Bags hang 0 to 2 m above the load; rigging weighs {known['rigging'].value.text} in water.",
        f"Water {known['temperature'].value.text}; fresh water up to 500 m above the sea.",
        f"It floats in {house['float_chance'] * 100:.0f} of 100;"
        f" {house['reserve'] * 100:.0f} % of lift over at the surface.",
        "Bags that go up empty are filled at the surface; that gas is not counted.",
        "Litres: stop at this mark, at the latest. Bar is the high end.",
        "The gauge may be 5 to 10 bar off: it is a check, never a balance.",
    ]
    if unmeasured:
        told.append(f"Not measured, so taken from the mark: {', '.join(unmeasured)}.")
    if left_out:
        told.append(f"Left out, set aside or past the due date: {', '.join(left_out)}.")
    if due is not None:
        told.append(f"Next inspection of a bag: {due.isoformat()}.")
    return told
