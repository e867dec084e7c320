"""The ascent left alone: one lockstep ensemble of 1,024 against SciPy's integrator, one lane after the other.

    python bench/rise.py            # needs the package and SciPy

Both follow the same bodies to the surface. SciPy gets a right-hand side in plain Python and the same work to do: bags
that become full, an event at the surface. The ratio counts; it is for one lane.
"""

from __future__ import annotations

import math
import statistics
import time
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp

from parbuckle.case.read import read_case
from parbuckle.lift.ascent import body_of, end_depth
from parbuckle.lift.marks import put_in
from parbuckle.physics.constants import G, R
from parbuckle.physics.forces import Body
from parbuckle.physics.rise import SURFACE, left_alone
from parbuckle.plan.make import make_plan
from parbuckle.quantity.frozen import Floats

CASE = Path(str(files("parbuckle"))) / "data" / "cases" / "quarry-outboard.toml"
LANES = 20
REPEATS = 5
RTOL = 1e-6


def quarry(draws: int) -> tuple[Body, Floats, Floats]:
    """Give load, bags and gas of the quarry case at lift-off, the depth it starts from and where it has come up."""
    stages = make_plan(read_case(CASE), draws).stages
    problem, lift = stages.lift_problem, stages.lift
    assert problem is not None
    assert lift is not None
    assert lift.choice.best is not None
    owned = {b.id: b for b in problem.bags}
    fill = tuple(owned[i] for i in lift.choice.best.fill)
    really = np.array([b.really for b in fill])
    gas = put_in(really, (lift.required - problem.held + lift.surplus_start) / problem.lift_density)
    return body_of(problem, fill, lift.required, gas), problem.depth, end_depth(problem, fill)


def slope(body: Body, i: int) -> Callable[[float, list[float]], list[float]]:
    """Give the right-hand side of one lane in plain Python."""
    rho, air, warm = (float(a[i]) for a in (body.water_density, body.surface_pressure, body.temperature))
    weight, mass, added = (float(a[i]) for a in (body.weight, body.mass, body.bag_added_mass))
    area, bag_drag, reach, start = (float(a[i]) for a in (body.drag_area, body.bag_drag, body.reach, body.gas_pressure))
    bags = [tuple(float(a[k, i]) for a in (body.gas, body.capacity, body.over_pressure)) for k in range(len(body.gas))]
    heavy = body.molar_mass / (R * warm)

    def rhs(t: float, y: list[float]) -> list[float]:
        p = air + rho * G * (y[0] - reach)
        volumes = [min(gas * start / p, holds) for gas, holds, _ in bags]
        kept = sum(min(max(g * start - c * p, 0.0), c * over) for g, c, over in bags)
        gas = sum(volumes)
        cda = area + bag_drag * sum(math.cbrt(v * v) for v in volumes)
        force = (rho - p * heavy) * G * gas - weight - G * heavy * kept - 0.5 * rho * cda * y[1] * abs(y[1])
        return [-y[1], force / (mass + added * gas)]

    return rhs


class Surface:
    """The event that ends an ascent: the depth at which the top of the load is at the surface."""

    terminal = True

    def __init__(self, top: float) -> None:
        self.top = top

    def __call__(self, t: float, y: list[float]) -> float:
        return float(y[0] - self.top)


def alone(body: Body, depth: Floats, top: Floats, i: int) -> tuple[float, float]:
    """Follow one lane with SciPy; give time and speed at the surface."""

    surface = Surface(float(top[i]))
    done = solve_ivp(slope(body, i), (0.0, 3000.0), [float(depth[i]), 0.0], rtol=RTOL, atol=1e-9, events=surface)
    return float(done.t_events[0][0]), float(done.y_events[0][0][1])


def median(work: Callable[[], object]) -> float:
    """Median time of a few runs, s."""
    took = []
    for _ in range(REPEATS):
        start = time.perf_counter()
        work()
        took.append(time.perf_counter() - start)
    return statistics.median(took)


def main() -> None:
    """Measure both and print them."""
    body, depth, top = quarry(1024)
    rise = left_alone(body, depth, top, depth)
    lanes = np.flatnonzero(rise.end == SURFACE)[:LANES]
    theirs = [alone(body, depth, top, int(i)) for i in lanes]
    off = max(abs(float(rise.time[i]) / t - 1.0) for i, (t, _) in zip(lanes, theirs, strict=True))
    ours = median(lambda: left_alone(body, depth, top, depth)) / depth.size
    one_by_one = median(lambda: [alone(body, depth, top, int(i)) for i in lanes]) / len(lanes)
    print(f"lockstep, {depth.size} lanes:   {ours * 1e6:9.0f} us a lane, {ours * depth.size * 1e3:.0f} ms in all")
    print(f"SciPy RK45, {len(lanes)} lanes:    {one_by_one * 1e6:9.0f} us a lane")
    print(f"ratio for one lane:      {one_by_one / ours:9.0f}")
    print(f"largest difference of the time to the surface: {off:.1e} (relative)")


if __name__ == "__main__":
    main()
