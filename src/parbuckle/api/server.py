"""The running server: a store is opened, the app is put on it, and it answers until it is told to stop."""

from __future__ import annotations

import socket
from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager

import uvicorn
from fastapi import FastAPI

from parbuckle.api.app import make_app
from parbuckle.desk.examples import keep_demo
from parbuckle.desk.home import Home
from parbuckle.desk.warming import warm
from parbuckle.store.opening import open_store

_PATIENCE = 2  # seconds that open streams get when the server stops


def serve(home: Home, listener: socket.socket, demo: bool, when_ready: Callable[[], None]) -> None:
    """Answer until it is told to stop.

    Parameters
    ----------
    home : Home
        Where everything is kept.
    listener : socket
        Bound already.
    demo : bool
        Whether the three invented cases are put in.
    when_ready : callable
        Called once, as soon as it answers.
    """
    store = open_store(home.store)
    if demo:
        keep_demo(store)
    about = {"demo": demo, "data_folder": str(home.folder)}
    app = make_app(store, about=about, lifespan=_telling(when_ready))
    warm(store, app.state.answers)
    config = uvicorn.Config(
        app, log_level="warning", access_log=False, server_header=False, timeout_graceful_shutdown=_PATIENCE
    )
    try:
        uvicorn.Server(config).run(sockets=[listener])
    finally:
        store.close()


def _telling(when_ready: Callable[[], None]) -> Callable[[FastAPI], AbstractAsyncContextManager[None]]:
    @asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncIterator[None]:
        when_ready()
        yield

    return lifespan
