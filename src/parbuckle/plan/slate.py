"""The slate: eight big lines with one safe-side number each; no chances, no decimals."""

from __future__ import annotations

import math

import numpy as np

from parbuckle.plan.bands import LITRES
from parbuckle.plan.stages import Stages
from parbuckle.quantity.band import HIGH, LOW, at_share
from parbuckle.quantity.shown import show
from parbuckle.quantity.units import from_si, words

Line = dict[str, str]

_SHOWN = {"mass": ("kg", "lb"), "length": ("m", "ft"), "volume": ("l", "cu ft"), "rate": ("m/min", "ft/min")}
_DIMENSION = {"mass": "mass", "length": "length", "volume": "volume", "rate": "speed"}


def slate(stages: Stages) -> list[Line]:
    """Give the eight lines of the slate.

    Numbers are rounded to whole units toward the safe side: weights, circles and depths up, marks, rates and seconds
    down.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    list of dict
        ``label`` and ``value``.
    """
    units = stages.case.case.units
    lift, problem, load = stages.lift, stages.lift_problem, stages.load
    depth = _whole(float(np.max(stages.site.depth)), "length", units, up=True)
    wet = None if load is None else at_share(load.wet_weight, HIGH)
    lines = [_line("Depth", depth), _line("Weighs up to", _some(wet, "mass", units, up=True))]
    if lift is None or problem is None:
        needed = None if problem is None else at_share(problem.on_load, HIGH)
        return [
            *lines,
            _line("Lift needed up to", _some(needed, "mass", units, up=True)),
            _line("Method", _method(stages)),
        ]
    full = [f"{s.bag} {s.fill}" for s in lift.filling if s.fill != "empty"]
    empty = [s.bag for s in lift.filling if s.fill == "empty"]
    last = next(s for s in reversed(lift.filling) if s.fill != "empty")
    over = _over(lift.ceiling, at_share(lift.required, LOW))
    clear = at_share(lift.fall.keep_clear, HIGH)
    return [
        *lines,
        _line("Bags", ", ".join(full) + (f"; {', '.join(empty)} empty" if empty else "")),
        _line("Stop at", f"{last.bag} at {_whole(last.mark, 'volume', units, up=False)}"),
        _line("Over, up to", _whole(over, "mass", units, up=True)),
        *_going_up(stages, _whole(problem.ceiling, "rate", units, up=False), units),
        _line("Keep clear", _whole(clear, "length", units, up=True)),
    ]


def _going_up(stages: Stages, ceiling: str, units: str) -> list[Line]:
    if stages.method == "unaccompanied":
        return [_line("Release", "once neutral"), _line("Stay", "up-stream, aside")]
    told = stages.case.lift.leave_load_at
    leave = told.high if told else stages.house["leave_load_at"]
    return [_line("Let go above", ceiling), _line("Leave it at", _whole(leave, "length", units, up=True))]


def _method(stages: Stages) -> str:
    return stages.method or "not settled"


def _line(label: str, value: str) -> Line:
    return {"label": label, "value": value}


def _over(ceiling: float, light: float) -> float:
    return max(ceiling - light, 0.0)


def _some(value: float | None, kind: str, units: str, up: bool) -> str:
    return "not known" if value is None else _whole(value, kind, units, up)


def _whole(value: float, kind: str, units: str, up: bool) -> str:
    """Round an SI value to whole shown units toward the safe side and show it."""
    unit = words(_DIMENSION[kind])[_SHOWN[kind][units == "imperial"]]
    shown = from_si(value, unit)
    if kind == "volume" and units == "imperial":
        return show(value * LITRES, kind, units)
    rounded = math.ceil(shown - 1e-9) if up else math.floor(shown + 1e-9)
    return f"{rounded}\u2009{_SHOWN[kind][units == 'imperial']}"
