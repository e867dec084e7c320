"""What the stage under control is asked: who tends the lift, with which numbers, and how the dump behaves."""

from __future__ import annotations

from dataclasses import dataclass

from parbuckle.quantity.frozen import Floats, Frozen


@dataclass(frozen=True)
class Habits(Frozen):
    """The numbers of the people who tend a lift, one column for each draw. Speeds are shares of the target rate.

    Parameters
    ----------
    delay : Floats
        Reaction delay, s, shape (n,).
    vent_above, vent_until, add_below, add_until : Floats
        Where it is too fast and where that is over, where it is too slow and where that is over, shares, shape (n,).
    pull, watch : Floats
        Time of one short pull and of the watch after it, s, shape (n,).
    opening : Floats
        Share of the dump's area when it is kept open by a crack, shape (n,).
    thrust : Floats
        Force of the fins of each diver who holds on, N, shape (n,).
    drag : Floats
        Drag area of each diver who holds on, m2, shape (n,).
    count : Floats
        They count depth every so many metres, m, shape (n,); 0 where they see the speed itself.
    """

    delay: Floats
    vent_above: Floats
    vent_until: Floats
    add_below: Floats
    add_until: Floats
    pull: Floats
    watch: Floats
    opening: Floats
    thrust: Floats
    drag: Floats
    count: Floats


@dataclass(frozen=True)
class TendingProblem(Frozen):
    """Everything that the stage under control needs beside the lift itself.

    Parameters
    ----------
    people : Habits
        The team's numbers.
    others : Habits
        The numbers of the other kind of people, for comparison.
    policy : str
        ``choose``, or the name of a policy of the tender.
    on_load : bool
        True when a second diver holds the load.
    lost : Floats
        Gas lost by one short pull of the part-filled bag's dump, m3 at depth, shape (n,).
    lost_in : Floats
        How long that pull was, s, shape (n,).
    measured : bool
        True when it was measured.
    inflow : Floats
        Flow of the inflator when the cylinder goes up with the tender, free m3/s, shape (n,); else 0.
    drogue : Floats
        Drag area of a drogue, m2, shape (n,); 0 for none.
    relief_area : Floats
        Discharge coefficient times area of the relief valve of each bag in the order of filling, m2, shape (k, n);
        infinite where it is not known, and for open bags.
    slots : int
        The ranking of policies and the scan of the delay look at the first so many draws.
    limit : float
        Time at which an ascent is given up, s.
    delays : tuple of float
        Reaction delays that are tried, s, rising.
    asked_chance : float
        Chance within the rate that the longest delay must still give.
    more_drogue : float
        Drogue that is tried, m2.
    more_target : float
        Other target rate that is tried, m/s.
    """

    people: Habits
    others: Habits
    policy: str
    on_load: bool
    lost: Floats
    lost_in: Floats
    measured: bool
    inflow: Floats
    drogue: Floats
    relief_area: Floats
    slots: int
    limit: float
    delays: tuple[float, ...]
    asked_chance: float
    more_drogue: float
    more_target: float
