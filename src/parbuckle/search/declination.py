"""Magnetic declination: typed from the chart, or from the World Magnetic Model."""

from __future__ import annotations

import math
from datetime import date
from functools import lru_cache
from typing import Any

from parbuckle.physics.ranges import Range
from parbuckle.search.datum import LATITUDE, LONGITUDE

YEARS = Range("year of a declination", 2020.0, 2030.0, "", "World Magnetic Model 2020 and 2025, five years each")
"""For which dates the model that is installed holds."""

_TURN = 2025.0


def model_declination(lat: float, lon: float, day: date) -> float:
    """Give the magnetic declination by the World Magnetic Model, at the surface of the sea.

    Parameters
    ----------
    lat : float
        Latitude, deg, WGS 84.
    lon : float
        Longitude, deg.
    day : date
        Date of the dive.

    Returns
    -------
    float
        rad, east positive: true = magnetic + declination.

    Raises
    ------
    RangeError
        For a date outside 2020 to the end of 2029, or a place that is none.

    Notes
    -----
    Source: World Magnetic Model (NOAA and British Geological Survey), through pygeomag. The model does not
    know local iron.

    Examples
    --------
    >>> -15.0 < math.degrees(model_declination(57.1, -7.2, date(2027, 5, 9))) < 15.0
    True
    """
    start = date(day.year, 1, 1)
    year = day.year + (day - start).days / ((date(day.year + 1, 1, 1) - start).days)
    YEARS.check(year)
    LATITUDE.check(lat)
    LONGITUDE.check(lon)
    return math.radians(float(_model(int(year < _TURN)).calculate(glat=lat, glon=lon, alt=0.0, time=year).d))


@lru_cache(maxsize=2)
def _model(older: int) -> Any:
    from pygeomag import GeoMag

    return GeoMag(coefficients_file="wmm/WMM_2020.COF" if older else "wmm/WMM_2025.COF")
