"""Go back in the history of a case or a kit: undo, redo, an old revision, a chosen variant; each is a new step."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from parbuckle.desk.changes import Change, change
from parbuckle.desk.history import done_again, reach, taken_back
from parbuckle.desk.keeping import now_in_utc, with_document
from parbuckle.quantity.errors import CallError
from parbuckle.store.port import Store
from parbuckle.store.rows import Row, Step


def undo(store: Store, row: Row, who: str) -> Row:
    """Take the last gesture back, as a new step.

    Parameters
    ----------
    store : Store
        Where it is kept.
    row : Row
        The document as it was seen.
    who : str
        Who takes it back.

    Returns
    -------
    Row
        The next revision.

    Raises
    ------
    CallError
        If there is nothing to take back.
    StaleError
        If the document was changed since it was seen.
    """
    steps = reach(store.steps(row.id)).undo
    if not steps:
        raise CallError("there is nothing to take back.")
    return _back(store, row, Step(now_in_utc(), who, f"took back: {steps[-1].what}", taken_back(steps), back="undo"))


def redo(store: Store, row: Row, who: str) -> Row:
    """Do again what was taken back last, as a new step.

    Parameters
    ----------
    store : Store
        Where it is kept.
    row : Row
        The document as it was seen.
    who : str
        Who does it again.

    Returns
    -------
    Row
        The next revision.

    Raises
    ------
    CallError
        If there is nothing to do again.
    StaleError
        If the document was changed since it was seen.
    """
    steps = reach(store.steps(row.id)).redo
    if not steps:
        raise CallError("there is nothing to do again.")
    return _back(store, row, Step(now_in_utc(), who, f"did again: {steps[-1].what}", done_again(steps), back="redo"))


def become(store: Store, row: Row, document: Mapping[str, Any], who: str, what: str) -> Row:
    """Let a document become another one, as a step that can be taken back: an old revision, or a chosen variant.

    Parameters
    ----------
    store : Store
        Where it is kept.
    row : Row
        The document as it was seen.
    document : Mapping
        What it becomes.
    who : str
        Who decides it.
    what : str
        What was done, in one sentence.

    Returns
    -------
    Row
        The next revision.

    Raises
    ------
    StaleError
        If the document was changed since it was seen.
    """
    old, new = dict(row.document), dict(document)
    gone: list[Change] = [{"op": "remove", "path": [key]} for key in old if key not in new]
    changed: list[Change] = [
        {"op": "set", "path": [key], "value": new[key]} for key in new if key not in old or old[key] != new[key]
    ]
    return _back(store, row, Step(now_in_utc(), who, what, (*gone, *changed)))


def choose(store: Store, row: Row, variant: str, who: str) -> Row:
    """Let a case become one of its variants; the variant stays.

    Parameters
    ----------
    store : Store
        Where both are kept.
    row : Row
        The case as it was seen.
    variant : str
        Id of the variant.
    who : str
        Who decides it.

    Returns
    -------
    Row
        The next revision of the case.

    Raises
    ------
    CallError
        If it is no variant of this case.
    StaleError
        If the case was changed since it was seen.
    """
    other = store.get("case", variant)
    if other.parent != row.id:
        raise CallError(f"'{other.title}' is no variant of '{row.title}'.")
    return become(store, row, other.document, who, f"chose {other.variant}")


def as_of(store: Store, row: Row, revision: int) -> dict[str, Any]:
    """Give a document as it was.

    Parameters
    ----------
    store : Store
        Where it is kept.
    row : Row
        The document now.
    revision : int
        Which, from 1.

    Returns
    -------
    dict
        The tree at that revision.

    Raises
    ------
    CallError
        If there was no such revision.
    """
    if not 1 <= revision <= row.revision:
        raise CallError(f"there is no revision {revision}. Allowed: 1 to {row.revision}.")
    later = [step for step in store.steps(row.id, after=revision) if step.number <= row.revision]
    return change(row.document, taken_back(later))[0]


def _back(store: Store, row: Row, step: Step) -> Row:
    document, inverse = change(row.document, step.changes)
    return store.put(with_document(row, document), replace(step, inverse=inverse))
