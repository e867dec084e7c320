"""Who goes where, step by step: people, steps, signals and the abort list of a plan, out of one table."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from parbuckle.case.diving import Dive, Member
from parbuckle.case.model import Case
from parbuckle.case.written import answered
from parbuckle.plan.step_facts import step_facts

Row = dict[str, Any]

_UNNAMED = {"in water": "divers", "rig checker": "second diver"}  # words for roles that nobody has yet


@cache
def people_table() -> Row:
    """Read the table of roles, steps, messages and stops that is shipped with the program.

    Returns
    -------
    dict
        The parsed data file ``data/people.toml``.
    """
    return tomllib.loads(files("parbuckle.data").joinpath("people.toml").read_text(encoding="utf-8"))


def lift_dive(case: Case) -> Dive | None:
    """Give the dive on which the load is lifted, or put down.

    Parameters
    ----------
    case : Case
        The case.

    Returns
    -------
    Dive or None
        The first dive that lifts or lowers; None when no such dive is planned.
    """
    return next((dive for dive in case.dive if "lift" in dive.does or dive.does == "lower"), None)


def role_row(role: str) -> Row:
    """Give what the table says of a role.

    Parameters
    ----------
    role : str
        Name of the role.

    Returns
    -------
    dict
        name, in_water, excludes (roles that the same person cannot have on the same dive), place, places, source;
        empty for a
        role that the table does not hold.

    Examples
    --------
    >>> role_row("standby diver")["in_water"], "boat" in role_row("standby diver")["excludes"]
    (False, True)
    """
    return next((row for row in people_table()["role"] if row["name"] == role), {})


def people(case: Case, method: str) -> list[Row]:
    """Give everybody of the lift dive with role and place.

    Parameters
    ----------
    case : Case
        The case.
    method : str
        Method of the lift.

    Returns
    -------
    list of dict
        name, role, in_water, cylinder, place, ready_in_s, source; in the order of the case. The breathed gas is the
        kit's to add.
    """
    dive = lift_dive(case)
    return [] if dive is None else [_person(member, method) for member in dive.team]


def steps(case: Case, method: str, facts: Mapping[str, Any]) -> list[Row]:
    """Give the numbered steps of a method, filled with the facts of this plan.

    A step that needs a fact which is not known is left out. Steps for each bag are repeated in the order of filling.

    Parameters
    ----------
    case : Case
        The case: names, lines, rigging, rates and stop are taken from it.
    method : str
        ``accompanied``, ``unaccompanied``, ``bag and line``, ``hauled``, ``carried``; any other gives the steps for
        others who lift.
    facts : Mapping of str to object
        What the stages found, as texts in the units of the case: ``ceiling``, ``kept_heavy`` and what else the table
        names; ``bags``: list of dicts with ``bag``, ``fill`` (full, part, empty) and, where known, ``litres`` and
        ``seconds`` as texts, in the order of filling.

    Returns
    -------
    list of dict
        n, phase (before, rig, fill, up, surface), text, who, check (name or None), stop_point.
    """
    known = step_facts(case, facts)
    name = method if any(method in row.get("methods", ()) for row in people_table()["step"]) else "others"
    dive = lift_dive(case)
    rows: list[Row] = []
    for row in people_table()["step"]:
        if name in row.get("methods", (name,)) and _holds(row, known):
            rows += [_step(row, known | bag, dive) for bag in _bags(row, known)]
    return [{"n": n, **row} for n, row in enumerate(rows, start=1)]


def signals() -> list[dict[str, str]]:
    """Give the messages that every team must be able to send; how, the team agrees and writes in.

    Returns
    -------
    list of dict
        message and means.
    """
    table = people_table()["signals"]
    return [{"message": message, "means": table["means"]} for message in table["messages"]]


def abort() -> tuple[list[str], str]:
    """Give what ends the lift at once, and what is done then.

    Returns
    -------
    tuple of (list of str, str)
        The list, and the action.
    """
    table = people_table()["abort"]
    return list(table["when"]), str(table["action"])


def _person(member: Member, method: str) -> Row:
    role = role_row(member.role)
    ready = member.ready_in
    return {
        "name": member.person,
        "role": member.role,
        "in_water": bool(role.get("in_water", False)),
        "cylinder": member.cylinder,
        "place": role.get("places", {}).get(method, role.get("place", "")),
        "ready_in_s": None if ready is None else ready.high,
        "source": role.get("source", ""),
    }


def _holds(row: Row, known: Mapping[str, Any]) -> bool:
    return all(name in known for name in row.get("needs", ())) and not any(
        name in known for name in row.get("without", ())
    )


def _bags(row: Row, known: Mapping[str, Any]) -> list[Row]:
    """Give the bags that a step is repeated for; one empty entry for a step that is not repeated."""
    if "each" not in row:
        return [{}]
    bags = [bag for bag in known.get("bags", ()) if bag["fill"] == row["each"]]
    return [
        {
            "bag": bag["bag"],
            "litres_text": f" of {bag['litres']}" if bag.get("litres") else "",
            "seconds_text": f", about {bag['seconds']}" if bag.get("seconds") else "",
        }
        for bag in bags
    ]


def _step(row: Row, known: Mapping[str, Any], dive: Dive | None) -> Row:
    who = _who(row["who"], dive)
    check = _who(row["check"], dive) if "check" in row else None
    if check == who or (dive is not None and check == row.get("check")):
        check = None
    return {
        "phase": row["phase"],
        "text": row["text"].format_map(known),
        "who": who,
        "check": check,
        "stop_point": bool(row.get("stop_point", False)),
    }


def _who(role: str, dive: Dive | None) -> str:
    """Give the names behind a role of the table; the role itself where nobody has it."""
    team = () if dive is None else dive.team
    by_role: dict[str, list[str]] = {}
    for member in team:
        by_role.setdefault(member.role, []).append(member.person)
    wet = {row["name"] for row in people_table()["role"] if row["in_water"]}
    if role in ("divers", "in water"):
        names = [m.person for m in team if m.role in wet and (role == "in water" or m.role != "instructor")]
    elif role in ("rigger", "rig checker"):
        names = _rig(role, dive) or by_role.get("rigger" if role == "rigger" else "bag tender", [])
    elif role == "boat":
        names = by_role.get("boat") or by_role.get("tender") or ["surface team"]
    else:
        names = by_role.get(role, [])
    return ", ".join(dict.fromkeys(names)) or _UNNAMED.get(role, role)


def _rig(role: str, dive: Dive | None) -> list[str]:
    """Give who rigs, or who checks it, as the tasks of the dive say."""
    task = next((t for t in dive.tasks if "rig" in t.do.lower().replace(",", " ").split()), None) if dive else None
    if task is None:
        return []
    return list(task.by) if role == "rigger" else [task.check] if answered(task.check) and task.check else []
