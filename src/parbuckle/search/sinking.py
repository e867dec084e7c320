"""From where it went under to where it lies: drift with the stream, and the spread of the landing."""

from __future__ import annotations

import math

import numpy as np

from parbuckle.physics.bodies import drag_coefficient
from parbuckle.physics.drag import terminal_speed
from parbuckle.physics.excursion import ANGLE_RANGE
from parbuckle.physics.ranges import FloatsLike, not_negative, positive
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.normal import quantile
from parbuckle.search.numbers import number
from parbuckle.search.problem import Sinking

SEVENTH_POWER = 7.0 / 8.0
"""Mean over the depth of a stream that falls to the bottom as the 1/7 power of the height, over its surface value."""

SPHERE = 0.47
"""Drag coefficient of a sphere below Reynolds numbers of 3e5, on its cross-section (common practice)."""

_BODY = {"box": "cube", "plate": "disc", "long": "disc", "unknown": "cube"}
_RADII, _TURNS = 96, 48


def landing_angle(shape: str | None) -> float:
    """Give the angle of deviation of a falling object by its shape.

    Parameters
    ----------
    shape : str or None
        ``box``, ``plate``, ``long`` or ``sphere``; None: not known, the widest.

    Returns
    -------
    float
        rad.

    Raises
    ------
    RangeError
        For another word.

    Notes
    -----
    Source: DNV-RP-F107, table 10, objects below 2 t (weight class recalled).

    Examples
    --------
    >>> round(math.degrees(landing_angle("box")), 1)
    10.0
    """
    return math.radians(number("landing", shape or "unknown"))


def fall_speed(wet_weight: FloatsLike, area: FloatsLike, density: FloatsLike, shape: str | None) -> Floats:
    """Give the speed at which an object sinks, by its shape.

    v = sqrt(2 F / (rho Cd A)), Cd of a cube face on, of a disc broadside on for flat and long things, of a rough
    sphere.

    Parameters
    ----------
    wet_weight : FloatsLike
        F, weight in water, N, above zero, any shape.
    area : FloatsLike
        A, largest cross-section, m2, any shape that fits.
    density : FloatsLike
        Of the water, kg/m3, any shape that fits.
    shape : str or None
        ``box``, ``plate``, ``long`` or ``sphere``; None: not known.

    Returns
    -------
    Floats
        m/s.

    Raises
    ------
    RangeError
        For a weight, area or density that is not above zero, or an unknown shape.

    Notes
    -----
    Source: definition of the drag coefficient; coefficients from the table of bluff bodies; the sphere's is
    recalled (rough, below the drop of a smooth one).

    Examples
    --------
    >>> round(float(fall_speed(500.0, 0.25, 1025.0, "box")), 2)
    1.93
    """
    force = positive("weight in water", wet_weight, "N")
    number("landing", shape or "unknown")  # refuses other words
    coefficient = SPHERE if shape == "sphere" else drag_coefficient(_BODY[shape or "unknown"])
    return terminal_speed(force, coefficient * positive("area", area, "m2"), density)


def drift(depth: FloatsLike, fall: FloatsLike, stream: FloatsLike) -> Floats:
    """Give how far the stream carries an object while it sinks.

    x = u d / v; u the mean stream over the depth (7/8 of the surface stream where it falls as the 1/7 power).

    Parameters
    ----------
    depth : FloatsLike
        d, height that it falls, m, any shape.
    fall : FloatsLike
        v, speed of sinking, m/s, any shape that fits.
    stream : FloatsLike
        u, m/s, any shape that fits.

    Returns
    -------
    Floats
        m, with the stream.

    Raises
    ------
    RangeError
        For a negative depth or stream, or a fall that is not above zero.

    Notes
    -----
    Source: integral of u(z) / v over the depth.

    Examples
    --------
    >>> round(float(drift(20.0, 1.043, 0.257222)), 2)
    4.93
    """
    carried = not_negative("stream", stream, "m/s") * not_negative("height of fall", depth, "m")
    return np.asarray(carried / positive("speed of sinking", fall, "m/s"))


def landed(sinking: Sinking, weight: Floats, cell: float) -> Floats:
    """Carry a map of where it went under to where it lies.

    Every share moves by the drift of each draw, and is spread over a half-normal radius of scale d tan(alpha) in all
    directions. What leaves the grid is lost from the sum.

    Parameters
    ----------
    sinking : Sinking
        The way down.
    weight : Floats
        Shares at the surface, shape (rows, columns).
    cell : float
        Side of a cell, m.

    Returns
    -------
    Floats
        Shares on the bottom, same shape.

    Raises
    ------
    RangeError
        For an angle, depth, stream or speed outside its range.

    Notes
    -----
    Source: DNV-RP-F107 for the radius; a half-normal radius, not a two-dimensional normal spread.
    """
    east, north = _offsets(sinking)
    return _moved(_moved(weight, *_drifts(sinking), cell), east, north, cell)


def widest(sinking: Sinking) -> tuple[float, float, float, float]:
    """Give how far the landing can lie from where it went under, for the size of a grid.

    Parameters
    ----------
    sinking : Sinking
        The way down.

    Returns
    -------
    tuple[float, float, float, float]
        Farthest west (not positive), south (not positive), east and north, m.
    """
    east, north = _drifts(sinking)
    reach = number("grid", "reach") * float(sinking.depth.mean()) * math.tan(sinking.angle)
    low = min(0.0, float(east.min())) - reach, min(0.0, float(north.min())) - reach
    return *low, max(0.0, float(east.max())) + reach, max(0.0, float(north.max())) + reach


def _drifts(sinking: Sinking) -> tuple[Floats, Floats]:
    far = drift(sinking.depth, sinking.fall_speed, sinking.stream)
    east, north = far * np.sin(sinking.towards), far * np.cos(sinking.towards)
    return np.atleast_1d(east), np.atleast_1d(north)


def _offsets(sinking: Sinking) -> tuple[Floats, Floats]:
    """Equally likely landings round the end of the drift."""
    scale = float(sinking.depth.mean()) * math.tan(float(ANGLE_RANGE.check(sinking.angle)))
    radius = scale * quantile(0.5 * (1.0 + (np.arange(_RADII) + 0.5) / _RADII))
    turn = 2.0 * math.pi * (np.arange(_TURNS)[None, :] + (np.arange(_RADII) % 2)[:, None] * 0.5) / _TURNS
    return (radius[:, None] * np.sin(turn)).ravel(), (radius[:, None] * np.cos(turn)).ravel()


def _moved(weight: Floats, east: Floats, north: Floats, cell: float) -> Floats:
    """Move shares, spread evenly in their cells, by equally likely offsets: exact for every cell."""
    x, y = east / cell, north / cell
    left, low = np.floor(x).astype(np.int64), np.floor(y).astype(np.int64)
    dx, dy = x - left, y - low
    c0, r0 = int(left.min()), int(low.min())
    kernel = np.zeros((int(low.max()) - r0 + 2, int(left.max()) - c0 + 2))
    for row, share_y in ((low - r0, 1.0 - dy), (low - r0 + 1, dy)):
        for column, share_x in ((left - c0, 1.0 - dx), (left - c0 + 1, dx)):
            np.add.at(kernel, (row, column), share_x * share_y / x.size)
    rows, columns = weight.shape
    shape = (rows + kernel.shape[0], columns + kernel.shape[1])
    full = np.fft.irfft2(np.fft.rfft2(weight, shape) * np.fft.rfft2(kernel, shape), shape)
    full = np.maximum(full, 0.0)  # the transform leaves -1e-17 where there is nothing
    out = np.zeros(weight.shape)
    r_from, c_from = max(0, r0), max(0, c0)
    r_to, c_to = min(rows, r0 + shape[0]), min(columns, c0 + shape[1])
    if r_to > r_from and c_to > c_from:
        out[r_from:r_to, c_from:c_to] = full[r_from - r0 : r_to - r0, c_from - c0 : c_to - c0]
    return out
