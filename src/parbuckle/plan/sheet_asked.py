"""What was asked and what was said, in the words of the case: permission, hazards, limits, lines, the lesson."""

from __future__ import annotations

from typing import Any

from parbuckle.plan.stages import Stages
from parbuckle.quantity.spread import Spread


def asked_section(stages: Stages) -> dict[str, Any]:
    """Give the answers of a case in its own words.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    dict
        ``permission``, ``hazards``, ``limits``, ``reference``, ``restraint``, ``crown_line``, ``lesson``;
        None where nothing was said.
    """
    case, lift = stages.case, stages.case.lift
    return {
        "permission": _words(case.permission),
        "hazards": _words(case.hazards),
        "limits": _words(case.limits),
        "reference": lift.reference,
        "restraint": _words(lift.restraint) if lift.restraint else None,
        "crown_line": _words(lift.crown_line) if lift.crown_line else None,
        "lesson": _lesson(stages),
    }


def _lesson(stages: Stages) -> dict[str, Any] | None:
    """The lesson without its truth: of the sealed file only whether the case names one."""
    case = stages.case
    if case.case.purpose != "training" and case.lesson is None:
        return None
    told = _words(case.lesson) if case.lesson else {}
    return {**told, "trainees": [row.name for row in case.trainee], "sealed": case.sealed is not None}


def _words(table: Any) -> dict[str, Any]:
    return {name: _word(getattr(table, name)) for name in type(table).model_fields}


def _word(value: Any) -> Any:
    return value.text if isinstance(value, Spread) else value
