"""Rules that a team, a site or an authority sets: limits, roles, records, notices; each with its source and date."""

from __future__ import annotations

from datetime import date as Day  # noqa: N812  # the key of the file is called date
from typing import Annotated, Literal

from pydantic import Field

from parbuckle.case.people import Role
from parbuckle.case.written import Count, Name, Rows, Value, Written
from parbuckle.quantity.spread import Spread


class Notice(Written):
    """Somebody who must be told."""

    what: Name = Field(description="What is told.")
    to: str | None = Field(default=None, description="Who is told.")
    within: Annotated[Spread | None, Value("time", positive=True)] = Field(
        default=None, description="Within which time; left out: at once."
    )
    counts: Literal["after the lift", "before the lift", "after the loss"] = Field(
        default="after the lift", description="From what the time counts."
    )


class Limits(Written):
    """Limits beside those of the law, or instead of them."""

    wreck_report: Annotated[Spread | None, Value("time", positive=True)] = Field(
        default=None, description="Time in which wreck that was recovered must be reported."
    )
    licence_age: Annotated[Spread | None, Value("time", positive=True)] = Field(
        default=None, description="Time on the seabed after which a licence may be needed."
    )
    licence_lift: Annotated[Spread | None, Value("mass", positive=True)] = Field(
        default=None, description="Load above which a licence may be needed to lift it with bags."
    )
    scuba_depth: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Depth below which scuba is not used."
    )
    scuba_chamber_depth: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Depth below which a chamber must be ready for use."
    )
    scuba_stream: Annotated[Spread | None, Value("speed", positive=True)] = Field(
        default=None, description="Stream above which scuba divers are tended on a line."
    )
    team: Count | None = Field(default=None, description="Least number of people on a dive, surface included.")
    ratio: Count | None = Field(default=None, description="Most trainees to one instructor in the water.")
    deepest: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Depth below which nobody dives, whatever is breathed."
    )


class Regime(Written):
    """Rules of one source; a later one stands before an earlier one, and a case before its kit."""

    by: Name = Field(description="Who set them.")
    source: Name = Field(description="Where they are written.")
    date: Day = Field(description="Date of that text.")
    limits: Limits = Field(default=Limits(), description="Limits beside those of the law, or instead of them.")
    roles: Rows[Role] = Field(default=(), description="Roles that every dive must have.")
    records: Rows[str] = Field(default=(), description="Records that must be kept, in words.")
    notices: Rows[Notice] = Field(default=(), description="Who must be told, and when.")
