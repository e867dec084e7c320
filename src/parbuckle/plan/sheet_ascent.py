"""The ascent section of the plan document: left alone, closed forms of control, the fall, the curve over time."""

from __future__ import annotations

from typing import Any

import numpy as np

from parbuckle.lift.problem import LiftProblem
from parbuckle.lift.result import LiftResult
from parbuckle.physics.rise import SURFACE, Rise
from parbuckle.plan.bands import LITRES, MINUTE, band_of, high, likely
from parbuckle.quantity.band import HIGH, LIKELY, LOW, at_share, at_shares
from parbuckle.quantity.frozen import Floats

_TIMES = 25  # points in time of the depth band
_DRAWS = 1024  # the band of depth over time looks at the first so many draws
_EASY = 2.0  # times the reaction: from there on, a delay budget leaves time to look


def ascent_section(problem: LiftProblem, result: LiftResult) -> dict[str, Any]:
    """Give the ascent as the contract and the brief want it.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    result : LiftResult
        Over all draws.

    Returns
    -------
    dict
        Keys of the contract; ``under_control`` is not there.
    """
    rise, control, fall = result.left_alone, result.control, result.fall
    up = rise.end == SURFACE
    window, no_return = likely(control.window), likely(control.no_return)
    need = likely(result.supply.bag_volume)
    return {
        "left_alone": {"time_s": band_of(rise.time, 1.0, up), "arrival_speed_m_s": band_of(rise.speed, 1.0, up)},
        "growing_share": likely(control.growing_share),
        "doubling_time_s": likely(control.doubling_time),
        "point_of_no_return_m": no_return,
        "let_go_at_m": None if no_return is None else 0.5 * no_return,
        "neutral_window_l": None if window is None else window * LITRES,
        "neutral_window_share": None if window is None or not need else window / need,
        "vent_l_s": [
            {"depth_m": d, "needed": at_share(v, LIKELY) * LITRES}
            for d, v in zip(control.vent_depths, control.vent, strict=True)
        ],
        "pull_l": likely(control.pull, LITRES),
        "delay_budget_s": likely(control.budget),
        "runaway_bound_m_s": likely(control.runaway),
        "full_at_m": _full_at(control.full_at, result.end_depth),
        "fall": {
            "speed_m_s": likely(fall.speed),
            "time_s": likely(fall.time),
            "keep_clear_m": high(fall.keep_clear),
        },
        "surfaces_within_m": high(fall.surfaces_within[up]) if up.any() else high(fall.surfaces_within),
        "rate": {"target_m_min": problem.target * MINUTE, "ceiling_m_min": problem.ceiling * MINUTE},
        "words": words(problem, result),
        "fan": fan(rise),
    }


def words(problem: LiftProblem, result: LiftResult) -> dict[str, str]:
    """Say in one state and one sentence whether this lift can be held.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    result : LiftResult
        Over all draws.

    Returns
    -------
    dict
        ``state`` and ``sentence``.
    """
    budget, bound = likely(result.control.budget), likely(result.control.runaway) or 0.0
    reaction = problem.rules.reaction
    if problem.method == "unaccompanied":
        state, told = "goes alone", "Nobody is beside it. Vent to neutral, slack the restraint, release it, stay clear."
    elif budget is None:
        state, told = "can be held", "Nothing in these bags can grow."
    elif budget < reaction:
        state, told = "cannot be held", f"It grows faster than {reaction:.1f} s of reaction can follow."
    elif budget < reaction * _EASY:
        state, told = "can be held", "By somebody who does nothing else: vent early, in short pulls."
    else:
        state, told = "can be held", "There is time to see it and to vent."
    speed = f" If it gets away: up to {np.ceil(bound * MINUTE):.0f} m/min."
    return {"state": state, "sentence": told + speed}


def fan(rise: Rise) -> list[dict[str, float]]:
    """Give the band of depth over time, of the draws that come up.

    Parameters
    ----------
    rise : Rise
        Over all draws.

    Returns
    -------
    list of dict
        ``t_s``, ``low`` (shallowest), ``likely``, ``high`` (deepest), m.
    """
    first = rise.take(slice(0, _DRAWS))
    up = first.end == SURFACE
    if not up.any():
        return []
    some = first.take(up)
    times = np.linspace(0.0, at_share(some.time, HIGH), _TIMES)
    shallow, mid, deep = at_shares(some.depth_at(times), (LOW, LIKELY, HIGH))
    return [
        {"t_s": float(t), "low": float(a), "likely": float(b), "high": float(c)}
        for t, a, b, c in zip(times, shallow, mid, deep, strict=True)
    ]


def _full_at(depth: Floats, end: Floats) -> float | None:
    """Give the depth at which the part-filled bag is full; None when the surface comes first."""
    middle = likely(depth)
    return middle if middle is not None and middle > at_share(end, LIKELY) else None
