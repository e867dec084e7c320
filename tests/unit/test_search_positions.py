"""Positions: round trips of all styles, the local map, grids, and what is refused."""

import math
from datetime import date

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from parbuckle.quantity.errors import RangeError
from parbuckle.search.datum import Datum, direct, inverse
from parbuckle.search.declination import model_declination
from parbuckle.search.grid_reference import Utm, from_mgrs, from_utm, mgrs_of, utm_of
from parbuckle.search.positions import STYLES, read_position, written

LAT, LON = st.floats(-79.9, 83.9), st.floats(-179.999, 179.999)
METRES = {"degrees": 0.02, "degrees-minutes": 2.0, "degrees-minutes-seconds": 0.3, "utm": 1.0}


@pytest.mark.parametrize("style", STYLES)
@given(LAT, LON)
@settings(max_examples=60, deadline=None)
def test_a_position_comes_back(style: str, lat: float, lon: float) -> None:
    back = read_position(written(lat, lon, style))
    assert float(inverse(lat, lon, *back)[0]) <= METRES[style]


@given(LAT, LON)
@settings(max_examples=60, deadline=None)
def test_a_grid_reference_is_the_corner_of_its_square(lat: float, lon: float) -> None:
    corner, place = from_mgrs(mgrs_of(lat, lon)), utm_of(lat, lon)
    assert corner.zone == place.zone
    assert 0.0 <= place.east - corner.east <= 1.0
    assert 0.0 <= place.north - corner.north <= 1.0


@given(st.floats(-30_000, 30_000), st.floats(-30_000, 30_000), st.floats(-80, 80), st.floats(-180, 180))
@settings(max_examples=60, deadline=None)
def test_metres_from_the_datum_come_back(east: float, north: float, lat: float, lon: float) -> None:
    datum = Datum(lat, lon)
    back = datum.to_local(*datum.to_globe(east, north))
    assert (float(back[0]), float(back[1])) == pytest.approx((east, north), abs=1e-4)


def test_many_places_at_once() -> None:
    datum = Datum(50.0, -5.0)
    east, north = np.array([0.0, 100.0, -40.0]), np.array([0.0, 0.0, 30.0])
    lat, lon = datum.to_globe(east, north)
    assert datum.to_local(lat, lon)[0] == pytest.approx(east, abs=1e-6)
    assert float(lat[0]) == pytest.approx(50.0, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "lat", "lon"),
    [
        ("52.48210 -3.71540", 52.48210, -3.71540),
        ("52.48210, -3.71540", 52.48210, -3.71540),
        ("52 28.926 N 003 42.924 W", 52.4821, -3.7154),
        ("52° 28.926' N, 3° 42.924' W", 52.4821, -3.7154),
        ("51 45 55 N 0 0 0 E", 51.76527778, 0.0),
        ("51 45.917 S 10 30 E", -51.76528333, 10.5),
        ("48 N 377298.745 1483034.794", 13.4125, 103.8666667),
        ("31U DQ 48251 11932", 48.858194, 2.294489),
        ("31UDQ4825111932", 48.858194, 2.294489),
    ],
)
def test_what_people_write(text: str, lat: float, lon: float) -> None:
    assert read_position(text) == pytest.approx((lat, lon), abs=5e-6)


def test_minutes_with_a_fraction_are_no_seconds() -> None:
    """51 45 55 N is 51 45.917 N; reading the fraction as seconds would be 1.2 km off."""
    seconds, minutes = read_position("51 45 55 N 0 0 0 E")[0], read_position("51 45.917 N 0 0 E")[0]
    assert abs(seconds - minutes) * 111_000 < 1.0
    assert written(51 + 45 / 60 + 55 / 3600, 0.0) == "51 45.917 N 000 00.000 E"


def test_a_minute_is_never_written_as_sixty() -> None:
    assert written(9.99999999, -0.99999999).startswith("10 00.000 N 001 00.000 W")
    assert written(9.99999999, 0.0, "degrees-minutes-seconds").startswith("10 00 00.00 N")


@pytest.mark.parametrize(
    "text",
    ["", "somewhere", "91.0 0.0", "52 60.5 N 3 0 W", "52.5 30 N 3 0 W", "-52 30 N 3 0 W", "52 28 61 N 3 0 0 W",
     "61 N 400000 5000000", "31U IQ 48251 11932", "31U DQ 4825 11932", "31U DQ 482511193", "32C DQ 48251 11932"],
)  # fmt: skip
def test_what_is_no_position_is_refused(text: str) -> None:
    with pytest.raises(RangeError):
        read_position(text)


def test_zones_off_norway_and_svalbard_are_wider() -> None:
    assert utm_of(60.0, 4.0).zone == 32
    assert utm_of(55.9, 4.0).zone == 31
    assert [utm_of(75.0, lon).zone for lon in (5.0, 15.0, 25.0, 35.0)] == [31, 33, 35, 37]
    assert utm_of(0.0, 180.0).zone == 1
    assert from_utm(utm_of(-37.65, 143.93, "GRS80", 55), "GRS80") == pytest.approx((-37.65, 143.93), abs=1e-8)


def test_off_the_grid_and_far_from_the_datum_is_refused() -> None:
    with pytest.raises(RangeError, match="UTM"):
        utm_of(84.1, 0.0)
    with pytest.raises(RangeError, match="zone"):
        from_utm(Utm(61, False, 5e5, 5e6))
    with pytest.raises(RangeError, match="datum"):
        Datum(50.0, -5.0).to_local(51.0, -5.0)
    with pytest.raises(RangeError, match="latitude"):
        Datum(90.1, 0.0)
    with pytest.raises(RangeError, match="style"):
        written(1.0, 1.0, "words")


def test_there_and_back() -> None:
    lat, lon, onward = direct(57.1, -7.2, 1.0, 4000.0)
    distance, back, _ = inverse(lat, lon, 57.1, -7.2)
    assert float(distance) == pytest.approx(4000.0, abs=1e-6)
    assert float(back) == pytest.approx(float(onward) + math.pi, abs=1e-9)


def test_declination_follows_the_date_and_ends_with_its_model() -> None:
    early = model_declination(57.1, -7.2, date(2024, 12, 31))
    late = model_declination(57.1, -7.2, date(2025, 1, 1))
    assert math.degrees(abs(early - late)) < 0.3  # one model follows the other
    assert model_declination(57.1, -7.2, date(2029, 12, 31)) > late  # it goes east there
    for day in (date(2019, 12, 31), date(2030, 1, 2)):
        with pytest.raises(RangeError, match="year"):
            model_declination(57.1, -7.2, day)


@pytest.mark.parametrize(("lat", "lon", "degrees"), [(80.0, 0.0, -1.28), (0.0, 120.0, 0.16), (-80.0, -120.0, 69.36)])
def test_declination_is_that_of_the_model_report(lat: float, lon: float, degrees: float) -> None:
    """Test values of the World Magnetic Model 2020, start of 2020 at the surface (recalled)."""
    assert math.degrees(model_declination(lat, lon, date(2020, 1, 1))) == pytest.approx(degrees, abs=0.005)
