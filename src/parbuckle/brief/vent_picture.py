"""Venting by depth as a picture: what is needed to keep the rate, and what the dump lets out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from parbuckle.brief.depth_axis import Field, draw_across, draw_depths
from parbuckle.brief.drawing import FIRM, THIN, Board, Point
from parbuckle.brief.figures import Figures, figures_of
from parbuckle.brief.labels import Labels

_LEFT, _TOP, _RIGHT, _FOOT = 46.0, 14.0, 14.0, 30.0  # points
_MUCH = 4.0  # a dump that passes more than so many times the need runs out of the picture
_ROOM = 1.15
_DASH = "5 2.5"

Rows = Sequence[Mapping[str, Any]]


def vent_picture(document: Mapping[str, Any], width: float, height: float) -> dict[str, Any] | None:
    """Draw the venting that is needed at each depth against what the dump can pass.

    Parameters
    ----------
    document : mapping
        The plan document; needs ``ascent.vent_l_s``.
    width, height : float
        Size of the drawing, points.

    Returns
    -------
    dict or None
        ``svg``, ``caption`` and ``alt``; None when nothing need be vented.
    """
    ascent = document.get("ascent") or {}
    rows: Rows = sorted(ascent.get("vent_l_s") or [], key=lambda row: -float(row["depth_m"]))
    most = max([row["needed"] for row in rows], default=0.0)
    if most <= 0:
        return None
    figures = figures_of(document)
    known = [row for row in rows if row.get("can")]
    highest = max([row["can"]["high"] for row in known], default=most)
    widest = min(max(highest, most) * _ROOM, most * _MUCH)
    deepest = rows[0]["depth_m"]
    board = Board(width, height)
    field = Field(_LEFT, _TOP, width - _RIGHT, height - _FOOT, widest, deepest)
    _short(board, known, field)
    draw_depths(board, field, deepest, figures, ground=False)
    draw_across(board, field, "venting", figures, field.bottom, "vented at that depth")
    labels = Labels(board)
    labels.keep_free((0.0, 0.0, field.left - 1, board.height))
    needed = [field.at(row["needed"], row["depth_m"]) for row in rows]
    ends = {key: _inside([field.at(row["can"][key], row["depth_m"]) for row in known], field) for key in _WIDTHS}
    for key, lines in ends.items():
        for line in lines:
            board.line(line, _WIDTHS[key], _DASH)
    board.line(needed, FIRM * 1.4)
    _name(labels, needed, "needed", len(needed) * 2 // 3, field)
    _name_can(labels, ends, known, field, figures)
    return {**board.drawing(), "caption": _caption(known), "alt": _alt(rows, figures)}


_WIDTHS = {"low": THIN, "likely": FIRM, "high": THIN}


def _caption(known: Rows) -> str:
    if not known:
        return "Vent so much to keep the rate. What the dump passes is not known."
    if any(row["can"]["low"] < row["needed"] for row in known):
        return "Firm: needed to keep the rate. Dashed: the dump. Hatched: the dump may pass too little."
    return "Firm: needed to keep the rate. Dashed: what the dump passes, held open. It is enough everywhere."


def _alt(rows: Rows, figures: Figures) -> str:
    told = [
        f"At {figures.both(row['depth_m'], 'length')}: needed {figures.one(row['needed'], 'venting')}, "
        f"dump {figures.band(row.get('can'), 'venting')}."
        for row in rows
    ]
    return " ".join(told)


def _short(board: Board, known: Rows, field: Field) -> None:
    """Hatch where the dump may pass less than is needed."""
    lacking = [row for row in known if row["can"]["low"] < row["needed"]]
    if not lacking[1:]:
        return
    least = [field.at(row["can"]["low"], row["depth_m"]) for row in lacking]
    needed = [field.at(row["needed"], row["depth_m"]) for row in lacking]
    board.hatch([*least, *reversed(needed)], gap=3.0)


def _inside(points: Sequence[Point], field: Field) -> list[list[Point]]:
    """Keep the runs of a line that lie in the picture."""
    runs: list[list[Point]] = [[]]
    for point in points:
        if point[0] <= field.right:
            runs[-1].append(point)
        elif runs[-1]:
            runs.append([])
    return [run for run in runs if run[1:]]


def _name(labels: Labels, line: Sequence[Point], text: str, number: int, field: Field) -> None:
    x, y = line[min(number, len(line) - 1)]
    labels.beside(text, (x, y), (x + 8, x - 8), bold=True)
    labels.keep_free((x - 1, field.top, x + 1, field.top + 1))


def _name_can(
    labels: Labels, ends: Mapping[str, Sequence[Sequence[Point]]], known: Rows, field: Field, figures: Figures
) -> None:
    if not known:
        return
    if ends["likely"]:
        line = ends["likely"][0]
        x, y = line[len(line) // 3]
        labels.beside("dump held open", (x, y), (x + 8, x - 8), bold=True)
        return
    middle = known[len(known) // 2]
    y = field.at(0.0, middle["depth_m"])[1]
    text = f"dump: {figures.band(middle['can'], 'venting')} →"
    labels.put(text, [((field.right, y + move), "end") for move in (3.0, -9.0, 15.0)], bold=True)
