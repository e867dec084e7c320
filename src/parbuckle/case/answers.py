"""The head of a case, and what must be asked: permission, hazards, emergency, overrides."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from parbuckle.case.written import Moment, Name, Written


class Head(Written):
    """What the case is."""

    title: str | None = Field(default=None, description="Title of the case.")
    purpose: Literal["recovery", "training"] = Field(default="recovery", description="What it is for.")
    rules: Literal["private", "teaching", "commercial", "scientific", "public-safety"] = Field(
        default="private", description="Whose duties apply."
    )
    units: Literal["metric", "imperial"] = Field(
        default="metric", description="How answers are shown; any unit may be typed."
    )
    supervisor: str | None = Field(default=None, description="Name of the supervisor.")
    lost: Moment | None = Field(default=None, description="When it was lost.")


class Permission(Written):
    """Who said yes, and where that is written down."""

    keeps_unknown = True

    owner: str | None = Field(default=None, description="The owner of the object.")
    site: str | None = Field(default=None, description="Whoever controls the place.")
    insurer: str | None = Field(default=None, description="The team's insurer.")


class Hazards(Written):
    """Asked at the call and again when it is found: no, yes, unknown, or words."""

    keeps_unknown = True

    ordnance: str | None = Field(default=None, description="Ammunition, mines, shells.")
    remains_or_evidence: str | None = Field(default=None, description="Human remains, or evidence of a crime.")
    protected: str | None = Field(default=None, description="A protected wreck, place or species.")
    fuel: str | None = Field(default=None, description="Fuel, oil, chemicals, batteries that leak.")
    electrics: str | None = Field(default=None, description="Batteries and live cables.")
    snags: str | None = Field(default=None, description="Nets, ropes and cables at the object.")
    traffic: str | None = Field(default=None, description="Vessels and swimmers.")


class Emergency(Written):
    """What everybody must know when something goes wrong."""

    keeps_unknown = True

    call: str | None = Field(default=None, description="Who is called, and how.")
    position: str | None = Field(default=None, description="The position as it is told on the phone.")
    position_as: Literal["degrees", "degrees-minutes", "degrees-minutes-seconds", "utm", "grid reference"] = Field(
        default="degrees-minutes", description="How the listener wants the position; it is written so in the brief."
    )
    help: str | None = Field(default=None, description="Where help comes from, and how long it takes.")
    recall: str | None = Field(default=None, description="The signal that brings all divers up.")
    comms: str | None = Field(default=None, description="How divers and surface talk: none, line, voice.")
    gas_loss: str | None = Field(default=None, description="What the team does when a diver's gas fails, in its words.")
    entangled: str | None = Field(default=None, description="What the team does when a diver is held, in its words.")
    runaway: str | None = Field(default=None, description="What the team does when the lift runs away, in its words.")
    carried_up: str | None = Field(
        default=None, description="What the team does when a diver is carried up, in its words."
    )


class Agreed(Written):
    """What was agreed with the team, in its own words."""

    keeps_unknown = True

    fit: str | None = Field(default=None, description="Who is current and fit to dive, and who asked when.")
    signals: str | None = Field(default=None, description="The one set of signals that everybody uses.")
    flag: str | None = Field(default=None, description="Which flag is up, and who sees to it.")
    boat: str | None = Field(default=None, description="How and when the boat comes in.")


class Override(Written):
    """A stop that the supervisor lifts with a written reason, where it may be lifted."""

    code: Name = Field(description="Code of the finding.")
    by: str | None = Field(default=None, description="Who lifts it.")
    reason: str | None = Field(default=None, description="Why.")
    at: Moment | None = Field(default=None, description="When.")
