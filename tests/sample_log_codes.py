"""Facts of logged dives that fire each code on a log, and facts just inside."""

from __future__ import annotations

import math
from typing import Any

from parbuckle.duties.facts import Facts
from parbuckle.duties.house import load_house
from parbuckle.duties.log_facts import LogFacts
from parbuckle.duties.rules_log import CODES

HOUSE = load_house({})
MORE = 1.000001
FAST = (HOUSE["ceiling"] * MORE, 9.0, 1480.0)
MISSED = (5.0, 180.0, 48.0)


def log(**fields: Any) -> Facts:
    """One logged dive."""
    return Facts(logs=(LogFacts("morning.uddf", **fields),))


LOGS: dict[str, tuple[Any, Any]] = {
    "log_rapid_ascent": (log(fast=(FAST,)), log()),
    "log_stop_missed": (log(missed=(MISSED,)), log()),
    "log_model_limit": (log(over_limit=MORE), log(over_limit=1.0)),
    "log_ceiling": (log(over_ceiling=20.0, factor=0.8), log(over_ceiling=0.0, factor=0.8)),
    "log_table_limit": (
        log(bottom_time=1800.0 * MORE, table_limit=1800.0),
        log(bottom_time=1800.0, table_limit=1800.0),
    ),
    "log_table_silent": (log(table_why="it has helium"), log(table_limit=math.inf)),
    "log_oxygen_high": (log(exposure=math.inf, oxygen=1.7e5), log(exposure=1.0, oxygen=1.6e5)),
    "log_oxygen_exposure": (log(exposure=MORE), log(exposure=1.0)),
    "log_gas_unknown": (log(gas_told=False), log()),
    "log_unplanned": (log(planned=False), log()),
    "log_long": (
        log(bottom_time=1260.0 * MORE, planned_time=1260.0),
        log(bottom_time=1260.0, planned_time=1260.0),
    ),
    "log_deep": (log(deepest=24.0 * MORE, planned_depth=24.0), log(deepest=24.0, planned_depth=24.0)),
    "log_counts": (log(counts_for="Tomas"), log()),
    "log_left_late": (log(leaving=8.9e6, leave=9e6), log(leaving=9e6, leave=9e6)),
    "log_sawtooth": (log(tooth=HOUSE["sawtooth"] * MORE), log(tooth=HOUSE["sawtooth"])),
}
"""By code: fires, does not fire."""

assert set(LOGS) == CODES
