"""Dives that are over, beside the plan: read, held against the limits, and compared with what was planned."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import numpy as np

from parbuckle import __version__
from parbuckle.desk.reading import whole_case
from parbuckle.desk.writing import write_whole
from parbuckle.dive.both_models import Before
from parbuckle.dive.history import fresh, rest_long
from parbuckle.dive.loading import at_rest
from parbuckle.dive.problem import DiveRules, DivingProblem
from parbuckle.dive.profile import Water
from parbuckle.duties.house import House
from parbuckle.duties.judge import judge
from parbuckle.duties.rules_log import RULES
from parbuckle.plan.facts import facts_of
from parbuckle.plan.make import make_plan
from parbuckle.quantity.errors import CallError, CaseError
from parbuckle.quantity.frozen import Floats
from parbuckle.record.log_facts import facts_of_log
from parbuckle.record.log_judging import as_earlier, judged, stops_made
from parbuckle.record.log_reading import Logged, read_logs
from parbuckle.record.uddf_write import uddf_of

Row = dict[str, Any]

_MINUTE, _BAR, _LITRE = 60.0, 1e5, 1e-3


@dataclass(frozen=True)
class LogCall:
    """What is asked about logged dives.

    Parameters
    ----------
    files : sequence of Path
        The logs, all of one diver.
    mapping : Path or None
        Which column of a table is what.
    dive : int or None
        Number of the planned dive, from 1; None: found by the start.
    diver : str or None
        Who made them; then earlier dives of the case count.
    uddf : Path or None
        Where to write them as UDDF; never over another file.
    """

    files: Sequence[Path]
    mapping: Path | None = None
    dive: int | None = None
    diver: str | None = None
    uddf: Path | None = None


def logs(path: Path, call: LogCall, draws: int = 1024, seed: int = 1) -> Row:
    """Read logged dives and hold them against the limits and the plan.

    Parameters
    ----------
    path : Path
        The case file.
    call : LogCall
        Which logs, and whose.
    draws : int
        Number of draws of the plan.
    seed : int
        Seed.

    Returns
    -------
    dict
        ``schema``, ``program``, ``case`` and ``logs``: one row for each dive, with its ``findings``.

    Raises
    ------
    CaseError
        If something in a file is written wrongly, or dives overlap.
    CallError
        If the case has no dive with a task, or not the dive or the diver that is asked for.
    """
    read = read_logs(call.files, call.mapping)
    made = make_plan(whole_case(path), draws, seed)
    problem = made.stages.diving_problem
    document = made.document
    if problem is None:
        raise CallError(f"{path}: no dive of the case has a task, so there is nothing to compare a log with")
    water = Water(problem.water.surface.max(keepdims=True), problem.water.density.max(keepdims=True))
    before = _before(problem, call.diver, read[0].start)
    near = made.stages.house["log_near"]
    places = [_place(problem, document, log, call.dive, near) for log in read]
    planned = [None if place is None else document["dives"][place] for place in places]
    climbed = 0.0 if problem.lives_there else problem.climbed
    told = _Told(water, problem.rules, made.stages.house, call.diver, climbed)
    rows = _rows(read, planned, before, told)
    asked = facts_of(made.stages)
    for row in rows:
        found = judge(replace(asked, logs=(facts_of_log(row),)), made.stages.house, rules=RULES)
        row["findings"] = [finding.document() for finding in found]
    if call.uddf is not None:
        _write(call.uddf, read)
    kept: Row = {key: document[key] for key in ("schema", "program", "case") if key in document}
    return {**kept, "logs": rows}


@dataclass(frozen=True, slots=True)
class _Told:
    """What all logs of one call share."""

    water: Water
    rules: DiveRules
    house: House
    diver: str | None
    climbed: float


def _rows(
    read: Sequence[Logged], planned: Sequence[Row | None], before: tuple[Floats, tuple[Before, ...]], told: _Told
) -> list[Row]:
    rows: list[Row] = []
    tissues, earlier = before
    over: float | None = None
    for log, dive in zip(read, planned, strict=True):
        rested = None if over is None or log.start is None else log.start - over
        if over is not None:
            tissues = tissues if rested is None else rest_long(tissues, told.water.surface, np.array([rested]))
            earlier = (*earlier[:-1], replace(earlier[-1], interval=rested or 0.0))  # not known counts as none
        row, tissues = judged(log.profile, tissues, told.water, told.rules, earlier, told.climbed)
        earlier = (*earlier, as_earlier(log.profile, row["left_bottom_s"], told.water))
        over = None if log.start is None else log.start + float(log.profile.time[-1])
        row = {
            "file": log.file,
            "start": log.profile.start,
            "surface_interval_min": None if rested is None else rested / _MINUTE,
            **row,
            "cylinders": _cylinders(log, row["left_bottom_s"]),
        }
        row["plan"] = None if dive is None else _compared(log, row, dive, told)
        rows.append(row)
    return rows


def _before(problem: DivingProblem, diver: str | None, start: float | None) -> tuple[Floats, tuple[Before, ...]]:
    """Tissues before the first log: at rest, or after the diver's earlier dives; and these as the table sees them."""
    surface = problem.water.surface.max(keepdims=True)
    if diver is None:
        return at_rest(surface), ()
    people = {d.name: d for dive in problem.dives for d in dive.divers}
    if diver not in people:
        raise CallError(f"no diver {diver!r} in the dives of the case; there are: {', '.join(people) or 'none'}")
    history = fresh(problem, people[diver], start)
    rested = history.rested(problem, start)
    fullest = int(np.argmax(rested.sum(axis=(0, 1))))
    return rested[:, :, fullest : fullest + 1], history.before(start)


def _place(
    problem: DivingProblem, document: Mapping[str, Any], log: Logged, asked: int | None, near: float
) -> int | None:
    """Place in the document of the planned dive that a log belongs to; None where none does."""
    if asked is None:
        return _nearest(problem, log, near)
    places = {d.place + 1: n for n, d in enumerate(problem.dives)}
    if asked not in places or places[asked] >= len(document["dives"]):
        raise CallError(f"no dive {asked} in the case; it has {', '.join(map(str, sorted(places)))}")
    return places[asked]


def _nearest(problem: DivingProblem, log: Logged, near: float) -> int | None:
    """The planned dive whose start is near; the only dive, where the log has no start."""
    if log.start is None:
        return 0 if len(problem.dives) == 1 else None
    gaps = [(abs(d.start - log.start), n) for n, d in enumerate(problem.dives) if d.start is not None]
    gap, place = min(gaps, default=(np.inf, 0))
    return place if gap <= near else None


def _compared(log: Logged, row: Row, dive: Row, told: _Told) -> Row:
    planned = [*dive["stops"], *([dive["always_stop"]] if dive["always_stop"] and not dive["stops"] else [])]
    people = {d["name"]: d for d in dive["divers"]}
    leave = people[told.diver]["leave_bottom_bar"] if told.diver in people else None
    logged = [c["at_leaving_bar"] for c in row["cylinders"] if c["at_leaving_bar"] is not None]
    return {
        "label": dive["label"],
        "depth_m": dive["depth_m"],
        "bottom_time_min": dive["bottom_time_min"],
        "longer_by_min": row["bottom_time_min"] - dive["bottom_time_min"]["likely"],
        "past_long_end": row["bottom_time_min"] > dive["bottom_time_min"]["high"],
        "deeper_by_m": row["deepest_m"] - dive["depth_m"]["high"],
        "stops": stops_made(log.profile, planned, row["left_bottom_s"], told.house["stop_band"]),
        "leave_bottom_bar": leave,
        "left_bottom_bar": logged[0] if len(logged) == 1 else None,
    }


def _cylinders(log: Logged, leaves: float) -> list[Row]:
    rows = []
    for tank in log.profile.tanks:
        told = tank.pressure
        rows.append(
            {
                "name": tank.name,
                "gas": None if tank.gas is None else tank.gas.text,
                "volume_l": None if tank.volume is None else tank.volume / _LITRE,
                "start_bar": None if told is None else float(told.value[0]) / _BAR,
                "at_leaving_bar": None if told is None else float(np.interp(leaves, told.time, told.value)) / _BAR,
                "end_bar": None if told is None else float(told.value[-1]) / _BAR,
            }
        )
    return rows


def _write(path: Path, read: Sequence[Logged]) -> None:
    """Write the dives; the moment is that of the last one, so that the same logs give the same bytes."""
    if path.exists():
        raise CaseError("this file is there already; nothing was written", file=str(path), do="take another name")
    starts = [log.start + float(log.profile.time[-1]) for log in read if log.start is not None]
    moment = datetime.fromtimestamp(max(starts, default=0.0), UTC).isoformat()
    write_whole(path, uddf_of([log.profile for log in read], "parbuckle", __version__, moment).encode())
