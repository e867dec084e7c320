"""The lanes and rings of a search as rows: number, headings true and magnetic, distances in metres and in feet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Any

from parbuckle.brief.figures import Figures
from parbuckle.quantity import shown
from parbuckle.quantity.rounding import THIN

_DIGITS = 3  # a mark on a line is read to three figures
_FULL_TURN = 360.0
_NARROW = ("number", "metres", "feet")  # a table with so many columns is set twice side by side
_MOST_ROWS = 8  # rows on one side of a slate
_TO_AND_FRO = ("to", "fro")
_NEARLY_FULL = 355.0  # from this on an arc counts as a whole ring, deg


def bearing(degrees: float | None) -> str:
    """Give a bearing as three figures.

    Parameters
    ----------
    degrees : float or None
        Bearing, deg.

    Returns
    -------
    str
        Such as ``005°``; empty when it is not known.

    Examples
    --------
    >>> bearing(4.7), bearing(-5.0), bearing(359.8)
    ('005°', '355°', '000°')
    """
    return "" if degrees is None else f"{round(degrees) % int(_FULL_TURN):03d}°"


def both_ways(metres: float | None, figures: Figures) -> tuple[str, str]:
    """Give a distance in the chosen system and in the other one.

    Parameters
    ----------
    metres : float or None
        Distance, m.
    figures : Figures
        Knows which system comes first.

    Returns
    -------
    tuple of str
        Both with their unit; empty when it is not known.
    """
    if metres is None:
        return "", ""
    metric, imperial = (_tenths(metres, system) for system in ("metric", "imperial"))
    return (imperial, metric) if figures.units == "imperial" else (metric, imperial)


def lane_number(leg: Mapping[str, Any]) -> int | None:
    """Give the number of a lane: among those that are searched, where the document tells it.

    Parameters
    ----------
    leg : mapping
        A leg of the document.

    Returns
    -------
    int or None
        Its ``lane``, else its ``n``; None where neither is told.

    Examples
    --------
    >>> lane_number({"n": 4, "lane": 2}), lane_number({"n": 4}), lane_number({})
    (2, 4, None)
    """
    told = leg.get("lane") or leg.get("n")
    return None if told is None else int(told)


def leg_table(pattern: Mapping[str, Any], figures: Figures) -> dict[str, Any]:
    """Give the lanes of a pattern as a table, in the order in which they are swum.

    Parameters
    ----------
    pattern : mapping
        A pattern of the document with its ``legs``.
    figures : Figures
        Formats the distances.

    Returns
    -------
    dict
        ``head`` and ``rows``: texts; lanes that are swum alike share a row.
    """
    lanes = [leg for leg in pattern.get("legs") or [] if leg.get("kind") != "shift"]
    if any(leg.get("ring") for leg in lanes):
        first = "Arc" if not any(_whole(leg) for leg in lanes) else "Ring"
        head = [first, "Line out", "", "Way round", "", "Turn"]
        return {"head": head, "rows": [_round(leg, figures) for leg in lanes]}
    known = any(leg.get("heading_mag_deg") is not None for leg in lanes)
    kicks = any(leg.get("kick_cycles") for leg in lanes)
    first = "Lane" if "lane" in str(pattern.get("pattern") or "") else "Leg"
    head = [first, "Magnetic", "True", "Length", "", "Kicks"]
    keep = [True, known, True, True, True, kicks]
    rows = [[_numbers(alike), *_straight(alike[0], figures)] for alike in _alike(lanes)]
    return {"head": _kept(head, keep), "rows": [_kept(row, keep) for row in rows]}


def slate_rows(pattern: Mapping[str, Any], figures: Figures) -> dict[str, Any]:
    """Give the lanes in the few words that fit on a slate.

    Parameters
    ----------
    pattern : mapping
        A pattern of the document with its ``legs``.
    figures : Figures
        Formats the distances.

    Returns
    -------
    dict
        ``head``, and ``sides``: the rows of each side; number, then line out (rings), or headings and length.
    """
    table = leg_table(pattern, figures)
    wanted = [place for place, word in enumerate(table["head"]) if word not in ("Way round", "Kicks", "Turn")]
    wanted = [
        place for place in wanted if place == 0 or table["head"][place] or table["head"][place - 1] != "Way round"
    ]
    short = {"Magnetic": "mag", "True": "true", "Line out": "out"}
    head = [short.get(table["head"][place], table["head"][place]) for place in wanted]
    rows = [[row[place] for place in wanted] for row in table["rows"]]
    most = _MOST_ROWS if wanted[len(_NARROW) :] else _MOST_ROWS * 2
    return {"head": head, "sides": [rows[first : first + most] for first in range(0, len(rows), most)]}


def ends_of_arcs(pattern: Mapping[str, Any]) -> list[tuple[str, str]]:
    """Give the bearings between which arcs are swum, seen from their centre.

    Parameters
    ----------
    pattern : mapping
        A pattern of the document with its ``legs``.

    Returns
    -------
    list of (str, str)
        Which arcs, and both bearings, magnetic and true; empty where all rings are whole.
    """
    lanes = [leg for leg in pattern.get("legs") or [] if leg.get("ring")]
    groups: dict[str, list[Mapping[str, Any]]] = {}
    for leg in lanes:
        if not _whole(leg):
            groups.setdefault(_between(leg), []).append(leg)
    return [
        ("Between" if len(alike) == len(lanes) else f"Ring {_numbers(alike)}", bearings)
        for bearings, alike in groups.items()
    ]


def _between(leg: Mapping[str, Any]) -> str:
    ends = leg["ring"]["from_deg"], leg["ring"]["to_deg"]
    ends = ends if ends[0] < ends[1] else ends[::-1]
    true = " to ".join(bearing(end) for end in ends) + " true"
    magnetic = leg.get("heading_mag_deg")
    if magnetic is None:
        return true
    turned = magnetic - leg["heading_true_deg"]
    return f"{' to '.join(bearing(end + turned) for end in ends)} mag, {true}"


def _tenths(metres: float, system: str) -> str:
    """Give a distance to the tenth: nobody reads a line closer."""
    text = shown.show(metres, "length", system, _DIGITS)
    _, _, decimals = text.partition(THIN)[0].partition(".")
    return text if len(decimals) <= 1 else shown.show(metres, "length", system, _DIGITS - len(decimals) + 1)


def _whole(leg: Mapping[str, Any]) -> bool:
    told = leg.get("ring") or {}
    return abs(float(told.get("to_deg", _FULL_TURN)) - float(told.get("from_deg", 0.0))) >= _NEARLY_FULL


def _round(leg: Mapping[str, Any], figures: Figures) -> list[str]:
    told = leg.get("ring") or {}
    right = told.get("to_deg", _FULL_TURN) >= told.get("from_deg", 0.0)
    out = leg.get("mark_m") if leg.get("mark_m") is not None else told.get("radius_m")
    turn = "right" if right else "left"
    return [_number(leg), *both_ways(out, figures), *both_ways(leg.get("length_m"), figures), turn]


def _straight(leg: Mapping[str, Any], figures: Figures) -> list[str]:
    kicks = leg.get("kick_cycles")
    headings = [bearing(leg.get("heading_mag_deg")), bearing(leg.get("heading_true_deg"))]
    return [*headings, *both_ways(leg.get("length_m"), figures), "" if kicks is None else str(round(kicks))]


def _alike(lanes: Sequence[Mapping[str, Any]]) -> list[list[Mapping[str, Any]]]:
    """Put lanes with one heading and one length together where the team goes to and fro and does nothing else."""
    groups: dict[tuple[str, str], list[Mapping[str, Any]]] = {}
    for leg in lanes:
        key = bearing(leg.get("heading_true_deg")), f"{leg.get('length_m') or 0.0:.1f}"
        groups.setdefault(key, []).append(leg)
    return list(groups.values()) if len(groups) <= len(_TO_AND_FRO) < len(lanes) else [[leg] for leg in lanes]


def _numbers(alike: Sequence[Mapping[str, Any]]) -> str:
    told = [_number(leg) for leg in alike]
    steps = {int(b) - int(a) for a, b in pairwise(told)} if all(told) else set()
    return f"{told[0]}, {told[1]} … {told[-1]}" if told[3:] and len(steps) == 1 else ", ".join(told)


def _number(leg: Mapping[str, Any]) -> str:
    told = lane_number(leg)
    return "" if told is None else str(told)


def _kept(cells: Sequence[str], keep: Sequence[bool]) -> list[str]:
    return [cell for cell, wanted in zip(cells, keep, strict=True) if wanted]
