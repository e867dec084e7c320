"""What the load stage is asked: estimates of what it is, its spaces, and the bed it lies in."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from parbuckle.load.bottoms import Bottom
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen

METHODS = ("parts", "shape", "known", "balance", "trial")
"""Ways to come to a weight."""


@dataclass(frozen=True)
class Estimate(Frozen):
    """One estimate of the load, by one person or one list, one value for each draw.

    Parameters
    ----------
    by : str
        Who or what gave it.
    how : str
        How it was come by, in the words of the case.
    method : str
        One of ``METHODS``.
    mass : Floats
        Dry mass, kg, shape (n,); for an estimate made in the water a stand-in by the wide default density.
    displaced : Floats
        Volume of water pushed aside by what is solid or sealed, gas in spaces included, m3, shape (n,).
    envelope : Floats
        Outer volume that moves water: ``displaced`` and the gaps inside a measured outline, m3, shape (n,).
    in_water : bool
        True when only the weight in water was found.
    wet : Floats
        Weight in water, kg, shape (n,); negative when it floats.
    """

    by: str
    how: str
    method: str
    mass: Floats
    displaced: Floats
    envelope: Floats
    in_water: bool
    wet: Floats

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.method not in METHODS:
            raise RangeError(f'estimate by {self.by}: method "{self.method}" is none of {", ".join(METHODS)}')


@dataclass(frozen=True)
class Combination(Frozen):
    """How several estimates become one.

    Parameters
    ----------
    weights : tuple of float
        One for each estimate in the stage's own order (method, by, how); none negative, sum 1.
    agree : bool
        False when two differ by more than their bands allow.
    disagreement_kg : float
        Largest difference of two means in water, kg.
    variance : float
        Variance of the combined weight in water, kg2.
    """

    weights: tuple[float, ...]
    agree: bool
    disagreement_kg: float
    variance: float


@dataclass(frozen=True)
class LoadProblem(Frozen):
    """All that the load stage needs, drawn.

    Parameters
    ----------
    water_density : Floats
        kg/m3, shape (n,).
    ambient_pressure : Floats
        Absolute pressure at the bottom, Pa, shape (n,).
    estimates : tuple of Estimate
        At least one.
    gas_in_cavities : Floats
        Gas in spaces that are not flooded, at the bottom's pressure, m3, shape (n,); the estimates' ``displaced`` holds
        it already.
    cavity_volume : Floats
        All spaces, m3, shape (n,).
    flooded_cavity : Floats
        Water in the spaces, m3, shape (n,).
    bottom : Bottom
        What it lies on.
    footprint : Floats
        Area that touches the bottom, m2, shape (n,).
    buried : Floats
        Depth to which it has sunk in, m, shape (n,).
    days : Floats
        Days it has lain there, shape (n,).
    shear : Floats or None
        Undrained shear strength of the bottom, Pa, shape (n,); None when not measured.
    breakout_u : Floats
        Uniform of the break-out, shape (n,).
    which_u : Floats
        Uniform that picks an estimate where they disagree, shape (n,).
    mud_share : Floats
        Share of the mud over the footprint that comes along, shape (n,).
    void_share : Floats
        Share of the gaps inside a measured outline that holds water, shape (n,).
    combination : Combination or None
        Given when the draws are too few to find it (one draw for the middle of all inputs).
    sources : tuple of str
        Sources of the numbers behind the estimates.
    """

    water_density: Floats
    ambient_pressure: Floats
    estimates: tuple[Estimate, ...]
    gas_in_cavities: Floats
    cavity_volume: Floats
    flooded_cavity: Floats
    bottom: Bottom
    footprint: Floats
    buried: Floats
    days: Floats
    shear: Floats | None
    breakout_u: Floats
    which_u: Floats
    mud_share: Floats
    void_share: Floats
    combination: Combination | None = None
    sources: tuple[str, ...] = field(default=())

    def __post_init__(self) -> None:
        super().__post_init__()
        if not self.estimates:
            raise RangeError("load: no estimate was given; at least one is needed")
        if bool(np.any(self.water_density <= 0.0)):
            raise RangeError("load: the density of the water must be above zero")
