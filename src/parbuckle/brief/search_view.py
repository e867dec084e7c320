"""The search section of a document as rows of words: for the screen, and for whoever prints it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from parbuckle.brief.figures import Figures, figures_of

_FEW = 4  # other patterns that are named

Pair = tuple[str, str]
"""A label and what stands beside it."""


def search_view(document: Mapping[str, Any]) -> dict[str, Any]:
    """Give the search as rows of words.

    Parameters
    ----------
    document : mapping
        The search document, or a whole plan.

    Returns
    -------
    dict
        ``headline``: the answer in one line; ``rows``: label and text; ``foot``: what stands below.
    """
    told, figures = document.get("search"), figures_of(document)
    if not told:
        return {"headline": "Nobody has told where it may be.", "rows": [], "foot": _FOOT}
    best = told["best"]
    if not best:
        return {"headline": "No pattern can be swum in this time.", "rows": _refused(told), "foot": _FOOT}
    return {"headline": _headline(told, best, figures), "rows": _rows(told, best, figures), "foot": _FOOT}


_FOOT = [
    "Found: stop, mark it, do not lift. Not found: surface, log what was covered.",
    "Local rules and the supervisor on site come first.",
]


def _headline(told: Mapping[str, Any], best: Mapping[str, Any], figures: Figures) -> str:
    start = _where(best["start"], figures)
    return f"{best['words']} Start {start} of the datum: {_percent(best['chance'])} in {told['minutes']:.0f} min."


def _where(place: Mapping[str, Any], figures: Figures) -> str:
    """North or south, east or west, in the units of the case."""
    north, east = place["north_m"], place["east_m"]
    return (
        f"{figures.one(abs(north), 'length')} {'north' if north >= 0.0 else 'south'}, "
        f"{figures.one(abs(east), 'length')} {'east' if east >= 0.0 else 'west'}"
    )


def _rows(told: Mapping[str, Any], best: Mapping[str, Any], figures: Figures) -> list[Pair]:
    return [
        ("Start", f"{best['start']['lat']:.5f} {best['start']['lon']:.5f}; datum {told['datum']['text_dm']}."),
        ("Why", f"{_big(best['why'])}."),
        ("Bound", _bound(told, best)),
        ("Swim", _swim(best, figures)),
        *[("Divers", text) for text in best["positions_words"]],
        *[("Snags", text) for text in best["snags_words"]],
        ("Take", f"{_big(', '.join(best['needs']))}."),
        *_gas(best, figures),
        ("Seen", _seen(told, figures)),
        ("Map", f"{_big(told['map_words'])}. {told['cells']} cells of {figures.one(told['cell_m'], 'length')}."),
        *[("Told", f"{row['who']}: {row['words']}; counts {_percent(row['weight'])}.") for row in told["accounts"]],
        ("North", f"{_big(told['declination_words'])}."),
        *_second(told),
        *_others(told),
        *_refused(told),
        *_next(told, figures),
        *_proved(told),
        *([("Time", told["window"]["words"])] if told["window"] else []),
    ]


def _bound(told: Mapping[str, Any], best: Mapping[str, Any]) -> str:
    bound = told["bound"]
    return (
        f"No plan of {told['minutes']:.0f} min beats {_percent(bound['chance'])} under this law, or "
        f"{_percent(bound['definite'])} under any; this one has {_percent(best['share_of_bound'])} of the first."
    )


def _swim(best: Mapping[str, Any], figures: Figures) -> str:
    lanes = [leg for leg in best["legs"] if leg["kind"] != "shift"]
    marks = best["line_marks_m"]
    line = f"; line marked at {', '.join(figures.one(m, 'length') for m in marks)}" if marks else ""
    return (
        f"{len(lanes)} legs, {figures.one(best['length_m'], 'length')} of search, {best['turns']} turns, "
        f"{best['minutes']:.0f} min{line}."
    )


def _gas(best: Mapping[str, Any], figures: Figures) -> list[Pair]:
    rows = [f"{name} {figures.band(band, 'free_gas')}" for name, band in (best["gas_l"] or {}).items()]
    return [("Gas", f"On the pattern alone: {', '.join(rows)}.")] if rows else []


def _seen(told: Mapping[str, Any], figures: Figures) -> str:
    tried = "" if told["tried_on_sample"] else " Never tried on a sample: try it before you trust a blank."
    return (
        f"Sweep width {figures.band(told['sweep_width_m'], 'length')}, {told['sweep_words']}; "
        f"speed {figures.band(told['speed_m_s'], 'speed')}.{tried}"
    )


def _second(told: Mapping[str, Any]) -> list[Pair]:
    return [("Or two", f"{told['second']['why']}.")] if told["second"] else []


def _others(told: Mapping[str, Any]) -> list[Pair]:
    rows = [row for row in told["alternatives"] if row["chance"] is not None][:_FEW]
    text = "; ".join(f"{row['pattern']} {_percent(row['chance'])}" for row in rows)
    return [("Others", f"{text}.")] if text else []


def _refused(told: Mapping[str, Any]) -> list[Pair]:
    text = "; ".join(f"{row['pattern']}: {row['why_not']}" for row in told["alternatives"] if row["why_not"])
    return [("Not here", f"{text}.")] if text else []


def _next(told: Mapping[str, Any], figures: Figures) -> list[Pair]:
    rows = told["sequence"][1:]
    text = "; ".join(
        f"dive {row['dive']} {row['pattern']} at {_where(row['start'], figures)}, "
        f"then {_percent(row['cumulative_chance'])} in all"
        for row in rows
    )
    return [("Not found", f"{text}.")] if text else []


def _proved(told: Mapping[str, Any]) -> list[Pair]:
    proved = told["proved"]
    swum = [
        (
            "Swum",
            f"Pass {row['n']}: {row['pattern']}, {_percent(row['completed'])} of it; "
            f"it had {_percent(row['chance_it_had'])}.",
        )
        for row in told["passes"]
    ]
    return [*swum, ("Proved", proved["words"]), ("Proved", proved["stop_words"])] if proved else swum


def _big(text: str) -> str:
    return text[:1].upper() + text[1:]


def _percent(share: float) -> str:
    return f"{100.0 * share:.0f} %"
