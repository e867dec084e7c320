"""Keep a case or a kit: every change saved at once, nobody written over in silence, all of it to be taken back."""

from __future__ import annotations

import secrets
from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from parbuckle.desk.changes import Change, Place, change, clash, value_at
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
    return store.add(told, Step(at=now_in_utc(), who=who, what=what))


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
        step = Step(now_in_utc(), who, what or _place_text(mine[0]), mine, back, gesture)
        try:
            return store.put(with_document(now, document), step)
        except StaleError:
            continue
    raise StaleError(f"the {row.kind} is changed by too many at once; try again")


def take_kit(store: Store, row: Row, kit: str | None, who: str) -> Row:
    """Let a case use another kit.

    Parameters
    ----------
    store : Store
        Where both are kept.
    row : Row
        The case as it was seen.
    kit : str or None
        Id of the kit; None for none.
    who : str
        Who decides it.

    Returns
    -------
    Row
        The next revision.

    Raises
    ------
    NotKeptError
        If there is no such kit.
    StaleError
        If the case was changed since it was seen.
    """
    what = f"took the kit {store.get('kit', kit).title}" if kit else "took no kit"
    return store.put(replace(row, kit=kit), Step(now_in_utc(), who, what))


def with_document(row: Row, document: Mapping[str, Any]) -> Row:
    """Give a row another document, and the title that stands in it.

    Parameters
    ----------
    row : Row
        The row.
    document : Mapping
        What it shall hold.

    Returns
    -------
    Row
        At the same revision.
    """
    return replace(row, document=document, title=title_of(row.kind, document))


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


def _no_clash(store: Store, now: Row, base: int, mine: tuple[Change, ...]) -> None:
    if not 1 <= base <= now.revision:
        raise CallError(f"the edit was made on revision {base}. Allowed: 1 to {now.revision}.")
    for step in reversed(store.steps(now.id, after=base)):
        place = clash(mine, step.changes)
        if place is not None:
            raise ClashError(step, place, value_at(now.document, place), now.revision)


def _place_text(one: Change) -> str:
    return ".".join(str(step + 1) if isinstance(step, int) else str(step) for step in one.get("path", ()))


def now_in_utc() -> str:
    """Give the moment of a step.

    Returns
    -------
    str
        ISO 8601 in UTC, with microseconds.
    """
    return datetime.now(UTC).isoformat(timespec="microseconds")
