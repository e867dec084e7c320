"""What the app tells of an answer: the plan with its findings, the evening, the way up, what files are made from."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from parbuckle.desk.answering import SEED, Answered
from parbuckle.desk.briefing import moment
from parbuckle.desk.documents import trace_documents
from parbuckle.desk.exchange import Materials
from parbuckle.desk.finding_places import placed_findings, stage_states
from parbuckle.desk.number_list import number_list
from parbuckle.desk.questions import missing
from parbuckle.desk.tonight import tonight
from parbuckle.quantity.errors import CallError


def whole(found: Answered) -> dict[str, Any]:
    """Give the answer as the app reads it.

    Parameters
    ----------
    found : Answered
        The answer.

    Returns
    -------
    dict
        ``plan`` (null with faults), ``faults``, ``stages``, ``findings`` with their places, ``missing``, ``numbers`` as
        they are shown; and the
        revisions of case and kit that all of it belongs to.
    """
    lists: dict[str, Any] = {"stages": {}, "findings": [], "missing": [], "numbers": []}
    told = _belongs(found) | {"plan": found.plan, "faults": found.faults} | lists
    if found.plan is None:
        return told
    kit = found.kit_document
    return told | {
        "stages": stage_states(found.plan),
        "findings": placed_findings(found.plan, found.case.document, kit),
        "missing": missing(found.plan, found.case.document, kit),
        "numbers": number_list(found.plan),
    }


def evening(found: Answered) -> dict[str, Any]:
    """Give the questions of the evening with what an answer says to each.

    Parameters
    ----------
    found : Answered
        The answer.

    Returns
    -------
    dict
        ``verdict``, ``stages``, ``questions``, and the revisions that they belong to.

    Raises
    ------
    CallError
        If something in the case is written wrongly.
    """
    return _belongs(found) | tonight(planned(found))


def traced(found: Answered) -> dict[str, Any]:
    """Give the lift of an answer step by step, every input at its middle.

    Parameters
    ----------
    found : Answered
        The answer.

    Returns
    -------
    dict
        ``trace_of`` (null without a lift), ``trace``, and the revisions that it belongs to.

    Raises
    ------
    CallError
        If something in the case is written wrongly.
    """
    plan = planned(found)
    traced = trace_documents(found.case.document, found.kit_document, found.case.title, plan, SEED)
    return _belongs(found) | traced


def numbered(found: Answered) -> dict[str, Any]:
    """Give all numbers of an answer as they are shown.

    Parameters
    ----------
    found : Answered
        The answer.

    Returns
    -------
    dict
        ``numbers``, and the revisions that they belong to.

    Raises
    ------
    CallError
        If something in the case is written wrongly.
    """
    return _belongs(found) | {"numbers": number_list(planned(found))}


def materials(found: Answered, paper: str = "a4") -> Materials:
    """Give what the files of a case are made from.

    Parameters
    ----------
    found : Answered
        The answer.
    paper : str
        ``a4`` or ``letter``.

    Returns
    -------
    Materials
        With the time of now.
    """
    at = moment(datetime.now().astimezone())
    return Materials(found.plan, found.case.document, found.kit_document, at, paper)


def planned(found: Answered) -> Mapping[str, Any]:
    """Give the plan of an answer that must have one.

    Parameters
    ----------
    found : Answered
        The answer.

    Returns
    -------
    Mapping
        The plan document.

    Raises
    ------
    CallError
        If something in the case is written wrongly.
    """
    if found.plan is None:
        where = found.faults[0]["key"] if found.faults else "the case"
        raise CallError(f"there is no plan: {len(found.faults)} values are written wrongly. The first is {where}.")
    return found.plan


def _belongs(found: Answered) -> dict[str, Any]:
    kit = found.kit.revision if found.kit else None
    told = {"case_id": found.case.id, "revision": found.case.revision, "kit_revision": kit}
    return told | {"digest": found.digest}
