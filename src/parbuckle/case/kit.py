"""The kit file: what a small team owns and who they are."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import Field

from parbuckle.case.people import Person
from parbuckle.case.regime import Regime
from parbuckle.case.written import BreathingGas, Count, Name, Rows, Value, Written
from parbuckle.quantity.breathing import parse_gas
from parbuckle.quantity.spread import Spread


class Team(Written):
    """Whose kit it is."""

    name: str | None = Field(default=None, description="Name of the team.")
    country: str | None = Field(default=None, description="Country code; chooses the table of inspection intervals.")


class Owned(Written):
    """What every item of the kit shares."""

    id: Name = Field(description="Short name, as it is marked on the item; unique in the kit.")
    due: date | None = Field(default=None, description="Date of its next inspection.")
    quarantined: bool = Field(default=False, description="True: set aside, it cannot be put on a plan.")


class Bag(Owned):
    """One lift bag."""

    style: Literal["closed", "open", "open with flap"] = Field(description="How it ends at the bottom.")
    capacity: Annotated[Spread, Value("volume", positive=True, needed=True)] = Field(description="Volume as marked.")
    really: Annotated[Spread | None, Value("volume", positive=True)] = Field(
        default=None, description="Volume as measured in the pool; left out: -5..+25 % of the mark."
    )
    mass: Annotated[Spread | None, Value("mass")] = Field(default=None, description="Mass in air.")
    in_water: Annotated[Spread | None, Value("net_lift")] = Field(default=None, description="Weight in water.")
    height: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Height when full, ring to crown."
    )
    attachment: Annotated[Spread | None, Value("load", positive=True)] = Field(
        default=None, description="Limit of its straps and ring."
    )
    pull: Annotated[Spread | None, Value("volume")] = Field(
        default=None, description="Lost by one short pull of the dump, at depth; left out: not known."
    )
    pull_in: Annotated[Spread | None, Value("time", positive=True)] = Field(
        default=None, description="How long that pull was; left out: as the tender pulls."
    )
    relief_bore: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Clear diameter of the relief valve of a closed bag; left out: it is taken as wide."
    )
    withstands: Annotated[Spread | None, Value("pressure", positive=True)] = Field(
        default=None, description="Pressure above the water that a closed bag is made for; left out: not known."
    )
    relief: Annotated[Spread | None, Value("pressure")] = Field(
        default=None, description="Pressure above the water at which a closed bag vents by itself."
    )
    dump_bore: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Clear diameter of the dump valve."
    )


class Fills(Written):
    """How the flow of a lifting cylinder was measured: this bag, at this depth, in this time."""

    bag: Name = Field(description="Id of the bag that was filled.")
    at: Annotated[Spread, Value("length", needed=True)] = Field(description="Depth of the mouth of the bag.")
    in_: Annotated[Spread, Value("time", positive=True, needed=True)] = Field(
        alias="in", description="Time until it was full."
    )


class Cylinder(Owned):
    """One cylinder, one use: lift gas never comes from a cylinder that anybody breathes from."""

    use: Literal["lifting", "breathing"] = Field(description="One of the two, never both.")
    volume: Annotated[Spread | None, Value("water_capacity", positive=True)] = Field(
        default=None, description="Water capacity of one cylinder."
    )
    content: Annotated[Spread | None, Value("free_gas", positive=True)] = Field(
        default=None, description="Free gas at the rated pressure; instead of the water capacity."
    )
    rated: Annotated[Spread | None, Value("pressure", positive=True)] = Field(
        default=None, description="Pressure that belongs to the content."
    )
    pressure: Annotated[Spread | None, Value("pressure")] = Field(
        default=None, description="Start pressure on the gauge."
    )
    gas: BreathingGas = Field(default=parse_gas("air"), description="What is in it.")
    count: Count = Field(default=1, description="How many of them are joined: 2 is a twin set.")
    fills: Fills | None = Field(default=None, description="How its flow was measured.")
    in_water: Annotated[Spread | None, Value("net_lift")] = Field(
        default=None, description="Weight in water, full, with its regulator; for a cylinder on the load."
    )


class Connector(Owned):
    """A shackle, a carabiner, a hook."""

    kind: Name = Field(description="What it is, in words.")
    locking: bool | None = Field(default=None, description="True when its gate locks; a shackle needs none.")
    limit: Annotated[Spread | None, Value("load", positive=True)] = Field(
        default=None, description="Marked working load limit."
    )
    strength: Annotated[Spread | None, Value("load", positive=True)] = Field(
        default=None, description="Marked breaking strength, major axis."
    )
    count: Count = Field(default=1, description="How many alike.")


class Sling(Owned):
    """A strop or a sling."""

    kind: Name = Field(description="What it is, in words.")
    limit: Annotated[Spread | None, Value("load", positive=True)] = Field(
        default=None, description="Marked working load limit."
    )
    length: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Length, eye to eye."
    )
    count: Count = Field(default=1, description="How many alike.")


class Line(Owned):
    """A rope."""

    limit: Annotated[Spread | None, Value("load", positive=True)] = Field(
        default=None, description="Marked working load limit."
    )
    strength: Annotated[Spread | None, Value("load", positive=True)] = Field(
        default=None, description="Breaking strength, new."
    )
    length: Annotated[Spread | None, Value("length", positive=True)] = Field(default=None, description="Length.")
    stretch: Annotated[Spread | None, Value("share")] = Field(default=None, description="Stretch at the breaking load.")
    knot: Annotated[Spread | None, Value("share", positive=True)] = Field(
        default=None, description="Share of its strength that its knots keep; left out: the house rule."
    )
    count: Count = Field(default=1, description="How many alike.")


class Kit(Written):
    """The whole kit file."""

    schema_: Literal[1] = Field(alias="schema", description="Version of the format.")
    team: Team = Field(default=Team(), description="Whose kit it is.")
    bag: Rows[Bag] = Field(default=(), description="Lift bags.")
    cylinder: Rows[Cylinder] = Field(default=(), description="Cylinders.")
    connector: Rows[Connector] = Field(default=(), description="Shackles, carabiners, hooks.")
    sling: Rows[Sling] = Field(default=(), description="Slings.")
    line: Rows[Line] = Field(default=(), description="Ropes.")
    person: Rows[Person] = Field(default=(), description="People.")
    regime: Rows[Regime] = Field(default=(), description="Rules that this team sets itself.")
