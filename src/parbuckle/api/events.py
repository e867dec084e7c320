"""News as they happen: one stream for each page that is open, so that two windows never show different cases."""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator

from fastapi import APIRouter
from fastapi.responses import StreamingResponse

from parbuckle.store.watched import News, WatchedStore

_QUIET = 15.0  # seconds after which a line is sent although nothing happened, so that a dead connection is seen
_MOST_WAITING = 200


def event_routes(store: WatchedStore) -> APIRouter:
    """Give the route of the news.

    Parameters
    ----------
    store : WatchedStore
        Says what changes.

    Returns
    -------
    APIRouter
        To be put into the app.
    """
    api = APIRouter()

    @api.get("/events", include_in_schema=False)
    async def events() -> StreamingResponse:
        return StreamingResponse(_stream(store), media_type="text/event-stream", headers={"Cache-Control": "no-store"})

    return api


async def _stream(store: WatchedStore) -> AsyncIterator[str]:
    loop = asyncio.get_running_loop()
    waiting: asyncio.Queue[News] = asyncio.Queue()
    end = store.listen(lambda news: loop.call_soon_threadsafe(waiting.put_nowait, news))
    try:
        yield ": here\n\n"
        while waiting.qsize() < _MOST_WAITING:  # a page that does not read any more comes back and reads all anew
            yield await _next(waiting)
    finally:
        end()


async def _next(waiting: asyncio.Queue[News]) -> str:
    try:
        return f"data: {json.dumps(await asyncio.wait_for(waiting.get(), _QUIET))}\n\n"
    except TimeoutError:
        return ": quiet\n\n"
