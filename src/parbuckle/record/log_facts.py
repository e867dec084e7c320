"""From the row of a logged dive to what the rules look at."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from parbuckle.duties.log_facts import LogFacts

_MINUTE, _BAR = 60.0, 1e5


def facts_of_log(row: Mapping[str, Any]) -> LogFacts:
    """Give the facts of one logged dive.

    Parameters
    ----------
    row : mapping
        One row of ``logs``, with its ``plan``.

    Returns
    -------
    LogFacts
        In SI.
    """
    model, table, oxygen, plan = row["model"], row["table"], row["oxygen"], row["plan"]
    limit = None if not table["known"] else math.inf if table["no_stop_min"] is None else table["no_stop_min"] * _MINUTE
    return LogFacts(
        label=row["file"],
        fast=tuple((f["fastest_m_min"] / _MINUTE, f["at_m"], f["to_s"]) for f in row["ascent"]["too_fast"]),
        tooth=row["tooth_m"],
        over_limit=max(model["largest_gradient"], 0.0),
        over_ceiling=model["over_ceiling_min"] * _MINUTE,
        factor=model["factor"],
        bottom_time=row["bottom_time_min"] * _MINUTE,
        table_limit=limit,
        table_why=table["why"] or "",
        oxygen=oxygen["highest_bar"] * _BAR,
        exposure=math.inf if oxygen["single_share"] is None else oxygen["single_share"],
        gas_told=row["gas_told"],
        deepest=row["deepest_m"],
        planned=plan is not None,
        **(_planned(row, plan) if plan is not None else {}),
    )


def _planned(row: Mapping[str, Any], plan: Mapping[str, Any]) -> dict[str, Any]:
    """What the plan of this dive asked for."""
    leave, left = plan["leave_bottom_bar"], plan["left_bottom_bar"]
    return {
        "planned_time": plan["bottom_time_min"]["high"] * _MINUTE,
        "planned_depth": plan["depth_m"]["high"],
        "missed": tuple(
            (s["depth_m"], s["min"] * _MINUTE, s["made_min"] * _MINUTE) for s in plan["stops"] if not s["made"]
        ),
        "leave": None if leave is None else leave * _BAR,
        "leaving": None if left is None else left * _BAR,
    }
