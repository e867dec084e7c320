"""Routes of what follows from a case: the plan, tonight, variants side by side, numbers, files."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query
from fastapi.responses import Response

from parbuckle.api.answers.evening import TonightSaid
from parbuckle.api.answers.planned import NumberList, PlanSaid, TraceSaid
from parbuckle.api.answers.read import CompareSaid, FileList, NumberSaid
from parbuckle.api.bodies import TryBody, sent
from parbuckle.desk.answers_kept import Answers
from parbuckle.desk.comparing import compare
from parbuckle.desk.exchange import file_list
from parbuckle.desk.numbers import number
from parbuckle.desk.paper_apart import file_apart
from parbuckle.desk.telling import evening, materials, numbered, planned, traced, whole

Answer = dict[str, Any]
Paper = Literal["a4", "us-letter"]


def view_routes(answers: Answers) -> APIRouter:
    """Give the routes of what follows from a case.

    Parameters
    ----------
    answers : Answers
        Answers to the cases of a store.

    Returns
    -------
    APIRouter
        To be put into the app.
    """
    api = APIRouter()
    _plans(api, answers)
    _readings(api, answers)
    _files(api, answers)
    return api


def _plans(api: APIRouter, answers: Answers) -> None:
    @api.get("/cases/{key}/plan", response_model=PlanSaid)
    def plan_of(key: str) -> Answer:
        return whole(answers.of(key))

    @api.post("/cases/{key}/what-if", response_model=PlanSaid)
    def what_if(key: str, body: TryBody) -> Answer:
        return whole(answers.of(key, sent(body.changes)))

    @api.get("/cases/{key}/trace", response_model=TraceSaid)
    def trace_of(key: str) -> Answer:
        return traced(answers.of(key))

    @api.get("/cases/{key}/compare", response_model=CompareSaid)
    def side_by_side(key: str, other: Annotated[list[str], Query(alias="with", max_length=2)]) -> Answer:
        found = [answers.of(each) for each in (key, *other)]
        names = ("id", "title", "variant", "revision")
        return compare([{name: getattr(one.case, name) for name in names} | {"plan": one.plan} for one in found])


def _readings(api: APIRouter, answers: Answers) -> None:
    @api.get("/cases/{key}/tonight", response_model=TonightSaid)
    def tonight_of(key: str) -> Answer:
        return evening(answers.of(key))

    @api.get("/cases/{key}/numbers", response_model=NumberList)
    def numbers_of(key: str) -> Answer:
        return numbered(answers.of(key))

    @api.get("/cases/{key}/numbers/{path:path}", response_model=NumberSaid)
    def where_from(key: str, path: str) -> Answer:
        found = answers.of(key)
        return number(planned(found), path, found.case.document, found.kit.document if found.kit else None)


def _files(api: APIRouter, answers: Answers) -> None:
    @api.get("/cases/{key}/files", response_model=FileList)
    def files_of(key: str, paper: Paper = "a4") -> Answer:
        return {"files": file_list(materials(answers.of(key), paper))}

    @api.get("/cases/{key}/files/{name}")
    def one_file(key: str, name: str, paper: Paper = "a4") -> Response:
        content, kind = file_apart(name, materials(answers.of(key), paper))
        return Response(content, media_type=kind, headers={"Content-Disposition": f'inline; filename="{name}"'})
