"""The ascent picture: depth over time if nobody vents, one firm line for the likely, two thin ones for the band."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from parbuckle.brief.drawing import FIRM, HAIR, THIN, Board, Point
from parbuckle.brief.figures import Figures, figures_of
from parbuckle.brief.scale import nice_step

_LEFT, _TOP, _RIGHT, _FOOT = 46.0, 26.0, 60.0, 18.0  # points
_WORDS = {"low": ("1 in 20 sooner", "end", 0), "high": ("1 in 20 later", "start", 0), "likely": ("likely", "middle", 1)}


def ascent_picture(document: Mapping[str, Any], width: float, height: float) -> dict[str, Any] | None:
    """Draw depth over time of a load that is left alone.

    Parameters
    ----------
    document : mapping
        The plan document; needs ``ascent.fan``.
    width, height : float
        Size of the drawing, points.

    Returns
    -------
    dict or None
        ``svg``, ``caption`` and ``alt``; None without a fan.
    """
    ascent = document.get("ascent") or {}
    fan: Sequence[Mapping[str, float]] = ascent.get("fan") or []
    if not fan:
        return None
    figures = figures_of(document)
    fan = [_in_order(row) for row in fan]
    deepest = max(row["high"] for row in fan)
    last = max(fan[-1]["t_s"], 1.0)
    across, down = (width - _LEFT - _RIGHT) / last, (height - _TOP - _FOOT) / max(deepest, 1.0)
    board = Board(width, height)
    _axes(board, last, deepest, (across, down), (width, height), figures)
    lines = {
        name: _until_still([(_LEFT + row["t_s"] * across, _TOP + row[name] * down) for row in fan]) for name in _WORDS
    }
    for name, points in lines.items():
        board.line(points, FIRM * 1.3 if name == "likely" else THIN)
    _name_lines(board, lines)
    full = ascent.get("full_at_m")
    if full and full < deepest:
        board.line([(_LEFT, _TOP + full * down), (width - _RIGHT, _TOP + full * down)], HAIR, "2 2")
        board.words((width - _RIGHT + 2, _TOP + full * down + 2), "part-filled")
        board.words((width - _RIGHT + 2, _TOP + full * down + 11), "bag is full")
    return {
        **board.drawing(),
        "caption": "Left alone: how soon it is up if nobody vents.",
        "alt": f"Depth over time from {figures.both(deepest, 'length')} to the surface: likely, and 1 in 20 each way.",
    }


def _axes(board: Board, last: float, deepest: float, scale: Point, size: Point, figures: Figures) -> None:
    across, down = scale
    bottom = _TOP + deepest * down
    board.line([(_LEFT, _TOP), (size[0] - _RIGHT, _TOP)], FIRM)
    board.line([(_LEFT, _TOP), (_LEFT, bottom), (size[0] - _RIGHT, bottom)], THIN)
    step = nice_step(deepest / 3)
    for number in range(int(deepest / step) + 1):
        y = _TOP + number * step * down
        board.line([(_LEFT - 3, y), (_LEFT, y)], THIN)
        board.words((_LEFT - 5, y + 3), figures.one(number * step, "length"), "end")
    step = nice_step(last / 4)
    for number in range(int(last / step) + 1):
        x = _LEFT + number * step * across
        board.line([(x, bottom), (x, bottom + 3)], THIN)
        board.words((x, bottom + 12), figures.one(number * step, "time"), "middle")


def _in_order(row: Mapping[str, float]) -> dict[str, float]:
    """Take the shallow end as low and the deep end as high, whichever way round they come."""
    return {**row, "low": min(row["low"], row["high"]), "high": max(row["low"], row["high"])}


def _until_still(points: list[Point]) -> list[Point]:
    """Leave out the flat end: the load floats there."""
    end = len(points)
    while end > 1 and points[end - 2][1] - points[-1][1] < 1:
        end -= 1
    return points[:end]


def _name_lines(board: Board, lines: Mapping[str, list[Point]]) -> None:
    for name, (word, anchor, row) in _WORDS.items():
        x, y = lines[name][-1]
        level = _TOP - 4 - row * 11
        board.line([(x, y), (x, level + 2)], HAIR)
        board.words((max(x, _LEFT + 22) if anchor == "end" else x, level), word, anchor, name == "likely")
