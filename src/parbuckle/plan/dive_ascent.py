"""How the divers come up: beside the load or apart from it, when not, and how long before they fly."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

from parbuckle.dive.result import DiveResult
from parbuckle.lift.tending_result import TendingResult
from parbuckle.plan.bands import MINUTE
from parbuckle.plan.dive_carried import changes_below, gas_changes
from parbuckle.plan.people import lift_dive
from parbuckle.plan.stages import Stages
from parbuckle.quantity.shown import show

Row = dict[str, Any]

CARDS = (
    {
        "card": "stop missed",
        "do": "Follow the divers' own table or computer. No second dive. Oxygen, watch, call the doctor at any doubt.",
    },
    {
        "card": "buddy lost",
        "do": "Leave the load. Look round for one minute. Come up at the usual rate. Tell the surface at once.",
    },
)
"""Two cards that belong to every way up; the team may write its own."""

_HOUR = 60.0


def ascent_of(stages: Stages, dive: DiveResult) -> Row:
    """Give the divers' way up of one dive.

    Parameters
    ----------
    stages : Stages
        Case and results.
    dive : DiveResult
        The dive.

    Returns
    -------
    dict
        ``beside_load`` and why not, rates, flags, sentences, cards.
    """
    problem, house = stages.diving_problem, stages.house
    assert problem is not None
    asked = stages.case.dive[dive.place] is lift_dive(stages.case) and stages.method == "accompanied"
    held = _held(stages.tending)
    stop_due = bool(dive.stops)
    told = stages.case.lift.leave_load_at
    changes = changes_below(stages.case.dive[dive.place], told.mid if told else house["leave_load_at"])
    allowed = asked and not stop_due and not changes and held is not None and held >= house["held_chance"]
    leave = next((d.beside[1] for d in problem.dives if d.place == dive.place and d.beside is not None), None)
    return {
        "beside_load": allowed,
        "why": _why(asked, stop_due, held, house["held_chance"], changes),
        "load_leave_at_m": leave,
        "stop_is_aside": leave is None or leave >= problem.rules.stop_depth,
        "rate_m_min": problem.rules.up * MINUTE,
        "sawtooth_m": dive.tooth if dive.tooth > problem.rules.sawtooth else None,
        "rapid": bool(asked and _load_ceiling(stages) > problem.rules.up),
        "plan": _words(stages, dive, leave if asked else None),
        "cards": list(CARDS),
    }


def flying(dive: DiveResult) -> Row | None:
    """Give the time at the surface before flying.

    Parameters
    ----------
    dive : DiveResult
        The dive.

    Returns
    -------
    dict or None
        ``hours`` for the diver who has to wait longest, ``group`` and ``source``; None without divers.
    """
    if not dive.divers:
        return None
    table = _table()
    waits = [_wait(d.group_after) for d in dive.divers]
    longest = max(waits)
    group = dive.divers[waits.index(longest)].group_after or None
    where = table["table"] if group else table["without_group"]
    return {"hours": longest, "group": group, "to": table["table"]["altitude"], "source": where["source"]}


def _wait(group: str) -> float:
    table = _table()
    known = [minutes for letter, minutes in table["table"]["rows"] if letter >= group]
    return known[0] / _HOUR if group and known else float(table["without_group"]["hours"])


def _held(tending: TendingResult | None) -> float | None:
    """Share of the draws in which the load's rate holds; None where nobody goes up beside it."""
    return None if tending is None else float(tending.outcome.within.mean())


def _load_ceiling(stages: Stages) -> float:
    return stages.lift_problem.ceiling if stages.lift_problem is not None else 0.0


def _why(asked: bool, stop_due: bool, held: float | None, wanted: float, changes: bool) -> str:
    if not asked:
        return "The divers go up apart from the load."
    if changes:
        return "Gas is changed deeper than the load is left: the divers go up apart from it."
    if stop_due:
        return "A stop is due at the long end: the divers leave the load to its line and go up apart from it."
    if held is None:
        return "Whether the load's rate holds is not known: go up apart from it."
    if held < wanted:
        return "The load's rate does not hold often enough: go up apart from it."
    return "The load's rate holds, and no stop is due."


def _words(stages: Stages, dive: DiveResult, leave: float | None) -> list[str]:
    units, problem = stages.case.case.units, stages.diving_problem
    assert problem is not None
    rules = problem.rules
    words = [f"Divers go up at {show(rules.up * MINUTE, 'rate', units)} at most, whatever the load does."]
    if leave is not None:
        words.append(f"Leave the load at {show(leave, 'length', units)} and go well aside.")
    halts = [(row["depth_m"], 0, _change(row, units)) for row in gas_changes(stages, dive)]
    halts += [(stop.depth, 1, _stop(stop.depth, stop.time, units)) for stop in dive.stops]
    if rules.stop_time > 0.0:
        halts.append((rules.stop_depth, 2, f"{_stop(rules.stop_depth, rules.stop_time, units)[:-1]} of the load."))
    words += [text for _, _, text in sorted(halts, key=lambda halt: (-halt[0], halt[1]))]
    return words


def _stop(depth: float, time: float, units: str) -> str:
    return f"Stop at {show(depth, 'length', units)} for {time / MINUTE:.0f} min, well aside."


def _change(row: Row, units: str) -> str:
    """What everybody does at a change of gas."""
    told = " and ".join(f"{who['name']} to {who['gas']} ({who['cylinder']})" for who in row["who"])
    return f"At {show(row['depth_m'], 'length', units)} change gas: {told}. All wait {row['min']:.0f} min."


@cache
def _table() -> Row:
    return tomllib.loads(files("parbuckle.data").joinpath("flying.toml").read_text(encoding="utf-8"))
