"""Who goes, when, and for how long."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from parbuckle.case.people import Breather, Role
from parbuckle.case.written import BreathingGas, Moment, Name, Rows, Value, Written, refusal
from parbuckle.quantity.spread import Spread


class Carries(Written):
    """One cylinder that a diver carries beside the set."""

    cylinder: Name = Field(description="Id of a breathing cylinder of the kit.")
    change_at: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None,
        description="Depth on the way up at which the diver changes to it; left out: kept for an emergency only.",
    )


class Member(Written):
    """One person's place in a dive."""

    person: Name = Field(description="Name of a person of the kit, or of a trainee.")
    role: Role = Field(description="What the person does.")
    cylinder: str | None = Field(default=None, description="Id of the breathing cylinder.")
    carries: Rows[Carries] = Field(default=(), description="Cylinders beside the set, each with its own gas.")
    ready_in: Annotated[Spread | None, Value("time")] = Field(
        default=None, description="Time until a standby diver is in the water."
    )


class Task(Written):
    """One task of a dive."""

    do: Name = Field(description="What is done.")
    by: Rows[str] = Field(default=(), description="Who does it: names out of the dive's team.")
    time: Annotated[Spread | None, Value("time")] = Field(default=None, description="How long it takes.")
    effort: Literal["rest", "easy", "work"] = Field(default="work", description="How hard it is.")
    check: str | None = Field(default=None, description="Who checks it: a name out of the dive's team.")
    depth: Annotated[Spread | None, Value("length")] = Field(
        default=None, description="Where it is done; left out: at the bottom."
    )
    meanwhile: bool = Field(default=False, description="True: done while the task before it is done, by other people.")


class Dive(Written):
    """One dive."""

    does: Literal["search", "lift", "search and lift", "lower"] = Field(description="What it is for.")
    start: Moment | None = Field(default=None, description="Planned time of leaving the surface.")
    team: Rows[Member] = Field(default=(), description="Who takes part, in and out of the water.")
    tasks: Rows[Task] = Field(default=(), description="What is done, in order.")


class Stop(Written):
    """The stop that is made on the way up."""

    depth: Annotated[Spread | None, Value("length")] = Field(default=None, description="Depth of the stop.")
    time: Annotated[Spread | None, Value("time")] = Field(default=None, description="Length of the stop.")


class Earlier(Written):
    """A dive that somebody made before this case."""

    person: Name = Field(description="Who made it.")
    depth: Annotated[Spread | None, Value("length")] = Field(default=None, description="Deepest depth.")
    time: Annotated[Spread | None, Value("time")] = Field(default=None, description="Bottom time.")
    gas: BreathingGas | None = Field(default=None, description="What was breathed; left out: air.")
    surfaced: Moment | None = Field(default=None, description="When it ended.")
    log: str | None = Field(
        default=None,
        description="The dive as it was logged, instead of depth and time: UDDF, table or slate, relative to the case.",
    )
    mapping: str | None = Field(
        default=None, description="For a table: the file that says which column is what, relative to the case."
    )


def _pair(raw: object) -> object:
    if raw is None or (isinstance(raw, (list, tuple)) and len(raw) == 2 and all(map(_is_number, raw))):
        pair = tuple(float(number) for number in raw) if raw else None
        if pair is None or 0.0 < pair[0] <= pair[1] <= 1.0:
            return pair
    allowed = "two numbers above 0 and up to 1, the low one first"
    raise refusal("these are not two gradient factors", raw, allowed, "write them as [0.50, 0.80]")


def _is_number(raw: object) -> bool:
    return isinstance(raw, (int, float)) and not isinstance(raw, bool) and 0 < raw <= 1


class Exposure(Written):
    """How the divers' own exposure is counted."""

    gradient: Annotated[tuple[float, float] | None, BeforeValidator(_pair)] = Field(
        default=None, description="Gradient factors, low and high: plain numbers."
    )
    stop: Stop | None = Field(default=None, description="The stop that is always made.")
    arrived: Moment | None = Field(
        default=None, description="When the team came up to this height; left out: just before the first dive."
    )
    earlier: Rows[Earlier] = Field(default=(), description="Dives made before.")


class Trainee(Breather):
    """One trainee; takes part like a person of the kit."""
