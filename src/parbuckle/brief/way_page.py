"""The page of the way up (or down): what the team talks through before it goes in, and the card for a runaway."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from parbuckle.brief.ascent_picture import ascent_picture
from parbuckle.brief.control_fan import control_fan
from parbuckle.brief.control_map import control_map
from parbuckle.brief.control_view import control_view
from parbuckle.brief.figures import figures_of
from parbuckle.brief.other_ways import other_ways
from parbuckle.brief.vent_picture import vent_picture

_FAN_HEIGHTS = (
    290.0,
    230.0,
    190.0,
    150.0,
    120.0,
)  # the template takes the largest that leaves room for the rest, points
_SMALL, _ALONE = 150.0, 200.0  # heights of the supervisor's drawings, and of the way of a load alone, points


def way_page(document: Mapping[str, Any], width: float) -> dict[str, Any] | None:
    """Prepare the page of the way up: no chances in figures, one safe-side number each.

    Parameters
    ----------
    document : mapping
        The plan document.
    width : float
        Room for text and drawings, points.

    Returns
    -------
    dict or None
        ``title``, ``control``, ``line``, ``phases``, ``down``, ``fans``, and for a load that goes up alone ``alone``
        (picture) and ``circles``; None where nothing is told of a way up.
    """
    control, others = control_view(document), other_ways(document)
    if control is None and not any(others.values()):
        return None
    fans = [fan for tall in _FAN_HEIGHTS if (fan := control_fan(document, width, tall)) is not None]
    only_down = others["down"] is not None and control is None and others["line"] is None
    alone = bool(others["phases"])
    return {
        "title": "The way down" if only_down else "The way up",
        "control": control,
        **others,
        "fans": fans,
        "alone": ascent_picture(document, width, _ALONE) if alone else None,
        "circles": _circles(document) if alone else [],
    }


def _circles(document: Mapping[str, Any]) -> list[dict[str, str]]:
    circles, figures = document.get("circles") or {}, figures_of(document)
    rows = [("Keep clear below", circles.get("bottom_m")), ("May come up within", circles.get("surface_m"))]
    return [
        {
            "label": label,
            "value": figures.safe(value, "length", True),
            "other": figures.safe(value, "length", True, other=True),
        }
        for label, value in rows
        if value is not None
    ]


def control_pictures(document: Mapping[str, Any], width: float) -> list[dict[str, Any]]:
    """Draw what the supervisor looks at: venting by depth, and the map of what can be held.

    Parameters
    ----------
    document : mapping
        The plan document.
    width : float
        Room for one drawing, points.

    Returns
    -------
    list of dict
        ``svg``, ``caption`` and ``alt`` for each drawing; empty where nobody takes the load up.
    """
    if not (document.get("ascent") or {}).get("under_control"):
        return []
    drawings = [vent_picture(document, width, _SMALL), control_map(document, width, _SMALL)]
    return [drawing for drawing in drawings if drawing]
