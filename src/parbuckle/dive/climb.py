"""The legs of the way up: beside the load as far as that goes, then alone, with every stop and every change of gas."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from parbuckle.dive.carried import Breathing, Change
from parbuckle.dive.problem import DiveProblem, DiveRules
from parbuckle.dive.profile import Leg, Water, leg, travel
from parbuckle.dive.stops import Stop
from parbuckle.dive.tasks import Piece
from parbuckle.quantity.frozen import Floats


def up(
    depth: Floats, problem: DiveProblem, water: Water, told: Breathing, rules: DiveRules, due: Sequence[Stop]
) -> list[Piece]:
    """Give the legs of the way up: beside the load as far as that goes, then alone, with every stop.

    The stop that is always made is made beside those that are due. From a depth above a stop, that stop is left out. A
    change of gas takes its time on the gas before it; from a depth above it, it is made on leaving.

    Parameters
    ----------
    depth : Floats
        Depth that is left, m, shape (n,).
    problem : DiveProblem
        The dive.
    water : Water
        Where the dive is.
    told : Breathing
        What is breathed.
    rules : DiveRules
        Rate, stop, time for a change.
    due : sequence of Stop
        Stops that are due.

    Returns
    -------
    list of Piece
        To the surface.
    """
    here, gas, place, pieces = np.array(depth), told.gas, 0, []
    if problem.beside is not None:
        rate, leave = problem.beside
        to = np.minimum(here, leave)
        pieces.append(Piece(travel(water, here, to, min(rate, rules.up), gas)))
        here = to
    halts: list[Stop | Change] = [*told.changes, *due]
    if rules.stop_time > 0.0:
        halts.append(Stop(rules.stop_depth, rules.stop_time))
    for halt in sorted(halts, key=lambda each: (-each.depth, isinstance(each, Stop))):
        to = np.minimum(here, halt.depth)
        made = np.where(here >= halt.depth, halt.time, 0.0) if isinstance(halt, Stop) else rules.change
        pieces.append(Piece(travel(water, here, to, rules.up, gas), carried=place))
        pieces.append(Piece(leg(water, to, to, made, gas), still=True, carried=place))
        here = to
        if isinstance(halt, Change):
            gas, place = halt.gas, halt.place
    pieces.append(Piece(travel(water, here, 0.0, rules.up, gas), carried=place))
    return pieces


def on_one_set(climbs: Sequence[Sequence[Piece]]) -> tuple[Leg, ...]:
    """Give the part of the way up on which somebody still breathes from the set: two may have to share one there.

    Above it everybody in the water has a carried cylinder to breathe from.

    Parameters
    ----------
    climbs : sequence of sequence of Piece
        The way up of each diver, leg by leg the same way.

    Returns
    -------
    tuple of Leg
        Those of the first diver; the whole way where somebody carries nothing.
    """
    return tuple(piece.leg for i, piece in enumerate(climbs[0]) if any(way[i].carried == 0 for way in climbs))
