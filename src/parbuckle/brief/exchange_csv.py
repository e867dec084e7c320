"""Marks and legs as a table: CSV with coordinates in degrees, degrees and minutes, UTM, and metres round the datum."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping
from typing import Any

HEAD = (
    "kind",
    "name",
    "lat",
    "lon",
    "position",
    "utm",
    "east_m",
    "north_m",
    "to_lat",
    "to_lon",
    "heading_true_deg",
    "heading_mag_deg",
    "length_m",
    "words",
)
"""Columns."""

_GUARDED = ("=", "+", "-", "@", "\t", "\r")  # a spreadsheet would take such a text for a formula


def csv_text(document: Mapping[str, Any], places: Mapping[str, Any]) -> str:
    """Write marks and legs as CSV.

    Parameters
    ----------
    document : mapping
        The search document.
    places : mapping
        Its marks and lines on the globe.

    Returns
    -------
    str
        One line for each mark and leg, lines ended by CR LF (RFC 4180).
    """
    out = io.StringIO()
    table = csv.DictWriter(out, HEAD, restval="", lineterminator="\r\n")
    table.writeheader()
    for row in (*_marks(places), *_legs(places)):
        table.writerow({key: _safe(value) for key, value in row.items()})
    return out.getvalue()


def _marks(places: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    for mark in places["marks"]:
        row = {key: mark[key] for key in ("kind", "name", "lat", "lon", "utm", "words")}
        yield row | {"position": mark["dm"], "east_m": f"{mark['east_m']:.2f}", "north_m": f"{mark['north_m']:.2f}"}


def _legs(places: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    for line in places["lines"]:
        if line["kind"] != "leg":
            continue
        (lat, lon), (to_lat, to_lon) = line["points"][0], line["points"][-1]
        magnetic = line["heading_mag_deg"]
        yield {
            "kind": line["words"],
            "name": line["name"],
            "lat": lat,
            "lon": lon,
            "to_lat": to_lat,
            "to_lon": to_lon,
            "heading_true_deg": f"{line['heading_true_deg']:.1f}",
            "heading_mag_deg": "" if magnetic is None else f"{magnetic:.1f}",
            "length_m": f"{line['length_m']:.2f}",
        }


def _safe(value: Any) -> Any:
    """Keep texts from being taken for formulas."""
    return f"'{value}" if isinstance(value, str) and value.startswith(_GUARDED) and not _is_number(value) else value


def _is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True
