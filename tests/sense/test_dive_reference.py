"""Exposure against an independent integration of the tissues: profiles, the no-stop limit, stops, logged profiles."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from scipy.optimize import brentq

from parbuckle.dive.carried import Change
from parbuckle.dive.compartments import compartments
from parbuckle.dive.loading import at_rest, load
from parbuckle.dive.logged import highest_ceiling, loaded_at_end
from parbuckle.dive.no_stop import no_stop_time
from parbuckle.dive.profile import Leg, leg, travel
from parbuckle.dive.stops import way_up
from parbuckle.physics.compiled import can_compile
from parbuckle.quantity.breathing import parse_gas
from parbuckle.quantity.frozen import Floats
from sample_dives import AIR, SEA, SURFACE, integrated, piece, random_dive


@pytest.mark.parametrize("batch", range(10))
def test_profiles_agree_with_the_integration(batch: int) -> None:
    for seed in range(batch * 30, batch * 30 + 30):
        legs = random_dive(seed)
        ours, judge = load(at_rest(SURFACE), legs), integrated(at_rest(SURFACE), legs)
        assert np.abs(ours - judge).max() < 0.1, seed  # Pa: 1e-6 bar


def test_profiles_with_changes_of_gas_agree_with_the_integration() -> None:
    """Each leg on another gas: helium that is left while nitrogen is breathed, and the other way round."""
    rng = np.random.default_rng(7)
    gases = [parse_gas(text) for text in ("air", "EAN50", "EAN100", "21/35", "10/70")]
    for seed in range(60):
        legs = [
            piece(each.start[0], each.end[0], each.time[0] / 60.0, gases[int(rng.integers(len(gases)))])
            for each in random_dive(seed)
        ]
        ours, judge = load(at_rest(SURFACE), legs), integrated(at_rest(SURFACE), legs)
        assert np.abs(ours - judge).max() < 0.1, seed  # Pa: 1e-6 bar


def test_stops_on_changing_gas_by_the_printed_equations() -> None:
    """After each stop the next one up is allowed, and 2 s before its end it was not, by the integration alone."""
    low, high = 0.4, 0.8
    mix = parse_gas("21/35")
    start = load(at_rest(SURFACE), [travel(SEA, 0.0, 45.0, 0.3, mix), leg(SEA, 45.0, 45.0, 1500.0, mix)])
    changes = (Change(21.0, parse_gas("EAN50"), 1), Change(5.5, parse_gas("EAN100"), 2))
    up = way_up(start, 45.0, SEA, mix, 0.15, (low, high), changes=changes, pause=60.0)
    first, state, waited = up.stops[0].depth, start, 0
    ahead = [*(s.depth for s in up.stops[1:]), 0.0]
    for each in up.legs:
        level = each.start[0] == each.end[0]
        if level and waited < len(up.stops) and each.time[0] == up.stops[waited].time:
            above = ahead[waited]
            limit = (float(SEA.at(above)[0]), low + (high - low) * (1.0 - above / first))
            early = Leg(each.start.copy(), each.end.copy(), each.time - 2.0, each.gas)
            assert over_at(integrated(state, [early]), *limit) > 0.0
            assert over_at(integrated(state, [each]), *limit) < 20.0
            waited += 1
        state = integrated(state, [each]) if each.time[0] > 0.0 else state
    assert waited == len(up.stops) > 3


def over_at(tissues: Floats, pressure: float, factor: float) -> float:
    """How far the worst tissue is over what some pressure allows, by the printed equations alone, Pa."""
    model = compartments()
    nitrogen, helium = tissues[:, :, 0]
    held = nitrogen + helium
    a = (model.a[0] * nitrogen + model.a[1] * helium) / held
    b = (model.b[0] * nitrogen + model.b[1] * helium) / held
    return float((held - (pressure + factor * (a + pressure / b - pressure))).max())


def excess(tissues: Floats, factor: float) -> float:
    """How far the worst tissue is over what the surface allows, by the printed equations alone."""
    return over_at(tissues, SURFACE, factor)


@pytest.mark.parametrize("gas", ["air", "EAN32", "21/35"])
@pytest.mark.parametrize("depth", [15.0, 21.0, 30.0, 39.0])
@pytest.mark.parametrize("factor", [1.0, 0.8])
def test_no_stop_limit_by_a_root_of_the_integration(gas: str, depth: float, factor: float) -> None:
    mix, there = parse_gas(gas), float(SEA.at(depth)[0])
    down = piece(SURFACE, there, depth / 20.0, mix)
    ours = float(no_stop_time(load(at_rest(SURFACE), [down]), there, mix, SURFACE, factor)[0]) / 60.0

    def over(minutes: float) -> float:
        return excess(integrated(at_rest(SURFACE), [down, piece(there, there, minutes, mix)]), factor)

    assert ours == pytest.approx(brentq(over, 0.5, 600.0, xtol=1e-3), abs=0.02)


def test_no_stop_limit_after_an_earlier_dive() -> None:
    there = float(SEA.at(24.0)[0])
    before = integrated(at_rest(SURFACE), [piece(there, there, 25.0), piece(SURFACE, SURFACE, 60.0)])
    ours = float(no_stop_time(before, there, AIR, SURFACE, 0.85)[0]) / 60.0
    over = brentq(lambda m: excess(integrated(before, [piece(there, there, m)]), 0.85), 0.1, 100.0, xtol=1e-3)
    assert ours == pytest.approx(over, abs=0.02)
    assert ours < float(no_stop_time(at_rest(SURFACE), there, AIR, SURFACE, 0.85)[0]) / 60.0


def test_the_ceiling_holds_all_the_way_up_and_no_stop_is_longer_than_needed() -> None:
    low, high = 0.5, 0.8
    start = load(at_rest(SURFACE), [travel(SEA, 0.0, 36.0, 0.3, AIR), leg(SEA, 36.0, 36.0, 1800.0, AIR)])
    up = way_up(start, 36.0, SEA, AIR, 0.15, (low, high))
    first = up.stops[0].depth
    at = integrated(start, [travel(SEA, 36.0, first, 0.15, AIR)])
    for stop, above in zip(up.stops, [s.depth for s in up.stops[1:]] + [0.0], strict=True):
        factor, held = high + (low - high) * above / first, float(SEA.at(above)[0])
        there = float(SEA.at(stop.depth)[0])
        model, after = compartments(), integrated(at, [piece(there, there, stop.time / 60.0)])
        over = after[0, :, 0] - (held + factor * (model.a[0] + held / model.b[0] - held))
        assert over.max() == pytest.approx(0.0, abs=1.0)  # Pa: the stop ends just when it may
        at = integrated(after, [travel(SEA, stop.depth, above, 0.15, AIR)])
    assert np.abs(at - up.tissues).max() < 0.1
    assert up.time == pytest.approx(sum(s.time for s in up.stops) + 36.0 / 0.15)


def sawtooth(count: int, samples: int) -> Floats:
    rng = np.random.default_rng(5)
    depth = np.abs(np.cumsum(rng.normal(0.0, 0.4, (count, samples)), axis=1))
    return np.asarray(SURFACE + 1e4 * depth)


@pytest.mark.parametrize("gas", ["air", "21/35"])
@pytest.mark.parametrize("samples", [2, 8, 9, 10, 203])
def test_logged_profiles_are_the_same_dives(gas: str, samples: int) -> None:
    mix, pressure = parse_gas(gas), sawtooth(3, samples)
    legs = [[piece(float(a), float(b), 4.0 / 60.0, mix) for a, b in pairwise(row)] for row in pressure]
    wanted = np.concatenate([load(at_rest(SURFACE), each) for each in legs], axis=2)
    assert np.abs(loaded_at_end(at_rest(SURFACE), pressure, 4.0, mix) - wanted).max() < 1e-5
    assert np.abs(highest_ceiling(at_rest(SURFACE), pressure, 4.0, mix, 0.8)[0] - wanted).max() < 1e-5


@pytest.mark.parametrize("gas", ["air", "18/45"])
def test_both_forms_of_the_ceiling_agree_and_end_where_the_product_of_matrices_ends(gas: str) -> None:
    assert can_compile()  # or this test compares a thing with itself
    mix, pressure = parse_gas(gas), sawtooth(120, 500)
    quick_ceiling, plain_ceiling = (
        highest_ceiling(at_rest(SURFACE), pressure, 4.0, mix, 0.7, plain=p) for p in (False, True)
    )
    ends = loaded_at_end(at_rest(SURFACE), pressure, 4.0, mix)
    assert np.abs(quick_ceiling[0] - plain_ceiling[0]).max() < 1e-6
    assert np.abs(quick_ceiling[0] - ends).max() < 1e-5
    assert np.abs(quick_ceiling[1] - plain_ceiling[1]).max() < 1e-6
