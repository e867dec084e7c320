"""A dive that is over and was logged, as a case carries it: times and depths, before anything is worked out."""

from __future__ import annotations

from dataclasses import dataclass

from parbuckle.quantity.breathing import Gas


@dataclass(frozen=True, slots=True)
class PastDive:
    """One logged dive of a diver's history.

    Parameters
    ----------
    file : str
        Name of its file, with its place where the file holds several.
    start : float
        When it left the surface, s since 1970.
    time, depth : tuple of float
        Samples: s since leaving the surface, rising, and m, not above the surface.
    switches : tuple of (float, Gas)
        What is breathed, and from when, s since leaving the surface; empty: the log does not say.
    bottom_time : float
        From leaving the surface to leaving the bottom, s.
    fast : tuple of (float, float, float)
        Stretches of the way up that were too fast: fastest rate, m/s, depth at the end, m, and when, s.
    tooth : float
        Largest way up and down again, m.
    """

    file: str
    start: float
    time: tuple[float, ...]
    depth: tuple[float, ...]
    switches: tuple[tuple[float, Gas], ...]
    bottom_time: float
    fast: tuple[tuple[float, float, float], ...] = ()
    tooth: float = 0.0

    @property
    def surfaced(self) -> float:
        """When it ended, s since 1970."""
        return self.start + self.time[-1]
