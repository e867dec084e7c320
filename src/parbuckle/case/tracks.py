"""Tracks and fixes out of files of other programs: GPX, GeoJSON, CSV. Anything hostile or odd is refused in words."""

from __future__ import annotations

import csv
import io
import json
import math
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any

from parbuckle.quantity.errors import CaseError

LARGEST = 5_000_000
"""Largest file that is read, bytes."""

MOST = 200_000
"""Most points that are read."""

Fix = tuple[float, float]
"""Latitude and longitude, degrees, WGS 84."""

_POINTS = ("trkpt", "rtept", "wpt")  # a track before a route before single fixes


def read_track(path: Path, key: str, position: Callable[[str], Fix] | None = None) -> tuple[Fix, ...]:
    """Read the places of a file in order.

    Parameters
    ----------
    path : Path
        Ends in ``.gpx``, ``.geojson``, ``.json`` or ``.csv``.
    key : str
        Key of the case that names it, for errors.
    position : callable, optional
        Reads a position in words, such as ``52 28.926 N 003 42.924 W``; a CSV file may hold such a column.

    Returns
    -------
    tuple of (float, float)
        Latitude and longitude, degrees; at least one.

    Raises
    ------
    CaseError
        If the file is missing, too large, of another kind, hostile or damaged, or holds no place.
    """
    readers: dict[str, Callable[[str], Iterable[Fix]]] = {
        ".gpx": _gpx,
        ".geojson": _geojson,
        ".json": _geojson,
        ".csv": lambda text: _csv(text, position),
    }
    reader = readers.get(path.suffix.casefold())
    if reader is None:
        raise CaseError("a track of this kind cannot be read", key=key, given=path.name, allowed=", ".join(readers))
    try:
        places = tuple(reader(_text(path)))
        if not places:
            raise ValueError("it holds no place")
        if len(places) > MOST:
            raise ValueError(f"it holds {len(places)} places; at most {MOST} are read")
        for place in places:
            _check(place)
    except ValueError as error:
        do = "export it again, or cut it shorter"
        raise CaseError(f"this track cannot be used: {error}", key=key, given=path.name, do=do) from None
    return places


def _text(path: Path) -> str:
    try:
        if path.stat().st_size > LARGEST:
            raise ValueError(f"it is larger than {LARGEST // 1_000_000} MB")
        return path.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise ValueError(str(error.strerror or "it cannot be read")) from None
    except UnicodeDecodeError:
        raise ValueError("it is no text in UTF-8") from None


def _gpx(text: str) -> list[Fix]:
    """Points of all tracks; without one those of the routes; without one the single fixes."""
    from xml.etree.ElementTree import ParseError

    from defusedxml.common import DefusedXmlException
    from defusedxml.ElementTree import fromstring

    try:
        root = fromstring(text, forbid_dtd=True, forbid_entities=True, forbid_external=True)
    except DefusedXmlException:
        raise ValueError("it declares entities or a document type, which no track needs: refused") from None
    except (ParseError, RecursionError):
        raise ValueError("it is no well-formed XML") from None
    if _name(root.tag) != "gpx":
        raise ValueError("it is no GPX file")
    found: dict[str, list[Fix]] = {kind: [] for kind in _POINTS}
    for element in root.iter():
        if (kind := _name(element.tag)) in found:
            found[kind].append((_number(element.get("lat")), _number(element.get("lon"))))
    return next((rows for rows in found.values() if rows), [])


def _name(tag: object) -> str:
    return str(tag).rsplit("}", 1)[-1]


def _geojson(text: str) -> list[Fix]:
    """Coordinates of all points and lines, in order."""
    try:
        document = json.loads(text)
    except (json.JSONDecodeError, RecursionError):
        raise ValueError("it is no JSON") from None
    lines: list[Fix] = []
    points: list[Fix] = []
    for geometry in _geometries(document):
        kind, rows = geometry.get("type"), geometry.get("coordinates")
        if kind == "Point":
            points += _positions([rows])
        elif kind == "LineString":
            lines += _positions(rows)
        elif kind == "MultiLineString" and isinstance(rows, list):
            lines += [fix for row in rows for fix in _positions(row)]
    return lines or points


def _geometries(node: Any) -> list[dict[str, Any]]:
    if not isinstance(node, dict):
        raise ValueError("it is no GeoJSON")
    if node.get("type") == "FeatureCollection" and isinstance(node.get("features"), list):
        return [g for feature in node["features"] for g in _geometries(feature)]
    if node.get("type") == "Feature":
        return [] if node.get("geometry") is None else _geometries(node["geometry"])
    if node.get("type") == "GeometryCollection" and isinstance(node.get("geometries"), list):
        return [g for each in node["geometries"] for g in _geometries(each)]
    if isinstance(node.get("type"), str) and "coordinates" in node:
        return [node]
    raise ValueError("it is no GeoJSON")


def _positions(rows: Any) -> list[Fix]:
    if not isinstance(rows, list) or not all(isinstance(row, list) and len(row) > 1 for row in rows):
        raise ValueError("its coordinates are not pairs of longitude and latitude")
    return [(_number(row[1]), _number(row[0])) for row in rows]


def _csv(text: str, position: Callable[[str], Fix] | None) -> list[Fix]:
    """Columns ``lat`` and ``lon`` in degrees, or one column ``position`` in words."""
    rows = list(csv.reader(io.StringIO(text)))
    head = [cell.strip().casefold() for cell in rows[0]] if rows else []
    body = [row for row in rows[1:] if any(cell.strip() for cell in row)]
    if "lat" in head and "lon" in head:
        lat, lon = head.index("lat"), head.index("lon")
        return [(_number(_cell(row, lat)), _number(_cell(row, lon))) for row in body]
    if "position" in head and position is not None:
        return [position(_cell(row, head.index("position"))) for row in body]
    raise ValueError("its first line must name the columns 'lat' and 'lon', or 'position'")


def _cell(row: Sequence[str], place: int) -> str:
    if place >= len(row):
        raise ValueError("a line has too few columns")
    return row[place].strip()


def _number(raw: object) -> float:
    if isinstance(raw, bool) or not isinstance(raw, (str, int, float)):
        raise ValueError("a place has no latitude or longitude")
    try:
        return float(raw)
    except (ValueError, OverflowError):
        raise ValueError(f"{str(raw)[:40]!r} is no latitude or longitude") from None


def _check(place: Fix) -> None:
    lat, lon = place
    if not (math.isfinite(lat) and math.isfinite(lon) and abs(lat) <= 90.0 and abs(lon) <= 180.0):
        raise ValueError(f"{lat:g}, {lon:g} is no place on the earth")
