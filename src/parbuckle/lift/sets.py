"""Sets of bags: the order of filling, which bag is in part, and the closed forms that judge them over all draws."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np

from parbuckle.lift.control import delay_budget, runaway_bound
from parbuckle.lift.problem import LiftProblem
from parbuckle.physics.pressure import absolute_pressure
from parbuckle.quantity.band import HIGH, LIKELY, LOW, at_share, at_shares
from parbuckle.quantity.frozen import Bools, Floats, Numbers

_SHOWN_WHOLE = 2  # sets of so many bags are all judged, so that it can be said why they fall out


@dataclass(frozen=True)
class BagTable:
    """The bags of a problem as arrays, largest first, ties by id.

    Parameters
    ----------
    ids : tuple of str
        Ids in this order.
    really : Floats
        What they really hold, m3, shape (b, n).
    likely : Floats
        Middle of that, m3, shape (b,).
    high : Floats
        95th of a hundred of that, m3, shape (b,).
    skin : Floats
        Its full volume to the power 2/3, m2, shape (b, n).
    weight : Floats
        Weight in water, kg, shape (b, n).
    extra : tuple of float
        Likely net lift of each at the surface, kg.
    need : float
        Likely weight in water of what hangs under the bags, kg.
    """

    ids: tuple[str, ...]
    really: Floats
    likely: Floats
    high: Floats
    skin: Floats
    weight: Floats
    extra: tuple[float, ...]
    need: float


def bag_table(problem: LiftProblem, draws: int) -> BagTable:
    """Gather the bags that may be used, largest first.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    draws : int
        Use the first so many draws.

    Returns
    -------
    BagTable
        Arrays with a row for each bag.
    """
    bags = sorted(problem.bags, key=lambda b: (-at_share(b.really, LIKELY), b.id))
    n = problem.wet.size
    really = np.array([b.really for b in bags]).reshape(len(bags), n)[:, :draws]
    weight = np.array([b.weight for b in bags]).reshape(len(bags), n)[:, :draws]
    likely, high = at_shares(really, (LIKELY, HIGH)) if bags else (np.zeros(0), np.zeros(0))
    density = at_share(problem.water_density, LIKELY)
    extra = tuple(float(x) for x in likely * density - at_shares(weight, (LIKELY,))[0]) if bags else ()
    need = at_share(problem.on_load[:draws], LIKELY)
    return BagTable(tuple(b.id for b in bags), really, likely, high, two_thirds(really), weight, extra, need)


@dataclass(frozen=True)
class Sets:
    """Many sets of the same number of bags, judged together; one row for each set.

    Parameters
    ----------
    rows : Numbers
        Bag numbers in the order of filling, the part-filled one last, shape (m, k).
    spare : Bools
        True where the set holds a bag more than is needed, shape (m,).
    chance : Floats
        Share of the draws in which the set floats the load, shape (m,).
    light_lift : Floats
        How much the strongest single full bag lifts more than the light load, kg, shape (m,); negative is good.
    budget : Floats
        Delay budget, likely, s, shape (m,).
    runaway : Floats
        Bound of the speed of a runaway, likely, m/s, shape (m,).
    lift : Floats
        Lift of all bags less their weight, likely, kg, shape (m,).
    """

    rows: Numbers
    spare: Bools
    chance: Floats
    light_lift: Floats
    budget: Floats
    runaway: Floats
    lift: Floats


def judge_sets(
    problem: LiftProblem,
    table: BagTable,
    size: int,
    only: tuple[int, ...] | None = None,
    holding: tuple[int, ...] = (),
) -> Sets:
    """Judge every set of a size by closed forms over the draws.

    Sets that hold a bag more than the likely load needs, or that at their best do not lift the light load, are left
    out.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    table : BagTable
        Its bags.
    size : int
        Number of bags in a set.
    only : tuple of int, optional
        Judge just this set of bag numbers, whatever it is.
    holding : tuple of int
        Judge only sets that hold these bag numbers.

    Returns
    -------
    Sets
        One row for each set.
    """
    n = table.really.shape[1]
    combos = [only] if only is not None else list(combinations(range(len(table.ids)), size))
    first = np.array([c for c in combos if set(holding) <= set(c)], dtype=np.int64).reshape(-1, size)
    per_litre = problem.lift_density[:n]
    base = problem.on_load[:n] / per_litre
    bag = table.weight / per_litre
    middle, light_end = (float(x) for x in at_shares(base, (LIKELY, LOW)))
    if only is None:
        first = first[_worth(first, table, middle, light_end, bag.max(axis=1))]
    need = base + bag[first].sum(axis=1)
    light = at_shares(need * per_litre, (LOW,))[0]
    lift_of = table.high * at_share(per_litre, LIKELY)
    alone = np.full_like(light, np.inf) if problem.restrained > 0.0 else light
    rows, spare = _fill_order(first, table.likely, at_shares(need, (LIKELY,))[0], lift_of, alone)
    really = table.really[rows]
    total = really.sum(axis=1)
    growing, full = split(really, need)
    skin = table.skin[rows]
    cda = drag_area_of(problem, (skin * full).sum(axis=1) + two_thirds(growing))
    all_full = drag_area_of(problem, skin.sum(axis=1))
    pressure = absolute_pressure(problem.rules.budget_depth, problem.water_density[:n], problem.surface_pressure[:n])
    budget = delay_budget(cda, problem.target, pressure, problem.water_density[:n], growing)
    bound = runaway_bound((total - need) * per_litre, problem.water_density[:n], all_full)
    full_lift = lift_of[rows[:, :-1]].max(axis=1, initial=0.0)
    lift = total * per_litre - table.weight[rows].sum(axis=1)
    likely_budget, likely_bound, likely_lift = (at_shares(x, (LIKELY,))[0] for x in (budget, bound, lift))
    return Sets(
        rows,
        spare,
        (total >= need).mean(axis=1),
        np.where(size > 1, full_lift - light, -np.inf),
        likely_budget,
        likely_bound,
        likely_lift,
    )


def _worth(combos: Numbers, table: BagTable, middle: float, light: float, own: Floats) -> Bools:
    """True for sets that could lift the light load and hold no bag that load and bags (``own``, m3) do not need."""
    if combos.shape[1] <= _SHOWN_WHOLE:
        return np.ones(len(combos), dtype=np.bool_)
    sizes = table.likely[combos]
    needed = sizes.sum(axis=1) - sizes.max(axis=1) < middle + own[combos].sum(axis=1)
    return np.asarray(needed & (table.high[combos].sum(axis=1) >= light), dtype=np.bool_)


def split(really: Floats, need: Floats) -> tuple[Floats, Bools]:
    """Fill bags one after the other until the load is neutral; give what can still grow and which are full.

    Parameters
    ----------
    really : Floats
        What the bags hold in the order of filling, m3, shape (m, k, n).
    need : Floats
        Gas that makes the load neutral, m3, shape (m, n).

    Returns
    -------
    growing : Floats
        Gas in the bag in which the load becomes neutral, m3, shape (m, n); 0 when all bags together do not lift it.
    full : Bools
        True for the bags that are full, shape (m, k, n).
    """
    before = np.cumsum(really, axis=1) - really
    gas = np.clip(need[:, None, :] - before, 0.0, really)
    full = gas >= really
    return (gas * ~full).sum(axis=1), full


def drag_area_of(problem: LiftProblem, skins: Floats) -> Floats:
    """Give the drag area of load and gas: k V^(2/3) over load and bags, or what the case gives.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    skins : Floats
        Gas of each bag to the power 2/3, added up, m2, shape (..., n) of the first n draws.

    Returns
    -------
    Floats
        m2, the same shape.
    """
    n = skins.shape[-1]
    if problem.drag_area is not None:
        return np.broadcast_to(problem.drag_area[:n], skins.shape)
    return np.asarray(problem.drag_factor[:n] * (two_thirds(problem.envelope[:n]) + skins))


def two_thirds(volume: Floats) -> Floats:
    """Give a volume to the power 2/3.

    Parameters
    ----------
    volume : Floats
        m3, any shape.

    Returns
    -------
    Floats
        m2, the same shape.
    """
    return np.cbrt(volume * volume)


def _fill_order(combos: Numbers, likely: Floats, need: Floats, lift_of: Floats, light: Floats) -> tuple[Numbers, Bools]:
    """Put the part-filled bag last.

    It is the smallest one whose fellows, when full, do not yet lift the likely load; but where one of those fellows
    alone lifts the light load (``light``, kg; infinite under a restraint), the largest bag is the part-filled one.
    """
    sizes = likely[combos]
    k = combos.shape[1]
    can = sizes.sum(axis=1, keepdims=True) - sizes < need[:, None]
    part = k - 1 - np.argmax(can[:, ::-1], axis=1)
    others = np.where(np.arange(k) == part[:, None], -np.inf, lift_of[combos]).max(axis=1)
    part = np.where((others >= light) & can[:, 0], 0, part)
    spare = ~can.any(axis=1)
    order = np.argsort(np.where(np.arange(k) == part[:, None], k, np.arange(k)), axis=1, kind="stable")
    return np.take_along_axis(combos, order, axis=1), spare
