"""One expression reads number, spread and unit; everything else is refused in words."""

from __future__ import annotations

import math
from decimal import Decimal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from parbuckle.quantity.bearing import is_magnetic, to_true, wrap
from parbuckle.quantity.breathing import parse_gas
from parbuckle.quantity.errors import CaseError
from parbuckle.quantity.grammar import GrammarError, parse
from parbuckle.quantity.kinds import all_kinds
from parbuckle.quantity.units import Unit, from_si

READ = [
    ("16 m", "length", "exact", 16.0, 16.0, 16.0),
    ("46 ± 4 kg", "mass", "normal", 42.0, 46.0, 50.0),
    ("46 +- 4 kg", "mass", "normal", 42.0, 46.0, 50.0),
    ("46+/-4kg", "mass", "normal", 42.0, 46.0, 50.0),
    ("35..45 kg", "mass", "flat", 35.0, 40.0, 45.0),
    ("60..80..120 m", "length", "triangular", 60.0, 80.0, 120.0),
    ("0..100 %", "share", "flat", 0.0, 0.5, 1.0),
    ("46 ± 0 kg", "mass", "exact", 46.0, 46.0, 46.0),
    ("35..35 kg", "mass", "exact", 35.0, 35.0, 35.0),
    ("8 ± 2 degC", "temperature", "normal", 279.15, 281.15, 283.15),
    ("46.4 ± 9 degF", "temperature", "normal", 276.15, 281.15, 286.15),
    ("-1..4 degC", "temperature", "flat", 272.15, 274.65, 277.15),
    ("−1 degC", "temperature", "exact", 272.15, 272.15, 272.15),
    ("120 kg", "load", "exact", 1176.798, 1176.798, 1176.798),
    ("24 kN", "load", "exact", 24000.0, 24000.0, 24000.0),
    ("70 kg in water", "weight_in_water", "exact", 70.0, 70.0, 70.0),
    ("36 ± 2 kg in water", "weight_in_water", "normal", 34.0, 36.0, 38.0),
    ("0.2 kg", "net_lift", "exact", 0.2, 0.2, 0.2),
    ("8..20 kg in water", "net_lift", "flat", 8.0, 14.0, 20.0),
    ("98.0665 N", "net_lift", "exact", 10.0, 10.0, 10.0),
    ("200 bar", "pressure", "exact", 2.0e7, 2.0e7, 2.0e7),
    ("17 l/min", "flow", "exact", 17e-3 / 60, 17e-3 / 60, 17e-3 / 60),
    ("2 short ton", "mass", "exact", 1814.36948, 1814.36948, 1814.36948),
    ("1 long ton", "mass", "exact", 1016.0469088, 1016.0469088, 1016.0469088),
    ("10 US gal", "volume", "exact", 0.03785411784, 0.03785411784, 0.03785411784),
    ("6 cu ft", "volume", "exact", 0.169901079552, 0.169901079552, 0.169901079552),
    ("5 fathom", "length", "exact", 9.144, 9.144, 9.144),
    ("fresh", "salinity", "exact", 0.0, 0.0, 0.0),
    ("18 g/kg", "salinity", "exact", 18.0, 18.0, 18.0),
    ("60..120", "days", "flat", 60.0, 90.0, 120.0),
    ("-0.3 m", "height", "exact", -0.3, -0.3, -0.3),
    ("6 m/min", "rate", "exact", 0.1, 0.1, 0.1),
]


@pytest.mark.parametrize(("text", "kind", "shape", "low", "mid", "high"), READ, ids=[row[0] for row in READ])
def test_reads(text: str, kind: str, shape: str, low: float, mid: float, high: float) -> None:
    spread = parse(text, kind)
    assert spread.shape == shape
    assert (spread.low, spread.mid, spread.high) == pytest.approx((low, mid, high), rel=1e-12, abs=1e-12)
    assert spread.kind == kind


REFUSED = [
    ("46", "mass", "unit is missing"),
    ("46 m", "mass", "belongs to a length"),
    ("46 Kg", "mass", "did you mean 'kg'"),
    ("1,5 m", "length", "comma"),
    ("1,200 kg", "mass", "comma"),
    ("1 1/2 in", "length", "fraction"),
    ("1/2 in", "length", "fraction"),
    ("46 kg or so", "mass", "text after the unit"),
    ("46 kg; import os", "mass", "text after the unit"),
    ("46 kg ± 4 kg", "mass", "written once"),
    ("inf m", "length", "finite"),
    ("-inf m", "length", "finite"),
    ("NaN m", "length", "finite"),
    ("1e3 m", "length", "exponents"),
    ("1e999999 m", "length", "exponents"),
    ("10**10**10 m", "length", "exponents"),
    ("9^9^9 m", "length", "exponents"),
    ("45..35 kg", "mass", "backwards"),
    ("60..50..120 m", "length", "backwards"),
    ("350..10 deg", "bearing", "350..370"),
    ("46 ± -4 kg", "mass", "negative"),
    ("46 ± ± 4 kg", "mass", "plain number"),
    ("-3 kg", "mass", "below"),
    ("300 %", "share", "above"),
    ("90..110 %", "share", "above"),
    ("1..2..3..4 kg", "mass", "too many parts"),
    ("35-45 kg", "mass", "two points"),
    (".5 m", "length", "begin with the point"),
    ("5. m", "length", "not complete"),
    ("+5 m", "length", "plus"),
    ("９ m", "length", "digits 0 to 9"),
    ("٤٦ kg", "mass", "digits 0 to 9"),
    ("½ m", "length", "digits 0 to 9"),
    ("9" * 5000 + " m", "length", "15 digits"),
    ("0." + "9" * 5000 + " m", "length", "15 digits"),
    ("", "mass", "empty"),
    ("heavy", "mass", "no number"),
    ("unknown", "mass", "no default"),
    ("70 kg", "weight_in_water", "in water"),
    ("7 cu ft", "water_capacity", "belongs to"),
    ("5 gal", "volume", "two gallons"),
    ("2 ton", "mass", "three tons"),
    ("5 days", "days", "nothing may follow"),
    ("8 °C", "temperature", "degC"),
    ("17 L/min", "flow", "l/min"),
    ("46 kg\n47 kg", "mass", "no number"),
    ("16 m mag", "length", "text after the unit"),
    ("__import__('os')", "mass", "no number"),
    ("0x10 m", "length", "not a unit"),
    ("28 deg west", "bearing", "text after the unit"),
]


@pytest.mark.parametrize(("text", "kind", "why"), REFUSED, ids=[row[0][:20] for row in REFUSED])
def test_refuses_and_says_why(text: str, kind: str, why: str) -> None:
    with pytest.raises(GrammarError) as caught:
        parse(text, kind)
    told = str(caught.value)
    assert why in told
    assert caught.value.allowed
    assert len(told) < 700
    assert not text or caught.value.given


def test_keys_tighten_the_limits_of_a_kind() -> None:
    assert parse("0 m", "length").mid == 0.0
    with pytest.raises(GrammarError, match="more than 0"):
        parse("0 m", "length", positive=True)
    with pytest.raises(GrammarError, match="more than 0"):
        parse("0..2 m", "length", positive=True)
    assert parse("5 m", "length", ceiling=5.0).mid == 5.0
    with pytest.raises(GrammarError, match="above"):
        parse("5.001 m", "length", ceiling=5.0)
    with pytest.raises(GrammarError, match="below"):
        parse("4.999 m", "length", floor=5.0)


def test_a_normal_spread_may_cross_a_limit_and_is_cut_there() -> None:
    mass = parse("1 ± 3 kg", "mass")
    assert mass.is_cut
    assert not parse("4 ± 3 kg", "mass").is_cut
    u = (np.arange(2000) + 0.5) / 2000
    assert mass.at(u).min() >= 0.0


def test_a_bearing_wraps_and_is_never_cut() -> None:
    for text in ("355 ± 10 deg", "350..370 deg"):
        bearing = parse(text, "bearing")
        assert not bearing.is_cut
        assert math.degrees(bearing.high) > 360.0
        assert math.isinf(bearing.floor)
        assert math.isinf(bearing.ceiling)


def test_a_magnetic_bearing_is_told_and_turned() -> None:
    magnetic, true = parse("28 ± 8 deg mag", "bearing"), parse("28 ± 8 deg", "bearing")
    assert is_magnetic(magnetic)
    assert not is_magnetic(true)
    turned = to_true(magnetic, math.radians(-4.0))
    assert math.degrees(turned.mid) == pytest.approx(24.0)
    assert turned.high - turned.low == pytest.approx(magnetic.high - magnetic.low)
    assert not is_magnetic(turned)
    assert to_true(true, 1.0) is true


@given(st.floats(-100.0, 100.0))
def test_wrapped_angles_point_the_same_way(angle: float) -> None:
    assert 0.0 <= wrap(angle) < 2.0 * math.pi
    assert math.cos(wrap(angle)) == pytest.approx(math.cos(angle), abs=1e-9)


GASES = [("air", 0.2095, 0.0), ("EAN32", 0.32, 0.0), ("EAN 50", 0.5, 0.0), ("EAN100", 1.0, 0.0), ("21/35", 0.21, 0.35)]


@pytest.mark.parametrize(("text", "oxygen", "helium"), GASES)
def test_breathing_gases(text: str, oxygen: float, helium: float) -> None:
    gas = parse_gas(text)
    assert (gas.oxygen, gas.helium) == pytest.approx((oxygen, helium))
    assert gas.nitrogen == pytest.approx(1.0 - oxygen - helium)


@pytest.mark.parametrize("text", ["EAN20", "EAN101", "EAN", "32", "60/50", "0/50", "Air", "nitrox", "２1/35", ""])
def test_other_gases_are_refused(text: str) -> None:
    with pytest.raises(CaseError) as caught:
        parse_gas(text)
    assert "EAN32" in caught.value.allowed


_KINDS = [(kind.name, unit) for kind in all_kinds().values() for unit in kind.units.values() if not kind.wraps]


_NUMBERS = st.decimals(min_value=1, max_value=9, places=3)
_STEPS = st.decimals(min_value=0, max_value=1, places=3)


@given(st.sampled_from(_KINDS), _NUMBERS, _STEPS)
def test_round_trip_of_any_unit(pair: tuple[str, Unit], middle: Decimal, step: Decimal) -> None:
    name, unit = pair
    after = f" {all_kinds()[name].suffix}" if all_kinds()[name].suffix else ""
    spread = parse(f"{middle} ± {step} {unit.word}{after}", name)
    assert from_si(spread.mid, unit) == pytest.approx(float(middle), rel=1e-9)
    assert from_si(spread.high, unit) == pytest.approx(float(middle + step), rel=1e-9)
    assert spread.exact == (step == 0)
    again = parse(spread.text, name)
    assert (again.low, again.mid, again.high) == (spread.low, spread.mid, spread.high)


@given(st.text(max_size=60), st.sampled_from(sorted(all_kinds())))
def test_any_text_is_read_or_refused_in_words(text: str, name: str) -> None:
    try:
        spread = parse(text, name)
    except GrammarError as error:
        assert error.what
    else:
        assert math.isfinite(spread.low)
        assert spread.low <= spread.mid <= spread.high
