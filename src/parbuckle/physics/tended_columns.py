"""How a tended lift is laid out for the integrators: one table of plain numbers, fields by members."""

from __future__ import annotations

import numpy as np

from parbuckle.physics.balance import interface_pressure, skin
from parbuckle.physics.constants import G, R
from parbuckle.physics.escape import jet_scale
from parbuckle.physics.layout import ANSWER, BAG, BASE, TENDER
from parbuckle.physics.tended import Tended, TendedRise
from parbuckle.physics.tender import Tender
from parbuckle.quantity.frozen import Floats

_OPEN_UNTIL_SLOW = np.inf  # length of a pull that ends with its reason


def columns(tended: Tended) -> Floats:
    """Lay a tended lift out as a table.

    Parameters
    ----------
    tended : Tended
        The lift.

    Returns
    -------
    Floats
        Shape (fields, n): those of ``layout.BASE``, then those of each bag (field by field), then
        those of each tender (field by field).
    """
    body, line = tended.body, tended.line
    n, zero = tended.size, np.zeros(tended.size)
    base = [
        body.water_density,
        body.surface_pressure,
        (body.molar_mass / R) / body.temperature,
        jet_scale(body.temperature),
        body.weight,
        body.mass,
        body.bag_added_mass,
        body.drag_area,
        body.bag_drag,
        body.reach,
        zero if line is None else line.stiffness,
        zero if line is None else line.paid,
        zero if line is None else line.paying,
        tended.depth,
        tended.rise,
        tended.surface,
        tended.bottom,
    ]
    at_once = np.isinf(tended.relief_area)
    start = interface_pressure(body.surface_pressure, body.water_density, tended.depth, body.reach)
    most = np.where(at_once, body.capacity * (start + body.over_pressure), np.inf)
    bags = [
        body.capacity,
        np.minimum(body.gas * body.gas_pressure, most),
        np.where(at_once, body.over_pressure, np.inf),
        body.over_pressure,
        np.where(at_once, 0.0, tended.relief_area),
        body.water_density * G * tended.height / body.capacity,
        skin(body.capacity, body.capacity, body.capacity),
    ]
    hands = [_hands(tended, tender) for tender in tended.tenders]
    fields, split = len(BASE), len(BASE) + len(BAG) * len(body.capacity)
    table = np.empty((split + len(TENDER) * len(hands), n))
    for row, column in zip(table[:fields], base, strict=True):
        row[:] = column
    for block, field in zip(table[fields:split].reshape(len(BAG), len(body.capacity), n), bags, strict=True):
        block[:] = field
    for f, block in enumerate(table[split:].reshape(len(TENDER), len(hands), n)):
        for row, hand in zip(block, hands, strict=True):
            row[:] = hand[f]
    return table


def _hands(tended: Tended, tender: Tender) -> list[Floats]:
    n, policy = tended.size, tender.policy
    pull = tender.pull if policy == "pulls" else np.full(n, _OPEN_UNTIL_SLOW)
    dump = np.zeros(n) if policy == "none" else tender.dump
    return [
        np.full(n, float(tender.bag)),
        tender.delay,
        tender.vent_above,
        tender.vent_until,
        tender.add_below,
        tender.add_until,
        tender.ceiling,
        dump,
        pull,
        tender.watch if policy == "pulls" else np.zeros(n),
        tender.gas * tended.body.surface_pressure,
        tender.thrust,
        tender.count,
        np.full(n, float(tender.unanswered or np.inf)),
    ]


def answer(table: Floats, tended: Tended) -> TendedRise:
    """Read the table of answers.

    Parameters
    ----------
    table : Floats
        Shape (fields, n).
    tended : Tended
        The lift that was asked.

    Returns
    -------
    TendedRise
        One column for each member.
    """
    bags, hands = len(tended.body.capacity), len(tended.tenders)
    per_free = 1.0 / tended.body.surface_pressure
    gas, over, rest = np.split(table[len(ANSWER) :], (bags, 2 * bags))
    return TendedRise(
        end=table[ANSWER.end].copy(),
        time=table[ANSWER.time].copy(),
        speed=table[ANSWER.speed].copy(),
        max_speed=table[ANSWER.max_speed].copy(),
        max_mean=table[ANSWER.max_mean].copy(),
        min_depth=table[ANSWER.min_depth].copy(),
        end_depth=table[ANSWER.end_depth].copy(),
        spilled=table[ANSWER.spilled] * per_free,
        vented=table[ANSWER.vented] * per_free,
        added=table[ANSWER.added] * per_free,
        tension=table[ANSWER.tension].copy(),
        gas=gas * per_free,
        over_pressure=over.copy(),
        pulls=rest[:hands].copy(),
        let_go=rest[hands:].copy(),
        steps=table[ANSWER.steps].copy(),
    )
