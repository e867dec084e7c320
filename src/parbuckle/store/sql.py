"""A store in a database: SQLite in a file, or PostgreSQL; the same tables and the same statements for both."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, cast

from sqlalchemy import Engine, insert, select, update
from sqlalchemy.engine import Connection, CursorResult
from sqlalchemy.exc import IntegrityError

from parbuckle.store.port import NotKeptError, StaleError, Store, plain
from parbuckle.store.rows import Kind, Row, Step
from parbuckle.store.tables import DOCUMENT, STEP


class SqlStore(Store):
    """Keeps everything in a database whose tables are there; the methods are those of the port.

    Parameters
    ----------
    engine : Engine
        The database.
    """

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def add(self, row: Row, step: Step) -> Row:
        kept = replace(row, document=plain(row.document), revision=1, changed_at=step.at)
        try:
            with self._engine.begin() as connection:
                connection.execute(insert(DOCUMENT).values(id=row.id, kind=row.kind, removed=False, **_held(kept)))
                _write(connection, row.id, replace(step, number=1))
        except IntegrityError as error:
            raise StaleError(f"a {row.kind} with the id {row.id} is kept already") from error
        return kept

    def get(self, kind: Kind, key: str) -> Row:
        with self._engine.connect() as connection:
            found = connection.execute(_listed(kind).where(DOCUMENT.c.id == key)).mappings().first()
        if found is None:
            raise _missing(kind, key)
        return _row(found)

    def rows(self, kind: Kind) -> tuple[Row, ...]:
        order = DOCUMENT.c.changed_at.desc(), DOCUMENT.c.id
        with self._engine.connect() as connection:
            return tuple(_row(found) for found in connection.execute(_listed(kind).order_by(*order)).mappings())

    def put(self, row: Row, step: Step) -> Row:
        kept = replace(row, document=plain(row.document), revision=row.revision + 1, changed_at=step.at)
        here = (DOCUMENT.c.id == row.id) & (DOCUMENT.c.kind == row.kind) & DOCUMENT.c.removed.is_(False)
        with self._engine.begin() as connection:
            change = update(DOCUMENT).where(here & (DOCUMENT.c.revision == row.revision)).values(**_held(kept))
            done = cast("CursorResult[Any]", connection.execute(change))
            if done.rowcount != 1:
                there = connection.execute(select(DOCUMENT.c.id).where(here)).first()
                raise (
                    StaleError(f"the {row.kind} {row.id} was changed elsewhere")
                    if there
                    else _missing(row.kind, row.id)
                )
            _write(connection, row.id, replace(step, number=kept.revision))
        return kept

    def steps(self, key: str, after: int = 0) -> tuple[Step, ...]:
        asked = select(STEP).where((STEP.c.document == key) & (STEP.c.number > after)).order_by(STEP.c.number)
        with self._engine.connect() as connection:
            return tuple(_told(found) for found in connection.execute(asked).mappings())

    def take_out(self, kind: Kind, key: str) -> None:
        here = (DOCUMENT.c.id == key) & (DOCUMENT.c.kind == kind) & DOCUMENT.c.removed.is_(False)
        with self._engine.begin() as connection:
            done = cast("CursorResult[Any]", connection.execute(update(DOCUMENT).where(here).values(removed=True)))
            if done.rowcount != 1:
                raise _missing(kind, key)

    def close(self) -> None:
        self._engine.dispose()


def _missing(kind: Kind, key: str) -> NotKeptError:
    return NotKeptError(f"no {kind} with the id {key} is kept here")


def _listed(kind: Kind) -> Any:
    return select(DOCUMENT).where((DOCUMENT.c.kind == kind) & DOCUMENT.c.removed.is_(False))


def _held(row: Row) -> dict[str, Any]:
    return {
        "title": row.title,
        "tree": row.document,
        "revision": row.revision,
        "changed_at": row.changed_at,
        "kit": row.kit,
        "parent": row.parent,
        "variant": row.variant,
    }


def _write(connection: Connection, key: str, step: Step) -> None:
    connection.execute(
        insert(STEP).values(
            document=key,
            number=step.number,
            at=step.at,
            who=step.who,
            what=step.what,
            changes=[dict(change) for change in step.changes],
            inverse=[dict(change) for change in step.inverse],
            gesture=step.gesture,
            back=step.back,
        )
    )


def _row(found: Any) -> Row:
    told = {name: found[name] for name in ("id", "kind", "title", "revision", "changed_at", "kit", "parent", "variant")}
    return Row(document=found["tree"], **told)


def _told(found: Any) -> Step:
    words = {name: found[name] for name in ("at", "who", "what", "gesture", "back", "number")}
    return Step(changes=tuple(found["changes"]), inverse=tuple(found["inverse"]), **words)
