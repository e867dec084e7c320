"""Answers about what is written: cases and kits as they stand, and their history."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from parbuckle.api.answers.base import Answer


class CaseLine(Answer):
    """A case in the list."""

    id: str
    title: str
    revision: int
    changed_at: str
    kit: str | None
    parent: str | None
    variant: str | None


class CaseList(Answer):
    """All cases, the one changed last first."""

    cases: list[CaseLine]


class KitLine(Answer):
    """A kit in the list."""

    id: str
    title: str
    revision: int


class KitList(Answer):
    """All kits."""

    kits: list[KitLine]


class Shown(Answer):
    """A written value in both unit systems."""

    metric: str
    imperial: str
    range: list[float] | None = Field(description="Low, likely, high, in SI.")


class Fault(Answer):
    """What is written wrongly, and where."""

    path: list[str | int]
    key: str
    of: str = Field(description="``case`` or ``kit``.")
    what: str
    given: str | None
    allowed: str | None
    do: str | None


class Written(Answer):
    """What cases and kits have in common."""

    id: str
    revision: int
    title: str
    changed_at: str
    document: dict[str, Any]
    undo_what: str | None
    redo_what: str | None
    shown: dict[str, Shown]


class CaseSaid(Written):
    """A case as it is edited."""

    kit_id: str | None
    kit_revision: int | None
    parent: str | None
    variant: str | None


class KitSaid(Written):
    """A kit as it is edited."""

    faults: list[Fault]


class StepLine(Answer):
    """One step of a history."""

    number: int
    at: str
    who: str
    what: str
    back: Literal["", "undo", "redo"]
    undone: bool = Field(description="Taken back, and not done again.")


class HistorySaid(Answer):
    """What was done, the last step first."""

    revisions: list[StepLine]
