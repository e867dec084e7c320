"""Invented lifts for the tests: a load, a register of bags and the rules of the house, over a few draws."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from parbuckle.lift.problem import Bag, LiftProblem, Rules

RULES: dict[str, float] = {
    "divers_stop": 8.0,
    "reaction": 1.0,
    "runaway_speed": 1.0,
    "float_chance": 0.95,
    "reserve": 0.2,
    "spill_allowance": 0.1,
    "cylinder_margin": 10e5,
    "gauge_error": 5e5,
    "intermediate": 9.5e5,
    "budget_depth": 3.0,
    "carry_limit": 5.0,
    "falling_angle": 0.26,
    "clear_share": 0.99,
}

Array = NDArray[np.float64]


def bag(id_: str, really: Array, weight: Array) -> Bag:
    """A closed bag of that size."""
    middle = float(np.median(really))
    return Bag(id_, "closed", middle, really, weight, weight * 3.0, 2.5 * middle ** (1 / 3))


def lift(wet: Array, bags: tuple[Bag, ...], rules: dict[str, float] | None = None, **changed: Any) -> LiftProblem:
    """A lift in fresh water at 16 m unless told otherwise."""
    n = wet.size

    def same(value: float) -> Array:
        return np.full(n, value)

    values: dict[str, Any] = {
        "water_density": same(999.8),
        "surface_pressure": same(101325.0),
        "temperature": same(281.15),
        "depth": same(16.0),
        "wet": wet,
        "dry": wet * 1.6,
        "entrapped": same(0.0),
        "envelope": wet * 0.6 / 1000.0,
        "displaced": wet * 0.6 / 1000.0,
        "breakout": same(0.0),
        "rigging": same(0.8),
        "held": 0.0,
        "bags": bags,
        "wanted": None,
        "method": "accompanied",
        "restrained": 0.0,
        "cylinder": None,
        "strop": same(1.0),
        "as_point": False,
        "target": 0.1,
        "ceiling": 0.15,
        "drag_factor": same(1.0),
        "drag_area": None,
        "added_factor": same(0.7),
        "bag_added_factor": same(0.5),
        "added_mass": None,
        "surplus": None,
        "overfill": same(0.01),
        "stream": same(0.1),
        "tries": 1,
        "gauge_u": same(0.5),
        "adiabatic": False,
        "rules": Rules(**{**RULES, **(rules or {})}),
    }
    return LiftProblem(**{**values, **changed})


def draw_lift(rng: np.random.Generator, bags: int, n: int, method: str, held_back: bool) -> LiftProblem:
    """A register drawn at random: 5 to 120 l, some alike, weights that matter, a load that some of it lifts."""
    sizes = rng.choice([5.0, 8.0, 10.0, 15.0, 20.0, 25.0, 30.0, 50.0, 100.0, 120.0], bags) / 1000.0
    owned = []
    for i, size in enumerate(sizes):
        width = rng.choice([0.02, 0.1, 0.3])
        really = size * rng.uniform(1.0 - 0.3 * width, 1.0 + width, n)
        owned.append(bag(f"B{(7 * i + 3) % 11}{i}", really, rng.uniform(0.0, 0.6) * rng.uniform(0.8, 1.2, n)))
    middle = float(sizes.sum()) * 1000.0 * rng.choice([rng.uniform(0.1, 0.9), rng.uniform(0.9, 1.6)], p=[0.85, 0.15])
    wet = middle * (1.0 + rng.uniform(0.005, 0.15) * rng.normal(0.0, 1.0, n).clip(-2.5, 2.5))
    depth = float(rng.uniform(4.0, 35.0))
    restrained = float(rng.uniform(20.0, 80.0)) if held_back else 0.0
    given = rng.random() < 0.2
    return lift(
        wet,
        tuple(owned),
        {"reaction": float(rng.uniform(0.3, 1.5)), "runaway_speed": float(rng.uniform(0.6, 1.4))},
        depth=np.full(n, depth),
        strop=np.full(n, float(rng.uniform(0.0, 2.0))),
        drag_factor=rng.uniform(0.6, 1.4, n),
        drag_area=rng.uniform(0.1, 0.5, n) if given else None,
        envelope=wet * rng.uniform(0.2, 1.0) / 1000.0,
        held=float(rng.uniform(1.0, 4.0)) if method == "bag and line" else 0.0,
        method=method,
        restrained=restrained,
    )
