"""Who tends the load on its way up, and how: the keys under ``lift.tender``."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from parbuckle.case.written import Value, Written
from parbuckle.quantity.spread import Spread


class LiftTender(Written):
    """The people on the load and what they do with the dump; every number left out is an assumption that says so."""

    who: Literal["practised", "novice"] | None = Field(
        default=None, description="Whose assumed numbers stand in for what is left out; left out: practised."
    )
    policy: Literal["choose", "pulls", "hold", "crack"] = Field(
        default="choose",
        description="What the tender does with the dump: short pulls and a watch, held open until it is slow, kept "
        "open by a crack; 'choose' takes the one that holds best.",
    )
    delay: Annotated[Spread | None, Value("time")] = Field(
        default=None, description="Reaction delay: from too fast to the hand on the dump."
    )
    pull: Annotated[Spread | None, Value("time", positive=True)] = Field(
        default=None, description="How long one short pull takes."
    )
    watch: Annotated[Spread | None, Value("time")] = Field(
        default=None, description="How long the tender only watches after a pull."
    )
    thrust: Annotated[Spread | None, Value("load")] = Field(
        default=None, description="Force of one diver's fins against the rise; left out: none is counted on."
    )
    drag: Annotated[Spread | None, Value("area")] = Field(
        default=None, description="Drag coefficient times area of one diver who holds on."
    )
    count: Annotated[Spread | None, Value("length")] = Field(
        default=None, description="The tender counts depth every so often; left out: he sees the speed itself."
    )
    drogue: Annotated[Spread | None, Value("area")] = Field(
        default=None, description="Drag coefficient times area of a drogue on the load."
    )
