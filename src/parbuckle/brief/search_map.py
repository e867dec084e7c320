"""The map of where it may be: contour lines with their shares, dots, accounts, what was covered, what is closed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from parbuckle.brief.drawing import FIRM, HAIR, THIN, Board, Point
from parbuckle.brief.figures import figures_of
from parbuckle.brief.labels import Labels
from parbuckle.brief.search_ground import Ground
from parbuckle.brief.search_sketch import leg_places

_EDGE, _FOOT = 10.0, 24.0  # points
_DOT, _ACCOUNT = 0.95, 3.4  # points
_STROKES = (FIRM * 1.2, FIRM * 0.8, THIN, HAIR)  # from the inmost contour outward


def search_map(document: Mapping[str, Any], width: float, height: float) -> dict[str, Any] | None:
    """Draw the probability map to scale, north up: each dot is an equal share of the chance.

    Parameters
    ----------
    document : mapping
        The plan document; needs ``search.contours`` or ``search.dots``.
    width, height : float
        Size of the drawing, points.

    Returns
    -------
    dict or None
        ``svg``, ``width``, ``height``, ``caption`` and ``alt``; None without a map.
    """
    search, figures = document.get("search") or {}, figures_of(document)
    contours = sorted(search.get("contours") or [], key=lambda row: float(row["share"]))
    dots = search.get("dots") or []
    seen = [place for row in contours for ring in row["rings"] for place in ring] or list(dots)
    if not seen:
        return None
    board = Board(width, height)
    ground = Ground(board, (_EDGE, _EDGE, width - _EDGE, height - _FOOT - _EDGE), seen)
    shore = ground.within(search.get("area") or [])
    if shore[2:]:
        board.shape(shore, THIN, "none")
    for dot in dots:
        board.circle(ground.at(dot), _DOT, 0.0, "#000")
    ground.no_go(search.get("closed") or [])
    labels = Labels(board)
    labels.keep_free((0.0, height - _FOOT, width, height))
    for row, stroke in zip(contours, (*_STROKES, *(HAIR for _ in contours)), strict=False):
        for ring in row["rings"]:
            board.line([ground.at(place) for place in ring], stroke)
    _lanes(board, ground, search.get("best") or {})
    _accounts(labels, ground, search.get("accounts") or [])
    if _inside(ground.at((0.0, 0.0)), ground):
        x, y = ground.at((0.0, 0.0))
        ground.datum((x, y))
        labels.keep_free((x - 5, y - 5, x + 5, y + 5))
        labels.put("datum", [((x, y + 14), "middle"), ((x, y - 8), "middle"), ((x + 7, y + 3), "start")], True)
    for row in contours:
        _share(labels, ground, row)
    ground.signs(figures)
    return {**board.drawing(), "caption": _caption(search), "alt": _alt(contours)}


def _inside(point: Point, ground: Ground) -> bool:
    left, top, right, bottom = ground.box
    return left <= point[0] <= right and top <= point[1] <= bottom


def _lanes(board: Board, ground: Ground, best: Mapping[str, Any]) -> None:
    for leg in best.get("legs") or []:
        if leg.get("kind") != "shift":
            points = [ground.at(place) for place in leg_places(leg)]
            if all(_inside(point, ground) for point in points):
                board.line(points, HAIR, "4 3")


def _accounts(labels: Labels, ground: Ground, accounts: Sequence[Mapping[str, Any]]) -> None:
    """Mark the middle of each account by a triangle with the name of who told it."""
    board = labels.board
    for account in accounts:
        east, north = account.get("centre_east_m"), account.get("centre_north_m")
        if east is None or north is None or not _inside(ground.at((east, north)), ground):
            continue
        x, y = ground.at((east, north))
        size = _ACCOUNT
        board.shape([(x, y - size), (x + size, y + size * 0.8), (x - size, y + size * 0.8)], FIRM)
        labels.keep_free((x - size, y - size, x + size, y + size))
        places = [((x + 7, y + 3), "start"), ((x - 7, y + 3), "end"), ((x, y - 7), "middle"), ((x, y + 14), "middle")]
        labels.put(str(account.get("who") or "account").split(",")[0], places)


def _share(labels: Labels, ground: Ground, row: Mapping[str, Any]) -> None:
    """Write the share of a contour on its line, where there is room."""
    longest: Sequence[Sequence[float]] = max(row["rings"], key=len, default=[])
    points = [ground.at(place) for place in longest]
    text = f"{100 * row['share']:.0f}\u202f%"
    low_first = sorted(points, key=lambda point: -point[1])
    labels.put(text, [((x, y + 3), "middle") for x, y in low_first[:: max(len(points) // 24, 1)]], True)


def _caption(search: Mapping[str, Any]) -> str:
    lanes = " Broken lines: the lanes of the next search." if (search.get("best") or {}).get("legs") else ""
    crossed = " Crossed: cannot be searched." if search.get("closed") else ""
    first = "It lies inside a line with the chance written on it, if it is on the map. Dots: equal chances."
    return f"{first}{lanes}{crossed}"


def _alt(contours: Sequence[Mapping[str, Any]]) -> str:
    shares = ", ".join(f"{100 * row['share']:.0f} %" for row in contours)
    return f"Map to scale of where it may be, with lines at {shares} of the chance."
