"""Oxygen and breathing gas: ranges, reserve, what the gauge shows, and how good the stand-in for mixed gas is."""

from __future__ import annotations

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from parbuckle.dive.breathing import breathed, law_reserve, needed, shared_way_up
from parbuckle.dive.cylinders import HELIUM_ALLOWANCE, Breathed, leave_bottom, left_after, turn_pressure
from parbuckle.dive.mixture import equivalent_air_depth, gas_density, operating_depth
from parbuckle.dive.oxygen import daily_limit, dose_allowed, limit_used, lung_dose, single_limit
from parbuckle.dive.profile import leg, travel
from parbuckle.physics.air import free_content
from parbuckle.quantity.breathing import Gas, parse_gas
from parbuckle.quantity.errors import RangeError
from sample_dives import AIR, SEA, SURFACE, piece

ATM = 101325.0
RATE = 0.020 / 60.0
HERE = np.array([SURFACE])


def kit(gas: Gas = AIR, bar: float = 200.0, litres: float = 12.0, count: int = 1) -> Breathed:
    return Breathed(litres / 1000.0, np.array([bar * 1e5]), gas, count, 293.15, HERE)


def test_limits_take_the_next_row_and_nothing_in_between() -> None:
    assert single_limit(np.array([0.5, 0.51, 0.6, 0.61, 1.35, 1.4, 1.41, 1.6]) * ATM).tolist() == [
        np.inf,
        *(60.0 * m for m in (720, 720, 570, 150, 150, 120, 45)),
    ]
    assert float(daily_limit(1.5 * ATM)) == 180 * 60.0
    assert (daily_limit(np.linspace(0.5, 1.6, 50) * ATM) >= single_limit(np.linspace(0.5, 1.6, 50) * ATM)).all()


def test_exposure_at_one_pressure_is_time_over_limit() -> None:
    pure = Gas("oxygen", 1.0, 0.0)
    for bar in (0.4, 0.55, 0.6, 1.0, 1.05, 1.6):
        used = limit_used([piece(bar * ATM, bar * ATM, 30.0, pure)])
        assert used[0] == pytest.approx(30.0 * 60.0 / float(single_limit(bar * ATM)))


def test_a_ramp_spends_its_time_in_each_row() -> None:
    pure = Gas("oxygen", 1.0, 0.0)
    used = limit_used([piece(0.5 * ATM, 1.6 * ATM, 110.0, pure)])[0]
    limits = [720, 720, 570, 450, 360, 300, 240, 210, 180, 150, 120, 45]
    assert used == pytest.approx(sum(10.0 / m for m in limits[1:]))


def test_the_allowance_of_a_row_of_days_sums_as_printed() -> None:
    totals = np.cumsum([dose_allowed(day) for day in range(1, 11)])
    assert totals[[0, 1]].tolist() == [850.0, 1550.0]
    assert dose_allowed(11) == dose_allowed(99) == 300.0


def test_mixed_gas_in_a_cylinder_against_an_equation_of_state() -> None:
    """Nitrox holds more than air by the stated sizes; a mix with helium never holds less than we say."""
    most = {"EAN32": 0.015, "EAN40": 0.026, "EAN50": 0.042}
    for bar in (50e5, 100e5, 150e5, 200e5, 232e5, 300e5):
        air = PropsSI("Z", "T", 293.15, "P", bar, "Air")
        for name in ("EAN32", "EAN40", "EAN50", "21/35", "18/45", "10/70"):
            gas = parse_gas(name)
            parts = [("Nitrogen", gas.nitrogen), ("Oxygen", gas.oxygen), ("Helium", gas.helium)]
            text = "HEOS::" + "&".join(f"{part}[{share}]" for part, share in parts if share > 0.0)
            more = air / PropsSI("Z", "T", 293.15, "P", bar, text) - 1.0  # real content over that of air
            if gas.helium:
                assert -HELIUM_ALLOWANCE <= more < 0.0, (name, bar)
            else:
                assert 0.0 < more < most[name], (name, bar)


def test_twins_hold_twice_and_helium_less() -> None:
    assert kit(count=2).content(200e5) == pytest.approx(2.0 * kit().content(200e5))
    assert kit(parse_gas("21/35")).content(200e5) == pytest.approx((1.0 - HELIUM_ALLOWANCE) * kit().content(200e5))
    assert kit().content(200e5) == pytest.approx(float(free_content(0.012, 200e5)))


def test_gas_goes_with_depth_time_and_rate() -> None:
    one = breathed(leg(SEA, 20.0, 20.0, 600.0, AIR), RATE, SURFACE)[0]
    assert one == pytest.approx(RATE * 600.0 * float(SEA.at(20.0)[0]) / SURFACE)
    assert breathed(leg(SEA, 20.0, 20.0, 1200.0, AIR), RATE, SURFACE)[0] == pytest.approx(2.0 * one)
    up = breathed(travel(SEA, 20.0, 0.0, 0.15, AIR), RATE, SURFACE)
    middle = breathed(leg(SEA, 10.0, 10.0, 20.0 / 0.15, AIR), RATE, SURFACE)
    assert up == pytest.approx(middle)


def test_a_stage_cylinder_gives_the_legs_on_its_gas() -> None:
    stage = parse_gas("EAN50")
    pieces = [(leg(SEA, 30.0, 30.0, 900.0, AIR), RATE), (leg(SEA, 6.0, 6.0, 300.0, stage), RATE)]
    assert needed(pieces, SURFACE) == pytest.approx(needed(pieces, SURFACE, AIR) + needed(pieces, SURFACE, stage))
    assert needed(pieces, SURFACE, stage) == pytest.approx(breathed(*pieces[1], SURFACE))


def test_two_people_from_the_worst_moment_by_hand() -> None:
    up = [travel(SEA, 24.0, 5.0, 0.15, AIR), leg(SEA, 5.0, 5.0, 180.0, AIR), travel(SEA, 5.0, 0.0, 0.15, AIR)]
    bars = [float(SEA.at(d)[0]) / SURFACE for d in (24.0, 14.5, 5.0, 2.5)]
    minutes = [1.0, 19.0 / 9.0, 3.0, 5.0 / 9.0]
    wanted = 2 * 62.5 * sum(b * m for b, m in zip(bars, minutes, strict=True))
    assert shared_way_up(up, 62.5e-3 / 60.0, SURFACE, 60.0)[0] * 1000.0 == pytest.approx(wanted)


def test_the_reserve_of_the_regulation_is_capped() -> None:
    depths = np.array([0.0, 10.0, 34.8, 34.9, 60.0])
    assert (law_reserve(SURFACE * (1 + depths / 10.0), SURFACE) * 1000).round(1).tolist() == [
        625.0,
        1250.0,
        2800.0,
        2800.0,
        2800.0,
    ]


def test_leaving_the_bottom_keeps_the_larger_reserve() -> None:
    own, least = 0.15, 50e5
    house = leave_bottom(kit(), own, 0.0, least)
    assert left_after(Breathed(0.012, house, AIR, 1, 293.15, HERE), own)[0] == pytest.approx(least, rel=1e-6)
    both = leave_bottom(kit(), own, 1.5, least)
    assert both > house
    gauge, missing = left_after(Breathed(0.012, both, AIR, 1, 293.15, HERE), 1.5)
    assert gauge == pytest.approx(0.0, abs=20.0)
    assert missing == pytest.approx(0.0, abs=1e-6)


def test_turning_back_leaves_as_much_for_the_way_back() -> None:
    leaving = np.array([80e5])
    turn = turn_pressure(kit(), leaving)
    out, back = kit().content(200e5) - kit().content(turn), kit().content(turn) - kit().content(leaving)
    assert out == pytest.approx(back)
    assert turn_pressure(kit(), leaving, 1 / 3) > turn


def test_a_set_that_runs_empty_says_how_much_is_missing() -> None:
    gauge, missing = left_after(kit(), np.array([0.0, 1.0, 2.5]))
    assert gauge[0] == pytest.approx(200e5, rel=1e-6)
    assert missing.tolist()[:2] == [0.0, 0.0]
    assert gauge[2] == pytest.approx(0.0, abs=20.0)
    assert missing[2] == pytest.approx(2.5 - (kit().content(200e5) - kit().content(0.0))[0])


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: single_limit(1.61 * ATM), "NOAA limits end at 1.6 atm"),
        (lambda: limit_used([piece(5.1e5, 5.1e5, 1.0, parse_gas("EAN32"))]), "1.6 atm"),
        (lambda: lung_dose(3.1 * ATM, 1e5, 60.0), "dose to the lungs"),
        (lambda: lung_dose(1e5, 1e5, -1.0), "time"),
        (lambda: dose_allowed(0), "day"),
        (lambda: operating_depth(parse_gas("EAN32"), 0.1e5, 1025.0), "limit of oxygen pressure"),
        (lambda: operating_depth(parse_gas("EAN99"), 0.9e5, 1025.0), "depth"),
        (lambda: operating_depth(Gas("none", 0.0, 0.2), 1.4e5, 1025.0), "share of oxygen"),
        (lambda: equivalent_air_depth(parse_gas("21/35"), 30.0, 1025.0), "without helium"),
        (lambda: gas_density(AIR, -1.0, 283.0), "pressure"),
        (lambda: breathed(piece(SURFACE, SURFACE, 1.0), -RATE, SURFACE), "breathing rate"),
        (lambda: shared_way_up([], RATE, SURFACE, 60.0), "without a leg"),
        (lambda: shared_way_up([piece(3e5, SURFACE, 2.0)], RATE, SURFACE, -1.0), "sort it out"),
        (lambda: turn_pressure(kit(bar=60.0), 100e5), "gas over that of leaving"),
        (lambda: turn_pressure(kit(), 60e5, 1.1), "share of the usable gas"),
        (lambda: leave_bottom(kit(), 0.1, 9.0, 50e5), "350 bar"),
        (lambda: left_after(kit(), -1.0), "gas breathed"),
        (lambda: kit(litres=0.0), "water capacity"),
        (lambda: kit(count=0), "number of cylinders"),
    ],
)
def test_outside_its_range_a_law_refuses_by_name(call, words: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(RangeError, match=words):
        call()
