"""Keep a case or a kit: every change saved at once, nobody written over in silence, all of it to be taken back."""

from __future__ import annotations

import secrets
from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from parbuckle.desk.changes import Change, Place, change, clash, value_at
from parbuckle.desk.history import done_again, reach, taken_back
from parbuckle.quantity.errors import CallError, ParbuckleError
from parbuckle.store.port import StaleError, Store
from parbuckle.store.rows import Kind, Row, Step

_TRIES = 20


class ClashError(ParbuckleError):
    """Somebody else changed the same place since.

    Parameters
    ----------
    step : Step
        What they did.
    place : tuple
        Where.
    theirs : Any
        What stands there now; None where nothing does.
    revision : int
        The revision of the document now.
    """

    def __init__(self, step: Step, place: Place, theirs: Any, revision: int) -> None:
        super().__init__(f"{step.who} changed this elsewhere. Look at it, and write yours again if it still holds.")
        self.by, self.at, self.place, self.theirs, self.revision = step.who, step.at, place, theirs, revision


def keep(
    store: Store,
    kind: Kind,
    document: Mapping[str, Any],
    who: str,
    what: str = "made",
    *,
    kit: str | None = None,
    parent: str | None = None,
    variant: str | None = None,
) -> Row:
    """Keep a new document.

    Parameters
    ----------
    store : Store
        Where.
    kind : str
        ``case`` or ``kit``.
    document : Mapping
        As it was written.
    who : str
        Who wrote it.
    what : str
        What was done, in one sentence.
    kit, parent, variant : str, optional
        As in ``Row``.

    Returns
    -------
    Row
        With an id of its own.
    """
    told = Row(secrets.token_hex(6), kind, title_of(kind, document), document, kit=kit, parent=parent, variant=variant)
    return store.add(told, Step(at=_now(), who=who, what=what))


def seen(store: Store, kind: Kind, key: str, revision: int) -> Row:
    """Give a kept document with the revision at which somebody saw it.

    Parameters
    ----------
    store : Store
        Where it is kept.
    kind : str
        ``case`` or ``kit``.
    key : str
        Its id.
    revision : int
        The revision that was seen.

    Returns
    -------
    Row
        For ``edit``, ``undo``, ``redo`` and ``become``, which refuse or merge by that revision.

    Raises
    ------
    NotKeptError
        If there is no such document.
    """
    return replace(store.get(kind, key), revision=revision)


def edit(
    store: Store,
    row: Row,
    changes: Iterable[Change],
    who: str,
    gesture: str | None = None,
    what: str = "",
) -> Row:
    """Make changes in a kept document; those that others made elsewhere in it since stay.

    Parameters
    ----------
    store : Store
        Where it is kept.
    row : Row
        The document that the changes were made on: its kind, id and revision count.
    changes : iterable of Mapping
        As for ``change``.
    who : str
        Who makes them.
    gesture : str, optional
        Steps with the same one, one after another, are taken back together.
    what : str
        What was done, in one sentence; left out: the place.

    Returns
    -------
    Row
        The next revision.

    Raises
    ------
    ClashError
        If somebody changed the same place since that revision.
    CallError
        If a change cannot be made.
    """
    mine = tuple(changes)
    if not mine:
        raise CallError("an edit needs at least one change.")
    for _ in range(_TRIES):
        now = store.get(row.kind, row.id)
        _no_clash(store, now, row.revision, mine)
        document, back = change(now.document, mine)
        step = Step(_now(), who, what or _place_text(mine[0]), mine, back, gesture)
        try:
            return store.put(_with(now, document), step)
        except StaleError:
            continue
    raise StaleError(f"the {row.kind} is changed by too many at once; try again")


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
    return _back(store, row, Step(_now(), who, f"took back: {steps[-1].what}", taken_back(steps), back="undo"))


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
    return _back(store, row, Step(_now(), who, f"did again: {steps[-1].what}", done_again(steps), back="redo"))


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
    return _back(store, row, Step(_now(), who, what, (*gone, *changed)))


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


def title_of(kind: Kind, document: Mapping[str, Any]) -> str:
    """Give what a document is called in a list.

    Parameters
    ----------
    kind : str
        ``case`` or ``kit``.
    document : Mapping
        As it was written, right or wrong.

    Returns
    -------
    str
        Its title, or that it has none.
    """
    found = value_at(document, ("case", "title") if kind == "case" else ("team", "name"))
    return found if isinstance(found, str) and found.strip() else f"A {kind} without a name"


def _back(store: Store, row: Row, step: Step) -> Row:
    document, inverse = change(row.document, step.changes)
    return store.put(_with(row, document), replace(step, inverse=inverse))


def _with(row: Row, document: Mapping[str, Any]) -> Row:
    return replace(row, document=document, title=title_of(row.kind, document))


def _no_clash(store: Store, now: Row, base: int, mine: tuple[Change, ...]) -> None:
    if not 1 <= base <= now.revision:
        raise CallError(f"the edit was made on revision {base}. Allowed: 1 to {now.revision}.")
    for step in reversed(store.steps(now.id, after=base)):
        place = clash(mine, step.changes)
        if place is not None:
            raise ClashError(step, place, value_at(now.document, place), now.revision)


def _place_text(one: Change) -> str:
    return ".".join(str(step + 1) if isinstance(step, int) else str(step) for step in one.get("path", ()))


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="microseconds")
