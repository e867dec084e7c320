"""The brief as PDF: the view of a document goes in as data, the pages come out as bytes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from parbuckle.brief.ascent_picture import ascent_picture
from parbuckle.brief.control_view import control_view
from parbuckle.brief.dive_page import dive_pages
from parbuckle.brief.emergency_page import emergency_page
from parbuckle.brief.first_page import first_page
from parbuckle.brief.frame import frame
from parbuckle.brief.press import PAPERS, compile_pdf, paper_size
from parbuckle.brief.records_page import records_page
from parbuckle.brief.search_page import search_page
from parbuckle.brief.second_page import second_page
from parbuckle.brief.sketch import sketches
from parbuckle.brief.slate import slate
from parbuckle.brief.way_page import control_pictures, way_page

_MARGINS = 62.36  # both side margins together, 22 mm, points
_SKETCH_HEIGHTS = (
    230.0,
    160.0,
    136.0,
    118.0,
    104.0,
    94.0,
)  # the templates take the largest that leaves room for the rest, points
_PICTURE_HEIGHT = 150.0  # points


def render_brief(document: Mapping[str, Any], written_at: str, paper: str = "a4") -> bytes:
    """Set the brief: page one for everybody, the way up, the supervisor's page, the card for a runaway, the slate.

    The same document, time and paper give the same bytes.

    Parameters
    ----------
    document : mapping
        The plan document, as ``plan --json`` prints it. Any section may be absent.
    written_at : str
        When the brief was written, as it shall stand on each page.
    paper : str
        ``a4`` or ``us-letter``; the slate is always A6.

    Returns
    -------
    bytes
        A tagged PDF with its fonts inside.

    Raises
    ------
    CallError
        The paper is not known.
    """
    return compile_pdf("brief.typ", brief_view(document, written_at, paper), paper)


def brief_view(document: Mapping[str, Any], written_at: str, paper: str = "a4") -> dict[str, Any]:
    """Prepare all that the templates print: texts and drawings, nothing else.

    Parameters
    ----------
    document : mapping
        The plan document.
    written_at : str
        When the brief was written.
    paper : str
        One of the known papers.

    Returns
    -------
    dict
        ``frame`` (what stands on every page), ``first``, ``way`` (None where nothing is told of it), ``second``,
        ``search`` (None without a search), ``dives`` (one page each), ``emergency`` (None without dives),
        ``records`` (None where nothing holds) and ``slate``.

    Raises
    ------
    CallError
        The paper is not known.
    """
    width, height = paper_size(paper)
    room = width - _MARGINS
    return {
        "frame": {**frame(document, written_at), "width": width, "height": height},
        "first": {**first_page(document), "sketches": [sketches(document, room, tall) for tall in _SKETCH_HEIGHTS]},
        "way": way_page(document, room),
        "second": {
            **second_page(document),
            "picture": ascent_picture(document, room / 2 - 8, _PICTURE_HEIGHT),
            "control": control_view(document),
            "pictures": control_pictures(document, room / 2 - 8),
        },
        "search": search_page(document, room),
        "dives": dive_pages(document, room),
        "emergency": emergency_page(document),
        "records": records_page(document),
        "slate": slate(document),
    }


__all__ = ["PAPERS", "brief_view", "render_brief"]
