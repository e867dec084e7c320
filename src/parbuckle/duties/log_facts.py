"""What the rules look at of a dive that is over and was logged; a field that is left out means "not known"."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class LogFacts:
    """One logged dive.

    Parameters
    ----------
    label : str
        How findings call it: the name of its file.
    fast : tuple of (float, float, float)
        Stretches of the way up that were too fast: fastest rate, m/s, depth at the end, m, and when, s.
    tooth : float
        Largest way up and down again, m.
    over_limit, over_ceiling : float
        Largest share of what the model itself allows; and how long the ceiling of the plan's factor was passed, s.
    factor : float or None
        That factor.
    bottom_time : float
        From leaving the surface to leaving the bottom, s.
    table_limit : float or None
        No-stop limit of the table, s; infinite without one; None without an answer.
    table_why : str
        Why the table has no answer.
    oxygen : float or None
        Highest oxygen pressure, Pa.
    exposure : float or None
        Share of the single oxygen exposure; infinite where no time is allowed.
    gas_told : bool
        True when the log names a gas.
    planned : bool
        True when a planned dive belongs to it.
    planned_time, planned_depth : float or None
        Long end of the planned bottom time, s, and deep end of its depth, m.
    deepest : float
        Deepest depth, m.
    missed : tuple of (float, float, float)
        Stops that were not made: depth, m, planned time and time that was made, s.
    leave, leaving : float or None
        Pressure to leave the bottom at, as planned, and as it was, Pa gauge.
    counts_for : str
        Who made it, where it counts as a dive before the plan's own; empty where it stands beside its plan.
    """

    label: str
    fast: tuple[tuple[float, float, float], ...] = ()
    tooth: float = 0.0
    over_limit: float = 0.0
    over_ceiling: float = 0.0
    factor: float | None = None
    bottom_time: float = 0.0
    table_limit: float | None = None
    table_why: str = ""
    oxygen: float | None = None
    exposure: float | None = None
    gas_told: bool = True
    planned: bool = True
    planned_time: float | None = None
    planned_depth: float | None = None
    deepest: float = 0.0
    missed: tuple[tuple[float, float, float], ...] = ()
    leave: float | None = None
    leaving: float | None = None
    counts_for: str = ""
