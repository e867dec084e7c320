"""Invented bodies on a line for the tests: load, a full bag and one that can grow, sea water."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.constants import G
from parbuckle.physics.forces import Body
from parbuckle.physics.pressure import absolute_pressure

Array = NDArray[np.float64]
RHO, AIR = 1025.0, 101325.0


def body(weight: float | Array, full: float, part: float, at: float, **changed: Any) -> Body:
    """A load of that weight in water, kg, with litres in a full bag and in one of 100 l, counted at a depth."""
    kilos = np.atleast_1d(np.asarray(weight, dtype=float))
    n = kilos.size

    def same(value: float) -> Array:
        return np.full(n, value)

    values: dict[str, Any] = {
        "water_density": same(RHO),
        "surface_pressure": same(AIR),
        "temperature": same(283.15),
        "weight": kilos * G,
        "mass": kilos * 2.0,
        "bag_added_mass": same(0.5 * RHO),
        "drag_area": same(0.1),
        "bag_drag": same(1.0),
        "reach": same(0.0),
        "capacity": np.array([same(max(full, 1e-6) / 1000.0), same(0.1)]),
        "gas": np.array([same(full / 1000.0), same(part / 1000.0)]),
        "gas_pressure": absolute_pressure(same(at), same(RHO), same(AIR)),
        "over_pressure": np.zeros((2, n)),
    }
    return Body(**{**values, **changed})


def metres(value: float, n: int = 1) -> Array:
    """A depth for every draw."""
    return np.full(n, value)
