"""What the rules look at of the search, out of its results."""

from __future__ import annotations

import numpy as np

from parbuckle.duties.search_facts import SearchFacts
from parbuckle.plan.stages import Stages
from parbuckle.quantity.band import HIGH, LIKELY, LOW, at_share

_MINUTE = 60.0
_LINES = ("circles", "arcs", "jackstay")


def search_facts(stages: Stages) -> SearchFacts:
    """Give what the rules look at of the search.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    SearchFacts
        Plain values; nothing where no search is planned.
    """
    found = stages.searched
    if found is None:
        return SearchFacts()
    from parbuckle.plan.search_words import window_words

    problem, answers = found.asked.problem, found.choice.answers
    best = answers[0] if answers else None
    window = window_words(stages, found)
    there = window["minutes_there"] if window else None
    name = best.pattern.name if best else ""
    return SearchFacts(
        pattern=name,
        spacing=dict(best.pattern.parameters).get("spacing") if best else None,
        sweep_width=at_share(problem.sweep_width, LIKELY),
        outside=best.outside if best else 0.0,
        drift=problem.stream * problem.minutes * _MINUTE,
        by_compass=any(row.name == name and row.error.heading > 0.0 for row in found.asked.rows),
        on_a_line=name in _LINES,
        needs=window["minutes_needed"] * _MINUTE if window else None,
        no_stop=None if there is None else there * _MINUTE,
        passes=len(found.swum),
        tried=problem.tried,
        judged=tuple((c.who[0], c.values[0]) for c in found.cautions if c.code == "range over water"),
        alike=tuple(" and ".join(c.who) for c in found.cautions if c.code == "counted twice"),
        short_of_gas=_gas(stages, best.minutes) if best else (),
    )


def _gas(stages: Stages, minutes: float) -> tuple[tuple[str, float, float], ...]:
    """What each diver breathes on the pattern, at its high end, and what the cylinder gives above the reserve."""
    from parbuckle.plan.lift_inputs import capacity_of
    from parbuckle.plan.search_inputs import search_dive
    from parbuckle.plan.sheet_pattern import gas_breathed

    dive, kit, found = search_dive(stages.case), stages.kit, stages.searched
    if dive is None or kit is None or found is None:
        return ()
    cylinders = {c.id: c for c in kit.cylinder}
    rows = []
    for member in dive.team:
        cylinder = cylinders.get(member.cylinder or "")
        capacity = capacity_of(cylinder) if cylinder else None
        if member.person not in found.asked.divers or cylinder is None or capacity is None:
            continue
        path = f"kit.cylinder.{cylinder.id}.pressure"
        gauge = stages.asking.draw(path, cylinder.pressure, "cylinder_pressure")
        usable = np.maximum(gauge - stages.house["breathing_left"], 0.0) * capacity / stages.site.surface_pressure
        rows.append(
            (member.person, at_share(gas_breathed(stages, member.person, minutes), HIGH), at_share(usable, LOW))
        )
    return tuple(rows)
