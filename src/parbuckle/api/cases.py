"""Routes of the cases alone: listed, made, taken in, taken out, their variants."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter

from parbuckle.api.answers.written import CaseList, CaseSaid, KitSaid
from parbuckle.api.bodies import ChooseBody, ImportBody, NewCaseBody, VariantBody
from parbuckle.api.bodies_of_kits import NewKitBody, TakeKitBody
from parbuckle.desk.answering import case_shown, kit_shown
from parbuckle.desk.examples import keep_example
from parbuckle.desk.exchange import take_in
from parbuckle.desk.going_back import choose
from parbuckle.desk.keeping import keep, seen, take_kit
from parbuckle.desk.questions import case_from_answers
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
    _apart(api, store)
    _variants(api, store)
    _kits(api, store)
    return api


def _making(api: APIRouter, store: Store) -> None:
    @api.get("/cases", response_model=CaseList)
    def list_cases() -> Answer:
        return {"cases": [_line(row) for row in store.rows("case")]}

    @api.post("/cases", status_code=201, response_model=CaseSaid)
    def new_case(body: NewCaseBody) -> Answer:
        if body.example is not None:
            return case_shown(store, keep_example(store, body.example, body.who, body.kit))
        kit = store.get("kit", body.kit).document if body.kit else None
        document = case_from_answers(body.answers or {}, kit)
        return case_shown(store, keep(store, "case", document, body.who, "made from the questions", kit=body.kit))

    @api.post("/import", status_code=201, response_model=CaseSaid)
    def import_case(body: ImportBody) -> Answer:
        case, kit = take_in(body.case, body.kit)
        own = keep(store, "kit", kit, body.who, "taken from a file").id if kit is not None else None
        return case_shown(store, keep(store, "case", case, body.who, "taken from a file", kit=own))


def _apart(api: APIRouter, store: Store) -> None:
    @api.delete("/cases/{key}", status_code=204)
    def take_case_out(key: str) -> None:
        store.take_out("case", key)


def _kits(api: APIRouter, store: Store) -> None:
    @api.post("/kits", status_code=201, response_model=KitSaid)
    def new_kit(body: NewKitBody) -> Answer:
        return kit_shown(store, keep(store, "kit", body.document, body.who))

    @api.post("/cases/{key}/kit", response_model=CaseSaid)
    def use_kit(key: str, body: TakeKitBody) -> Answer:
        return case_shown(store, take_kit(store, seen(store, "case", key, body.base), body.kit, body.who))


def _variants(api: APIRouter, store: Store) -> None:
    @api.post("/cases/{key}/variants", status_code=201, response_model=CaseSaid)
    def new_variant(key: str, body: VariantBody) -> Answer:
        row = store.get("case", key)
        made = {"kit": row.kit, "parent": row.parent or row.id, "variant": body.name}
        return case_shown(store, keep(store, "case", row.document, body.who, f"a variant: {body.name}", **made))

    @api.post("/cases/{key}/choose", response_model=CaseSaid)
    def choose_variant(key: str, body: ChooseBody) -> Answer:
        return case_shown(store, choose(store, seen(store, "case", key, body.base), body.variant, body.who))


def _line(row: Row) -> Answer:
    names = ("id", "title", "revision", "changed_at", "kit", "parent", "variant")
    return {name: getattr(row, name) for name in names}
