"""The search as GPX 1.1 and as KML 2.3: marks as points, legs and lines of the map as tracks and lines."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any
from xml.etree.ElementTree import Element, SubElement, indent, tostring

GPX = "http://www.topografix.com/GPX/1/1"
"""Namespace of GPX 1.1."""

KML = "http://www.opengis.net/kml/2.2"
"""Namespace of KML 2.2 and 2.3."""

_HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
_NOT_XML = re.compile("[^\t\n\r -\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_HALF = 180.0
_STYLES = {"leg": ("ff000000", "2"), "contour": ("ff7f7f7f", "1"), "area": ("ff404040", "3")}


def gpx_text(document: Mapping[str, Any], places: Mapping[str, Any]) -> str:
    """Write the search as GPX 1.1: way points, then one track for the pattern and one for each line of the map.

    Parameters
    ----------
    document : mapping
        The search document.
    places : mapping
        Its marks and lines on the globe.

    Returns
    -------
    str
        The text of the file.
    """
    root = Element("gpx", {"xmlns": GPX, "version": "1.1", "creator": _program(document)})
    _text(SubElement(root, "metadata"), "name", _title(document))
    for mark in places["marks"]:
        point = SubElement(root, "wpt", _at(mark["lat"], mark["lon"]))
        _text(point, "name", mark["name"])
        _text(point, "cmt", f"{mark['dm']} {mark['utm']}".strip())
        _text(point, "desc", mark["words"])
        _text(point, "type", mark["kind"])
    legs = [line for line in places["lines"] if line["kind"] == "leg"]
    if legs:
        _track(root, "pattern", "leg", legs)
    for line in places["lines"]:
        if line["kind"] != "leg":
            _track(root, line["name"], line["kind"], [line])
    return _written(root)


def kml_text(document: Mapping[str, Any], places: Mapping[str, Any]) -> str:
    """Write the search as KML 2.3: one folder of marks, one of legs, one of lines.

    Parameters
    ----------
    document : mapping
        The search document.
    places : mapping
        Its marks and lines on the globe.

    Returns
    -------
    str
        The text of the file.
    """
    root = Element("kml", {"xmlns": KML})
    whole = SubElement(root, "Document")
    _text(whole, "name", _title(document))
    for kind, (colour, width) in _STYLES.items():
        style = SubElement(SubElement(whole, "Style", {"id": kind}), "LineStyle")
        _text(style, "color", colour)
        _text(style, "width", width)
    marks = SubElement(whole, "Folder")
    _text(marks, "name", "marks")
    for mark in places["marks"]:
        place = _placemark(marks, mark["name"], f"{mark['words']} {mark['dm']} {mark['utm']}".strip(), None)
        _text(SubElement(place, "Point"), "coordinates", _coordinate(mark["lat"], mark["lon"]))
    for kind, name in (("leg", "pattern"), ("contour", "map"), ("area", "area")):
        _folder(whole, name, [line for line in places["lines"] if line["kind"] == kind])
    return _written(root)


def _folder(whole: Element, name: str, lines: list[Mapping[str, Any]]) -> None:
    if not lines:
        return
    folder = SubElement(whole, "Folder")
    _text(folder, "name", name)
    for line in lines:
        place = SubElement(_placemark(folder, line["name"], line["words"], line["kind"]), "LineString")
        _text(place, "tessellate", "1")
        _text(place, "coordinates", " ".join(_coordinate(lat, lon) for lat, lon in line["points"]))


def _placemark(parent: Element, name: str, words: str, style: str | None) -> Element:
    place = SubElement(parent, "Placemark")
    _text(place, "name", name)
    _text(place, "description", words)
    if style is not None:
        _text(place, "styleUrl", f"#{style}")
    return place


def _track(root: Element, name: str, kind: str, lines: Iterable[Mapping[str, Any]]) -> None:
    track = SubElement(root, "trk")
    _text(track, "name", name)
    _text(track, "type", kind)
    for line in lines:
        part = SubElement(track, "trkseg")
        for lat, lon in line["points"]:
            SubElement(part, "trkpt", _at(lat, lon))


def _at(lat: float, lon: float) -> dict[str, str]:
    """A longitude of 180 is written as -180: GPX allows up to, not including, 180."""
    east = f"{lon:.8f}"
    return {"lat": f"{lat:.8f}", "lon": f"-{east}" if float(east) >= _HALF else east}


def _coordinate(lat: float, lon: float) -> str:
    return f"{lon:.8f},{lat:.8f}"


def _text(parent: Element, tag: str, text: str) -> None:
    SubElement(parent, tag).text = _NOT_XML.sub("", text)


def _title(document: Mapping[str, Any]) -> str:
    return str(document["case"]["title"])


def _program(document: Mapping[str, Any]) -> str:
    return f"{document['program']['name']} {document['program']['version']}"


def _written(root: Element) -> str:
    indent(root, " ")
    return _HEAD + tostring(root, encoding="unicode") + "\n"
