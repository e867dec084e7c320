"""The supervisor's page of the search: where it may be, the chances of each way, and what has been proved."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from parbuckle.brief.figures import Figures, figures_of
from parbuckle.brief.search_map import search_map

_HEIGHTS = (
    430.0,
    380.0,
    330.0,
    290.0,
    250.0,
    215.0,
    185.0,
)  # of the map; the largest that leaves room for the rest, points
_WIDE = 0.62  # share of the width that the map takes
_PERCENT = 100.0


def search_page(document: Mapping[str, Any], width: float) -> dict[str, Any] | None:
    """Prepare the page of the search.

    Parameters
    ----------
    document : mapping
        The plan document.
    width : float
        Room for text and drawings, points.

    Returns
    -------
    dict or None
        ``maps`` (one for each height), ``headline``, ``numbers``, ``sweep``, ``law``, ``window``, ``accounts``,
        ``ways``, ``dives``, ``passes``, ``proved`` and ``cautions``; None without a search.
    """
    search = document.get("search") or {}
    if not search:
        return None
    figures = figures_of(document)
    return {
        "maps": [drawn for tall in _HEIGHTS if (drawn := search_map(document, width * _WIDE, tall)) is not None],
        "headline": _sentence((search.get("best") or {}).get("why")),
        "numbers": _numbers(search, figures),
        "accounts": [_account(row, figures) for row in search.get("accounts") or []],
        "ways": _ways(search),
        "dives": [_dive(row) for row in search.get("sequence") or []],
        "passes": [_pass(row) for row in search.get("passes") or []],
        "proved": _proved(search, figures),
        "window": str((search.get("window") or {}).get("words") or ""),
        "sweep": str(search.get("sweep_words") or ""),
        "law": _sentence(search.get("law_words")),
        "cautions": [_sentence(text) for text in search.get("cautions") or []],
    }


def share(value: float | None) -> str:
    """Give a chance as whole percent, never 0 or 100 where something is left.

    Parameters
    ----------
    value : float or None
        From 0 to 1.

    Returns
    -------
    str
        Such as ``41 %``; empty when it is not known.

    Examples
    --------
    >>> share(0.4149).replace(chr(0x202F), " "), share(0.9999).replace(chr(0x202F), " ")
    ('41 %', 'over 99 %')
    """
    if value is None:
        return ""
    whole = round(_PERCENT * value)
    if whole == 0 and value > 0.0:
        return "under 1\u202f%"
    return "over 99\u202f%" if whole == round(_PERCENT) and value < 1.0 else f"{whole}\u202f%"


def _numbers(search: Mapping[str, Any], figures: Figures) -> list[dict[str, str]]:
    bound = search.get("bound") or {}
    minutes = search.get("minutes")
    told = search.get("sweep_width_m")
    rows = [
        ("On the map", share(search.get("chance_on_map"))),
        ("Elsewhere", share(search.get("elsewhere"))),
        ("Cannot be searched", share(search.get("closed_share"))),
        ("Time to search", "" if minutes is None else f"{minutes:.0f} min"),
        ("Sweep width", "" if told is None else figures.band(told, "length")),
        ("Best possible", share(bound.get("chance"))),
        ("If none is missed", share(bound.get("definite"))),
    ]
    return [{"label": label, "value": value} for label, value in rows if value]


def _account(row: Mapping[str, Any], figures: Figures) -> dict[str, str]:
    cautions = " ".join(str(text) for text in row.get("cautions") or [])
    radius = row.get("radius95_m")
    return {
        "who": str(row.get("who") or "not named"),
        "words": " ".join(text for text in (str(row.get("words") or ""), cautions) if text),
        "weight": share(row.get("weight")),
        "radius": "" if radius is None else figures.both(radius, "length"),
    }


def _ways(search: Mapping[str, Any]) -> list[dict[str, str]]:
    """Give the patterns in their order: the best first, then the others, then those that cannot be swum here."""
    rows = [search.get("best"), search.get("second"), *(search.get("alternatives") or [])]
    return [
        {
            "pattern": str(row.get("pattern") or ""),
            "chance": share(row.get("chance")),
            "of_bound": share(row.get("share_of_bound")),
            "minutes": "" if row.get("minutes") is None else f"{math.ceil(row['minutes'])} min",
            "why": _sentence(row.get("why_not") or row.get("words") or row.get("why")),
        }
        for row in rows
        if row
    ]


def _sentence(told: Any) -> str:
    text = str(told or "").rstrip(".")
    return f"{text[0].upper()}{text[1:]}." if text else ""


def _dive(row: Mapping[str, Any]) -> dict[str, str]:
    return {
        "dive": str(row.get("dive") or ""),
        "team": ", ".join(_names(row.get("team") or [])),
        "pattern": str(row.get("pattern") or ""),
        "chance": share(row.get("chance")),
        "together": share(row.get("cumulative_chance")),
    }


def _names(team: Sequence[Any]) -> list[str]:
    return [str(who.get("name") if isinstance(who, Mapping) else who) for who in team]


def _pass(row: Mapping[str, Any]) -> dict[str, str]:
    source = {"typed": "as told", "track": "from a track"}.get(str(row.get("from") or ""), str(row.get("from") or ""))
    completed = row.get("completed")
    return {
        "n": str(row.get("n") or ""),
        "pattern": str(row.get("pattern") or ""),
        "completed": share(completed) if isinstance(completed, float) else str(completed or ""),
        "chance": share(row.get("chance_it_had")),
        "from": source,
    }


def _proved(search: Mapping[str, Any], figures: Figures) -> dict[str, Any] | None:
    proved = search.get("proved") or {}
    if not proved:
        return None
    rows = [
        ("Covered", share(proved.get("covered_share"))),
        ("Not here", share(proved.get("chance_not_here"))),
        ("", f"if it can be seen at {figures.both(proved.get('not_here_if_seen_at_m'), 'length')}"),
        ("Elsewhere now", share(proved.get("elsewhere_now"))),
    ]
    return {
        "words": str(proved.get("words") or ""),
        "stop": str(proved.get("stop_words") or ""),
        "tried": "" if search.get("tried_on_sample") else "How far it can be seen was never tried on a sample object.",
        "rows": [{"label": label, "value": value} for label, value in rows if value],
    }
