"""What the dive stage answers for each dive: times, limits, stops, window, each diver's gas and oxygen."""

from __future__ import annotations

from dataclasses import dataclass

from parbuckle.dive.stops import Stop
from parbuckle.quantity.frozen import Bools, Floats, Frozen


@dataclass(frozen=True)
class Oxygen(Frozen):
    """Oxygen, nitrogen and density of what one diver breathes.

    Parameters
    ----------
    pressure : Floats
        Oxygen pressure at the deepest, Pa, shape (n,).
    at_surface : Floats
        Oxygen pressure at the surface, Pa, shape (n,).
    mod : float or None
        Depth at which the house limit is reached, m; None where it is passed at the surface, or never reached.
    single, daily : Floats or None
        Share of the single exposure by this dive, and of that of 24 hours with the dives before; None above 1.6 atm.
    dose : Floats or None
        Dose to the lungs, OTU, the dives of the last 24 hours counted, shape (n,); None above the law's range.
    density : Floats
        Of the gas at the deepest, kg/m3, shape (n,).
    narcotic_depth : Floats
        Depth at which air is as narcotic, m, shape (n,).
    air_depth : Floats or None
        Depth at which air holds the same nitrogen, m, shape (n,); None for a gas with helium.
    """

    pressure: Floats
    at_surface: Floats
    mod: float | None
    single: Floats | None
    daily: Floats | None
    dose: Floats | None
    density: Floats
    narcotic_depth: Floats
    air_depth: Floats | None


@dataclass(frozen=True)
class GasPlan(Frozen):
    """The breathing gas of one diver.

    Parameters
    ----------
    used : Floats
        Breathed from the set, surface to surface, m3 of free gas, shape (n,).
    way_up : Floats
        Of it on the way up, m3, shape (n,).
    shared : Floats
        What two people in trouble need from the set from the worst moment, m3, shape (n,).
    start : Floats or None
        Pressure at the start, Pa gauge; None without a set; so are the next ones.
    leave : Floats or None
        Pressure at which the bottom is left at the latest, Pa gauge; None also where no set could hold it.
    leaving : Floats or None
        Pressure when the tasks are done, Pa gauge.
    end : Floats or None
        Pressure at the surface, Pa gauge; 0 where the set ran empty.
    empty : Bools
        True where the set ran empty.
    under : Bools
        True where the diver surfaces under the house figure.
    late : Bools
        True where the diver reaches the leave-bottom pressure before the tasks are done.
    turn : Floats or None
        Pressure at which a way out turns into a way back as long, Pa gauge; None also where the start holds no more
        than the pressure to leave at in any draw.
    """

    used: Floats
    way_up: Floats
    shared: Floats
    start: Floats | None
    leave: Floats | None
    leaving: Floats | None
    end: Floats | None
    empty: Bools
    under: Bools
    late: Bools
    turn: Floats | None = None


@dataclass(frozen=True)
class CarriedPlan(Frozen):
    """One cylinder that a diver carries beside the set.

    Parameters
    ----------
    name, breathes : str
        Its id, its gas.
    change : float or None
        Depth at which the diver changes to it, m; None: for an emergency only.
    needed : Floats
        On the way up from there; for an emergency one person's way up from leaving the bottom, m3, shape (n,).
    start, end : Floats or None
        Pressure before, and after it gave what is needed, Pa gauge, 0 where it ran empty; None where it is not known.
    empty : Bools
        True where it ran empty.
    short : Bools
        True where it gives more than a plan may use; for an emergency, where it is not enough.
    oxygen : Floats
        Oxygen pressure where it is breathed deepest, Pa, shape (n,).
    oxygen_least : Floats
        Oxygen pressure where it is breathed last, Pa, shape (n,).
    mod : float or None
        Depth at which the house limit for the way up is reached, m; None where it is passed at the surface, or never
        reached.
    """

    name: str
    breathes: str
    change: float | None
    needed: Floats
    start: Floats | None
    end: Floats | None
    empty: Bools
    short: Bools
    oxygen: Floats
    oxygen_least: Floats
    mod: float | None


@dataclass(frozen=True)
class DiverResult(Frozen):
    """One diver on one dive.

    Parameters
    ----------
    name, role, breathes : str
        Who, as what, which gas.
    interval : Floats or None
        At the surface since the dive before, s, shape (n,); None when there was none.
    limit : Floats
        No-stop limit of the model from leaving the surface to leaving the bottom, s, infinite without one, shape (n,).
    table : float or None
        That of the published table, s; infinite without a limit; None where the table has no answer.
    table_why : str
        Why it has none.
    group_before, group_after : str
        Repetitive groups by the table; empty for none, or where it has no answer.
    surfacing : Floats
        Gradient factor on reaching the surface, shape (n,).
    gas : GasPlan
        Breathing gas.
    oxygen : Oxygen
        Oxygen, nitrogen and density.
    carried : tuple of CarriedPlan
        Cylinders beside the set.
    """

    name: str
    role: str
    breathes: str
    interval: Floats | None
    limit: Floats
    table: float | None
    table_why: str
    group_before: str
    group_after: str
    surfacing: Floats
    gas: GasPlan
    oxygen: Oxygen
    carried: tuple[CarriedPlan, ...] = ()


@dataclass(frozen=True)
class Standby(Frozen):
    """Somebody who goes down to help: enough for the way down, and for two on the way up.

    Parameters
    ----------
    name, breathes : str
        Who, and which gas.
    needed : Floats
        Way down at work, and two people in trouble up from there, m3 of free gas, shape (n,).
    enough : Bools
        True where the set holds it, shape (n,).
    working, resting : Floats
        How long the gas over it lasts at depth, at work and at rest, s, shape (n,).
    """

    name: str
    breathes: str
    needed: Floats
    enough: Bools
    working: Floats
    resting: Floats


@dataclass(frozen=True)
class Window(Frozen):
    """The time in which the stream is under the limit.

    Parameters
    ----------
    opens, closes, slack : Floats
        s since 1970, shape (n,); 0 where there is none.
    exists : Bools
        True where the table has such a time.
    fits : Bools
        True where the dive, started by the clock, lies inside, shape (n,).
    fits_on_sight : Bools
        True where it is long enough for a dive that starts when it opens, shape (n,).
    """

    opens: Floats
    closes: Floats
    slack: Floats
    exists: Bools
    fits: Bools
    fits_on_sight: Bools


@dataclass(frozen=True)
class OverRun(Frozen):
    """The dive when the work takes long.

    Parameters
    ----------
    bottom_time : float
        From leaving the surface to leaving the bottom, s.
    stops : tuple of Stop
        Stops that are then due to the diver who needs most.
    way_up : float
        Time up with all stops, s.
    ends : tuple of (str, float)
        Each diver with a set, and the pressure at the surface, Pa gauge; negative: empty.
    late : tuple of str
        Who reaches the leave-bottom pressure before.
    short : tuple of str
        Cylinders carried for the way up that then give more than a plan may use.
    """

    bottom_time: float
    stops: tuple[Stop, ...]
    way_up: float
    ends: tuple[tuple[str, float], ...]
    late: tuple[str, ...]
    short: tuple[str, ...] = ()


@dataclass(frozen=True)
class DiveResult(Frozen):
    """One dive.

    Parameters
    ----------
    label, does : str
        How it is called; what it is for.
    place : int
        Its place in the case, from 0.
    start : float or None
        s since 1970.
    depth : Floats
        Deepest, m, shape (n,).
    bottom_time : Floats
        From leaving the surface to leaving the bottom, s, shape (n,).
    way_up : Floats
        Time up with all stops, s, shape (n,).
    blocks : tuple of (str, Floats)
        Tasks, or tasks at the same time, with how long they take, s.
    stops : tuple of Stop
        Stops that are due at the long end, to the diver who needs most, in whole minutes; the one that is always made
        is not in it.
    tooth : float
        Largest way up and down again before the last ascent, m.
    latest_leave : float or None
        Latest time to leave the bottom at the safe end, s since 1970.
    latest_from : str
        What sets it: ``stream`` or ``daylight``; empty when nothing does.
    window : Window or None
        Of the stream; None where it is not known.
    over_run : OverRun or None
        When the work takes long; None without a diver.
    divers : tuple of DiverResult
        In the order of the case.
    standby : tuple of Standby
        Who waits at the surface; only those whose set is known.
    """

    label: str
    does: str
    place: int
    start: float | None
    depth: Floats
    bottom_time: Floats
    way_up: Floats
    blocks: tuple[tuple[str, Floats], ...]
    stops: tuple[Stop, ...]
    tooth: float
    latest_leave: float | None
    latest_from: str
    window: Window | None
    over_run: OverRun | None
    divers: tuple[DiverResult, ...]
    standby: tuple[Standby, ...]


@dataclass(frozen=True)
class DivingResult(Frozen):
    """All dives of a case.

    Parameters
    ----------
    dives : tuple of DiveResult
        In the order of their start.
    """

    dives: tuple[DiveResult, ...]
