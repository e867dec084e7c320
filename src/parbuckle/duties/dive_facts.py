"""What the rules look at of the dives that were worked out; a field that is left out means "not known"."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CarriedFacts:
    """One cylinder that a diver carries beside the set.

    Parameters
    ----------
    cylinder, gas : str
        Its id, its gas.
    oxygen, oxygen_least : float or None
        Oxygen pressure where it is breathed deepest, high end, and last, low end, Pa.
    short, empty : float or None
        Shares of the draws: gives more than a plan may use; runs empty. None where its size is not known.
    spare : bool
        True where it is kept for an emergency only; it is short where it does not bring one person up.
    """

    cylinder: str
    gas: str = "air"
    oxygen: float | None = None
    oxygen_least: float | None = None
    short: float | None = None
    empty: float | None = None
    spare: bool = False


@dataclass(frozen=True, slots=True)
class DiverFacts:
    """One diver on one dive.

    Parameters
    ----------
    name : str
        Who.
    gas : str
        What is breathed.
    set_known : bool
        True when the cylinder and what it holds are known.
    cylinder : str
        Its id.
    over_no_stop : float
        Share of the draws in which the bottom time passes the model's limit.
    table_limit : float or None
        No-stop limit of the table, s; infinite without one; None without an answer.
    table_why : str
        Why the table has no answer.
    under_reserve, late, empty : float or None
        Shares of the draws: surfaces under the house figure; reaches the leave-bottom pressure before the work is done;
        runs empty.
    reserve_fits : bool or None
        False when no filling of the set holds the reserve.
    oxygen : float or None
        Oxygen pressure at the deepest, high end, Pa.
    oxygen_at_surface : float or None
        At the surface, low end, Pa.
    exposure : float or None
        Larger share of the single and of the daily oxygen exposure; infinite above 1.6 atm.
    density : float or None
        Of the gas at the deepest, kg/m3.
    runs_late : bool
        True when the over-run passes the leave-bottom pressure.
    carried : tuple of CarriedFacts
        Cylinders beside the set.
    """

    name: str
    gas: str = "air"
    set_known: bool = True
    cylinder: str = ""
    over_no_stop: float = 0.0
    table_limit: float | None = None
    table_why: str = ""
    under_reserve: float | None = None
    late: float | None = None
    empty: float | None = None
    reserve_fits: bool | None = None
    oxygen: float | None = None
    oxygen_at_surface: float | None = None
    exposure: float | None = None
    density: float | None = None
    runs_late: bool = False
    carried: tuple[CarriedFacts, ...] = ()


@dataclass(frozen=True, slots=True)
class DivingFacts:
    """One dive that was worked out.

    Parameters
    ----------
    label : str
        How findings call it, such as ``dive 2 (lift)``.
    divers : tuple of DiverFacts
        In the water.
    bottom_time : float
        High end, s.
    model_limit : float
        Shortest no-stop limit of the model, low end, s; infinite without one.
    stops, late_stops : float
        Time of the stops that are due at the long end, and in the over-run, s.
    fits, fits_on_sight : float or None
        Share of the draws in which it fits slack water: by the clock; started when the window opens.
    tooth : float
        Largest way up and down again, m.
    load_rate : float or None
        Rate up to which the divers stay beside the load, m/s; None when they go up apart from it.
    leave_load_at, stop_depth : float or None
        Where the load is left, and the depth of the divers' stop, m.
    without_place : tuple of str
        People in the water while the load goes up whose role has no place beside it.
    standby_short : tuple of (str, float)
        Who waits at the surface, and the share of the draws in which the set is not enough to bring two up.
    """

    label: str
    divers: tuple[DiverFacts, ...] = ()
    bottom_time: float = 0.0
    model_limit: float = float("inf")
    stops: float = 0.0
    late_stops: float = 0.0
    fits: float | None = None
    fits_on_sight: float | None = None
    tooth: float = 0.0
    load_rate: float | None = None
    leave_load_at: float | None = None
    stop_depth: float | None = None
    without_place: tuple[str, ...] = ()
    standby_short: tuple[tuple[str, float], ...] = ()
