"""Files for other programs: in the shape that their formats ask for, and read back as they were written."""

from __future__ import annotations

import csv
import io
import json
import math
from itertools import pairwise
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import fromstring

import pytest
import xmlschema

from exchange_schemas import GPX_SCHEMA, KML_SCHEMA
from parbuckle.brief.exchange import WRITERS
from parbuckle.brief.exchange_geojson import anticlockwise, cut
from parbuckle.case.tracks import read_track
from parbuckle.desk.searching import export
from parbuckle.plan.search_places import places_of
from parbuckle.quantity.errors import CallError
from parbuckle.search.datum import Datum
from sample_search import HEAD, POINT, QUICK, answer

AREA = "area = [{ lat = 52.4818, lon = -3.7157 }, { lat = 52.4824, lon = -3.7157 }, { lat = 52.4822, lon = -3.7150 }]\n"
TEXT = HEAD + POINT + QUICK + AREA


@pytest.fixture(scope="module")
def document() -> dict[str, Any]:
    return answer(TEXT)


@pytest.fixture(scope="module")
def places(document: dict[str, Any]) -> dict[str, Any]:
    return places_of(document["search"])


def written(ending: str, document: dict[str, Any], places: dict[str, Any]) -> str:
    return WRITERS[ending](document, places)


def test_places_are_those_of_the_map(document: dict[str, Any], places: dict[str, Any]) -> None:
    legs = [line for line in places["lines"] if line["kind"] == "leg"]
    told = document["search"]["best"]["legs"]
    datum = Datum(52.48210, -3.71540)
    assert len(legs) == len(told)
    for leg, row in zip(legs, told, strict=True):
        east, north = datum.to_local(*leg["points"][0])
        assert (float(east), float(north)) == pytest.approx(row["from"], abs=0.012)
        east, north = datum.to_local(*leg["points"][-1])
        assert (float(east), float(north)) == pytest.approx(row["to"], abs=0.012)
    ring = next(leg for leg in legs if leg["words"] == "ring")
    assert len(ring["points"]) == 37
    assert {line["kind"] for line in places["lines"]} == {"leg", "contour", "area"}
    assert [mark["kind"] for mark in places["marks"]] == ["datum", "start", "next", "next"]


@pytest.mark.parametrize(("ending", "schema"), [(".gpx", GPX_SCHEMA), (".kml", KML_SCHEMA)])
def test_xml_has_the_order_that_its_schema_asks_for(
    ending: str, schema: str, document: dict[str, Any], places: dict[str, Any]
) -> None:
    text = written(ending, document, places)
    xmlschema.XMLSchema(schema).validate(text)
    assert "A lost anchor &amp; chain" in text


@pytest.mark.parametrize("ending", [".gpx", ".kml"])
def test_the_schemas_can_fail(ending: str, document: dict[str, Any], places: dict[str, Any]) -> None:
    text = written(ending, document, places)
    schema = xmlschema.XMLSchema(GPX_SCHEMA if ending == ".gpx" else KML_SCHEMA)
    wrong = text.replace('lat="52.48210000"', 'lat="152.5"', 1)
    wrong = wrong.replace("<Point>", "<Dot>").replace("</Point>", "</Dot>")
    assert wrong != text
    assert not schema.is_valid(wrong)


def test_signs_that_xml_cannot_hold_are_left_out(document: dict[str, Any], places: dict[str, Any]) -> None:
    odd = document | {"case": {"title": "a\x00b\x0b<c>]]>"}}
    for ending in (".gpx", ".kml"):
        assert "ab<c>]]>" in {e.text for e in fromstring(written(ending, odd, places)).iter()}


@pytest.mark.parametrize("ending", [".gpx", ".geojson"])
def test_the_legs_come_back(ending: str, document: dict[str, Any], places: dict[str, Any], tmp_path: Path) -> None:
    path = tmp_path / f"out{ending}"
    path.write_text(written(ending, document, places), encoding="utf-8")
    back = read_track(path, "track")
    legs = [point for line in places["lines"] if line["kind"] == "leg" for point in line["points"]]
    assert [c for fix in back[: len(legs)] for c in fix] == pytest.approx([c for fix in legs for c in fix], abs=1e-8)


def test_csv_comes_back_in_three_ways(document: dict[str, Any], places: dict[str, Any], tmp_path: Path) -> None:
    from parbuckle.search.positions import read_position

    path = tmp_path / "out.csv"
    path.write_text(written(".csv", document, places), encoding="utf-8", newline="")
    back = read_track(path, "track")
    assert back[1] == pytest.approx((places["marks"][1]["lat"], places["marks"][1]["lon"]), abs=1e-8)
    rows = list(csv.DictReader(io.StringIO(path.read_text(encoding="utf-8"))))
    start = rows[1]
    for text, metres in ((start["position"], 2.0), (start["utm"], 1.0)):
        lat, lon = read_position(text)
        east, north = Datum(lat, lon).to_local(*back[1])
        assert math.hypot(float(east), float(north)) < metres
    assert len(rows) == len(places["marks"]) + len(document["search"]["best"]["legs"])


def test_a_spreadsheet_meets_no_formula(document: dict[str, Any], places: dict[str, Any]) -> None:
    odd = places | {"marks": [places["marks"][0] | {"words": "=HYPERLINK(1)", "name": "-2"}]}
    row = next(csv.DictReader(io.StringIO(written(".csv", document, odd))))
    assert row["words"] == "'=HYPERLINK(1)"
    assert row["name"] == "-2"


def test_geojson_keeps_to_its_rules(document: dict[str, Any], places: dict[str, Any]) -> None:
    told = json.loads(written(".geojson", document, places))
    assert told["type"] == "FeatureCollection"
    assert "crs" not in told
    west, south, east, north = told["bbox"]
    assert -180.0 <= west < east <= 180.0
    assert -90.0 <= south < north <= 90.0
    assert len(told["features"]) == len(places["marks"]) + len(places["lines"])
    for feature in told["features"]:
        assert set(feature) == {"type", "geometry", "properties"}
        for lon, lat in positions(feature["geometry"]["coordinates"]):
            assert west <= lon <= east
            assert south <= lat <= north
    (polygon,) = [f["geometry"] for f in told["features"] if f["geometry"]["type"] == "Polygon"]
    (ring,) = polygon["coordinates"]
    assert ring[0] == ring[-1]
    assert len(ring) >= 4
    assert sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(ring)) > 0.0


def positions(rows: Any) -> list[Any]:
    return [rows] if isinstance(rows[0], float) else [p for row in rows for p in positions(row)]


def test_a_line_is_cut_at_180_degrees() -> None:
    east = [(179.9, 10.0), (-179.9, 10.2), (-179.8, 10.0), (179.8, 10.4)]
    pieces = cut(east)
    assert len(pieces) == 3
    assert all(max(p[0] for p in piece) - min(p[0] for p in piece) < 180.0 for piece in pieces)
    assert pieces[0][-1] == pytest.approx((180.0, 10.1))
    assert pieces[1][0] == pytest.approx((-180.0, 10.1))
    assert cut([(1.0, 2.0), (3.0, 4.0)]) == [[(1.0, 2.0), (3.0, 4.0)]]


def test_a_search_across_180_degrees_can_be_written(tmp_path: Path) -> None:
    there = answer(TEXT.replace(AREA, "").replace("-3.71540", "179.99999"))
    for ending in WRITERS:
        export(there, tmp_path / f"out{ending}")
    told = json.loads((tmp_path / "out.geojson").read_text(encoding="utf-8"))
    west, _, east, _ = told["bbox"]
    assert west > 0.0 > east
    xmlschema.XMLSchema(GPX_SCHEMA).validate((tmp_path / "out.gpx").read_text(encoding="utf-8"))


def test_rings_turn_anticlockwise() -> None:
    ring = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 0.0)]
    assert anticlockwise(ring) == anticlockwise(ring[::-1]) == ring


def test_another_ending_and_no_search_are_said_in_words(document: dict[str, Any], tmp_path: Path) -> None:
    with pytest.raises(CallError, match=r"\.gpx, \.kml, \.geojson, \.csv"):
        export(document, tmp_path / "out.kmz")
    with pytest.raises(CallError, match="no search"):
        export({"search": None}, tmp_path / "out.gpx")
