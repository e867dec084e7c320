"""Rules on the load and how it lies."""

from __future__ import annotations

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over, under
from parbuckle.duties.house import House


def _estimates(facts: Facts, house: House) -> Hits:
    """Two ways agree, and there are two."""
    load = facts.load
    if load.agree is False:
        yield Hit("estimates_disagree", load.disagreement)
    if load.estimates == 1:
        yield Hit("single_estimate", load.estimates)


def _spread(facts: Facts, house: House) -> Hits:
    """The heavy case is not much heavier than the light one."""
    low, high = facts.load.wet_low, facts.load.wet_high
    if low is None or high is None or high <= 0:
        return
    limit = house["high_over_low"]
    if high > limit * low:
        yield Hit("weight_wide", high / low if low > 0 else "many", limit)


def _cavities(facts: Facts, house: House) -> Hits:
    """A cavity is full of gas or full of water, not between."""
    for cavity in facts.load.cavities:
        between = cavity.flooded_low < house["half_flooded_to"] and cavity.flooded_high > house["half_flooded_from"]
        if between:
            yield Hit("half_flooded", cavity.gas_at_surface, None, cavity.name)


def _bottom(facts: Facts, house: House) -> Hits:
    """A soft bottom holds, the more so the deeper and the longer."""
    if facts.site.bottom_soft:
        yield Hit("soft_bottom", facts.site.bottom)
        if over(facts.load.time_down, house["buried_days"]):
            yield Hit("long_buried", facts.load.time_down, house["buried_days"])
    if over(facts.load.buried_share, house["buried_share"]):
        yield Hit("buried_deep", facts.load.buried_share, house["buried_share"])


def _lift_points(facts: Facts, house: House) -> Hits:
    """Somebody has looked at the lift points."""
    if facts.answers.lift_points.strip().lower() in ("", "unknown"):
        beside = facts.lift.method == "accompanied"
        yield Hit("lift_points_unproven" if beside else "lift_points_unknown")


def _lesson(facts: Facts, house: House) -> Hits:
    """A lesson stays inside its own limits."""
    lesson = facts.lesson
    if lesson is None:
        return
    if over(facts.load.wet_likely, lesson.wet_high):
        yield Hit("lesson_weight", facts.load.wet_likely, lesson.wet_high)
    elif over(facts.load.wet_high, lesson.wet_high):
        yield Hit("lesson_weight_edge", facts.load.wet_high, lesson.wet_high)
    if under(facts.load.wet_high, lesson.wet_low):
        yield Hit("lesson_light", facts.load.wet_high, lesson.wet_low)
    if over(facts.site.depth, lesson.deepest):
        yield Hit("lesson_depth", facts.site.depth, lesson.deepest)
    if lesson.sums_ashore:
        yield Hit("sums_ashore", "lesson.sums")


def _told(facts: Facts, house: House) -> Hits:
    """What was lacking, assumed, cut or changed is said."""
    for key, why in facts.lacking:
        yield Hit("input_missing", key, None, why)
    if facts.assumed:
        yield Hit("assumed_defaults", len(facts.assumed), None, "; ".join(facts.assumed))
    if facts.cut:
        yield Hit("spread_cut", len(facts.cut), None, ", ".join(facts.cut))
    if house.changed:
        texts = ", ".join(f"{key} = {house.spread(key).text}" for key in house.changed)
        yield Hit("house_changed", len(house.changed), None, texts)


RULES: tuple[Rule, ...] = (_estimates, _spread, _cavities, _bottom, _lift_points, _lesson, _told)
"""Every rule on the load."""
