"""The pool-test sheet: what the team measures itself about bags, people and sight, with boxes to write in."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from parbuckle.brief.figures import Figures
from parbuckle.brief.frame import frame
from parbuckle.brief.press import compile_pdf


def render_pool_sheet(kit: Mapping[str, Any], written_at: str, paper: str = "a4") -> bytes:
    """Set the pool-test sheet of a kit.

    Parameters
    ----------
    kit : mapping
        ``team`` (name), ``units``, ``version``; ``bags``: rows with ``id``, ``style``, ``marked_l``, and where known
        ``really_l`` (band, litres); ``cylinders``: ids of the lifting cylinders; ``people``: names of those who dive.
    written_at : str
        When the sheet was written.
    paper : str
        ``a4`` or ``us-letter``.

    Returns
    -------
    bytes
        A tagged PDF of one or two pages for a kit of usual size.

    Raises
    ------
    CallError
        The paper is not known.
    """
    return compile_pdf("pool_sheet.typ", pool_view(kit, written_at), paper)


def pool_view(kit: Mapping[str, Any], written_at: str) -> dict[str, Any]:
    """Prepare the texts of the pool-test sheet.

    Parameters
    ----------
    kit : mapping
        As for the sheet itself.
    written_at : str
        When the sheet was written.

    Returns
    -------
    dict
        ``frame``, ``units``, ``bags``, ``cylinders`` and ``people``.

    Examples
    --------
    >>> pool_view({"bags": [{"id": "C15"}]}, "today")["bags"][0]["marked"]
    'not known'
    """
    units = "imperial" if kit.get("units") == "imperial" else "metric"
    figures = Figures(units)
    title = f"Pool test, {kit['team']}" if kit.get("team") else "Pool test"
    document = {"case": {"title": title}, "program": {"version": kit.get("version")}}
    return {
        "frame": frame(document, written_at),
        "mass_unit": "lb" if units == "imperial" else "kg",
        "volume_unit": "cu ft" if units == "imperial" else "l",
        "length_unit": "ft" if units == "imperial" else "m",
        "bags": [_bag(bag, figures) for bag in kit.get("bags") or []],
        "cylinders": [str(cylinder) for cylinder in kit.get("cylinders") or []],
        "people": [str(person) for person in kit.get("people") or []],
    }


def _bag(bag: Mapping[str, Any], figures: Figures) -> dict[str, str]:
    really = bag.get("really_l")
    return {
        "id": str(bag.get("id", "")),
        "style": str(bag.get("style") or ""),
        "marked": figures.one(bag.get("marked_l"), "volume"),
        "known": "" if really is None else figures.band(really, "volume"),
    }
