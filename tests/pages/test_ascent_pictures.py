"""The pictures of the ascent keep their scales: a value stands where its axis says."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Any
from xml.etree import ElementTree

import pytest
from sample_ascent import ascents, in_feet, not_held, tended
from sample_document import Document

from parbuckle.brief.control_fan import control_fan
from parbuckle.brief.control_map import control_map
from parbuckle.brief.depth_axis import Field
from parbuckle.brief.drawing import Board
from parbuckle.brief.labels import Labels
from parbuckle.brief.vent_picture import vent_picture

SVG = "{http://www.w3.org/2000/svg}"
PICTURES = (control_fan, vent_picture, control_map)
WIDE, TALL = 530.0, 190.0
SIGN = 3.4  # least width of a sign, points


def _drawing(make: Any, document: Document, width: float = WIDE, height: float = TALL) -> Any:
    made = make(document, width, height)
    assert made is not None
    return made


def _lines(svg: str) -> list[list[tuple[float, float]]]:
    root = ElementTree.fromstring(svg)
    found = [line.get("points", "") for line in root.iter(f"{SVG}polyline")]
    return [[(float(x), float(y)) for x, y in (pair.split(",") for pair in row.split())] for row in found]


def _heaviest(svg: str) -> list[tuple[float, float]]:
    root = ElementTree.fromstring(svg)
    lines = [(float(line.get("stroke-width", "0")), line.get("points", "")) for line in root.iter(f"{SVG}polyline")]
    _, points = max(lines, key=lambda row: row[0])
    return [(float(x), float(y)) for x, y in (pair.split(",") for pair in points.split())]


def _words(svg: str) -> list[str]:
    return [text.text or "" for text in ElementTree.fromstring(svg).iter(f"{SVG}text")]


@pytest.mark.parametrize("make", PICTURES)
@pytest.mark.parametrize("name", ["tended", "not_held", "feet"])
@pytest.mark.parametrize(("width", "height"), [(530.0, 290.0), (530.0, 120.0), (255.0, 150.0)])
def test_every_picture_is_sound_black_and_inside(make: Any, name: str, width: float, height: float) -> None:
    drawing = _drawing(make, ascents()[name], width, height)
    root = ElementTree.fromstring(drawing["svg"])
    for text in root.iter(f"{SVG}text"):
        x, y, anchor = float(text.get("x", "nan")), float(text.get("y", "nan")), text.get("text-anchor", "")
        wide = len(text.text or "") * SIGN
        left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
        assert -1.0 <= y <= height + 1.0, text.text
        assert left >= -3.0, text.text
        assert left + wide <= width + 12.0, text.text
    colours = set(re.findall(r'(?:fill|stroke)="([^"]+)"', drawing["svg"]))
    assert colours <= {"#000", "#fff", "none"}
    assert "nan" not in drawing["svg"]
    assert drawing["alt"]
    assert drawing["caption"]


@pytest.mark.parametrize("make", PICTURES)
def test_without_its_part_there_is_no_picture(make: Any) -> None:
    assert make({}, WIDE, TALL) is None
    assert make({"ascent": {"under_control": {}}}, WIDE, TALL) is None


def test_the_likely_line_runs_from_the_bottom_to_the_surface_in_its_time() -> None:
    document = tended()
    line = _heaviest(_drawing(control_fan, document)["svg"])
    fan = document["ascent"]["under_control"]["fan"]
    assert line[0][0] == pytest.approx(46.0, abs=0.01)
    assert line[-1][1] == pytest.approx(26.0, abs=0.01)
    assert all(after[0] > before[0] and after[1] <= before[1] for before, after in pairwise(line))
    share = (line[-1][0] - line[0][0]) / (WIDE - 46.0 - 12.0)
    assert share == pytest.approx(160.0 / fan[-1]["t_s"], abs=0.03)


def test_the_fan_is_the_same_for_either_order_of_a_band() -> None:
    document = tended()
    first = control_fan(document, WIDE, TALL)
    for row in document["ascent"]["under_control"]["fan"]:
        row["low"], row["high"] = row["high"], row["low"]
    assert control_fan(document, WIDE, TALL) == first


def test_events_are_marked_on_the_likely_line_and_named_once() -> None:
    drawing = _drawing(control_fan, tended())
    line = _heaviest(drawing["svg"])
    marks = [
        (float(mark.get("cx", "0")), float(mark.get("cy", "0")))
        for mark in ElementTree.fromstring(drawing["svg"]).iter(f"{SVG}circle")
    ]
    assert len(marks) == 3
    for x, y in marks:
        near = [
            abs(x0 + (y - y0) / (y1 - y0) * (x1 - x0) - x)
            for (x0, y0), (x1, y1) in pairwise(line)
            if y1 <= y <= y0 and y0 != y1
        ]
        assert min(near) < 0.02
    words = _words(drawing["svg"])
    assert len([text for text in words if text.startswith("first vent")]) == 1
    assert "bag full" not in " ".join(words)


def test_depths_stand_in_metres_and_feet() -> None:
    metric, imperial = (_words(_drawing(control_fan, d)["svg"]) for d in (tended(), in_feet()))
    for words in (metric, imperial):
        assert "16\u202fm" in words
        assert "52\u202fft" in words
    assert metric.index("16\u202fm") < metric.index("52\u202fft")
    assert imperial.index("52\u202fft") < imperial.index("16\u202fm")


def test_a_dump_that_passes_too_little_is_hatched_and_said() -> None:
    enough, short = (_drawing(vent_picture, d, 255.0, 150.0) for d in (tended(), not_held()))
    assert "clipPath" not in enough["svg"]
    assert "enough everywhere" in enough["caption"]
    assert "clipPath" in short["svg"]
    assert "too little" in short["caption"]


def test_a_dump_that_is_not_known_is_not_drawn() -> None:
    document = tended()
    for row in document["ascent"]["vent_l_s"]:
        row["can"] = None
    drawing = _drawing(vent_picture, document)
    assert "stroke-dasharray" not in drawing["svg"]
    assert "not known" in drawing["caption"]


def test_nothing_to_vent_is_no_picture() -> None:
    document = tended()
    document["ascent"]["vent_l_s"] = [{"depth_m": 3.0, "needed": 0.0, "can": None}]
    assert vent_picture(document, WIDE, TALL) is None


def test_needed_stands_where_its_axis_says() -> None:
    document = tended()
    rows = sorted(document["ascent"]["vent_l_s"], key=lambda row: -row["depth_m"])
    line = _heaviest(_drawing(vent_picture, document)["svg"])
    first, last = (line[0][0] - 46.0, line[-1][0] - 46.0)
    assert first / last == pytest.approx(rows[0]["needed"] / rows[-1]["needed"], rel=2e-3)


def test_the_team_stands_at_its_share_and_reaction() -> None:
    document = tended()
    drawing = _drawing(control_map, document, 255.0, 150.0)
    mark = next(ElementTree.fromstring(drawing["svg"]).iter(f"{SVG}circle"))
    here = document["ascent"]["under_control"]["map"]["here"]
    x, y = float(mark.get("cx", "0")), float(mark.get("cy", "0"))
    assert (x - 34.0) / (255.0 - 34.0 - 14.0) == pytest.approx(here["delay_s"]["likely"] / 3.0, abs=1e-3)
    assert (150.0 - 30.0 - y) / (150.0 - 30.0 - 22.0) == pytest.approx(here["share"], abs=1e-3)


def test_the_borders_follow_the_map() -> None:
    document = tended()
    told = document["ascent"]["under_control"]["map"]
    told |= {"share": [0.5, 1.0], "delay_s": [0.0, 1.0, 2.0], "held": [[1.0, 1.0, 0.0], [1.0, 0.0, 0.0]]}
    svg = _drawing(control_map, document, 255.0, 150.0)["svg"]
    solid = next(line for line in _lines(svg) if len(line) == 3)
    across = [(x - 34.0) / (255.0 - 48.0) * 2.0 for x, _ in solid]
    assert across == pytest.approx([1.1, 1.1, 0.1], abs=1e-2)


def test_what_is_never_held_has_its_border_at_zero() -> None:
    document = tended()
    told = document["ascent"]["under_control"]["map"]
    told["held"] = [[0.0] * len(told["delay_s"]) for _ in told["share"]]
    words = _words(_drawing(control_map, document, 255.0, 150.0)["svg"])
    assert "cannot be held" in words
    assert "can be held" not in words


def test_labels_do_not_lie_over_each_other() -> None:
    board = Board(200.0, 100.0)
    labels = Labels(board)
    places = [((100.0, 50.0), "middle"), ((100.0, 70.0), "middle")]
    assert labels.put("first", places) == (100.0, 50.0)
    assert labels.put("second", places) == (100.0, 70.0)
    assert labels.put("third", places) is None
    assert labels.put("outside", [((199.0, 20.0), "start")]) is None


def test_a_field_turns_values_into_points() -> None:
    field = Field(10.0, 20.0, 110.0, 70.0, 4.0, 5.0)
    assert field.at(0.0, 0.0) == (10.0, 20.0)
    assert field.at(4.0, 5.0) == (110.0, 70.0)


def test_a_line_that_does_not_come_up_is_named_where_it_ends() -> None:
    document = tended()
    for row in document["ascent"]["under_control"]["fan"]:
        row["high"] = 16.0
    words = {
        text.text: float(text.get("y", "0"))
        for text in ElementTree.fromstring(_drawing(control_fan, document)["svg"]).iter(f"{SVG}text")
    }
    assert next(y for text, y in words.items() if text and text.startswith("likely")) < 26.0
    assert next(y for text, y in words.items() if text and text.startswith("1 in 20 later")) > 26.0
