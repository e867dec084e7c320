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
from parbuckle.physics.choose import Each, choose, larger, smaller
from parbuckle.physics.constants import G
from parbuckle.physics.escape import escape, escape_open, relieved
from parbuckle.physics.layout import BAG, BASE, Inputs
from parbuckle.quantity.frozen import Bools, Floats

Marks = Bools | list[bool]
"""Which bags: one truth for each."""

_SETTLE = 0.5  # s in which a relief valve brings the bag back to its relief pressure; short against any ascent
_SWING = 4.0  # s2/m: one over a change of speed of 0.25 m/s2; thresholds of tenders lie a few cm/s apart
_MARGIN = 0.5  # over the sum of the squares of all rates
_QUICKEST = 2.0**20  # 1/s2: the shortest step is a thousandth of the longest


def slopes(
    base: Inputs,
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
    amounts: Floats,
    rates: Floats,
) -> tuple[Each, Each, Each, Each]:
    """Give the acceleration upward, and the rate of change of the gas in each bag that is busy.

    a = (1/(p M)) p F: with both multiplied by the pressure, the volume of the gas needs no division of its own; and the
    one division there is does not wait for the drag.

    Parameters
    ----------
    base : Inputs
        Inputs by field, see ``tended_columns``.
    bags : Floats
        Inputs by field and bag.
    busy : Marks
        Bags whose gas may change in this step, shape (k,).
    sealed : Marks
        Bags that can hold more than the water's pressure, shape (k,).
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
    amounts : Floats
        Gas in each bag, as pressure times volume, Pa m3.
    rates : Floats
        Its rate of change, Pa m3/s; written here for bags that are busy.

    Returns
    -------
    tuple of Each
        Acceleration, m/s2; pressure at the bags, Pa; pressure times volume of the gas, Pa m3; one over pressure times
        the mass that accelerates, 1/(Pa kg).
    """
    p = interface_pressure(base[BASE.air], base[BASE.density], z, base[BASE.reach])
    product = 0.0 * p
    held = product
    area = base[BASE.area]
    for i in range(amounts.shape[0]):
        capacity = bags[BAG.capacity, i]
        amount = amounts[i]
        fits = gas_held(amount, p, capacity)
        kept = gas_held(amount, p + bags[BAG.over, i], capacity) if sealed[i] else fits
        product = product + fits
        held = held + kept
        if has_skin:
            area = area + base[BASE.bag_drag] * skin(gas_volume(amount, p, capacity), capacity, bags[BAG.skin, i])
        if busy[i]:
            column = fits * (bags[BAG.head, i] / p)
            lost = escape_open(opened[i], column, p, base[BASE.jet])
            if sealed[i]:
                inside = larger(p, kept / capacity)
                closed = escape(opened[i], inside + column, p, base[BASE.jet])
                most = escape(bags[BAG.relief_area, i], inside, p, base[BASE.jet])
                excess = kept - capacity * (p + bags[BAG.relief, i])
                want = capacity * base[BASE.density] * G * r + excess / _SETTLE
                lost = choose(bags[BAG.over, i] > 0.0, closed + relieved(want, excess, most), lost)
            rates[i] = inflow[i] - lost
    force = push - water_drag(base[BASE.density], area, r)
    if lined:
        force = force + line_pull(base[BASE.stiffness], z - base[BASE.paid] - base[BASE.paying] * t)
    lift = lift_left(base[BASE.density], base[BASE.heaviness] * p, base[BASE.weight] * p, product, held)
    each = 1.0 / inertia(base[BASE.mass] * p, base[BASE.bag_added], product)
    return lift * each + force * (p * each), p, product, each


def step_size(
    base: Inputs,
    bags: Floats,
    busy: Marks,
    has_skin: bool,
    step: float,
    r: Each,
    a: Each,
    p: Each,
    product: Each,
    each: Each,
    amounts: Floats,
    rates: Floats,
) -> Each:
    """Give the length of the next step: the longest one, shorter where drag, growth, line or valve act faster.

    h = step / sqrt(max(1, q/2)), q = (2 c r)^2 + (a/a0)^2 + c|a| + (rho g)^2 V/(p M) + k/M + sum (gas rate/gas)^2,
    in 1/s2, c = rho CdA/(2 M), a0 = 0.25 m/s2.

    Parameters
    ----------
    base, bags, busy, has_skin : Floats
        Inputs as for ``slopes``.
    step : float
        Longest step, s.
    r : Each
        Speed upward, m/s.
    a, p, product, each : Each
        As given by ``slopes``.
    amounts, rates : Floats
        As for ``slopes``.

    Returns
    -------
    Each
        s; at least a thousandth of the longest.
    """
    per_mass = p * each
    area = base[BASE.area]
    weight = base[BASE.density] * G
    quick = weight * weight * product * each / p + base[BASE.stiffness] * per_mass
    for i in range(amounts.shape[0]):
        if has_skin:
            area = area + base[BASE.bag_drag] * bags[BAG.skin, i]
        if busy[i]:
            change = rates[i] / (np.abs(amounts[i]) + bags[BAG.capacity, i])
            quick = quick + change * change
    c = 0.5 * base[BASE.density] * area * per_mass
    swift, swing = 2.0 * c * r, a * _SWING
    return step * shortened(_MARGIN * (swift * swift + swing * swing + c * np.abs(a) + quick))


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
    base: Inputs,
    bags: Floats,
    busy: Marks,
    sealed: Marks,
    has_skin: bool,
    lined: bool,
    t: Each,
    h: Each,
    z: Each,
    r: Each,
    a: Each,
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
    z, r, a : Each
        Depth, m, speed, m/s, and acceleration at the start, m/s2.
    push, opened, inflow : Each
        The same as for ``slopes``.
    g : Floats
        Gas of the bags by row and bag: rows 0 to 3 are its rates at the four stages, Pa m3/s, row 4 its amount there
        and row 5 at the start of the step, Pa m3. Row 5 is filled, row 0 too, and row 4 for bags that are not busy.

    Returns
    -------
    tuple of Each
        Sum of the two middle accelerations, the last one; sum of the two middle speeds, the last one.
    """
    part = 0.5 * h
    middle, r_middle, rs, last = 0.0 * h, 0.0 * h, r, a
    for stage in range(1, 4):
        if stage == 3:
            part = h
        for i in range(g.shape[1]):
            if busy[i]:
                g[4, i] = g[5, i] + part * g[stage - 1, i]
        zs = z - part * rs
        rs = r + part * last
        last, _, _, _ = slopes(
            base, bags, busy, sealed, has_skin, lined, t + part, zs, rs, push, opened, inflow, g[4], g[stage]
        )
        if stage < 3:
            middle = middle + last
            r_middle = r_middle + rs
    return middle, last, r_middle, rs
