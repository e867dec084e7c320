"""Where it lies: the place, the water, the stream and the tide, and the limits set before the day."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from parbuckle.case.written import Moment, Point, Rows, Value, Written, refusal
from parbuckle.quantity.spread import Spread


class StreamRow(Written):
    """The stream at one time."""

    time: Moment = Field(description="When; with its offset from UTC.")
    speed: Annotated[Spread, Value("speed", needed=True)] = Field(description="Speed of the stream.")
    towards: Annotated[Spread, Value("bearing", needed=True)] = Field(description="Direction it sets towards, true.")


class TideRow(Written):
    """The height of the tide at one time."""

    time: Moment = Field(description="When; with its offset from UTC.")
    height: Annotated[Spread, Value("height", needed=True)] = Field(description="Height above chart datum.")


Length = Annotated[Spread, Value("length", needed=True)]
ProfileRow = Annotated[tuple[Length, Length], Field(strict=False)]


def _rising(rows: tuple[StreamRow | TideRow, ...]) -> tuple[StreamRow | TideRow, ...]:
    for before, after in pairwise(rows):
        if after.time <= before.time:
            given = f"{before.time.isoformat()} and then {after.time.isoformat()}"
            allowed = "each row later than the one before"
            raise refusal("the times of the table must rise", given, allowed, "put the rows in order")
    return rows


class Shore(Written):
    """The way to the shore."""

    distance: Annotated[Spread | None, Value("length")] = Field(default=None, description="Distance to the shore.")
    bearing: Annotated[Spread | None, Value("bearing")] = Field(
        default=None, description="Direction to the shore, true."
    )
    profile: Rows[ProfileRow] = Field(default=(), description="Pairs of distance towards the shore and depth there.")


class Site(Written):
    """The place and its water."""

    name: str | None = Field(default=None, description="Name of the place.")
    datum: Point | None = Field(default=None, description="Origin of the local map, WGS 84.")
    altitude: Annotated[Spread | None, Value("height")] = Field(
        default=None, description="Height of the surface above sea level."
    )
    water: Annotated[Spread | None, Value("salinity")] = Field(
        default=None, description="'fresh', 'sea', or an absolute salinity such as '18 g/kg'."
    )
    temperature: Annotated[Spread | None, Value("temperature")] = Field(
        default=None, description="Temperature of the water."
    )
    depth: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Depth to the bottom where the object lies."
    )
    depth_how: Literal["sounded", "chart datum"] | None = Field(
        default=None, description="'sounded' on the day, or from the chart: the tide is added."
    )
    bottom: str | None = Field(
        default=None, description="What the bottom is: rock, gravel, sand, silt, soft mud, clay."
    )
    visibility: Annotated[Spread | None, Value("length")] = Field(default=None, description="How far one sees.")
    daylight_until: Moment | None = Field(default=None, description="End of daylight.")
    slack_error: Annotated[Spread | None, Value("time")] = Field(
        default=None, description="How far the almanac's slack may be wrong, either way."
    )
    declination: Annotated[Spread | None, Value("angle")] = Field(
        default=None, description="Magnetic declination at the place and date, east positive."
    )
    stream: Annotated[Rows[StreamRow], AfterValidator(_rising)] = Field(default=(), description="Table of the stream.")
    tide: Annotated[Rows[TideRow], AfterValidator(_rising)] = Field(default=(), description="Table of the tide.")
    shore: Shore | None = Field(default=None, description="The way to the shore.")


class Limits(Written):
    """Set before the day; on the day readings are compared."""

    visibility: Annotated[Spread | None, Value("length")] = Field(default=None, description="Least visibility.")
    stream: Annotated[Spread | None, Value("speed")] = Field(default=None, description="Strongest stream.")
    wind: Annotated[Spread | None, Value("speed")] = Field(default=None, description="Strongest wind.")
