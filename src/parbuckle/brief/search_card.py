"""The search card: for each dive one page to talk through, and three A6 sides for the water. No chances on it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from parbuckle.brief.dive_rows import gauge_both
from parbuckle.brief.figures import Figures, figures_of
from parbuckle.brief.frame import frame
from parbuckle.brief.press import compile_pdf, paper_size
from parbuckle.brief.search_legs import bearing, both_ways, ends_of_arcs, leg_table, slate_rows
from parbuckle.brief.search_page import search_page
from parbuckle.brief.search_sketch import search_sketch
from parbuckle.brief.search_words import search_words
from parbuckle.quantity.errors import CallError

_MARGINS = 62.36  # both side margins together, 22 mm, points
_SKETCH = (0.58, (360.0, 310.0, 265.0, 225.0, 190.0, 160.0))  # share of the width; heights, the largest that fits
_ONLY_IF = "Only if every dive before was swum whole and found nothing. If not, work the search out again."
_SLATE_TYPE = 16.0  # points
_SLATE = (263.0, (272.0, 250.0, 228.0, 206.0, 184.0))  # room for the sketch on A6, points


def render_search_card(document: Mapping[str, Any], written_at: str, paper: str = "a4") -> bytes:
    """Set the search card: a page for each dive, the supervisor's page, then A6 sides to trace on to plastic.

    The same document, time and paper give the same bytes.

    Parameters
    ----------
    document : mapping
        The plan document with its ``search``.
    written_at : str
        When the card was written, as it shall stand on each page.
    paper : str
        ``a4`` or ``us-letter``; the slates are always A6.

    Returns
    -------
    bytes
        A tagged PDF with its fonts inside.

    Raises
    ------
    CallError
        The paper is not known, or the document holds no search that can be swum.
    """
    return compile_pdf("search_card.typ", card_view(document, written_at, paper), paper)


def card_view(document: Mapping[str, Any], written_at: str, paper: str = "a4") -> dict[str, Any]:
    """Prepare all that the card prints.

    Parameters
    ----------
    document : mapping
        The plan document with its ``search``.
    written_at : str
        When the card was written.
    paper : str
        One of the known papers.

    Returns
    -------
    dict
        ``frame``, ``dives`` (one row for each pattern that is swum) and ``search`` (the supervisor's page).

    Raises
    ------
    CallError
        The paper is not known, or the document holds no search that can be swum.
    """
    width, height = paper_size(paper)
    swum = _swum(document.get("search") or {})
    if not swum:
        raise CallError("no search card: the plan holds no search pattern that can be swum")
    room = width - _MARGINS
    return {
        "frame": {**frame(document, written_at), "width": width, "height": height},
        "dives": [_dive(title, pattern, document, room) for title, pattern in swum],
        "search": search_page(document, room),
    }


def _swum(search: Mapping[str, Any]) -> list[tuple[str, Mapping[str, Any]]]:
    """Give what is swum: the best pattern, the dives to come, and two patterns in one dive where they promise more."""
    best, pair = (search.get(key) or {} for key in ("best", "second"))
    rows = [row for row in search.get("sequence") or [] if row.get("legs")]
    if best.get("legs") and not any(row["legs"] == best["legs"] for row in rows):
        rows = [best, *rows]
    parts = [part for part in pair.get("parts") or [] if part.get("legs")]
    return [
        *((_title(row), row) for row in rows),
        *((f"Two in one dive, {n}: {part.get('pattern')}", part) for n, part in enumerate(parts, start=1)),
    ]


def _title(pattern: Mapping[str, Any]) -> str:
    dive = pattern.get("dive")
    return f"Search: {pattern.get('pattern')}" if dive is None else f"Search dive {dive}: {pattern.get('pattern')}"


def _dive(title: str, pattern: Mapping[str, Any], document: Mapping[str, Any], room: float) -> dict[str, Any]:
    search, figures = document.get("search") or {}, figures_of(document)
    (share, heights), (wide, lower) = _SKETCH, _SLATE
    sketches = [search_sketch(pattern, search, room * share, tall, figures) for tall in heights]
    return {
        "title": title,
        "team": ", ".join(_team(pattern)),
        "words": str(pattern.get("words") or ""),
        "only_if": _ONLY_IF if _is_later(pattern) else "",
        "sketches": sketches,
        "slate_sketches": [search_sketch(pattern, search, wide, tall, figures, _SLATE_TYPE) for tall in lower],
        "rows": _rows(pattern, search, figures),
        "start": _start(pattern, search, figures),
        "legs": leg_table(pattern, figures),
        "slate_legs": slate_rows(pattern, figures),
        "turn": _turn(document, pattern, figures),
        "slate_rows": _slate_rows(pattern, search, figures),
        "positions": _texts(pattern.get("positions_words")),
        "lists": _lists(pattern),
        "declination": _declination(search),
        "blocks": search_words(),
    }


def _team(pattern: Mapping[str, Any]) -> list[str]:
    return [str(who.get("name") if isinstance(who, Mapping) else who) for who in pattern.get("team") or []]


def _is_later(pattern: Mapping[str, Any]) -> bool:
    return int(pattern.get("dive") or 1) > 1


def _rows(pattern: Mapping[str, Any], search: Mapping[str, Any], figures: Figures) -> list[dict[str, str]]:
    datum = search.get("datum") or {}
    rows = [
        ("Datum", datum.get("text_dm")),
        ("", datum.get("utm")),
        ("Start", _start(pattern, search, figures)),
        ("", _position(pattern.get("start") or {})),
        *ends_of_arcs(pattern),
        ("Apart", _length(pattern.get("spacing_m"), figures)),
        ("Way", _length(pattern.get("length_m"), figures)),
        ("Time", _minutes(pattern)),
        ("Seen at", _length(search.get("seen_at_m"), figures)),
    ]
    return _named(rows)


def _named(rows: Sequence[tuple[str, Any]]) -> list[dict[str, str]]:
    return [{"label": label, "value": str(value)} for label, value in rows if value]


def _slate_rows(pattern: Mapping[str, Any], search: Mapping[str, Any], figures: Figures) -> list[dict[str, str]]:
    declination = str(search.get("declination_words") or "").split(",")[0]
    rows = [
        *ends_of_arcs(pattern),
        ("Apart", _length(pattern.get("spacing_m"), figures)),
        ("Time", _minutes(pattern)),
        ("Only if", "dives before found nothing" if _is_later(pattern) else ""),
        ("Declination", declination if search.get("declination_deg") is not None else "not known: true only"),
    ]
    return _named(rows)


def _length(metres: float | None, figures: Figures) -> str:
    first, second = both_ways(metres, figures)
    return f"{first} ({second})" if first else ""


def _minutes(pattern: Mapping[str, Any]) -> str:
    told = pattern.get("minutes")
    return "" if told is None else f"{math.ceil(told)} min"


def _position(start: Mapping[str, Any]) -> str:
    lat, lon = start.get("lat"), start.get("lon")
    if lat is None or lon is None:
        return ""
    return f"{abs(lat):.5f}° {'S' if lat < 0 else 'N'} {abs(lon):.5f}° {'W' if lon < 0 else 'E'}"


def _start(pattern: Mapping[str, Any], search: Mapping[str, Any], figures: Figures) -> str:
    """Say where it begins, as distance and bearing from the datum."""
    start = pattern.get("start") or {}
    east, north = start.get("east_m"), start.get("north_m")
    if east is None or north is None:
        return ""
    away = math.hypot(east, north)
    if both_ways(away, figures)[0].startswith("0"):
        return "at the datum"
    true, declination = math.degrees(math.atan2(east, north)), search.get("declination_deg")
    magnetic = f"{bearing(true - declination)} mag, " if declination is not None else ""
    return f"{_length(away, figures)}, {magnetic}{bearing(true)} true from the datum"


def _declination(search: Mapping[str, Any]) -> str:
    words = str(search.get("declination_words") or "")
    if search.get("declination_deg") is None:
        return (
            f"Headings are true. {words or 'The declination is not known.'} Do not put them on a compass as they are."
        )
    return f"Declination {words.rstrip('.')}. Set the magnetic heading on the compass."


def _turn(document: Mapping[str, Any], pattern: Mapping[str, Any], figures: Figures) -> list[dict[str, str]]:
    """Give the gauge at which each diver turns; empty where the plan holds no gas of a search dive."""
    dives = [dive for dive in document.get("dives") or [] if "search" in str(dive.get("does") or "")]
    place, team = int(pattern.get("dive") or 1) - 1, _team(pattern)
    divers = dives[place].get("divers") or [] if place < len(dives) else []
    told = [(str(diver["name"]), diver.get("turn_bar") or diver.get("leave_bottom_bar")) for diver in divers]
    return [
        {"name": name, "value": gauge_both(bar, figures.units)}
        for name, bar in told
        if bar is not None and (name in team or not team)
    ]


def _lists(pattern: Mapping[str, Any]) -> list[dict[str, Any]]:
    rows = [("Divers", "positions_words"), ("Snags", "snags_words"), ("Bring", "needs")]
    return [{"title": title, "words": words} for title, key in rows if (words := _texts(pattern.get(key)))]


def _texts(told: str | Sequence[str] | None) -> list[str]:
    return [told] if isinstance(told, str) and told else [str(text) for text in told or []]
