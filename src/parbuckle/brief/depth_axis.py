"""Axes of pictures with depth downward: the surface as a line at the top, the bottom hatched, metres and feet."""

from __future__ import annotations

import math
from dataclasses import dataclass

from parbuckle.brief.drawing import FIRM, THIN, Board, Point
from parbuckle.brief.figures import Figures
from parbuckle.brief.scale import nice_step
from parbuckle.quantity.rounding import THIN as THIN_SPACE

_APART = 22.0  # least distance between two depths, points
_TICK = 3.0  # points
_GROUND = 5.0  # points
_TIMES = (30.0, 60.0, 120.0, 300.0, 600.0, 900.0, 1200.0, 1800.0, 3600.0)  # steps of a scale of minutes, s


@dataclass(frozen=True, slots=True)
class Field:
    """The part of a board on which curves are drawn, and its two scales.

    Parameters
    ----------
    left, top, right, bottom : float
        Edges, points.
    widest : float
        Value at the right edge; 0 stands at the left one.
    deepest : float
        Value at the bottom edge; 0 stands at the top one.
    """

    left: float
    top: float
    right: float
    bottom: float
    widest: float
    deepest: float

    def at(self, across: float, down: float) -> Point:
        """Give the place of a pair of values.

        Parameters
        ----------
        across, down : float
            In the units of the axes.

        Returns
        -------
        pair
            Points.

        Examples
        --------
        >>> Field(10.0, 0.0, 110.0, 50.0, 5.0, 10.0).at(1.0, 5.0)
        (30.0, 25.0)
        """
        x = self.left + across / self.widest * (self.right - self.left)
        return x, self.top + down / self.deepest * (self.bottom - self.top)


def draw_depths(board: Board, field: Field, depth: float, figures: Figures, ground: bool = True) -> None:
    """Draw the surface, the bottom and the depths between them at the left.

    Parameters
    ----------
    board : Board
        Where to draw.
    field : Field
        Its scales; depth runs down.
    depth : float
        Depth of the bottom, m.
    figures : Figures
        Formats the depths.
    ground : bool
        True hatches the bottom.
    """
    low = field.at(0.0, depth)[1]
    board.line([(field.left, field.top), (field.right, field.top)], FIRM)
    board.line([(field.left, field.top), (field.left, low)], THIN)
    board.line([(field.left, low), (field.right, low)], FIRM if ground else THIN)
    if ground:
        corners = [(field.left, low), (field.right, low), (field.right, low + _GROUND), (field.left, low + _GROUND)]
        board.hatch(corners, gap=3.0)
    for mark in _marks(depth, low - field.top):
        y = field.at(0.0, mark)[1]
        up = 6.0 if mark == depth else 0.0  # the lowest one leaves room for the scale below
        board.line([(field.left - _TICK, y), (field.left, y)], THIN)
        board.words((field.left - 5, y + 1 - up), figures.one(mark, "length"), "end", mark == depth)
        if mark:
            board.words((field.left - 5, y + 10 - up), figures.other(mark, "length"), "end")


def draw_across(board: Board, field: Field, kind: str, figures: Figures, below: float, name: str = "") -> None:
    """Draw the scale that runs to the right: numbers, and under the last of them what they are.

    Parameters
    ----------
    board : Board
        Where to draw.
    field : Field
        Its scales.
    kind : str
        Kind of the values; times carry their unit, for others it stands once, behind the name.
    figures : Figures
        Formats them.
    below : float
        Height of the scale, points from the top.
    name : str
        What the values are; written at the right end, under the numbers.
    """
    step = _round_time(field.widest) if kind == "time" else nice_step(field.widest / 4)
    unit = ""
    for number in range(math.floor(field.widest / step + 1e-9) + 1):
        x = field.at(number * step, 0.0)[0]
        value, _, unit = figures.one(number * step, kind).partition(THIN_SPACE)
        board.line([(x, below), (x, below + _TICK)], THIN)
        board.words((x, below + 12), figures.one(number * step, kind) if kind == "time" else value, "middle")
    if name:
        board.words((field.right, below + 22), name if kind == "time" else f"{name}, {unit}", "end")


def _round_time(longest: float) -> float:
    """Give a step of whole half minutes for what takes minutes."""
    step = nice_step(longest / 4)
    return next((round_step for round_step in _TIMES if step <= round_step), step) if step > _TIMES[0] / 2 else step


def _marks(depth: float, tall: float) -> list[float]:
    step = nice_step(depth / 3)
    while step / depth * tall < _APART:
        step *= 2
    marks = [step * number for number in range(math.floor(depth / step) + 1)]
    return [mark for mark in marks if (depth - mark) / depth * tall >= _APART] + [depth]
