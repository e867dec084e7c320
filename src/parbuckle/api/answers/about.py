"""Answers that hang on no case: the app, its form, its first questions, the published checks."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from parbuckle.api.answers.base import Answer


class AppSaid(Answer):
    """What the app says of itself."""

    version: str
    draws: int
    seed: int
    compiled: Literal["none", "working", "ready"]
    languages: list[str]
    demo: bool = False
    data_folder: str = ""


class FormField(Answer):
    """One value that can be written."""

    key: str
    label: str
    help: str
    type: str
    kind: str | None
    units: list[str]
    choices: list[Any]
    open: bool = Field(description="Whether other words than the choices are allowed.")
    kit: str | None = Field(description="The table of the kit whose names fit.")
    needed: bool
    unknown_ok: bool
    default: Any
    fields: list[FormField]


class FormSection(Answer):
    """One table, or rows of one kind."""

    key: str
    title: str
    rows: bool
    help: str
    fields: list[FormField]
    field: str | None = Field(default=None, description="Type of the table as a field; null for the top level.")


class Place(Answer):
    """Where a finding is decided."""

    stage: str
    key: str


class FormSaid(Answer):
    """Everything that can be written, and where each finding is decided."""

    case: list[FormSection]
    kit: list[FormSection]
    findings: dict[str, Place]


class SmallQuestion(Answer):
    """A question that goes with another."""

    key: str
    ask: str
    help: str
    type: str
    kind: str | None
    choices: list[str]
    path: list[str | int]
    also: list[SmallQuestion] = Field(default_factory=list)


class FirstQuestion(SmallQuestion):
    """One of the ten first questions."""

    n: int


class QuestionList(Answer):
    """The ten first questions."""

    questions: list[FirstQuestion]


class CheckLine(Answer):
    """A published number against ours."""

    id: str
    quantity: str
    value: float
    ours: float
    tolerance: float
    unit: str
    source: str
    mark: Literal["read", "computed", "recalled", "common practice"]
    ok: bool


class CheckList(Answer):
    """All published checks."""

    checks: list[CheckLine]
