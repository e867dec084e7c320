"""A store that says what changed: around any other store, for those who wait for news."""

from __future__ import annotations

from collections.abc import Callable
from threading import Lock

from parbuckle.store.port import Store
from parbuckle.store.rows import Kind, Row, Step

News = dict[str, str | int]
"""What changed: ``{"case": id, "revision": number}``, or ``"kit"`` instead; revision 0 when it was taken out."""

Listener = Callable[[News], object]


class WatchedStore(Store):
    """Hands everything on to another store, and tells its listeners when something is kept; methods as of the port.

    Parameters
    ----------
    store : Store
        The store behind.
    """

    def __init__(self, store: Store) -> None:
        self._store = store
        self._listeners: list[Listener] = []
        self._lock = Lock()

    def listen(self, listener: Listener) -> Callable[[], None]:
        """Be told of every change from now on.

        Parameters
        ----------
        listener : callable
            Gets the news, in the thread of the writer; it must be quick and may not fail.

        Returns
        -------
        callable
            Ends it.
        """
        with self._lock:
            self._listeners.append(listener)

        def end() -> None:
            with self._lock:
                self._listeners.remove(listener)

        return end

    def add(self, row: Row, step: Step) -> Row:
        return self._tell(self._store.add(row, step))

    def get(self, kind: Kind, key: str) -> Row:
        return self._store.get(kind, key)

    def rows(self, kind: Kind) -> tuple[Row, ...]:
        return self._store.rows(kind)

    def put(self, row: Row, step: Step) -> Row:
        return self._tell(self._store.put(row, step))

    def steps(self, key: str, after: int = 0) -> tuple[Step, ...]:
        return self._store.steps(key, after)

    def take_out(self, kind: Kind, key: str) -> None:
        self._store.take_out(kind, key)
        self._news({kind: key, "revision": 0})

    def close(self) -> None:
        self._store.close()

    def _tell(self, row: Row) -> Row:
        self._news({row.kind: row.id, "revision": row.revision})
        return row

    def _news(self, news: News) -> None:
        with self._lock:
            listeners = tuple(self._listeners)
        for listener in listeners:
            listener(news)
