"""The gate before every answer: known hosts and origins only, JSON only, nothing from outside."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Iterable
from urllib.parse import urlsplit

from fastapi import FastAPI, Request, Response
from fastapi.responses import JSONResponse

Next = Callable[[Request], Awaitable[Response]]

MOST_BYTES = 4_000_000
"""Size of the largest body."""

HEADERS = {
    "Content-Security-Policy": "default-src 'self'; img-src 'self' data: blob:; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
}
"""What every answer says to the browser."""


def guard(app: FastAPI, hosts: Iterable[str]) -> None:
    """Put the gate before an app.

    Parameters
    ----------
    app : FastAPI
        The app.
    hosts : iterable of str
        Names and addresses under which it may be asked, without port.
    """
    allowed = frozenset(hosts)

    @app.middleware("http")
    async def gate(request: Request, go_on: Next) -> Response:
        refused = _refused(request, allowed)
        answer = refusal(*refused) if refused else await go_on(request)
        answer.headers.update(HEADERS)
        return answer


def refusal(status: int, what: str, **more: object) -> JSONResponse:
    """Give an error in the one form that all errors have.

    Parameters
    ----------
    status : int
        Status of HTTP.
    what : str
        What is wrong, in one sentence.
    **more : object
        Further entries.

    Returns
    -------
    JSONResponse
        ``{"error": {"what": ...}}``.
    """
    return JSONResponse({"error": {"what": what} | more}, status)


def _refused(request: Request, allowed: frozenset[str]) -> tuple[int, str] | None:
    if _name(f"//{request.headers.get('host', '')}") not in allowed:
        return 421, "This server does not answer under that name."
    if request.method in ("GET", "HEAD", "OPTIONS"):
        return None
    return _refused_write(request, allowed)


def _refused_write(request: Request, allowed: frozenset[str]) -> tuple[int, str] | None:
    origin = request.headers.get("origin")
    if origin is not None and _name(origin) not in allowed:
        return 403, "A page of another place may not write here."
    if request.method == "DELETE":  # holds no body; a page of another place was refused already
        return None
    if request.headers.get("content-type", "").partition(";")[0].strip() != "application/json":
        return 415, "Send application/json."
    return _refused_size(request.headers.get("content-length"))


def _refused_size(told: str | None) -> tuple[int, str] | None:
    if told is None or not told.isdigit():
        return 411, "Say how long the body is."
    return (413, f"At most {MOST_BYTES} bytes.") if int(told) > MOST_BYTES else None


def _name(address: str) -> str:
    try:
        return urlsplit(address).hostname or ""
    except ValueError:
        return ""
