"""Volumes of measured shapes: what somebody can feel or measure under water, turned into litres."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats

DIMENSIONS: Mapping[str, tuple[str, ...]] = {
    "box": ("length", "width", "height"),
    "cylinder": ("diameter", "length"),
    "sphere": ("diameter",),
    "cone": ("diameter", "length"),
    "tube": ("diameter", "inner_diameter", "length"),
    "prism": ("area", "length"),
    "ellipsoid": ("length", "width", "height"),
    "torus": ("ring_diameter", "diameter"),
}
"""Dimensions that each shape needs; a mesh file needs none."""


def outline_volume(shape: str, sizes: Mapping[str, Floats]) -> Floats:
    """Give the outer volume of a shape.

    box: l w h; cylinder: pi/4 d2 l; sphere: pi/6 d3; cone: pi/12 d2 l; tube: pi/4 (d2 - di2) l; prism: a l;
    ellipsoid: pi/6 l w h; torus: pi2/4 D d2, D across the middle of the ring, d through its bar.

    Parameters
    ----------
    shape : str
        One of ``DIMENSIONS``.
    sizes : mapping of str to Floats
        Its dimensions, m (area: m2), shape (n,).

    Returns
    -------
    Floats
        Volume, m3, shape (n,). Valid for dimensions above zero.

    Raises
    ------
    RangeError
        If the shape is not known, a dimension is missing or not above zero, a tube's bore reaches its outside, or a
        ring's bar is thicker than the ring allows.

    Notes
    -----
    Source: common geometry.

    Examples
    --------
    >>> round(float(outline_volume("sphere", {"diameter": np.array([0.2])})[0]), 6)
    0.004189
    """
    if shape not in DIMENSIONS:
        raise RangeError(f'shape "{shape}" is not known; known: {", ".join(DIMENSIONS)}, mesh')
    missing = [name for name in DIMENSIONS[shape] if name not in sizes]
    if missing:
        raise RangeError(f"{shape}: {', '.join(missing)} missing; needed: {', '.join(DIMENSIONS[shape])}")
    given = [sizes[name] for name in DIMENSIONS[shape]]
    for name, values in zip(DIMENSIONS[shape], given, strict=True):
        lowest = float(np.min(values))
        if lowest < 0.0 or (lowest == 0.0 and name != "inner_diameter"):
            raise RangeError(f"{shape}: {name} must be above zero; given down to {lowest:g} m")
    return _FORMULAS[shape](*given)


def _tube(outer: Floats, inner: Floats, length: Floats) -> Floats:
    if bool(np.any(inner >= outer)):
        raise RangeError(
            "tube: the inner diameter must be smaller than the outer one; with the spreads given they meet. "
            "Narrow the spreads, or give the area of the wall and the length as a prism"
        )
    return np.pi / 4.0 * (outer**2 - inner**2) * length


def _torus(ring: Floats, bar: Floats) -> Floats:
    if bool(np.any(bar >= ring)):
        raise RangeError("torus: the bar's diameter must be smaller than the ring's")
    return np.pi**2 / 4.0 * ring * bar**2


_FORMULAS: Mapping[str, Callable[..., Floats]] = {
    "box": lambda length, width, height: length * width * height,
    "cylinder": lambda diameter, length: np.pi / 4.0 * diameter**2 * length,
    "sphere": lambda diameter: np.pi / 6.0 * diameter**3,
    "cone": lambda diameter, length: np.pi / 12.0 * diameter**2 * length,
    "tube": _tube,
    "prism": lambda area, length: area * length,
    "ellipsoid": lambda length, width, height: np.pi / 6.0 * length * width * height,
    "torus": _torus,
}
