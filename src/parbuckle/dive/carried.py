"""Cylinders carried beside the set: breathed on the way up from some depth, or kept for an emergency.

A cylinder carried here is never part of the set, and never of the gas for the bags.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from parbuckle.dive.cylinders import Breathed
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.frozen import Frozen


@dataclass(frozen=True)
class Carried(Frozen):
    """One cylinder that a diver carries beside the set.

    Parameters
    ----------
    name : str
        Its id.
    kit : Breathed or None
        What is in it; None where its size is not known.
    gas : Gas
        Its gas.
    change : float or None
        Depth at which the diver changes to it on the way up, m; None: for an emergency only.
    """

    name: str
    kit: Breathed | None
    gas: Gas
    change: float | None = None


@dataclass(frozen=True)
class Change:
    """The team waits at one depth while somebody changes the gas.

    Parameters
    ----------
    depth : float
        Where, m.
    gas : Gas
        What this diver breathes from there.
    place : int
        Which of the diver's carried cylinders, in the order of their depths, from 1; 0: still the set.
    """

    depth: float
    gas: Gas
    place: int


@dataclass(frozen=True)
class Breathing:
    """What one diver breathes on a dive; two divers who breathe alike share their tissues.

    Parameters
    ----------
    gas : Gas
        Of the set: down, at work, and up to the first change.
    changes : tuple of Change
        Deepest first; those of the others too, for the team waits together.
    """

    gas: Gas
    changes: tuple[Change, ...] = ()


def in_order(carried: Iterable[Carried]) -> tuple[Carried, ...]:
    """Give the cylinders that are breathed on the way up.

    Parameters
    ----------
    carried : iterable of Carried
        What one diver carries.

    Returns
    -------
    tuple of Carried
        Deepest change first; what is kept for an emergency is left out.
    """
    own = [(each.change, each) for each in carried if each.change is not None]
    return tuple(each for _, each in sorted(own, key=lambda row: -row[0]))


def breathing(gas: Gas, carried: Iterable[Carried], others: Iterable[Iterable[Carried]] = ()) -> Breathing:
    """Give what one diver breathes, with the waits of the whole team.

    Parameters
    ----------
    gas : Gas
        Of the diver's set.
    carried : iterable of Carried
        What the diver carries.
    others : iterable of iterable of Carried
        What the rest of the team carries, each.

    Returns
    -------
    Breathing
        Changes by depth.

    Examples
    --------
    >>> from parbuckle.quantity.breathing import parse_gas
    >>> air, rich = parse_gas("air"), parse_gas("EAN50")
    >>> told = breathing(air, [Carried("S7", None, rich, 21.0)], [[Carried("S6", None, rich, 18.0)]])
    >>> [(change.depth, change.gas.text, change.place) for change in told.changes]
    [(21.0, 'EAN50', 1), (18.0, 'EAN50', 1)]
    """
    own = in_order(carried)
    depths = {each.change for each in own} | {each.change for rest in others for each in in_order(rest)}
    now, place, rows = gas, 0, []
    for depth in sorted((d for d in depths if d is not None), reverse=True):
        for number, each in enumerate(own, start=1):
            if each.change == depth:
                now, place = each.gas, number
        rows.append(Change(depth, now, place))
    return Breathing(gas, tuple(rows))
