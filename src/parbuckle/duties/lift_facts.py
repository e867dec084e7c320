"""What the rules look at of the load, the lift, the gas and the rigging; a field that is left out means "not known"."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CavityFacts:
    """One hollow space of the load.

    Parameters
    ----------
    name : str
        Its name.
    flooded_low, flooded_high : float
        Share that is flooded, 0 to 1.
    gas_at_surface : float or None
        What its gas could lift more at the surface than on the bottom, high end, kg.
    """

    name: str
    flooded_low: float
    flooded_high: float
    gas_at_surface: float | None = None


@dataclass(frozen=True, slots=True)
class LoadFacts:
    """What it weighs and how it lies.

    Parameters
    ----------
    wet_low, wet_likely, wet_high : float or None
        Weight in water, 5th, 50th and 95th of a hundred, kg.
    estimates : int or None
        How many independent estimates there are.
    agree : bool or None
        False when the estimates disagree by more than their bands allow.
    disagreement : float or None
        How far apart they are, kg.
    cavities : tuple of CavityFacts
        Hollow spaces.
    buried_share : float or None
        Buried depth over the height of the load, likeliest, 0 to 1.
    time_down : float or None
        How long it has been lying there, s.
    """

    wet_low: float | None = None
    wet_likely: float | None = None
    wet_high: float | None = None
    estimates: int | None = None
    agree: bool | None = None
    disagreement: float | None = None
    cavities: tuple[CavityFacts, ...] = ()
    buried_share: float | None = None
    time_down: float | None = None


@dataclass(frozen=True, slots=True)
class BagFacts:
    """One bag of the chosen set.

    Parameters
    ----------
    id : str
        Its name in the kit.
    style : str
        ``open``, ``open with flap`` or ``closed``.
    fill : str
        ``full``, ``part`` or ``empty`` when it leaves the bottom.
    fill_share : float or None
        Likely share of its real capacity that is filled when it leaves the bottom, 0 to 1.
    lift_high : float or None
        Net lift when full, high end of its real capacity, kg.
    relief : float or None
        Pressure above ambient at which it vents, Pa; 0 or None when it has no relief valve.
    measured : bool or None
        True when its capacity was measured.
    restrained : bool
        True when a restraint holds it, or its load.
    """

    id: str
    style: str = ""
    fill: str = ""
    fill_share: float | None = None
    lift_high: float | None = None
    relief: float | None = None
    measured: bool | None = None
    restrained: bool = False


@dataclass(frozen=True, slots=True)
class LiftFacts:
    """How it comes up.

    Parameters
    ----------
    method : str
        ``carried``, ``hauled``, ``bag and line``, ``accompanied`` or ``unaccompanied``.
    method_possible : bool or None
        False when the kit or the load does not allow that method.
    method_why : str
        Why it is not possible.
    choice_failed : bool or None
        True when bags were to be chosen and no set passes the gates.
    choice_why : str
        The gate that is missed and what would help.
    required_low, required_high : float or None
        Required lift, 5th and 95th of a hundred, kg.
    chance_floats : float or None
        Share of draws in which the chosen bags float the load, 0 to 1.
    chance_error : float
        One standard error of that share.
    chance_wanted : float or None
        Share that the case asks for; None: the house rule.
    surplus_high : float or None
        Lift left over at the instant of release, 95th of a hundred, kg.
    growing_share : float or None
        Share of the lift held by gas that can still expand, 0 to 1.
    delay_budget : float or None
        Time that the divers have to answer a growing bag, s.
    reaction : float or None
        The team's own reaction time, s; None: the house rule.
    runaway_speed : float or None
        Bound of the speed when nobody vents, m/s.
    rate_ceiling : float or None
        Rate above which the divers let go, m/s.
    leave_load_at : float or None
        Depth at which the divers leave the load, m.
    stop_depth : float or None
        Depth of the divers' deepest stop, m.
    reference : str
        What the divers read their rate from; empty: nothing.
    restraint : bool or None
        True when a hold-back line to an anchor is planned.
    restraint_released_by : str
        Who lets the restraint go, and from where.
    anchor, anchor_needed : float or None
        Weight of the restraint's anchor in water and what it must be, kg.
    crown_line_to : str
        What the crown line is made fast to; empty: no crown line.
    keep_clear : float or None
        Radius on the bottom that must stay free of people, m.
    rig_checked : bool or None
        True when a second person checks the rigging; False when the task has no check, or the same person does it.
    haul_needed : float or None
        What the people or the boat at the line must hold, high end, N.
    haul_limit : float or None
        What they can hold, N.
    light_at, crown_at_surface : float or None
        Depth at which a load under bag and line is no longer heavy, likely, and with the crown at the surface, m;
        None when it stays heavy.
    crown_length, crown_reach : float or None
        Length of the crown line, and from the load to the crown of the full bag, m.
    crown_load, crown_limit : float or None
        Pull on the crown line when a bag breaks away, high end, and its working limit, N.
    lower_way : str
        ``bag``, ``line`` or ``bag and line``; empty: nothing is put down.
    lower_hold, lower_limit : float or None
        What the line holds on the way down, high end, and its working limit, N.
    lower_people, lower_hands : float or None
        People needed at that line, and those who are there.
    lower_doubling : float or None
        Time in which a move away from neutral doubles under a bag, s.
    """

    method: str = ""
    method_possible: bool | None = None
    method_why: str = ""
    choice_failed: bool | None = None
    choice_why: str = ""
    required_low: float | None = None
    required_high: float | None = None
    chance_floats: float | None = None
    chance_error: float = 0.0
    chance_wanted: float | None = None
    surplus_high: float | None = None
    growing_share: float | None = None
    delay_budget: float | None = None
    reaction: float | None = None
    runaway_speed: float | None = None
    rate_ceiling: float | None = None
    leave_load_at: float | None = None
    stop_depth: float | None = None
    reference: str = ""
    restraint: bool | None = None
    restraint_released_by: str = ""
    anchor: float | None = None
    anchor_needed: float | None = None
    crown_line_to: str = ""
    keep_clear: float | None = None
    rig_checked: bool | None = None
    haul_needed: float | None = None
    haul_limit: float | None = None
    light_at: float | None = None
    crown_at_surface: float | None = None
    crown_length: float | None = None
    crown_reach: float | None = None
    crown_load: float | None = None
    crown_limit: float | None = None
    lower_way: str = ""
    lower_hold: float | None = None
    lower_limit: float | None = None
    lower_people: float | None = None
    lower_hands: float | None = None
    lower_doubling: float | None = None


@dataclass(frozen=True, slots=True)
class GasFacts:
    """Gas for the bags.

    Parameters
    ----------
    cylinder : str
        Its name; empty: none named.
    use : str
        ``lifting`` or ``breathing``.
    usable : float or None
        Free gas that it gives before it no longer fills at that depth, low end, m3.
    needed : float or None
        Free gas for one complete fill of the high case, m3.
    needed_all : float or None
        Free gas for every try, spill and topping-up of the high case, m3.
    pressure : float or None
        Gauge pressure at the start, low end, Pa.
    pressure_needed : float or None
        Gauge pressure below which it no longer fills at that depth, Pa.
    flow : float or None
        How fast it is drawn while filling, free gas, m3/s.
    """

    cylinder: str = ""
    use: str = ""
    usable: float | None = None
    needed: float | None = None
    needed_all: float | None = None
    pressure: float | None = None
    pressure_needed: float | None = None
    flow: float | None = None


@dataclass(frozen=True, slots=True)
class RigItem:
    """One thing that the load hangs on.

    Parameters
    ----------
    item : str
        Its name.
    kind : str
        ``connector``, ``sling``, ``line``, ``attachment`` or ``lift point``.
    load, limit : float or None
        What it carries (high end) and what it may carry, N; a limit of None means no marked strength.
    locking : bool or None
        For a connector: whether it locks; None for other kinds, and for shackles that are moused.
    angle : float or None
        Angle of the flattest leg from the horizontal, rad.
    shares_with : str
        What else hangs on the same attachment; empty: nothing.
    """

    item: str
    kind: str = ""
    load: float | None = None
    limit: float | None = None
    locking: bool | None = None
    angle: float | None = None
    shares_with: str = ""


@dataclass(frozen=True, slots=True)
class SurfaceFacts:
    """At the surface and on the way to the shore.

    Parameters
    ----------
    reserve : float or None
        Lift over required when floating, share of required, likely.
    leaving_likely, leaving_high : float or None
        Weight on leaving the water, likely and 95th of a hundred, kg.
    leaving_limit : float or None
        What the davit, crane or people can take, kg.
    hang : float or None
        Lowest point of the load below the surface when it floats, m.
    shallowest : float or None
        Least depth on the tow at that time, m.
    grounds_at : float or None
        Distance from the site at which it touches the bottom, m.
    line : str
        Name of the line from the load to the surface; empty: none.
    line_length : float or None
        Its length, m.
    depth_highest : float or None
        Depth at the highest water in the time of the work, m.
    """

    reserve: float | None = None
    leaving_likely: float | None = None
    leaving_high: float | None = None
    leaving_limit: float | None = None
    hang: float | None = None
    shallowest: float | None = None
    grounds_at: float | None = None
    line: str = ""
    line_length: float | None = None
    depth_highest: float | None = None
