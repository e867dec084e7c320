"""The map of what can be held: share of the lift that can grow against reaction time, with this team's place in it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Any

from parbuckle.brief.depth_axis import Field, draw_across
from parbuckle.brief.drawing import FIRM, THIN, Board, Point
from parbuckle.brief.figures import Figures, figures_of
from parbuckle.brief.labels import Labels
from parbuckle.brief.scale import nice_step

_LEFT, _TOP, _RIGHT, _FOOT = 34.0, 22.0, 14.0, 30.0  # points
_HELD, _LOST = 0.9, 0.1  # shares of the draws from which on it counts as held, and under which as lost
_POINT = 3.2  # radius of the team's mark, points
_CAP = 4.0  # half the height of the ends of its band, points


def control_map(document: Mapping[str, Any], width: float, height: float) -> dict[str, Any] | None:
    """Draw where a lift can be held: what can grow upward, reaction time to the right, the team's own place.

    Parameters
    ----------
    document : mapping
        The plan document; needs ``ascent.under_control.map``.
    width, height : float
        Size of the drawing, points.

    Returns
    -------
    dict or None
        ``svg``, ``caption`` and ``alt``; None without a map.
    """
    told = ((document.get("ascent") or {}).get("under_control") or {}).get("map") or {}
    shares, delays, held = (told.get(key) or [] for key in ("share", "delay_s", "held"))
    if not shares[1:] or not delays[1:]:
        return None
    figures, here = figures_of(document), told.get("here") or {}
    board = Board(width, height)
    field = Field(_LEFT, _TOP, width - _RIGHT, height - _FOOT, _widest(delays, here), max(shares))
    inside, outside = (_border(field, shares, delays, held, level) for level in (_HELD, _LOST))
    right = [(field.right, y) for _, y in outside]
    board.hatch([*outside, *reversed(right)], (45.0, 135.0), 4.5)
    board.hatch([*inside, *reversed(outside)], (45.0,), 7.0)
    board.line(inside, FIRM)
    board.line(outside, FIRM, "5 2.5")
    _frame(board, field, figures)
    labels = Labels(board)
    labels.keep_free((0.0, 0.0, field.left - 1, board.height))
    labels.keep_free((0.0, field.bottom, board.width, board.height))
    labels.keep_free((0.0, 0.0, field.left + 110, field.top - 8))
    _team(board, labels, here, field, figures)
    _regions(labels, inside, outside, field)
    return {**board.drawing(), "caption": _caption(), "alt": _alt(here, figures)}


def _caption() -> str:
    return "The point is this team, with its band. White: can be held. Crossed: cannot. Less gas that grows helps."


def _alt(here: Mapping[str, Any], figures: Figures) -> str:
    share, delay = figures.one(here.get("share"), "share"), figures.band(here.get("delay_s"), "time")
    return f"Map of what can be held. This team: {share} of the lift can grow, reaction {delay}."


def _widest(delays: Sequence[float], here: Mapping[str, Any]) -> float:
    return max([*delays, (here.get("delay_s") or {}).get("high") or 0.0])


def _border(
    field: Field, shares: Sequence[float], delays: Sequence[float], held: Sequence[Sequence[float]], level: float
) -> list[Point]:
    """Follow, from the lowest share up, the reaction time at which fewer than a level are held."""
    ends = [_last_held(delays, row, level) for row in held]
    points = [_in_field(field, end, share) for end, share in zip(ends, shares, strict=True)]
    return [(points[0][0], field.bottom), *points]


def _in_field(field: Field, delay: float, share: float) -> Point:
    x, y = field.at(delay, share)
    return min(x, field.right), field.bottom + field.top - y


def _last_held(delays: Sequence[float], row: Sequence[float], level: float) -> float:
    """Give the reaction time at which a row falls under a level; 0 when it never reaches it."""
    if row[0] < level:
        return 0.0
    for (before, first), (after, second) in pairwise(zip(delays, row, strict=True)):
        if second < level:
            return before + (first - level) / (first - second) * (after - before)
    return float(delays[-1])


def _frame(board: Board, field: Field, figures: Figures) -> None:
    corners = [(field.left, field.top), (field.left, field.bottom), (field.right, field.bottom)]
    board.line(corners, THIN)
    draw_across(board, field, "time", figures, field.bottom, "reaction time")
    step = nice_step(field.deepest / 3)
    for number in range(int(field.deepest / step + 1e-9) + 1):
        y = _in_field(field, 0.0, number * step)[1]
        board.line([(field.left - 3, y), (field.left, y)], THIN)
        board.words((field.left - 5, y + 3), figures.one(number * step, "share"), "end")
    board.words((0.0, field.top - 12), "share of the lift that can grow")


def _team(board: Board, labels: Labels, here: Mapping[str, Any], field: Field, figures: Figures) -> None:
    delay, share = here.get("delay_s"), here.get("share")
    if delay is None or share is None:
        return
    low, mid, high = (_in_field(field, delay[key], share) for key in ("low", "likely", "high"))
    board.line([low, high], FIRM * 1.4)
    for x, y in (low, high):
        board.line([(x, y - _CAP), (x, y + _CAP)], FIRM)
    board.circle(mid, _POINT, FIRM, "#000")
    labels.keep_free((low[0] - 2, mid[1] - _CAP - 1, high[0] + 2, mid[1] + _CAP + 1))
    text = f"this team, {figures.band(delay, 'time')}"
    places = [
        ((mid[0], mid[1] + move), anchor) for move in (-8.0, 15.0, -19.0) for anchor in ("middle", "start", "end")
    ]
    labels.put(text, places, True)


def _regions(labels: Labels, inside: Sequence[Point], outside: Sequence[Point], field: Field) -> None:
    """Write into each region what it means, where it is widest."""
    left, right = [(field.left, y) for _, y in inside], [(field.right, y) for _, y in outside]
    for words, sides in (
        ("can be held", (left, inside)),
        ("cannot be held", (outside, right)),
        ("on the edge", (inside, outside)),
    ):
        rows = sorted(zip(*sides, strict=True), key=lambda pair: pair[0][0] - pair[1][0])
        places = [(((a[0] + b[0]) / 2, min(max(a[1], field.top + 9), field.bottom - 4)), "middle") for a, b in rows]
        labels.put(words, places, True)
