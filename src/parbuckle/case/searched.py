"""What was tried and what was swum: a trial on a sample object, and passes that found nothing."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from parbuckle.case.written import Count, Name, Point, Rows, Value, Written
from parbuckle.quantity.spread import Spread

PatternName = Literal[
    "circles",
    "arcs",
    "jackstay",
    "compass lanes",
    "expanding square",
    "sector",
    "along a wall",
    "towed diver",
    "line abreast",
]
"""Patterns that a team can swim."""


class Trial(Written):
    """A sample object was laid and looked for: how far off it was seen."""

    seen_at: Annotated[Spread, Value("length", positive=True, needed=True)] = Field(
        description="Range at which the sample was just seen, mean of coming and going."
    )
    speed: Annotated[Spread | None, Value("speed", positive=True)] = Field(
        default=None, description="Speed of the trial; a faster search sees less."
    )


class Pass(Written):
    """One pass that found nothing: a pattern as it was swum, a line of places, or an imported track."""

    pattern: PatternName | None = Field(
        default=None, description="Pattern that was swum; without measures it is the one that would be proposed."
    )
    completed: Annotated[Spread | None, Value("share")] = Field(
        default=None, description="Share of it that was swum, from its start; left out: all."
    )
    centre: Point | None = Field(default=None, description="Shot or start of the pattern.")
    radius: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Radius of the outermost ring, or of the sector."
    )
    spacing: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Way from ring to ring or from lane to lane."
    )
    heading: Annotated[Spread | None, Value("bearing")] = Field(
        default=None, description="Direction of the first lane or leg; true, or 'deg mag'."
    )
    length: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Length of each lane."
    )
    lanes: Count | None = Field(default=None, description="Number of lanes or legs.")
    along: Rows[Point] = Field(default=(), description="Places that were passed, in order.")
    track: Name | None = Field(
        default=None, description="File with the track of the float, GPX, GeoJSON or CSV, relative to the case file."
    )
    float_line: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Length of the float's line: how far the float may lie from the diver."
    )
    sweep_width: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Sweep width of that pass; left out: that of the search."
    )
