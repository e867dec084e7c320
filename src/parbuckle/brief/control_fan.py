"""The ascent under control as a picture: depth over time with its band, marks where something happens."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from typing import Any

from parbuckle.brief.depth_axis import Field, draw_across, draw_depths
from parbuckle.brief.drawing import FIRM, HAIR, THIN, Board, Point
from parbuckle.brief.figures import Figures, figures_of
from parbuckle.brief.labels import Labels

_LEFT, _TOP, _RIGHT, _FOOT = 46.0, 26.0, 12.0, 24.0  # points
_MARK = 2.6  # radius of a mark, points
_OFF = 7.0  # from the band to the words, points
_NEAR = 12.0  # points of depth under the likely end in which a line counts as up
_STILL = 1.0  # points of depth in which a line counts as flat
_CAPTION = "Depth over time, 90 of 100 between the thin lines. They end with the bags at the surface."
_UP = "surface"
_LINES = {"low": "1 in 20 sooner", "likely": "likely", "high": "1 in 20 later"}

Fan = Sequence[Mapping[str, float]]


def control_fan(document: Mapping[str, Any], width: float, height: float) -> dict[str, Any] | None:
    """Draw depth over time of a load that two divers take up.

    Parameters
    ----------
    document : mapping
        The plan document; needs ``ascent.under_control.fan``.
    width, height : float
        Size of the drawing, points.

    Returns
    -------
    dict or None
        ``svg``, ``caption`` and ``alt``; None without a fan.
    """
    ascent = document.get("ascent") or {}
    told = ascent.get("under_control") or {}
    fan: Fan = told.get("fan") or []
    if not fan:
        return None
    figures = figures_of(document)
    deepest = max([row[key] for row in fan for key in ("low", "high")])
    board = Board(width, height)
    field = Field(_LEFT, _TOP, width - _RIGHT, height - _FOOT, max(fan[-1]["t_s"], 1.0), max(deepest, 1.0))
    draw_depths(board, field, max(deepest, 1.0), figures)
    draw_across(board, field, "time", figures, field.bottom + 5)
    sooner, likely, later = (_until_still(_curve(field, fan, key)) for key in _in_order(fan))
    alone = _until_still(_curve(field, ascent.get("fan") or [], "likely"))
    labels = Labels(board)
    _keep_axis_free(labels, field)
    board.line([point for point in alone if point[0] <= field.right], THIN, "1.5 2")
    board.line(sooner, THIN)
    board.line(later, THIN)
    board.line(likely, FIRM * 1.4)
    ends = (told.get("time_s") or {}) if isinstance(told.get("time_s"), Mapping) else {}
    events: Sequence[Mapping[str, Any]] = told.get("events") or []
    level = field.at(0.0, _surface(events))[1] + _NEAR
    _name_ends(labels, {"low": sooner, "likely": likely, "high": later}, level, ends, figures)
    _events(board, labels, events, (sooner, likely, later), field, figures)
    _name_alone(labels, alone)
    return {
        **board.drawing(),
        "caption": f"{_CAPTION}{_dotted(alone)}",
        "alt": _alt(told, deepest, figures),
    }


def _dotted(alone: Sequence[Point]) -> str:
    return " Dotted: if nobody vents." if alone else ""


def _alt(told: Mapping[str, Any], deepest: float, figures: Figures) -> str:
    time = figures.band(told.get("time_s"), "time")
    events = " ".join(str(row.get("words") or row.get("what") or "") for row in told.get("events") or [])
    return f"Depth over time from {figures.both(deepest, 'length')} to the surface in {time}. {events}".strip()


def _in_order(fan: Fan) -> tuple[str, str, str]:
    """Name the shallow end first, whichever way round the band comes."""
    turned = sum(row["low"] - row["high"] for row in fan) > 0
    return ("high", "likely", "low") if turned else ("low", "likely", "high")


def _curve(field: Field, fan: Fan, key: str) -> list[Point]:
    return [field.at(row["t_s"], row[key]) for row in fan]


def _until_still(points: list[Point]) -> list[Point]:
    """Leave out the flat end: there it floats."""
    end = len(points)
    while end > 1 and abs(points[end - 2][1] - points[-1][1]) < _STILL:
        end -= 1
    return points[:end]


def _keep_axis_free(labels: Labels, field: Field) -> None:
    labels.keep_free((0.0, 0.0, field.left - 1, field.bottom + 20))
    labels.keep_free((0.0, field.bottom - 1, labels.board.width, labels.board.height))


def _surface(events: Sequence[Mapping[str, Any]]) -> float:
    """Give the depth of the load when its bags are at the surface."""
    depths = [_likely(row.get("depth_m")) for row in events if row.get("what") == _UP]
    return (depths[0] if depths else None) or 0.0


def _name_ends(
    labels: Labels, lines: Mapping[str, Sequence[Point]], up: float, ends: Mapping[str, float], figures: Figures
) -> None:
    """Write the names of the lines over the surface, each with its time at the end of its own."""
    for key in ("likely", "low", "high"):
        x, y = lines[key][-1]
        if y > up:  # it does not come up
            labels.beside(_LINES[key], (x, y), (x + _OFF, x - _OFF), bold=key == "likely")
            continue
        level = _TOP - 6
        anchors = {"low": ("end", "middle", "start"), "likely": ("middle",), "high": ("middle", "start", "end")}[key]
        places = [((x, level - row), anchor) for row in (0.0, 10.5) for anchor in anchors]
        text = f"{_LINES[key]}, {figures.one(ends[key], 'time')}" if key in ends else _LINES[key]
        at = labels.put(text, places, key == "likely")
        if at is not None:
            labels.board.line([(x, y), (x, at[1] + 2)], HAIR)


def _name_alone(labels: Labels, alone: Sequence[Point]) -> None:
    if alone:
        x, y = alone[len(alone) * 2 // 3]
        labels.beside("nobody vents", (x, y), (x + _OFF, x - _OFF))


def _events(
    board: Board,
    labels: Labels,
    events: Iterable[Mapping[str, Any]],
    lines: tuple[Sequence[Point], Sequence[Point], Sequence[Point]],
    field: Field,
    figures: Figures,
) -> None:
    """Mark what happens on the likely line; the words stand outside the band, at the depth of the mark."""
    sooner, likely, later = lines
    for row in events:
        depth = _likely(row.get("depth_m"))
        if depth is None or depth <= 0:
            continue
        y = min(max(field.at(0.0, depth)[1], field.top), field.bottom)
        x = _crossing(likely, y)
        board.circle((x, y), _MARK, THIN, "#fff")
        if depth >= field.deepest or row.get("what") == _UP:
            continue
        words = f"{row.get('what')}, {figures.both(depth, 'length')}"
        labels.beside(words, (x, y), (_crossing(later, y) + _OFF, _crossing(sooner, y) - _OFF), bold=True)


def _likely(value: Mapping[str, float] | float | None) -> float | None:
    return value["likely"] if isinstance(value, Mapping) else value


def _crossing(line: Sequence[Point], y: float) -> float:
    """Give how far to the right a line comes to a depth; its end where it never does."""
    for (x0, y0), (x1, y1) in pairwise(line):
        if (y0 - y) * (y1 - y) <= 0 and y0 != y1:
            return x0 + (y - y0) / (y1 - y0) * (x1 - x0)
    return line[-1][0] if abs(line[-1][1] - y) < abs(line[0][1] - y) else line[0][0]
