"""Laws of detection: from coverage to the chance of seeing it, passes and divers together."""

from __future__ import annotations

import math

import numpy as np

from parbuckle.physics.ranges import FloatsLike, Range, not_negative, positive
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats
from parbuckle.search.curves import LAWS

CHANCE = Range("chance", 0.0, 1.0, "", "a chance")
"""What a chance of detection can be."""

_FAR = 16.0  # scales of the half-normal curve from lane to lane at which lanes no longer help each other
_POINTS = 96  # across one lane; the curve repeats, so the sum converges fast
_erf = np.vectorize(math.erf, otypes=[np.float64])


def coverage(sweep_width: FloatsLike, length: FloatsLike, area: FloatsLike) -> Floats:
    """Give how often an area is covered.

    C = W L / A; for lanes S apart, C = W / S.

    Parameters
    ----------
    sweep_width : FloatsLike
        W, m, any shape.
    length : FloatsLike
        Length of track L, m, any shape that fits.
    area : FloatsLike
        A, m2, above zero, any shape that fits.

    Returns
    -------
    Floats
        Coverage, not negative.

    Raises
    ------
    RangeError
        For a negative width or length, or an area that is not above zero.

    Notes
    -----
    Source: Cooper, Selected inland search theory definitions.

    Examples
    --------
    >>> float(coverage(3.0, 100.0, 600.0))
    0.5
    """
    size = np.asarray(area, dtype=np.float64)
    if not bool((size > 0.0).all()):
        raise RangeError("area of a search: must be above zero")
    return np.asarray(not_negative("sweep width", sweep_width, "m") * not_negative("track", length, "m") / size)


def pod(law: str, coverage: FloatsLike, p0: float = 1.0) -> Floats:
    """Give the chance to see an object that is there, from the coverage.

    random 1 - exp(-C); inverse cube, lanes: erf(C sqrt(pi) / 2); definite range: p0 min(1, C / p0); half-normal, lanes:
    1 - mean over x of prod_i (1 - p(x - i S)).

    Parameters
    ----------
    law : str
        One of ``LAWS``.
    coverage : FloatsLike
        C, not negative, any shape.
    p0 : float
        Chance on the line, above 0 to 1; for half-normal and definite range.

    Returns
    -------
    Floats
        Chance, same shape.

    Raises
    ------
    RangeError
        For an unknown law, a negative coverage, or a p0 that the law does not take.

    Notes
    -----
    Source: Koopman 1946; Eagle, OA3602 notes chapter 5; half-normal by the product over parallel lanes.

    Examples
    --------
    >>> round(float(pod("random", 1.0)), 6), round(float(pod("half-normal", 1.0)), 4)
    (0.632121, 0.8528)
    """
    c = not_negative("coverage", coverage)
    _known(law, p0)
    if law == "random":
        return np.asarray(-np.expm1(-c))
    if law == "inverse cube":
        return np.asarray(_erf(0.5 * math.sqrt(math.pi) * c))
    if law == "definite range":
        return np.asarray(p0 * np.minimum(1.0, c / p0))
    return np.array([_half_normal(x, p0) for x in c.ravel().tolist()]).reshape(c.shape)


def lateral(law: str, offset: FloatsLike, sweep_width: float, p0: float = 1.0) -> Floats:
    """Give the chance to see an object on one pass at a distance from the line; its integral is the sweep width.

    half-normal p0 exp(-x^2 / 2 s^2), s = W / (p0 sqrt(2 pi)); inverse cube 1 - exp(-W^2 / (4 pi x^2)); definite range
    p0 for abs(x) <= W / (2 p0).

    Parameters
    ----------
    law : str
        One of ``LAWS`` except ``random``, whose looks fall anywhere: it has no curve.
    offset : FloatsLike
        Distance from the line, m, any shape.
    sweep_width : float
        W, m, above zero.
    p0 : float
        Chance on the line, above 0 to 1; for half-normal and definite range.

    Returns
    -------
    Floats
        Chance, same shape.

    Raises
    ------
    RangeError
        For a law without a curve, or a width or p0 outside its range.

    Notes
    -----
    Source: Eagle, OA3602 notes chapter 5 (lateral-range curve).

    Examples
    --------
    >>> lateral("definite range", [0.9, 1.1], 2.0).tolist()
    [1.0, 0.0]
    """
    _known(law, p0)
    if law == "random":
        raise RangeError("random law: its looks fall anywhere, so it has no curve; ask pod")
    x = np.asarray(offset, dtype=np.float64)
    w = float(positive("sweep width", sweep_width, "m"))
    if law == "definite range":
        return np.where(np.abs(x) <= 0.5 * w / p0, p0, 0.0)
    if law == "inverse cube":
        with np.errstate(divide="ignore"):
            return np.asarray(-np.expm1(-(w * w) / (4.0 * math.pi * x * x)))
    return np.asarray(p0 * np.exp(-math.pi * (p0 * x / w) ** 2))


def together(chances: FloatsLike) -> Floats:
    """Give the chance of several looks that do not depend on each other.

    P = 1 - prod(1 - P_i).

    Parameters
    ----------
    chances : FloatsLike
        One chance for each look, along the first axis.

    Returns
    -------
    Floats
        Chance of at least one, shape without the first axis.

    Raises
    ------
    RangeError
        For a chance outside 0 to 1.

    Notes
    -----
    Source: national search manual vol. I, table 8-2.

    Examples
    --------
    >>> round(float(together([0.5, 0.4])), 6)
    0.7
    """
    return np.asarray(1.0 - np.prod(1.0 - np.atleast_1d(CHANCE.check(chances)), axis=0))


def one_of_two(chance: FloatsLike) -> Floats:
    """Give the chance of one diver, from that of a pair of equal and independent ones; undoes ``together`` for two.

    p = 1 - sqrt(1 - P).

    Parameters
    ----------
    chance : FloatsLike
        Chance of the pair, 0 to 1, any shape.

    Returns
    -------
    Floats
        Chance of one.

    Raises
    ------
    RangeError
        For a chance outside 0 to 1.

    Notes
    -----
    Source: two-observer rule (Ferguson and others 2018-2019, transects with two divers).

    Examples
    --------
    >>> round(float(one_of_two(0.9)), 4)
    0.6838
    """
    return np.asarray(1.0 - np.sqrt(1.0 - CHANCE.check(chance)))


def two_divers(law: str, sweep_width: float, apart: float, p0: float = 1.0) -> float:
    """Give the sweep width of two divers side by side on one line.

    W2 = integral of 1 - (1 - p(x - d/2)) (1 - p(x + d/2)); far apart it is 2 W. Under the random law, whose looks are
    not ordered, it is 2 W at any distance.

    Parameters
    ----------
    law : str
        One of ``LAWS``.
    sweep_width : float
        Of one diver, m, above zero.
    apart : float
        Distance between the two, m, not negative.
    p0 : float
        Chance on the line, above 0 to 1; for half-normal and definite range.

    Returns
    -------
    float
        Sweep width of the pair, m.

    Raises
    ------
    RangeError
        For an unknown law, a negative distance, or a width or p0 outside its range.

    Notes
    -----
    Source: definition of the sweep width (Koopman 1946); independent looks.

    Examples
    --------
    >>> round(two_divers("definite range", 2.0, 1.0), 3)
    3.0
    """
    d = float(not_negative("distance between divers", apart, "m"))
    _known(law, p0)
    if law == "random":
        return 2.0 * sweep_width
    # both = W + W - integral of p(x - d/2) p(x + d/2); x = W tan(t) takes the long tail in
    t = (np.arange(_SUM) + 0.5) / _SUM * math.pi - 0.5 * math.pi
    x = sweep_width * np.tan(t)
    product = lateral(law, x - 0.5 * d, sweep_width, p0) * lateral(law, x + 0.5 * d, sweep_width, p0)
    shared = float(np.sum(product * sweep_width / np.cos(t) ** 2)) * math.pi / _SUM
    return 2.0 * sweep_width - shared


_SUM = 20000


def _known(law: str, p0: float) -> None:
    if law not in LAWS:
        raise RangeError(f"law of detection: given {law!r}, allowed {', '.join(LAWS)}")
    if not 0.0 < p0 <= 1.0 or (p0 != 1.0 and law in ("random", "inverse cube")):
        raise RangeError(f"chance on the line: given {p0:g}, allowed above 0 to 1, and 1 for the {law} law")


def _half_normal(c: float, p0: float) -> float:
    """Chance of parallel lanes one unit of sweep width wide, averaged across a lane."""
    scale = c / (p0 * math.sqrt(2.0 * math.pi))  # of the curve, in lanes
    if scale * _FAR <= 1.0:
        return c
    x = np.arange(_POINTS) / _POINTS
    lanes = np.arange(-math.ceil(_FAR * scale / 2.0) - 1, math.ceil(_FAR * scale / 2.0) + 2)
    z = (x[:, None] - lanes) / scale
    return float(1.0 - np.prod(1.0 - p0 * np.exp(-0.5 * z * z), axis=1).mean())
