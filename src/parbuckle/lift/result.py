"""What the lift stage answers: the bags and their filling, the gas, the ascent left alone and the methods compared."""

from __future__ import annotations

from dataclasses import dataclass

from parbuckle.lift.choose import Choice
from parbuckle.physics.rise import Rise
from parbuckle.quantity.frozen import Bools, Floats, Frozen


@dataclass(frozen=True)
class FillStep(Frozen):
    """One bag to be filled, in the order of filling.

    Parameters
    ----------
    bag : str
        Id of the bag.
    fill : str
        ``full`` or ``part`` on the bottom, ``empty`` when carried up and filled at the surface.
    volume : Floats
        Gas put in at that place, m3, shape (n,).
    mark : float
        Where filling stops at the latest: volume to be read on the bag, m3.
    seconds : float
        Counted seconds to that volume, likely; 0 when no flow is known.
    gauge : Floats or None
        What the lift cylinder's gauge should read afterwards, Pa, its error included, shape (n,).
    """

    bag: str
    fill: str
    volume: Floats
    mark: float
    seconds: float
    gauge: Floats | None


@dataclass(frozen=True)
class Supply(Frozen):
    """Lift gas: what is needed, what there is.

    Parameters
    ----------
    bag_volume : Floats
        Gas at the bags' depth that makes the load neutral, m3, shape (n,).
    one_try : Floats
        Free gas of one try with spill, m3 at surface pressure and water temperature, shape (n,).
    free_gas : Floats
        All of it: every try, spill, top-up, m3, shape (n,).
    top_up : Floats
        Free gas for bags filled at the surface, m3, shape (n,).
    usable : Floats or None
        Free gas from start pressure to what no longer fills there, m3, shape (n,).
    pressure_after : Floats or None
        Gauge pressure left after all of it, Pa, shape (n,).
    """

    bag_volume: Floats
    one_try: Floats
    free_gas: Floats
    top_up: Floats
    usable: Floats | None
    pressure_after: Floats | None


@dataclass(frozen=True)
class Control(Frozen):
    """Closed forms of control for the chosen set, one column for each draw.

    Parameters
    ----------
    growing : Floats
        Gas that can still expand at lift-off, m3, shape (n,).
    growing_share : Floats
        Its share of the lift, shape (n,).
    doubling_time : Floats
        s, infinite when nothing can grow, shape (n,).
    no_return : Floats
        Rise above neutral beyond which the divers cannot stop it, m; infinite when never, shape (n,).
    window : Floats
        Neutral window, m3, shape (n,).
    budget : Floats
        Delay budget, s, shape (n,).
    runaway : Floats
        Bound of the speed of a runaway, m/s, shape (n,).
    full_at : Floats
        Depth at which the part-filled bag is full, m; minus infinity when it is empty, shape (n,).
    vent_depths : tuple of float
        Depths of the venting table, m.
    vent : Floats
        Litres a second needed there, m3/s at ambient pressure, shape (depths, n).
    pull : Floats or None
        What one short pull of the part-filled bag loses, m3, shape (n,).
    """

    growing: Floats
    growing_share: Floats
    doubling_time: Floats
    no_return: Floats
    window: Floats
    budget: Floats
    runaway: Floats
    full_at: Floats
    vent_depths: tuple[float, ...]
    vent: Floats
    pull: Floats | None


@dataclass(frozen=True)
class Fall(Frozen):
    """If it falls, and where it comes up.

    Parameters
    ----------
    speed : Floats
        Terminal speed of the load without bags, m/s, shape (n,).
    time : Floats
        From the surface to the bottom, s, shape (n,).
    keep_clear : Floats
        Radius on the bottom that holds the asked-for share of falls, drift included, m, shape (n,).
    surfaces_within : Floats
        Radius at the surface in which bag and load can appear, m, shape (n,).
    """

    speed: Floats
    time: Floats
    keep_clear: Floats
    surfaces_within: Floats


@dataclass(frozen=True)
class LiftResult(Frozen):
    """Everything that the lift stage found.

    Parameters
    ----------
    choice : Choice
        The chosen bags and the others.
    required : Floats
        Weight in water of load, rigging and bags, without break-out, kg, shape (n,).
    ceiling : float
        Lift at which filling stops, kg.
    ceiling_from : str
        What sets the ceiling: ``stop`` or ``mark``.
    lift : Floats
        Lift of all bags rigged on the bottom when full, kg, shape (n,).
    floats : Bools
        True where that reaches the required lift, shape (n,).
    surplus_at_release : Floats
        min(break-out, ceiling - required), kg, shape (n,).
    comes_free : Bools
        True where the load comes free below the ceiling, shape (n,).
    surplus_start : Floats
        Net lift with which the ascent starts, kg, shape (n,).
    reserve : Floats
        Reserve at the surface with all bags full, share, shape (n,).
    filling : tuple of FillStep
        In the order of filling; bags filled at the surface last.
    supply : Supply
        Lift gas.
    control : Control
        Closed forms.
    left_alone : Rise
        The ascent with nobody venting.
    start_depth, end_depth : Floats
        Depth of the load at lift-off and when the crown is at the surface, m, shape (n,).
    fall : Fall
        Circles and speeds.
    """

    choice: Choice
    required: Floats
    ceiling: float
    ceiling_from: str
    lift: Floats
    floats: Bools
    surplus_at_release: Floats
    comes_free: Bools
    surplus_start: Floats
    reserve: Floats
    filling: tuple[FillStep, ...]
    supply: Supply
    control: Control
    left_alone: Rise
    start_depth: Floats
    end_depth: Floats
    fall: Fall
