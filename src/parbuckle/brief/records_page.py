"""The page of what must be written down and who must be told, with the limits that hold; each with its source."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from parbuckle.quantity.shown import clock

_SOURCE = {"read": "read on", "recalled": "recalled", "common practice": "", "own": "of"}


def records_page(document: Mapping[str, Any]) -> dict[str, Any] | None:
    """Prepare the page of records and notices.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    dict or None
        ``whose`` (a line), ``notices`` (what, to, when, due, source), ``records`` (what, contains, keep, source),
        ``limits`` (value, meaning, source) and ``roles``; None where nothing holds.

    Examples
    --------
    >>> records_page({}) is None
    True
    """
    told = document.get("regime")
    if not told or not any(told[key] for key in ("limits", "roles", "records", "notices")):
        return None
    place = f" in {told['country']}" if told["country"] else "; the kit names no country"
    return {
        "whose": f"Rules for {told['rules']} diving{place}. Local law comes first; the texts age.",
        "notices": [_notice(row) for row in told["notices"]],
        "records": [_record(row) for row in told["records"]],
        "limits": [_limit(row) for row in told["limits"]],
        "roles": [{"role": row["role"], "source": row["source"]} for row in told["roles"]],
    }


def _notice(row: Mapping[str, Any]) -> dict[str, str]:
    return {
        "what": row["what"],
        "to": row["to"] or "whom: not told",
        "when": row["within"] if row["within"] == "at once" else f"{row['within']} {row['counts']}",
        "due": _due(row),
        "source": _from(row),
    }


def _due(row: Mapping[str, Any]) -> str:
    if row["due"] is None:
        return ""
    return f"{'before' if row['counts'] == 'before the lift' else 'until'} {clock(row['due'], with_date=True)}"


def _record(row: Mapping[str, Any]) -> dict[str, Any]:
    keep = f"Keep: {row['keep']}." if row["keep"] else ""
    return {"what": row["what"], "contains": row["contains"], "keep": keep, "source": _from(row)}


def _limit(row: Mapping[str, Any]) -> dict[str, str]:
    instead = f" Instead of {row['instead_of']}." if row["instead_of"] else ""
    return {"value": row["value"], "meaning": f"{row['meaning']}{instead}", "source": _from(row)}


def _from(row: Mapping[str, Any]) -> str:
    """Source and date in one line; of one's own, who set it."""
    if row["mark"] == "common practice":
        return "common practice"
    by = f"{row['by']}: " if row["by"] else ""
    return f"{by}{row['source']}, {_SOURCE[row['mark']]} {row['date']}"
