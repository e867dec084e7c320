"""At the surface: reserve of lift, crown over the waves, where a hanging load grounds, the tow, and the davit."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from parbuckle.lift.surface_problem import SurfaceProblem
from parbuckle.lift.surface_result import SurfaceResult
from parbuckle.physics.drag import drag_force
from parbuckle.quantity.band import HIGH, at_share
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats


def surface(problem: SurfaceProblem) -> SurfaceResult:
    """Answer what happens between "it floats" and "it is out of the water".

    reserve = (capacity - required) / required; crown = height of the bag x (1 - required / capacity), as for an upright
    bag of one cross-section; it grounds where depth + tide = hang + clearance; drag = 1/2 rho CdA v^2;
    time = way / speed.

    Parameters
    ----------
    problem : SurfaceProblem
        Lift, load, way to the shore and limits.

    Returns
    -------
    SurfaceResult
        Bands are left as draws.

    Raises
    ------
    RangeError
        When the required lift is not over 0, or a tow speed is not over 0.

    Notes
    -----
    Source: statics and the drag law; the rule that half a wave height may not pass the crown is common practice.

    Examples
    --------
    >>> one, way = np.array([1.0]), ((0.0, 20.0), (100.0, 0.0))
    >>> out = surface(SurfaceProblem(1025 * one, 60 * one, 40 * one, 70 * one, 0.2, hang=3.5 * one, profile=way))
    >>> float(out.reserve[0]), out.grounds
    (0.5, (82.5, 3.5))
    """
    if not (problem.required > 0.0).all():
        raise RangeError("the required lift must be over 0 kg: a load that floats by itself needs no bag")
    reserve = problem.capacity / problem.required - 1.0
    spare = np.maximum(problem.capacity - problem.required, 0.0)
    crown = problem.bag_height * np.divide(spare, problem.capacity, out=np.zeros_like(spare), where=spare > 0.0)
    hang_high = None if problem.hang is None else at_share(problem.hang, HIGH)
    grounds = None if hang_high is None else grounding(problem.profile, hang_high + problem.clearance, problem.tide)
    drag, time = _tow(problem, grounds)
    return SurfaceResult(
        reserve=reserve,
        chance_reserve=_share(reserve >= problem.reserve_wanted),
        crown_height=crown,
        waves_over=None if problem.wave_height is None else _share(crown < problem.wave_height / 2.0),
        hang=problem.hang,
        hang_high=hang_high,
        shallowest=min(depth for _, depth in problem.profile) + problem.tide if problem.profile else None,
        grounds=grounds,
        tow_drag=drag,
        tow_time=time,
        leaving=problem.leaving,
        limit=problem.limit,
        chance_over=None if problem.limit is None else _share(problem.leaving > problem.limit),
        notes=_notes(problem),
    )


def grounding(
    profile: tuple[tuple[float, float], ...], draught: float, tide: float = 0.0
) -> tuple[float, float] | None:
    """Find the first place on the way where the load touches the bottom.

    Straight lines between the points of the profile; nothing is read beyond its ends.

    Parameters
    ----------
    profile : tuple of (float, float)
        Distance from the site and depth, m, by rising distance.
    draught : float
        Depth that the load needs, m.
    tide : float
        Height of the tide added to every depth, m.

    Returns
    -------
    tuple of (float, float) or None
        Distance and depth of the profile there, m; None when it never touches.

    Examples
    --------
    >>> grounding(((0.0, 23.0), (200.0, 13.0), (420.0, 0.5)), 3.5)
    (367.2, 3.5)
    >>> grounding(((0.0, 23.0), (200.0, 13.0), (420.0, 0.5)), 3.5, tide=4.1) is None
    True
    """
    needed = draught - tide
    if profile and profile[0][1] < needed:
        return profile[0]
    for (before, deep), (after, shallow) in pairwise(profile):
        if shallow < needed:
            return before + (deep - needed) / (deep - shallow) * (after - before), needed
    return None


def _tow(problem: SurfaceProblem, grounds: tuple[float, float] | None) -> tuple[Floats | None, Floats | None]:
    if problem.tow_speed is None:
        return None, None
    if not (problem.tow_speed > 0.0).all():
        raise RangeError("the tow speed must be over 0 m/s")
    drag = (
        None if problem.drag_area is None else drag_force(problem.water_density, problem.drag_area, problem.tow_speed)
    )
    way = problem.shore_distance if grounds is None else grounds[0]
    return drag, None if way is None else way / problem.tow_speed


def _share(hits: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]) -> float:
    return float(np.count_nonzero(hits)) / hits.size


def _notes(problem: SurfaceProblem) -> tuple[str, ...]:
    notes = []
    if problem.profile and problem.hang is None:
        notes.append("How deep the load hangs is not known: where it grounds is not answered.")
    if problem.tow_speed is not None and problem.drag_area is not None:
        notes.append("Tow drag counts no waves and no shallow water: close to the bottom it can be several times more.")
    return tuple(notes)
