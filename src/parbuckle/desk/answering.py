"""What the app shows of a kept case or kit as it was written, and the answer to it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from parbuckle.case.documents import digest_of
from parbuckle.desk.changes import Change, change
from parbuckle.desk.documents import kit_faults_of, plan_documents, shown_kit, shown_values
from parbuckle.desk.history import reach, stands_taken_back
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
    digest : str
        Digest of both documents.
    """

    case: Row
    kit: Row | None
    plan: Mapping[str, Any] | None
    faults: list[dict[str, Any]]
    digest: str = ""

    @property
    def kit_document(self) -> Mapping[str, Any] | None:
        """The document of the kit, if there is one."""
        return self.kit.document if self.kit else None


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
    case, kit, digest = asked_of(store, key, changes)
    plan, faults = plan_documents(case.document, _document(kit), case.title, DRAWS, SEED)
    return Answered(case, kit, plan, faults, digest)


def asked_of(store: Store, key: str, changes: Sequence[Change] = ()) -> tuple[Row, Row | None, str]:
    """Give exactly what an answer would be worked out from.

    Parameters
    ----------
    store : Store
        Where the case is kept.
    key : str
        Id of the case.
    changes : sequence of Mapping
        Changes to try; nothing of them is saved.

    Returns
    -------
    tuple of Row, Row or None, and str
        The case with those changes, its kit, and the digest of both documents.

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
    return row, kit, digest_of(row.document, _document(kit))


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
        ``number``, ``at``, ``who``, ``what``, ``back`` (``undo``, ``redo`` or empty) and ``undone`` (taken back and not
        done again); the last step first.
    """
    steps = store.steps(row.id)
    gone = stands_taken_back(steps)
    told = ({name: getattr(step, name) for name in ("number", "at", "who", "what", "back")} for step in steps)
    return [line | {"undone": line["number"] in gone} for line in told][::-1]


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


def _kit(store: Store, row: Row) -> Row | None:
    return store.get("kit", row.kit) if row.kit else None


def _document(kit: Row | None) -> Mapping[str, Any] | None:
    return kit.document if kit else None
