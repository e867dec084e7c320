"""People: their roles, their breathing rates and their own spans."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from parbuckle.case.written import Name, Rows, Value, Written
from parbuckle.quantity.spread import Spread

Role = Literal[
    "supervisor",
    "instructor",
    "bag tender",
    "load tender",
    "rigger",
    "searcher",
    "standby diver",
    "tender",
    "boat",
    "timekeeper",
    "line handler",
]


class Spans(Written):
    """A diver's own measures, for measuring by touch."""

    hand: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Thumb tip to little finger tip, hand spread."
    )
    arms: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Finger tip to finger tip, arms spread."
    )


class Breather(Written):
    """What a plan must know of anybody who may go under water."""

    name: Name = Field(description="Name; unique.")
    resting_rate: Annotated[Spread | None, Value("flow", positive=True)] = Field(
        default=None, description="Gas breathed at rest, as free gas at the surface."
    )
    working_rate: Annotated[Spread | None, Value("flow", positive=True)] = Field(
        default=None, description="Gas breathed at work, as free gas at the surface."
    )
    reaction: Annotated[Spread | None, Value("time")] = Field(
        default=None, description="Own reaction time on the dump, as timed; left out: an assumption."
    )
    spans: Spans = Field(default=Spans(), description="Own hand and arm spans.")


class Person(Breather):
    """One of the team."""

    may: Rows[Role] = Field(default=(), description="Roles that this person may take.")
