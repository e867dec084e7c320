"""The search of a case, by itself: where to start, how to swim it, what chance that has, what has been proved."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from parbuckle.quantity.errors import CallError, CaseError, RangeError

_ALWAYS = ("stop", "unanswered")
_ABOUT = (
    "accounts_alike",
    "assumed_defaults",
    "cold_hands",
    "coverage_gaps",
    "distance_judged",
    "line_near_traffic",
    "no_comms",
    "pattern_outside",
    "search_gas_short",
    "search_window_short",
    "snag_told",
    "stream_across_pattern",
    "sweep_untried",
    "traffic_told",
)
_NOTHING = "there is no search to write: the case has no [[account]] and no search area"


def search(path: Path, minutes: float | None = None, draws: int = 1024, seed: int = 1) -> dict[str, Any]:
    """Read a case and give what the search comes to.

    Parameters
    ----------
    path : Path
        The case file.
    minutes : float, optional
        Time on the pattern with turns, min; left out: as the case says.
    draws : int
        Number of draws.
    seed : int
        Seed.

    Returns
    -------
    dict
        ``search``, ``findings`` and what stands around them; the same bytes for the same call.

    Raises
    ------
    CaseError
        If something in the files is written wrongly.
    """
    from parbuckle.case.located import located
    from parbuckle.desk.reading import whole_case
    from parbuckle.plan.make_search import make_search

    loaded = whole_case(path)
    try:
        return _part(make_search(loaded, minutes, draws, seed).document)
    except (CaseError, RangeError) as error:
        raise located(error, path) from error


def _part(document: Mapping[str, Any]) -> dict[str, Any]:
    """Keep every stop and every open question, and of the rest what is about a search."""
    findings = [row for row in document["findings"] if row["level"] in _ALWAYS or row["code"] in _ABOUT]
    return {**document, "findings": findings}


def write_card(document: Mapping[str, Any], out: Path, written_at: str | None = None, paper: str = "a4") -> None:
    """Write the search card as PDF.

    Parameters
    ----------
    document : mapping
        The search document, or a whole plan.
    out : Path
        The file; an older one is replaced only when the new one is whole.
    written_at : str, optional
        When it was written; left out: now.
    paper : str
        ``a4`` or ``us-letter``.

    Raises
    ------
    CallError
        If there is no search, or the file cannot be written.
    """
    from datetime import datetime

    from parbuckle.brief.search_card import render_search_card
    from parbuckle.desk.briefing import moment
    from parbuckle.desk.writing import write_whole

    if not document.get("search"):
        raise CallError(_NOTHING)
    when = written_at or moment(datetime.now().astimezone())
    write_whole(out, render_search_card(document, when, paper))


def export(document: Mapping[str, Any], out: Path) -> None:
    """Write datum, lines of the map, legs and marks to a file that other programs read.

    Parameters
    ----------
    document : mapping
        The search document, or a whole plan.
    out : Path
        Ends in ``.gpx``, ``.kml``, ``.geojson`` or ``.csv``.

    Raises
    ------
    CallError
        If the ending is not known, there is no search, or the file cannot be written.
    """
    from parbuckle.brief.exchange import WRITERS
    from parbuckle.desk.writing import write_whole

    writer = WRITERS.get(out.suffix.casefold())
    if writer is None:
        raise CallError(f"{out.name}: no such kind of file; allowed are {', '.join(WRITERS)}")
    if not document.get("search"):
        raise CallError(_NOTHING)
    from parbuckle.plan.search_places import places_of

    write_whole(out, writer(document, places_of(document["search"])).encode())
