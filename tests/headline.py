"""The ensemble on which the tended lift is measured: 69 kg of steel at 24 m, a full 50 l bag and a 25 l bag to trim."""

from __future__ import annotations

import numpy as np

from parbuckle.physics.constants import G, R
from parbuckle.physics.forces import Body
from parbuckle.physics.tended import Tended
from parbuckle.physics.tender import Tender

RHO, AIR, KELVIN, DEPTH = 1025.0, 101_325.0, 283.15, 24.0


def headline(members: int, seed: int = 1) -> Tended:
    """Draw the ensemble: delay, dump, fill and drag are uncertain."""
    rng = np.random.default_rng(seed)
    one = np.ones(members)
    steel = 69.0 / 7850.0
    weight = (69.0 - RHO * steel) * G
    pressure = AIR + RHO * G * DEPTH
    need = weight / G / (RHO - pressure * 0.02896546 / (R * KELVIN))
    capacity = np.array([0.050 * one, 0.025 * one])
    gas = np.array([capacity[0], need * (1.0 + rng.uniform(0.005, 0.03, members)) - capacity[0]])
    delay = np.clip(np.exp(0.4 * rng.standard_normal(members)), 0.5, 3.0)
    dump = 0.62 * 0.2e-4 * np.exp(0.3 * rng.standard_normal(members))
    body = Body(
        water_density=RHO * one,
        surface_pressure=AIR * one,
        temperature=KELVIN * one,
        weight=weight * one,
        mass=69.0 + 0.6 * RHO * steel + 0.6 * RHO * capacity.sum(axis=0),
        bag_added_mass=-0.1 * RHO * one,
        drag_area=0.30 * np.exp(0.25 * rng.standard_normal(members)),
        bag_drag=0.0 * one,
        reach=0.0 * one,
        capacity=capacity,
        gas=gas,
        gas_pressure=pressure * one,
        over_pressure=0.0 * capacity,
    )
    tender = Tender(
        policy="hold",
        bag=1,
        delay=delay,
        vent_above=0.16 * one,
        vent_until=0.12 * one,
        add_below=-0.02 * one,
        add_until=0.02 * one,
        ceiling=np.inf * one,
        dump=dump,
        pull=0.5 * one,
        watch=1.5 * one,
        gas=2e-3 * one,
        thrust=0.0 * one,
        count=0.0 * one,
        unanswered=0,
    )
    return Tended(
        body=body,
        depth=DEPTH * one,
        rise=0.0 * one,
        surface=0.5 * one,
        bottom=DEPTH * one,
        height=np.array([0.8 * one, 0.25 * one]),
        relief_area=np.full((2, members), np.inf),
        tenders=(tender,),
    )
