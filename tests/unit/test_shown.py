"""Numbers as people read them."""

from __future__ import annotations

import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from parbuckle.quantity.shown import NOT_KNOWN, THIN, both, clock, show, show_band, show_si
from parbuckle.quantity.shown_kinds import SHOWN
from parbuckle.quantity.units import words

ONE = [
    (36.8, "mass", "metric", None, "37 kg"),
    (36.8, "mass", "imperial", None, "81 lb"),
    (215.0, "free_gas", "metric", None, "220 l"),
    (215.0, "free_gas", "metric", 3, "215 l"),
    (26.1, "volume", "imperial", None, "0.92 cu ft"),
    (16.0, "length", "imperial", None, "52 ft"),
    (9.0, "length", "metric", None, "9 m"),
    (9.96, "mass", "metric", None, "10 kg"),
    (-0.0, "mass", "metric", None, "0 kg"),
    (-0.4, "temperature", "metric", None, "-0.4 °C"),
    (8.0, "temperature", "imperial", None, "46 °F"),
    (1.27, "time", "metric", None, "1.3 s"),
    (14.0, "time", "metric", None, "14 s"),
    (133.0, "time", "metric", None, "2 min 10 s"),
    (133.0, "time", "metric", 3, "2 min 13 s"),
    (33.0, "minutes", "metric", None, "33 min"),
    (150.0, "minutes", "metric", None, "2 h 30 min"),
    (28.0, "bearing", "metric", None, "028°"),
    (359.7, "bearing", "metric", None, "000°"),
    (130.0, "angle", "metric", None, "130°"),
    (0.31, "share", "metric", None, "31 %"),
    (1027.34, "density", "metric", None, "1027 kg/m³"),
    (2354.0, "force", "metric", None, "2.4 kN"),
    (812.0, "force", "metric", None, "810 N"),
    (1176.798, "load", "metric", None, "120 kg"),
    (6.0, "rate", "metric", None, "6 m/min"),
    (6.0, "rate", "imperial", None, "20 ft/min"),
    (0.15, "stream", "metric", None, "0.29 kn"),
    (123456.0, "mass", "metric", None, "120,000 kg"),
    (200.0, "pressure", "imperial", None, "2900 psi"),
]


@pytest.mark.parametrize(("value", "kind", "units", "digits", "text"), ONE, ids=[row[4] for row in ONE])
def test_one_value(value: float, kind: str, units: str, digits: int | None, text: str) -> None:
    assert show(value, kind, units, digits).replace(THIN, " ") == text


BANDS = [
    ((34.1, 36.8, 40.2), "mass", "37 kg (34 to 40)"),
    ((0.0, 2.1, 4.3), "mass", "2.1 kg (0 to 4.3)"),
    ((0.0, 0.0, 30.0), "mass", "0 kg (0 to 30)"),
    ((95.0, 98.0, 131.0), "mass", "98 kg (95 to 131)"),
    ((9.0, 9.6, 10.4), "length", "9.6 m (9.0 to 10.4)"),
    ((5.0, 5.0, 5.0), "length", "5 m"),
    ((18.0, 24.0, 31.0), "minutes", "24 min (18 to 31)"),
    ((1080.0, 1440.0, 1860.0), "time", "24 min (18 to 31)"),
    ((20.0, 30.0, 200.0), "time", "30 s (20 to 200)"),
    ((900.0, 950.0, 1100.0), "force", "0.95 kN (0.90 to 1.10)"),
    ((350.0, 360.0, 370.0), "bearing", "000° (350° to 010°)"),
]


@pytest.mark.parametrize(("three", "kind", "text"), BANDS, ids=[row[2] for row in BANDS])
def test_bands(three: tuple[float, float, float], kind: str, text: str) -> None:
    band = dict(zip(("low", "likely", "high"), three, strict=True))
    assert show_band(band, kind).replace(THIN, " ") == text


def test_what_is_not_there_is_not_known() -> None:
    assert show(None, "mass") == show_si(None, "mass") == show_band(None, "mass") == NOT_KNOWN


def test_si_and_document_units_agree() -> None:
    assert show_si(2.0e7, "pressure") == show(200.0, "pressure")
    assert show_si(0.0261, "volume") == show(26.1, "volume")
    assert show_si(281.15, "temperature") == show(8.0, "temperature")
    assert show_si(0.1, "rate") == show(6.0, "rate")


def test_both_systems() -> None:
    assert [text.replace(THIN, " ") for text in both(16.0, "length", "imperial")] == ["52 ft", "16 m"]
    first, second = both(260.0, "time")
    assert first == second


def test_clock_is_the_time_at_the_place() -> None:
    assert clock("2027-04-14T19:40:00+01:00") == "19:40"
    assert clock("2027-04-04T09:05:00-05:00", with_date=True) == "09:05 on 4 Apr 2027"


def test_every_shown_unit_stands_in_the_table() -> None:
    for name, row in SHOWN.items():
        for unit in (row.base, row.metric, row.imperial):
            assert not unit or unit in words(row.dimension), (name, unit)


@given(st.floats(-1e6, 1e6), st.sampled_from(sorted(set(SHOWN) - {"time", "minutes", "bearing"})), st.integers(1, 5))
def test_never_an_exponent_and_never_far_off(value: float, kind: str, digits: int) -> None:
    text = show(value, kind, "metric", digits)
    assert "e" not in text.replace("kg/m", "").lower() or "°" in text
    unit, base = SHOWN[kind].metric, SHOWN[kind].base
    if kind != "force" and base == unit and abs(value) > 1e-3:
        number = float(text.replace(",", "").split(THIN)[0].rstrip("°"))
        assert number == pytest.approx(value, rel=0.5 * 10.0 ** (1 - digits) * 1.001)


def test_views_may_use_it_without_numpy() -> None:
    code = "import sys, parbuckle.quantity.shown; sys.exit('numpy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
