"""Write the brief of a plan to a file: whole or not at all."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from typing import Any

from parbuckle.brief.html_page import write_brief_html
from parbuckle.brief.render import render_brief
from parbuckle.desk.writing import write_whole


def write_brief(document: Mapping[str, Any], out: Path, written_at: str | None = None, paper: str = "a4") -> None:
    """Write the brief of a plan: as PDF, or as one HTML file where the name ends in ``.html``.

    Parameters
    ----------
    document : mapping
        The plan document.
    out : Path
        The file; an older one is replaced only when the new one is whole.
    written_at : str, optional
        When it was written, as it shall stand on each page; left out: now, with the offset of the zone.
    paper : str
        ``a4`` or ``us-letter``; an HTML file has none.

    Raises
    ------
    CallError
        The folder is missing, the file cannot be written, or the paper is not known.
    """
    when = written_at or moment(datetime.now().astimezone())
    if out.suffix.casefold() in (".html", ".htm"):
        write_whole(out, write_brief_html(document, when).encode())
    else:
        write_whole(out, render_brief(document, when, paper))


def moment(when: datetime) -> str:
    """Give a moment as it stands on a page.

    Parameters
    ----------
    when : datetime
        With its zone.

    Returns
    -------
    str
        Date, hours and minutes, offset of the zone.

    Examples
    --------
    >>> moment(datetime.fromisoformat("2027-04-13T22:10:31+01:00"))
    '2027-04-13 22:10 +01:00'
    """
    text = when.isoformat(sep=" ", timespec="minutes")
    return f"{text[:16]} {text[16:]}".strip()
