"""The slates alone, as A6 sides: the slate, and the card for a runaway where somebody tends the load."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from parbuckle.brief.control_view import control_view
from parbuckle.brief.frame import frame
from parbuckle.brief.press import compile_pdf
from parbuckle.brief.slate import slate
from parbuckle.quantity.errors import CallError


def render_slates(document: Mapping[str, Any], written_at: str) -> bytes:
    """Set the A6 sides of the brief by themselves.

    Parameters
    ----------
    document : mapping
        The plan document.
    written_at : str
        When they were written, as it shall stand on each side.

    Returns
    -------
    bytes
        A tagged PDF with its fonts inside.

    Raises
    ------
    CallError
        If the plan has no slate and no card.
    """
    control, rows = control_view(document), slate(document)
    card = bool(control and control["card"])
    if not rows and not card:
        raise CallError("there is no slate to print: nothing is planned yet")
    view = {"frame": frame(document, written_at), "slate": rows, "card": card, "way": {"control": control}}
    return compile_pdf("slates.typ", view)
