"""Bodies of load, bags and gas for the tests: drawn with a seed, one column for each case, and a reference for each.

The reference is written in plain floats and imports no force of the program: gas of fixed mass in each bag, Boyle or
the adiabatic limit, bags that spill when full, drag, and a high-order solver with events.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from parbuckle.physics.forces import Body

G0 = 9.80665
GAS = 8.314462618
AIR = 0.02896546
MOST = 3

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Lane:
    """One lift in plain floats."""

    rho: float
    air: float
    kelvin: float
    weight: float  # N in water
    mass: float  # kg, all but the bags' own added mass
    bag_added: float  # kg for each m3 of gas
    area: float  # m2
    bag_drag: float
    reach: float
    depth: float
    surface: float
    gas: tuple[float, ...]  # m3 at the bags
    capacity: tuple[float, ...]
    relief: tuple[float, ...]
    gamma: float

    @property
    def pressure(self) -> float:
        """Absolute pressure of the gas at the start, Pa."""
        return self.air + self.rho * G0 * (self.depth - self.reach)


def draw_lanes(count: int, seed: int, gamma: float = 1.0) -> list[Lane]:
    """Draw lifts of 1 to 3 bags, open and closed, fresh and sea, as a point and with a strop, 5 to 800 kg."""
    rng = np.random.default_rng(seed)
    return [_draw(rng, gamma) for _ in range(count)]


def _draw(rng: np.random.Generator, gamma: float) -> Lane:
    def flat(low: float, high: float) -> float:
        return float(rng.uniform(low, high))

    sea = rng.random() < 0.5
    rho = flat(1018.0, 1030.0) if sea else flat(997.0, 1000.0)
    air = 101325.0 if sea else flat(80e3, 101325.0)
    kelvin, depth = flat(274.0, 299.0), flat(3.0, 40.0)
    point = rng.random() < 0.4
    reach = 0.0 if point else flat(0.2, 0.4 * depth)
    wet = math.exp(flat(math.log(5.0), math.log(800.0)))
    pressure = air + rho * G0 * (depth - reach)
    surplus = math.exp(flat(math.log(0.005), math.log(0.3)))
    total = wet * (1.0 + surplus) / (rho - pressure * AIR / (GAS * kelvin))
    bags = int(rng.integers(1, MOST + 1))
    shares = rng.uniform(0.15, 1.0, bags)
    gas = total * shares / shares.sum()
    filled = [1.0] * bags
    filled[-1] = flat(0.02, 1.0)
    if bags > 1 and rng.random() < 0.3:
        filled[0] = flat(0.3, 1.0)
    outline = wet * flat(0.2, 1.0) / rho
    closed = rng.random(bags) < 0.5
    return Lane(
        rho=rho,
        air=air,
        kelvin=kelvin,
        weight=wet * G0,
        mass=wet * flat(1.1, 3.0) + rho * outline * flat(0.5, 0.9),
        bag_added=0.5 * rho,
        area=flat(0.5, 2.0) * outline ** (2.0 / 3.0),
        bag_drag=flat(0.5, 2.0),
        reach=reach,
        depth=depth,
        surface=0.0 if point else min(reach + flat(0.3, 1.3), 0.8 * depth),
        gas=tuple(float(v) for v in gas),
        capacity=tuple(float(v / f) for v, f in zip(gas, filled, strict=True)),
        relief=tuple(10e3 if c else 0.0 for c in closed),
        gamma=gamma,
    )


def body_of_lanes(lanes: list[Lane]) -> Body:
    """Put lifts side by side as one body, with empty bags where a lift has fewer than the most."""

    def column(name: str) -> Array:
        return np.array([getattr(lane, name) for lane in lanes])

    def rows(name: str, missing: float) -> Array:
        full = [(*getattr(lane, name), *[missing] * (MOST - len(lane.gas))) for lane in lanes]
        return np.array(full).T.copy()

    return Body(
        water_density=column("rho"),
        surface_pressure=column("air"),
        temperature=column("kelvin"),
        weight=column("weight"),
        mass=column("mass"),
        bag_added_mass=column("bag_added"),
        drag_area=column("area"),
        bag_drag=column("bag_drag"),
        reach=column("reach"),
        capacity=rows("capacity", 0.02),
        gas=rows("gas", 0.0),
        gas_pressure=column("pressure"),
        over_pressure=rows("relief", 0.0),
        gamma=lanes[0].gamma,
    )


def reference(lane: Lane, speed: float = 0.0, depth: float | None = None) -> tuple[str, float, float]:
    """Follow one lift to its end: ``surface`` or ``bottom``, time in s, speed upward in m/s."""
    full = [c <= v * (1.0 + 1e-12) for v, c in zip(lane.gas, lane.capacity, strict=True)]
    t, z, w = 0.0, lane.depth if depth is None else depth, speed
    for _ in range(len(full) + 1):
        growing = [i for i, is_full in enumerate(full) if not is_full]
        marks = [_full_at(lane, i) for i in growing]
        events = [_at(lane.surface, -1), _at(lane.depth, 1), *[_at(mark, -1) for mark in marks]]
        solved = solve_ivp(
            _slopes,
            (t, t + 4000.0),
            (z, w),
            method="DOP853",
            rtol=1e-10,
            atol=1e-12,
            events=events,
            args=(lane, tuple(full)),
        )
        assert solved.status == 1, "the reference does not end"
        hit = next(i for i, times in enumerate(solved.t_events) if len(times))
        t = float(solved.t_events[hit][0])
        z, w = (float(x) for x in solved.y_events[hit][0])
        if hit < 2:
            return ("surface", "bottom")[hit], t, w
        full[growing[hit - 2]] = True
    raise AssertionError("more events than bags")


def _slopes(_t: float, state: tuple[float, float], lane: Lane, full: tuple[bool, ...]) -> tuple[float, float]:
    z, w = state
    p, start = lane.air + lane.rho * G0 * (z - lane.reach), lane.pressure
    dense = start * AIR / (GAS * lane.kelvin)  # kg/m3 of the gas as it was put in
    thinned = (p / start) ** (1.0 / lane.gamma)
    lift, mass, area = -lane.weight, lane.mass, lane.area
    for gas, capacity, relief, is_full in zip(lane.gas, lane.capacity, lane.relief, full, strict=True):
        volume = capacity if is_full else gas / thinned
        inside = gas * dense
        if is_full:
            inside = min(inside, capacity * dense * ((p + relief) / start) ** (1.0 / lane.gamma))
        lift += G0 * (lane.rho * volume - inside)
        mass += lane.bag_added * volume
        area += lane.bag_drag * volume ** (2.0 / 3.0)
    return -w, (lift - 0.5 * lane.rho * area * w * abs(w)) / mass


def _full_at(lane: Lane, i: int) -> float:
    pressure = lane.pressure * (lane.gas[i] / lane.capacity[i]) ** lane.gamma
    return lane.reach + (pressure - lane.air) / (lane.rho * G0)


def _at(mark: float, direction: int):  # type: ignore[no-untyped-def]
    def event(_t: float, state: tuple[float, float], *_: object) -> float:
        return state[0] - mark

    event.terminal, event.direction = True, direction  # type: ignore[attr-defined]
    return event
