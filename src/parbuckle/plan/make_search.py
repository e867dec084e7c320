"""The search of a case by itself: no bags and no lift are worked out for it."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from parbuckle.case.model import Case
from parbuckle.case.read import LoadedCase
from parbuckle.duties.finding import verdict
from parbuckle.duties.house import House, load_house
from parbuckle.duties.judge import judge
from parbuckle.load.weigh import weigh
from parbuckle.plan.asking import Asking
from parbuckle.plan.diving import with_dives
from parbuckle.plan.facts import facts_of
from parbuckle.plan.load_inputs import ask_load
from parbuckle.plan.make import overrides
from parbuckle.plan.plan import Plan
from parbuckle.plan.search_inputs import search_dive
from parbuckle.plan.sheet_dives import dive_sections
from parbuckle.plan.sheet_site import head, site_section
from parbuckle.plan.site_inputs import site_draws
from parbuckle.plan.stages import Stages
from parbuckle.plan.with_search import search_of, with_search
from parbuckle.quantity.draws import Ensemble

STAGES = ("search", "dive")
"""Stages whose open inputs belong to a search."""


def make_search(loaded: LoadedCase, minutes: float | None = None, draws: int = 1024, seed: int = 1) -> Plan:
    """Work the search of a case out.

    Parameters
    ----------
    loaded : LoadedCase
        Case and kit.
    minutes : float, optional
        Time on the pattern, min; left out: as the case says.
    draws : int
        Number of draws.
    seed : int
        Seed.

    Returns
    -------
    Plan
        Results, all findings, and a document with ``search`` in it where there is one.

    Raises
    ------
    CaseError
        If an account or a pass is not whole.
    """
    house = load_house(loaded.case.house)
    stages = with_search(with_dives(_before(loaded, house, draws, seed)), minutes)
    findings = judge(facts_of(stages), house, overrides(loaded))
    document = {
        **head(stages),
        "verdict": verdict(findings),
        "site": site_section(stages),
        "dives": dive_sections(stages),
        "search": search_of(stages),
        "findings": [f.document() for f in findings],
        "unanswered": [row for row in stages.asking.unanswered if row["stage"] in STAGES],
    }
    return Plan(stages, findings, {key: value for key, value in document.items() if value is not None})


def _before(loaded: LoadedCase, house: House, draws: int, seed: int) -> Stages:
    """The site at the time of the search, and the load where its sinking needs it."""
    case, asking, when = loaded.case, Asking(Ensemble(draws, seed)), _when(loaded.case)
    site = site_draws(case, asking, when)
    stages = Stages(loaded, house, asking, when, site)
    if not any(row.sank_through and row.sank_through.sinks_at is None for row in case.account):
        return stages
    water = (site.water_density, site.bottom_pressure, site.temperature)
    problem = ask_load(case, asking, *water, kit=loaded.kit, folder=loaded.path.parent)
    return stages if problem is None else replace(stages, load_problem=problem, load=weigh(problem))


def _when(case: Case) -> datetime | None:
    dive = search_dive(case) or next(iter(case.dive), None)
    return dive.start if dive else None
