"""Files for other programs: which kinds there are, by the ending of the file's name."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from parbuckle.brief.exchange_csv import csv_text
from parbuckle.brief.exchange_geojson import geojson_text
from parbuckle.brief.exchange_xml import gpx_text, kml_text

WRITERS: dict[str, Callable[[Mapping[str, Any], Mapping[str, Any]], str]] = {
    ".gpx": gpx_text,
    ".kml": kml_text,
    ".geojson": geojson_text,
    ".csv": csv_text,
}
"""Writers: each takes the document and its places on the globe, and gives the text of the file."""
