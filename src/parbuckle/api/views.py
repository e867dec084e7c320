"""Routes of what follows from a case: the plan, tonight, variants side by side, numbers, files, checks."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query
from fastapi.responses import Response

from parbuckle.api.bodies import TryBody, sent
from parbuckle.desk.answering import DRAWS, SEED, answered, materials, planned, whole
from parbuckle.desk.checking import run_checks
from parbuckle.desk.comparing import compare
from parbuckle.desk.exchange import file_list, file_of
from parbuckle.desk.forms import form
from parbuckle.desk.numbers import number
from parbuckle.desk.tonight import tonight
from parbuckle.store.port import Store

Answer = dict[str, Any]
Paper = Literal["a4", "us-letter"]


def view_routes(store: Store) -> APIRouter:
    """Give the routes of what follows from a case.

    Parameters
    ----------
    store : Store
        Where cases are kept.

    Returns
    -------
    APIRouter
        To be put into the app.
    """
    api = APIRouter()
    _plans(api, store)
    _readings(api, store)
    _files(api, store)
    return api


def _plans(api: APIRouter, store: Store) -> None:
    @api.get("/cases/{key}/plan")
    def plan_of(key: str) -> Answer:
        return whole(answered(store, key))

    @api.post("/cases/{key}/what-if")
    def what_if(key: str, body: TryBody) -> Answer:
        return whole(answered(store, key, sent(body.changes)))

    @api.get("/cases/{key}/compare")
    def side_by_side(key: str, other: Annotated[list[str], Query(alias="with", max_length=2)]) -> Answer:
        found = [answered(store, each) for each in (key, *other)]
        names = ("id", "title", "variant", "revision")
        return compare([{name: getattr(one.case, name) for name in names} | {"plan": one.plan} for one in found])


def _readings(api: APIRouter, store: Store) -> None:
    @api.get("/form")
    def the_form() -> Answer:
        return dict(form())

    @api.get("/app")
    def the_app() -> Answer:
        return {"draws": DRAWS, "seed": SEED, "languages": ["en"]}

    @api.get("/checks")
    def the_checks() -> Answer:
        return {"checks": run_checks()}

    @api.get("/cases/{key}/tonight")
    def tonight_of(key: str) -> Answer:
        return tonight(planned(answered(store, key)))

    @api.get("/cases/{key}/numbers/{path:path}")
    def where_from(key: str, path: str) -> Answer:
        found = answered(store, key)
        return number(planned(found), path, found.case.document, found.kit.document if found.kit else None)


def _files(api: APIRouter, store: Store) -> None:
    @api.get("/cases/{key}/files")
    def files_of(key: str, paper: Paper = "a4") -> Answer:
        return {"files": file_list(materials(answered(store, key), paper))}

    @api.get("/cases/{key}/files/{name}")
    def one_file(key: str, name: str, paper: Paper = "a4") -> Response:
        content, kind = file_of(name, materials(answered(store, key), paper))
        return Response(content, media_type=kind, headers={"Content-Disposition": f'inline; filename="{name}"'})
