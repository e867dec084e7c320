"""Put the app together: gate, errors in words, routes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.middleware.gzip import GZipMiddleware
from fastapi.responses import JSONResponse, Response

from parbuckle.api.about import about_routes
from parbuckle.api.answers.base import REFUSALS
from parbuckle.api.cases import case_routes
from parbuckle.api.events import event_routes
from parbuckle.api.guarding import Gate, refusal
from parbuckle.api.pages import page_routes
from parbuckle.api.views import view_routes
from parbuckle.api.written import written_routes
from parbuckle.desk.answers_kept import Answers
from parbuckle.desk.keeping import ClashError
from parbuckle.quantity.errors import CallError, CaseError, RangeError
from parbuckle.store.port import NotKeptError, StaleError, Store
from parbuckle.store.watched import WatchedStore

PAGE = Path(__file__).parents[1] / "webui"
"""What the page is built into."""

_WORTH_PACKING = 2_000  # bytes

LOOPBACK = ("localhost", "127.0.0.1", "::1")
"""The names of this very machine."""


def make_app(
    kept: Store,
    hosts: Iterable[str] = LOOPBACK,
    page: Path = PAGE,
    about: Mapping[str, Any] | None = None,
    lifespan: Any = None,
) -> FastAPI:
    """Make the app on a store.

    Parameters
    ----------
    kept : Store
        Where cases and kits are kept.
    hosts : iterable of str
        Names and addresses under which it may be asked.
    page : Path
        Folder of the built page.
    about : Mapping, optional
        What this server says of itself besides.
    lifespan : callable, optional
        What is done when it starts and stops.

    Returns
    -------
    FastAPI
        The answers lie under ``/api``, the page under ``/``; ``app.state.answers`` keeps the answers.
    """
    app = FastAPI(title="parbuckle", docs_url=None, redoc_url=None, openapi_url=None, lifespan=lifespan)
    app.add_middleware(GZipMiddleware, minimum_size=_WORTH_PACKING, compresslevel=4)
    app.add_middleware(Gate, hosts=hosts)
    store = WatchedStore(kept)
    answers = app.state.answers = Answers(store)
    views = view_routes(answers), about_routes(about or {})
    for routes in (case_routes(store), written_routes(store), *views, event_routes(store)):
        app.include_router(routes, prefix="/api", responses=REFUSALS)
    page_routes(app, page)
    for kind, status in ((NotKeptError, 404), (StaleError, 409), (CallError, 422), (RangeError, 422)):
        app.add_exception_handler(kind, _said(status))
    app.add_exception_handler(CaseError, _case_error)
    app.add_exception_handler(ClashError, _clash)
    app.add_exception_handler(RequestValidationError, _unread)
    return app


def _said(status: int) -> Any:
    def answer(_: Request, error: Exception) -> JSONResponse:
        return refusal(status, str(error))

    return answer


def _case_error(_: Request, error: Exception) -> Response:
    assert isinstance(error, CaseError)
    told = {name: getattr(error, name) for name in ("file", "key", "line", "given", "allowed", "do")}
    return refusal(422, error.what, **told)


def _clash(_: Request, error: Exception) -> Response:
    assert isinstance(error, ClashError)
    told = {name: getattr(error, name) for name in ("by", "at", "theirs", "revision")}
    return refusal(409, str(error), path=list(error.place), **told)


def _unread(_: Request, error: Exception) -> Response:
    assert isinstance(error, RequestValidationError)
    first = error.errors()[0]
    return refusal(422, f"This cannot be read: {first['msg']}.", key=".".join(str(step) for step in first["loc"]))
