"""A load that goes up alone, after the break-out: vent to neutral, let go, up with the crown line to the load."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.lift.restraint import line_limit
from parbuckle.physics.forces import Body
from parbuckle.physics.line import line_stiffness
from parbuckle.physics.ranges import FloatsLike, not_negative, positive
from parbuckle.physics.rise import Rise, left_alone
from parbuckle.quantity.frozen import Floats, Frozen


@dataclass(frozen=True)
class CrownProblem(Frozen):
    """The line from the crown of a bag to the load, should the bag break away.

    Parameters
    ----------
    lift : Floats
        Net lift of the full bag, N, shape (n,).
    mass : Floats
        Mass of the bag with its added mass, kg, shape (n,).
    drag_area : Floats
        Drag area of the bag, m2, shape (n,).
    density : Floats
        Water density, kg/m3, shape (n,).
    reach : Floats
        From the load to the crown of the full bag, m, shape (n,).
    length : float
        Length of the line, m.
    strength : float
        Breaking strength, N.
    stretch : float
        Stretch at the breaking load, share.
    kept : float or None
        Share that its knots keep; None: a knot.
    """

    lift: Floats
    mass: Floats
    drag_area: Floats
    density: Floats
    reach: Floats
    length: float
    strength: float
    stretch: float
    kept: float | None = None


@dataclass(frozen=True)
class PhasesProblem(Frozen):
    """The second and third phase of a load that goes up alone.

    Parameters
    ----------
    body : Body
        Load, bags and the gas with which it is let go: neutral and a little more.
    depth, end : Floats
        Depth of the load on the bottom and with the crown at the surface, m, shape (n,).
    surplus : Floats
        Lift left over at break-out that has to be let out, kg, shape (n,).
    lift_density : Floats
        Lift of one m3 of gas there, kg/m3, shape (n,).
    crown : CrownProblem or None
        The crown line; None when there is none or something of it is not known.
    """

    body: Body
    depth: Floats
    end: Floats
    surplus: Floats
    lift_density: Floats
    crown: CrownProblem | None = None


@dataclass(frozen=True)
class PhasesResult(Frozen):
    """What comes of it.

    Parameters
    ----------
    vent : Floats
        Gas to let out until it is neutral, m3 there, shape (n,).
    rise : Rise
        The way up alone, from rest.
    crown_load : Floats or None
        Pull on the crown line when a bag breaks away, N, shape (n,).
    crown_limit : float or None
        Working limit of the crown line, N.
    crown_reach : Floats or None
        From the load to the crown of the full bag, m, shape (n,).
    """

    vent: Floats
    rise: Rise
    crown_load: Floats | None
    crown_limit: float | None
    crown_reach: Floats | None


def phases(problem: PhasesProblem) -> PhasesResult:
    """Give what is let out after the break-out, the way up alone, and the pull on the crown line.

    Parameters
    ----------
    problem : PhasesProblem
        Load, gas and crown line.

    Returns
    -------
    PhasesResult
        One column for each draw.

    Notes
    -----
    Gas to let out = surplus / lift of one m3; the way up is that of the one force balance, nobody venting.
    """
    crown = problem.crown
    load = limit = None
    if crown is not None:
        slack = np.maximum(crown.length - crown.reach, 0.0)
        stiffness = line_stiffness(crown.strength, crown.stretch, crown.length)
        load = breakaway_pull(crown.lift, crown.mass, crown.drag_area, crown.density, slack, stiffness)
        limit = line_limit(crown.strength, crown.kept)[0]
    return PhasesResult(
        vent=problem.surplus / problem.lift_density,
        rise=left_alone(problem.body, problem.depth, problem.end, problem.depth),
        crown_load=load,
        crown_limit=limit,
        crown_reach=None if crown is None else crown.reach,
    )


def breakaway_pull(
    lift: FloatsLike,
    mass: FloatsLike,
    drag_area: FloatsLike,
    density: FloatsLike,
    slack: FloatsLike,
    stiffness: FloatsLike,
) -> Floats:
    """Give the pull on a crown line when its bag breaks away and rises until the line comes tight.

    v^2 = 2 L / (rho CdA) (1 - exp(-rho CdA h / m)) after a free way h; F = L + sqrt(L^2 + k m v^2).

    Parameters
    ----------
    lift : FloatsLike
        Net lift of the bag, N, any shape.
    mass : FloatsLike
        Its mass with the added mass of its gas, kg, any shape that fits.
    drag_area : FloatsLike
        Its drag area, m2, any shape that fits.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.
    slack : FloatsLike
        Way before the line comes tight, m, any shape that fits.
    stiffness : FloatsLike
        Stiffness of the line, N/m, any shape that fits.

    Returns
    -------
    Floats
        N; twice the lift without slack.

    Raises
    ------
    RangeError
        For a value that is not above zero, or a negative slack.

    Notes
    -----
    Constant force and quadratic drag, then energy of the line; the load is taken as fixed and the bag as still full, so
    it is a bound: in truth it tips and empties. Source: balance of energy.

    Examples
    --------
    >>> float(breakaway_pull(500.0, 30.0, 0.2, 1000.0, 0.0, 50e3))
    1000.0
    """
    pull, heavy = positive("lift of the bag", lift, "N"), positive("mass of the bag", mass, "kg")
    resist = positive("water density", density, "kg/m3") * positive("drag area", drag_area, "m2")
    squared = 2.0 * pull / resist * -np.expm1(-resist * not_negative("slack", slack, "m") / heavy)
    return np.asarray(pull + np.sqrt(pull**2 + positive("stiffness", stiffness, "N/m") * heavy * squared))
