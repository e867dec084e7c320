"""What it is: parts, measurements, cavities, trials, and the bed that it lies in."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from parbuckle.case.written import Name, Rows, Value, Written, refusal
from parbuckle.quantity.spread import Spread

Shape = Literal["box", "cylinder", "sphere", "cone", "tube", "prism", "ellipsoid", "torus", "mesh"]

DIMENSIONS: dict[str, tuple[str, ...]] = {
    "box": ("length", "width", "height"),
    "cylinder": ("diameter", "length"),
    "sphere": ("diameter",),
    "cone": ("diameter", "length"),
    "tube": ("diameter", "inner_diameter", "length"),
    "prism": ("area", "length"),
    "ellipsoid": ("length", "width", "height"),
    "torus": ("ring_diameter", "diameter"),
    "mesh": ("file", "scale"),
}
"""Dimensions that belong to each shape."""

_ALL = ("length", "width", "height", "diameter", "inner_diameter", "ring_diameter", "area", "file", "scale")


class Part(Written):
    """One part: by mass and material, by mass and volume, or by volume and material."""

    name: Name = Field(description="What it is; unique among the parts.")
    mass: Annotated[Spread | None, Value("mass")] = Field(default=None, description="Mass in air.")
    volume: Annotated[Spread | None, Value("volume")] = Field(default=None, description="Water that it displaces.")
    material: str | None = Field(default=None, description="A material of the table of materials.")
    how: str | None = Field(
        default=None, description="Where the number comes from: told, plate words, drawing, measured, weighed."
    )


class Measured(Written):
    """One measurement of the whole outline, with a solid share and a material."""

    by: Name = Field(description="Who measured.")
    how: str | None = Field(default=None, description="touched, measured, drawing.")
    shape: Shape = Field(description="The shape that it is taken for.")
    length: Annotated[Spread | None, Value("touched", positive=True)] = Field(
        default=None, description="Length, or height of a cone."
    )
    width: Annotated[Spread | None, Value("touched", positive=True)] = Field(default=None, description="Width.")
    height: Annotated[Spread | None, Value("touched", positive=True)] = Field(default=None, description="Height.")
    diameter: Annotated[Spread | None, Value("touched", positive=True)] = Field(
        default=None, description="Outer diameter; of a torus: the thickness of its ring."
    )
    inner_diameter: Annotated[Spread | None, Value("touched")] = Field(
        default=None, description="Inner diameter of a tube."
    )
    ring_diameter: Annotated[Spread | None, Value("touched", positive=True)] = Field(
        default=None, description="Diameter of the ring of a torus, along the middle of its thickness."
    )
    area: Annotated[Spread | None, Value("area", positive=True)] = Field(
        default=None, description="Area of the end of a prism."
    )
    file: str | None = Field(default=None, description="Triangle mesh file, relative to the case file.")
    scale: Annotated[Spread | None, Value("length", positive=True)] = Field(
        default=None, description="Length of one unit of the mesh file; left out: 1 m."
    )
    solid: Annotated[Spread | None, Value("share")] = Field(
        default=None, description="Share of the outline that is solid."
    )
    material: str | None = Field(default=None, description="A material of the table of materials.")
    mass: Annotated[Spread | None, Value("mass")] = Field(
        default=None, description="Mass in air, instead of the material."
    )
    volume: Annotated[Spread | None, Value("volume")] = Field(
        default=None, description="Solid volume, instead of the solid share."
    )

    @model_validator(mode="after")
    def _only_its_own(self) -> Self:
        own = DIMENSIONS[self.shape]
        other = [name for name in _ALL if name not in own and getattr(self, name) is not None]
        if other:
            do = "take it out, or choose another shape"
            raise refusal(f"a {self.shape} has no {other[0]}", ", ".join(other), ", ".join(own), do)
        return self


class Cavity(Written):
    """A space inside that may hold gas."""

    name: Name = Field(description="Where it is; unique among the cavities.")
    volume: Annotated[Spread | None, Value("volume")] = Field(default=None, description="Volume of the space.")
    flooded: Annotated[Spread | None, Value("share")] = Field(default=None, description="Share that is full of water.")


class Balance(Written):
    """Weighed in the water with a spring balance."""

    by: Name = Field(description="Who weighed.")
    weight: Annotated[Spread | None, Value("weight_in_water")] = Field(
        default=None, description="What the balance showed."
    )


class Trial(Written):
    """A trial lift: gas was put in until it moved."""

    by: Name = Field(description="Who did it.")
    gas: Annotated[Spread | None, Value("volume")] = Field(
        default=None, description="Gas in the bag, at depth, when it moved."
    )
    bag: str | None = Field(default=None, description="Id of the bag that was used.")


class Bed(Written):
    """How it lies in the bottom."""

    footprint: Annotated[Spread | None, Value("area")] = Field(
        default=None, description="Area in touch with the bottom."
    )
    buried: Annotated[Spread | None, Value("length")] = Field(
        default=None, description="Depth of its lowest point in the bottom."
    )
    days: Annotated[Spread | None, Value("days")] = Field(
        default=None, description="Days it has lain there: a plain number."
    )
    shear: Annotated[Spread | None, Value("pressure")] = Field(
        default=None, description="Undrained shear strength of the bottom."
    )


class Object(Written):
    """The object."""

    name: str | None = Field(default=None, description="What it is.")
    known_as: str | None = Field(default=None, description="An entry of the table of known objects, with its size.")
    lift_points: str | None = Field(default=None, description="Where it can be taken, and who felt that.")
    lies: str | None = Field(default=None, description="How it lies.")
    part: Rows[Part] = Field(default=(), description="Its parts.")
    measured: Rows[Measured] = Field(default=(), description="Measurements.")
    cavity: Rows[Cavity] = Field(default=(), description="Spaces inside.")
    balance: Rows[Balance] = Field(default=(), description="Weighings in the water.")
    trial: Rows[Trial] = Field(default=(), description="Trial lifts.")
    bed: Bed = Field(default=Bed(), description="How it lies in the bottom.")
