"""One logged dive held against the limits: rates, tissues, table, oxygen, stops."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

import numpy as np

from parbuckle.dive.both_models import table_depth_of
from parbuckle.dive.ceilings import gradient, tolerated
from parbuckle.dive.loading import AIR, load
from parbuckle.dive.navy_tables import no_stop_limit
from parbuckle.dive.oxygen import dose_where_known, limit_used, oxygen_at
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


def leaves_bottom(profile: Profile, rules: DiveRules) -> float:
    """Give when the last way up began.

    Back from the last moment that is deeper than the usual stop by a tooth, as long as the mean rate over half a minute
    is above a third of the house's rate. A slower ascent counts as bottom time: the safe side.

    Parameters
    ----------
    profile : Profile
        The logged dive.
    rules : DiveRules
        Stop, tooth and rate.

    Returns
    -------
    float
        s since leaving the surface.

    Notes
    -----
    Source: own definition.
    """
    edge = min(rules.stop_depth + rules.sawtooth, 0.5 * profile.deepest)
    deep = int(np.flatnonzero(profile.depth >= edge)[-1])
    grid = _grid(profile)
    fine = Profile(grid, np.interp(grid, profile.time, profile.depth))
    rates = ascent_rates(fine)
    here = min(int(np.searchsorted(grid, profile.time[deep])) + 1, grid.size - 1)
    while here > 0 and rates[here] > _STILL_RISING * rules.up:
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


def judged(profile: Profile, before: Floats, water: Water, rules: DiveRules) -> tuple[Row, Floats]:
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

    Returns
    -------
    tuple
        The row of the document, and the tissues after it.
    """
    legs, leaves = legs_of(profile, water), leaves_bottom(profile, rules)
    lasts = np.diff(profile.time)
    mean = float((0.5 * (profile.depth[1:] + profile.depth[:-1]) * lasts).sum() / lasts.sum())
    fast = too_fast(profile, rules.up)
    tooth = largest_tooth(profile)
    model, after = _tissues(profile, legs, before, rules.factors[1])
    row = {
        "deepest_m": profile.deepest,
        "mean_depth_m": mean,
        "dive_time_min": float(profile.time[-1] - profile.time[0]) / _MINUTE,
        "bottom_time_min": (leaves - float(profile.time[0])) / _MINUTE,
        "left_bottom_s": leaves,
        "gases": list(dict.fromkeys(leg.gas.text for leg in legs)),
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
        "table": _table(profile, legs, leaves, water),
        "oxygen": _oxygen(legs),
    }
    return row, after


def _tissues(profile: Profile, legs: Sequence[Leg], before: Floats, factor: float) -> tuple[Row, Floats]:
    """Follow the tissues sample by sample; the ceiling with the high factor, and with the model's own limit."""
    tissues, over, passed, worst = before, 0.0, -np.inf, -np.inf
    for each in legs:
        tissues = load(tissues, (each,))
        worst = max(worst, float(gradient(tissues, each.end)[0]))
        above = float((tolerated(tissues, factor) - each.end)[0])
        passed = max(passed, above)
        over += float(each.time[0]) if above > _PASSED else 0.0
    row = {
        "factor": factor,
        "ceiling_kept": passed <= _PASSED,
        "over_ceiling_min": over / _MINUTE,
        "largest_gradient": worst,
        "surfacing_gradient": float(gradient(tissues, legs[-1].end)[0]),
        "limit_kept": worst <= 1.0,
    }
    return row, tissues


def _table(profile: Profile, legs: Sequence[Leg], leaves: float, water: Water) -> Row:
    deepest = float(water.at(max(profile.deepest, 0.0)).max())
    gas = _weakest([each.gas for each in legs])
    try:
        limit = no_stop_limit(table_depth_of(deepest, float(water.surface.min()), gas))
    except RangeError as error:
        return {"known": False, "why": str(error), "no_stop_min": None, "within": None}
    finite = None if np.isinf(limit) else limit / _MINUTE
    return {"known": True, "why": None, "no_stop_min": finite, "within": bool(leaves - profile.time[0] <= limit)}


def _weakest(gases: Sequence[Gas]) -> Gas:
    """The gas with the most nitrogen, or one with helium: the table then has no answer."""
    return max(gases, key=lambda gas: (gas.helium > 0.0, gas.nitrogen))


def _oxygen(legs: Sequence[Leg]) -> Row:
    dose = dose_where_known(legs)
    highest = max(float(max(p.max() for p in oxygen_at(each))) for each in legs)
    try:
        shares: tuple[float | None, float | None] = (float(limit_used(legs)[0]), float(limit_used(legs, True)[0]))
    except RangeError:
        shares = (None, None)  # over 1.6 atm no time is allowed
    return {
        "highest_bar": highest / _BAR,
        "single_share": shares[0],
        "daily_share": shares[1],
        "dose_otu": None if dose is None else float(dose[0]),
    }


def _grid(profile: Profile) -> Floats:
    """Moments about a second apart over the whole dive."""
    first, last = float(profile.time[0]), float(profile.time[-1])
    return np.linspace(first, last, max(int(np.ceil(last - first)), 1) + 1)
