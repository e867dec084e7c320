"""What the stage under control answers: chances over the draws, the longest delay, the ways of some draws."""

from __future__ import annotations

from dataclasses import dataclass

from parbuckle.physics.simulate import Way
from parbuckle.physics.tended import TendedRise
from parbuckle.quantity.frozen import Bools, Floats, Frozen


@dataclass(frozen=True)
class Outcome(Frozen):
    """How some ascents ended, one column for each draw.

    Parameters
    ----------
    within : Bools
        Up, no ten-second mean above the ceiling, and not back to the bottom on the way, shape (n,).
    runaway : Bools
        At any time faster than twice the ceiling, shape (n,).
    sinks_back : Bools
        Back on the bottom, shape (n,).
    """

    within: Bools
    runaway: Bools
    sinks_back: Bools

    def shares(self) -> tuple[float, float, float]:
        """Give the three shares of the draws.

        Returns
        -------
        tuple of float
            Within the rate, runaway, sinks back.
        """
        return float(self.within.mean()), float(self.runaway.mean()), float(self.sinks_back.mean())


@dataclass(frozen=True)
class Tried(Frozen):
    """One policy or one change that was tried on the first draws.

    Parameters
    ----------
    name : str
        Its name.
    within, runaway, sinks_back : float
        Shares of the draws.
    """

    name: str
    within: float
    runaway: float
    sinks_back: float


@dataclass(frozen=True)
class TendingResult(Frozen):
    """Everything that the stage under control found.

    Parameters
    ----------
    policy : str
        The policy that the chances belong to.
    rise : TendedRise
        The ascents, one column for each draw.
    outcome : Outcome
        How they ended.
    up : Bools
        Draws whose crown reached the surface, shape (n,).
    floats : Bools
        Whether it floats after it came up, or sinks back, shape (n,); False where it did not come up.
    overshoot : Floats
        How far the bag shoots out of the water, m, shape (n,).
    policies : tuple of Tried
        Every policy on the first draws.
    changes : tuple of Tried
        What another drogue, target or people would give, on the first draws.
    delays : tuple of float
        Reaction delays tried, s.
    held : tuple of float
        Share within the rate at each of them.
    longest_delay : float or None
        Longest delay tried with the asked-for chance, s; None when none has it.
    ways : tuple of Way
        The ways of some of the first draws.
    dump : Floats
        Discharge coefficient times area of the dump, m2, shape (n,).
    can : Floats
        What the dump passes at the depths of the venting table, m3/s at ambient pressure, shape (depths, n).
    over_pressure : Floats
        Highest pressure of each bag above the water, Pa, shape (k, n).
    """

    policy: str
    rise: TendedRise
    outcome: Outcome
    up: Bools
    floats: Bools
    overshoot: Floats
    policies: tuple[Tried, ...]
    changes: tuple[Tried, ...]
    delays: tuple[float, ...]
    held: tuple[float, ...]
    longest_delay: float | None
    ways: tuple[Way, ...]
    dump: Floats
    can: Floats
    over_pressure: Floats
