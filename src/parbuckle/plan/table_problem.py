"""The lift behind one cell of the table of bags: a compact load of some weight in water, at a depth, on this kit."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

import numpy as np

from parbuckle.case.kit import Kit
from parbuckle.case.model import Case
from parbuckle.duties.house import House
from parbuckle.lift.problem import LiftProblem
from parbuckle.load.materials import material
from parbuckle.load.result import LoadResult
from parbuckle.plan.asking import Asking
from parbuckle.plan.lift_inputs import lift_problem
from parbuckle.plan.site_inputs import site_draws
from parbuckle.quantity.draws import Ensemble
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.grammar import parse

KNOWN_TO = "0.95..1.05"
"""How well the load of the table is known, as a share of its weight in water: the table says so."""

COMPACT = "steel"
"""What the load of the table is taken to be made of: a compact load has little drag, so it is the fast case."""


def table_problem(
    kit: Kit, house: House, water: str, depth: float, when: datetime | None, draws: int = 128
) -> LiftProblem:
    """Give the lift of one kilogram in water from a depth; ``with_load`` gives it any other load.

    Parameters
    ----------
    kit : Kit
        What the team owns.
    house : House
        House rules.
    water : str
        ``sea`` or ``fresh``.
    depth : float
        Depth to the bottom, m.
    when : datetime or None
        Bags past their due date at this time are left out.
    draws : int
        Number of draws.

    Returns
    -------
    LiftProblem
        Accompanied, one try, no break-out; what a case would tell is taken from the named defaults.
    """
    lifting = [c for c in kit.cylinder if c.use == "lifting" and not c.quarantined and (c.volume or c.content)]
    best = min(lifting, key=lambda c: (c.fills is None, c.id), default=None)
    told = {"schema": 1, "site": {"water": water, "depth": f"{depth} m"}}
    case = Case.model_validate(told | ({"lift": {"cylinder": best.id}} if best else {}))
    asking = Asking(Ensemble(draws))
    site = site_draws(case, asking, None)
    none = np.zeros(draws)
    load = LoadResult(
        dry_mass=none, displaced=none, wet_weight=none, breakout=none, leaving_water=none, envelope=none,
        entrapped_water=none, estimates=(), agree=True, disagreement_kg=0.0, breakout_why="", breakout_hold=(),
        liu=None, sources=(), bearing_pressure=none,
    )  # fmt: skip
    strop = np.minimum(asking.draw("lift.rigging", None, "strop"), site.depth / 2.0)
    problem = lift_problem(case, kit, asking, site, load, house, "accompanied", strop, when)
    return with_load(problem, asking.ensemble.draw("table.load", parse(KNOWN_TO, "number")))


def with_load(problem: LiftProblem, wet: Floats) -> LiftProblem:
    """Give the same lift with another load: solid, compact, with no water or gas inside.

    displaced = wet / (density of the load - density of the water).

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    wet : Floats
        Weight in water, kg, shape (n,).

    Returns
    -------
    LiftProblem
        With that load.
    """
    solid = material(COMPACT).likely
    volume = wet / (solid - problem.water_density)
    return replace(problem, wet=wet, dry=volume * solid, envelope=volume, displaced=volume)
