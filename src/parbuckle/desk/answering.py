"""What the app shows of a kept case or kit: as it was written, with its faults, and what follows from it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from parbuckle.desk.briefing import moment
from parbuckle.desk.changes import Change, change
from parbuckle.desk.documents import kit_faults_of, plan_documents, shown_kit, shown_values
from parbuckle.desk.exchange import Materials
from parbuckle.desk.finding_places import placed_findings, stage_states
from parbuckle.desk.history import reach
from parbuckle.desk.questions import missing
from parbuckle.quantity.errors import CallError
from parbuckle.store.port import Store
from parbuckle.store.rows import Row

DRAWS, SEED = 1024, 1
"""Draws and seed of every answer of the app."""


@dataclass(frozen=True, slots=True)
class Answered:
    """A case, its kit, and the answer to exactly these two.

    Parameters
    ----------
    case : Row
        The case.
    kit : Row or None
        Its kit.
    plan : Mapping or None
        The plan document; None where something is written wrongly.
    faults : list of dict
        What is written wrongly.
    """

    case: Row
    kit: Row | None
    plan: Mapping[str, Any] | None
    faults: list[dict[str, Any]]


def answered(store: Store, key: str, changes: Sequence[Change] = ()) -> Answered:
    """Work a kept case out.

    Parameters
    ----------
    store : Store
        Where it is kept.
    key : str
        Id of the case.
    changes : sequence of Mapping
        Changes to try; nothing of them is saved.

    Returns
    -------
    Answered
        For the last revision of case and kit, with those changes.

    Raises
    ------
    NotKeptError
        If there is no such case.
    CallError
        If a change cannot be made.
    """
    row = store.get("case", key)
    kit = _kit(store, row)
    if changes:
        row = replace(row, document=change(row.document, changes)[0])
    plan, faults = plan_documents(row.document, _document(kit), row.title, DRAWS, SEED)
    return Answered(row, kit, plan, faults)


def whole(found: Answered) -> dict[str, Any]:
    """Give the answer as the app reads it.

    Parameters
    ----------
    found : Answered
        The answer.

    Returns
    -------
    dict
        ``plan`` (null with faults), ``faults``, ``stages``, ``findings`` with their places, ``missing``; and the
        revisions of case and kit that all of it belongs to.
    """
    told = _belongs(found) | {"plan": found.plan, "faults": found.faults, "stages": {}, "findings": [], "missing": []}
    if found.plan is None:
        return told
    kit = _document(found.kit)
    return told | {
        "stages": stage_states(found.plan),
        "findings": placed_findings(found.plan, found.case.document, kit),
        "missing": missing(found.plan, found.case.document, kit),
    }


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
    return Materials(found.plan, found.case.document, _document(found.kit), at, paper)


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


def case_shown(store: Store, row: Row) -> dict[str, Any]:
    """Give a case as the app edits it.

    Parameters
    ----------
    store : Store
        Where it is kept.
    row : Row
        The case.

    Returns
    -------
    dict
        Document, every value in both unit systems, revision of case and kit, what can be taken back.
    """
    kit = _kit(store, row)
    return _shown(store, row) | {
        "kit_id": row.kit,
        "kit_revision": kit.revision if kit else None,
        "parent": row.parent,
        "variant": row.variant,
        "shown": shown_values(row.document, _document(kit)),
    }


def kit_shown(store: Store, row: Row) -> dict[str, Any]:
    """Give a kit as the app edits it.

    Parameters
    ----------
    store : Store
        Where it is kept.
    row : Row
        The kit.

    Returns
    -------
    dict
        Document, faults, every value in both unit systems, revision, what can be taken back.
    """
    return _shown(store, row) | {"faults": kit_faults_of(row.document), "shown": shown_kit(row.document)}


def history(store: Store, row: Row) -> list[dict[str, Any]]:
    """Give what was done to a document.

    Parameters
    ----------
    store : Store
        Where it is kept.
    row : Row
        The document.

    Returns
    -------
    list of dict
        ``number``, ``at``, ``who``, ``what``; the last step first.
    """
    steps = reversed(store.steps(row.id))
    return [{"number": step.number, "at": step.at, "who": step.who, "what": step.what} for step in steps]


def _shown(store: Store, row: Row) -> dict[str, Any]:
    can = reach(store.steps(row.id))
    return {
        "id": row.id,
        "revision": row.revision,
        "title": row.title,
        "changed_at": row.changed_at,
        "document": row.document,
        "undo_what": can.undo[-1].what if can.undo else None,
        "redo_what": can.redo[-1].what if can.redo else None,
    }


def _belongs(found: Answered) -> dict[str, Any]:
    kit = found.kit.revision if found.kit else None
    return {"case_id": found.case.id, "revision": found.case.revision, "kit_revision": kit}


def _kit(store: Store, row: Row) -> Row | None:
    return store.get("kit", row.kit) if row.kit else None


def _document(kit: Row | None) -> Mapping[str, Any] | None:
    return kit.document if kit else None
