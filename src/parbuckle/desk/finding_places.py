"""Where each finding is decided: its stage of the job and the key that it hangs on; and the state of each stage."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from parbuckle.duties.rules_answers import EMERGENCY, HAZARDS, LIMITS, PERMISSION

STAGES = ("call", "search", "object", "lift", "dive", "brief")
"""Stages of the job, in its order."""

_LEVELS = ("stop", "unanswered", "caution", "note")

_ASKED = {
    "hazard_unanswered": HAZARDS,
    "permission_unanswered": PERMISSION,
    "emergency_unanswered": EMERGENCY,
    "limits_unanswered": {words: words for words in LIMITS.values()},
}
"""Findings that ask for several keys: the words by which each key is asked for."""

_LACKING = {"search": "search", "load": "object", "lift": "lift", "gas": "lift", "lowering": "lift", "surface": "lift"}
_ROOTS = {"site": "call", "account": "search", "search": "search", "object": "object", "exposure": "dive"}


@cache
def finding_places() -> dict[str, dict[str, str]]:
    """Give the place of every finding.

    Returns
    -------
    dict
        By code: ``stage`` and ``key``. Shared between callers: not to be changed.
    """
    text = files("parbuckle.data").joinpath("finding_places.toml").read_text(encoding="utf-8")
    found: dict[str, dict[str, str]] = {}
    for stage, keys in tomllib.loads(text).items():
        for key, codes in keys.items():
            found |= {code: {"stage": stage, "key": key} for code in codes}
    return found


def place_of_finding(row: Mapping[str, Any], document: Mapping[str, Any]) -> dict[str, str]:
    """Give the place of one finding of a plan; an input that is missing names its own.

    Parameters
    ----------
    row : mapping
        A row of ``findings``.
    document : mapping
        The plan document.

    Returns
    -------
    dict
        ``stage`` and ``key``.
    """
    place = finding_places()[row["code"]]
    if row["code"] in _ASKED:
        first = next((key for key, words in _ASKED[row["code"]].items() if words in row["text"]), None)
        return place if first is None else {**place, "key": f"{place['key']}.{first}"}
    if row["code"] != "input_missing":
        return place
    lacking = next((r for r in document["unanswered"] if f"Not told: {r['key']}." in row["text"]), None)
    return place if lacking is None else {"stage": stage_of_lack(lacking), "key": lacking["key"]}


def stage_of_lack(row: Mapping[str, str]) -> str:
    """Give the stage of the job where a missing input is entered.

    Parameters
    ----------
    row : mapping
        A row of ``unanswered`` or of ``find_out_first``: ``key`` and, where known, ``stage``.

    Returns
    -------
    str
        One of ``STAGES``.

    Examples
    --------
    >>> stage_of_lack({"key": "site.depth", "stage": "lift"})
    'call'
    """
    root = row["key"].split(".")[0].split("[")[0]
    return _ROOTS.get(root) or _LACKING.get(
        row.get("stage", ""), "lift" if root in ("lift", "kit", "surface") else "dive"
    )


def level_of(row: Mapping[str, Any]) -> str:
    """Give the level at which a finding weighs: a stop that was lifted stays visible, as a caution.

    Parameters
    ----------
    row : mapping
        A row of ``findings``.

    Returns
    -------
    str
        ``stop``, ``unanswered``, ``caution`` or ``note``.

    Examples
    --------
    >>> level_of({"level": "stop", "lifted": {"by": "Ada"}})
    'caution'
    """
    return "caution" if row["lifted"] else str(row["level"])


def stage_states(document: Mapping[str, Any]) -> dict[str, dict[str, Any]]:
    """Give the state of each stage of a plan: the worst of its findings, and how many of each; see ``level_of``.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    dict
        By stage: ``state`` (``stop``, ``unanswered``, ``caution``, ``note`` or ``none``) and the counts by level.
    """
    counts = {stage: dict.fromkeys(_LEVELS, 0) for stage in STAGES}
    for row in document["findings"]:
        counts[place_of_finding(row, document)["stage"]][level_of(row)] += 1
    return {
        stage: {"state": next((level for level in _LEVELS if told[level]), "none"), **told}
        for stage, told in counts.items()
    }


def placed_findings(
    document: Mapping[str, Any], case: Mapping[str, Any], kit: Mapping[str, Any] | None
) -> list[dict[str, Any]]:
    """Give the findings of a plan with their places, in the order of the plan.

    Parameters
    ----------
    document : mapping
        The plan document.
    case : mapping
        The written document of the case.
    kit : mapping or None
        That of its kit.

    Returns
    -------
    list of dict
        Each finding as it stands in the plan, with ``stage``, ``key``, ``of`` and ``path`` (as far as it is there).
    """
    from parbuckle.case.key_paths import place_of

    rows = []
    for row in document["findings"]:
        place = place_of_finding(row, document)
        of, path = place_of(place["key"], case, kit)
        rows.append({**row, **place, "of": of, "path": list(path)})
    return rows
