"""How it comes up, and what happens at the surface."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import BeforeValidator, Field, model_validator

from parbuckle.case.tending import LiftTender
from parbuckle.case.written import Count, Name, Rows, Value, Written, refusal
from parbuckle.quantity.spread import Spread

Method = Literal["choose", "carried", "hauled", "bag and line", "accompanied", "unaccompanied", "lowered"]


def _bags(raw: object) -> object:
    if raw == "choose" or raw is None:
        return None
    if isinstance(raw, (list, tuple)) and all(isinstance(bag, str) for bag in raw):
        return tuple(raw)
    allowed = "'choose', or a list of bag ids such as ['C25', 'C15']"
    raise refusal("this is not a choice of bags", raw, allowed, "write the ids in brackets")


class Rate(Written):
    """How fast it may rise under control."""

    target: Annotated[Spread | None, Value("rate", positive=True)] = Field(default=None, description="Rate aimed at.")
    ceiling: Annotated[Spread | None, Value("rate", positive=True)] = Field(
        default=None, description="Above it: let go."
    )

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.target and self.ceiling and self.target.mid > self.ceiling.mid:
            given = f"{self.target.text} above {self.ceiling.text}"
            raise refusal("the target lies above the ceiling", given, "a target below the ceiling", "lower it")
        return self


class Rigged(Written):
    """One item between load and bags."""

    connector: str | None = Field(default=None, description="Id of a connector.")
    sling: str | None = Field(default=None, description="Id of a sling.")
    line: str | None = Field(default=None, description="Id of a line.")
    hitch: Literal["straight", "choke", "basket"] | None = Field(default=None, description="How it goes round.")
    choke_angle: Annotated[Spread | None, Value("angle", 0.0)] = Field(default=None, description="Angle at the choke.")
    legs: Count = Field(default=1, description="Number of legs that carry.")
    spread: Annotated[Spread | None, Value("length")] = Field(
        default=None, description="Distance between the feet of the legs."
    )
    on: str | None = Field(default=None, description="What it is attached to; left out: the item before it.")

    @model_validator(mode="after")
    def _one_item(self) -> Self:
        named = [name for name in ("connector", "sling", "line") if getattr(self, name)]
        if len(named) != 1:
            given, allowed = ", ".join(named) or "none of them", "one of connector, sling, line"
            raise refusal("a rigging item is one thing", given, allowed, "make one row for each item")
        return self


class Restraint(Written):
    """What holds the load back when it comes free."""

    line: Name | None = Field(default=None, description="Id of the line.")
    anchor: Annotated[Spread | None, Value("weight_in_water")] = Field(
        default=None, description="Weight of the anchor, in water."
    )
    on: Literal["load", "bag"] = Field(default="load", description="What it is made fast to.")
    slack: Annotated[Spread | None, Value("length")] = Field(
        default=None, description="How far it can rise before the line is tight; left out: no slack."
    )
    released_by: str | None = Field(default=None, description="Who releases it, from where, and when.")
    checked_by: str | None = Field(default=None, description="Who checks it before the first gas.")


class Lowering(Written):
    """How a load is put down: a training load, a mooring block."""

    way: Literal["bag", "line", "bag and line"] | None = Field(default=None, description="What carries it down.")
    line: str | None = Field(default=None, description="Id of the line; left out: the line to the surface.")
    speed: Annotated[Spread | None, Value("rate", positive=True)] = Field(
        default=None, description="How fast it goes down."
    )
    turns: Count | None = Field(default=None, description="Full turns of the line round a post or a cleat.")


class CrownLine(Written):
    """The line from the crown of the bag: if the bag breaks away, it tips and empties."""

    line: Name | None = Field(default=None, description="Id of the line.")
    to: str | None = Field(default=None, description="What it is made fast to: load.")


class Lift(Written):
    """How it comes up."""

    method: Method = Field(
        default="choose", description="The method, or 'choose'; 'lowered': it is put down, not lifted."
    )
    bags: Annotated[tuple[str, ...] | None, BeforeValidator(_bags)] = Field(
        default=None, description="'choose' or a list of bag ids; inside: none means choose."
    )
    cylinder: str | None = Field(default=None, description="Id of the lifting cylinder.")
    cylinder_goes: Literal["stays on the bottom", "with the bag tender", "on the load"] | None = Field(
        default=None, description="Where the lifting cylinder is when the load goes up."
    )
    rigging: Rows[Rigged] = Field(default=(), description="Items between load and bags, from the load upward.")
    rigging_mass: Annotated[Spread | None, Value("mass")] = Field(
        default=None, description="Mass of the rigging, in air."
    )
    rate: Rate = Field(default=Rate(), description="How fast it may rise.")
    leave_load_at: Annotated[Spread | None, Value("length")] = Field(
        default=None, description="Depth at which the divers leave the load and make their own stop aside."
    )
    reference: str | None = Field(default=None, description="What the divers read their rate from.")
    tries: Count = Field(default=1, description="Complete fills that the gas must cover.")
    kept_heavy: Annotated[Spread | None, Value("mass", positive=True)] = Field(
        default=None, description="Bag and line: how much heavier than neutral the load is kept, in water."
    )
    tender: LiftTender = Field(default=LiftTender(), description="Who tends it on the way up, and how.")
    restraint: Restraint | None = Field(default=None, description="What holds it back when it comes free.")
    crown_line: CrownLine | None = Field(default=None, description="The line from the crown of the bag.")
    drag_area: Annotated[Spread | None, Value("area", positive=True)] = Field(
        default=None, description="Drag coefficient times area, for everything that moves; instead of an estimate."
    )
    added_mass: Annotated[Spread | None, Value("mass")] = Field(
        default=None, description="Added mass of everything that moves; instead of an estimate."
    )
    surplus: Annotated[Spread | None, Value("net_lift")] = Field(
        default=None, description="Net lift at lift-off; instead of an estimate."
    )
    gas: Literal["isothermal", "adiabatic"] = Field(
        default="isothermal", description="How the gas expands: at water temperature, or the adiabatic limit."
    )
    as_point: bool = Field(default=False, description="True: the gas is at the load's own depth; for checks.")


class Surface(Written):
    """What happens at the surface."""

    then: str | None = Field(default=None, description="How it goes on from the surface.")
    line_to_surface: str | None = Field(default=None, description="Id of the line from the load to the surface.")
    tow_speed: Annotated[Spread | None, Value("speed")] = Field(
        default=None, description="Speed of the tow through the water."
    )
    hang: Annotated[Spread | None, Value("length")] = Field(
        default=None, description="Lowest point of the load below the surface when it floats."
    )
    top_up: str | None = Field(
        default=None, description="What tops up the bags at the surface: a cylinder id, or words."
    )
