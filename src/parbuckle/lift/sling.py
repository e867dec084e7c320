"""Geometry of slings: leg tension, how high the pick point stands, unequal legs and tilt."""

from __future__ import annotations

import math
from dataclasses import dataclass

from parbuckle.lift.rigging_problem import RiggingItem
from parbuckle.lift.rigging_table import rigging_table
from parbuckle.quantity.errors import RangeError

RIGHT_ANGLE = math.pi / 2
"""A vertical leg, rad from horizontal."""


@dataclass(frozen=True, slots=True)
class Hung:
    """How a load hangs from two legs.

    Parameters
    ----------
    first, second : float
        Tension of each leg over the weight, without unit.
    first_angle, second_angle : float
        Angle of each leg from horizontal, rad, as it hangs.
    tilt : float
        Tilt of the load, rad; positive when the second end hangs lower.
    reach : float
        Pick point above the line through the lift points, m, measured square to that line.
    """

    first: float
    second: float
    first_angle: float
    second_angle: float
    tilt: float
    reach: float


def leg_share(angle: float, legs: float = 1.0) -> float:
    """Give the tension of one leg over the weight it holds with its like.

    T / W = 1 / (n sin(angle))

    Parameters
    ----------
    angle : float
        Angle between leg and horizontal, rad, over 0 and up to pi/2.
    legs : float
        Legs that carry; with three or more rigid legs, two.

    Returns
    -------
    float
        Tension of one leg / weight, without unit.

    Raises
    ------
    RangeError
        Outside the range of the angle, or with less than one leg.

    Notes
    -----
    Source: statics; the printed sling tables are mis-rounded in three places, so it is computed and not copied.

    Examples
    --------
    >>> round(leg_share(math.radians(60)), 3), round(leg_share(math.radians(30), 2), 3)
    (1.155, 1.0)
    """
    if not 0.0 < angle <= RIGHT_ANGLE:
        raise RangeError(f"sling angle {math.degrees(angle):.1f} deg was given; allowed: over 0 and up to 90 deg")
    if legs < 1.0:
        raise RangeError(f"{legs:g} legs were given; at least 1 is needed")
    return 1.0 / (legs * math.sin(angle))


def mode_factor(off_vertical: float, legs: float) -> float:
    """Give what several legs hold together over what one holds straight.

    M = n cos(off_vertical)

    Parameters
    ----------
    off_vertical : float
        Angle of each leg from vertical, rad, 0 to under pi/2.
    legs : float
        Legs that carry.

    Returns
    -------
    float
        Mode factor, without unit.

    Raises
    ------
    RangeError
        Outside the range of the angle, or with less than one leg.

    Notes
    -----
    Source: explains the factors of EN 1492: 1.4 and 1.0 for two legs at 45 and 60 degrees, 2.1 and 1.5 for three.

    Examples
    --------
    >>> round(mode_factor(math.radians(45), 2), 3)
    1.414
    """
    return 1.0 / leg_share(RIGHT_ANGLE - off_vertical, legs)


def hung(span: float, first: float, second: float, off_middle: float = 0.0, below: float = 0.0) -> Hung:
    """Hang a load from two legs of given lengths: the pick point comes to stand over the centre of gravity.

    With the middle of the span as origin, x along the load and y square to it: the pick point stands at
    x = (first^2 - second^2) / (2 span), y = sqrt(first^2 - (x + span/2)^2); tension from the balance along both legs.

    Parameters
    ----------
    span : float
        Distance between the two lift points, m, over 0.
    first, second : float
        Lengths of the legs, m.
    off_middle : float
        Centre of gravity off the middle of the span towards the second leg, m.
    below : float
        Centre of gravity below the line through the lift points, m.

    Returns
    -------
    Hung
        Tensions over the weight, angles, tilt and reach.

    Raises
    ------
    RangeError
        When the legs do not reach, or one of them would go slack.

    Notes
    -----
    Source: statics of a body on two legs.

    Examples
    --------
    >>> h = hung(1.0, 1.0, 1.0)
    >>> round(h.first, 4), round(math.degrees(h.first_angle), 6), h.tilt
    (0.5774, 60.0, 0.0)
    """
    if span <= 0.0 or first + second <= span:
        raise RangeError(f"legs of {first:g} m and {second:g} m do not reach over {span:g} m between the lift points")
    x = (first**2 - second**2) / (2.0 * span)
    square = first**2 - (x + span / 2.0) ** 2
    if square <= 0.0:
        raise RangeError(f"legs of {first:g} m and {second:g} m do not meet over {span:g} m between the lift points")
    y = math.sqrt(square)
    if y + below <= 0.0:
        raise RangeError("the centre of gravity lies above the pick point: the load would turn over")
    tilt = math.atan2(off_middle - x, y + below)
    up = (-math.sin(tilt), math.cos(tilt))
    one, two = ((x + span / 2.0) / first, y / first), ((x - span / 2.0) / second, y / second)
    both = _cross(one, two)
    shares = _cross(up, two) / both, _cross(one, up) / both
    if min(shares) <= 0.0:
        raise RangeError("the centre of gravity lies outside the two legs: one leg goes slack")
    angles = [math.asin(min(1.0, leg[0] * up[0] + leg[1] * up[1])) for leg in (one, two)]
    return Hung(shares[0], shares[1], angles[0], angles[1], tilt, y)


def hang_item(item: RiggingItem) -> Hung | None:
    """Hang a load from the two sides of a sling item.

    Parameters
    ----------
    item : RiggingItem
        A sling with two legs or more (two carry), or a basket.

    Returns
    -------
    Hung or None
        None for a single leg, or when length or spread is not known.

    Raises
    ------
    RangeError
        When the legs do not reach.
    """
    basket = item.hitch == "basket"
    if not basket and item.legs <= 1:
        return None
    if item.length is None or item.spread is None:
        return None
    if item.spread <= 0.0:
        side = item.length / 2.0 if basket else item.length
        return Hung(0.5, 0.5, RIGHT_ANGLE, RIGHT_ANGLE, 0.0, side)
    first = (item.length - item.spread) / 2.0 if basket else item.length
    second = first if basket or item.second_length is None else item.second_length
    return hung(item.spread, first, second, item.off_middle, item.below)


def strop_reach(item: RiggingItem) -> float:
    """Give how far a sling puts the pick point above the load's lift points.

    Straight legs: sqrt(L^2 - (spread/2)^2). Basket: side = (L - spread) / 2, then the same. Choke: L / 2, which assumes
    that about half of the sling goes round the load. Two unknown sides stand at the flattest leg that is allowed.

    Parameters
    ----------
    item : RiggingItem
        A sling, or a line used as one.

    Returns
    -------
    float
        Height, m; 0 when the length is not known.

    Raises
    ------
    RangeError
        When the legs do not reach.

    Notes
    -----
    Source: geometry; the half for a choke is an assumption of ours.

    Examples
    --------
    >>> round(strop_reach(RiggingItem("R2", "sling", legs=2, spread=1.1, length=1.5)), 3)
    1.396
    >>> strop_reach(RiggingItem("W1", "sling", hitch="choke", length=2.0))
    1.0
    """
    if item.length is None:
        return 0.0
    if item.hitch == "choke":
        return item.length / 2.0
    pair = hang_item(item)
    if pair is not None:
        return pair.reach * math.cos(pair.tilt)
    if item.hitch == "basket":
        return item.length / 2.0 * math.sin(math.radians(rigging_table()["angle"]["spread_unknown"]))
    if item.legs > 1:
        return item.length * math.sin(math.radians(rigging_table()["angle"]["spread_unknown"]))
    return item.length


def _cross(a: tuple[float, float], b: tuple[float, float]) -> float:
    return a[0] * b[1] - a[1] * b[0]
