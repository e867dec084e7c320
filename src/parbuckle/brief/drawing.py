"""A small drawing board: lines, shapes, hatches and words in points, black only, as one SVG text."""

from __future__ import annotations

import math
from collections.abc import Sequence
from xml.sax.saxutils import escape

Point = tuple[float, float]

FIRM, THIN, HAIR = 1.3, 0.6, 0.35
"""Stroke widths, points."""

TYPE = 9.0
"""Type in a drawing, points."""

_FONT = "Source Sans Pro"


class Board:
    """Collects the elements of one drawing and gives them as SVG.

    Parameters
    ----------
    width, height : float
        Size of the sheet, points; nothing is scaled afterwards.
    """

    def __init__(self, width: float, height: float) -> None:
        self.width, self.height = width, height
        self._elements: list[str] = []
        self._clips = 0

    def line(self, points: Sequence[Point], width: float = THIN, dash: str = "") -> None:
        """Draw a line through points.

        Parameters
        ----------
        points : sequence of pairs
            x to the right, y downward, points.
        width : float
            Stroke width, points.
        dash : str
            Dash pattern, empty for a whole line.
        """
        dashed = f' stroke-dasharray="{dash}"' if dash else ""
        self._elements.append(
            f'<polyline points="{_list(points)}" fill="none" stroke="#000" stroke-width="{width}"{dashed}/>'
        )

    def shape(self, points: Sequence[Point], width: float = THIN, fill: str = "#fff") -> None:
        """Draw a closed shape.

        Parameters
        ----------
        points : sequence of pairs
            Corners, points.
        width : float
            Stroke width, points.
        fill : str
            White, black or ``none``.
        """
        self._elements.append(
            f'<polygon points="{_list(points)}" fill="{fill}" stroke="#000" stroke-width="{width}"'
            f' stroke-linejoin="round"/>'
        )

    def circle(self, centre: Point, radius: float, width: float = THIN, fill: str = "none", dash: str = "") -> None:
        """Draw a circle.

        Parameters
        ----------
        centre : pair
            Centre, points.
        radius : float
            Radius, points.
        width : float
            Stroke width, points.
        fill : str
            White, black or ``none``.
        dash : str
            Dash pattern, empty for a whole line.
        """
        dashed = f' stroke-dasharray="{dash}"' if dash else ""
        self._elements.append(
            f'<circle cx="{centre[0]:.2f}" cy="{centre[1]:.2f}" r="{radius:.2f}" fill="{fill}" stroke="#000"'
            f' stroke-width="{width}"{dashed}/>'
        )

    def hatch(self, outline: Sequence[Point], angles: Sequence[float] = (45.0,), gap: float = 4.0) -> None:
        """Hatch the inside of a shape.

        Parameters
        ----------
        outline : sequence of pairs
            Corners, points.
        angles : sequence of float
            Directions of the lines, degrees.
        gap : float
            Distance between lines, points.
        """
        self._clips += 1
        name = f"c{self._clips}"
        xs, ys = [x for x, _ in outline], [y for _, y in outline]
        middle = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
        reach = math.hypot(max(xs) - min(xs), max(ys) - min(ys)) / 2 + gap
        self._elements.append(f'<clipPath id="{name}"><polygon points="{_list(outline)}"/></clipPath>')
        path = "".join(_strokes(middle, reach, math.radians(angle), gap) for angle in angles)
        self._elements.append(
            f'<g clip-path="url(#{name})"><path d="{path}" stroke="#000" stroke-width="{HAIR}" fill="none"/></g>'
        )

    def words(self, at: Point, text: str, anchor: str = "start", bold: bool = False, size: float = TYPE) -> None:
        """Write a short text.

        Parameters
        ----------
        at : pair
            Where the base line begins, ends or has its middle, points.
        text : str
            The text, written as it is.
        anchor : str
            ``start``, ``middle`` or ``end``.
        bold : bool
            Heavier type.
        size : float
            Type, points.
        """
        weight = ' font-weight="600"' if bold else ""
        self._elements.append(
            f'<text x="{at[0]:.2f}" y="{at[1]:.2f}" font-family="{_FONT}" font-size="{size}" text-anchor="{anchor}"'
            f"{weight}>"
            f"{escape(text)}</text>"
        )

    def drawing(self) -> dict[str, str | float]:
        """Give the drawing with its size.

        Returns
        -------
        dict
            ``svg``, and ``width`` and ``height`` in points.
        """
        return {"svg": self.svg(), "width": self.width, "height": self.height}

    def svg(self) -> str:
        """Give the drawing.

        Returns
        -------
        str
            A whole SVG document.

        Examples
        --------
        >>> Board(10.0, 5.0).svg()[:4]
        '<svg'
        """
        size = (
            f'width="{self.width:.2f}pt" height="{self.height:.2f}pt" viewBox="0 0 {self.width:.2f} {self.height:.2f}"'
        )
        return f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{"".join(self._elements)}</svg>'


def _list(points: Sequence[Point]) -> str:
    return " ".join(f"{x:.2f},{y:.2f}" for x, y in points)


def _strokes(middle: Point, reach: float, angle: float, gap: float) -> str:
    along, across = (math.cos(angle), -math.sin(angle)), (math.sin(angle), math.cos(angle))
    count = math.ceil(reach / gap)
    strokes = []
    for number in range(-count, count + 1):
        x, y = middle[0] + across[0] * number * gap, middle[1] + across[1] * number * gap
        run, rise = along[0] * reach, along[1] * reach
        strokes.append(f"M{x - run:.2f} {y - rise:.2f}L{x + run:.2f} {y + rise:.2f}")
    return "".join(strokes)
