"""Scale bars: a round length drawn as it is, with its ends marked."""

from __future__ import annotations

from parbuckle.brief.drawing import FIRM, THIN, TYPE, Board, Point
from parbuckle.brief.figures import Figures

_ROUND = (5.0, 2.0, 1.0)


def nice_step(length: float) -> float:
    """Give the largest of 1, 2, 5, 10, 20 ... that is not longer than a length.

    Parameters
    ----------
    length : float
        Positive, any unit.

    Returns
    -------
    float
        In the same unit.

    Examples
    --------
    >>> nice_step(5.3), nice_step(4.9), nice_step(0.3)
    (5.0, 2.0, 0.2)
    """
    power = 1.0
    while power > length:
        power /= 10.0
    while power * 10.0 <= length:
        power *= 10.0
    return next(round(digit * power, 12) for digit in _ROUND if digit * power <= length)


def scale_bar(board: Board, at: Point, scale: float, room: float, figures: Figures, size: float = TYPE) -> None:
    """Draw a scale bar with its length in the chosen units.

    Parameters
    ----------
    board : Board
        Where to draw.
    at : pair
        Left end, points.
    scale : float
        Points for each metre.
    room : float
        Longest bar, points.
    figures : Figures
        Formats the length.
    size : float
        Type, points.
    """
    x, y = at
    length = nice_step(room / scale)
    end = x + length * scale
    board.line([(x, y), (end, y)], FIRM)
    for tick in (x, end):
        board.line([(tick, y - 3), (tick, y + 3)], THIN)
    board.words((x, y - 5), figures.both(length, "length"), size=size)
