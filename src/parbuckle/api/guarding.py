"""The gate before every answer: known hosts and origins only, JSON only, nothing from outside."""

from __future__ import annotations

from collections.abc import Iterable
from urllib.parse import urlsplit

from fastapi import Request
from fastapi.responses import JSONResponse
from starlette.datastructures import MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

MOST_BYTES = 4_000_000
"""Size of the largest body."""

HEADERS = {
    "Content-Security-Policy": "default-src 'self'; img-src 'self' data: blob:; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
}
"""What every answer says to the browser."""


class Gate:
    """Stands before an app, and hands on only what may come in. What streams is not held up.

    Parameters
    ----------
    app : ASGIApp
        The app behind.
    hosts : iterable of str
        Names and addresses under which it may be asked, without port.
    """

    def __init__(self, app: ASGIApp, hosts: Iterable[str]) -> None:
        self._app, self._hosts = app, frozenset(hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request.

        Parameters
        ----------
        scope, receive, send : Scope, Receive, Send
            As ASGI has them.
        """
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                MutableHeaders(scope=message).update(HEADERS)
            await send(message)

        refused = _refused(Request(scope), self._hosts)
        await (refusal(*refused) if refused else self._app)(scope, receive, with_headers)


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
