"""Where it may be: what was told, and how the search is swum."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from parbuckle.case.written import Point, Value, Written, refusal
from parbuckle.quantity.errors import CaseError
from parbuckle.quantity.grammar import parse
from parbuckle.quantity.spread import Spread

SURE = ("sure", "fairly", "guess")


def _sure(raw: object) -> str | float | None:
    if raw is None or (isinstance(raw, str) and raw in SURE):
        return raw
    if isinstance(raw, (int, float)) and not isinstance(raw, bool) and 0 < raw <= 1000:
        return float(raw)
    allowed = "'sure', 'fairly', 'guess', or a weight such as '40 %' or 0.4"
    try:
        return parse(raw if isinstance(raw, str) else "", "share", positive=True).mid
    except CaseError:
        raise refusal("this is not how sure somebody can be", raw, allowed, "write one of the words") from None


class SankThrough(Written):
    """The stream that it sank through."""

    speed: Annotated[Spread | None, Value("speed")] = Field(default=None, description="Speed of the stream.")
    towards: Annotated[Spread | None, Value("bearing")] = Field(
        default=None, description="Direction it sets towards, true."
    )
    shape: str | None = Field(
        default=None, description="Shape of the object, for its speed of sinking: box, plate, sphere."
    )


class Account(Written):
    """What one person told: a point with a radius, or a bearing and a distance from where they stood."""

    who: str | None = Field(default=None, description="Who told it.")
    sure: Annotated[str | float | None, BeforeValidator(_sure)] = Field(
        default=None, description="'sure', 'fairly', 'guess', or a weight."
    )
    how: str | None = Field(default=None, description="How it was asked or known.")
    at: Point | None = Field(default=None, description="The place that was shown.")
    within: Annotated[Spread | None, Value("length")] = Field(
        default=None, description="19 times in 20 it lies this near."
    )
    from_: Point | None = Field(default=None, alias="from", description="Where the witness stood.")
    bearing: Annotated[Spread | None, Value("bearing")] = Field(
        default=None, description="Direction seen, true; 'deg mag' is magnetic."
    )
    distance: Annotated[Spread | None, Value("length")] = Field(default=None, description="How far away.")
    sank_through: SankThrough | None = Field(default=None, description="The stream that it sank through.")


class Search(Written):
    """How it is looked for."""

    sweep_width: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Measured on a sample; left out: from the visibility and the size of the object."
    )
    speed: Annotated[Spread | None, Value("speed", positive=True)] = Field(
        default=None, description="Speed of the divers."
    )
    elsewhere: Annotated[Spread | None, Value("share")] = Field(
        default=None, description="Chance that it is not on the map at all."
    )


class Lesson(Written):
    """What a lesson may use."""

    wet_weight: Annotated[Spread | None, Value("net_lift", 0.0)] = Field(
        default=None, description="Weight in water that this lesson may use."
    )
    deepest: Annotated[Spread | None, Value("length")] = Field(
        default=None, description="Deepest depth of this lesson."
    )
    sums: Literal["ashore", "on the day"] | None = Field(
        default=None, description="'ashore': no lift before all have handed in their numbers and these were checked."
    )
