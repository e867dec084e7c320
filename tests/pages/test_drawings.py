"""The drawings keep their scale: lengths on the sheet are lengths in the water."""

from __future__ import annotations

import math
import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from sample_document import variants

from parbuckle.brief.ascent_picture import ascent_picture
from parbuckle.brief.drawing import Board
from parbuckle.brief.figures import Figures
from parbuckle.brief.range_line import kilo_scale
from parbuckle.brief.scale import nice_step, scale_bar
from parbuckle.brief.shapes import balloon, cut_below
from parbuckle.brief.sketch import sketches

SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("name", ["whole", "stops", "long", "imperial"])
@pytest.mark.parametrize("height", [94.0, 160.0, 230.0])
def test_every_drawing_is_sound_and_keeps_its_words_inside(name: str, height: float) -> None:
    for drawing in sketches(variants()[name], 530.0, height):
        root = ElementTree.fromstring(drawing["svg"])
        for text in root.iter(f"{SVG}text"):
            assert -1.0 <= float(text.get("y", "nan")) <= drawing["height"] + 1.0
            assert 0.0 <= float(text.get("x", "nan")) <= drawing["width"]
        assert drawing["alt"]
        assert "nan" not in drawing["svg"]
        assert "inf" not in re.sub(r">[^<]*<", "", drawing["svg"])


def test_circles_from_above_have_the_ratio_of_their_radii() -> None:
    document = variants()["whole"]
    root = ElementTree.fromstring(sketches(document, 530.0, 160.0)[2]["svg"])
    radii = sorted({float(circle.get("r", "0")) for circle in root.iter(f"{SVG}circle")})
    circles = document["circles"]
    assert radii[-2] / radii[-1] == pytest.approx(circles["bottom_m"] / circles["surface_m"], rel=2e-3)


def test_a_bag_is_drawn_at_its_real_size() -> None:
    outline = balloon((10.0, 50.0), 6.0, 15.0)
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    assert max(xs) - min(xs) == pytest.approx(6.0)
    assert max(ys) - min(ys) == pytest.approx(15.0)


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
def test_cutting_an_outline_leaves_only_what_is_below(share: float) -> None:
    outline = balloon((0.0, 10.0), 4.0, 10.0)
    level = 10.0 * share
    kept = cut_below(outline, level)
    assert kept
    assert all(y >= level - 1e-9 for _, y in kept)
    assert cut_below(outline, 11.0) == []


@pytest.mark.parametrize("length", [0.13, 0.9, 1.0, 3.3, 7.0, 42.0, 999.0])
def test_a_nice_step_fits_and_is_not_far_too_short(length: float) -> None:
    step = nice_step(length)
    assert step <= length < 2.5001 * step
    assert f"{step:e}"[0] in "125"


def test_the_scale_bar_is_as_long_as_it_says() -> None:
    board = Board(200.0, 50.0)
    scale_bar(board, (10.0, 40.0), 7.0, 80.0, Figures())
    points = re.findall(r'points="([\d.]+),[\d.]+ ([\d.]+),', board.svg())[0]
    assert float(points[1]) - float(points[0]) == pytest.approx(10.0 * 7.0)
    assert "10" in board.svg()


def test_all_weights_share_one_scale_from_zero() -> None:
    wet, required = {"low": 34.0, "likely": 37.0, "high": 40.0}, {"low": 35.0, "likely": 38.0, "high": 41.0}
    made = kilo_scale(wet, required, 40.0, Figures())
    unit = made["ceiling"] / 40.0
    for row, band in zip(made["rows"], (wet, required), strict=True):
        for key, value in band.items():
            assert row[key] == pytest.approx(value * unit)


def test_the_ascent_picture_is_the_same_for_either_order_of_a_band() -> None:
    document = variants()["whole"]
    first = ascent_picture(document, 250.0, 150.0)
    for row in document["ascent"]["fan"]:
        row["low"], row["high"] = row["high"], row["low"]
    assert ascent_picture(document, 250.0, 150.0) == first


def test_hatches_are_parallel_and_evenly_spaced() -> None:
    board = Board(100.0, 100.0)
    board.hatch([(0.0, 0.0), (50.0, 0.0), (50.0, 50.0), (0.0, 50.0)], (45.0,), gap=4.0)
    strokes = [tuple(map(float, found)) for found in re.findall(r"M(\S+) (\S+?)L(\S+) (\S+?)(?=M|\")", board.svg())]
    slopes = {round(math.degrees(math.atan2(y1 - y0, x1 - x0)), 1) for x0, y0, x1, y1 in strokes}
    assert slopes == {-45.0}
    gaps = [abs((b[0] - a[0]) + (b[1] - a[1])) / math.sqrt(2.0) for a, b in pairwise(strokes)]
    assert all(gap == pytest.approx(4.0, abs=0.02) for gap in gaps)


def test_words_are_written_as_they_are() -> None:
    board = Board(10.0, 10.0)
    board.words((0.0, 0.0), "<b>&'\"#")
    text = ElementTree.fromstring(board.svg()).find(f"{SVG}text")
    assert text is not None
    assert text.text == "<b>&'\"#"
