"""The sketch of a search: lanes or rings to scale in the order in which they are swum, start, end and datum."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from parbuckle.brief.drawing import FIRM, HAIR, THIN, TYPE, Board, Point
from parbuckle.brief.figures import Figures
from parbuckle.brief.labels import Labels
from parbuckle.brief.search_ground import Ground, ring
from parbuckle.brief.search_legs import lane_number

_AWAY = 1.6  # how many times larger the ground may get so that the datum is on it
_ON_LANE = (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92)  # where the number of a lane may stand
_LEAST_PITCH = 5.0  # distance between lanes where none is told (sectors), m


def search_sketch(
    pattern: Mapping[str, Any],
    search: Mapping[str, Any],
    width: float,
    height: float,
    figures: Figures,
    size: float = TYPE,
) -> dict[str, Any] | None:
    """Draw one pattern to scale, north up.

    Parameters
    ----------
    pattern : mapping
        A pattern of the document with its ``legs``.
    search : mapping
        The document's ``search``.
    width, height : float
        Size of the drawing, points.
    figures : Figures
        Formats the scale bar.
    size : float
        Type, points.

    Returns
    -------
    dict or None
        ``svg``, ``width``, ``height``, ``caption`` and ``alt``; None without legs.
    """
    legs = pattern.get("legs") or []
    if not legs:
        return None
    board = Board(width, height)
    seen = [place for leg in legs for place in leg_places(leg)]
    near = _is_near(seen)
    edge, foot = size * 0.9, size * 2.2
    aside = edge if size > TYPE else size * 2.6  # room for a word beside a mark; on a slate the lanes need it more
    box = (aside, edge, width - aside, height - foot - 1.5 * edge)
    ground = Ground(board, box, [*seen, (0.0, 0.0)] if near else seen)
    ground.no_go(search.get("closed") or [])
    labels = Labels(board, size)
    labels.keep_free((0.0, height - foot, width, height))
    ways = [(leg, [ground.at(place) for place in leg_places(leg)]) for leg in legs]
    pitch = (pattern.get("spacing_m") or _LEAST_PITCH) * ground.scale
    for leg, points in ways:
        _draw(board, leg, points, FIRM if size > TYPE else THIN * 1.4, min(size * 0.55, max(pitch * 0.45, 3.0)))
    _ends(board, labels, ways, ground.at((0.0, 0.0)) if near else None, ground)
    _numbers(labels, [way for way in ways if way[0].get("kind") != "shift"], math.ceil(size / pitch))
    ground.signs(figures, size)
    return {**board.drawing(), "caption": _caption(near), "alt": _alt(pattern, ways)}


def leg_places(leg: Mapping[str, Any]) -> list[tuple[float, float]]:
    """Give the places of a leg in the order in which it is swum.

    Parameters
    ----------
    leg : mapping
        A leg of the document.

    Returns
    -------
    list of pairs
        Metres east and north of the datum.
    """
    told = leg.get("ring")
    if told:
        return ring(told["centre"], told["radius_m"], told["from_deg"], told["to_deg"])
    return [(float(leg[end][0]), float(leg[end][1])) for end in ("from", "to")]


def _is_near(seen: Sequence[Sequence[float]]) -> bool:
    """Say whether the datum fits on the sketch without making the lanes small."""
    spans = [[place[axis] for place in seen] for axis in (0, 1)]
    large = max(max(values) - min(values) for values in spans)
    return all(max(*values, 0.0) - min(*values, 0.0) <= _AWAY * large for values in spans)


def _draw(board: Board, leg: Mapping[str, Any], points: Sequence[Point], stroke: float, head: float) -> None:
    if leg.get("kind") == "shift":
        board.line(points, HAIR, "1.5 2")
        return
    board.line(points, stroke)
    at = max(1, round(len(points) * 0.82)) if points[2:] else 1
    before, tip = points[at - 1], points[at]
    if not points[2:]:
        tip = before[0] + 0.75 * (tip[0] - before[0]), before[1] + 0.75 * (tip[1] - before[1])
    way = math.atan2(tip[1] - before[1], tip[0] - before[0])
    for side in (2.65, -2.65):
        end = tip[0] + head * math.cos(way + side), tip[1] + head * math.sin(way + side)
        board.line([tip, end], stroke)


def _ends(
    board: Board,
    labels: Labels,
    ways: Sequence[tuple[Mapping[str, Any], Sequence[Point]]],
    datum: Point | None,
    ground: Ground,
) -> None:
    """Mark start, end and datum, each with its word where there is room."""
    start, end, sign = ways[0][1][0], ways[-1][1][-1], labels.size * 0.38
    marks = [("start", start), ("end", end)]
    if datum is not None:
        ground.datum(datum)
        marks.append(("datum", datum))
    board.circle(start, sign, THIN, "#000")
    board.shape([(end[0] + x * sign, end[1] + y * sign) for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1))], FIRM)
    for _, (x, y) in marks:
        labels.keep_free((x - sign, y - sign, x + sign, y + sign))
    same = {word for word, mark in marks[1:] if math.dist(mark, start) < sign}
    first = " and ".join(["start", *sorted(same)])
    for word, mark in marks:
        outward = 1 if mark[0] > board.width / 2 else -1
        if word not in same:
            labels.put(first if word == "start" else word, _round(mark, labels.size, outward), True)


def _round(mark: Point, size: float, outward: int) -> list[tuple[Point, str]]:
    """Give the places for the word of a mark: first on the side that leads away from the middle."""
    x, y = mark
    beside, up, down = size * 0.7, y - size * 0.75, y + size * 1.35
    ways = ((outward, "start" if outward > 0 else "end"), (-outward, "end" if outward > 0 else "start"))
    sides = [
        ((x + beside * sign, y + move * size), anchor) for move in (0.33, 1.0, -0.6, 2.0, -1.6) for sign, anchor in ways
    ]
    over: list[tuple[Point, str]] = [((x, down), "middle"), ((x, up), "middle")]
    far: list[tuple[Point, str]] = [((x, down + size), "middle"), ((x, up - size), "middle")]
    return [sides[0], *over, *sides[1:], *far]


def _numbers(labels: Labels, lanes: Sequence[tuple[Mapping[str, Any], Sequence[Point]]], step: int) -> None:
    """Number the lanes: first and last, and every few between where there is room."""
    order = [0, len(lanes) - 1, *range(step, len(lanes) - 1, step)] if lanes[1:] else range(len(lanes))
    for place in order:
        leg, points = lanes[place]
        told = lane_number(leg)
        if told is not None:
            labels.put(str(told), [((x, y + labels.size * 0.33), "middle") for x, y in _on(points)], True)


def _on(points: Sequence[Point]) -> list[Point]:
    if points[2:]:
        return [points[round(share * (len(points) - 1))] for share in (*_ON_LANE, 0.42, 0.58, 0.27, 0.73)]
    (x, y), (end, foot) = points[0], points[1]
    return [(x + share * (end - x), y + share * (foot - y)) for share in _ON_LANE]


def _caption(near: bool) -> str:
    away = "" if near else " The datum lies outside the sketch."
    return f"To scale, true north up. Swim in the order of the numbers.{away}"


def _alt(pattern: Mapping[str, Any], ways: Sequence[tuple[Mapping[str, Any], Sequence[Point]]]) -> str:
    count = sum(leg.get("kind") != "shift" for leg, _ in ways)
    return f"Sketch to scale of the search: {pattern.get('pattern')}, {count} lanes or rings, numbered."
