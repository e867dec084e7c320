"""A load on a line from above: what the line and the people on it hold, under water and when it leaves the water."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.lift.restraint import line_limit
from parbuckle.lift.rigging_table import dynamic_factor, rigging_table
from parbuckle.quantity.band import HIGH, at_share
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen


@dataclass(frozen=True)
class HaulProblem(Frozen):
    """A load that is hauled on a line, with or without a bag that takes most of its weight.

    Parameters
    ----------
    under_water : Floats
        Weight on the line under water, N, shape (n,): the weight in water less what bags lift.
    leaving : Floats or None
        Weight on leaving the water, N, shape (n,), when the same line takes it out; else None.
    strength : float or None
        Breaking strength of the line, N; None when not known.
    people : int or None
        People who can pull; None when not known.
    sea : str
        ``calm`` or ``waves``.
    kept : float or None
        Share of its strength that the line's knots keep, over 0 to 1; None: a knot.
    """

    under_water: Floats
    leaving: Floats | None = None
    strength: float | None = None
    people: int | None = None
    sea: str = "calm"
    kept: float | None = None

    def __post_init__(self) -> None:
        """Check the signs."""
        super().__post_init__()
        if (self.under_water < 0.0).any():
            raise RangeError("the weight on a haul line is below 0: the load would float and needs no hauling")


@dataclass(frozen=True)
class HaulResult(Frozen):
    """What line and people hold.

    Parameters
    ----------
    tension : Floats
        Pull on the line, the larger of under water and leaving the water, dynamic factor counted, N, shape (n,).
    tension_high : float
        High end of it, N.
    people_needed : int
        People on the line for the high end.
    hand_limit : float or None
        What the people that are there can hold, N.
    limit : float or None
        Working limit of the line, N.
    line_ok : bool or None
        True when the high end stays within it.
    by_hand : bool or None
        True when the people that are there are enough; else it needs a davit, a winch or a bag.
    source : str
        Where the factors come from.
    """

    tension: Floats
    tension_high: float
    people_needed: int
    hand_limit: float | None
    limit: float | None
    line_ok: bool | None
    by_hand: bool | None
    source: str


def hauling(problem: HaulProblem) -> HaulResult:
    """Give the pull on a haul line and the people that it needs.

    Pull = the larger of weight under water and leaving weight, times the dynamic factor of the surface; people = pull /
    steady pull of one person, rounded up. Drag at hauling speed is left out: at 0.2 m/s and a drag area of 0.5 m2 it is
    under a tenth of a person's pull.

    Parameters
    ----------
    problem : HaulProblem
        Weights, line and people.

    Returns
    -------
    HaulResult
        The pull as draws, the rest for its high end.

    Notes
    -----
    Source: dynamic factor: engineering judgement; pull of a person: common practice, recalled.

    Examples
    --------
    >>> h = hauling(HaulProblem(np.array([300.0]), strength=12000.0, people=2))
    >>> h.people_needed, h.by_hand, h.limit
    (3, False, 1200.0)
    """
    factor, one = dynamic_factor(problem.sea), rigging_table()["haul"]
    heaviest = problem.under_water if problem.leaving is None else np.maximum(problem.under_water, problem.leaving)
    tension = heaviest * factor.value
    high = at_share(tension, HIGH)
    limit, source = (None, "") if problem.strength is None else line_limit(problem.strength, problem.kept)
    hand = None if problem.people is None else problem.people * float(one["person"])
    return HaulResult(
        tension=tension,
        tension_high=high,
        people_needed=int(np.ceil(high / one["person"])),
        hand_limit=hand,
        limit=limit,
        line_ok=None if limit is None else bool(high <= limit),
        by_hand=None if hand is None else bool(high <= hand),
        source="; ".join(text for text in (source, factor.source, one["source"]) if text),
    )
