"""How each kind of quantity is shown: the unit of the plan document, the units on paper, the figures; no numpy."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Shown:
    """How one kind is shown.

    Parameters
    ----------
    dimension : str
        Its dimension in the table of unit words.
    base : str
        Unit word of the values that ``show`` takes.
    metric, imperial : str
        Unit words that are shown.
    digits : int
        Significant figures.
    """

    dimension: str
    base: str
    metric: str
    imperial: str
    digits: int = 2


SHOWN: dict[str, Shown] = {
    "mass": Shown("mass", "kg", "kg", "lb"),
    "weight_in_water": Shown("mass", "kg", "kg", "lb"),
    "net_lift": Shown("mass", "kg", "kg", "lb"),
    "load": Shown("force", "N", "kg", "lb"),
    "force": Shown("force", "N", "N", "lb"),
    "volume": Shown("volume", "l", "l", "cu ft"),
    "free_gas": Shown("volume", "l", "l", "cu ft"),
    "water_capacity": Shown("volume", "l", "l", "cu ft"),
    "flow": Shown("flow", "l/min", "l/min", "cu ft/min"),
    "venting": Shown("flow", "l/s", "l/s", "cu ft/min"),
    "length": Shown("length", "m", "m", "ft"),
    "height": Shown("length", "m", "m", "ft"),
    "area": Shown("area", "m2", "m2", "ft2"),
    "pressure": Shown("pressure", "bar", "bar", "psi"),
    "air_pressure": Shown("pressure", "Pa", "kPa", "psi", 3),
    "speed": Shown("speed", "m/s", "m/s", "ft/min"),
    "stream": Shown("speed", "m/s", "kn", "kn"),
    "rate": Shown("speed", "m/min", "m/min", "ft/min"),
    "rise": Shown("speed", "m/s", "m/min", "ft/min"),
    "time": Shown("time", "s", "s", "s"),
    "minutes": Shown("time", "min", "s", "s"),
    "temperature": Shown("temperature", "degC", "degC", "degF"),
    "bearing": Shown("angle", "deg", "deg", "deg", 3),
    "angle": Shown("angle", "deg", "deg", "deg", 3),
    "share": Shown("share", "", "%", "%"),
    "change": Shown("share", "", "%", "%"),
    "density": Shown("density", "kg/m3", "kg/m3", "lb/cu ft", 4),
    "salinity": Shown("salinity", "g/kg", "g/kg", "g/kg", 3),
    "days": Shown("time", "d", "d", "d"),
    "number": Shown("share", "", "", ""),
}
"""How each kind is shown, and the base unit that ``show`` and ``show_band`` take."""

SIGNS = {"degC": "°C", "degF": "°F", "m2": "m²", "ft2": "ft²", "kg/m3": "kg/m³", "deg": "°"}
"""Unit words that are printed with another sign than they are typed."""
