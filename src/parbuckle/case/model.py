"""The case file: the whole of it, section by section; every section may be left out."""

from __future__ import annotations

import math
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from parbuckle.case.answers import Agreed, Emergency, Hazards, Head, Override, Permission
from parbuckle.case.diving import Dive, Exposure, Trainee
from parbuckle.case.finding import Account, Lesson, Search
from parbuckle.case.raising import Lift, Lowering, Surface
from parbuckle.case.regime import Regime
from parbuckle.case.site import Limits, Site
from parbuckle.case.thing import Object
from parbuckle.case.written import Rows, Written, refusal
from parbuckle.quantity.refusals import shorten

HouseValue = str | int | float | bool


def _house(raw: object) -> object:
    """Keep texts, finite numbers and truths; the rules themselves know which keys there are."""
    for key, value in raw.items() if isinstance(raw, dict) else ():
        if not isinstance(value, (str, int, float)) or (isinstance(value, float) and not math.isfinite(value)):
            allowed = "a text with a unit, a finite number, true or false"
            raise refusal(f"the house rule '{shorten(str(key))}' cannot be this", value, allowed)
    return raw


class Case(Written):
    """The whole case file; attribute names are the keys of the file."""

    schema_: Literal[1] = Field(alias="schema", description="Version of the format.")
    kit: str | None = Field(default=None, description="Kit file, relative to the case file.")
    sealed: str | None = Field(default=None, description="The instructor's file; it is never opened by a plan.")
    case: Head = Field(default=Head(), description="What the case is.")
    permission: Permission = Field(default=Permission(), description="Who said yes.")
    hazards: Hazards = Field(default=Hazards(), description="What could hurt somebody.")
    site: Site = Field(default=Site(), description="The place and its water.")
    limits: Limits = Field(default=Limits(), description="Limits set before the day.")
    emergency: Emergency = Field(default=Emergency(), description="What to do when something goes wrong.")
    agreed: Agreed = Field(default=Agreed(), description="What was agreed with the team.")
    account: Rows[Account] = Field(default=(), description="What was told about where it is.")
    search: Search = Field(default=Search(), description="How it is looked for.")
    lesson: Lesson | None = Field(default=None, description="What a lesson may use.")
    trainee: Rows[Trainee] = Field(default=(), description="The trainees.")
    object: Object = Field(default=Object(), description="What it is.")
    lift: Lift = Field(default=Lift(), description="How it comes up.")
    lowering: Lowering | None = Field(default=None, description="How it is put down.")
    surface: Surface = Field(default=Surface(), description="What happens at the surface.")
    dive: Rows[Dive] = Field(default=(), description="The dives, in order.")
    exposure: Exposure = Field(default=Exposure(), description="How the divers' exposure is counted.")
    house: Annotated[dict[str, HouseValue], BeforeValidator(_house)] = Field(
        default={}, description="House rules that this case changes, by their key."
    )
    regime: Rows[Regime] = Field(default=(), description="Rules that this site, client or authority sets.")
    override: Rows[Override] = Field(default=(), description="Stops lifted with a reason.")
