"""Labels on a drawing: white behind the words, and never one over another."""

from __future__ import annotations

from collections.abc import Sequence

from parbuckle.brief.drawing import HAIR, TYPE, Board, Point

Box = tuple[float, float, float, float]  # left, top, right, bottom, points

_SIGN = 3.9  # width of a sign, points
_LARGE_SIGN = 4.7  # the same for type larger than usual, which is bold and leaves no slack
_ABOVE, _BELOW = 7.5, 2.5  # reach of a line of type over and under its base line, points
_GAP = 10.5  # from one base line to the next, points


class Labels:
    """Puts words on a board where there is room for them.

    Parameters
    ----------
    board : Board
        Where to write.
    size : float
        Type, points.
    """

    def __init__(self, board: Board, size: float = TYPE) -> None:
        self.board, self.size = board, size
        self._taken: list[Box] = []

    def keep_free(self, box: Box) -> None:
        """Keep a part of the board free of words.

        Parameters
        ----------
        box : tuple of float
            Left, top, right, bottom, points.
        """
        self._taken.append(box)

    def put(self, text: str, places: Sequence[tuple[Point, str]], bold: bool = False) -> Point | None:
        """Write words at the first place that has room for them.

        Parameters
        ----------
        text : str
            The words, one line.
        places : sequence of (pair, str)
            Base line and anchor (``start``, ``middle``, ``end``), the best one first.
        bold : bool
            Heavier type.

        Returns
        -------
        pair or None
            The base line that was taken; None when no place has room.
        """
        for at, anchor in places:
            box = _box(text, at, anchor, self.size / TYPE)
            if self._is_free(box):
                self._taken.append(box)
                self.board.shape([(box[0], box[1]), (box[2], box[1]), (box[2], box[3]), (box[0], box[3])], 0, "#fff")
                self.board.words(at, text, anchor, bold, self.size)
                return at
        return None

    def beside(self, text: str, mark: Point, sides: tuple[float, float], rows: int = 4, bold: bool = False) -> None:
        """Write words to the right or to the left of a mark, with a hair line from the mark where they stand off.

        Parameters
        ----------
        text : str
            The words, one line.
        mark : pair
            The mark, points.
        sides : tuple of float
            Where words begin at the right, and where they end at the left, points.
        rows : int
            How many lines of type they may move up or down.
        bold : bool
            Heavier type.
        """
        moves = [0.0, *(step * sign * _GAP for step in range(1, rows + 1) for sign in (1, -1))]
        right, left = sides
        ways = ((right, "start", 6.0), (left, "end", 0.0))
        tries = [((x, mark[1] + first + move), anchor) for move in moves for x, anchor, first in ways]
        at = self.put(text, tries, bold)
        if at is not None:
            end = at[0] + (-2 if at[0] >= mark[0] else 2)
            self.board.line([mark, (end, at[1] - 3)], HAIR)

    def _is_free(self, box: Box) -> bool:
        inside = box[0] >= 0 and box[1] >= 0 and box[2] <= self.board.width and box[3] <= self.board.height
        return inside and not any(_meet(box, other) for other in self._taken)


def _box(text: str, at: Point, anchor: str, larger: float) -> Box:
    wide = len(text) * (_LARGE_SIGN if larger > 1.0 else _SIGN) * larger + 3
    left = at[0] - {"start": 1.5, "middle": wide / 2, "end": wide - 1.5}[anchor]
    return left, at[1] - _ABOVE * larger, left + wide, at[1] + _BELOW * larger


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
