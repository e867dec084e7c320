"""The other ways up and down as texts: bag and line, alone in its phases, lowering."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from parbuckle.brief.figures import NOT_KNOWN, Figures, figures_of

_FINGER = 0.01  # m

Rows = list[dict[str, str]]


def other_ways(document: Mapping[str, Any]) -> dict[str, Any]:
    """Prepare what is told of a lift on a line, of one that goes up alone, and of a load that is put down.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    dict
        ``line``, ``phases`` and ``down``; None or empty where the plan has none.

    Examples
    --------
    >>> other_ways({})
    {'line': None, 'phases': [], 'down': None}
    """
    ascent = document.get("ascent") or {}
    figures = figures_of(document)
    line, down = ascent.get("bag_and_line"), ascent.get("lowering")
    return {
        "line": _line(line, figures) if line else None,
        "phases": [_phase(row, figures) for row in ascent.get("phases") or []],
        "down": _down(down, figures) if down else None,
    }


def _line(told: Mapping[str, Any], figures: Figures) -> dict[str, Any]:
    people = told.get("people")
    rows = [
        ("Kept heavy by", figures.band(told.get("heavy_kg"), "mass")),
        ("On the line", figures.band(told.get("line_kg"), "mass")),
        ("Limit of the line", figures.one(told.get("line_limit_kg"), "mass")),
        ("Hauled by", _hauled(people, bool(told.get("davit")))),
    ]
    return {
        "rows": _known(rows),
        "words": _texts(told.get("words")),
        "grow": _text(told.get("bags_grow")),
        "parts": _text(told.get("if_line_parts")),
    }


def _hauled(people: int | None, davit: bool) -> str:
    if davit:
        return "a davit or a winch"
    if people is None:
        return NOT_KNOWN
    return "one person" if people == 1 else f"{people} people"


def _phase(row: Mapping[str, Any], figures: Figures) -> dict[str, Any]:
    rows = [
        ("Pull on the restraint", figures.band(row.get("tension_n"), "load")),
        ("Anchor that it needs", figures.one(row.get("anchor_n"), "load")),
        ("It rises by", _rise(row.get("rise_m"), figures)),
    ]
    name = _text(row.get("name"))
    return {
        "n": str(row.get("n") or ""),
        "name": name[:1].upper() + name[1:],
        "who": _text(row.get("who")),
        "words": _texts(row.get("words")),
        "rows": _known(rows),
    }


def _rise(band: Mapping[str, float] | None, figures: Figures) -> str:
    """Give a rise; what is less than a finger's breadth is told as that."""
    if band and band["high"] < _FINGER:
        return f"under {figures.one(_FINGER, 'length')}"
    return figures.band(band, "length")


def _down(told: Mapping[str, Any], figures: Figures) -> dict[str, Any]:
    fall = told.get("if_let_go") or {}
    speed = told.get("speed_m_min")
    rows = [
        ("Weighs", figures.band(told.get("load_kg"), "mass")),
        ("To hold back", figures.band(told.get("hold_back_n"), "load")),
        ("Down at", NOT_KNOWN if speed is None else figures.both(speed, "rate")),
        ("Gas to add, free", figures.band(told.get("gas_to_add_l"), "volume")),
        ("Held by", _hauled(told.get("people"), False)),
        ("If let go, speed", figures.band(fall.get("speed_m_s"), "rise")),
        ("If let go, down in", figures.band(fall.get("time_s"), "time")),
    ]
    return {
        "way": _text(told.get("way")),
        "rows": _known(rows),
        "words": _texts(told.get("words")),
        "fall": _text(fall.get("words")),
        "depths": [
            {
                "depth": figures.both(row.get("depth_m"), "length"),
                "gas": figures.one(row.get("gas_l"), "volume"),
                "pull": figures.one(row.get("tension_n"), "load"),
            }
            for row in told.get("by_depth") or []
        ],
    }


def _known(rows: list[tuple[str, str]]) -> Rows:
    return [{"label": label, "value": value} for label, value in rows if value != NOT_KNOWN]


def _texts(value: Any) -> list[str]:
    return [value] if isinstance(value, str) else [str(text) for text in value or []]


def _text(value: Any) -> str:
    return str(value or "")
