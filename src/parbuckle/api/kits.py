"""Routes of the kits: what the team owns and who they are, typed once."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter

from parbuckle.api.bodies import EditBody, SeenBody, sent
from parbuckle.desk.answering import history, kit_shown
from parbuckle.desk.keeping import edit, redo, seen, undo
from parbuckle.store.port import Store

Answer = dict[str, Any]


def kit_routes(store: Store) -> APIRouter:
    """Give the routes of the kits.

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

    @api.get("/kits")
    def list_kits() -> Answer:
        return {"kits": [{"id": row.id, "title": row.title, "revision": row.revision} for row in store.rows("kit")]}

    @api.get("/kits/{key}")
    def one_kit(key: str) -> Answer:
        return kit_shown(store, store.get("kit", key))

    @api.post("/kits/{key}/edits")
    def edit_kit(key: str, body: EditBody) -> Answer:
        row = seen(store, "kit", key, body.base)
        return kit_shown(store, edit(store, row, sent(body.changes), body.who, body.gesture, body.what))

    @api.post("/kits/{key}/undo")
    def undo_kit(key: str, body: SeenBody) -> Answer:
        return kit_shown(store, undo(store, seen(store, "kit", key, body.base), body.who))

    @api.post("/kits/{key}/redo")
    def redo_kit(key: str, body: SeenBody) -> Answer:
        return kit_shown(store, redo(store, seen(store, "kit", key, body.base), body.who))

    @api.get("/kits/{key}/history")
    def kit_history(key: str) -> Answer:
        return {"revisions": history(store, store.get("kit", key))}

    return api
