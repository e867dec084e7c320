"""One ascent with all inputs at their middle, step by step."""

from __future__ import annotations

from typing import Any

import numpy as np

from parbuckle.case.read import LoadedCase
from parbuckle.duties.house import load_house
from parbuckle.lift.ascent import body_of
from parbuckle.lift.marks import put_in
from parbuckle.lift.problem import LiftProblem
from parbuckle.lift.result import LiftResult
from parbuckle.physics.constants import MOLAR_MASS_AIR, G, R
from parbuckle.physics.forces import gas_pressure_at, gas_volumes
from parbuckle.physics.simulate import Way
from parbuckle.plan.bands import LITRES
from parbuckle.plan.stages import run_stages

UNDER_CONTROL, LEFT_ALONE = "under control", "left alone"
"""What a trace can be of."""

Row = dict[str, Any]


def trace_of(loaded: LoadedCase, seed: int = 1) -> dict[str, Any]:
    """Follow the lift of a case once, every input at its middle.

    Parameters
    ----------
    loaded : LoadedCase
        Case and kit.
    seed : int
        Seed; with one draw nothing hangs on it.

    Returns
    -------
    dict
        ``trace_of`` (what it is of, None without a lift) and ``trace``: rows of ``t_s``, ``depth_m``, ``speed_m_s``
        (upward positive), ``bag_volumes_l`` by bag and ``surplus_kg`` (lift beyond what is needed at that moment).
    """
    stages = run_stages(loaded, load_house(loaded.case.house), 1, seed)
    if stages.lift is None or stages.lift_problem is None:
        return {"trace_of": None, "trace": []}
    if stages.tending is not None and stages.tending.ways:
        bags = [step.bag for step in stages.lift.filling if step.fill != "empty"]
        told = UNDER_CONTROL, _tended(stages.tending.ways[0], bags)
    else:
        told = LEFT_ALONE, _left_alone(stages.lift_problem, stages.lift)
    for line in told[1]:
        line["surplus_kg"] = _surplus(stages.lift_problem, stages.lift, line)
    return {"trace_of": told[0], "trace": told[1]}


def _surplus(problem: LiftProblem, lift: LiftResult, line: Row) -> float:
    """What the gas lifts at that moment beyond what it has to: (rho_w - rho_gas) V + held - required, kg."""
    rise = problem.depth[0] - line["depth_m"]
    pressure = problem.gas_pressure[0] - problem.water_density[0] * G * rise
    density = problem.water_density[0] - pressure * (MOLAR_MASS_AIR / R) / problem.temperature[0]
    gas = sum(line["bag_volumes_l"].values()) / LITRES
    return float(density * gas + problem.held - lift.required[0])


def _tended(way: Way, bags: list[str]) -> list[Row]:
    rows: list[Row] = []
    for i, t in enumerate(way.time):
        if not rows or t > rows[-1]["t_s"]:
            volumes = (way.volumes[:, i] * LITRES).tolist()
            rows.append(row(float(t), float(way.depth[i]), float(way.speed[i]), bags, volumes))
    return rows


def _left_alone(problem: LiftProblem, lift: LiftResult) -> list[Row]:
    bags = {bag.id: bag for bag in problem.bags}
    steps = [step for step in lift.filling if step.fill != "empty"]
    fill = tuple(bags[step.bag] for step in steps)
    really = np.array([bag.really for bag in fill])
    gas = put_in(really, (lift.required - problem.held + lift.surplus_start) / problem.lift_density)
    body = body_of(problem, fill, lift.required, gas)
    rise = lift.left_alone
    rows: list[Row] = []
    for t, z, v in zip(rise.steps_time[:, 0], rise.steps_depth[:, 0], rise.steps_speed[:, 0], strict=True):
        if rows and t == rows[-1]["t_s"]:
            continue
        volumes = gas_volumes(body, gas_pressure_at(body, np.array([z])))[:, 0] * LITRES
        rows.append(row(float(t), float(z), float(v), [step.bag for step in steps], volumes.tolist()))
    return rows


def row(time: float, depth: float, speed: float, bags: list[str], volumes: list[float]) -> Row:
    """Give one row of a trace.

    Parameters
    ----------
    time : float
        s.
    depth : float
        Depth of the load, m.
    speed : float
        Upward, m/s.
    bags : list of str
        Ids in the order of filling.
    volumes : list of float
        Gas in each of them, l.

    Returns
    -------
    dict
        As the document holds it.

    Examples
    --------
    >>> row(0.0, 16.0, 0.0, ["C25"], [25.0])["bag_volumes_l"]
    {'C25': 25.0}
    """
    return {
        "t_s": time,
        "depth_m": depth,
        "speed_m_s": speed,
        "bag_volumes_l": dict(zip(bags, volumes, strict=True)),
    }
