"""Outlines that stand for things at their real size: a full bag, a hanging empty bag, a diver."""

from __future__ import annotations

from parbuckle.brief.drawing import FIRM, Board, Point


def balloon(ring: Point, width: float, height: float) -> list[Point]:
    """Give the outline of a full bag above its ring.

    Parameters
    ----------
    ring : pair
        Lowest point, points.
    width, height : float
        Real size of the bag on the drawing, points.

    Returns
    -------
    list of pairs
        Corners, points.
    """
    x, y = ring
    half = [(0.06, 0.0), (0.30, 0.22), (0.46, 0.45), (0.50, 0.68), (0.42, 0.86), (0.24, 0.97), (0.0, 1.0)]
    right = [(x + across * width, y - up * height) for across, up in half]
    left = [(x - across * width, y - up * height) for across, up in reversed(half[:-1])]
    return right + left


def cut_below(outline: list[Point], level: float) -> list[Point]:
    """Cut an outline: keep what lies below a level line.

    Parameters
    ----------
    outline : list of pairs
        Corners in order, points; y runs downward.
    level : float
        Height of the line, points.

    Returns
    -------
    list of pairs
        Corners of the lower part, points; empty when nothing lies below.

    Examples
    --------
    >>> cut_below([(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)], 1.0)
    [(2.0, 1.0), (2.0, 2.0), (0.0, 2.0), (0.0, 1.0)]
    """
    kept: list[Point] = []
    for (x0, y0), (x1, y1) in zip(outline, outline[1:] + outline[:1], strict=True):
        if y0 >= level:
            kept.append((x0, y0))
        if (y0 < level) != (y1 < level):
            share = (level - y0) / (y1 - y0)
            kept.append((x0 + share * (x1 - x0), level))
    return kept


def draw_diver(board: Board, at: Point, length: float, towards: float) -> None:
    """Draw a diver as a head and a body, lying level and looking to one side.

    Parameters
    ----------
    board : Board
        Where to draw.
    at : pair
        Head, points.
    length : float
        Length of the body on the drawing, points.
    towards : float
        1 when the head looks to the right, -1 to the left.
    """
    x, y = at
    thick = length * 0.16
    board.circle((x, y), thick * 0.75, FIRM, "#fff")
    shoulder, hip = x - towards * thick, x - towards * length * 0.62
    board.shape(
        [(shoulder, y - thick * 0.5), (hip, y - thick * 0.4), (hip, y + thick * 0.5), (shoulder, y + thick * 0.6)], FIRM
    )
    foot = x - towards * length
    board.line([(hip, y), (foot, y - thick * 0.5)], FIRM)
    board.line([(hip, y), (foot, y + thick * 0.6)], FIRM)
