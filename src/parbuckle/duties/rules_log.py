"""Rules on dives that are over: what a log shows that the team should talk about."""

from __future__ import annotations

import math

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over, under
from parbuckle.duties.house import House
from parbuckle.duties.log_facts import LogFacts
from parbuckle.quantity.shown import show_si

CODES = frozenset(
    {
        *("log_rapid_ascent", "log_sawtooth", "log_model_limit", "log_ceiling", "log_table_limit", "log_table_silent"),
        *("log_oxygen_high", "log_oxygen_exposure", "log_gas_unknown", "log_unplanned", "log_long", "log_deep"),
        *("log_stop_missed", "log_left_late", "log_counts"),
    }
)
"""Every code of this module."""

_WHOLE = 1.0  # of what is allowed


def _way_up(facts: Facts, house: House) -> Hits:
    """Nobody came up too fast, nor up and down again."""
    for log in facts.logs:
        for rate, depth, when in log.fast:
            where = f"{log.label}, ending at {show_si(depth, 'length', facts.units)}, {_clock(when)} into the dive"
            yield Hit("log_rapid_ascent", rate, house["ceiling"], where)
        if over(log.tooth, house["sawtooth"]):
            yield Hit("log_sawtooth", log.tooth, house["sawtooth"], log.label)


def _limits(facts: Facts, house: House) -> Hits:
    """Model and table were kept."""
    for log in facts.logs:
        if over(log.over_limit, _WHOLE):
            yield Hit("log_model_limit", log.over_limit, _WHOLE, log.label)
        elif log.over_ceiling > 0.0:
            factor = "" if log.factor is None else f", gradient factor {log.factor:.2f}"
            yield Hit("log_ceiling", log.over_ceiling, None, f"{log.label}{factor}")
        if over(log.bottom_time, log.table_limit):
            yield Hit("log_table_limit", log.bottom_time, log.table_limit, log.label)
        if log.table_limit is None and log.table_why:
            yield Hit("log_table_silent", log.table_why, None, log.label)


def _gas(facts: Facts, house: House) -> Hits:
    """Oxygen was kept within its limits, and the gas is known."""
    for log in facts.logs:
        if log.exposure == math.inf:
            yield Hit("log_oxygen_high", log.oxygen, None, log.label)
        elif over(log.exposure, _WHOLE):
            yield Hit("log_oxygen_exposure", log.exposure, _WHOLE, log.label)
        if not log.gas_told:
            yield Hit("log_gas_unknown", None, None, log.label)


def _plan(facts: Facts, house: House) -> Hits:
    """It went as planned."""
    for log in facts.logs:
        if not log.planned:
            yield Hit("log_unplanned", None, None, log.label)
        if over(log.bottom_time, log.planned_time):
            yield Hit("log_long", log.bottom_time, log.planned_time, log.label)
        if over(log.deepest, log.planned_depth):
            yield Hit("log_deep", log.deepest, log.planned_depth, log.label)
        yield from _missed(log, facts.units)
        if under(log.leaving, log.leave):
            yield Hit("log_left_late", log.leaving, log.leave, log.label)


def _missed(log: LogFacts, units: str) -> Hits:
    for depth, planned, made in log.missed:
        yield Hit("log_stop_missed", made, planned, f"{log.label}, at {show_si(depth, 'length', units)}")


def _before(facts: Facts, house: House) -> Hits:
    """A dive before the plan's own counts as it was logged."""
    for log in facts.logs:
        if log.counts_for:
            yield Hit("log_counts", log.label, None, log.counts_for)


def _clock(seconds: float) -> str:
    minutes, rest = divmod(int(seconds), 60)
    return f"{minutes}:{rest:02d}"


RULES: tuple[Rule, ...] = (_way_up, _limits, _gas, _plan, _before)
"""Every rule on a log."""
