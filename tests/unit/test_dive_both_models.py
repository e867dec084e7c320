"""The tissue model and the published table side by side: what each counts, and what the table refuses."""

from __future__ import annotations

import math

import pytest

from parbuckle.dive.both_models import (
    Before,
    group_after_dive,
    model_limit,
    table_depth_of,
    table_limit,
    table_start,
)
from parbuckle.dive.loading import at_rest, load, rest
from parbuckle.dive.navy_tables import FSW
from parbuckle.dive.no_stop import no_stop_time
from parbuckle.dive.profile import leg, travel
from parbuckle.physics.pressure import surface_pressure
from parbuckle.quantity.breathing import parse_gas
from parbuckle.quantity.errors import RangeError
from sample_dives import AIR, SEA, SURFACE

MINUTE = 60.0


def feet(depth: float, surface: float = SURFACE) -> float:
    return surface + depth * FSW


def test_the_model_counts_the_descent() -> None:
    down = travel(SEA, 0.0, 24.0, 0.3, AIR)
    whole = model_limit(at_rest(SURFACE), down, SURFACE, 0.8)[0]
    instant = no_stop_time(at_rest(SURFACE), float(SEA.at(24.0)[0]), AIR, SURFACE, 0.8)[0]
    assert instant < whole < instant + down.time[0]


def test_an_earlier_dive_shortens_both() -> None:
    down, earlier = travel(SEA, 0.0, 24.0, 0.3, AIR), leg(SEA, 18.0, 18.0, 30 * MINUTE, AIR)
    for hours in (0.5, 2.0, 4.0):
        tired = rest(load(at_rest(SURFACE), [earlier]), SURFACE, hours * 3600.0)
        assert model_limit(tired, down, SURFACE, 0.8) < model_limit(at_rest(SURFACE), down, SURFACE, 0.8)
        before = [Before(float(SEA.at(18.0)[0]), 30 * MINUTE, AIR, hours * 3600.0)]
        limit, group = table_limit(float(SEA.at(24.0)[0]), SURFACE, AIR, before)
        assert limit < table_limit(float(SEA.at(24.0)[0]), SURFACE, AIR)[0]
        assert group


def test_two_dives_before_count_one_on_top_of_the_other() -> None:
    one = Before(feet(60.0), 28 * MINUTE, AIR, 60 * MINUTE)
    first = table_limit(feet(60.0), SURFACE, AIR, [one])
    second = table_limit(feet(60.0), SURFACE, AIR, [one, one])
    assert first[1] < second[1]
    assert second[0] < first[0]


def test_less_than_ten_minutes_apart_is_one_dive() -> None:
    """Revision 7 has 63 min at 60 fsw and 92 min at 50 fsw; the deeper one counts for both dives."""
    deep, shallow = (Before(feet(d), 20 * MINUTE, AIR, 9.9 * MINUTE) for d in (60.0, 50.0))
    assert table_limit(feet(50.0), SURFACE, AIR, [deep]) == (43 * MINUTE, "")
    assert table_limit(feet(60.0), SURFACE, AIR, [shallow]) == (43 * MINUTE, "")
    assert table_limit(feet(50.0), SURFACE, AIR, [deep, deep]) == (23 * MINUTE, "")
    assert table_limit(feet(50.0), SURFACE, AIR, [deep, deep, shallow])[0] == 3 * MINUTE
    whole = Before(feet(60.0), 40 * MINUTE, AIR, 60 * MINUTE)
    parts = [deep, Before(feet(50.0), 20 * MINUTE, AIR, 60 * MINUTE)]
    assert table_start(SURFACE, parts) == table_start(SURFACE, [whole])
    assert group_after_dive(table_start(SURFACE, [deep]), 50.0, 20 * MINUTE) == "H"  # 40 min at 60 fsw, by the row


def test_a_longer_interval_never_shortens_the_table() -> None:
    """From 10 min on. As one dive it may come out longer than by the next group, whose times are rounded up."""
    rows = [Before(feet(60.0), 20 * MINUTE, AIR, minutes * MINUTE) for minutes in (10.0, 60.0, 180.0, 600.0, 6000.0)]
    limits = [table_limit(feet(60.0), SURFACE, AIR, [row])[0] for row in rows]
    assert limits == sorted(limits)


def test_nitrox_enters_the_table_shallower() -> None:
    assert table_depth_of(feet(90.0), SURFACE, parse_gas("EAN32")) < 90.0
    assert table_limit(feet(90.0), SURFACE, parse_gas("EAN32"))[0] > table_limit(feet(90.0), SURFACE, AIR)[0]
    assert table_depth_of(feet(3.0), SURFACE, parse_gas("EAN40")) == 0.0
    assert table_limit(feet(3.0), SURFACE, parse_gas("EAN40")) == (math.inf, "")


def test_altitude_and_arrival_shorten_the_table() -> None:
    high = float(surface_pressure(2000.0))
    sea, lake = table_limit(feet(70.0), SURFACE, AIR), table_limit(feet(70.0, high), high, AIR)
    arrived = table_limit(feet(70.0, high), high, AIR, (), 2000.0)
    assert sea[0] > lake[0] > arrived[0]
    assert arrived[1] == "F"  # 6562 ft counts as 7000


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: table_limit(feet(80.0), SURFACE, parse_gas("21/35")), "without helium"),
        (lambda: table_limit(feet(191.0), SURFACE, AIR), "up to 190 fsw"),
        (lambda: table_limit(feet(80.0), SURFACE, AIR, [Before(feet(80.0), 2400.0, AIR, 3600.0)]), "without a stop"),
        (
            lambda: table_limit(
                feet(80.0), SURFACE, AIR, [Before(feet(80.0), 1200.0, AIR, 599.0), Before(feet(80.0), 1200.0, AIR, 6e3)]
            ),
            "40 min at 80 fsw, allowed 39 min",
        ),
        (
            lambda: table_limit(feet(80.0), SURFACE, AIR, [Before(feet(80.0), 1200.0, parse_gas("21/35"), 6e3)]),
            "a dive before this one has no group",
        ),
        (lambda: table_limit(feet(140.0), SURFACE, AIR, [Before(feet(80.0), 1200.0, AIR, 3600.0)]), "up to 130 fsw"),
    ],
)
def test_where_the_table_has_no_answer_it_says_so(call, words: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(RangeError, match=words):
        call()
