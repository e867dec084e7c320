"""What the rules look at of the people and of the things they own; a field that is left out means "not known"."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Member:
    """One person in one role on one dive; a person with two roles stands here twice.

    Parameters
    ----------
    name : str
        Who.
    role : str
        ``bag tender``, ``load tender``, ``rigger``, ``searcher``, ``standby diver``, ``tender``, ``boat``,
        ``supervisor`` or ``instructor``.
    in_water : bool
        True when the role is done in the water from the start; a standby diver is not.
    may : tuple of str or None
        Roles that the kit file allows; None for a trainee, and for somebody whose roles nobody wrote down.
    excludes : tuple of str
        Roles that nobody can have beside this one.
    trainee : bool
        True for a trainee.
    cylinder : str
        What the person breathes from.
    cylinder_use : str
        ``breathing`` or ``lifting``, as the kit file says.
    ready_in : float or None
        For a standby diver: time until in the water, s.
    carried : tuple of (str, str)
        Cylinders carried beside it, each with its use.
    """

    name: str
    role: str
    in_water: bool = False
    may: tuple[str, ...] | None = None
    excludes: tuple[str, ...] = ()
    trainee: bool = False
    cylinder: str = ""
    cylinder_use: str = ""
    ready_in: float | None = None
    carried: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Dive:
    """One dive with its team, and the water at its time.

    Parameters
    ----------
    does : str
        ``search`` or ``lift``.
    team : tuple of Member
        Who goes.
    label : str
        How findings call it, such as ``dive 2 (lift)``.
    stream : float or None
        Fastest stream expected while divers are down, m/s; None: not known at that time.
    in_tide_table : bool or None
        False when the tide table does not reach that time; None when no table is needed.
    """

    does: str = ""
    team: tuple[Member, ...] = ()
    label: str = "this dive"
    stream: float | None = None
    in_tide_table: bool | None = None


@dataclass(frozen=True, slots=True)
class KitItem:
    """One thing that can go out of date.

    Parameters
    ----------
    id : str
        Its name in the kit.
    what : str
        ``bag``, ``cylinder``, ``sling``, ``connector``, ``line``.
    used : bool
        True when this case uses it.
    time_left : float or None
        From the day of the lift to its due date, s; below zero when past; None when no date is known.
    quarantined : bool
        True when it is tagged and set aside.
    """

    id: str
    what: str = ""
    used: bool = False
    time_left: float | None = None
    quarantined: bool = False
