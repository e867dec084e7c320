"""What stands on every page: title, version, time written, the stops that hold, and the two lines of caution."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from parbuckle.brief.states import holding_stops

FOOTER = ("Local rules and the supervisor on site come first.", "No lift has been measured against this model.")
"""The two lines of caution, when the document does not bring its own."""


def frame(document: Mapping[str, Any], written_at: str) -> dict[str, Any]:
    """Prepare what stands on every page.

    Parameters
    ----------
    document : mapping
        The plan document.
    written_at : str
        When the page was written.

    Returns
    -------
    dict
        ``title``, ``subtitle``, ``version``, ``written``, ``stops`` and ``cautions``.

    Examples
    --------
    >>> frame({"case": {"title": "Anchor"}}, "today")["title"]
    'Anchor'
    """
    program, case, site = (document.get(key) or {} for key in ("program", "case", "site"))
    texts = [
        str(case.get("purpose") or "").capitalize(),
        site.get("name"),
        f"rules: {case['rules']}" if case.get("rules") else "",
        f"supervisor: {case['supervisor']}" if case.get("supervisor") else "",
    ]
    return {
        "title": str(case.get("title") or "Plan"),
        "subtitle": " · ".join(str(text) for text in texts if text),
        "version": f"{program.get('name') or 'parbuckle'} {program.get('version') or ''}".strip(),
        "written": written_at,
        "stops": holding_stops(document),
        "cautions": [str(text) for text in document.get("cautions_footer") or FOOTER],
    }
