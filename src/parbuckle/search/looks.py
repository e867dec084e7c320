"""Which box to look into next, when a look is a whole unit: by chance of a find for its cost."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen


@dataclass(frozen=True)
class Look(Frozen):
    """One look of a sequence.

    Parameters
    ----------
    box : int
        Which box, from 0.
    index : float
        Chance of a find for its cost before the look, p q / c.
    found : float
        Chance of a find up to and with this look.
    cost : float
        Cost up to and with this look.
    """

    box: int
    index: float
    found: float
    cost: float


def looks(chance: Floats, detection: Floats, cost: Floats, count: int) -> tuple[Look, ...]:
    """Order looks so that the expected cost until the find is least.

    Look next into the box with the largest current p_i q_i / c_i; the first of equal ones is taken.

    Parameters
    ----------
    chance : Floats
        p_i, chance that it is in the box, not negative, shape (k,).
    detection : Floats
        q_i, chance of one look into the box that holds it, above 0 to 1, shape (k,).
    cost : Floats
        c_i, cost of a look, above zero, any one unit, shape (k,).
    count : int
        Number of looks.

    Returns
    -------
    tuple of Look
        In order.

    Raises
    ------
    RangeError
        For values outside their ranges, or shapes that differ.

    Notes
    -----
    Source: Black 1965, Kadane 1968 (recalled); Blackwell's result as stated in Chew 1967, Annals of Mathematical
    Statistics 38(2), abstract. For a fixed budget and unequal costs it is best only where a look ends at the budget.

    Examples
    --------
    >>> [look.box for look in looks(np.array([0.5, 0.3, 0.2]), np.full(3, 0.6), np.ones(3), 3)]
    [0, 1, 0]
    """
    p, q, c = (np.array(x, dtype=np.float64).ravel() for x in (chance, detection, cost))
    if not (p.size == q.size == c.size and bool(((p >= 0.0) & (q > 0.0) & (q <= 1.0) & (c > 0.0)).all())):
        raise RangeError("looks: chances from 0, detections above 0 to 1, costs above 0, as many of each")
    found = spent = 0.0
    out = []
    for _ in range(count):
        index = p * q / c
        k = int(np.argmax(index))
        found, spent = found + float(p[k] * q[k]), spent + float(c[k])
        out.append(Look(k, float(index[k]), found, spent))
        p[k] *= 1.0 - q[k]
    return tuple(out)
