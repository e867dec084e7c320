"""A lift with people on it: what goes up, who tends it, and what comes of it, one column for each member."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from parbuckle.physics.forces import Body
from parbuckle.physics.tender import ON_THE_LOAD, Tender
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Bools, Floats, Frozen, Numbers

STAYS, SURFACE, BOTTOM, OUT_OF_TIME = 0, 1, 2, 3
"""How it ends: never left the bottom, crown at the surface, back on the bottom, still on its way at the time limit."""

MEAN_OVER = 10.0
"""Time over which the mean speed is taken, s."""


@dataclass(frozen=True)
class Line(Frozen):
    """An elastic line from above to the load: hauled, held, or paid out at a steady speed.

    Parameters
    ----------
    stiffness : Floats
        N/m over its length, shape (n,), above 0.
    paid : Floats
        Depth of the load at which it is just tight at the start, m, shape (n,).
    paying : Floats
        Speed at which it is paid out, m/s, shape (n,); negative while it is hauled.
    """

    stiffness: Floats
    paid: Floats
    paying: Floats


@dataclass(frozen=True)
class Tended(Frozen):
    """A lift with people on it, one column for each member.

    Parameters
    ----------
    body : Body
        Load, bags and gas at the start; isothermal.
    depth : Floats
        Depth of the load at the start, m, shape (n,).
    rise : Floats
        Speed upward at the start, m/s, shape (n,).
    surface : Floats
        Depth of the load at which the crown is at the surface, m, shape (n,).
    bottom : Floats
        Depth of the load on the bottom, m, shape (n,).
    height : Floats
        Height of each full bag, m, shape (k, n): the column of gas under its dump when full.
    relief_area : Floats
        Discharge coefficient times area of each closed bag's relief valve, m2, shape (k, n); infinite where it keeps
        the relief pressure whatever comes, as for all open bags.
    tenders : tuple of Tender
        Who is on it: on a bag, or on the load.
    line : Line or None
        Line from above; None for none.
    limit : float
        Time at which it is given up, s, 1 to 36,000.
    step : float
        Longest step of the integrator, s, 0.01 to 0.5.
    """

    body: Body
    depth: Floats
    rise: Floats
    surface: Floats
    bottom: Floats
    height: Floats
    relief_area: Floats
    tenders: tuple[Tender, ...]
    line: Line | None = None
    limit: float = 1800.0
    step: float = 0.4

    def __post_init__(self) -> None:
        """Check the ranges."""
        super().__post_init__()
        bags, n = self.body.capacity.shape
        if self.body.gamma != 1.0:
            raise RangeError("a tended lift keeps its gas at water temperature: gamma must be 1")
        if np.any(self.depth < self.surface) or np.any(self.depth > self.bottom):
            raise RangeError("the load starts above the surface mark or below the bottom")
        if not (_LIMITS[0] <= self.limit <= _LIMITS[1] and _STEPS[0] <= self.step <= _STEPS[1]):
            raise RangeError(
                f"given limit {self.limit:g} s and step {self.step:g} s, allowed {_LIMITS[0]:g} to {_LIMITS[1]:g} s "
                f"and {_STEPS[0]:g} to {_STEPS[1]:g} s"
            )
        for tender in self.tenders:
            if not ON_THE_LOAD <= tender.bag < bags:
                raise RangeError(f"a tender holds bag {tender.bag}, there are {bags}")
        sizes = {tender.delay.size for tender in self.tenders} | {self.depth.size, self.height.shape[-1], n}
        if sizes != {n} or self.height.shape != self.body.capacity.shape != self.relief_area.shape:
            raise RangeError("the columns of a tended lift, its body and its tenders must have one length")
        if self.line is not None and not (self.line.stiffness > 0.0).all():
            raise RangeError("the stiffness of a line must be above 0 N/m")

    @property
    def size(self) -> int:
        """Number of members."""
        return self.depth.size

    def take(self, lanes: Numbers | Bools | slice) -> Tended:
        """Give the lift for some of the members only.

        Parameters
        ----------
        lanes : Numbers, Bools or slice
            Which columns.

        Returns
        -------
        Tended
            The same fields, fewer columns.
        """
        columns = {name: getattr(self, name)[..., lanes] for name in _COLUMNS}
        line = self.line
        if line is not None:
            line = Line(line.stiffness[lanes], line.paid[lanes], line.paying[lanes])
        body = self.body.take(np.arange(self.size)[lanes])
        return replace(self, body=body, tenders=tuple(t.take(lanes) for t in self.tenders), line=line, **columns)


@dataclass(frozen=True)
class TendedRise(Frozen):
    """What came of it, one column for each member.

    Parameters
    ----------
    end : Floats
        STAYS, SURFACE, BOTTOM or OUT_OF_TIME, shape (n,).
    time : Floats
        Time of the end, s, shape (n,).
    speed : Floats
        Speed upward at the end, m/s, shape (n,).
    max_speed : Floats
        Highest speed upward on the way, m/s, shape (n,).
    max_mean : Floats
        Highest mean speed upward over any ten seconds, m/s, shape (n,); before the start it lay still.
    min_depth : Floats
        Least depth that the load reached, m, shape (n,).
    end_depth : Floats
        Depth of the load at the end, m, shape (n,).
    spilled, vented, added : Floats
        Gas lost over the mouth or at once through relief, let out by dumps and by relief valves of known bore, and put
        in: free m3 at the surface pressure, shape (n,).
    tension : Floats
        Highest tension of the line, N, shape (n,); 0 without one.
    gas : Floats
        Gas in each bag at the end, as free m3 at the surface pressure, shape (k, n).
    over_pressure : Floats
        Highest pressure of each bag above the water at its interface, Pa, shape (k, n).
    pulls : Floats
        How often each tender opened his dump, shape (t, n).
    let_go : Floats
        When each tender let go, s, shape (t, n); infinite where he held on.
    steps : Floats
        Steps taken, shape (n,).
    """

    end: Floats
    time: Floats
    speed: Floats
    max_speed: Floats
    max_mean: Floats
    min_depth: Floats
    end_depth: Floats
    spilled: Floats
    vented: Floats
    added: Floats
    tension: Floats
    gas: Floats
    over_pressure: Floats
    pulls: Floats
    let_go: Floats
    steps: Floats


_LIMITS = (1.0, 36_000.0)  # s
_STEPS = (0.01, 0.5)  # s; the mean speed is sampled every half second, and not more than once in a step
_COLUMNS = ("depth", "rise", "surface", "bottom", "height", "relief_area")
