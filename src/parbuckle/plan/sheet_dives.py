"""The dives of the plan document."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import UTC, datetime, tzinfo
from typing import Any

from parbuckle.dive.result import DiveResult, DiverResult, GasPlan, OverRun, Standby, Window
from parbuckle.dive.stops import Stop
from parbuckle.plan.bands import BAR, LITRES, MINUTE, band_of, high
from parbuckle.plan.dive_ascent import ascent_of, flying
from parbuckle.plan.dive_carried import carried_row, gas_changes
from parbuckle.plan.stages import Stages
from parbuckle.quantity.band import HIGH, LIKELY, LOW, at_share
from parbuckle.quantity.frozen import Bools, Floats

Row = dict[str, Any]

CAUTION = "An aid to planning. It does not replace the divers' own computers, tables and training."
"""Stands beside every limit."""

MODELS = {
    "model": "ZH-L16C with gradient factors",
    "table": "U.S. Navy Diving Manual, Revision 7, tables 9-7 and 9-8, on air and by equivalent air depth",
}
"""What the two no-stop limits are."""


def dive_sections(stages: Stages) -> list[Row] | None:
    """Give the dives as the document holds them.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    list of dict or None
        One for each dive that has tasks, in the order of their start; None when none has.
    """
    if stages.diving is None:
        return None
    return [_dive(stages, dive) for dive in stages.diving.dives]


def _dive(stages: Stages, dive: DiveResult) -> Row:
    told, problem = stages.case.dive[dive.place], stages.diving_problem
    assert problem is not None
    zone = told.start.tzinfo if told.start else None
    team = [{"name": m.person, "role": m.role} for m in told.team]
    return {
        "does": dive.does,
        "label": dive.label,
        "start": told.start.isoformat() if told.start else None,
        "team": team,
        "depth_m": band_of(dive.depth),
        "tasks": [{"does": name, "min": band_of(time, 1.0 / MINUTE)} for name, time in dive.blocks],
        "bottom_time_min": band_of(dive.bottom_time, 1.0 / MINUTE),
        "way_up_min": band_of(dive.way_up, 1.0 / MINUTE),
        "dive_time_min": band_of(dive.bottom_time + dive.way_up, 1.0 / MINUTE),
        "no_stop_min": _no_stop(dive, list(problem.rules.factors)),
        "stops": _stops(dive.stops),
        "always_stop": _always(stages),
        "gas_changes": gas_changes(stages, dive),
        "window": _window(dive.window, dive, zone, stages),
        "latest_leave_bottom": _clock(dive.latest_leave, zone),
        "latest_from": dive.latest_from or None,
        "over_run": _over_run(dive.over_run, dive, zone),
        "divers": [_diver(d, dive) for d in dive.divers],
        "standby": [_standby(row) for row in dive.standby],
        "oxygen": _oxygen(dive.divers),
        "ascent": ascent_of(stages, dive),
        "flying": flying(dive),
        "caution": CAUTION,
    }


def _no_stop(dive: DiveResult, gradient: list[float]) -> Row:
    """Both limits, the shorter one named; null: no limit; ``navy_known`` is false where the table has no answer."""
    model = min((at_share(d.limit, LOW) for d in dive.divers), default=math.inf)
    tables = [d.table for d in dive.divers if d.table is not None]
    known = bool(dive.divers) and len(tables) == len(dive.divers)
    table = min(tables) if known else math.inf
    shorter = None if not known or model == table else "model" if model < table else "navy_table"
    return {
        "model": _finite(model, 1.0 / MINUTE),
        "navy_table": _finite(table, 1.0 / MINUTE),
        "navy_known": known,
        "navy_why": next((d.table_why for d in dive.divers if d.table is None), None),
        "shorter": shorter,
        "chance_over": _share(_any([d.limit < dive.bottom_time for d in dive.divers], dive)),
        "gradient": gradient,
        "of": MODELS,
    }


def _stops(stops: Sequence[Stop]) -> list[Row]:
    return [{"depth_m": s.depth, "min": s.time / MINUTE} for s in stops]


def _always(stages: Stages) -> Row | None:
    problem = stages.diving_problem
    if problem is None or problem.rules.stop_time <= 0.0:
        return None
    return {"depth_m": problem.rules.stop_depth, "min": problem.rules.stop_time / MINUTE}


def _window(found: Window | None, dive: DiveResult, zone: tzinfo | None, stages: Stages) -> Row | None:
    problem = stages.diving_problem
    if found is None or problem is None or problem.stream is None:
        return None
    there = found.exists
    times = {
        name: _clock_band(values, there, zone)
        for name, values in (("opens", found.opens), ("slack", found.slack), ("closes", found.closes))
    }
    return {
        "limit_m_s": problem.stream.limit,
        **times,
        "min": band_of(found.closes - found.opens, 1.0 / MINUTE, there, of=True),
        "needed_min": band_of(dive.bottom_time + dive.way_up, 1.0 / MINUTE),
        "chance_fits": _share(found.fits),
        "chance_fits_on_sight": _share(found.fits_on_sight),
        "slack_error_told": stages.case.site.slack_error is not None,
        "start_when": "Start when the float stands upright; the clock is only a bound.",
    }


def _over_run(late: OverRun | None, dive: DiveResult, zone: tzinfo | None) -> Row | None:
    if late is None:
        return None
    ends = dict(late.ends)
    surfaced = None if dive.start is None else dive.start + late.bottom_time + late.way_up
    closes = None
    if dive.window is not None and dive.window.exists.any():
        closes = at_share(dive.window.closes[dive.window.exists], LIKELY)
    return {
        "bottom_time_min": late.bottom_time / MINUTE,
        "longer_by_min": (late.bottom_time - at_share(dive.bottom_time, LIKELY)) / MINUTE,
        "stops": _stops(late.stops),
        "way_up_min": late.way_up / MINUTE,
        "surfaced": _clock(surfaced, zone),
        "after_slack_min": None if surfaced is None or closes is None else max(surfaced - closes, 0.0) / MINUTE,
        "end_pressure_bar": [{"name": name, "bar": bar / BAR} for name, bar in ends.items()],
        "passes_leave_pressure": list(late.late),
        "carried_short": list(late.short),
    }


def _diver(diver: DiverResult, dive: DiveResult) -> Row:
    gas = diver.gas
    return {
        "name": diver.name,
        "role": diver.role,
        "gas": diver.breathes,
        "interval_min": band_of(diver.interval, 1.0 / MINUTE),
        "no_stop_min": {
            "model": _finite(at_share(diver.limit, LOW), 1.0 / MINUTE),
            "navy_table": None if diver.table is None else _finite(diver.table, 1.0 / MINUTE),
            "navy_known": diver.table is not None,
        },
        "group_before": diver.group_before or None,
        "group_after": diver.group_after or None,
        "surfacing_gradient": band_of(diver.surfacing),
        "chance_over_no_stop": _share(diver.limit < dive.bottom_time),
        "gas_needed_l": band_of(gas.used, LITRES),
        "way_up_l": band_of(gas.way_up, LITRES),
        "two_people_up_l": band_of(gas.shared, LITRES),
        **_pressures(gas),
        "carried": [carried_row(row) for row in diver.carried],
    }


def _standby(row: Standby) -> Row:
    return {
        "name": row.name,
        "gas": row.breathes,
        "needs_l": band_of(row.needed, LITRES),
        "chance_short": _share(~row.enough),
        "stays_working_min": band_of(row.working, 1.0 / MINUTE),
        "stays_resting_min": band_of(row.resting, 1.0 / MINUTE),
    }


def _pressures(gas: GasPlan) -> Row:
    known = gas.end is not None
    return {
        "start_bar": band_of(gas.start, 1.0 / BAR),
        "turn_bar": None if gas.turn is None else high(gas.turn, 1.0 / BAR),
        "leave_bottom_bar": None if gas.leave is None else high(gas.leave, 1.0 / BAR),
        "leaving_bar": band_of(gas.leaving, 1.0 / BAR),
        "end_pressure_bar": band_of(gas.end, 1.0 / BAR),
        "chance_under_reserve": _share(gas.under) if known else None,
        "chance_past_leave_pressure": _share(gas.late) if known else None,
        "chance_empty": _share(gas.empty) if known else None,
    }


def _oxygen(divers: Sequence[DiverResult]) -> Row | None:
    """What holds for the diver with the largest exposure; and the same for each gas."""
    by_gas: dict[str, DiverResult] = {}
    for diver in divers:
        kept = by_gas.get(diver.breathes)
        if kept is None or _dose(diver) > _dose(kept):
            by_gas[diver.breathes] = diver
    rows = [_exposure(name, d) for name, d in by_gas.items()]
    worst = max(rows, key=lambda row: float(row["oxygen_bar"]["high"]), default=None)
    return None if worst is None else {**worst, "by_gas": rows}


def _dose(diver: DiverResult) -> float:
    dose = diver.oxygen.dose
    return math.inf if dose is None else at_share(dose, HIGH)


def _exposure(name: str, diver: DiverResult) -> Row:
    o = diver.oxygen
    return {
        "gas": name,
        "oxygen_bar": band_of(o.pressure, 1.0 / BAR),
        "mod_m": o.mod,
        "single_share": None if o.single is None else high(o.single),
        "daily_share": None if o.daily is None else high(o.daily),
        "dose_otu": None if o.dose is None else high(o.dose),
        "density_kg_m3": high(o.density),
        "as_narcotic_as_air_at_m": high(o.narcotic_depth),
        "nitrogen_as_air_at_m": None if o.air_depth is None else high(o.air_depth),
    }


def _any(hits: Sequence[Bools], dive: DiveResult) -> Bools:
    out = dive.bottom_time < 0.0
    for row in hits:
        out = out | row
    return out


def _share(hits: Bools) -> float:
    return float(hits.mean())


def _finite(value: float, scale: float) -> float | None:
    return value * scale if math.isfinite(value) else None


def _clock(moment: float | None, zone: tzinfo | None) -> str | None:
    """A time of day, cut to the minute."""
    if moment is None:
        return None
    return datetime.fromtimestamp(moment // MINUTE * MINUTE, zone or UTC).isoformat(timespec="minutes")


def _clock_band(moments: Floats, where: Bools, zone: tzinfo | None) -> Row | None:
    told = band_of(moments, 1.0, where)
    return None if told is None else {name: _clock(told[name], zone) for name in ("low", "likely", "high")}
