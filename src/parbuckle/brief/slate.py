"""The slate: eight big lines, one safe-side number each, nothing else."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any


def slate(document: Mapping[str, Any]) -> list[dict[str, str]]:
    """Prepare the lines of the slate.

    Parameters
    ----------
    document : mapping
        The plan document; its ``slate`` holds texts that are already formatted.

    Returns
    -------
    list of dict of str to str
        ``label`` and ``value``; empty when the document has no slate.

    Examples
    --------
    >>> slate({"slate": [{"label": "Keep clear", "value": "5 m"}]})
    [{'label': 'Keep clear', 'value': '5 m'}]
    """
    return [{key: str(row.get(key) or "") for key in ("label", "value")} for row in document.get("slate") or []]
