"""Case in, one frozen Plan out."""

from __future__ import annotations

import math
from typing import Any

from parbuckle.case.read import LoadedCase
from parbuckle.duties.finding import Finding, Override, verdict
from parbuckle.duties.house import load_house
from parbuckle.duties.judge import judge
from parbuckle.plan.bands import LITRES, band_of
from parbuckle.plan.diving import with_dives
from parbuckle.plan.emergency import emergency_section
from parbuckle.plan.facts import facts_of, tidal_water
from parbuckle.plan.other_ways import LOWERED
from parbuckle.plan.plan import Plan
from parbuckle.plan.regime import regime_section
from parbuckle.plan.sheet_ascent import ascent_section
from parbuckle.plan.sheet_asked import asked_section
from parbuckle.plan.sheet_control import control_sections
from parbuckle.plan.sheet_dives import dive_sections
from parbuckle.plan.sheet_lift import bag_section, method_rows
from parbuckle.plan.sheet_load import load_section, measure_again
from parbuckle.plan.sheet_other_ways import lowered_section, other_sections
from parbuckle.plan.sheet_site import find_out_first, head, site_section
from parbuckle.plan.sheet_surface import surface_section
from parbuckle.plan.sheet_team import clock_section, sketch_section, team_sections
from parbuckle.plan.slate import slate
from parbuckle.plan.sources import sources
from parbuckle.plan.stages import Stages, run_stages
from parbuckle.plan.sums import sums
from parbuckle.plan.with_search import search_of, with_search

FOOTER = (
    "Local rules and the supervisor on site come first.",
    "No lift has been measured against this model.",
)
"""The two lines of caution on every page."""


def make_plan(loaded: LoadedCase, draws: int = 1024, seed: int = 1) -> Plan:
    """Work a case out.

    Parameters
    ----------
    loaded : LoadedCase
        Case and kit.
    draws : int
        Number of draws.
    seed : int
        Seed; the same case, draws and seed give the same plan.

    Returns
    -------
    Plan
        Results, findings and document.
    """
    house = load_house(loaded.case.house)
    stages = with_search(with_dives(run_stages(loaded, house, draws, seed)), whole=False)
    findings = judge(facts_of(stages), house, overrides(loaded))
    return Plan(stages, findings, _document(stages, findings))


def overrides(loaded: LoadedCase) -> list[Override]:
    """Give the stops that a case lifts.

    Parameters
    ----------
    loaded : LoadedCase
        Case and kit.

    Returns
    -------
    list of Override
        As they stand in the case.
    """
    return [
        Override(o.code, o.by or "", o.reason or "", o.at.isoformat() if o.at else "") for o in loaded.case.override
    ]


def _document(stages: Stages, findings: tuple[Finding, ...]) -> dict[str, Any]:
    load = load_section(stages)
    drivers = load["drivers"] if load else []
    sections: dict[str, Any] = {
        **head(stages),
        "verdict": verdict(findings),
        "site": site_section(stages),
        "load": load,
        "lift": _lift(stages),
        "ascent": _ascent(stages),
        "surface": surface_section(stages),
        "dives": dive_sections(stages),
        "search": search_of(stages),
        "clock": clock_section(stages),
        "emergency": emergency_section(stages),
        "agreed": {name: getattr(stages.case.agreed, name) for name in type(stages.case.agreed).model_fields},
        "asked": asked_section(stages),
        "regime": regime_section(stages, tidal_water(stages)),
        **team_sections(stages),
        "circles": _circles(stages),
        "sketch": sketch_section(stages),
        "sums": sums(stages),
        "sources": sources(stages, findings),
        "find_out_first": find_out_first(stages, drivers),
        "measure_again": measure_again(drivers),
        "findings": [f.document() for f in findings],
        "unanswered": list(stages.asking.unanswered),
        "slate": slate(stages),
        "cautions_footer": list(FOOTER),
    }
    return {key: value for key, value in sections.items() if value is not None}


def _ascent(stages: Stages) -> dict[str, Any] | None:
    """The ascent, and the other ways; a load that is put down has only these."""
    own = None
    if stages.lift and stages.lift_problem:
        own = ascent_section(stages.lift_problem, stages.lift) | control_sections(stages)
    others = other_sections(stages)
    return None if own is None and not any(others.values()) else (own or {}) | others


def _lift(stages: Stages) -> dict[str, Any] | None:
    """The lift section; without bags only what can be said without them."""
    if stages.method == LOWERED:
        return lowered_section(stages)
    if stages.ways is None or stages.lift_problem is None:
        return None
    given = stages.case.lift.method != "choose"
    mine = next((r for r in stages.ways.rows if r.method == stages.method), None)
    section: dict[str, Any] = {
        "methods": method_rows(stages.ways),
        "method": stages.method,
        "method_given": given,
        "method_why": mine.why if mine else "Bags, lines and cylinders decide the method: name the kit.",
        "proposed": next((r.method for r in stages.ways.rows if r.possible and stages.kit is not None), None),
        "catches": _catches(stages),
    }
    if stages.lift is not None:
        section |= bag_section(stages.lift_problem, stages.lift)
        if section["cylinder"] is not None and stages.kit is not None:
            gases = {c.id: c.gas.text for c in stages.kit.cylinder}
            section["cylinder"]["gas"] = gases.get(section["cylinder"]["id"])
    else:
        section |= {"required_kg": band_of(stages.lift_problem.on_load), "bags": [], "alternatives": []}
        if stages.supply is not None:
            section |= {
                "bag_volume_l": band_of(stages.supply.bag_volume, LITRES),
                "free_gas_l": band_of(stages.supply.free_gas, LITRES),
            }
    return section | {"rigging": [r.document() for r in stages.rigging.rows] if stages.rigging else []}


def _catches(stages: Stages) -> str | None:
    """Say what catches the load at the second it lets go."""
    lift = stages.case.lift
    if stages.method == "unaccompanied" and lift.restraint and lift.restraint.line:
        anchor = f" to an anchor of {lift.restraint.anchor.text}" if lift.restraint.anchor else ""
        return f"The restraint {lift.restraint.line}{anchor}."
    if stages.method == "accompanied" and stages.lift_problem is not None:
        return (
            f"Two divers, at most {stages.lift_problem.rules.divers_stop:.0f} kg, and the dump of the part-filled bag."
        )
    if stages.method in ("hauled", "bag and line"):
        return f"The line {stages.case.surface.line_to_surface or 'from above'}: it stays heavy."
    return None


def _circles(stages: Stages) -> dict[str, Any] | None:
    if stages.lift is None:
        return None
    fall, towards = stages.lift.fall, stages.site.stream_towards
    return {
        "bottom_m": (band_of(fall.keep_clear) or {}).get("high"),
        "surface_m": (band_of(fall.surfaces_within) or {}).get("high"),
        "drift_towards_deg": None if towards is None else math.degrees(towards),
    }
