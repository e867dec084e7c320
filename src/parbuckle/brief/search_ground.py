"""The ground of a search on paper: metres east and north of the datum put on a board, north up, to one scale."""

from __future__ import annotations

import math
from collections.abc import Sequence

from parbuckle.brief.drawing import FIRM, HAIR, THIN, TYPE, Board, Point
from parbuckle.brief.figures import Figures
from parbuckle.brief.scale import scale_bar

Place = Sequence[float]
"""Metres east and north of the datum."""

_LEAST = 4.0  # shortest side of the ground that is shown, m
_ARM = 5.0  # half a datum mark, points
_NORTH = 15.0  # length of the arrow to north, points


class Ground:
    """Puts places on a board so that all that has to be seen is on it.

    Parameters
    ----------
    board : Board
        Where to draw.
    box : tuple of float
        Left, top, right, bottom of the part that is drawn on, points.
    seen : sequence of places
        What has to lie inside, metres east and north of the datum.
    """

    def __init__(self, board: Board, box: tuple[float, float, float, float], seen: Sequence[Place]) -> None:
        self.board, self.box = board, box
        left, top, right, bottom = box
        easts, norths = [float(place[0]) for place in seen], [float(place[1]) for place in seen]
        wide, tall = max(max(easts) - min(easts), _LEAST), max(max(norths) - min(norths), _LEAST)
        self.scale = min((right - left) / wide, (bottom - top) / tall)
        self._east, self._north = (max(easts) + min(easts)) / 2, (max(norths) + min(norths)) / 2
        self._middle = (left + right) / 2, (top + bottom) / 2

    def at(self, place: Place) -> Point:
        """Give the point of a place.

        Parameters
        ----------
        place : pair
            Metres east and north of the datum.

        Returns
        -------
        pair
            Points.

        Examples
        --------
        >>> Ground(Board(100, 100), (0, 0, 100, 100), [(0, 0), (10, 10)]).at((10, 10))
        (100.0, 0.0)
        """
        east, north = float(place[0]) - self._east, float(place[1]) - self._north
        return self._middle[0] + east * self.scale, self._middle[1] - north * self.scale

    def within(self, outline: Sequence[Place]) -> list[Point]:
        """Give the part of an outline that lies in the box.

        Parameters
        ----------
        outline : sequence of places
            Corners of a closed shape.

        Returns
        -------
        list of pairs
            Points; fewer than three where nothing of it is seen.
        """
        points = [self.at(place) for place in outline]
        left, top, right, bottom = self.box
        for axis, edge, sign in ((0, left, 1.0), (0, right, -1.0), (1, top, 1.0), (1, bottom, -1.0)):
            points = _cut(points, axis, edge, sign)
        return points

    def no_go(self, outlines: Sequence[Sequence[Place]]) -> None:
        """Cross out where it cannot be searched.

        Parameters
        ----------
        outlines : sequence of outlines
            Metres east and north of the datum.
        """
        for outline in outlines:
            points = self.within(outline)
            if points[2:]:
                self.board.hatch(points, (30.0, 150.0), 5.0)
                self.board.shape(points, THIN, "none")

    def datum(self, at: Point) -> None:
        """Mark the datum: a cross in a ring.

        Parameters
        ----------
        at : pair
            Points.
        """
        x, y = at
        self.board.circle(at, _ARM * 0.6, THIN, "#fff")
        self.board.line([(x - _ARM, y), (x + _ARM, y)], FIRM)
        self.board.line([(x, y - _ARM), (x, y + _ARM)], FIRM)

    def signs(self, figures: Figures, size: float = TYPE) -> None:
        """Draw the arrow to true north and the scale bar, under and beside the box.

        Parameters
        ----------
        figures : Figures
            Formats the length of the bar.
        size : float
            Type, points.
        """
        x, foot = self.board.width - size, self.board.height - 3.0
        tip = foot - _NORTH * size / TYPE
        self.board.line([(x, foot), (x, tip)], FIRM)
        self.board.shape(
            [(x, tip - 2), (x - size / 3, tip + size * 0.7), (x + size / 3, tip + size * 0.7)], HAIR, "#000"
        )
        self.board.words((x - size * 0.6, foot - 2), "N", "end", True, size)
        scale_bar(self.board, (4.0, foot - 2), self.scale, self.board.width * 0.35, figures, size)


def ring(centre: Place, radius: float, from_deg: float = 0.0, to_deg: float = 360.0) -> list[tuple[float, float]]:
    """Give the places of an arc.

    Parameters
    ----------
    centre : pair
        Metres east and north of the datum.
    radius : float
        Radius, m.
    from_deg, to_deg : float
        True bearings from the centre at which it begins and ends, deg; to one side or the other.

    Returns
    -------
    list of pairs
        Metres east and north of the datum.

    Examples
    --------
    >>> [round(x, 6) for x in ring((0, 0), 2.0, 0.0, 90.0)[-1]]
    [2.0, 0.0]
    """
    steps = max(int(abs(to_deg - from_deg) / 4.0), 2)
    turns = [math.radians(from_deg + (to_deg - from_deg) * step / steps) for step in range(steps + 1)]
    return [(centre[0] + radius * math.sin(turn), centre[1] + radius * math.cos(turn)) for turn in turns]


def _cut(points: Sequence[Point], axis: int, edge: float, sign: float) -> list[Point]:
    """Cut a shape at one side of the box; what is left lies on the side of the sign."""
    left: list[Point] = []
    for before, here in zip([*points[-1:], *points[:-1]], points, strict=True):
        was, now = (sign * (point[axis] - edge) for point in (before, here))
        if min(was, now) < 0.0 <= max(was, now):
            share = was / (was - now)
            left.append((before[0] + share * (here[0] - before[0]), before[1] + share * (here[1] - before[1])))
        if now >= 0.0:
            left.append(here)
    return left
