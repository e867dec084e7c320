"""The search on the globe: datum, marks, legs and lines of the map with latitude and longitude, for files."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from parbuckle.search.datum import Datum
from parbuckle.search.grid_reference import UTM_LATITUDE
from parbuckle.search.positions import written

Row = dict[str, Any]

_DEGREES = 8
_STEP = 10.0  # degrees of an arc between two points of its line


def places_of(search: Mapping[str, Any]) -> Row:
    """Give what a file of another program holds of a search.

    Parameters
    ----------
    search : mapping
        The search section of a document.

    Returns
    -------
    dict
        ``marks``: name, kind, lat, lon, dm, utm, east_m, north_m, words; ``lines``: name, kind (``leg``, ``contour``
        or ``area``), words, points as pairs of latitude and longitude, and of a leg its headings and length.
    """
    datum = Datum(search["datum"]["lat"], search["datum"]["lon"])
    lines = [
        *(_leg(datum, leg) for leg in _legs(search)),
        *(_ring(datum, _share(row), n, ring) for row in search["contours"] for n, ring in _count(row)),
    ]
    if search["area"]:
        lines.append(_line(datum, "search area", "area", "where can be searched", _closed(search["area"])))
    return {"marks": _marks(datum, search), "lines": lines}


def _marks(datum: Datum, search: Mapping[str, Any]) -> list[Row]:
    rows = [_mark(datum, "datum", "datum", (0.0, 0.0), "origin of the map")]
    best = search["best"]
    if best:
        start = best["start"]
        rows.append(_mark(datum, "start", "start", (start["east_m"], start["north_m"]), best["words"]))
    for row in search["sequence"][1:]:
        place = (row["start"]["east_m"], row["start"]["north_m"])
        rows.append(_mark(datum, f"dive {row['dive']}", "next", place, f"if not found before: {row['pattern']}"))
    return rows


def _legs(search: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    return list(search["best"]["legs"]) if search["best"] else []


def _share(row: Mapping[str, Any]) -> str:
    return f"{100.0 * row['share']:.0f} %"


def _count(row: Mapping[str, Any]) -> list[tuple[int, Sequence[Sequence[float]]]]:
    return list(enumerate(row["rings"], start=1))


def _mark(datum: Datum, name: str, kind: str, place: tuple[float, float], words: str) -> Row:
    lat, lon = _globe(datum, [place])[0]
    on_grid = UTM_LATITUDE.low <= lat <= UTM_LATITUDE.high
    return {
        "name": name,
        "kind": kind,
        "lat": lat,
        "lon": lon,
        "dm": written(lat, lon),
        "utm": written(lat, lon, "utm") if on_grid else "",
        "east_m": place[0],
        "north_m": place[1],
        "words": words,
    }


def _leg(datum: Datum, leg: Mapping[str, Any]) -> Row:
    ring = leg["ring"]
    points = _arc(ring) if ring else [leg["from"], leg["to"]]
    heads = {key: leg[key] for key in ("heading_true_deg", "heading_mag_deg", "length_m")}
    return _line(datum, f"{leg['kind']} {leg['n']}", "leg", leg["kind"], points) | heads


def _arc(ring: Mapping[str, Any]) -> list[list[float]]:
    steps = max(1, math.ceil(abs(ring["to_deg"] - ring["from_deg"]) / _STEP))
    turns = [math.radians(ring["from_deg"] + k * (ring["to_deg"] - ring["from_deg"]) / steps) for k in range(steps + 1)]
    (east, north), radius = ring["centre"], ring["radius_m"]
    return [[east + radius * math.sin(a), north + radius * math.cos(a)] for a in turns]


def _ring(datum: Datum, share: str, n: int, ring: Sequence[Sequence[float]]) -> Row:
    return _line(datum, f"{share} line {n}", "contour", f"{share} of the map lies inside", _closed(ring))


def _closed(ring: Sequence[Sequence[float]]) -> list[Sequence[float]]:
    return [*ring, ring[0]]


def _line(datum: Datum, name: str, kind: str, words: str, points: Sequence[Sequence[float]]) -> Row:
    return {"name": name, "kind": kind, "words": words, "points": _globe(datum, points)}


def _globe(datum: Datum, points: Sequence[Sequence[float]]) -> list[tuple[float, float]]:
    lat, lon = datum.to_globe(np.array([p[0] for p in points]), np.array([p[1] for p in points]))
    return [(round(a, _DEGREES), round(b, _DEGREES)) for a, b in zip(lat.tolist(), lon.tolist(), strict=True)]
