"""The lift section of the plan document: method, bags, filling, gas, rigging, the sets that fall out."""

from __future__ import annotations

from typing import Any

import numpy as np

from parbuckle.lift.choose import Candidate
from parbuckle.lift.problem import LiftProblem
from parbuckle.lift.result import LiftResult
from parbuckle.lift.supply import gauge_reading
from parbuckle.plan.bands import BAR, LITRES, MINUTE, band_of
from parbuckle.plan.control_changes import set_sentence
from parbuckle.plan.methods import GATE_WORDS, WaysUp
from parbuckle.quantity.band import HIGH, LIKELY, LOW, at_share, chance


def method_rows(ways: WaysUp) -> list[dict[str, Any]]:
    """Give the comparison of the ways up as the document holds it.

    Parameters
    ----------
    ways : WaysUp
        The comparison.

    Returns
    -------
    list of dict
        One for each method.
    """
    return [
        {
            "method": r.method,
            "possible": r.possible,
            "why": r.why,
            "people_in_water": r.people_in_water,
            "surplus_kg": r.surplus,
            "minutes": None if r.minutes is None else r.minutes / MINUTE,
            "what_can_go_wrong": r.goes_wrong,
        }
        for r in ways.rows
    ]


def bag_section(problem: LiftProblem, result: LiftResult) -> dict[str, Any]:
    """Give bags, ceiling, filling, gas and what is left over at release.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    result : LiftResult
        What the stage found.

    Returns
    -------
    dict
        Keys of the contract.
    """
    floats = chance(result.floats)
    reserve = band_of(result.reserve)
    return {
        "required_kg": band_of(result.required),
        "ceiling_kg": result.ceiling,
        "ceiling_from": _ceiling_words(problem, result),
        "bags": [_bag(problem, result, i) for i in range(len(result.filling))],
        "bag_volume_l": band_of(result.supply.bag_volume, LITRES),
        "free_gas_l": band_of(result.supply.free_gas, LITRES),
        "one_try_l": band_of(result.supply.one_try, LITRES),
        "filling": [
            {
                "bag": s.bag,
                "kind": "top up" if s.fill == "empty" else s.fill,
                "litres": at_share(s.volume, LIKELY) * LITRES,
                "mark_l": s.mark * LITRES,
                "seconds": s.seconds or None,
                "gauge_bar": band_of(s.gauge, 1.0 / BAR),
            }
            for s in result.filling
        ],
        "cylinder": _cylinder(problem, result),
        "chance_floats_once_free": floats.share,
        "chance_floats_words": chance_words(floats.share, floats.n, floats.against(problem.rules.float_chance)),
        "surplus_at_release_kg": band_of(result.surplus_at_release, 1.0, result.comes_free, of=True),
        "surplus_at_most_kg": _at_most(result),
        "reserve": {
            "wanted_share": problem.rules.reserve,
            "reached_share": reserve,
            "with": [s.bag for s in result.filling if s.fill == "empty"],
        },
        "sentence": None if result.choice.best is None else set_sentence(problem, result, result.choice.best),
        "alternatives": [alternative(problem, c, result) for c in result.choice.others],
    }


def alternative(problem: LiftProblem, c: Candidate, result: LiftResult) -> dict[str, Any]:
    """Give one other set of bags, why it falls out, and a sentence that a supervisor can use.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    c : Candidate
        The other set.
    result : LiftResult
        What the stage found; its choice.

    Returns
    -------
    dict
        ``bags``, ``why_not``, ``sentence``.
    """
    best = result.choice.best
    if c.failed:
        why = f"{GATE_WORDS[c.failed[0]]}: {_gate_numbers(problem, c, c.failed[0])}"
    elif best is not None and len(c.fill) > len(best.fill):
        more = len(c.fill) - len(best.fill)
        why = f"passes too, but {more} more bag{'s' if more > 1 else ''} to rig on the bottom"
    elif best is not None and c.budget < best.budget:
        why = f"passes too, but leaves less time to react: {_seconds(c.budget)}"
    else:
        why = "passes too; the chosen set comes first by its ids"
    filled = f"{', '.join(c.fill[:-1])} full, " if c.fill[:-1] else ""
    sentence = f"{filled}{c.fill[-1]} in part: {set_sentence(problem, result, c)}"
    return {"bags": list(c.fill), "empty": list(c.empty), "why_not": why, "sentence": sentence}


def chance_words(share: float, n: int, verdict: str) -> str:
    """Say a chance without false decimals.

    Parameters
    ----------
    share : float
        Share of the draws.
    n : int
        Number of draws.
    verdict : str
        ``reached``, ``on the edge`` or ``missed``.

    Returns
    -------
    str
        Words for a supervisor.

    Examples
    --------
    >>> chance_words(1.0, 1024, "reached")
    'all but fewer than 3 in 1000'
    """
    if share in (0.0, 1.0):
        rare = f"fewer than {max(round(3000 / n), 1)} in 1000" if n >= 100 else f"of {n} draws"
        words = f"all but {rare}" if share else rare
        return words if n >= 100 else ("in every draw" if share else "in no draw")
    words = f"about {round(share * 100)} in 100"
    return f"{words}, on the edge" if verdict == "on the edge" else words


def _at_most(result: LiftResult) -> float:
    """The most that can be left over while filling stops at the ceiling: against the light end of the required lift."""
    least = at_share(result.required, LOW)
    held = at_share(np.maximum(result.ceiling - result.required, 0.0), HIGH)
    return min(max(result.ceiling - least, 0.0), held)


def _ceiling_words(problem: LiftProblem, result: LiftResult) -> str:
    if result.ceiling_from == "mark":
        return "the marks on the bags"
    if problem.restrained > 0.0:
        return f"the light end of the weight and the {problem.restrained:.0f} kg that the restraint stops"
    return f"the light end of the weight and the {problem.rules.divers_stop:.0f} kg that the divers stop"


def _bag(problem: LiftProblem, result: LiftResult, i: int) -> dict[str, Any]:
    step = result.filling[i]
    bag = next(b for b in problem.bags if b.id == step.bag)
    share = at_share(step.volume / bag.really, LIKELY) if step.fill != "empty" else 0.0
    return {
        "id": bag.id,
        "style": bag.style,
        "fill": step.fill,
        "marked_l": bag.marked * LITRES,
        "really_l": band_of(bag.really, LITRES),
        "height_m": bag.height,
        "fill_share": share,
    }


def _cylinder(problem: LiftProblem, result: LiftResult) -> dict[str, Any] | None:
    cylinder, supply = problem.cylinder, result.supply
    if cylinder is None or supply.usable is None:
        return None
    usable = at_share(supply.usable, LOW)
    per_try = at_share(supply.one_try, HIGH)
    top_up = at_share(supply.top_up, HIGH)
    return {
        "id": cylinder.id,
        "goes": cylinder.goes,
        "use": "lifting",
        "pressure_bar": at_share(cylinder.pressure, LIKELY) / BAR,
        "usable_l": at_share(supply.usable, LIKELY) * LITRES,
        "pressure_after_bar": band_of(supply.pressure_after, 1.0 / BAR),
        "after_tries_bar": [
            band_of(gauge_reading(problem, k * supply.one_try), 1.0 / BAR) for k in range(1, problem.tries + 1)
        ],
        "tries": problem.tries,
        "enough_for_tries": int(max(usable - top_up, 0.0) // per_try) if per_try > 0.0 else None,
    }


def _gate_numbers(problem: LiftProblem, c: Candidate, gate: str) -> str:
    rules = problem.rules
    words = {
        "light": f"{abs(c.light_lift):.1f} kg over it",
        "budget": f"{_seconds(c.budget)} against {rules.reaction:.1f} s",
        "runaway": f"{c.runaway * MINUTE:.0f} m/min against {rules.runaway_speed * MINUTE:.0f} m/min",
        "float": f"{round(c.chance * 100)} in 100 against {rules.float_chance * 100:.0f}",
        "reserve": f"{c.reserve * 100:.0f} % against {rules.reserve * 100:.0f} %",
    }
    return words.get(gate, "not needed")


def _seconds(value: float) -> str:
    return f"{value:.1f} s" if np.isfinite(value) else "as long as you like"
