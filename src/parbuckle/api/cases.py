"""Routes of the cases: made, changed, taken back, their variants."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter

from parbuckle.api.bodies import (
    ChooseBody,
    EditBody,
    ImportBody,
    NewCaseBody,
    RestoreBody,
    SeenBody,
    VariantBody,
    sent,
)
from parbuckle.desk.answering import case_shown, history
from parbuckle.desk.examples import keep_example
from parbuckle.desk.exchange import take_in
from parbuckle.desk.keeping import as_of, become, edit, keep, redo, seen, undo
from parbuckle.desk.questions import case_from_answers, questions
from parbuckle.store.port import Store
from parbuckle.store.rows import Row

Answer = dict[str, Any]


def case_routes(store: Store) -> APIRouter:
    """Give the routes of the cases.

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
    _making(api, store)
    _changing(api, store)
    _variants(api, store)
    return api


def _making(api: APIRouter, store: Store) -> None:
    @api.get("/cases")
    def list_cases() -> Answer:
        return {"cases": [_line(row) for row in store.rows("case")]}

    @api.get("/questions")
    def first_questions() -> Answer:
        return {"questions": questions()}

    @api.post("/cases", status_code=201)
    def new_case(body: NewCaseBody) -> Answer:
        if body.example is not None:
            return case_shown(store, keep_example(store, body.example, body.who, body.kit))
        kit = store.get("kit", body.kit).document if body.kit else None
        document = case_from_answers(body.answers or {}, kit)
        return case_shown(store, keep(store, "case", document, body.who, "made from the questions", kit=body.kit))

    @api.post("/import", status_code=201)
    def import_case(body: ImportBody) -> Answer:
        case, kit = take_in(body.case, body.kit)
        own = keep(store, "kit", kit, body.who, "taken from a file").id if kit is not None else None
        return case_shown(store, keep(store, "case", case, body.who, "taken from a file", kit=own))


def _changing(api: APIRouter, store: Store) -> None:
    @api.get("/cases/{key}")
    def one_case(key: str) -> Answer:
        return case_shown(store, store.get("case", key))

    @api.post("/cases/{key}/edits")
    def edit_case(key: str, body: EditBody) -> Answer:
        row = seen(store, "case", key, body.base)
        return case_shown(store, edit(store, row, sent(body.changes), body.who, body.gesture, body.what))

    @api.post("/cases/{key}/undo")
    def undo_case(key: str, body: SeenBody) -> Answer:
        return case_shown(store, undo(store, seen(store, "case", key, body.base), body.who))

    @api.post("/cases/{key}/redo")
    def redo_case(key: str, body: SeenBody) -> Answer:
        return case_shown(store, redo(store, seen(store, "case", key, body.base), body.who))

    @api.get("/cases/{key}/history")
    def case_history(key: str) -> Answer:
        return {"revisions": history(store, store.get("case", key))}

    @api.post("/cases/{key}/restore")
    def restore_case(key: str, body: RestoreBody) -> Answer:
        row = seen(store, "case", key, body.base)
        old, what = as_of(store, row, body.revision), f"went back to revision {body.revision}"
        return case_shown(store, become(store, row, old, body.who, what))

    @api.delete("/cases/{key}", status_code=204)
    def take_case_out(key: str) -> None:
        store.take_out("case", key)


def _variants(api: APIRouter, store: Store) -> None:
    @api.post("/cases/{key}/variants", status_code=201)
    def new_variant(key: str, body: VariantBody) -> Answer:
        row = store.get("case", key)
        made = {"kit": row.kit, "parent": row.parent or row.id, "variant": body.name}
        return case_shown(store, keep(store, "case", row.document, body.who, f"a variant: {body.name}", **made))

    @api.post("/cases/{key}/choose")
    def choose_variant(key: str, body: ChooseBody) -> Answer:
        row, other = seen(store, "case", key, body.base), store.get("case", body.variant)
        return case_shown(store, become(store, row, other.document, body.who, f"chose {other.variant or other.title}"))


def _line(row: Row) -> Answer:
    names = ("id", "title", "revision", "changed_at", "kit", "parent", "variant")
    return {name: getattr(row, name) for name in names}
