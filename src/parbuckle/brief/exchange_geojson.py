"""The search as GeoJSON after RFC 7946: marks, legs, lines of the map, the area; lines are cut at 180 degrees."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Any

Place = tuple[float, float]
"""Longitude and latitude, degrees."""

_HALF, _WHOLE = 180.0, 360.0


def geojson_text(document: Mapping[str, Any], places: Mapping[str, Any]) -> str:
    """Write the search as one feature collection.

    Parameters
    ----------
    document : mapping
        The search document.
    places : mapping
        Its marks and lines on the globe.

    Returns
    -------
    str
        JSON; positions are longitude and latitude, WGS 84; rings of an area run anticlockwise.
    """
    marks = [_feature(m["name"], m["kind"], m["words"], _point(m)) for m in places["marks"]]
    lines = [_feature(line["name"], line["kind"], line["words"], _geometry(line)) for line in places["lines"]]
    whole = {
        "type": "FeatureCollection",
        "bbox": _box(places),
        "features": marks + lines,
    }
    return json.dumps(whole, ensure_ascii=False, allow_nan=False, indent=1) + "\n"


def cut(points: Sequence[Place]) -> list[list[Place]]:
    """Cut a line where it crosses the 180th meridian, as RFC 7946 section 3.1.9 asks.

    Parameters
    ----------
    points : sequence of (float, float)
        Longitude and latitude, degrees.

    Returns
    -------
    list of list of (float, float)
        Pieces, none of which crosses it.

    Examples
    --------
    >>> cut([(179.0, 0.0), (-179.0, 2.0)])
    [[(179.0, 0.0), (180.0, 1.0)], [(-180.0, 1.0), (-179.0, 2.0)]]
    """
    pieces: list[list[Place]] = [[points[0]]]
    for (lon, lat), (to_lon, to_lat) in pairwise(points):
        if abs(to_lon - lon) > _HALF:
            side = _HALF if lon > 0.0 else -_HALF
            part = (side - lon) / (to_lon + 2.0 * side - lon)
            across = lat + part * (to_lat - lat)
            pieces[-1].append((side, across))
            pieces.append([(-side, across)])
        pieces[-1].append((to_lon, to_lat))
    return pieces


def anticlockwise(ring: Sequence[Place]) -> list[Place]:
    """Turn a closed ring so that its inside lies on the left.

    Parameters
    ----------
    ring : sequence of (float, float)
        Longitude and latitude; the last one is the first again.

    Returns
    -------
    list of (float, float)
        The same ring.

    Examples
    --------
    >>> anticlockwise([(0.0, 0.0), (0.0, 1.0), (1.0, 1.0), (0.0, 0.0)])[1]
    (1.0, 1.0)
    """
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(ring))
    return list(ring) if twice > 0.0 else list(ring)[::-1]


def _point(mark: Mapping[str, Any]) -> dict[str, Any]:
    return {"type": "Point", "coordinates": [mark["lon"], mark["lat"]]}


def _geometry(line: Mapping[str, Any]) -> dict[str, Any]:
    pieces = cut([(lon, lat) for lat, lon in line["points"]])
    if len(pieces) > 1:
        return {"type": "MultiLineString", "coordinates": pieces}
    if line["kind"] == "area":
        return {"type": "Polygon", "coordinates": [anticlockwise(pieces[0])]}
    return {"type": "LineString", "coordinates": pieces[0]}


def _feature(name: str, kind: str, words: str, geometry: dict[str, Any]) -> dict[str, Any]:
    return {
        "type": "Feature",
        "geometry": geometry,
        "properties": {"name": name, "kind": kind, "words": words},
    }


def _box(places: Mapping[str, Any]) -> list[float]:
    """West, south, east, north; west is more than east where the box crosses the 180th meridian (section 5.2)."""
    lats = [m["lat"] for m in places["marks"]] + [p[0] for line in places["lines"] for p in line["points"]]
    lons = [m["lon"] for m in places["marks"]] + [p[1] for line in places["lines"] for p in line["points"]]
    if max(lons) - min(lons) > _HALF:
        turned = [lon % _WHOLE for lon in lons]
        return [min(turned), min(lats), max(turned) - _WHOLE, max(lats)]
    return [min(lons), min(lats), max(lons), max(lats)]
