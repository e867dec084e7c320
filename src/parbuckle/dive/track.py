"""A logged dive of a diver's history: the real profile, taken in one step instead of leg by leg."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.dive.compartments import compartments
from parbuckle.dive.loading import AIR, load
from parbuckle.dive.oxygen import dose_where_known, limit_used
from parbuckle.dive.profile import Leg, Water
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen


@dataclass(frozen=True)
class Track(Frozen):
    """What a log tells of a dive.

    Parameters
    ----------
    time, depth : Floats
        Samples: s since leaving the surface, rising, and m, shape (m,), at least two.
    switches : tuple of (float, Gas)
        What is breathed, and from when, s; before the first one, and without one, air.
    """

    time: Floats
    depth: Floats
    switches: tuple[tuple[float, Gas], ...] = ()

    @property
    def lasts(self) -> float:
        """Time from leaving the surface to the last sample, s."""
        return float(self.time[-1])


def pieces(track: Track, water: Water) -> list[tuple[Leg, Floats]]:
    """Give a logged dive as straight pieces side by side, those of one gas together.

    Parameters
    ----------
    track : Track
        The logged dive.
    water : Water
        Where it was made; of several draws the heaviest.

    Returns
    -------
    list of tuple
        For each gas a leg with one column for each piece, and when these pieces end, s, shape (pieces,).
    """
    heavy = Water(water.surface.max(keepdims=True), water.density.max(keepdims=True))
    pressure = heavy.at(track.depth)
    begins = track.time[:-1]
    order = np.searchsorted([since for since, _ in track.switches], begins, side="right")
    gases = (AIR, *(gas for _, gas in track.switches))
    found = []
    for place in np.unique(order):
        mine = np.flatnonzero(order == place)
        lasts = track.time[mine + 1] - begins[mine]
        found.append((Leg(pressure[mine], pressure[mine + 1], lasts, gases[place]), track.time[mine + 1]))
    return found


def after_track(tissues: Floats, track: Track, water: Water) -> Floats:
    """Take tissues through a logged dive.

    Every law of a tissue is linear: what is left of the beginning, and of each piece what is left of it at the end, add
    up. P = P_0 2^(-t/T) + sum of P_i 2^(-(t - t_i)/T), P_i what a tissue without gas holds after piece i, t_i its end.

    Parameters
    ----------
    tissues : Floats
        Partial pressures before, Pa, shape (2, 16, n) or (2, 16, 1).
    track : Track
        The logged dive.
    water : Water
        Where it was made; of several draws the heaviest.

    Returns
    -------
    Floats
        Partial pressures after, Pa, in the shape of ``tissues``.

    Raises
    ------
    RangeError
        As for ``Leg`` and ``Water.at``.

    Notes
    -----
    Source: Schreiner's equation; the sum is own work and equals ``load`` on the same legs to rounding.

    Examples
    --------
    >>> from parbuckle.dive.loading import at_rest
    >>> sea = Water(np.array([101325.0]), np.array([1025.0]))
    >>> flat = Track(np.array([0.0, 60.0, 600.0]), np.array([0.0, 18.0, 18.0]))
    >>> bool((after_track(at_rest(101325.0), flat, sea)[0] > at_rest(101325.0)[0]).all())
    True
    """
    half = compartments().half[:, :, None]
    begun = float(track.time[0])
    total = tissues * np.exp2(-(track.lasts - begun) / half)
    empty = np.zeros((*half.shape[:2], 1))
    for piece, ends in pieces(track, water):
        kept = np.exp2(-(track.lasts - ends) / half)
        total = total + (load(empty, (piece,)) * kept).sum(axis=-1, keepdims=True)
    return np.asarray(total)


def oxygen_of(track: Track, water: Water) -> tuple[Floats | None, Floats | None]:
    """Give what a logged dive used of the day's oxygen, and its dose to the lungs.

    Parameters
    ----------
    track : Track
        The logged dive.
    water : Water
        Where it was made; of several draws the heaviest.

    Returns
    -------
    tuple of Floats or None
        Share of the exposure of a day, and dose (OTU), shape (1,); None where oxygen was beyond the tables.
    """
    legs = [piece for piece, _ in pieces(track, water)]
    doses = [dose_where_known((each,)) for each in legs]
    dose = None if any(d is None for d in doses) else np.array([sum(float(d.sum()) for d in doses if d is not None)])
    try:
        daily = np.array([sum(float(limit_used((each,), daily=True).sum()) for each in legs)])
    except RangeError:
        return None, dose
    return daily, dose
