"""Invented loads for the tests: estimates and problems with few words."""

from __future__ import annotations

from typing import Any

import numpy as np

from parbuckle.case.model import Case
from parbuckle.load.bottoms import bottom
from parbuckle.load.pieces import from_solid
from parbuckle.load.problem import Estimate, LoadProblem
from parbuckle.plan.load_inputs import load_problem
from parbuckle.quantity.draws import Ensemble, uniforms
from parbuckle.quantity.frozen import Floats

N = 256


def full(value: float, n: int = N) -> Floats:
    """The same value in every draw."""
    return np.full(n, float(value))


def spread(path: str, middle: float, sd: float, n: int = N) -> Floats:
    """A flat spread about a middle with a standard deviation, stratified."""
    return middle + sd * np.sqrt(12.0) * (uniforms(7, path, n) - 0.5)


def estimate(by: str, mass: Floats, density: float = 2700.0, method: str = "parts", water: float = 1000.0) -> Estimate:
    """An estimate of one density."""
    return from_solid(by, "told", method, mass, mass / density, mass / density, full(water, mass.size))


def problem(*estimates: Estimate, on: str = "rock", water: float = 1000.0, **changed: Any) -> LoadProblem:
    """A problem with those estimates, lying free unless told otherwise."""
    n = estimates[0].mass.size
    values: dict[str, Any] = {
        "water_density": full(water, n),
        "ambient_pressure": full(2.6e5, n),
        "estimates": estimates,
        "gas_in_cavities": full(0.0, n),
        "cavity_volume": full(0.0, n),
        "flooded_cavity": full(0.0, n),
        "bottom": bottom(on),
        "footprint": full(0.2, n),
        "buried": full(0.1, n),
        "days": full(4.0, n),
        "shear": None,
        "breakout_u": uniforms(7, "load.breakout", n),
        "which_u": uniforms(7, "load.which_estimate", n),
        "mud_share": 0.5 * uniforms(7, "load.mud", n),
        "void_share": full(0.9, n),
    }
    return LoadProblem(**(values | changed))


def asked(
    thing: dict[str, Any], site: dict[str, Any] | None = None, n: int = N, water: float = 1000.0, **more: Any
) -> tuple[LoadProblem | None, list[dict[str, str]], list[str]]:
    """The problem of a case that holds this object and this site."""
    text = {"schema": 1, "object": thing, "site": {"bottom": "rock"} if site is None else site}
    case = Case.model_validate(text | more.pop("case", {}))
    return load_problem(case, Ensemble(n), full(water, n), full(2.6e5, n), full(281.0, n), **more)
