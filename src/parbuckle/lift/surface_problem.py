"""What the surface stage is asked: the floating load, the way to the shore, and where it leaves the water."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen


@dataclass(frozen=True)
class SurfaceProblem(Frozen):
    """The load under its bags at the surface.

    Parameters
    ----------
    water_density : Floats
        kg/m3, shape (n,).
    capacity : Floats
        Lift of all bags that are filled at the surface, at their real capacity, kg, shape (n,).
    required : Floats
        Lift that the load and its rigging need, kg, shape (n,).
    leaving : Floats
        Weight on leaving the water, kg, shape (n,).
    reserve_wanted : float
        Reserve that is wanted, share of the required lift.
    bag_height : float
        Height of the bag that carries the crown line, full, m; 0 when not known.
    hang : Floats or None
        Lowest point of the load below the surface, m, shape (n,); None when not known.
    drag_area : Floats or None
        Drag area of load and bags in tow, m2, shape (n,); None when not known.
    tow_speed : Floats or None
        Speed through the water, m/s, shape (n,); None when it is not towed.
    shore_distance : float or None
        Way to the shore, m.
    profile : tuple of (float, float)
        Charted or sounded depth along that way: distance from the site, depth, m, by rising distance.
    tide : float
        Height of the tide to be added to the profile, m: the lowest of the time of the tow.
    clearance : float
        Water that is kept under the load, m.
    limit : float or None
        Limit of the davit, crane or people that take it out, kg.
    wave_height : float or None
        Height of the waves, m.
    """

    water_density: Floats
    capacity: Floats
    required: Floats
    leaving: Floats
    reserve_wanted: float
    bag_height: float = 0.0
    hang: Floats | None = None
    drag_area: Floats | None = None
    tow_speed: Floats | None = None
    shore_distance: float | None = None
    profile: tuple[tuple[float, float], ...] = ()
    tide: float = 0.0
    clearance: float = 0.0
    limit: float | None = None
    wave_height: float | None = None

    def __post_init__(self) -> None:
        """Check that the profile runs one way."""
        super().__post_init__()
        distances = [point[0] for point in self.profile]
        if any(after <= before for before, after in pairwise(distances)):
            raise RangeError("the profile to the shore must have distances that rise from point to point")
