"""Rules on the divers' own exposure: limits, slack, breathing gas, oxygen and the way up."""

from __future__ import annotations

import math

from parbuckle.duties.dive_facts import DiverFacts, DivingFacts
from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over, under
from parbuckle.duties.house import House

CODES = frozenset(
    {
        *("stops_due", "no_stop_on_edge", "models_differ", "table_silent", "late_stops_due", "regime_decompression"),
        *("slack_too_short", "slack_by_clock", "breathing_empty", "breathing_short", "reserve_too_big"),
        *("breathing_unknown", "late_gas", "cylinder_again", "oxygen_high", "oxygen_low", "oxygen_exposure_over"),
        *("oxygen_exposure_high", "gas_dense", "sawtooth", "load_rate_over", "stop_beside_load", "in_fall_path"),
        *("ratio_over", "ratio_not_set", "standby_gas_short"),
        *("change_oxygen_high", "change_oxygen_low", "carried_gas_short", "emergency_gas_short"),
    }
)
"""Every code of this module."""

_MINUTE = 60.0


def _exposure(facts: Facts, house: House) -> Hits:
    """No stop is due; where two limits differ, the shorter one is named."""
    for dive in facts.diving:
        worst = max((d.over_no_stop for d in dive.divers), default=0.0)
        if dive.stops > 0.0:
            yield Hit("stops_due", _minutes(dive.stops), None, dive.label)
            yield Hit("regime_decompression", _minutes(dive.stops), None, dive.label)
        elif worst > 0.0:
            yield Hit("no_stop_on_edge", worst, None, dive.label)
        elif dive.late_stops > 0.0:
            yield Hit("late_stops_due", _minutes(dive.late_stops), None, dive.label)
        yield from _tables(dive)


def _tables(dive: DivingFacts) -> Hits:
    silent = [d for d in dive.divers if d.table_limit is None and d.table_why]
    for diver in silent[:1]:
        yield Hit("table_silent", diver.table_why, None, dive.label)
    known = [d.table_limit for d in dive.divers if d.table_limit is not None]
    table = min(known, default=math.inf)
    shorter = min(table, dive.model_limit)
    if not silent and known and table != dive.model_limit and dive.bottom_time > shorter:
        which = "the table" if table < dive.model_limit else "the model"
        yield Hit("models_differ", _limit(shorter), _limit(max(table, dive.model_limit)), f"{which}, {dive.label}")


def _slack(facts: Facts, house: House) -> Hits:
    """The dive fits slack water."""
    wanted = house["window_chance"]
    for dive in facts.diving:
        if under(dive.fits_on_sight, wanted):
            yield Hit("slack_too_short", dive.fits_on_sight, wanted, dive.label)
        elif under(dive.fits, wanted):
            yield Hit("slack_by_clock", dive.fits, wanted, dive.label)


def _gas(facts: Facts, house: House) -> Hits:
    """Nobody runs out, nobody surfaces under the reserve."""
    seen: dict[str, str] = {}
    for dive in facts.diving:
        for diver in dive.divers:
            who = f"{diver.name}, {dive.label}"
            if not diver.set_known:
                yield Hit("breathing_unknown", None, None, who)
            else:
                yield from _one_set(diver, who, house)
            for name in (diver.cylinder, *(each.cylinder for each in diver.carried)):
                if name and name in seen:
                    yield Hit("cylinder_again", f"{seen[name]} and {dive.label}", None, name)
                seen[name] = dive.label
        for name, short in dive.standby_short:
            if over(short, house["short_chance"]):
                yield Hit("standby_gas_short", short, house["short_chance"], f"{name}, {dive.label}")


def _one_set(diver: DiverFacts, who: str, house: House) -> Hits:
    allowed = house["short_chance"]
    short = max(diver.under_reserve or 0.0, diver.late or 0.0)
    if over(diver.empty, 0.0):
        yield Hit("breathing_empty", diver.empty, None, who)
    elif diver.reserve_fits is False:
        yield Hit("reserve_too_big", None, None, who)
    elif over(short, allowed):
        yield Hit("breathing_short", short, allowed, who)
    elif diver.runs_late:
        yield Hit("late_gas", None, None, who)


def _oxygen(facts: Facts, house: House) -> Hits:
    """Oxygen is neither too much nor too little; the gas is not too dense."""
    for dive in facts.diving:
        for diver in dive.divers:
            who = f"{diver.name}, {diver.gas}, {dive.label}"
            if over(diver.oxygen, house["oxygen_limit"]):
                yield Hit("oxygen_high", diver.oxygen, house["oxygen_limit"], who)
            if under(diver.oxygen_at_surface, house["oxygen_least"]):
                yield Hit("oxygen_low", diver.oxygen_at_surface, house["oxygen_least"], who)
            if over(diver.exposure, 1.0):
                yield Hit("oxygen_exposure_over", None if diver.exposure == math.inf else diver.exposure, 1.0, who)
            elif over(diver.exposure, house["exposure_share"]):
                yield Hit("oxygen_exposure_high", diver.exposure, house["exposure_share"], who)
            if over(diver.density, house["gas_density"]):
                yield Hit("gas_dense", diver.density, house["gas_density"], who)


def _carried(facts: Facts, house: House) -> Hits:
    """What is carried beside the set holds enough, and is breathed only where it can be."""
    for dive in facts.diving:
        for diver in dive.divers:
            for each in diver.carried:
                who = f"{each.cylinder}, {each.gas} ({diver.name}, {dive.label})"
                if over(each.oxygen, house["oxygen_limit_up"]):
                    yield Hit("change_oxygen_high", each.oxygen, house["oxygen_limit_up"], who)
                if under(each.oxygen_least, house["oxygen_least"]):
                    yield Hit("change_oxygen_low", each.oxygen_least, house["oxygen_least"], who)
                if over(each.empty, 0.0) and not each.spare:
                    yield Hit("breathing_empty", each.empty, None, who)
                elif over(each.short, house["short_chance"]):
                    code = "emergency_gas_short" if each.spare else "carried_gas_short"
                    yield Hit(code, each.short, house["short_chance"], who)


def _way_up(facts: Facts, house: House) -> Hits:
    """The divers' way up is their own: no sawtooth, no faster load, no stop beside it, nobody in its way."""
    for dive in facts.diving:
        if dive.tooth > house["sawtooth"]:
            yield Hit("sawtooth", dive.tooth, house["sawtooth"], dive.label)
        if over(dive.load_rate, house["ceiling"]):
            yield Hit("load_rate_over", dive.load_rate, house["ceiling"], dive.label)
        if under(dive.leave_load_at, dive.stop_depth):
            yield Hit("stop_beside_load", dive.leave_load_at, dive.stop_depth, dive.label)
        for name in dive.without_place:
            yield Hit("in_fall_path", name, None, f"{name}, {dive.label}")


def _ratio(facts: Facts, house: House) -> Hits:
    """The team has set how many trainees one instructor takes, and keeps to it."""
    lesson = facts.lesson
    if lesson is None:
        return
    if lesson.ratio is None:
        yield Hit("ratio_not_set")
        return
    for dive in facts.dives:
        trainees = len({m.name for m in dive.team if m.trainee and m.in_water})
        teachers = len({m.name for m in dive.team if m.role == "instructor" and m.in_water})
        if trainees > lesson.ratio * teachers:
            yield Hit("ratio_over", f"{trainees} trainees, {teachers} instructors", f"{lesson.ratio} to 1", dive.label)


def _minutes(seconds: float) -> str:
    """A stop in whole minutes, rounded up."""
    return f"{math.ceil(seconds / _MINUTE)} min"


def _limit(seconds: float) -> str:
    """A limit in whole minutes, cut off; none in words."""
    return "no limit" if math.isinf(seconds) else f"{int(seconds // _MINUTE)} min"


RULES: tuple[Rule, ...] = (_exposure, _slack, _gas, _carried, _oxygen, _way_up, _ratio)
"""Every rule on the divers' exposure."""
