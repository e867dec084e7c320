"""A store in memory: for tests, and for a look that leaves nothing behind."""

from __future__ import annotations

from dataclasses import replace
from threading import Lock

from parbuckle.store.port import NotKeptError, StaleError, Store, plain
from parbuckle.store.rows import Kind, Row, Step


class MemoryStore(Store):
    """Keeps everything until the process ends; the methods are those of the port."""

    def __init__(self) -> None:
        self._rows: dict[tuple[Kind, str], Row] = {}
        self._steps: dict[str, list[Step]] = {}
        self._lock = Lock()

    def add(self, row: Row, step: Step) -> Row:
        kept = replace(row, document=plain(row.document), revision=1, changed_at=step.at)
        with self._lock:
            if (row.kind, row.id) in self._rows:
                raise StaleError(f"a {row.kind} with the id {row.id} is kept already")
            self._rows[row.kind, row.id] = kept
            self._steps[row.id] = [replace(step, number=1)]
        return replace(kept, document=plain(kept.document))

    def get(self, kind: Kind, key: str) -> Row:
        with self._lock:
            row = self._kept(kind, key)
        return replace(row, document=plain(row.document))

    def rows(self, kind: Kind) -> tuple[Row, ...]:
        with self._lock:
            found = [row for (k, _), row in self._rows.items() if k == kind]
        ordered = sorted(sorted(found, key=lambda row: row.id), key=lambda row: row.changed_at, reverse=True)
        return tuple(replace(row, document=plain(row.document)) for row in ordered)

    def put(self, row: Row, step: Step) -> Row:
        kept = replace(row, document=plain(row.document), revision=row.revision + 1, changed_at=step.at)
        with self._lock:
            if self._kept(row.kind, row.id).revision != row.revision:
                raise StaleError(f"the {row.kind} {row.id} was changed elsewhere")
            self._rows[row.kind, row.id] = kept
            self._steps[row.id].append(replace(step, number=kept.revision))
        return replace(kept, document=plain(kept.document))

    def steps(self, key: str, after: int = 0) -> tuple[Step, ...]:
        with self._lock:
            return tuple(step for step in self._steps.get(key, ()) if step.number > after)

    def take_out(self, kind: Kind, key: str) -> None:
        with self._lock:
            self._kept(kind, key)
            del self._rows[kind, key]

    def close(self) -> None:
        return

    def _kept(self, kind: Kind, key: str) -> Row:
        row = self._rows.get((kind, key))
        if row is None:
            raise NotKeptError(f"no {kind} with the id {key} is kept here")
        return row
