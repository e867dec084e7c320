"""Open a store by its address; its tables are brought up to date first."""

from __future__ import annotations

import json
from functools import partial
from pathlib import Path
from typing import Any

from sqlalchemy import Engine, create_engine, event
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError

from parbuckle.quantity.errors import CallError
from parbuckle.store.memory import MemoryStore
from parbuckle.store.port import Store
from parbuckle.store.sql import SqlStore

MEMORY = "memory"
"""The address of a store that is gone when the process ends."""

_DRIVERS = {"sqlite": "sqlite+pysqlite", "postgresql": "postgresql+psycopg", "postgres": "postgresql+psycopg"}
_WAIT = 20.0  # seconds that a writer waits for another one
_COMPACT = partial(json.dumps, allow_nan=False, ensure_ascii=False, separators=(",", ":"))


def open_store(address: str) -> Store:
    """Open a store.

    Parameters
    ----------
    address : str
        ``memory``, ``sqlite:///FILE`` or ``postgresql://USER@HOST/NAME``.

    Returns
    -------
    Store
        With all its tables.

    Raises
    ------
    CallError
        If the address cannot be read or names another kind of database.
    """
    if address == MEMORY:
        return MemoryStore()
    from parbuckle.store.migrating import bring_up_to_date

    engine = engine_for(address)
    bring_up_to_date(engine)
    return SqlStore(engine)


def engine_for(address: str) -> Engine:
    """Make the engine for a database's address, with what this program wants of it.

    Parameters
    ----------
    address : str
        As for ``open_store``, without ``memory``.

    Returns
    -------
    Engine
        Nothing is connected yet.

    Raises
    ------
    CallError
        If the address cannot be read or names another kind of database.
    """
    try:
        url = make_url(address)
    except ArgumentError as error:
        raise CallError(f"the address of the store cannot be read. {_allowed()}") from error
    kind = url.get_backend_name()
    if kind not in _DRIVERS:
        raise CallError(f"a store of the kind '{kind}' is not known. {_allowed()}")
    if kind != "sqlite":
        return create_engine(url.set(drivername=_DRIVERS[kind]), json_serializer=_COMPACT, pool_pre_ping=True)
    if url.database:
        Path(url.database).parent.mkdir(parents=True, exist_ok=True)
    engine = create_engine(url, json_serializer=_COMPACT, connect_args={"timeout": _WAIT})
    event.listen(engine, "connect", _sure)
    return engine


def _sure(connection: Any, _: Any) -> None:
    """Let SQLite write beside readers, and give an answer only when it lies on the disk."""
    for order in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON"):
        connection.execute(f"PRAGMA {order}")


def _allowed() -> str:
    return "Allowed: memory, sqlite:///FILE, postgresql://USER@HOST/NAME."
