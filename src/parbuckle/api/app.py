"""Put the app together: gate, errors in words, routes."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response

from parbuckle.api.cases import case_routes
from parbuckle.api.guarding import guard, refusal
from parbuckle.api.views import view_routes
from parbuckle.api.written import written_routes
from parbuckle.desk.keeping import ClashError
from parbuckle.quantity.errors import CallError, CaseError, RangeError
from parbuckle.store.port import NotKeptError, StaleError, Store

LOOPBACK = ("localhost", "127.0.0.1", "::1")
"""The names of this very machine."""


def make_app(store: Store, hosts: Iterable[str] = LOOPBACK) -> FastAPI:
    """Make the app on a store.

    Parameters
    ----------
    store : Store
        Where cases and kits are kept.
    hosts : iterable of str
        Names and addresses under which it may be asked.

    Returns
    -------
    FastAPI
        All routes lie under ``/api``.
    """
    app = FastAPI(title="parbuckle", docs_url=None, redoc_url=None, openapi_url=None)
    guard(app, hosts)
    for routes in (case_routes, written_routes, view_routes):
        app.include_router(routes(store), prefix="/api")
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
