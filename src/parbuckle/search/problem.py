"""All that the search stage needs, in metres round the datum, drawn."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen

Place: TypeAlias = tuple[float, float]
"""East and north of the datum, m."""

Ring: TypeAlias = tuple[Place, ...]
"""Corners of a polygon in order; the last one joins the first."""


@dataclass(frozen=True)
class Sinking(Frozen):
    """The way down through a stream: drift, and the spread of the landing.

    Parameters
    ----------
    depth : Floats
        Height that it falls, m, shape (n,).
    fall_speed : Floats
        Speed of sinking, m/s, shape (n,).
    stream : Floats
        Mean speed of the stream over the depth, m/s, shape (n,).
    towards : Floats
        Direction that the stream sets towards, rad true, shape (n,).
    angle : float
        Angle of deviation of the half-normal landing radius, rad.
    """

    depth: Floats
    fall_speed: Floats
    stream: Floats
    towards: Floats
    angle: float


@dataclass(frozen=True)
class Account(Frozen):
    """What one person told; the base of all kinds of account.

    Parameters
    ----------
    who : str
        Who told it.
    weight : float
        How much it counts beside the others, above zero.
    sinking : Sinking or None
        Given when the place is that at the surface and it sank from there.
    """

    who: str
    weight: float
    sinking: Sinking | None


@dataclass(frozen=True)
class PointAccount(Account):
    """A place with the radius that holds it 19 times in 20: a circular normal spread.

    Parameters
    ----------
    who : str
        Who told it.
    weight : float
        How much it counts beside the others, above zero.
    sinking : Sinking or None
        Given when it sank from there through a stream.
    at : Place
        Middle, m.
    within : float
        Radius that holds 95 of 100, m.
    """

    at: Place
    within: float


@dataclass(frozen=True)
class BearingAccount(Account):
    """A direction and a distance from where the witness stood: a sector of a ring.

    Parameters
    ----------
    who : str
        Who told it.
    weight : float
        How much it counts beside the others, above zero.
    sinking : Sinking or None
        Given when it sank from there through a stream.
    stood : Place
        Where the witness stood, m.
    bearing : Floats
        Equally likely directions, rad true, shape (k,).
    distance : Floats
        Equally likely distances, m, shape (k,); none negative.
    """

    stood: Place
    bearing: Floats
    distance: Floats


@dataclass(frozen=True)
class TrackAccount(Account):
    """A line that was walked or sailed: lost anywhere along it.

    Parameters
    ----------
    who : str
        Who told it.
    weight : float
        How much it counts beside the others, above zero.
    sinking : Sinking or None
        Given when it sank from there through a stream.
    along : tuple of Place
        At least two points of the line, m.
    within : float
        Distance from the line that holds 95 of 100, m.
    """

    along: tuple[Place, ...]
    within: float


@dataclass(frozen=True)
class AreaAccount(Account):
    """A polygon: equally likely everywhere inside.

    Parameters
    ----------
    who : str
        Who told it.
    weight : float
        How much it counts beside the others, above zero.
    sinking : Sinking or None
        Given when it sank from there through a stream.
    ring : Ring
        At least three corners, m.
    """

    ring: Ring


@dataclass(frozen=True)
class Water(Frozen):
    """Where a diver can search at all.

    Parameters
    ----------
    area : tuple of Ring
        Polygons of the searchable area; empty: everywhere.
    shore_bearing : float
        Direction to the shore, rad true.
    shore_profile : tuple of tuple of float
        Pairs of distance from the datum towards the shore and depth there, m; empty: unknown. Beyond its last pair
        is land.
    depth_limit : float
        Deepest depth that may be searched, m; infinite: no limit.
    depth : float
        Depth at the datum, m.
    """

    area: tuple[Ring, ...] = ()
    shore_bearing: float = 0.0
    shore_profile: tuple[tuple[float, float], ...] = ()
    depth_limit: float = float("inf")
    depth: float = 0.0


@dataclass(frozen=True)
class SearchProblem(Frozen):
    """All that the search stage needs.

    Parameters
    ----------
    accounts : tuple of Account
        At least one.
    elsewhere : float
        Chance that it is not on the map at all, 0 to below 1.
    water : Water
        Where can be searched.
    law : str
        Law of detection, one of ``detection.LAWS``.
    p0 : float
        Chance of seeing it straight below, above 0 to 1.
    sweep_width : Floats
        Of one diver, m, shape (n,).
    speed : Floats
        Over the ground, m/s, shape (n,).
    minutes : float
        Time on the pattern with turns, min.
    visibility : Floats
        How far one sees, m, shape (n,).
    tried : bool
        True when the sweep width was measured on a sample object at this kind of place.
    divers : int
        Divers who search.
    gas_minutes : float
        Time on the bottom that the gas of the two gives, min; infinite when not known.
    stream : float
        Speed of the stream at the bottom, m/s.
    stream_towards : float
        Direction it sets towards, rad true.
    """

    accounts: tuple[Account, ...]
    elsewhere: float
    water: Water
    law: str
    p0: float
    sweep_width: Floats
    speed: Floats
    minutes: float
    visibility: Floats
    tried: bool = False
    divers: int = 2
    gas_minutes: float = float("inf")
    stream: float = 0.0
    stream_towards: float = 0.0

    def __post_init__(self) -> None:
        super().__post_init__()
        if not self.accounts:
            raise RangeError("search: no account was given; at least one is needed")
        if not (self.minutes > 0.0 and bool((self.sweep_width > 0.0).all()) and bool((self.speed > 0.0).all())):
            raise RangeError("search: minutes, sweep width and speed must be above zero")
