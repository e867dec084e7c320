"""What mud may hold, and how that falls with time: two laws with their ranges. Never a promise."""

from __future__ import annotations

import numpy as np

from parbuckle.physics.ranges import FloatsLike, Range, not_negative
from parbuckle.quantity.frozen import Floats

MUGA_TIME = 260.0
"""Minutes in Muga's law (1968, NCEL R-591; recalled form, not read)."""

_MUGA_FACTOR, _MUGA_RATE = 0.20, 0.00540  # at that time; per minute (same source)

MUGA_MINUTES = Range("minutes of steady pull", 0.0, 480.0, "min", "Muga 1968, recalled form, first hours only")

_LIU_FACTOR, _LIU_POWER = 1.5, -0.07  # Liu 1969, NCEL R-635, abstract, read

LIU_LOWEST, LIU_HIGHEST = 1e-3, 10.0
"""Open ends of the range of T/Tin in which Liu's law holds (abstract, read)."""

LIU_RATIO = Range(
    "pull time over embedded time",
    float(np.nextafter(LIU_LOWEST, 1.0)),
    float(np.nextafter(LIU_HIGHEST, 1.0)),
    "",
    "Liu 1969, NCEL R-635",
)


def muga_share(minutes: FloatsLike) -> Floats:
    """Give the share of the weight in water that soft mud may hold: F/W' = 0.20 exp(-0.00540 (t - 260)).

    Muga's law is F = 0.20 q A exp(...); for a load at rest the supporting pressure q times the area A is its weight in
    water. At once it is 0.81, after four hours of steady pull 0.24.

    Parameters
    ----------
    minutes : FloatsLike
        Time for which a steady pull is kept up, min, any shape.

    Returns
    -------
    Floats
        Share. Valid for 0 to 480 min in soft cohesive mud.

    Raises
    ------
    RangeError
        If the time lies outside.

    Notes
    -----
    Source: Muga 1968, NCEL R-591; the parameters were read in an abstract, the constants are recalled. The tests were
    made on objects of up to ten tons.

    Examples
    --------
    >>> muga_share(np.array([0.0, 260.0])).round(3).tolist()
    [0.814, 0.2]
    """
    t = MUGA_MINUTES.check(minutes)
    return np.asarray(_MUGA_FACTOR * np.exp(-_MUGA_RATE * (t - MUGA_TIME)), dtype=np.float64)


def liu_factor(pull_time: FloatsLike, embedded_time: FloatsLike) -> Floats:
    """Give the mean holding strength of the soil over its static resistance: F/Fr = 1.5 (T/Tin)^-0.07.

    Parameters
    ----------
    pull_time : FloatsLike
        Time T allowed for the pull, s, any shape.
    embedded_time : FloatsLike
        Time Tin for which it has lain in the bottom, s, same shape.

    Returns
    -------
    Floats
        Factor on the static soil resistance. Valid for 0.001 < T/Tin < 10.

    Raises
    ------
    RangeError
        If T/Tin lies outside, or the embedded time is zero.

    Notes
    -----
    Source: Liu 1969, NCEL R-635, abstract (read).

    Examples
    --------
    >>> float(liu_factor(3600.0, 3600.0))
    1.5
    """
    pull, lain = not_negative("pull time", pull_time, "s"), not_negative("embedded time", embedded_time, "s")
    ratio = np.divide(pull, lain, out=np.full(np.broadcast(pull, lain).shape, np.inf), where=lain > 0.0)
    return np.asarray(_LIU_FACTOR * LIU_RATIO.check(ratio) ** _LIU_POWER, dtype=np.float64)
