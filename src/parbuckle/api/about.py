"""Routes that hang on no case: the app itself, its form, its questions, the published checks."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fastapi import APIRouter

from parbuckle.api.answers.about import AppSaid, CheckList, FormSaid, QuestionList
from parbuckle.desk.about import about_app
from parbuckle.desk.checking import run_checks
from parbuckle.desk.finding_places import finding_places
from parbuckle.desk.forms import form
from parbuckle.desk.questions import questions

Answer = dict[str, Any]


def about_routes(about: Mapping[str, Any]) -> APIRouter:
    """Give the routes that hang on no case.

    Parameters
    ----------
    about : Mapping
        What this server says of itself besides.

    Returns
    -------
    APIRouter
        To be put into the app.
    """
    api = APIRouter()

    @api.get("/app", response_model=AppSaid)
    def the_app() -> Answer:
        return about_app() | dict(about)

    @api.get("/form", response_model=FormSaid)
    def the_form() -> Answer:
        return {**form(), "findings": finding_places()}

    @api.get("/questions", response_model=QuestionList)
    def first_questions() -> Answer:
        return {"questions": questions()}

    @api.get("/checks", response_model=CheckList)
    def the_checks() -> Answer:
        return {"checks": run_checks()}

    return api
