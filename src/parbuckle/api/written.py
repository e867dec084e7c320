"""Routes of what is written, the same for a case and a kit: seen, changed, taken back, its history."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from fastapi import APIRouter

from parbuckle.api.answers.written import CaseSaid, HistorySaid, KitList, KitSaid, Written
from parbuckle.api.bodies import EditBody, RestoreBody, SeenBody, sent
from parbuckle.desk.answering import case_shown, history, kit_shown
from parbuckle.desk.going_back import as_of, become, redo, undo
from parbuckle.desk.keeping import edit, seen
from parbuckle.store.port import Store
from parbuckle.store.rows import Kind, Row

Answer = dict[str, Any]

_SAID: dict[Kind, type[Written]] = {"case": CaseSaid, "kit": KitSaid}
_SHOWN: dict[Kind, Callable[[Store, Row], Answer]] = {"case": case_shown, "kit": kit_shown}


def written_routes(store: Store) -> APIRouter:
    """Give the routes of cases and kits that are the same for both.

    Parameters
    ----------
    store : Store
        Where they are kept.

    Returns
    -------
    APIRouter
        To be put into the app.
    """
    api = APIRouter()
    for kind in _SHOWN:
        _changing(api, store, kind)
        _going_back(api, store, kind)

    @api.get("/kits", response_model=KitList)
    def list_kits() -> Answer:
        return {"kits": [{"id": row.id, "title": row.title, "revision": row.revision} for row in store.rows("kit")]}

    return api


def _changing(api: APIRouter, store: Store, kind: Kind) -> None:
    place, show, said = f"/{kind}s/{{key}}", _SHOWN[kind], _SAID[kind]

    @api.get(place, operation_id=f"one_{kind}", response_model=said)
    def one(key: str) -> Answer:
        return show(store, store.get(kind, key))

    @api.post(f"{place}/edits", operation_id=f"edit_{kind}", response_model=said)
    def edit_one(key: str, body: EditBody) -> Answer:
        row = seen(store, kind, key, body.base)
        return show(store, edit(store, row, sent(body.changes), body.who, body.gesture, body.what))

    @api.get(f"{place}/history", operation_id=f"history_of_{kind}", response_model=HistorySaid)
    def history_of(key: str) -> Answer:
        return {"revisions": history(store, store.get(kind, key))}


def _going_back(api: APIRouter, store: Store, kind: Kind) -> None:
    place, show, said = f"/{kind}s/{{key}}", _SHOWN[kind], _SAID[kind]

    @api.post(f"{place}/undo", operation_id=f"undo_{kind}", response_model=said)
    def undo_one(key: str, body: SeenBody) -> Answer:
        return show(store, undo(store, seen(store, kind, key, body.base), body.who))

    @api.post(f"{place}/redo", operation_id=f"redo_{kind}", response_model=said)
    def redo_one(key: str, body: SeenBody) -> Answer:
        return show(store, redo(store, seen(store, kind, key, body.base), body.who))

    @api.post(f"{place}/restore", operation_id=f"restore_{kind}", response_model=said)
    def restore_one(key: str, body: RestoreBody) -> Answer:
        row = seen(store, kind, key, body.base)
        old, what = as_of(store, row, body.revision), f"went back to revision {body.revision}"
        return show(store, become(store, row, old, body.who, what))
