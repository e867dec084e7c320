"""Tracks out of files of other programs: what is read, and what is refused in words."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from parbuckle.case import tracks
from parbuckle.case.tracks import read_track
from parbuckle.quantity.errors import CaseError
from parbuckle.search.positions import read_position

GPX = '<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="x">{}</gpx>'
TRACK = '<trk><trkseg><trkpt lat="52.1" lon="-3.1"/><trkpt lat="52.2" lon="-3.2"/></trkseg></trk>'
FIXES = [(52.1, -3.1), (52.2, -3.2)]


def read(folder: Path, name: str, text: str) -> list[tuple[float, float]]:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return list(read_track(path, "search.pass[1].track", read_position))


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("a.gpx", GPX.format('<wpt lat="1" lon="1"/>' + TRACK)),
        ("a.gpx", "\ufeff" + GPX.format(TRACK)),
        ("a.gpx", GPX.format(TRACK).replace("trkpt", "rtept").replace("trkseg", "rte")),
        ("a.gpx", GPX.format('<wpt lat="52.1" lon="-3.1"/><wpt lat="52.2" lon="-3.2"/>')),
        ("a.GPX", GPX.format(TRACK)),
        ("a.geojson", json.dumps({"type": "LineString", "coordinates": [[-3.1, 52.1, 4.0], [-3.2, 52.2]]})),
        (
            "a.json",
            json.dumps(
                {
                    "type": "FeatureCollection",
                    "features": [
                        {"type": "Feature", "properties": None, "geometry": {"type": "Point", "coordinates": [x, y]}}
                        for y, x in FIXES
                    ],
                }
            ),
        ),
        ("a.csv", "name,lat,lon\nx,52.1,-3.1\n\ny,52.2,-3.2\n"),
        ("a.csv", "position\n52 06.000 N 003 06.000 W\n52 12.000 N 003 12.000 W\n"),
    ],
)
def test_places_are_read_in_order(tmp_path: Path, name: str, text: str) -> None:
    assert [(round(a, 7), round(b, 7)) for a, b in read(tmp_path, name, text)] == FIXES


def test_utm_is_read(tmp_path: Path) -> None:
    ((lat, lon),) = read(tmp_path, "a.csv", "position\n30 N 451417 5814902\n")
    assert (lat, lon) == pytest.approx((52.4821, -3.7154), abs=1e-5)


HOSTILE = {
    "a bomb of entities": '<!DOCTYPE gpx [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;">]><gpx>&b;</gpx>',
    "an external entity": '<!DOCTYPE gpx [<!ENTITY x SYSTEM "file:///etc/hostname">]><gpx><name>&x;</name></gpx>',
    "a parameter entity": '<!DOCTYPE gpx [<!ENTITY % p SYSTEM "http://localhost/x.dtd"> %p;]><gpx/>',
    "an external document type": '<!DOCTYPE gpx SYSTEM "http://localhost/gpx.dtd"><gpx/>',
    "an internal document type": "<!DOCTYPE gpx [<!ELEMENT gpx ANY>]><gpx/>",
    "an entity in an attribute": '<!DOCTYPE g [<!ENTITY a "52">]><gpx><wpt lat="&a;" lon="1"/></gpx>',
}


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_xml_is_refused_in_words(tmp_path: Path, name: str) -> None:
    with pytest.raises(CaseError, match="entities or a document type"):
        read(tmp_path, "a.gpx", HOSTILE[name])


BROKEN = {
    "not closed": ("a.gpx", "<gpx><trk>", "well-formed"),
    "empty": ("a.gpx", "", "well-formed"),
    "deep": ("a.gpx", "<a>" * 50_000, "well-formed"),
    "unknown entity": ("a.gpx", GPX.format("<name>&nobody;</name>"), "well-formed"),
    "other root": ("a.gpx", "<kml/>", "no GPX"),
    "no place": ("a.gpx", GPX.format(""), "no place"),
    "no latitude": ("a.gpx", GPX.format('<wpt lon="1"/>'), "no latitude"),
    "words": ("a.gpx", GPX.format('<wpt lat="north" lon="1"/>'), "'north'"),
    "not finite": ("a.gpx", GPX.format('<wpt lat="nan" lon="1"/>'), "no place on the earth"),
    "too far north": ("a.gpx", GPX.format('<wpt lat="90.1" lon="1"/>'), "no place on the earth"),
    "too far east": ("a.csv", "lat,lon\n1,180.1\n", "no place on the earth"),
    "no columns": ("a.csv", "x,y\n1,2\n", "columns"),
    "short line": ("a.csv", "lat,lon\n1\n", "too few columns"),
    "empty table": ("a.csv", "", "columns"),
    "no json": ("a.json", "{", "no JSON"),
    "deep json": ("a.json", "[" * 100_000, "no JSON"),
    "a list": ("a.json", "[1, 2]", "no GeoJSON"),
    "a flat line": ("a.json", '{"type": "LineString", "coordinates": [1, 2]}', "pairs"),
    "a truth": ("a.json", '{"type": "Point", "coordinates": [true, 1]}', "no latitude"),
    "a huge number": ("a.json", '{"type": "Point", "coordinates": [1e999, 1]}', "no place on the earth"),
    "another kind": ("a.kmz", "", "cannot be read"),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_track_is_said_in_words(tmp_path: Path, name: str) -> None:
    file, text, words = BROKEN[name]
    with pytest.raises(CaseError, match=words) as caught:
        read(tmp_path, file, text)
    assert caught.value.key == "search.pass[1].track"
    assert caught.value.given == file


def test_a_missing_file_is_said_in_words(tmp_path: Path) -> None:
    with pytest.raises(CaseError, match="No such file"):
        read_track(tmp_path / "none.gpx", "search.pass[1].track")


def test_a_file_that_is_no_text_is_said_in_words(tmp_path: Path) -> None:
    (tmp_path / "a.gpx").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(CaseError, match="UTF-8"):
        read_track(tmp_path / "a.gpx", "search.pass[1].track")


def test_a_large_file_is_not_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tracks, "LARGEST", 1_000_000)
    with pytest.raises(CaseError, match="larger than 1 MB"):
        read(tmp_path, "a.gpx", " " * 1_000_001)


def test_too_many_places_are_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tracks, "MOST", 1)
    with pytest.raises(CaseError, match="holds 2 places"):
        read(tmp_path, "a.gpx", GPX.format(TRACK))
