"""The stage: what the load weighs, in the water and out of it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from parbuckle.load.bearing import mud_mass
from parbuckle.load.combine import combination, picked, weighted
from parbuckle.load.held import held_by_bottom
from parbuckle.load.pieces import from_wet
from parbuckle.load.problem import Combination, Estimate, LoadProblem
from parbuckle.load.result import LoadResult
from parbuckle.physics.buoyancy import weight_in_water
from parbuckle.physics.constants import G
from parbuckle.quantity.frozen import Floats


def weigh(problem: LoadProblem) -> LoadResult:
    """Weigh the load: combine the estimates, then add what the bottom holds and what comes up with it.

    wet weight = dry mass - rho_w x displaced, from the combined mass and volume. Leaving the water = dry mass + water
    in spaces and gaps + mud on a cohesive bottom.

    Parameters
    ----------
    problem : LoadProblem
        Estimates, spaces and bed, drawn.

    Returns
    -------
    LoadResult
        One value for each draw. Valid where the estimates are.

    Notes
    -----
    Source: Archimedes; best linear unbiased mean (:mod:`parbuckle.load.combine`); flooding 85 to 95 % of spaces as in
    46 CFR 172.240.
    """
    estimates = settled(problem.estimates, problem.water_density)
    chosen = agreement(problem, estimates)
    mass, displaced, envelope, warnings = _merged(problem, estimates, chosen)
    wet = weight_in_water(mass, displaced, problem.water_density)
    held = held_by_bottom(problem, wet)
    water = problem.water_density * (problem.flooded_cavity + problem.void_share * (envelope - displaced))
    mud = mud_mass(problem.footprint, problem.buried, problem.mud_share) if problem.bottom.cohesive else 0.0
    return LoadResult(
        dry_mass=mass,
        displaced=displaced,
        wet_weight=wet,
        breakout=held.breakout,
        leaving_water=mass + water + mud,
        envelope=envelope + problem.flooded_cavity,
        entrapped_water=water,
        estimates=tuple((e.by, e.how, e.wet) for e in estimates),
        agree=chosen.agree,
        disagreement_kg=chosen.disagreement_kg,
        breakout_why=held.why,
        breakout_hold=held.hold,
        liu=held.liu,
        sources=tuple(dict.fromkeys(problem.sources + held.sources)),
        bearing_pressure=_pressing(wet, problem.footprint),
        weights=chosen.weights,
        warnings=warnings + held.warnings,
    )


def agreement(problem: LoadProblem, estimates: tuple[Estimate, ...]) -> Combination:
    """Give the weights of the estimates: those handed in, or those that the draws ask for.

    Parameters
    ----------
    problem : LoadProblem
        Perhaps with a combination found on more draws.
    estimates : tuple of Estimate
        In the stage's own order.

    Returns
    -------
    Combination
        Weights and agreement.
    """
    if problem.combination is not None:
        return problem.combination
    return combination(np.stack([e.wet for e in estimates]), [e.method for e in estimates])


def settled(estimates: tuple[Estimate, ...], water_density: Floats) -> tuple[Estimate, ...]:
    """Put the estimates in the stage's own order, and give those made in the water the density of the others.

    The others' mean density and their share of gaps are used, draw by draw, where it sinks in every draw; else the
    stand-in that the estimate came with stays.

    Parameters
    ----------
    estimates : tuple of Estimate
        In any order.
    water_density : Floats
        kg/m3, shape (n,).

    Returns
    -------
    tuple of Estimate
        Sorted by method, by whom and how.
    """
    ordered = sorted(estimates, key=lambda e: (e.method, e.by, e.how, float(e.wet.sum()), float(e.mass.sum())))
    solid = [e for e in ordered if not e.in_water]
    if not solid or len(solid) == len(ordered):
        return tuple(ordered)
    mass, displaced = _mean([e.mass for e in solid]), _mean([e.displaced for e in solid])
    if bool(np.any(mass <= water_density * displaced)) or bool(np.any(displaced <= 0.0)):
        return tuple(ordered)
    roomy = _mean([e.envelope for e in solid]) / displaced
    return tuple(_by_density(e, mass / displaced, roomy, water_density) if e.in_water else e for e in ordered)


def _pressing(wet: Floats, footprint: Floats) -> Floats:
    """Pressure on the bottom, Pa; a load that floats, or touches nothing, does not press."""
    force = np.maximum(wet, 0.0) * G
    return np.divide(force, footprint, out=np.zeros_like(force), where=footprint > 0.0)


def _by_density(estimate: Estimate, density: Floats, roomy: Floats, water_density: Floats) -> Estimate:
    made = from_wet(estimate.by, estimate.how, estimate.method, estimate.wet, density, water_density)
    return replace(made, envelope=np.maximum(made.displaced * roomy, made.displaced))


def _mean(values: list[Floats]) -> Floats:
    return np.asarray(np.mean(np.stack(values), axis=0), dtype=np.float64)


def _merged(
    problem: LoadProblem, estimates: tuple[Estimate, ...], chosen: Combination
) -> tuple[Floats, Floats, Floats, tuple[str, ...]]:
    """Mass, displaced volume and envelope of all estimates together, cut at zero with a word about it."""
    if len(estimates) == 1:
        return estimates[0].mass, estimates[0].displaced, estimates[0].envelope, ()
    wets = np.stack([e.wet for e in estimates])
    stacks = [np.stack([getattr(e, name) for e in estimates]) for name in ("mass", "displaced", "envelope")]
    if chosen.agree:
        mass, displaced, envelope = (weighted(stack, wets, chosen) for stack in stacks)
    else:
        mass, displaced, envelope = (picked(stack, problem.which_u) for stack in stacks)
    warnings = tuple(
        f"{name} of the combined estimates was cut at zero in some draws"
        for name, values in (("dry mass", mass), ("displaced volume", displaced))
        if bool(np.any(values < 0.0))
    )
    mass, displaced = np.maximum(mass, 0.0), np.maximum(displaced, 0.0)
    return mass, displaced, np.maximum(envelope, displaced), warnings
