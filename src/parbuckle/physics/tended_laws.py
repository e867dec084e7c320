"""One step of a tended lift, element by element: the same source for one member in a loop and for columns of members.

Whoever calls these lays the inputs out as ``base[field]`` and ``bags[field, i]``: single numbers in the scalar form,
arrays of shape (n,) in the lockstep form. The forces come from ``balance``, the flows from ``escape``.
"""

from __future__ import annotations

import numpy as np

from parbuckle.physics.balance import (
    gas_held,
    gas_volume,
    inertia,
    interface_pressure,
    lift_left,
    line_pull,
    skin,
    water_drag,
)
from parbuckle.physics.choose import Each, larger, smaller
from parbuckle.physics.constants import G
from parbuckle.physics.escape import escape, relieved
from parbuckle.physics.layout import BAG, BASE
from parbuckle.quantity.frozen import Bools, Floats

Marks = Bools | list[bool]
"""Which bags: one truth for each."""

_SETTLE = 0.5  # s in which a relief valve brings the bag back to its relief pressure; short against any ascent
_SWING = 0.25  # m/s2: change of speed from which the step is shortened; thresholds of tenders lie a few cm/s apart
_QUICKEST = 2.0**20  # 1/s2: the shortest step is a thousandth of the longest


def slopes(
    base: Floats,
    bags: Floats,
    busy: Marks,
    sealed: Marks,
    has_skin: bool,
    lined: bool,
    t: Each,
    z: Each,
    r: Each,
    push: Each,
    opened: Each,
    inflow: Each,
    g: Floats,
    stage: int,
    amounts: int,
) -> Each:
    """Give the acceleration upward, and in ``g[stage]`` the rate of change of the gas in each bag that is busy.

    Parameters
    ----------
    base : Floats
        Inputs by field, see ``tended_columns``.
    bags : Floats
        Inputs by field and bag.
    busy : Marks
        Bags whose gas may change in this step, shape (k,).
    sealed : Marks
        Bags whose relief valve is followed, shape (k,).
    has_skin : bool
        True where drag area grows with the gas.
    lined : bool
        True where a line from above is made fast.
    t, z, r : Each
        Time, s, depth, m, speed upward, m/s.
    push : Each
        Force of the divers' fins, N, up positive.
    opened : Each
        Open dump on each bag, m2.
    inflow : Each
        Gas put into each bag, Pa m3/s.
    g : Floats
        Gas of the bags by row and bag: rows 0 to 3 are its rates at the four stages, Pa m3/s, row 4 its amount there
        and row 5 at the start of the step, as pressure times volume, Pa m3.
    stage, amounts : int
        Row that is written here, and row of the amounts.

    Returns
    -------
    Each
        m/s2.
    """
    p = interface_pressure(base[BASE.air], base[BASE.density], z, base[BASE.reach])
    gas = 0.0 * p
    held = 0.0 * p
    area = base[BASE.area]
    for i in range(g.shape[1]):
        capacity = bags[BAG.capacity, i]
        volume = gas_volume(g[amounts, i], p, capacity)
        kept = gas_held(g[amounts, i], p + bags[BAG.over, i], capacity)
        gas = gas + volume
        held = held + kept
        if has_skin:
            area = area + base[BASE.bag_drag] * skin(volume, capacity, bags[BAG.skin, i])
        if busy[i]:
            inside = larger(p, kept / capacity)
            lost = escape(opened[i], inside + bags[BAG.head, i] * volume, p, base[BASE.jet])
            g[stage, i] = inflow[i] - lost
            if sealed[i]:
                most = escape(bags[BAG.relief_area, i], inside, p, base[BASE.jet])
                excess = kept - capacity * (p + bags[BAG.relief, i])
                want = capacity * base[BASE.density] * G * r + excess / _SETTLE
                g[stage, i] = g[stage, i] - relieved(want, excess, most)
    force = (
        lift_left(base[BASE.density], base[BASE.heaviness], base[BASE.weight], gas, held)
        - water_drag(base[BASE.density], area, r)
        + push
    )
    if lined:
        force = force + line_pull(base[BASE.stiffness], z - base[BASE.paid] - base[BASE.paying] * t)
    return force / inertia(base[BASE.mass], base[BASE.bag_added], gas)


def step_size(base: Floats, bags: Floats, busy: Marks, step: float, z: Each, r: Each, a: Each, g: Floats) -> Each:
    """Give the length of the next step: the longest one, shorter where drag, growth, line or valve act faster.

    h = step / sqrt(max(1, 1.5 q)), q = (2 c r)^2 + (a/a0)^2 + c|a| + (rho g)^2 V/(p M) + k/M + sum (gas rate/gas)^2,
    in 1/s2, c = rho CdA/(2 M), a0 = 0.25 m/s2.

    Parameters
    ----------
    base, bags, busy : Floats
        Inputs as for ``slopes``.
    step : float
        Longest step, s.
    z, r, a : Each
        Depth, m, speed, m/s, and acceleration upward, m/s2.
    g : Floats
        Gas of the bags as for ``slopes``; rows 0 and 5 count.

    Returns
    -------
    Each
        s; at least a thousandth of the longest.
    """
    p = interface_pressure(base[BASE.air], base[BASE.density], z, base[BASE.reach])
    gas = 0.0 * p
    skins = 0.0 * p
    drain = 0.0 * p
    for i in range(g.shape[1]):
        gas = gas + gas_volume(g[5, i], p, bags[BAG.capacity, i])
        skins = skins + bags[BAG.skin, i]
        if busy[i]:
            change = g[0, i] / (np.abs(g[5, i]) + bags[BAG.capacity, i])
            drain = drain + change * change
    each = 1.0 / inertia(base[BASE.mass], base[BASE.bag_added], gas)
    c = 0.5 * base[BASE.density] * (base[BASE.area] + base[BASE.bag_drag] * skins) * each
    swift, swing = 2.0 * c * r, a / _SWING
    weight = base[BASE.density] * G
    quick = (
        swift * swift
        + swing * swing
        + c * np.abs(a)
        + (weight * weight * gas / p + base[BASE.stiffness]) * each
        + drain
    )
    return step * shortened(1.5 * quick)


def shortened(quick: Each) -> Each:
    """Give the share of the longest step that is taken.

    Parameters
    ----------
    quick : Each
        Square of the rate of change, 1/s2.

    Returns
    -------
    Each
        1 up to a rate of 1 per second, then 1/rate, at least a thousandth.
    """
    return 1.0 / np.sqrt(smaller(larger(quick, 1.0), _QUICKEST))


def shortened_one(quick: float) -> float:
    """Give ``shortened`` for single numbers: mostly no root is needed.

    Parameters
    ----------
    quick : float
        Square of the rate of change, 1/s2.

    Returns
    -------
    float
        The same value.
    """
    return 1.0 if quick <= 1.0 else 1.0 / np.sqrt(min(quick, _QUICKEST))


def advance(
    base: Floats,
    bags: Floats,
    busy: Marks,
    sealed: Marks,
    has_skin: bool,
    lined: bool,
    t: Each,
    h: Each,
    z: Each,
    r: Each,
    a1: Each,
    push: Each,
    opened: Each,
    inflow: Each,
    g: Floats,
) -> tuple[Each, Each, Each, Each]:
    """Take the stages of one classical fourth-order step; the first slopes are there already.

    Parameters
    ----------
    base, bags, busy, sealed, has_skin, lined : Floats
        The same as for ``slopes``.
    t, h : Each
        Time and length of the step, s.
    z, r, a1 : Each
        Depth, m, speed, m/s, and acceleration at the start, m/s2.
    push, opened, inflow : Each
        The same as for ``slopes``.
    g : Floats
        Gas of the bags as for ``slopes``: rows 0 and 5 are filled, and row 4 for bags that are not busy.

    Returns
    -------
    tuple of Each
        Sum of the two middle accelerations, the last one; sum of the two middle speeds, the last one.
    """
    half = 0.5 * h
    r2 = r + half * a1
    _shift(g, 0, busy, half)
    a2 = slopes(base, bags, busy, sealed, has_skin, lined, t + half, z - half * r, r2, push, opened, inflow, g, 1, 4)
    r3 = r + half * a2
    _shift(g, 1, busy, half)
    a3 = slopes(base, bags, busy, sealed, has_skin, lined, t + half, z - half * r2, r3, push, opened, inflow, g, 2, 4)
    r4 = r + h * a3
    _shift(g, 2, busy, h)
    a4 = slopes(base, bags, busy, sealed, has_skin, lined, t + h, z - h * r3, r4, push, opened, inflow, g, 3, 4)
    return a2 + a3, a4, r2 + r3, r4


def _shift(g: Floats, stage: int, busy: Marks, h: Each) -> None:
    """Amounts of gas after a time at the rates of a stage; those of bags at rest are there already."""
    for i in range(g.shape[1]):
        if busy[i]:
            g[4, i] = g[5, i] + h * g[stage, i]
