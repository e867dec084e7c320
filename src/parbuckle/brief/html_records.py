"""Records and notices in HTML: who must be told until when, what is written down, which limits hold."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from parbuckle.brief.html_words import paragraphs, part, say, tag


def records(page: Mapping[str, Any]) -> str:
    """Give the records and notices.

    Parameters
    ----------
    page : mapping
        ``records`` of the brief's view.

    Returns
    -------
    str
        HTML.
    """
    notices = "".join(_notice(row) for row in page["notices"])
    kept = "".join(_record(row) for row in page["records"])
    roles = "".join(
        tag("li", f"<b>{say(row['role'])}</b> <small>{say(row['source'])}</small>") for row in page["roles"]
    )
    limits = "".join(
        tag("li", f"<b>{say(row['value'])}</b> {say(row['meaning'])} <small>{say(row['source'])}</small>")
        for row in page["limits"]
    )
    parts = (
        ("Who must be told", notices),
        ("What is written down", kept),
        ("Roles that every dive must have", roles),
        ("Limits that hold", limits),
    )
    return paragraphs([page["whose"]]) + "".join(part(title, tag("ul", rows)) for title, rows in parts if rows)


def _notice(row: Mapping[str, str]) -> str:
    when = " · ".join(text for text in (row["when"], row["due"]) if text)
    told = f"<b>{say(row['what'])}</b><br>Tell {say(row['to'])}. <b>{say(when)}</b> <small>{say(row['source'])}</small>"
    return tag("li", told)


def _record(row: Mapping[str, Any]) -> str:
    contains = f"<br>{say(', '.join(row['contains']))}" if row["contains"] else ""
    keep = f"<br>{say(row['keep'])}" if row["keep"] else ""
    return tag("li", f"<b>{say(row['what'])}</b>{contains}{keep} <small>{say(row['source'])}</small>")
