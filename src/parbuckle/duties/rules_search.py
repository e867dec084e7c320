"""Rules on the search: time, gaps, stream, traffic, witnesses, and what a blank is worth."""

from __future__ import annotations

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over
from parbuckle.duties.house import House
from parbuckle.duties.words import understood


def _window(facts: Facts, house: House) -> Hits:
    """Search and what follows fit into the dive."""
    told = facts.search
    if over(told.needs, told.no_stop):
        yield Hit("search_window_short", told.needs, told.no_stop)


def _gas(facts: Facts, house: House) -> Hits:
    """The gas lasts for the pattern."""
    for who, needs, gives in facts.search.short_of_gas:
        if over(needs, gives):
            yield Hit("search_gas_short", needs, gives, who)


def _gaps(facts: Facts, house: House) -> Hits:
    """Between two lanes nothing stays unseen."""
    told = facts.search
    if told.sweep_width is not None and over(told.spacing, house["search_gap"] * told.sweep_width):
        yield Hit("coverage_gaps", told.spacing, told.sweep_width, told.pattern)


def _outside(facts: Facts, house: House) -> Hits:
    """The pattern stays where it can be searched."""
    told = facts.search
    if over(told.outside, told.sweep_width):
        yield Hit("pattern_outside", told.outside, None, told.pattern)


def _stream(facts: Facts, house: House) -> Hits:
    """A pattern without a line is not carried off."""
    told = facts.search
    if told.by_compass and over(told.drift, told.sweep_width):
        yield Hit("stream_across_pattern", told.drift, told.sweep_width, told.pattern)


def _traffic(facts: Facts, house: House) -> Hits:
    """A line does not lie out where boats run."""
    text = facts.answers.traffic
    if facts.search.on_a_line and understood(text) in ("yes", "words"):
        yield Hit("line_near_traffic", text, None, facts.search.pattern)


def _witnesses(facts: Facts, house: House) -> Hits:
    """Distances are judged too short over water, and one witness counts once."""
    for who, share in facts.search.judged:
        yield Hit("distance_judged", share, None, who)
    for both in facts.search.alike:
        yield Hit("accounts_alike", None, None, both)


def _tried(facts: Facts, house: House) -> Hits:
    """A blank is worth what the sight is worth."""
    told = facts.search
    if told.passes and not told.tried:
        yield Hit("sweep_untried", float(told.passes), None)


RULES: tuple[Rule, ...] = (_window, _gas, _gaps, _outside, _stream, _traffic, _witnesses, _tried)
"""Every rule on the search."""
