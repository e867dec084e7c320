"""How wide one diver sweeps: by sight, by touch, faster, and after silt was stirred up."""

from __future__ import annotations

import numpy as np

from parbuckle.physics.ranges import FloatsLike, not_negative, positive
from parbuckle.quantity.frozen import Floats
from parbuckle.search.numbers import number, pair


def contrast_factor(contrast: str | None = None) -> tuple[float, float]:
    """Give the sweep width over the range at which the object is just seen.

    Parameters
    ----------
    contrast : str, optional
        ``high``, ``medium`` or ``low``; left out: not known.

    Returns
    -------
    tuple[float, float]
        Lowest and highest; equal when the contrast is known.

    Raises
    ------
    RangeError
        For another word.

    Notes
    -----
    Source: Koester and others 2014, ten experiments on land; for divers an analogue.

    Examples
    --------
    >>> contrast_factor("low")
    (1.1, 1.1)
    """
    if contrast is None:
        return number("contrast", "low"), number("contrast", "high")
    return number("contrast", contrast), number("contrast", contrast)


def sweep_from_visibility(visibility: FloatsLike, size: FloatsLike, factor: FloatsLike) -> Floats:
    """Give the sweep width by sight.

    W = factor min(V, size / smallest angle): seen as far as one sees, and no farther than it looks large enough.

    Parameters
    ----------
    visibility : FloatsLike
        V, how far one sees, m, any shape.
    size : FloatsLike
        Size of the object across, m, any shape that fits; infinite: large.
    factor : FloatsLike
        From ``contrast_factor``, any shape that fits.

    Returns
    -------
    Floats
        W, m.

    Raises
    ------
    RangeError
        For a value that is not above zero.

    Notes
    -----
    Source: Koester and others 2014; the range of detection is taken as the visibility (assumption); smallest angle:
    assumption. A trial on a sample object at the place is worth more.

    Examples
    --------
    >>> round(float(sweep_from_visibility(3.0, 0.5, 1.6)), 2)
    4.8
    """
    seen = np.minimum(positive("visibility", visibility, "m"), np.asarray(size) / number("seen", "smallest_angle"))
    return np.asarray(positive("range at which it is seen", seen, "m") * positive("factor", factor))


def sweep_from_trial(range_seen: FloatsLike, factor: FloatsLike) -> Floats:
    """Give the sweep width from the team's own trial on a sample object.

    W = factor Rd, Rd the mean range at which the sample was first seen and last seen.

    Parameters
    ----------
    range_seen : FloatsLike
        Rd, m, any shape.
    factor : FloatsLike
        From ``contrast_factor``, any shape that fits.

    Returns
    -------
    Floats
        W, m.

    Raises
    ------
    RangeError
        For a value that is not above zero.

    Notes
    -----
    Source: Koester and others 2014.

    Examples
    --------
    >>> round(float(sweep_from_trial(2.0, 1.8)), 2)
    3.6
    """
    return np.asarray(positive("range at which it is seen", range_seen, "m") * positive("factor", factor))


def sweep_by_touch(u: FloatsLike, reach: FloatsLike | None = None) -> Floats:
    """Give the sweep width of a diver who feels with both hands.

    Parameters
    ----------
    u : FloatsLike
        Chances, 0 to 1, that pick from the range, any shape.
    reach : FloatsLike, optional
        Hand to hand, m, where it was measured.

    Returns
    -------
    Floats
        W, m.

    Raises
    ------
    RangeError
        For a reach that is not above zero.

    Notes
    -----
    Source: assumption; no published sweep width by touch was found.

    Examples
    --------
    >>> round(float(sweep_by_touch(0.5)), 2)
    1.5
    """
    low, high = pair("touch", "reach")
    chosen = low + (high - low) * np.asarray(u, dtype=np.float64)
    return chosen if reach is None else chosen * 0.0 + positive("reach", reach, "m")


def slower_is_better(sweep_width: FloatsLike, speed: FloatsLike, tried_at: FloatsLike) -> Floats:
    """Narrow the sweep of a diver who swims faster than when it was tried.

    W' = W min(1, v0 / v): above the speed of the trial, the area seen in a minute stays as it was.

    Parameters
    ----------
    sweep_width : FloatsLike
        W, m, any shape.
    speed : FloatsLike
        v, m/s, any shape that fits.
    tried_at : FloatsLike
        v0, m/s, any shape that fits.

    Returns
    -------
    Floats
        W', m.

    Raises
    ------
    RangeError
        For a speed that is not above zero, or a negative width.

    Notes
    -----
    Source: assumption; faster divers see less (Lincoln Smith, observer swimming speed study, abstract).

    Examples
    --------
    >>> float(slower_is_better(3.0, 0.5, 0.25))
    1.5
    """
    ratio = positive("speed of the trial", tried_at, "m/s") / positive("speed", speed, "m/s")
    return np.asarray(not_negative("sweep width", sweep_width, "m") * np.minimum(1.0, ratio))


def stirred(visibility: FloatsLike, bottom: str) -> Floats:
    """Give the visibility after a first pass has stirred up the bottom.

    V' = k V.

    Parameters
    ----------
    visibility : FloatsLike
        V before, m, any shape.
    bottom : str
        ``rock``, ``gravel``, ``sand``, ``silt``, ``soft mud`` or ``clay``.

    Returns
    -------
    Floats
        V', m.

    Raises
    ------
    RangeError
        For another bottom or a negative visibility.

    Notes
    -----
    Source: assumption; for still water or work with the stream. Where each lane is laid up-stream k is near 1.

    Examples
    --------
    >>> round(float(stirred(3.0, "silt")), 2)
    0.9
    """
    return np.asarray(not_negative("visibility", visibility, "m") * number("silt", bottom))
