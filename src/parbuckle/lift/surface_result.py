"""What the surface stage answers: reserve, tow, where it grounds, and what the davit feels."""

from __future__ import annotations

from dataclasses import dataclass

from parbuckle.quantity.frozen import Floats, Frozen


@dataclass(frozen=True)
class SurfaceResult(Frozen):
    """The load at the surface.

    Parameters
    ----------
    reserve : Floats
        (capacity - required) / required, shape (n,).
    chance_reserve : float
        Share of draws that reach the reserve wanted.
    crown_height : Floats
        Crown of the bag above the water while it floats, m, shape (n,); 0 where it does not float or the height is
        not known.
    waves_over : float or None
        Share of draws in which half a wave stands higher than the crown; None when the waves are not known.
    hang : Floats or None
        Lowest point of the load below the surface, m, shape (n,).
    hang_high : float or None
        High end of the hang, m: 95 of 100.
    shallowest : float or None
        Least depth on the way, tide counted, m; None without a profile.
    grounds : tuple of (float, float) or None
        First place where the load, at the high end of its hang, comes within the clearance of the bottom: distance
        from the site and depth of the profile there, m; None when it stays clear.
    tow_drag : Floats or None
        N, shape (n,).
    tow_time : Floats or None
        Time of the tow to the shore, or to where it grounds, s, shape (n,).
    leaving : Floats
        Weight on leaving the water, kg, shape (n,).
    limit : float or None
        Limit of what takes it out, kg.
    chance_over : float or None
        Share of draws in which the weight is over the limit.
    notes : tuple of str
        What was assumed.
    """

    reserve: Floats
    chance_reserve: float
    crown_height: Floats
    waves_over: float | None
    hang: Floats | None
    hang_high: float | None
    shallowest: float | None
    grounds: tuple[float, float] | None
    tow_drag: Floats | None
    tow_time: Floats | None
    leaving: Floats
    limit: float | None
    chance_over: float | None
    notes: tuple[str, ...] = ()
