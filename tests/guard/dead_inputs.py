"""Keys of case and kit that change nothing in a plan yet, or not in every shipped case, each with its reason."""

from __future__ import annotations

from datetime import datetime
from typing import Any

REFUSED = {
    "schema": "the version of the format; every other number is refused",
    "kit": "the name of the kit file; a file that is not there is refused",
    "kit.schema": "the version of the format",
    "kit.cylinder[lifting].use": "a cylinder has one use; the other one is refused where somebody breathes from it",
    "kit.cylinder[breathing].use": "a cylinder has one use; the other one is refused while it is on a diver",
}
"""Keys that have one right value: every change is refused."""

LABELS = {
    "sealed": "the instructor's file; a plan never opens it, and only says whether one is named",
    "kit.team.name": "stands on the table of bags and on the pool-test sheet, not in a plan",
    "kit.sling[].kind": "what it is, in words; its marked limit decides",
    "kit.sling[].count": "how many alike are in the box; a plan does not count them",
}
"""Keys that only name something."""

WAITING = {
    "kit.bag[].mass": "the moving mass of the ascent: today it is load, water in it and added mass, without the bags",
}
"""Inputs of stages that are not worked out yet, with the stage that will use them."""

Patch = tuple[tuple[str | int, ...], Any]

_HANDS = "2 hand"
_ARMS = "0.3 arms"
_LENGTH = ("object", "measured", 0, "length")
_BY = ("object", "measured", 0, "by")

IDLE: dict[str, tuple[str, str, tuple[Patch, ...], tuple[str | int, ...]]] = {
    "case.lost": (
        "gives the days in the bottom where these are not told",
        "quarry-outboard", ((("object", "bed", "days"), "unknown"),), ("case", "lost"),
    ),
    "object.bed.days": (
        "only a cohesive bottom holds more with time",
        "quarry-outboard", (), ("object", "bed", "days"),
    ),
    "site.stream[].time": ("two rows of the table are read", "tidal-frame", (), ("site", "stream", 2, "time")),
    "site.stream[].speed": ("two rows of the table are read", "tidal-frame", (), ("site", "stream", 2, "speed")),
    "site.stream[].towards": (
        "two rows of the table are read, for the dive at that time",
        "tidal-frame", ((("dive", 1, "start"), datetime.fromisoformat("2027-05-09T09:50:00+01:00")),),
        ("site", "stream", 2, "towards"),
    ),
    "site.tide[].time": (
        "the table is read at the start of the lift",
        "tidal-frame", ((("dive", 1, "start"), datetime.fromisoformat("2027-05-09T09:50:00+01:00")),),
        ("site", "tide", 0, "time"),
    ),
    "site.shore.distance": (
        "the tow ends earlier where the load grounds",
        "tidal-frame", ((("site", "shore", "profile"), []),), ("site", "shore", "distance"),
    ),
    "site.shore.profile[]": (
        "it grounds between two points of the profile",
        "tidal-frame", (), ("site", "shore", "profile", 2, 0),
    ),
    "trainee[].spans.hand": (
        "only for what is measured in hands", "training-drum", ((_LENGTH, _HANDS),), ("trainee", 0, "spans", "hand"),
    ),
    "trainee[].spans.arms": (
        "only for what is measured in arms", "training-drum", ((_LENGTH, _ARMS),), ("trainee", 0, "spans", "arms"),
    ),
    "kit.person[].spans.hand": (
        "only for what is measured in hands",
        "training-drum", ((_LENGTH, _HANDS), (_BY, "Ines")), ("person", 1, "spans", "hand"),
    ),
    "kit.person[].spans.arms": (
        "only for what is measured in arms",
        "training-drum", ((_LENGTH, _ARMS), (_BY, "Ines")), ("person", 1, "spans", "arms"),
    ),
    "kit.person[].may[]": (
        "acts when the person takes that role", "quarry-outboard", (), ("person", 1, "may", 0),
    ),
}  # fmt: skip
"""Keys that act only in some cases: why, a shipped case, what is changed in it first, and the leaf that then acts."""
