"""Answers that follow from a case: its plan, tonight, the lift in time."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from parbuckle.api.answers.base import Answer
from parbuckle.api.answers.written import Fault

Stage = Literal["call", "search", "object", "lift", "dive", "brief"]


class StageState(Answer):
    """How a stage stands, and how many findings of each level it has."""

    state: Literal["stop", "unanswered", "caution", "note", "none"]
    stop: int
    unanswered: int
    caution: int
    note: int


class PlacedFinding(Answer):
    """A finding, and the value where it is decided."""

    level: Literal["stop", "unanswered", "caution", "note"]
    code: str
    text: str
    value: Any
    limit: Any
    source: str
    override: Literal["never", "reason"]
    do: str
    lifted: Any = Field(description="Who lifted it, why and when; null when nobody did.")
    stage: Stage
    key: str
    of: str | None
    path: list[str | int] | None


class Missing(Answer):
    """A value that is still missing or rough; the most important first."""

    what: str
    why: str
    key: str
    stage: Stage
    share: float | None
    of: str | None
    path: list[str | int] | None


class Belongs(Answer):
    """Which revisions an answer belongs to."""

    case_id: str
    revision: int
    kit_revision: int | None
    digest: str


class NumberLine(Answer):
    """A number of the plan as it is shown."""

    path: str
    name: str
    likely: str = Field(description="With its unit, in the chosen system.")
    band: str = Field(description="Low to high; empty without a band.")
    also: str = Field(description="The same in the other system; empty where it reads the same.")
    value: str = Field(description="All of it in one text.")
    range: list[float] | None = Field(description="Low, likely, high in the unit of the plan.")
    section: int | None


class NumberList(Belongs):
    """All numbers of a plan."""

    numbers: list[NumberLine]


class PlanSaid(Belongs):
    """The plan of exactly these revisions; null where something is written wrongly."""

    plan: dict[str, Any] | None
    faults: list[Fault]
    stages: dict[Stage, StageState]
    findings: list[PlacedFinding]
    missing: list[Missing]
    numbers: list[NumberLine]


class TraceRow(Answer):
    """One moment of the way up."""

    t_s: float
    depth_m: float
    speed_m_s: float
    bag_volumes_l: dict[str, float]
    surplus_kg: float = Field(description="Lift beyond what is needed at that moment.")


class TraceSaid(Belongs):
    """The way up, every input at its middle."""

    trace_of: str | None
    trace: list[TraceRow]
