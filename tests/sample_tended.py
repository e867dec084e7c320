"""Tended lifts for the tests, drawn with a seed: plain floats, and the same laid out for the program."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.forces import Body
from parbuckle.physics.simulate import simulate
from parbuckle.physics.tended import Line, Tended
from parbuckle.physics.tender import Tender

G0 = 9.80665
GAS = 8.314462618
AIR = 0.02896546

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Diver:
    """One tender in plain floats; ``bag`` -1 is on the load."""

    policy: str
    bag: int
    delay: float
    above: float
    until: float
    below: float
    enough: float
    ceiling: float = math.inf
    dump: float = 0.0
    pull: float = 0.5
    watch: float = 1.5
    gas: float = 0.0
    thrust: float = 0.0
    count: float = 0.0
    unanswered: int = 2


@dataclass(frozen=True)
class Lift:
    """One lift in plain floats."""

    rho: float
    air: float
    kelvin: float
    weight: float  # N in water
    mass: float
    bag_added: float
    area: float
    bag_drag: float
    reach: float
    depth: float
    surface: float
    gas: tuple[float, ...]  # m3 at the bags
    capacity: tuple[float, ...]
    relief: tuple[float, ...]
    height: tuple[float, ...]
    divers: tuple[Diver, ...]
    relief_area: tuple[float, ...] = (math.inf, math.inf)
    line: tuple[float, float, float] | None = None  # stiffness, paid out, paying
    rise: float = 0.0
    bottom: float = math.nan

    @property
    def ground(self) -> float:
        """Depth of the bottom, m."""
        return self.depth if math.isnan(self.bottom) else self.bottom

    def pressure(self, z: float) -> float:
        """Absolute pressure at the bags, Pa."""
        return self.air + self.rho * G0 * (z - self.reach)


def draw_lifts(count: int, seed: int) -> list[Lift]:
    """Draw lifts with a full bag and a part-filled one, tended in all the ways there are."""
    rng = np.random.default_rng(seed)
    return [_draw(rng) for _ in range(count)]


def _draw(rng: np.random.Generator) -> Lift:
    def flat(low: float, high: float) -> float:
        return float(rng.uniform(low, high))

    def chance(share: float) -> bool:
        return bool(rng.random() < share)

    sea = chance(0.5)
    rho = flat(1018.0, 1030.0) if sea else flat(997.0, 1000.0)
    air, kelvin, depth = flat(90e3, 103e3), flat(275.0, 297.0), flat(6.0, 30.0)
    reach = 0.0 if chance(0.4) else flat(0.3, 2.0)
    wet = math.exp(flat(math.log(15.0), math.log(300.0)))
    pressure = air + rho * G0 * (depth - reach)
    need = wet / (rho - pressure * AIR / (GAS * kelvin))
    total = need * (1.0 + math.exp(flat(math.log(0.002), math.log(0.04))))
    share = flat(0.05, 0.5)  # of the lift that can grow
    main, trim = total * (1.0 - share), total * share
    outline = wet * flat(0.2, 1.0) / rho
    side = need ** (2.0 / 3.0)
    target = flat(0.08, 0.2)
    area = flat(1.0, 3.0) * side
    steady = trim * rho * G0 * target / pressure  # m3/s that have to go
    holding = flat(0.7, 5.0) * steady
    room, tall = trim * flat(1.2, 3.0), flat(0.3, 0.9)
    head = rho * G0 * tall * trim / room
    dump = holding / math.sqrt(2.0 * head * GAS * kelvin / AIR / pressure)
    policy = str(rng.choice(["hold", "pulls", "crack"]))
    tender = Diver(
        policy,
        1,
        delay=flat(0.2, 2.0),
        above=target * flat(1.05, 1.5),
        until=target * flat(0.2, 0.9),
        below=-target * flat(0.05, 0.4),
        enough=target * flat(0.02, 0.15),
        ceiling=target * flat(1.5, 4.0) if chance(0.3) else math.inf,
        dump=dump * (0.3 if policy == "crack" else 1.0),
        pull=flat(0.3, 1.2),
        watch=flat(0.5, 3.0),
        gas=flat(0.5, 4.0) * steady * pressure / air if chance(0.7) else 0.0,
        thrust=flat(5.0, 40.0) if chance(0.3) else 0.0,
        count=flat(0.3, 1.0) if chance(0.15) else 0.0,
        unanswered=int(rng.integers(0, 4)),
    )
    divers = [tender]
    if chance(0.3):
        other = replace(tender, policy="none", bag=-1, delay=flat(0.2, 2.0), thrust=flat(5.0, 40.0), count=0.0)
        levels = {
            name: getattr(tender, name) * flat(0.95, 0.99) for name in ("above", "until", "below", "enough", "ceiling")
        }
        divers.append(replace(other, **levels))
    closed = (chance(0.3), chance(0.3))
    return Lift(
        rho=rho,
        air=air,
        kelvin=kelvin,
        weight=wet * G0,
        mass=wet * flat(1.1, 2.5) + rho * outline * flat(0.5, 0.9),
        bag_added=0.5 * rho,
        area=0.5 * area,
        bag_drag=0.5 * area / side,
        reach=reach,
        depth=depth,
        surface=reach + flat(0.1, 0.8),
        gas=(main, trim),
        capacity=(main if chance(0.8) else main * flat(1.0, 1.1), room),
        relief=tuple(10e3 if c else 0.0 for c in closed),
        height=(flat(0.5, 1.0), tall),
        divers=tuple(divers),
    )


def tended_of(lifts: list[Lift], **more: float) -> Tended:
    """Put lifts side by side. All must have as many bags; missing tenders do nothing."""

    def column(name: str) -> Array:
        return np.array([float(getattr(lift, name)) for lift in lifts])

    def rows(name: str) -> Array:
        return np.array([getattr(lift, name)[: len(lift.gas)] for lift in lifts]).T.copy()

    body = Body(
        water_density=column("rho"),
        surface_pressure=column("air"),
        temperature=column("kelvin"),
        weight=column("weight"),
        mass=column("mass"),
        bag_added_mass=column("bag_added"),
        drag_area=column("area"),
        bag_drag=column("bag_drag"),
        reach=column("reach"),
        capacity=rows("capacity"),
        gas=rows("gas"),
        gas_pressure=np.array([lift.pressure(lift.depth) for lift in lifts]),
        over_pressure=rows("relief"),
    )
    line = None
    if lifts[0].line is not None:
        line = Line(*np.array([lift.line for lift in lifts]).T.copy())
    return Tended(
        body=body,
        depth=column("depth"),
        rise=column("rise"),
        surface=column("surface"),
        bottom=column("ground"),
        height=rows("height"),
        relief_area=rows("relief_area"),
        tenders=tuple(_tender([lift.divers[j] for lift in lifts]) for j in range(len(lifts[0].divers))),
        line=line,
        **more,
    )


def _tender(divers: list[Diver]) -> Tender:
    names = ("delay", "above", "until", "below", "enough", "ceiling", "dump", "pull", "watch", "gas", "thrust", "count")
    columns = [np.array([getattr(d, name) for d in divers]) for name in names]
    return Tender(divers[0].policy, divers[0].bag, *columns, unanswered=divers[0].unanswered)


def grouped(lifts: list[Lift]) -> list[list[int]]:
    """Sort lifts into groups that can stand side by side: the same tenders with the same policy."""
    groups: dict[tuple[object, ...], list[int]] = {}
    for i, lift in enumerate(lifts):
        groups.setdefault(tuple((d.policy, d.bag, d.unanswered) for d in lift.divers), []).append(i)
    return list(groups.values())


def simulated(lifts: list[Lift], names: tuple[str, ...], form: str = "kernel", **more: float) -> list[Array]:
    """Follow lifts of any kind; give fields of the answers, each in the order of the lifts."""
    found = [np.full(len(lifts), np.nan) for _ in names]
    for group in grouped(lifts):
        answer = simulate(tended_of([lifts[i] for i in group], **more), form=form)
        for column, name in zip(found, names, strict=True):
            column[group] = getattr(answer, name)
    return found
