"""Dives to test with, and an independent integration of the tissues to hold them against."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from scipy.integrate import solve_ivp

from parbuckle.dive.compartments import compartments
from parbuckle.dive.profile import Leg, Water
from parbuckle.quantity.breathing import Gas, parse_gas
from parbuckle.quantity.frozen import Floats

SURFACE = 101325.0
SEA = Water(np.array([SURFACE]), np.array([1025.0]))
AIR = parse_gas("air")
VAPOUR = 6270.0
"""Water vapour in the lung, Pa, as printed: 0.0627 bar."""


def piece(start: float, end: float, minutes: float, gas: Gas = AIR) -> Leg:
    return Leg(np.array([start]), np.array([end]), np.array([minutes * 60.0]), gas)


def random_dive(seed: int) -> list[Leg]:
    """A dive of three to six straight legs between 1 and 5 bar on one of several gases."""
    rng = np.random.default_rng(seed)
    gas = parse_gas(str(rng.choice(["air", "EAN32", "EAN40", "21/35", "18/45"])))
    marks = [SURFACE, *rng.uniform(1.1e5, 5.0e5, int(rng.integers(2, 5))), SURFACE]
    return [piece(a, b, rng.uniform(1.0, 40.0), gas) for a, b in pairwise(marks)]


def integrated(tissues: Floats, legs: list[Leg]) -> Floats:
    """Tissues after the legs by a numerical integration of dP/dt = k (p_lung - P), one column."""
    k = np.log(2.0) / compartments().half.ravel()
    state = tissues[:, :, 0].ravel()
    for leg in legs:
        share = np.repeat([leg.gas.nitrogen, leg.gas.helium], 16)
        slope = (leg.end[0] - leg.start[0]) / leg.time[0]

        def rate(t: float, p: Floats, leg: Leg = leg, share: Floats = share, slope: float = slope) -> Floats:
            return np.asarray(k * (share * (leg.start[0] + slope * t - VAPOUR) - p))

        done = solve_ivp(rate, (0.0, float(leg.time[0])), state, method="DOP853", rtol=1e-11, atol=1e-4)
        state = done.y[:, -1]
    return state.reshape(2, 16, 1)
