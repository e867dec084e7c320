"""Hold-back and hauling: the pull when the load comes free, the anchor that it needs, and people or davit on a line."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.lift.rigging_table import design_factor, end_share
from parbuckle.physics.line import line_stiffness, sudden_load
from parbuckle.quantity.band import HIGH, at_share
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen


@dataclass(frozen=True)
class RestraintProblem(Frozen):
    """A line from load or bag to an anchor on the bottom.

    Parameters
    ----------
    surplus : Floats
        Lift left over at the instant of release, N, shape (n,), at least 0.
    full_lift : Floats
        Lift of the bags when they are full, real capacity, N, shape (n,).
    strength : float
        Breaking strength of the line, N.
    length : float
        Length of the line, m.
    stretch : float
        Stretch at breaking load, share of the length.
    slack : float
        Rise before the line comes tight, m.
    on : str
        ``load`` or ``bag``: what the line is made fast to.
    anchor : float or None
        Weight of the anchor in water, N; None when not known.
    kept : float or None
        Share of its strength that the line's knots keep, over 0 to 1; None: a knot.
    """

    surplus: Floats
    full_lift: Floats
    strength: float
    length: float
    stretch: float
    slack: float = 0.0
    on: str = "load"
    anchor: float | None = None
    kept: float | None = None


@dataclass(frozen=True)
class RestraintResult(Frozen):
    """What the hold-back feels and needs.

    Parameters
    ----------
    on_load : Floats
        Pull of a restraint on the load when it comes free, snatch counted, N, shape (n,).
    on_bag : Floats
        Pull of a restraint on the bag: the lift of the full bags, N, shape (n,).
    tension : Floats
        The one of the two that this restraint feels, N, shape (n,).
    rise : Floats
        Highest rise of the load: slack and stretch, m, shape (n,).
    snatch : Floats
        on_load over the surplus, without unit, shape (n,); 2 for a line without slack.
    anchor_needed : float
        Weight in water that the anchor must have, N: high end of the tension.
    anchor_ok : bool or None
        False when the anchor is lighter; None when it is not known.
    limit : float
        Working limit of the line, N.
    line_ok : bool
        True when the high end of the tension stays within it.
    source : str
        Where the line's factor comes from.
    """

    on_load: Floats
    on_bag: Floats
    tension: Floats
    rise: Floats
    snatch: Floats
    anchor_needed: float
    anchor_ok: bool | None
    limit: float
    line_ok: bool
    source: str


def restraint(problem: RestraintProblem) -> RestraintResult:
    """Give the pull of a hold-back when the load comes free, and the anchor that it needs.

    On the load: F = S (1 + sqrt(1 + 2 k h / S)), the surplus S applied suddenly after a slack h; stiffness of the line
    k = strength / (stretch x length). On the bag: the full lift of the bags. Rise = h + F / k. The pull is taken as
    straight up, so the anchor's weight alone holds it and its grip in the
    ground is not counted.

    Parameters
    ----------
    problem : RestraintProblem
        Surplus, bags, line and anchor.

    Returns
    -------
    RestraintResult
        Both pulls, whichever of them applies.

    Raises
    ------
    RangeError
        For another word than load or bag, or a negative surplus or slack.

    Notes
    -----
    Source: energy balance of a suddenly applied force; the stiffness of a line from its stretch at break is recalled.

    Examples
    --------
    >>> r = restraint(RestraintProblem(np.array([300.0]), np.array([900.0]), 18000.0, 3.0, 0.05, anchor=686.0))
    >>> float(r.on_load[0]), float(r.on_bag[0]), r.anchor_ok
    (600.0, 900.0, True)
    """
    if problem.on not in ("load", "bag"):
        raise RangeError(f"a restraint on {problem.on!r} is not known; allowed: load, bag")
    if (problem.surplus < 0.0).any() or problem.slack < 0.0:
        raise RangeError("surplus and slack of a restraint cannot be below 0")
    stiffness = line_stiffness(problem.strength, problem.stretch, problem.length)
    comes = problem.surplus > 0.0
    on_load = np.where(comes, sudden_load(np.where(comes, problem.surplus, 1.0), problem.slack, stiffness), 0.0)
    tension = on_load if problem.on == "load" else problem.full_lift.copy()
    high = at_share(tension, HIGH)
    limit, source = line_limit(problem.strength, problem.kept)
    return RestraintResult(
        on_load=on_load,
        on_bag=problem.full_lift.copy(),
        tension=tension,
        rise=problem.slack + tension / stiffness,
        snatch=np.divide(on_load, problem.surplus, out=np.full_like(on_load, 2.0), where=comes),
        anchor_needed=high,
        anchor_ok=None if problem.anchor is None else bool(problem.anchor >= high),
        limit=limit,
        line_ok=bool(high <= limit),
        source=source,
    )


def line_limit(strength: float, kept: float | None = None) -> tuple[float, str]:
    """Give the working limit of a line: strength x what its ends leave / design factor.

    Parameters
    ----------
    strength : float
        Breaking strength, N, over 0.
    kept : float, optional
        Share that its knots keep, over 0 to 1; left out: a knot.

    Returns
    -------
    tuple of (float, str)
        Limit, N, and the source of the factors.

    Raises
    ------
    RangeError
        When the strength is not over 0, or the share is outside its range.

    Examples
    --------
    >>> line_limit(12000.0)[0]
    1200.0
    """
    if strength <= 0.0:
        raise RangeError(f"a line strength of {strength:g} N was given; it must be over 0")
    design, ends = design_factor("line", "line"), end_share(kept)
    return strength * ends.value / design.value, f"{design.source}; {ends.source}"
