"""From a case to the problem of the load stage: estimates, spaces and bed, drawn."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np

from parbuckle.case.kit import Kit
from parbuckle.case.model import Case
from parbuckle.load.bottoms import Bottom, bottom, unknown_bottom
from parbuckle.load.combine import combination
from parbuckle.load.pieces import with_gas
from parbuckle.load.problem import Combination, LoadProblem
from parbuckle.load.weigh import settled
from parbuckle.plan.asking import Asking
from parbuckle.plan.load_asking import LoadAsking
from parbuckle.plan.load_estimates import by_name, from_known, from_parts, in_water
from parbuckle.plan.load_shapes import from_shapes
from parbuckle.quantity.draws import Ensemble
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats

FEWEST = 64
"""Draws below which the weights of several estimates are found on an ensemble of their own (a judgement)."""

OWN_DRAWS = 512
"""Draws of that ensemble."""

_DAY = 86400.0


def load_problem(
    case: Case,
    ensemble: Ensemble,
    water_density: Floats,
    ambient_pressure: Floats,
    temperature: Floats | None = None,
    *,
    kit: Kit | None = None,
    folder: Path | None = None,
) -> tuple[LoadProblem | None, list[dict[str, str]], list[str]]:
    """Make the load's problem from a case.

    Parameters
    ----------
    case : Case
        The case.
    ensemble : Ensemble
        The draws.
    water_density : Floats
        kg/m3, shape (n,).
    ambient_pressure : Floats
        Absolute pressure at the bottom, Pa, shape (n,).
    temperature : Floats, optional
        Of the water, K, shape (n,); for the weight of the gas in a trial lift.
    kit : Kit, optional
        For a person's spans and a bag's weight in water.
    folder : Path, optional
        Folder of the case file, for mesh files; left out: the working folder.

    Returns
    -------
    tuple of (LoadProblem or None, list of dict, list of str)
        The problem (None when nothing says what it weighs), what is unanswered (``key``, ``stage``, ``why``), and the
        sentences of the defaults in use.

    Raises
    ------
    CaseError
        If a material, a known object, a shape or a mesh file is refused.
    """
    asking = Asking(ensemble)
    problem = ask_load(case, asking, water_density, ambient_pressure, temperature, kit=kit, folder=folder)
    return problem, asking.unanswered, [sentence for _, sentence in asking.assumed]


def ask_load(
    case: Case,
    asking: Asking,
    water_density: Floats,
    ambient_pressure: Floats,
    temperature: Floats | None = None,
    *,
    kit: Kit | None = None,
    folder: Path | None = None,
) -> LoadProblem | None:
    """Make the load's problem on the plan's own run through the inputs, which notes what lacks and what is assumed.

    Parameters
    ----------
    case : Case
        The case.
    asking : Asking
        The plan's run through the inputs.
    water_density : Floats
        kg/m3, shape (n,).
    ambient_pressure : Floats
        Absolute pressure at the bottom, Pa, shape (n,).
    temperature : Floats, optional
        Of the water, K, shape (n,).
    kit : Kit, optional
        For a person's spans and a bag's weight in water.
    folder : Path, optional
        Folder of the case file.

    Returns
    -------
    LoadProblem or None
        None when nothing says what it weighs; that is noted.

    Raises
    ------
    CaseError
        If a material, a known object, a shape or a mesh file is refused.
    """
    ask = LoadAsking(case, kit, asking, water_density, ambient_pressure, folder or Path())
    ground = _bottom(ask)
    warm = temperature if temperature is not None else ask.stand_in("site.temperature", None, "temperature", note=False)
    bare = [e for e in (from_parts(ask), from_known(ask), *from_shapes(ask), *in_water(ask, ground, warm)) if e]
    if not bare:
        ask.lacks(
            "object",
            "nothing says what it weighs: give known_as, parts, a measurement, a spring balance or a trial lift",
        )
        return None
    outer = np.asarray(np.mean([estimate.envelope for estimate in bare], axis=0), dtype=np.float64)
    gas, volume, flooded = _cavities(ask, outer)
    estimates = [with_gas(estimate, gas, water_density) for estimate in bare]
    shear = case.object.bed.shear
    problem = LoadProblem(
        water_density=water_density,
        ambient_pressure=ambient_pressure,
        estimates=tuple(estimates),
        gas_in_cavities=gas,
        cavity_volume=volume,
        flooded_cavity=flooded,
        bottom=ground,
        footprint=_bed(ask, "footprint", "footprint_factor", outer ** (2.0 / 3.0), ground.cohesive),
        buried=_bed(ask, "buried", "buried_factor", np.cbrt(outer), ground.cohesive),
        days=_days(ask, ground.cohesive),
        shear=None if shear is None else ask.draw("object.bed.shear", shear),
        breakout_u=_uniform(asking, "load.breakout", ground.method != "none"),
        which_u=_uniform(asking, "load.which_estimate", len(estimates) > 1),
        mud_share=ask.stand_in("load.mud", None, "mud_share", note=False),
        void_share=ask.stand_in("load.void_water", None, "void_share", note=False),
    )
    return replace(problem, combination=_on_more_draws(ask, len(estimates)), sources=tuple(ask.sources))


def _bottom(ask: LoadAsking) -> Bottom:
    words = ask.case.site.bottom
    if words is None or words.strip() in ("", "unknown"):
        ask.assume("site.bottom", "bottom not told: taken as soft mud, which holds most")
        return unknown_bottom()
    try:
        return bottom(words)
    except RangeError as error:
        ask.assume("site.bottom", f"{error}; taken as soft mud, which holds most")
        return unknown_bottom()


def _cavities(ask: LoadAsking, outer: Floats) -> tuple[Floats, Floats, Floats]:
    """Gas, volume and water of all spaces, m3."""
    gas, whole, water = np.zeros_like(outer), np.zeros_like(outer), np.zeros_like(outer)
    for name, _, cavity in by_name((row.name, row) for row in ask.case.object.cavity):
        path = f"object.cavity.{name}"
        if cavity.volume is not None:
            volume = ask.draw(f"{path}.volume", cavity.volume)
        else:
            volume = outer * ask.stand_in(f"{path}.volume", None, "cavity_share")
        flooded = ask.stand_in(f"{path}.flooded", cavity.flooded, "flooded")
        gas, whole, water = gas + volume * (1.0 - flooded), whole + volume, water + volume * flooded
    return gas, whole, water


def _uniform(asking: Asking, path: str, needed: bool) -> Floats:
    """Uniform of an input that only some loads have; its middle where it plays no part."""
    return asking.ensemble.uniform(path) if needed else np.full(asking.ensemble.n, 0.5)


def _bed(ask: LoadAsking, word: str, default: str, scale: Floats, note: bool) -> Floats:
    value = getattr(ask.case.object.bed, word)
    if value is not None:
        return ask.draw(f"object.bed.{word}", value)
    return np.asarray(ask.stand_in(f"object.bed.{word}", None, default, note) * scale, dtype=np.float64)


def _days(ask: LoadAsking, note: bool) -> Floats:
    """Days in the bottom: told, else from the day it was lost to the last dive that is planned."""
    told, lost = ask.case.object.bed.days, ask.case.case.lost
    starts = [dive.start for dive in ask.case.dive if dive.start is not None]
    if told is None and lost is not None and starts and max(starts) > lost:
        return np.full(ask.asking.ensemble.n, (max(starts) - lost).total_seconds() / _DAY)
    return ask.stand_in("object.bed.days", told, "days", note)


def _on_more_draws(ask: LoadAsking, count: int) -> Combination | None:
    """Weights of the estimates where the plan's own draws are too few to find them."""
    ensemble = ask.asking.ensemble
    if count < 2 or ensemble.n >= FEWEST:
        return None
    own = Asking(Ensemble(OWN_DRAWS, ensemble.seed))
    density, pressure = (np.full(OWN_DRAWS, float(np.mean(x))) for x in (ask.water_density, ask.ambient_pressure))
    problem = ask_load(ask.case, own, density, pressure, kit=ask.kit, folder=ask.folder)
    if problem is None:
        return None
    estimates = settled(problem.estimates, density)
    return combination(np.stack([e.wet for e in estimates]), [e.method for e in estimates])
