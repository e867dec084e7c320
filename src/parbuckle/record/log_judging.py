"""One logged dive held against the limits: rates, tissues, table, oxygen, stops."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

import numpy as np

from parbuckle.dive.along import Places, along
from parbuckle.dive.both_models import Before, limit_after, table_depth_of, table_start
from parbuckle.dive.loading import AIR
from parbuckle.dive.oxygen import dose_where_known, limits_used, oxygen_at
from parbuckle.dive.problem import DiveRules
from parbuckle.dive.profile import Leg, Water, leg
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats
from parbuckle.record.profile import Profile
from parbuckle.record.rates import HALF_MINUTE, ascent_rates, largest_tooth, too_fast

Row = dict[str, Any]

_MINUTE, _BAR = 60.0, 1e5
_STILL_RISING = 1.0 / 3.0  # of the house's rate of ascent: slower than that is no ascent. Own definition
_PASSED = 100.0  # Pa, a centimetre of water: what steps of a log may show


def legs_of(profile: Profile, water: Water) -> list[Leg]:
    """Give a logged dive as legs, one between each two samples.

    Parameters
    ----------
    profile : Profile
        The logged dive; without a gas it counts as made on air.
    water : Water
        Where it was made.

    Returns
    -------
    list of Leg
        In order; a depth above the surface counts as 0.
    """
    depths = np.maximum(profile.depth, 0.0).tolist()
    out, switches, gas = [], list(profile.switches), AIR
    for (t0, d0), (t1, d1) in pairwise(zip(profile.time.tolist(), depths, strict=True)):
        while switches and switches[0].time <= t0:
            gas = switches.pop(0).gas
        out.append(leg(water, d0, d1, t1 - t0, gas))
    return out


def leaves_bottom(profile: Profile, shallow: float, up: float) -> float:
    """Give when the last way up began.

    Back from the last moment at a depth that is not shallow, as long as the mean rate over half a minute is above a
    third of the house's rate. A slower ascent counts as bottom time: the safe side.

    Parameters
    ----------
    profile : Profile
        The logged dive.
    shallow : float
        Depth up to which a diver may wait on the way up: that of the stop with a tooth, m.
    up : float
        The house's rate of ascent, m/s.

    Returns
    -------
    float
        s since leaving the surface.

    Notes
    -----
    Source: own definition.
    """
    edge = min(shallow, 0.5 * profile.deepest)
    deep = int(np.flatnonzero(profile.depth >= edge)[-1])
    grid = _grid(profile)
    fine = Profile(grid, np.interp(grid, profile.time, profile.depth))
    rates = ascent_rates(fine)
    here = min(int(np.searchsorted(grid, profile.time[deep])) + 1, grid.size - 1)
    while here > 0 and rates[here] > _STILL_RISING * up:
        here -= 1
    began = max(grid[here], 0.0)
    return float(min(began, profile.time[deep]))


def stops_made(profile: Profile, stops: Sequence[Row], since: float, band: float) -> list[Row]:
    """Give each stop of a plan with the time that was spent there on the way up.

    Parameters
    ----------
    profile : Profile
        The logged dive.
    stops : sequence of dict
        ``depth_m`` and ``min`` of each.
    since : float
        When the way up began, s.
    band : float
        How far above or below its depth a stop still counts as made there, m.

    Returns
    -------
    list of dict
        With ``made_min`` and ``made``.
    """
    grid = _grid(profile)
    depth = np.interp(grid, profile.time, profile.depth)
    step = float(grid[1] - grid[0])
    rows = []
    for stop in stops:
        near = (np.abs(depth - stop["depth_m"]) <= band) & (grid >= since)
        spent = float(near.sum()) * step / _MINUTE
        rows.append({**stop, "made_min": spent, "made": spent >= stop["min"]})
    return rows


def as_earlier(profile: Profile, leaves: float, water: Water) -> Before:
    """Give a logged dive as the published table sees it when another one comes after it.

    Parameters
    ----------
    profile : Profile
        The logged dive.
    leaves : float
        When the last way up began, s.
    water : Water
        Where it was made.

    Returns
    -------
    Before
        At its deepest, on the gas with the most nitrogen; the time at the surface after it is not known yet: 0.
    """
    deepest = float(water.at(max(profile.deepest, 0.0)).max())
    gases = [piece.gas for piece, _ in _pieces(profile, water)]
    return Before(deepest, leaves - float(profile.time[0]), _weakest(gases), 0.0)


def judged(
    profile: Profile,
    before: Floats,
    water: Water,
    rules: DiveRules,
    earlier: Sequence[Before] = (),
    climbed: float = 0.0,
) -> tuple[Row, Floats]:
    """Hold one logged dive against the limits.

    Parameters
    ----------
    profile : Profile
        The logged dive.
    before : Floats
        Tissues when it began, Pa, shape (2, 16, 1).
    water : Water
        Where it was made.
    rules : DiveRules
        Factors, rates, stop and tooth.
    earlier : sequence of Before
        Dives before, as the table sees them.
    climbed : float
        Height that the diver has just come up from the sea, m.

    Returns
    -------
    tuple
        The row of the document, and the tissues after it.
    """
    pieces = _pieces(profile, water)
    legs = [piece for piece, _ in pieces]
    leaves = leaves_bottom(profile, rules.stop_depth + rules.sawtooth, rules.up)
    lasts = np.diff(profile.time)
    mean = float((0.5 * (profile.depth[1:] + profile.depth[:-1]) * lasts).sum() / lasts.sum())
    fast = too_fast(profile, rules.up)
    tooth = largest_tooth(profile)
    model, after = _tissues(profile, pieces, before, water, rules)
    row = {
        "deepest_m": profile.deepest,
        "mean_depth_m": mean,
        "dive_time_min": float(profile.time[-1] - profile.time[0]) / _MINUTE,
        "bottom_time_min": (leaves - float(profile.time[0])) / _MINUTE,
        "left_bottom_s": leaves,
        "gases": list(dict.fromkeys(piece.gas.text for piece in legs)),
        "gas_told": bool(profile.switches),
        "ascent": {
            "over_s": HALF_MINUTE,
            "limit_m_min": rules.up * _MINUTE,
            "fastest_m_min": float(ascent_rates(profile).max()) * _MINUTE,
            "too_fast": [
                {"from_s": f.start, "to_s": f.end, "at_m": f.depth, "fastest_m_min": f.rate * _MINUTE} for f in fast
            ],
        },
        "tooth_m": tooth,
        "sawtooth": tooth > rules.sawtooth,
        "model": model,
        "table": _table(as_earlier(profile, leaves, water), water, earlier, climbed),
        "oxygen": _oxygen(legs),
    }
    return row, after


def _pieces(profile: Profile, water: Water) -> list[tuple[Leg, Places]]:
    """The pieces of each gas side by side as one leg, and their places in the dive; in the order of the gases."""
    pressure, begins = water.at(np.maximum(profile.depth, 0.0)), profile.time[:-1]
    order = np.searchsorted([switch.time for switch in profile.switches], begins, side="right")
    gases = (AIR, *(switch.gas for switch in profile.switches))
    rows = [(gases[place], np.flatnonzero(order == place)) for place in np.unique(order)]
    lasts = np.diff(profile.time)
    return [(Leg(pressure[mine], pressure[mine + 1], lasts[mine], gas), mine) for gas, mine in rows]


def _tissues(
    profile: Profile,
    pieces: Sequence[tuple[Leg, Places]],
    before: Floats,
    water: Water,
    rules: DiveRules,
) -> tuple[Row, Floats]:
    """Follow the tissues sample by sample; the ceiling by the plan's rule, and the model's own limit."""
    found = along(before, pieces, np.maximum(profile.depth[1:], 0.0), water, rules)
    passed = found.over > _PASSED
    worst = float(found.gradient.max())
    row = {
        "factor": rules.factors[1],
        "factor_low": rules.factors[0],
        "first_stop_m": found.first_stop,
        "ceiling_kept": not passed.any(),
        "over_ceiling_min": float(np.diff(profile.time)[passed].sum()) / _MINUTE,
        "largest_gradient": worst,
        "surfacing_gradient": float(found.gradient[-1]),
        "limit_kept": worst <= 1.0,
    }
    return row, found.tissues[:, :, -1:]


def _table(dive: Before, water: Water, earlier: Sequence[Before], climbed: float) -> Row:
    surface = float(water.surface.min())
    try:
        start, depth = table_start(surface, earlier, climbed), table_depth_of(dive.pressure, surface, dive.gas)
        limit = limit_after(start, depth)
    except RangeError as error:
        return {"known": False, "why": str(error), "no_stop_min": None, "within": None, "group_before": None}
    finite = None if np.isinf(limit) else limit / _MINUTE
    within = bool(dive.time <= limit)
    return {"known": True, "why": None, "no_stop_min": finite, "within": within, "group_before": start.group or None}


def _weakest(gases: Sequence[Gas]) -> Gas:
    """The gas with the most nitrogen, or one with helium: the table then has no answer."""
    return max(gases, key=lambda gas: (gas.helium > 0.0, gas.nitrogen))


def _oxygen(legs: Sequence[Leg]) -> Row:
    doses = [dose_where_known((each,)) for each in legs]
    dose = None if any(d is None for d in doses) else float(sum(d.sum() for d in doses if d is not None))
    highest = max(float(max(p.max() for p in oxygen_at(each))) for each in legs)
    try:
        shares = [limits_used((each,)) for each in legs]
    except RangeError:
        shares = None  # over 1.6 atm no time is allowed
    return {
        "highest_bar": highest / _BAR,
        "single_share": None if shares is None else float(sum(single.sum() for single, _ in shares)),
        "daily_share": None if shares is None else float(sum(daily.sum() for _, daily in shares)),
        "dose_otu": dose,
    }


def _grid(profile: Profile) -> Floats:
    """Moments about a second apart over the whole dive."""
    first, last = float(profile.time[0]), float(profile.time[-1])
    return np.linspace(first, last, max(int(np.ceil(last - first)), 1) + 1)
