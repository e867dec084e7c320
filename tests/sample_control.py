"""Facts that fire each finding on the ascent with people on it, and facts just inside."""

from __future__ import annotations

from typing import Any

from parbuckle.duties.control_facts import ControlFacts
from parbuckle.duties.facts import Facts
from parbuckle.duties.house import load_house

HOUSE = load_house({})
MORE, LESS = 1.000001, 0.999999


def control(**fields: Any) -> Facts:
    """Facts about the ascent under control alone."""
    return Facts(control=ControlFacts(**fields))


CONTROL: dict[str, tuple[Facts, Facts]] = {
    "control_unsure": (
        control(within=(HOUSE["rate_chance"] - 0.02) * LESS, within_error=0.01),
        control(within=(HOUSE["rate_chance"] - 0.02) * MORE, within_error=0.01),
    ),
    "sinks_back": (
        control(sinks_back=(HOUSE["sink_chance"] + 0.02) * MORE, sinks_error=0.01),
        control(sinks_back=(HOUSE["sink_chance"] + 0.02) * LESS, sinks_error=0.01),
    ),
    "spills_at_surface": (
        control(floats=(HOUSE["float_chance"] - 0.02) * LESS, floats_error=0.01),
        control(floats=(HOUSE["float_chance"] - 0.02) * MORE, floats_error=0.01),
    ),
    "pull_unmeasured": (control(pull_unmeasured="C15"), control()),
}
