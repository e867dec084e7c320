"""A logged dive with the ceiling of the plan's rule: low factor at the first stop, high factor at the surface."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from parbuckle.dive.along import tissues_along
from parbuckle.dive.loading import at_rest, load
from parbuckle.dive.problem import DiveRules
from parbuckle.dive.profile import leg, travel
from parbuckle.dive.stops import WayUp, way_up
from parbuckle.quantity.breathing import parse_gas
from parbuckle.record.log_judging import judged, legs_of
from parbuckle.record.profile import Profile, Switch
from sample_dives import AIR, SEA, SURFACE

FACTORS = (0.4, 0.8)
RULES = DiveRules(FACTORS, 5.0, 180.0, 0.3, 0.15, np.array([1e-3]), 60.0, 5e6, 600.0, 3.0, 1.4e5)
REST = at_rest(SURFACE)


def planned(depth: float = 40.0, minutes: float = 25.0) -> tuple[Profile, WayUp]:
    """The dive down, the stay, and the way up as the plan has it, sampled at its corners."""
    down = travel(SEA, 0.0, depth, 0.3, AIR)
    stay = leg(SEA, depth, depth, minutes * 60.0, AIR)
    found = way_up(load(REST, [down, stay]), depth, SEA, AIR, RULES.up, FACTORS)
    points = [(0.0, 0.0), (float(down.time[0]), depth), (float(down.time[0]) + minutes * 60.0, depth)]
    for each in found.legs:
        now, _ = points[-1]
        points.append((now + float(each.time[0]), float((each.end[0] - SURFACE) / (1025.0 * 9.80665))))
    time, metres = np.array(points).T
    keep = np.concatenate([[True], np.diff(time) > 1e-9])
    return Profile(time[keep], np.maximum(metres[keep], 0.0)), found


def cut(profile: Profile, place: int, seconds: float) -> Profile:
    """The same dive with one stop cut short."""
    time = profile.time.copy()
    time[place:] -= seconds
    return Profile(time, profile.depth)


def test_the_way_up_of_the_plan_keeps_its_own_ceiling() -> None:
    profile, found = planned()
    model = judged(profile, REST, SEA, RULES)[0]["model"]
    assert model["ceiling_kept"]
    assert model["first_stop_m"] == found.stops[0].depth
    assert (model["factor_low"], model["factor"]) == FACTORS


def test_a_stop_that_is_cut_short_passes_the_ceiling_though_the_high_factor_allowed_it() -> None:
    profile, found = planned()
    first = found.stops[0]
    ends = [i for i, (a, b) in enumerate(pairwise(profile.depth), 1) if a == b == pytest.approx(first.depth)]
    early = cut(profile, ends[0], 0.9 * first.time)
    assert not judged(early, REST, SEA, RULES)[0]["model"]["ceiling_kept"]
    flat = DiveRules((0.8, 0.8), *(getattr(RULES, name) for name in (
        "stop_depth", "stop_time", "down", "up", "stress", "sort_out", "least", "overrun", "sawtooth", "oxygen"
    )))  # fmt: skip
    again = judged(early, REST, SEA, flat)[0]["model"]
    assert again["over_ceiling_min"] < judged(early, REST, SEA, RULES)[0]["model"]["over_ceiling_min"]


def test_without_a_stop_the_high_factor_holds_all_the_way() -> None:
    profile, found = planned(18.0, 20.0)
    model = judged(profile, REST, SEA, RULES)[0]["model"]
    assert not found.stops
    assert model["first_stop_m"] is None
    assert model["ceiling_kept"]


def test_all_pieces_together_equal_leg_by_leg() -> None:
    rng = np.random.default_rng(3)
    time = np.cumsum(rng.uniform(1.0, 40.0, 200))
    depth = np.abs(np.cumsum(rng.normal(0.0, 2.0, 200)))
    switches = tuple(Switch(float(time[i]), parse_gas(gas)) for i, gas in ((50, "21/35"), (120, "EAN50")))
    profile = Profile(time, depth, switches=switches)
    tissues = REST
    for each in legs_of(profile, SEA):
        tissues = load(tissues, [each])
    assert judged(profile, REST, SEA, RULES)[1] == pytest.approx(tissues, rel=1e-10, abs=1e-3)


def test_after_each_piece_not_only_at_the_end() -> None:
    legs = [leg(SEA, 0.0, 20.0, 60.0, AIR), leg(SEA, 20.0, 20.0, 600.0, AIR), leg(SEA, 20.0, 5.0, 100.0, AIR)]
    wide = legs[0].__class__(*(np.concatenate([getattr(e, n) for e in legs]) for n in ("start", "end", "time")), AIR)
    found = tissues_along(REST, [(wide, np.arange(3))])
    for place in range(3):
        assert found[:, :, place : place + 1] == pytest.approx(load(REST, legs[: place + 1]), rel=1e-12)
