"""From the words and numbers of a case to the surface stage: how it goes on, what takes it out, the way ashore."""

from __future__ import annotations

import re
from dataclasses import dataclass

import numpy as np

from parbuckle.case.model import Case
from parbuckle.lift.surface_problem import SurfaceProblem
from parbuckle.physics.constants import G
from parbuckle.plan.asking import Asking
from parbuckle.quantity.errors import CaseError
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.grammar import parse

_LIMIT = re.compile(
    r"\b(?:limit(?:ed to| of| is)?|at most|up to|max(?:imum)?(?: of)?)\s*:?\s*"
    r"(?P<value>[0-9][^,;]*?\s*(?:short ton|long ton|kg|lb|kN|N|t))(?![A-Za-z0-9])",
)
_MACHINE = re.compile(r"\b(?:davit|crane|winch|hoist|derrick|a-frame)\b", re.IGNORECASE)
_HAULED = re.compile(r"\b(?:haul(?:ed|ing)?|pull(?:ed|ing)?|lifted)\b", re.IGNORECASE)
_TOWED = re.compile(r"\b(?:tow(?:ed|ing)?|swum|swim|finned)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Onward:
    """How a load goes on from the surface, as far as the words say it.

    Parameters
    ----------
    words : str
        What was written.
    lifted_out : bool
        True when it is taken out of the water by a machine or lifted.
    hauled : bool
        True when people or a boat haul it on a line.
    towed : bool
        True when it is towed or swum.
    limit : float or None
        Limit of what takes it out, kg; None when no limit was written.
    """

    words: str
    lifted_out: bool
    hauled: bool
    towed: bool
    limit: float | None


def onward(words: str | None) -> Onward:
    """Read the words that say how it goes on from the surface.

    A limit is read only after "limit", "at most", "up to" or "max", as a number with a unit of load: a weight that
    merely stands in the text is not taken for a limit.

    Parameters
    ----------
    words : str or None
        Text of the key ``surface.then``.

    Returns
    -------
    Onward
        What was found in it; nothing is guessed.

    Examples
    --------
    >>> onward("hauled alongside and lifted by the davit, limit 150 kg").limit
    150.0
    >>> onward("the 150 kg davit").limit is None
    True
    """
    text = words or ""
    machine = _MACHINE.search(text) is not None
    return Onward(
        words=text,
        lifted_out=machine or re.search(r"\blifted\b", text, re.IGNORECASE) is not None,
        hauled=_HAULED.search(text) is not None,
        towed=_TOWED.search(text) is not None,
        limit=_limit(text),
    )


def _limit(text: str) -> float | None:
    found = _LIMIT.search(text)
    if found is None:
        return None
    try:
        return parse(found["value"], "load").low / G
    except CaseError:
        return None


def surface_problem(
    case: Case,
    asking: Asking,
    *,
    water_density: Floats,
    capacity: Floats,
    required: Floats,
    leaving: Floats,
    reserve_wanted: float,
    clearance: float,
    bag_height: float = 0.0,
    hang: Floats | None = None,
    drag_area: Floats | None = None,
    tide: Floats | None = None,
) -> SurfaceProblem:
    """Translate the surface part of a case.

    Parameters
    ----------
    case : Case
        The case.
    asking : Asking
        Where inputs are drawn, and where noted what is lacking.
    water_density : Floats
        kg/m3, shape (n,).
    capacity : Floats
        Lift of all bags filled at the surface, kg, shape (n,).
    required : Floats
        Required lift, kg, shape (n,).
    leaving : Floats
        Weight on leaving the water, kg, shape (n,).
    reserve_wanted : float
        House rule: reserve, share of required.
    clearance : float
        House rule: water kept under the load on the tow, m.
    bag_height : float
        Height of the largest bag, m.
    hang : Floats, optional
        Hang of the load worked out from bag, strop and load, m; a hang given in the case goes first.
    drag_area : Floats, optional
        Drag area of load and bags, m2, shape (n,).
    tide : Floats, optional
        Height of the tide while it is towed, m, shape (n,); left out: not known.

    Returns
    -------
    SurfaceProblem
        What the stage needs.
    """
    told, shore = case.surface, case.site.shore
    deep = hang if told.hang is None else asking.ensemble.draw("surface.hang", told.hang)
    speed = None if told.tow_speed is None else asking.ensemble.draw("surface.tow_speed", told.tow_speed)
    way = onward(told.then)
    if way.lifted_out and way.limit is None:
        asking.lacks("surface.then", "surface", "What takes it out of the water has a limit: write 'limit 150 kg'.")
    if way.towed and deep is None:
        asking.lacks("surface.hang", "surface", "Where a hanging load grounds follows from how deep it hangs.")
    return SurfaceProblem(
        water_density=water_density,
        capacity=capacity,
        required=required,
        leaving=leaving,
        reserve_wanted=reserve_wanted,
        bag_height=bag_height,
        hang=deep,
        drag_area=drag_area,
        tow_speed=speed if way.towed else None,
        shore_distance=None if shore is None or shore.distance is None else shore.distance.high,
        profile=() if shore is None or not way.towed else tuple((row[0].mid, row[1].low) for row in shore.profile),
        tide=_tide(case, asking, tide) if way.towed else 0.0,
        clearance=clearance,
        limit=way.limit,
    )


def _tide(case: Case, asking: Asking, tide: Floats | None) -> float:
    """Give the lowest tide of the draws; chart datum where the profile is charted and the tide is not known."""
    if case.site.depth_how != "chart datum":
        return 0.0
    if tide is None:
        asking.lacks(
            "site.tide", "surface", "The way to the shore is charted; without the tide the lowest water is taken."
        )
        return 0.0
    return float(np.min(tide))
