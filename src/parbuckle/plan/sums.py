"""The sums for the supervisor: formula, numbers, result and source of each step of this plan, at likely values."""

from __future__ import annotations

import numpy as np

from parbuckle.physics.constants import ZERO_C
from parbuckle.plan.bands import BAR, LITRES, MINUTE, band_of, likely
from parbuckle.plan.stages import Stages
from parbuckle.quantity.band import LIKELY, at_share
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.shown import show, show_band

Row = dict[str, str]


def sums(stages: Stages) -> list[Row]:
    """Give the sums of this plan.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    list of dict
        ``name``, ``formula``, ``numbers``, ``result``, ``source``.
    """
    return [*_water(stages), *_weight(stages), *_bags(stages), *_gas(stages), *_ascent(stages)]


def _row(name: str, formula: str, numbers: str, result: str, source: str) -> Row:
    return {"name": name, "formula": formula, "numbers": numbers, "result": result, "source": source}


def _mid(values: Floats) -> float:
    return at_share(values, LIKELY)


def _water(stages: Stages) -> list[Row]:
    site, units = stages.site, stages.case.case.units
    air = show(_mid(site.surface_pressure), "air_pressure", units)
    salt = "Tanaka et al. 2001 (CIPM)" if site.salinity == 0.0 else "TEOS-10"
    return [
        _row(
            "Water density",
            "ρ(salinity, temperature)",
            f"{site.salinity:.1f} g/kg, {_mid(site.temperature) - ZERO_C:.0f} °C",
            show(_mid(site.water_density), "density", units),
            salt,
        ),
        _row(
            "Pressure on the bottom",
            "p = p surface + ρ g depth",
            f"{air} at the surface, {show(_mid(site.depth), 'length', units)}",
            f"{_mid(site.bottom_pressure) / BAR:.2f} bar absolute",
            "1976 standard atmosphere; hydrostatics",
        ),
    ]


def _weight(stages: Stages) -> list[Row]:
    load, units = stages.load, stages.case.case.units
    if load is None:
        return []
    dry, displaced = show(_mid(load.dry_mass), "mass", units), show(_mid(load.displaced) * LITRES, "volume", units)
    water = show(_mid(load.displaced) * _mid(stages.site.water_density), "mass", units)
    return [
        _row(
            "Weight in water",
            "dry mass − ρ × displaced volume",
            f"{dry} − {water} ({displaced} of water)",
            show_band(band_of(load.wet_weight), "mass", units),
            "Archimedes; densities of materials by their handbooks",
        ),
        _row(
            "Break-out",
            "a band down to zero; never a promise",
            load.breakout_why,
            show_band(band_of(load.breakout), "mass", units),
            "; ".join(s for _, _, s in load.breakout_hold[:1]) or "rule of thumb, recalled",
        ),
        _row(
            "Leaving the water",
            "dry mass + water inside + mud",
            f"{dry} + {show(_mid(load.entrapped_water), 'mass', units)} of water, and mud",
            show_band(band_of(load.leaving_water), "mass", units),
            "sum",
        ),
    ]


def _bags(stages: Stages) -> list[Row]:
    lift, problem, load, units = stages.lift, stages.lift_problem, stages.load, stages.case.case.units
    if lift is None or problem is None or load is None:
        return []
    hung = _mid(lift.required - problem.on_load)
    per_litre = _mid(problem.lift_density) / LITRES
    need = _mid(lift.supply.bag_volume) * LITRES
    wet = show(_mid(load.wet_weight), "mass", units)
    gear = show(_mid(problem.rigging) + hung, "mass", units)
    return [
        _row(
            "Required lift",
            "weight in water + rigging + bags",
            f"{wet} + {gear}",
            show_band(band_of(lift.required), "mass", units),
            "sum",
        ),
        _row(
            "Gas in the bags",
            "required lift / (ρ water − ρ gas)",
            f"{show(_mid(lift.required), 'mass', units)} / {per_litre:.3f} kg/l",
            show_band(band_of(lift.supply.bag_volume, LITRES), "volume", units),
            "Archimedes; ideal gas",
        ),
        _row(
            "Ceiling",
            "least of light end + what can be stopped, and the marks",
            f"set by {lift.ceiling_from}",
            show(lift.ceiling, "mass", units),
            "house rule",
        ),
        _row(
            "Share that can grow",
            "gas in the part-filled bag / all gas",
            f"{show(_mid(lift.control.growing) * LITRES, 'volume', units)} / {show(need, 'volume', units)}",
            show(likely(lift.control.growing_share), "share", units),
            "Boyle",
        ),
    ]


def _gas(stages: Stages) -> list[Row]:
    supply, problem, units = stages.supply, stages.lift_problem, stages.case.case.units
    if supply is None or problem is None:
        return []
    grows = _mid(problem.gas_pressure / problem.surface_pressure)
    spill = problem.rules.spill_allowance * 100.0
    rows = [
        _row(
            "Free gas, one try",
            "volume × p at the bag / p at the surface + spill",
            f"× {grows:.2f}, {spill:.0f} % for spill",
            show(_mid(supply.one_try) * LITRES, "free_gas", units),
            "Boyle",
        ),
        _row(
            "Free gas, all",
            "tries × one try + topping up",
            f"{problem.tries} tries, {show(_mid(supply.top_up) * LITRES, 'free_gas', units)} at the surface",
            show_band(band_of(supply.free_gas, LITRES), "free_gas", units),
            "sum",
        ),
    ]
    if problem.cylinder is not None and supply.usable is not None:
        start = show(_mid(problem.cylinder.pressure) / BAR, "pressure", units)
        size = show(problem.cylinder.capacity * LITRES, "water_capacity", units)
        plain = problem.cylinder.capacity * _mid(problem.cylinder.pressure) / BAR * LITRES
        rows.append(
            _row(
                "Usable in the cylinder",
                "real gas from start to what no longer fills",
                f"{problem.cylinder.id}: {size}, {start}; bar × litres would say {show(plain, 'free_gas', units)}",
                show(_mid(supply.usable) * LITRES, "free_gas", units),
                "real air, Lemmon et al. 2000",
            )
        )
    return rows


def _ascent(stages: Stages) -> list[Row]:
    lift, problem = stages.lift, stages.lift_problem
    if lift is None or problem is None:
        return []
    control = lift.control
    budget, bound = likely(control.budget), likely(control.runaway)
    return [
        _row(
            "Time to react",
            "½ CdA w p / (ρ g² growing gas), at 3 m",
            f"w = {problem.target * MINUTE:.0f} m/min, growing {_mid(control.growing) * LITRES:.0f} l",
            "no limit" if budget is None else f"{budget:.1f} s",
            "closed form; no lift has been measured against it",
        ),
        _row(
            "Bound of a runaway",
            "√(2 surplus g / (ρ CdA)), all bags full",
            f"{_mid(np.maximum(lift.lift - lift.required, 0.0)):.0f} kg over",
            "none" if not bound else f"{bound * MINUTE:.0f} m/min",
            "closed form; drag area assumed, wide",
        ),
    ]
