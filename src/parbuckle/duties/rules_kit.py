"""Rules on dates and on things set aside."""

from __future__ import annotations

from collections.abc import Callable

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over
from parbuckle.duties.house import House
from parbuckle.duties.intervals import table_date
from parbuckle.duties.people_facts import KitItem


def _named(code: str, facts: Facts, fits: Callable[[KitItem], bool]) -> Hits:
    """One hit that names every item that fits."""
    names = [item.id for item in facts.kit if fits(item)]
    if names:
        yield Hit(code, len(names), None, ", ".join(names))


def _past(item: KitItem) -> bool:
    """Past its due date on the day."""
    return item.time_left is not None and item.time_left < 0


def _dates(facts: Facts, house: House) -> Hits:
    """What is used is in date on the day."""
    soon = house["due_soon"]
    yield from _named("past_due", facts, lambda item: item.used and _past(item))
    yield from _named("past_due_unused", facts, lambda item: not item.used and _past(item))
    yield from _named(
        "due_soon",
        facts,
        lambda item: item.used and item.time_left is not None and 0 <= item.time_left <= soon,
    )
    yield from _named("no_due_date", facts, lambda item: item.used and item.time_left is None)


def _quarantine(facts: Facts, house: House) -> Hits:
    """What is set aside is not used."""
    yield from _named("quarantined", facts, lambda item: item.used and item.quarantined)


def _intervals(facts: Facts, house: House) -> Hits:
    """The country's table of intervals is there and was read not long ago."""
    if facts.country and table_date(facts.country) is None:
        yield Hit("intervals_missing", facts.country)
    if over(facts.intervals_age, house["table_age"]):
        yield Hit("intervals_old", facts.intervals_age, house["table_age"], facts.country)


RULES: tuple[Rule, ...] = (_dates, _quarantine, _intervals)
"""Every rule on kit."""
