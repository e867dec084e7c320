"""Rules on the place, the water and the clock."""

from __future__ import annotations

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over, under
from parbuckle.duties.house import House


def _depth(facts: Facts, house: House) -> Hits:
    """Work on air is not too deep for thinking."""
    if facts.site.on_air and over(facts.site.depth, house["work_depth"]):
        yield Hit("too_deep_on_air", facts.site.depth, house["work_depth"])


def _visibility(facts: Facts, house: House) -> Hits:
    """Visibility is above the limit and above arm's length."""
    seen = facts.site.visibility
    if under(seen, facts.answers.limit_visibility):
        yield Hit("visibility_under_limit", seen, facts.answers.limit_visibility)
    if under(seen, house["arms_length"]):
        yield Hit("touch_visibility", seen, house["arms_length"])


def _stream(facts: Facts, house: House) -> Hits:
    """The stream stays under the limit, at the time of each dive."""
    limit = facts.answers.limit_stream
    if facts.site.stream_told is False:
        yield Hit("stream_not_told", None, limit)
        return
    for dive in facts.dives:
        if dive.stream is None and facts.site.stream_told:
            yield Hit("stream_unknown", None, limit, dive.label)
        elif over(dive.stream, limit):
            yield Hit("stream_over_limit", dive.stream, limit, dive.label)
        elif limit is not None and over(dive.stream, house["stream_share"] * limit):
            yield Hit("stream_near_limit", dive.stream, limit, dive.label)


def _tide(facts: Facts, house: House) -> Hits:
    """The tide table reaches the time of each dive."""
    for dive in facts.dives:
        if dive.in_tide_table is False:
            yield Hit("outside_tide", dive.label, None, dive.label)


def _cold(facts: Facts, house: House) -> Hits:
    """Cold water makes slow hands."""
    if under(facts.site.temperature, house["cold"]):
        yield Hit("cold_hands", facts.site.temperature, house["cold"])


def _daylight(facts: Facts, house: House) -> Hits:
    """Divers are up in daylight, and not late in a long day."""
    left = facts.clock.daylight_left
    if left is not None and left < 0:
        yield Hit("dark", -left, 0.0)
    elif under(left, house["daylight_margin"]):
        yield Hit("daylight_short", left, house["daylight_margin"])
    if over(facts.clock.start_hour, house["late_hour"]):
        yield Hit("late_hour", facts.clock.start_hour, house["late_hour"])


RULES: tuple[Rule, ...] = (_depth, _visibility, _stream, _tide, _cold, _daylight)
"""Every rule on the place and the clock."""
