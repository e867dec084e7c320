"""What a diver breathes from: how much is in it, what its gauge shows, when to turn and when to leave the bottom."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from parbuckle.physics.air import free_content, gauge_for_content
from parbuckle.physics.ranges import FloatsLike, Range, not_negative, positive
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.frozen import Floats, Frozen

HELIUM_ALLOWANCE = 0.09
"""Share by which a mix with helium is taken to fill less than air at the same pressure.

By a reference equation of state it is 3 to 9 % less for 18/45, 21/35 and 10/70 from 50 to 300 bar at 20 degC, so the
content is never overstated. Nitrox is taken as air, which understates it: by 2.5 % at most for EAN40, 4.1 % for EAN50,
13 % for oxygen. A test holds these.
"""

SHARE_RANGE = Range("share of the usable gas for the way out", 0.0, 1.0, "", "half, or a third, are usual")


@dataclass(frozen=True)
class Breathed(Frozen):
    """A set that one diver breathes from: one cylinder, twins joined by a manifold, or a stage cylinder.

    Parameters
    ----------
    capacity : float
        Water capacity of one cylinder, m3.
    gauge : Floats
        Pressure at the start at water temperature, Pa gauge, shape (n,) or (1,).
    gas : Gas
        What is in it.
    count : int
        Cylinders alike that are joined.
    temperature : float
        Temperature of the gas, K.
    surface : Floats
        Air pressure at the surface, Pa, shape (n,) or (1,).
    """

    capacity: float
    gauge: Floats
    gas: Gas
    count: int
    temperature: float
    surface: Floats

    def __post_init__(self) -> None:
        """Check the ranges."""
        super().__post_init__()
        positive("water capacity", self.capacity, "m3")
        positive("number of cylinders", float(self.count))

    @property
    def whole(self) -> float:
        """Water capacity of all cylinders, m3, less what a mix with helium does not fill."""
        return self.capacity * self.count * (1.0 - HELIUM_ALLOWANCE if self.gas.helium > 0.0 else 1.0)

    @cached_property
    def full(self) -> Floats:
        """Free gas at the start, m3, the open set counted."""
        return self.content(self.gauge)

    @cached_property
    def open(self) -> Floats:
        """Free gas that stays in the open set, m3."""
        return self.content(0.0)

    def content(self, gauge: FloatsLike) -> Floats:
        """Give the free gas that is in the set at some pressure.

        Parameters
        ----------
        gauge : FloatsLike
            Pressure, Pa gauge, one number or shape (n,).

        Returns
        -------
        Floats
            Free gas at the surface pressure, m3; the open set counts.

        Raises
        ------
        RangeError
            Outside the range of the air table (350 bar, -10 to 60 degC).

        Examples
        --------
        >>> from parbuckle.dive.loading import AIR
        >>> twins = Breathed(0.012, np.array([200e5]), AIR, 2, 293.15, np.array([101325.0]))
        >>> twins.content(200e5).round(3)
        array([4.636])
        """
        return np.atleast_1d(free_content(self.whole, gauge, self.surface, self.temperature))

    def shows(self, content: FloatsLike) -> Floats:
        """Give the pressure at which the set holds so much free gas.

        Parameters
        ----------
        content : FloatsLike
            Free gas, m3, the open set counted, one number or shape (n,).

        Returns
        -------
        Floats
            Pressure, Pa gauge.

        Raises
        ------
        RangeError
            If it is less than the open set holds, or more than goes in at 350 bar.

        Examples
        --------
        >>> from parbuckle.dive.loading import AIR
        >>> twins = Breathed(0.012, np.array([200e5]), AIR, 2, 293.15, np.array([101325.0]))
        >>> (twins.shows(twins.content(50e5)) / 1e5).round(3)
        array([50.])
        """
        return np.atleast_1d(gauge_for_content(self.whole, content, self.surface, self.temperature))


def leave_bottom(kit: Breathed, own_way_up: FloatsLike, shared: FloatsLike, least: FloatsLike) -> Floats:
    """Give the pressure at which a diver has to leave the bottom.

    Holds the larger of: own way up and then the house's least pressure; the way up of two from the worst moment.

    Parameters
    ----------
    kit : Breathed
        What the diver breathes from.
    own_way_up : FloatsLike
        Free gas for the diver's own way up, m3, one number or shape (n,).
    shared : FloatsLike
        Free gas for the way up of two, m3, one number or shape (n,), over what stays in the open set.
    least : FloatsLike
        House figure of what is left at the surface, Pa gauge.

    Returns
    -------
    Floats
        Pressure, Pa gauge, shape (n,).

    Raises
    ------
    RangeError
        If it needs more than the set holds at 350 bar.

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> from parbuckle.dive.loading import AIR
    >>> kit = Breathed(0.012, np.array([200e5]), AIR, 1, 293.15, np.array([101325.0]))
    >>> (leave_bottom(kit, 0.15, 1.2, 50e5) / 1e5).round()
    array([100.])
    """
    return kit.shows(np.maximum(own_way_up + kit.content(least), shared + kit.open))


def turn_pressure(kit: Breathed, leaving: FloatsLike, share: float = 0.5) -> Floats:
    """Give the pressure at which a diver turns back where the way back is as long as the way out.

    Content = content at leaving + (1 - share) (content at the start - content at leaving).

    Parameters
    ----------
    kit : Breathed
        What the diver breathes from.
    leaving : FloatsLike
        Pressure at which the bottom is left, Pa gauge, one number or shape (n,).
    share : float
        Share of the usable gas for the way out: a half, or a third.

    Returns
    -------
    Floats
        Pressure, Pa gauge, shape (n,).

    Raises
    ------
    RangeError
        For a share outside 0 to 1, or a start pressure below that of leaving.

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> from parbuckle.dive.loading import AIR
    >>> kit = Breathed(0.012, np.array([200e5]), AIR, 1, 293.15, np.array([101325.0]))
    >>> (turn_pressure(kit, 100e5) / 1e5).round()
    array([148.])
    """
    kept = kit.content(leaving)
    spare = not_negative("gas over that of leaving the bottom", kit.full - kept, "m3")
    return kit.shows(kept + (1.0 - SHARE_RANGE.check(share)) * spare)


def left_after(kit: Breathed, used: FloatsLike) -> tuple[Floats, Floats]:
    """Give what the gauge shows after a dive, and the gas that was missing where the set ran empty.

    Parameters
    ----------
    kit : Breathed
        What the diver breathes from.
    used : FloatsLike
        Free gas breathed, m3, one number or shape (n,).

    Returns
    -------
    tuple of Floats
        Pressure, Pa gauge, 0 where the set ran empty; missing free gas, m3, 0 where it did not; shape (n,).

    Raises
    ------
    RangeError
        For a negative amount.

    Examples
    --------
    >>> from parbuckle.dive.loading import AIR
    >>> kit = Breathed(0.012, np.array([200e5]), AIR, 1, 293.15, np.array([101325.0]))
    >>> (left_after(kit, np.array([1.0, 3.0]))[1] * 1000).round()
    array([  0., 694.])
    """
    left = kit.full - not_negative("gas breathed", used, "m3")
    return kit.shows(np.maximum(left, kit.open)), np.maximum(kit.open - left, 0.0)
