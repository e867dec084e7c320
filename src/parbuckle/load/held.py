"""Break-out for one bottom: the band, the sentence, what waiting leaves, and what the time law says."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from parbuckle.load.bearing import reverse_bearing
from parbuckle.load.breakout import LIU_HIGHEST, LIU_LOWEST, MUGA_TIME, liu_factor, muga_share
from parbuckle.load.problem import LoadProblem
from parbuckle.physics.constants import G
from parbuckle.quantity.band import HIGH, LIKELY, at_share
from parbuckle.quantity.frozen import Floats

_DO = "edge it, dig, rock, jet, pull from above, wait"
_WAITS = (0.0, 30.0, 60.0, MUGA_TIME)  # minutes of steady pull that are printed
_PULLS = (5.0, 60.0)  # minutes of pull for which Liu's law is asked
_MINUTE, _DAY = 60.0, 86400.0


@dataclass(frozen=True)
class Held:
    """What the bottom may hold, with its words.

    Parameters
    ----------
    breakout : Floats
        kg, shape (n,); from zero up.
    why : str
        One sentence.
    hold : tuple of (float, float, str)
        Minutes of steady pull, high end of what still holds in kg, source.
    liu : str or None
        What Liu's law says or why not.
    sources : tuple of str
        Sources used.
    warnings : tuple of str
        What was given and could not be used.
    """

    breakout: Floats
    why: str
    hold: tuple[tuple[float, float, str], ...]
    liu: str | None
    sources: tuple[str, ...]
    warnings: tuple[str, ...]


def held_by_bottom(problem: LoadProblem, wet: Floats) -> Held:
    """Give what the bottom may hold: a uniform share of the upper figure of the bottom's own method.

    Upper figure: nothing on rock and gravel; a rule-of-thumb share of the weight in water on sand, silt and clay;
    Muga's figure for an immediate pull in soft mud; reverse bearing where a shear strength is given on a cohesive
    bottom. On a cohesive bottom suction never holds more than the absolute pressure on the footprint.

    Parameters
    ----------
    problem : LoadProblem
        Bottom, footprint, depth in it, days, shear strength, pressure and uniform.
    wet : Floats
        Weight in water, kg, shape (n,); a load that floats is not held.

    Returns
    -------
    Held
        The band, never a promise.

    Notes
    -----
    Source: the bottom's entry in the table of bottoms; :mod:`parbuckle.load.breakout` for the laws.
    """
    bottom, rests = problem.bottom, np.maximum(wet, 0.0)
    share = 0.0 if bottom.method == "none" else bottom.high
    if bottom.method == "muga":
        share = float(muga_share(0.0))
    suction = problem.ambient_pressure * problem.footprint / G if bottom.cohesive else np.inf
    by_share = np.asarray(problem.breakout_u * np.minimum(share * rests, suction), dtype=np.float64)
    breakout, extra = by_share, ""
    warnings: tuple[str, ...] = ()
    sources: tuple[str, ...] = (bottom.source + f" [{bottom.mark}]",)
    if problem.shear is not None and bottom.cohesive:
        upper = reverse_bearing(problem.shear, problem.footprint, problem.buried, problem.ambient_pressure)
        breakout = np.asarray(problem.breakout_u * upper, dtype=np.float64)
        sources += ("reverse bearing 5 Su (1 + 0.2 D/B)(1 + 0.2 B/L), after Skempton 1951 [read second hand]",)
        other = "Muga" if bottom.method == "muga" else "the rule of thumb"
        extra = f" That is by shear strength; by {other} up to {_kg(by_share)} kg."
    elif problem.shear is not None:
        warnings = (f"the shear strength is not used: {bottom.name} is not cohesive",)
    why = _sentence(bottom.name, bottom.method, breakout) + extra
    hold: tuple[tuple[float, float, str], ...] = ()
    if bottom.method == "muga" and not extra:
        high, first = at_share(breakout, HIGH), float(muga_share(0.0))
        hold = tuple((t, high * float(muga_share(t)) / first, bottom.source) for t in _WAITS)
    return Held(breakout, why, hold, _liu(problem) if bottom.cohesive else None, sources, warnings)


def _sentence(name: str, method: str, breakout: Floats) -> str:
    if method == "none" or not breakout.any():
        return f"{name}: no break-out expected, unless it is wedged or snagged."
    who = "bottom not known, taken as soft mud" if name == "unknown" else name
    return f"{who}: may hold 0 to {_kg(breakout)} kg more; not predictable; {_DO}."


def _liu(problem: LoadProblem) -> str:
    days = at_share(problem.days, LIKELY)
    if days <= 0.0:
        return "Liu 1969 is not used: it has not lain there for a day, and the law needs a time in the bottom."
    said: list[str] = []
    for minutes in _PULLS:
        ratio = minutes * _MINUTE / (days * _DAY)
        case = f"a pull of {minutes:g} min after {days:.3g} days is T/Tin = {ratio:.2g}"
        if LIU_LOWEST < ratio < LIU_HIGHEST:
            factor = float(liu_factor(minutes * _MINUTE, days * _DAY))
            said.append(f"{case}: mean hold {factor:.2g} times the static resistance of the soil")
        else:
            said.append(f"{case}: refused, the law holds for 0.001 < T/Tin < 10")
    return "Liu 1969 (NCEL R-635): " + "; ".join(said) + "."


def _kg(values: Floats) -> str:
    """High end in kg, to two figures or whole kilograms."""
    high = at_share(values, HIGH)
    return f"{high:.{max(0, 1 - math.floor(math.log10(high)))}f}" if high > 0.0 else "0"
