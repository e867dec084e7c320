"""Facts that fire each code on the emergency block, and facts just inside."""

from __future__ import annotations

from typing import Any

from parbuckle.duties.dive_facts import DivingFacts
from parbuckle.duties.facts import Answers, Facts
from parbuckle.duties.house import load_house

NEAR = load_house({})["position_near"]
DIVE = (DivingFacts("dive 1 (lift)"),)
SAID = {"gas_loss": "up together", "entangled": "stop, signal", "runaway": "away from it", "carried_up": "oxygen, call"}


def said(**fields: Any) -> Facts:
    """A dive with answers."""
    return Facts(diving=DIVE, answers=Answers(**{**SAID, **fields}))


EMERGENCY: dict[str, tuple[Any, Any]] = {
    "emergency_words": (said(entangled="unknown"), said()),
    "position_apart": (said(position_apart=NEAR * 1.000001), said(position_apart=NEAR)),
    "position_in_words": (
        said(position="quarry gate B", position_in_words=True),
        said(position="52 28.926 N 003 42.924 W"),
    ),
}
"""By code: fires, does not fire."""
