"""A logged dive: depth over time, and where it was logged the temperature, the gas and the cylinders."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.physics.ranges import Range
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen

MOST_SAMPLES = 200_000
"""Most samples of one dive: more than two days at one a second. House default."""

TIME = Range("time in the dive", 0.0, 7 * 86400.0, "s", "a dive lasts a week at most")
DEPTH = Range("logged depth", -0.5, 350.0, "m", "instruments for divers; at the surface one may show a little above it")
TEMPERATURE = Range("logged temperature", 263.15, 323.15, "K", "water that is dived in, and a deck in the sun")
PRESSURE = Range("logged cylinder pressure", 0.0, 5e7, "Pa", "cylinders for divers")
VOLUME = Range("cylinder volume", 1e-4, 0.2, "m3", "cylinders for divers")


@dataclass(frozen=True)
class Series(Frozen):
    """Values at some moments of a dive.

    Parameters
    ----------
    time : Floats
        Since leaving the surface, s, shape (n,).
    value : Floats
        In SI, shape (n,).
    """

    time: Floats
    value: Floats


@dataclass(frozen=True)
class Switch:
    """A change to another breathing gas.

    Parameters
    ----------
    time : float
        Since leaving the surface, s.
    gas : Gas
        What is breathed from then on.
    """

    time: float
    gas: Gas


@dataclass(frozen=True)
class Tank(Frozen):
    """One cylinder of a logged dive.

    Parameters
    ----------
    name : str
        How the log calls it.
    gas : Gas or None
        What is in it.
    volume : float or None
        Water capacity, m3.
    pressure : Series or None
        Pressure as the gauge shows it, Pa.
    """

    name: str
    gas: Gas | None = None
    volume: float | None = None
    pressure: Series | None = None


@dataclass(frozen=True)
class Profile(Frozen):
    """A logged dive.

    Parameters
    ----------
    time : Floats
        Since leaving the surface, s, rising, shape (n,), at least two samples.
    depth : Floats
        Depth, m, positive downward, shape (n,).
    temperature : Series or None
        Of the water, K.
    switches : tuple of Switch
        Gas changes in order; one at the first sample tells what the dive began with.
    tanks : tuple of Tank
        Cylinders.
    start : str or None
        When it left the surface, ISO 8601.

    Raises
    ------
    RangeError
        For fewer than two samples or too many, times that do not rise, a value outside its range, or a value at a
        moment that has no sample.

    Notes
    -----
    Valid range: ``TIME``, ``DEPTH``, ``TEMPERATURE``, ``PRESSURE`` and ``VOLUME`` of this module.

    Examples
    --------
    >>> Profile(np.array([0.0, 60.0]), np.array([0.0, 9.0])).deepest
    9.0
    """

    time: Floats
    depth: Floats
    temperature: Series | None = None
    switches: tuple[Switch, ...] = ()
    tanks: tuple[Tank, ...] = ()
    start: str | None = None

    def __post_init__(self) -> None:
        """Check order and ranges."""
        super().__post_init__()
        if self.time.ndim != 1 or self.time.shape != self.depth.shape:
            raise RangeError("a profile needs one depth for each time")
        if not 1 < self.time.size <= MOST_SAMPLES:
            raise RangeError(f"a profile has {self.time.size} samples; 2 to {MOST_SAMPLES} are allowed")
        if not (np.diff(self.time) > 0.0).all():
            late = int(np.argmin(np.diff(self.time) > 0.0))
            raise RangeError(
                f"times must rise: {self.time[late + 1]:g} s follows {self.time[late]:g} s; one depth for each moment"
            )
        TIME.check(self.time)
        DEPTH.check(self.depth)
        if self.temperature is not None:
            TEMPERATURE.check(self.temperature.value)
            self._sampled(self.temperature.time)
        for tank in self.tanks:
            if tank.volume is not None:
                VOLUME.check(tank.volume)
            if tank.pressure is not None:
                PRESSURE.check(tank.pressure.value)
                self._sampled(tank.pressure.time)
        self._sampled(np.array([switch.time for switch in self.switches]))

    @property
    def deepest(self) -> float:
        """Greatest depth, m."""
        return float(self.depth.max())

    def _sampled(self, moments: Floats) -> None:
        if not np.isin(moments, self.time).all() or (np.diff(moments) <= 0.0).any():
            raise RangeError("a value stands at a moment that has no depth, or twice at one moment")


def gas_of(oxygen: float, helium: float = 0.0) -> Gas:
    """Name a gas by its shares, as it would be marked.

    Parameters
    ----------
    oxygen, helium : float
        Shares by volume.

    Returns
    -------
    Gas
        The shares as given; the name in whole percent.

    Raises
    ------
    RangeError
        When the shares are no numbers from 0 to 1, hold no oxygen, or are more than one whole.

    Notes
    -----
    Source: common practice in marking cylinders. 20.8 to 21 % of oxygen without helium is named air.

    Examples
    --------
    >>> gas_of(0.32).text, gas_of(0.21).text, gas_of(0.21, 0.35).text
    ('EAN32', 'air', '21/35')
    """
    if not (0.0 < oxygen <= 1.0 and 0.0 <= helium < 1.0 and oxygen + helium <= 1.0 + _SLIP):
        raise RangeError(f"{oxygen:g} oxygen and {helium:g} helium make no gas: shares of one whole, with oxygen")
    if helium > 0.0:
        return Gas(f"{oxygen * 100.0:.0f}/{helium * 100.0:.0f}", oxygen, helium)
    is_air = _AIR[0] <= oxygen <= _AIR[1]
    return Gas("air" if is_air else f"EAN{oxygen * 100.0:.0f}", oxygen, 0.0)


_SLIP = 1e-9  # what rounding may add to one whole
_AIR = (0.208, 0.21)  # what logs write for air
