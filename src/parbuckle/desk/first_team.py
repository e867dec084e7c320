"""A first team and first cylinders out of the kit, so that a new case has somebody in the water: a proposal."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

_IN_WATER = ("bag tender", "load tender", "searcher", "rigger")
_BESIDE = ("standby diver", "tender", "supervisor")

Row = dict[str, Any]


def first_team(said: Mapping[str, Any], kit: Mapping[str, Any] | None) -> tuple[Row, list[Row]]:
    """Propose the lift's cylinder and the first dive.

    Parameters
    ----------
    said : mapping
        Answers: ``divers`` (a number) and ``when`` (ISO; without an offset it is the time of this machine's zone).
    kit : mapping or None
        The document of the kit.

    Returns
    -------
    tuple of dict and list of dict
        The tables ``lift`` and ``dive`` of a case; empty where nothing can be proposed.
    """
    cylinders = [row for row in _rows(kit, "cylinder") if row.get("quarantined") is not True and row.get("id")]
    lifting = [row["id"] for row in cylinders if row.get("use") == "lifting"]
    breathing = [row["id"] for row in cylinders if row.get("use") == "breathing"]
    team = _team(_number(said.get("divers")), _rows(kit, "person"), breathing)
    start = _moment(said.get("when"))
    dive: Row = {"does": "lift"}
    if start is not None:
        dive["start"] = start
    if team:
        dive["team"] = team
    return ({"cylinder": lifting[0]} if lifting else {}), [dive] if team or start is not None else []


def _team(divers: int, people: list[Row], cylinders: list[str]) -> list[Row]:
    """Give each role to the first person who may take it and has none yet."""
    free, sets = list(people), list(cylinders)
    team: list[Row] = []
    for role in (*_IN_WATER[:divers], *_BESIDE) if divers > 0 else ():
        person = next((row for row in free if role in _roles(row) and row.get("name")), None)
        if person is None:
            continue
        free.remove(person)
        member = {"person": person["name"], "role": role}
        if (role in _IN_WATER or role == "standby diver") and sets:
            member["cylinder"] = sets.pop(0)
        team.append(member)
    return team


def _roles(person: Row) -> list[str]:
    roles = person.get("may")
    return roles if isinstance(roles, list) else []


def _rows(kit: Mapping[str, Any] | None, table: str) -> list[Row]:
    rows = kit.get(table) if kit else None
    return [row for row in rows if isinstance(row, dict)] if isinstance(rows, list) else []


def _number(raw: Any) -> int:
    text = str(raw).strip() if raw is not None else ""
    return int(text) if text.isdecimal() and len(text) < 3 else 0


def _moment(raw: Any) -> Any:
    """Give a time its offset; what is no time is kept as it was typed."""
    if not isinstance(raw, str):
        return raw
    try:
        when = datetime.fromisoformat(raw.strip())
    except ValueError:
        return raw
    return (when if when.tzinfo else when.astimezone()).isoformat()
