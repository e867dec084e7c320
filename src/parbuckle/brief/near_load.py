"""The drawing near the load: load, sling, bags at their real size and fill, people at their places."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from parbuckle.brief.drawing import FIRM, HAIR, THIN, Board, Point
from parbuckle.brief.figures import Figures
from parbuckle.brief.scale import scale_bar
from parbuckle.brief.shapes import balloon, cut_below, draw_diver

Box = tuple[float, float, float, float]  # left, top, right, bottom, points

_DIVER = 1.7  # length of a diver with fins stretched out, m, for the drawing
_ASIDE = 0.5  # room beside the outermost thing, m
_NECK = 0.12  # share of a bag's height between the ring and its mouth
_FOOT, _HEAD, _AXIS = 22.0, 22.0, 44.0  # points
_SIGN = 2.3  # half the width of a sign, points
_LABEL = 26.0  # distance between the bags' names, points


def near_load(sketch: Mapping[str, Any], width: float, height: float, figures: Figures) -> dict[str, Any]:
    """Draw the load, its sling and its bags to scale, with the people who are beside them.

    Parameters
    ----------
    sketch : mapping
        The document's ``sketch``.
    width, height : float
        Size of the drawing, points.
    figures : Figures
        Formats the labels.

    Returns
    -------
    dict
        ``svg``, ``caption`` and ``alt``.
    """
    bags: Sequence[Mapping[str, Any]] = sketch.get("bags") or []
    people = [person for person in sketch.get("people") or [] if person.get("x_m") is not None]
    depth, load = float(sketch["depth_m"]), sketch.get("load") or {}
    tall, long = load.get("height_m") or 0.5, load.get("length_m") or 0.5
    strop = sketch.get("strop_m") or 0.0
    crown = tall + strop + max([bag.get("height_m") or 0.6 for bag in bags], default=0.0)
    up = max([crown, *(depth - person["depth_m"] + 0.3 for person in people)])
    left = max([long / 2, _bag_width(bags) / 2, *(-person["x_m"] + _DIVER for person in people if person["x_m"] < 0)])
    right = max([long / 2, _bag_width(bags) / 2, *(person["x_m"] + _DIVER for person in people if person["x_m"] >= 0)])
    scale = min((height - _FOOT - _HEAD) / up, (width - _AXIS) / (left + right + _ASIDE))
    board, bottom = Board(width, height), height - _FOOT
    x = _AXIS + (left + _ASIDE / 2) * scale + max((width - _AXIS - (left + right + _ASIDE) * scale) / 2, 0.0)
    board.line([(_AXIS, bottom), (width, bottom)], FIRM)
    board.hatch([(_AXIS, bottom), (width, bottom), (width, bottom + 5), (_AXIS, bottom + 5)])
    top, ring = bottom - tall * scale, bottom - (tall + strop) * scale
    board.shape(
        [(x - long * scale / 2, y) for y in (bottom, top)] + [(x + long * scale / 2, y) for y in (top, bottom)], FIRM
    )
    board.hatch(
        [(x - long * scale / 2, y) for y in (bottom, top)] + [(x + long * scale / 2, y) for y in (top, bottom)], (0,), 3
    )
    _sling(board, sketch, (x, ring), top, long * scale)
    _draw_bags(board, bags, (x, ring), scale)
    head = bottom - crown * scale
    taken = [(x - _LABEL * len(bags) / 2, head - 16, x + _LABEL * len(bags) / 2, head)]
    places = [(x + person["x_m"] * scale, bottom - (depth - person["depth_m"]) * scale) for person in people]
    taken += [_draw_diver(board, at, x, scale) for at in places]
    for person, at in zip(people, places, strict=True):
        _name(board, person, at, (x, bottom), scale, taken)
    _axis(board, depth, [(bottom, 0.0), (ring, tall + strop)], figures)
    scale_bar(board, (_AXIS + 4, height - 3), scale, (width - _AXIS) * 0.3, figures)
    _lines(board, sketch, (x, ring), bottom, scale, width)
    names = ", ".join(f"{person.get('name')} {person.get('side') or ''}".strip() for person in people)
    return {
        **board.drawing(),
        "caption": _caption(sketch),
        "alt": f"The load with its bags to scale. {names}.",
    }


def _caption(sketch: Mapping[str, Any]) -> str:
    signs = [("Dashed: restraint", sketch.get("restraint")), ("Dotted: crown line", sketch.get("crown_line"))]
    told = [f"{word} {name}." for word, name in signs if name]
    if told:
        return " ".join(told)
    if not sketch.get("bags"):
        return "Stay beside it, never below."
    return "White is gas. Stay beside it: never below, never over."


def _bag_width(bags: Sequence[Mapping[str, Any]]) -> float:
    return float(sum((bag.get("width_m") or 0.3) for bag in bags))


def _sling(board: Board, sketch: Mapping[str, Any], ring: Point, top: float, long: float) -> None:
    angle = sketch.get("sling_angle_deg")
    if angle is None:
        board.line([ring, (ring[0], top)], FIRM)
        return
    for side in (-0.5, 0.5):
        board.line([ring, (ring[0] + side * long, top)], FIRM)
    board.words((ring[0] + long / 4 + 4, (ring[1] + top) / 2), f"{angle:.0f}°")


def _draw_bags(board: Board, bags: Sequence[Mapping[str, Any]], ring: Point, scale: float) -> None:
    left, crown = ring[0] - _bag_width(bags) * scale / 2, ring[1]
    tops: list[Point] = []
    for bag in bags:
        wide, high = (bag.get("width_m") or 0.3) * scale, (bag.get("height_m") or 0.6) * scale
        tops.append(
            _draw_bag(
                board, ring, (left + wide / 2, ring[1] - high * _NECK), (wide, high), bag.get("fill_share") or 0.0
            )
        )
        crown = min(crown, tops[-1][1])
        left += wide
    first = ring[0] - _LABEL * (len(bags) - 1) / 2
    for number, (bag, top) in enumerate(zip(bags, tops, strict=True)):
        foot = (first + number * _LABEL, crown - 8)
        board.line([(foot[0], foot[1] + 1.5), (top[0], top[1] + 1)], HAIR)
        board.words(foot, str(bag.get("id", "")), "middle", True)


def _draw_bag(board: Board, ring: Point, foot: Point, size: Point, share: float) -> Point:
    wide, high = size[0], size[1] * (1.0 - _NECK)
    board.line([ring, foot], THIN)
    if not share:
        board.shape(balloon(foot, wide * 0.35, high * 0.7), HAIR)
        return foot[0], foot[1] - high * 0.7
    outline = balloon(foot, wide, high)
    board.shape(outline, FIRM)
    water = cut_below(outline, foot[1] - high * (1.0 - share))
    if water and share < 1:
        board.hatch(water, (0.0,), 2.2)
        board.shape(water, THIN, "none")
    return foot[0], foot[1] - high


def _draw_diver(board: Board, at: Point, load: float, scale: float) -> Box:
    towards = 1.0 if at[0] < load else -1.0
    draw_diver(board, at, _DIVER * scale, towards)
    feet = at[0] - towards * _DIVER * scale
    return min(at[0], feet), at[1] - 0.2 * scale, max(at[0], feet), at[1] + 0.2 * scale


def _name(board: Board, person: Mapping[str, Any], at: Point, foot: Point, scale: float, taken: list[Box]) -> None:
    """Write a name where nothing else is: below the diver, else above, else farther off."""
    name, where = str(person.get("name", "")), str(person.get("side") or "")
    half = max(len(name), len(where)) * _SIGN
    towards = 1.0 if at[0] < foot[0] else -1.0
    middle = min(max(at[0] - towards * _DIVER * scale / 2, _AXIS + half), board.width - half)
    beyond = at[0] - towards * (_DIVER * scale + half + 4)
    body = 0.2 * scale
    tries = [(middle, at[1] + body + 9), (middle, at[1] - body - 13), (beyond, at[1] - 2)]
    tries += [(middle, at[1] + body + 29), (middle, at[1] - body - 33)]
    boxes = [(x - half, first - 7, x + half, first + 12) for x, first in tries if half <= x <= board.width - half]
    free = [box for box in boxes if box[1] >= 0 and box[3] <= foot[1] and not any(_meet(box, other) for other in taken)]
    if not free:
        board.words((middle, foot[1] + 15), f"{name}, {where}".strip(", "), "middle", True)
        return
    taken.append(free[0])
    board.words((free[0][0] + half, free[0][1] + 7), name, "middle", True)
    board.words((free[0][0] + half, free[0][1] + 17), where, "middle")


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _axis(board: Board, depth: float, marks: Sequence[tuple[float, float]], figures: Figures) -> None:
    for y, above in marks:
        board.line([(_AXIS - 4, y), (_AXIS, y)], THIN)
        board.words((_AXIS - 6, y + 1), figures.one(depth - above, "length"), "end")
        board.words((_AXIS - 6, y + 10), figures.other(depth - above, "length"), "end")


def _lines(board: Board, sketch: Mapping[str, Any], ring: Point, bottom: float, scale: float, width: float) -> None:
    if sketch.get("restraint"):
        anchor = (ring[0] + 1.2 * scale, bottom)
        board.line([(ring[0], (ring[1] + bottom) / 2), anchor], FIRM, "5 2")
    if sketch.get("crown_line"):
        crown = ring[1] - max([bag.get("height_m") or 0.6 for bag in sketch.get("bags") or []], default=0.0) * scale
        board.line([(ring[0], crown), (ring[0] + 0.5 * scale, ring[1]), (ring[0] + 2, bottom - 4)], HAIR, "1.5 1.5")
    if sketch.get("line_to_surface"):
        board.line([(ring[0] + 0.1 * scale, bottom - 0.2 * scale), (min(ring[0] + 0.9 * scale, width), 0)], HAIR, "3 2")
