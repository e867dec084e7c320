"""Cylinders carried beside the set, as the plan document holds them: what each gives, and where the gas is changed."""

from __future__ import annotations

from typing import Any

from parbuckle.case.diving import Dive
from parbuckle.dive.result import CarriedPlan, DiveResult
from parbuckle.plan.bands import BAR, LITRES, MINUTE, band_of, high
from parbuckle.plan.stages import Stages

Row = dict[str, Any]


def changes_below(dive: Dive, depth: float) -> bool:
    """Say whether somebody of a dive changes gas deeper than some depth.

    Parameters
    ----------
    dive : Dive
        The dive.
    depth : float
        m.

    Returns
    -------
    bool
        True where at least one does.
    """
    at = [each.change_at.mid for member in dive.team for each in member.carries if each.change_at is not None]
    return any(change > depth for change in at)


def carried_row(row: CarriedPlan) -> Row:
    """Give one cylinder that a diver carries.

    Parameters
    ----------
    row : CarriedPlan
        What the dive stage found.

    Returns
    -------
    dict
        ``cylinder``, ``gas``, ``change_at_m`` (None: for an emergency only), ``needs_l``, pressures, chances, oxygen.
    """
    known = row.end is not None
    return {
        "cylinder": row.name,
        "gas": row.breathes,
        "change_at_m": row.change,
        "oxygen_bar": high(row.oxygen, 1.0 / BAR),
        "mod_m": row.mod,
        "needs_l": band_of(row.needed, LITRES),
        "start_bar": band_of(row.start, 1.0 / BAR),
        "end_pressure_bar": band_of(row.end, 1.0 / BAR),
        "chance_short": float(row.short.mean()) if known else None,
        "chance_empty": float(row.empty.mean()) if known else None,
    }


def gas_changes(stages: Stages, dive: DiveResult) -> list[Row]:
    """Give where the team waits on the way up while somebody changes gas.

    Parameters
    ----------
    stages : Stages
        Case and results.
    dive : DiveResult
        The dive.

    Returns
    -------
    list of dict
        ``depth_m``, ``min`` and ``who`` (``name``, ``gas``, ``cylinder``), deepest first; empty where nobody changes.
    """
    problem = stages.diving_problem
    pause = problem.rules.change / MINUTE if problem else 0.0
    rows: dict[float, list[Row]] = {}
    for diver in dive.divers:
        for each in diver.carried:
            if each.change is not None:
                told = {"name": diver.name, "gas": each.breathes, "cylinder": each.name}
                rows.setdefault(each.change, []).append(told)
    return [{"depth_m": depth, "min": pause, "who": rows[depth]} for depth in sorted(rows, reverse=True)]
