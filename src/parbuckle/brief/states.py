"""States as shape and word: stops, what is unanswered, cautions and notes, in the order in which they matter."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

NO_STOP = "No stop found in what you told me."
"""The plain words when nothing holds; the program never says more than this."""


def holding_stops(document: Mapping[str, Any]) -> list[str]:
    """Give the texts of the stops that hold: not lifted by the supervisor.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    list of str
        One sentence each.

    Examples
    --------
    >>> holding_stops({"findings": [{"level": "stop", "text": "No gas."}, {"level": "note", "text": "x"}]})
    ['No gas.']
    """
    return [row["text"] for row in _of(document, "stop") if not row["lifted"]]


def state_rows(document: Mapping[str, Any]) -> dict[str, Any]:
    """Sort the findings of a document into what each page shows.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    dict
        ``line`` (the verdict), ``stops``, ``lifted``, ``unanswered``, ``cautions``, ``notes``: rows with ``text``,
        ``do``, ``source`` and ``lifted``.
    """
    stops = _of(document, "stop")
    line = (document.get("verdict") or {}).get("line")
    return {
        "line": line or NO_STOP,
        "stops": [row for row in stops if not row["lifted"]],
        "lifted": [row for row in stops if row["lifted"]],
        "unanswered": _of(document, "unanswered"),
        "cautions": _of(document, "caution"),
        "notes": _of(document, "note"),
    }


def _of(document: Mapping[str, Any], level: str) -> list[dict[str, str]]:
    return [_row(finding) for finding in document.get("findings") or [] if finding.get("level") == level]


def _row(finding: Mapping[str, Any]) -> dict[str, str]:
    lifted = finding.get("lifted") or {}
    return {
        "text": str(finding.get("text") or finding.get("code") or ""),
        "do": str(finding.get("do") or ""),
        "source": str(finding.get("source") or ""),
        "lifted": f"Lifted by {lifted.get('by')}: {lifted.get('reason')}" if lifted else "",
    }
