"""Where filling stops: the ceiling of the lift, and the mark on each bag that belongs to it."""

from __future__ import annotations

import numpy as np

from parbuckle.lift.problem import Bag, LiftProblem
from parbuckle.quantity.band import LIKELY, LOW, at_share
from parbuckle.quantity.frozen import Floats


def ceiling(problem: LiftProblem, fill: tuple[Bag, ...], required: Floats) -> tuple[float, str]:
    """Give the lift at which filling stops: the least of two limits.

    ceiling = min(light-end required lift + what restraint, line or divers can stop, lift of the marks).

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    fill : tuple of Bag
        Bags rigged on the bottom.
    required : Floats
        Weight in water of what hangs under the bags, kg, shape (n,).

    Returns
    -------
    tuple of (float, str)
        kg, and what sets it: ``stop`` or ``mark``.
    """
    stops = problem.restrained if problem.restrained > 0.0 else problem.rules.divers_stop
    by_stop = at_share(required, LOW) + stops
    by_mark = sum(b.marked for b in fill) * at_share(problem.lift_density, LIKELY)
    return (by_stop, "stop") if by_stop <= by_mark else (by_mark, "mark")


def put_in(really: Floats, volume: Floats) -> Floats:
    """Share gas out over the bags in the order of filling, each up to what it really holds.

    Parameters
    ----------
    really : Floats
        What the bags hold in the order of filling, m3, shape (k, n).
    volume : Floats
        Gas to be put in, m3 at the bags, shape (n,).

    Returns
    -------
    Floats
        m3, shape (k, n).

    Examples
    --------
    >>> put_in(np.array([[2.0], [3.0]]), np.array([4.0])).ravel().tolist()
    [2.0, 2.0]
    """
    before = np.cumsum(really, axis=0) - really
    return np.clip(volume - before, 0.0, really)


def marks(problem: LiftProblem, fill: tuple[Bag, ...], lift: float) -> tuple[float, ...]:
    """Give the mark on each bag where filling stops: the brim of the full ones, the ceiling's rest on the last.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    fill : tuple of Bag
        Bags rigged on the bottom, the part-filled one last.
    lift : float
        Ceiling of the lift, kg.

    Returns
    -------
    tuple of float
        m3, in the order of filling.
    """
    volume = lift / at_share(problem.lift_density, LIKELY)
    rest = volume - sum(at_share(b.really, LIKELY) for b in fill[:-1])
    last = min(max(rest, 0.0), fill[-1].marked)
    return (*(b.marked for b in fill[:-1]), last)
