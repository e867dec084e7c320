"""Where it may be: what was told, and how the search is swum."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from parbuckle.case.searched import Pass, PatternName, Trial
from parbuckle.case.written import Count, Point, Rows, Value, Written, refusal
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
    shape: Literal["box", "plate", "long", "sphere"] | None = Field(
        default=None, description="Shape of the object, for its speed of sinking: box, plate, long, sphere."
    )
    sinks_at: Annotated[Spread | None, Value("speed", positive=True)] = Field(
        default=None, description="Its speed of sinking, measured; left out: from its weight and shape."
    )


class Account(Written):
    """What one person told: a point with a radius, a bearing and a distance, a track, or an area."""

    who: str | None = Field(default=None, description="Who told it.")
    sure: Annotated[str | float | None, BeforeValidator(_sure)] = Field(
        default=None, description="'sure', 'fairly', 'guess', or a weight."
    )
    how: str | None = Field(default=None, description="How it was asked or known.")
    at: Point | None = Field(default=None, description="The place that was shown.")
    within: Annotated[Spread | None, Value("length")] = Field(
        default=None, description="19 times in 20 it lies this near: to the point, or to the track."
    )
    along: Rows[Point] = Field(default=(), description="Line that was walked or sailed: lost anywhere along it.")
    area: Rows[Point] = Field(default=(), description="Corners of an area in order: lost anywhere inside.")
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
    minutes: Annotated[Spread | None, Value("time", positive=True)] = Field(
        default=None, description="Time on the pattern with turns; left out: the tasks of the search dive, else 40 min."
    )
    law: Literal["random", "half-normal", "inverse cube"] = Field(
        default="random", description="Law of detection; another than 'random' only where it was measured."
    )
    by: Literal["sight", "touch"] = Field(default="sight", description="'touch' where nothing can be seen.")
    size: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="How large it looks across; left out: large enough to be seen as far as one sees."
    )
    contrast: Literal["high", "medium", "low"] | None = Field(
        default=None, description="How it stands out from the bottom; left out: not known."
    )
    trial: Trial | None = Field(default=None, description="What a trial on a sample object gave.")
    area: Rows[Point] = Field(default=(), description="Corners of the area that can be searched, in order.")
    deepest: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Deepest depth that may be searched."
    )
    only: Rows[PatternName] = Field(default=(), description="Patterns to choose from; left out: all.")
    line: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Longest search line there is, for circles, arcs and jackstays."
    )
    kick: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Way of one kick cycle, measured; left out: 1.5 m."
    )
    boat: bool = Field(default=False, description="True where a boat may tow a diver.")
    stands: Rows[Point] = Field(default=(), description="Line of the shore where a tender may stand.")
    wall: Rows[Point] = Field(default=(), description="Corners of a wall; the water lies on its right hand.")
    pass_: Rows[Pass] = Field(
        default=(), alias="pass", description="Passes that were swum and found nothing, in order."
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
    ratio: Count | None = Field(default=None, description="Most trainees to one instructor in the water.")
