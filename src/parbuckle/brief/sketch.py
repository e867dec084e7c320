"""The sketch to scale: from the side, near the load, and from above; three drawings, each with its scale bar."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from parbuckle.brief.drawing import FIRM, HAIR, THIN, Board, Point
from parbuckle.brief.figures import Figures, figures_of
from parbuckle.brief.near_load import near_load
from parbuckle.brief.scale import nice_step, scale_bar
from parbuckle.brief.seen_from_above import seen_from_above
from parbuckle.brief.shapes import balloon

_TOP, _FOOT = 22.0, 18.0  # room above the surface line and below the bottom line, points
_AXIS = 46.0  # room for the depths at the left, points
_SIDE, _NEAR, _ABOVE = 0.33, 0.42, 0.25  # shares of the room's width
_APART = 22.0  # least distance between two depths, points
_NARROW = (0.56, 0.62, 0.8)  # heights as shares of the width, where each drawing has the width for itself
_WIDEST = 0.6  # the scale may shrink to this share of the one that fills the height before a strip is cut at the edge


def sketches(document: Mapping[str, Any], width: float, height: float) -> list[dict[str, Any]]:
    """Draw the lift to scale, three drawings side by side.

    Parameters
    ----------
    document : mapping
        The plan document.
    width : float
        Room for all three, points.
    height : float
        Room, points.

    Returns
    -------
    list of dict
        ``svg``, ``caption`` (one line that says what to see) and ``alt`` for each drawing; empty without a sketch.
    """
    sketch = document.get("sketch")
    if not sketch or not sketch.get("depth_m"):
        return []
    figures = figures_of(document)
    drawings = [
        from_the_side(sketch, width * _SIDE, height, figures),
        near_load(sketch, width * _NEAR, height, figures),
        seen_from_above(sketch, (document.get("circles") or {}), width * _ABOVE, height, figures),
    ]
    return [drawing for drawing in drawings if drawing]


def narrow_sketches(document: Mapping[str, Any], width: float) -> list[dict[str, Any]]:
    """Draw the same three drawings one below the other, for a page that is narrow.

    Parameters
    ----------
    document : mapping
        The plan document.
    width : float
        Room for each, points.

    Returns
    -------
    list of dict
        As :func:`sketches` gives them.
    """
    sketch = document.get("sketch")
    if not sketch or not sketch.get("depth_m"):
        return []
    figures = figures_of(document)
    side, near, above = (width * share for share in _NARROW)
    drawings = [
        from_the_side(sketch, width, side, figures),
        near_load(sketch, width, near, figures),
        seen_from_above(sketch, (document.get("circles") or {}), width, above, figures),
    ]
    return [drawing for drawing in drawings if drawing]


def from_the_side(sketch: Mapping[str, Any], width: float, height: float, figures: Figures) -> dict[str, Any]:
    """Draw surface, bottom, load and the two strips to keep clear of, seen from the side.

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
    depth = float(sketch["depth_m"])
    below, above = sketch.get("bottom_circle_m"), sketch.get("surface_circle_m")
    board = Board(width, height)
    tall = (height - _TOP - _FOOT) / depth
    half = (width - _AXIS) / 2
    wide = half / max(below or 0.0, above or 0.0, depth / 8)
    scale = max(min(tall, wide), tall * _WIDEST)
    middle, surface, bottom = _AXIS + half, _TOP, _TOP + depth * scale
    _depths(board, depth, scale, width, figures)
    board.line([(_AXIS, surface), (width, surface)], FIRM)
    board.line([(_AXIS, bottom), (width, bottom)], FIRM)
    board.hatch([(_AXIS, bottom), (width, bottom), (width, bottom + 5), (_AXIS, bottom + 5)])
    if above:
        _strip(board, (middle, surface), above * scale, half, 5.0, (45.0,))
        board.words((middle, surface - 12), "may come up here", anchor="middle")
        board.words((middle, surface - 2.5), f"within {figures.safe(above, 'length', up=True)}", anchor="middle")
    if below:
        _strip(board, (middle, bottom), below * scale, half, -5.0, (30.0, 150.0))
        board.words(
            (middle, bottom + 14), f"keep clear within {figures.safe(below, 'length', up=True)}", anchor="middle"
        )
    _chain(board, sketch, middle, surface, bottom, scale)
    scale_bar(board, (_AXIS + 4, (surface + bottom) / 2), scale, half * 0.7, figures)
    return {
        **board.drawing(),
        "caption": "To scale. Crossed: may fall. Hatched: may come up." if below or above else "To scale.",
        "alt": f"Side view to scale. Depth {figures.both(depth, 'length')}. "
        f"Keep clear on the bottom {figures.safe_both(below, 'length', up=True)}; "
        f"may come up within {figures.safe_both(above, 'length', up=True)}.",
    }


def _depths(board: Board, depth: float, scale: float, width: float, figures: Figures) -> None:
    step = nice_step(depth / 3)
    while step * scale < _APART:
        step *= 2
    marks = [step * number for number in range(int(depth / step) + 1)]
    marks = [mark for mark in marks if (depth - mark) * scale >= _APART] + [depth]
    for mark in marks:
        y = _TOP + mark * scale
        board.line([(_AXIS - 4, y), (_AXIS, y)], THIN)
        board.words((_AXIS - 6, y + 1), figures.one(mark, "length"), anchor="end", bold=mark == depth)
        if mark:
            board.words((_AXIS - 6, y + 10), figures.other(mark, "length"), anchor="end")


def _strip(board: Board, at: Point, reach: float, half: float, thick: float, angles: tuple[float, ...]) -> None:
    x, y = at
    shown = min(reach, half)
    corners = [(x - shown, y), (x + shown, y), (x + shown, y + thick), (x - shown, y + thick)]
    board.hatch(corners, angles, gap=2.6)
    for side in (-1, 1):
        end = x + side * shown
        if shown < reach:
            board.line([(end - side * 5, y - 3), (end, y), (end - side * 5, y + 3)], THIN)
        else:
            board.line([(end, y - thick * 0.4), (end, y + thick * 1.4)], THIN)


def _chain(board: Board, sketch: Mapping[str, Any], x: float, surface: float, bottom: float, scale: float) -> None:
    load = sketch.get("load") or {}
    tall, long = (load.get("height_m") or 0.5) * scale, (load.get("length_m") or 0.5) * scale
    top = bottom - tall
    ring = top - (sketch.get("strop_m") or 0.0) * scale
    board.line([(x, top), (x, ring)], THIN)
    gas = [bag for bag in sketch.get("bags") or [] if bag.get("fill_share")]
    span = sum((bag.get("width_m") or 0.3) * scale for bag in gas)
    left = x - span / 2
    for bag in gas:
        wide, high = (bag.get("width_m") or 0.3) * scale, (bag.get("height_m") or 0.6) * scale
        board.shape(balloon((left + wide / 2, ring), wide, high), THIN)
        left += wide
    board.shape(
        [(x - long / 2, bottom), (x - long / 2, top), (x + long / 2, top), (x + long / 2, bottom)], THIN, "#000"
    )
    if sketch.get("line_to_surface"):
        board.line([(x + long / 2, top), (x + long / 2 + 10, surface)], HAIR, "3 2")
        board.words((x + long / 2 + 9, (surface + top) / 2), f"line {sketch['line_to_surface']}")
