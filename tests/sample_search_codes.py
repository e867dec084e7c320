"""Facts that fire each finding on the search, and facts just inside."""

from __future__ import annotations

from typing import Any

from parbuckle.duties.facts import Answers, Facts
from parbuckle.duties.house import load_house
from parbuckle.duties.search_facts import SearchFacts

HOUSE = load_house({})
MORE, LESS = 1.000001, 0.999999
WIDE = 2.6


def search(traffic: str = "", **fields: Any) -> Facts:
    """Facts about the search alone."""
    return Facts(search=SearchFacts(**fields), answers=Answers(traffic=traffic))


def compass(drift: float, by_compass: bool = True) -> Facts:
    """A pattern and how far the stream carries it."""
    return search(pattern="expanding square", by_compass=by_compass, drift=drift, sweep_width=WIDE)


SEARCHES: dict[str, tuple[Facts, Facts]] = {
    "search_window_short": (search(needs=1801.0, no_stop=1800.0), search(needs=1800.0, no_stop=1800.0)),
    "search_gas_short": (
        search(short_of_gas=(("Ines", 2.0 * MORE, 2.0),)),
        search(short_of_gas=(("Ines", 2.0, 2.0),)),
    ),
    "coverage_gaps": (
        search(pattern="jackstay", sweep_width=WIDE, spacing=HOUSE["search_gap"] * WIDE * MORE),
        search(pattern="jackstay", sweep_width=WIDE, spacing=HOUSE["search_gap"] * WIDE),
    ),
    "pattern_outside": (
        search(pattern="circles", sweep_width=WIDE, outside=WIDE * MORE),
        search(pattern="circles", sweep_width=WIDE, outside=WIDE),
    ),
    "stream_across_pattern": (compass(WIDE * MORE), compass(WIDE)),
    "line_near_traffic": (
        search(pattern="circles", on_a_line=True, traffic="fishing boats"),
        search(pattern="circles", on_a_line=True, traffic="no"),
    ),
    "distance_judged": (search(judged=(("the helm", 0.25),)), search()),
    "accounts_alike": (search(alike=("the helm and the crew",)), search()),
    "sweep_untried": (search(passes=1, tried=False), search(passes=1, tried=True)),
}
