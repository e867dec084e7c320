"""The drawing from above: the circle on the bottom, the circle at the surface, and the drift."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from parbuckle.brief.drawing import FIRM, THIN, Board, Point
from parbuckle.brief.figures import Figures
from parbuckle.brief.scale import scale_bar

_EDGE, _HEAD, _FOOT = 8.0, 16.0, 18.0  # points
_SIGN = 2.05  # half the width of a sign, points


def seen_from_above(
    sketch: Mapping[str, Any], circles: Mapping[str, Any], width: float, height: float, figures: Figures
) -> dict[str, Any]:
    """Draw both circles to one scale, with the load in the middle.

    Parameters
    ----------
    sketch : mapping
        The document's ``sketch``.
    circles : mapping
        The document's ``circles``.
    width, height : float
        Size of the drawing, points.
    figures : Figures
        Formats the labels.

    Returns
    -------
    dict
        ``svg``, ``caption`` and ``alt``; empty when no circle is known.
    """
    below = circles.get("bottom_m") or sketch.get("bottom_circle_m")
    above = circles.get("surface_m") or sketch.get("surface_circle_m")
    known = [radius for radius in (below, above) if radius]
    if not known:
        return {}
    board = Board(width, height)
    scale = min(width - 2 * _EDGE, height - _HEAD - _FOOT) / 2 / max(known)
    middle = (width / 2, (height - _FOOT + _HEAD) / 2)
    if above:
        board.hatch(_ring(middle, above * scale), (45.0,), 5.0)
        board.circle(middle, above * scale, FIRM)
    if below:
        board.circle(middle, below * scale, THIN, "#fff")
        board.hatch(_ring(middle, below * scale), (30.0, 150.0), 5.0)
        board.circle(middle, below * scale, FIRM, dash="4 2")
    _label(
        board,
        (middle[0], middle[1] - (below or 0) * scale * 0.45),
        f"bottom {figures.safe(below, 'length', up=True)}" if below else "",
    )
    if above:
        board.words((middle[0], _HEAD - 4), f"surface {figures.safe(above, 'length', up=True)}", "middle", True)
    board.circle(middle, 2.6, THIN, "#000")
    towards = circles.get("drift_towards_deg")
    _drift(board, middle, max(known) * scale, towards, (width, height))
    scale_bar(board, (4, height - 3), scale, width * 0.3, figures)
    return {
        **board.drawing(),
        "caption": "The boat waits outside.",
        "alt": f"Plan to scale. Bottom circle {figures.safe_both(below, 'length', up=True)}, "
        f"surface circle {figures.safe_both(above, 'length', up=True)}.",
    }


def _ring(middle: Point, radius: float) -> list[Point]:
    turns = [math.tau * number / 60 for number in range(60)]
    return [(middle[0] + radius * math.cos(turn), middle[1] + radius * math.sin(turn)) for turn in turns]


def _label(board: Board, at: Point, text: str) -> None:
    if not text:
        return
    half = len(text) * _SIGN + 3
    x, y = at
    board.shape([(x - half, y - 8), (x + half, y - 8), (x + half, y + 3), (x - half, y + 3)], 0, "#fff")
    board.words((x, y), text, "middle", True)


def _drift(board: Board, middle: Point, reach: float, towards: float | None, size: Point) -> None:
    if towards is None:
        board.words((size[0] - 2, size[1] - 4), "drift not known", "end")
        return
    turn = math.radians(towards)
    way = (math.sin(turn), -math.cos(turn))
    tip = (middle[0] + way[0] * reach, middle[1] + way[1] * reach)
    board.line([middle, tip], FIRM)
    for side in (-0.5, 0.5):
        back = turn + math.pi + side
        board.line([tip, (tip[0] + 7 * math.sin(back), tip[1] - 7 * math.cos(back))], FIRM)
    board.words((size[0] - 2, size[1] - 4), f"drift towards {towards:03.0f}°, north up", "end")
