"""Does exposure make sense: longer, deeper, split, rested, in other units, at altitude."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from parbuckle.dive.ceilings import gradient, tolerated
from parbuckle.dive.loading import at_rest, load, rest
from parbuckle.dive.mixture import equivalent_air_depth, gas_density, narcotic_depth, operating_depth
from parbuckle.dive.no_stop import no_stop_time
from parbuckle.dive.oxygen import limit_used, lung_dose
from parbuckle.dive.profile import Leg, Water, leg, travel
from parbuckle.dive.stops import way_up
from parbuckle.physics.air import air_density
from parbuckle.physics.pressure import surface_pressure
from parbuckle.quantity.breathing import Gas, parse_gas
from parbuckle.quantity.grammar import parse
from sample_dives import AIR, SEA, SURFACE, piece

GASES = st.sampled_from(["air", "EAN32", "EAN40", "21/35", "18/45"]).map(parse_gas)
DEPTHS = st.floats(6.0, 45.0)
MINUTES = st.floats(0.5, 90.0)
EXAMPLES = settings(max_examples=60, deadline=None, derandomize=True)


def limit(tissues: np.ndarray, depth: float, gas: Gas, factor: float = 0.85) -> float:  # type: ignore[type-arg]
    return float(no_stop_time(tissues, float(SEA.at(depth)[0]), gas, SURFACE, factor)[0])


@EXAMPLES
@given(DEPTHS, MINUTES, MINUTES, DEPTHS)
def test_more_time_never_raises_the_limit(depth: float, minutes: float, more: float, then: float) -> None:
    """Air twice, and never a deeper first dive, so that no tissue gives off gas in the added time."""
    there = min(depth, then)
    short = load(at_rest(SURFACE), [leg(SEA, there, there, minutes * 60.0, AIR)])
    long = load(short, [leg(SEA, there, there, more * 60.0, AIR)])
    assert limit(long, then, AIR) <= limit(short, then, AIR) + 1e-6


@EXAMPLES
@given(DEPTHS, st.floats(0.1, 20.0), GASES)
def test_deeper_never_lengthens_the_limit(depth: float, more: float, gas: Gas) -> None:
    assert limit(at_rest(SURFACE), depth + more, gas) <= limit(at_rest(SURFACE), depth, gas) + 1e-3


@EXAMPLES
@given(DEPTHS, DEPTHS, MINUTES, st.floats(0.01, 0.99), GASES)
def test_a_leg_in_two_pieces_is_the_same_leg(a: float, b: float, minutes: float, share: float, gas: Gas) -> None:
    middle = a + share * (b - a)
    whole = load(at_rest(SURFACE), [leg(SEA, a, b, minutes * 60.0, gas)])
    first = leg(SEA, a, middle, share * minutes * 60.0, gas)
    both = load(at_rest(SURFACE), [first, leg(SEA, middle, b, (1.0 - share) * minutes * 60.0, gas)])
    assert np.allclose(both, whole, rtol=1e-9, atol=1e-9)


@EXAMPLES
@given(DEPTHS, MINUTES, st.floats(0.0, 2000.0), st.floats(0.1, 2000.0), DEPTHS)
def test_a_surface_interval_never_makes_it_worse(
    depth: float, minutes: float, wait: float, more: float, then: float
) -> None:
    after = load(at_rest(SURFACE), [leg(SEA, depth, depth, minutes * 60.0, AIR)])
    soon = rest(after, SURFACE, wait * 60.0)
    late = rest(soon, SURFACE, more * 60.0)
    assert limit(late, then, AIR) >= limit(soon, then, AIR) - 1e-6
    assert (tolerated(late) <= tolerated(soon) + 1e-6).all()


@EXAMPLES
@given(st.integers(20, 130), st.integers(1, 80))
def test_units_do_not_matter(feet: int, minutes: int) -> None:
    one, other = parse(f"{feet} ft", "length").mid, parse(f"{feet * 0.3048!r} m", "length").mid
    stay = parse(f"{minutes} min", "time").mid, parse(f"{minutes * 60} s", "time").mid
    first, second = (load(at_rest(SURFACE), [leg(SEA, d, d, t, AIR)]) for d, t in zip((one, other), stay, strict=True))
    assert np.allclose(first, second, rtol=1e-12)


def test_no_time_and_no_change_change_nothing() -> None:
    rested = at_rest(SURFACE)
    assert np.array_equal(load(rested, [piece(SURFACE, 3e5, 0.0)]), rested)
    assert np.allclose(rest(rested, SURFACE, 86400.0), rested, rtol=1e-12)


def test_fresh_water_is_lighter_so_the_limit_is_longer() -> None:
    lake = Water(np.array([SURFACE]), np.array([1000.0]))
    sea, fresh = (
        no_stop_time(at_rest(SURFACE), float(water.at(24.0)[0]), AIR, SURFACE, 0.8)[0] for water in (SEA, lake)
    )
    assert fresh > sea


def test_altitude_shortens_and_arrival_shortens_more() -> None:
    high = float(surface_pressure(2000.0))
    lake = Water(np.array([high]), np.array([1000.0]))
    at_sea = no_stop_time(at_rest(SURFACE), float(SEA.at(24.0)[0]), AIR, SURFACE, 0.8)[0]
    there = float(lake.at(24.0)[0])
    settled = no_stop_time(at_rest(high), there, AIR, high, 0.8)[0]
    arrived = no_stop_time(rest(at_rest(SURFACE), high, 0.0), there, AIR, high, 0.8)[0]
    later = no_stop_time(rest(at_rest(SURFACE), high, 6 * 3600.0), there, AIR, high, 0.8)[0]
    assert arrived < later < settled < at_sea


def test_no_helium_is_the_edge_of_a_little_helium() -> None:
    exact = limit(at_rest(SURFACE), 24.0, AIR)
    assert limit(at_rest(SURFACE), 24.0, Gas("x", AIR.oxygen, 1e-9)) == pytest.approx(exact, abs=1e-3)


def test_shallow_has_no_limit_and_too_much_has_none_left() -> None:
    assert limit(at_rest(SURFACE), 4.0, AIR, 1.0) == np.inf
    assert limit(at_rest(SURFACE), 4.0, parse_gas("50/20"), 1.0) == np.inf
    soaked = load(at_rest(SURFACE), [leg(SEA, 30.0, 30.0, 3600.0, AIR)])
    assert limit(soaked, 30.0, AIR) == 0.0


def test_at_the_limit_the_gradient_at_the_surface_is_the_factor() -> None:
    for gas in (AIR, parse_gas("21/35")):
        time = limit(at_rest(SURFACE), 30.0, gas, 0.7)
        after = load(at_rest(SURFACE), [leg(SEA, 30.0, 30.0, time, gas)])
        assert gradient(after, SURFACE)[0] == pytest.approx(0.7, abs=1e-6)
        assert tolerated(after, 0.7)[0] == pytest.approx(SURFACE, rel=1e-6)


def test_within_the_limit_no_stop_is_due_and_well_past_it_one_is() -> None:
    time = limit(at_rest(SURFACE), 30.0, AIR, 0.8)
    for past, stops in ((-1.0, 0), (240.0, 1)):
        after = load(at_rest(SURFACE), [leg(SEA, 30.0, 30.0, time + past, AIR)])
        assert (len(way_up(after, 30.0, SEA, AIR, 0.15, (0.5, 0.8)).stops) > 0) == bool(stops)


def test_a_lower_low_factor_stops_deeper_and_a_lower_high_factor_stays_longer() -> None:
    after = load(at_rest(SURFACE), [leg(SEA, 40.0, 40.0, 1800.0, AIR)])
    deep, usual, slow = (way_up(after, 40.0, SEA, AIR, 0.15, f) for f in ((0.3, 0.8), (0.7, 0.8), (0.7, 0.75)))
    assert deep.stops[0].depth > usual.stops[0].depth
    assert slow.time > usual.time
    assert all(a.depth > b.depth for a, b in zip(deep.stops[:-1], deep.stops[1:], strict=True))


def test_a_stop_in_very_shallow_water_is_made_where_the_diver_is() -> None:
    soaked = load(at_rest(SURFACE), [leg(SEA, 30.0, 30.0, 1500.0, AIR), travel(SEA, 30.0, 2.5, 0.15, AIR)])
    up = way_up(soaked, 2.5, SEA, AIR, 0.15, (0.8, 0.8))
    assert [stop.depth for stop in up.stops] == [2.5]


@EXAMPLES
@given(st.floats(0.2, 1.6), st.floats(0.2, 1.6), MINUTES)
def test_oxygen_adds_up(a: float, b: float, minutes: float) -> None:
    atm, pure = 101325.0, Gas("oxygen", 1.0, 0.0)
    start, end, time = (np.array([x]) for x in (a * atm, b * atm, minutes * 60.0))
    start, end = np.maximum(start, 0.31e5), np.maximum(end, 0.31e5)
    middle = 0.5 * (start + end)
    for daily in (False, True):
        whole = limit_used([Leg(start, end, time, pure)], daily)
        halves = limit_used([Leg(start, middle, time / 2, pure), Leg(middle, end, time / 2, pure)], daily)
        assert np.allclose(whole, halves, rtol=1e-6)
    dose = lung_dose(start, middle, time / 2) + lung_dose(middle, end, time / 2)
    assert np.allclose(lung_dose(start, end, time), dose, rtol=1e-6, atol=1e-9)


def test_an_almost_steady_leg_is_the_steady_one() -> None:
    steady = lung_dose(1.4e5, 1.4e5, 600.0)
    for change in (1e-3, 0.05, 1.0, 50.0):
        assert lung_dose(1.4e5 - change, 1.4e5 + change, 600.0) == pytest.approx(float(steady), rel=1e-7)


def test_richer_is_shallower_and_helium_is_clearer_and_lighter() -> None:
    depths = [float(operating_depth(parse_gas(g), 1.4e5, 1025.0)) for g in ("air", "EAN28", "EAN32", "EAN40")]
    assert depths == sorted(depths, reverse=True)
    assert equivalent_air_depth(parse_gas("EAN32"), 30.0, 1025.0) < 30.0
    assert narcotic_depth(parse_gas("21/35"), 45.0, 1025.0) < narcotic_depth(AIR, 45.0, 1025.0) == pytest.approx(45.0)
    assert narcotic_depth(AIR, 30.0, 1025.0, SURFACE, False) == pytest.approx(30.0)
    assert equivalent_air_depth(parse_gas("EAN60"), 2.0, 1025.0) < 0.0
    assert gas_density(parse_gas("21/35"), 5e5, 283.15) < gas_density(AIR, 5e5, 283.15)
    assert gas_density(AIR, 5e5, 283.15) == pytest.approx(float(air_density(5e5, 283.15)), rel=5e-3)
