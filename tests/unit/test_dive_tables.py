"""The published no-stop table: its own properties, how it is entered, and what it refuses."""

from __future__ import annotations

import math
import tomllib
from importlib.resources import files
from itertools import pairwise

import pytest

from parbuckle.dive.navy_tables import (
    FSW,
    edition,
    group_after,
    group_on_arrival,
    group_rested,
    no_stop_limit,
    residual_time,
    sea_level_depth,
    table_depth,
)
from parbuckle.quantity.errors import RangeError

TABLE = tomllib.loads((files("parbuckle.data") / "navy_rev7.toml").read_text(encoding="utf-8"))
ROWS = {row[0]: (row[1], row[2:]) for row in TABLE["no_stop"]["rows"]}
LETTERS = "ABCDEFGHIJKLMNOZ"
MINUTE = 60.0

EARLIER = {40: 163, 50: 92, 60: 60, 70: 48, 80: 39, 90: 30, 100: 25, 110: 20, 120: 15, 130: 10}
"""Limits of Revision 6; Revision 7 is never shorter."""


def test_entries_grow_along_a_row_and_end_at_the_limit() -> None:
    for depth, (limit, entries) in ROWS.items():
        real = [entry for entry in entries if entry]
        assert all(a < b for a, b in pairwise(real)), depth
        assert not limit or real[-1] == limit, depth
        assert len(entries) <= len(LETTERS)


def test_columns_and_limits_never_grow_with_depth() -> None:
    for (_, (limit, entries)), (depth, (deeper, below)) in pairwise(ROWS.items()):
        assert (deeper or math.inf) <= (limit or math.inf), depth
        for above, under in zip(entries, below, strict=False):
            assert under <= above, depth


def test_it_is_revision_seven() -> None:
    assert "Revision 7" in edition()
    ours = {depth: no_stop_limit(float(depth)) / MINUTE for depth in EARLIER}
    assert all(ours[depth] >= EARLIER[depth] for depth in EARLIER)
    assert {depth: ours[depth] for depth in (60, 90, 130)} == {60: 63.0, 90: 33.0, 130: 12.0}
    assert no_stop_limit(20.0) == math.inf
    assert no_stop_limit(20.1) / MINUTE == 1102.0


@pytest.mark.parametrize("row", TABLE["residual"]["rows"], ids=lambda row: str(row[0]))
def test_residual_times_grow_with_the_group(row: list[int]) -> None:
    times = [residual_time(float(row[0]), letter) / MINUTE for letter in LETTERS]
    assert times == [float(x) for x in row[1:]]
    assert all(a < b for a, b in pairwise(times))


def test_residual_times_shrink_with_depth() -> None:
    for letter in LETTERS:
        times = [residual_time(float(depth), letter) for depth in range(40, 140, 10)]
        assert all(a >= b for a, b in pairwise(times)), letter


def test_residual_time_is_a_little_more_than_the_time_that_makes_the_group() -> None:
    """Both tables come from one calculation: a slip of a row or a column in either would break this."""
    for depth in range(40, 140, 10):
        for letter, entry in zip(LETTERS, ROWS[depth][1][:-1], strict=False):
            assert 1 <= residual_time(float(depth), letter) / MINUTE - entry <= 3, (depth, letter)


def test_depth_and_time_are_rounded_up() -> None:
    assert [table_depth(d) for d in (0.0, 10.0, 10.1, 60.0, 61.0, 154.0, 190.0)] == [10, 10, 15, 60, 70, 160, 190]
    assert group_after(154.0, 5 * MINUTE) == "C"  # 152 fsw and 2 for the gauge; Revision 4 had D here
    assert group_after(60.0, 7 * MINUTE) == "A"
    assert group_after(60.0, 7.1 * MINUTE) == "B"
    assert group_after(150.0, 1 * MINUTE) == "B"  # the row has no entry for A


def test_a_group_costs_time_and_a_rest_gives_it_back() -> None:
    free = no_stop_limit(80.0)
    left = [no_stop_limit(80.0, group_rested("J", h * 3600.0)) for h in (0.5, 2.0, 5.0, 9.0, 16.0)]
    assert left == sorted(left)
    assert left[0] < free == left[-1]
    assert no_stop_limit(130.0, "Z") == 0.0
    assert no_stop_limit(20.0, "A") < no_stop_limit(20.0)


def test_groups_fade_as_printed() -> None:
    until = TABLE["interval"]["z_until"]
    order = list(until)
    assert order == list(LETTERS[::-1])
    for letter, following in pairwise([*order, ""]):
        assert group_rested("Z", until[letter] * MINUTE) == letter
        assert group_rested("Z", (until[letter] + 1) * MINUTE) == following
    for letter, clean in TABLE["interval"]["clean_after"].items():
        assert group_rested(letter, clean * MINUTE) == "A"
        assert group_rested(letter, (clean + 1) * MINUTE) == ""


def test_derived_entries_are_within_two_minutes_of_the_printed_ones() -> None:
    until, last = TABLE["interval"]["z_until"], LETTERS[::-1]
    for letter, clean in TABLE["interval"]["clean_after"].items():
        start = until[last[last.index(letter) - 1]]
        assert abs(until["A"] - start - clean) <= 1


def test_more_rest_never_gives_a_higher_group() -> None:
    for letter in LETTERS:
        groups = [group_rested(letter, minutes * MINUTE) for minutes in range(10, 1000, 7)]
        ranks = [LETTERS.index(g) if g else -1 for g in groups]
        assert ranks == sorted(ranks, reverse=True), letter
        assert groups[0] == letter
        assert groups[-1] == ""


def test_arrival_at_altitude() -> None:
    assert group_on_arrival(0.0) == ""
    assert [group_on_arrival(0.3048 * feet) for feet in (1000, 2000, 7000, 10000)] == ["A", "A", "F", "I"]


def test_which_foot_is_meant() -> None:
    assert sea_level_depth(2 * 101325.0, 101325.0) == pytest.approx(33.0659, abs=1e-3)
    assert sea_level_depth(101325.0 + 60 * FSW, 101325.0) == pytest.approx(60.0)
    assert sea_level_depth(104000.0 + 60 * FSW, 104000.0) == pytest.approx(
        60.0
    )  # nothing is taken off in high pressure


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: table_depth(190.5), "up to 190 fsw"),
        (lambda: table_depth(-1.0), "cannot be negative"),
        (lambda: no_stop_limit(131.0, "A"), "up to 130 fsw"),
        (lambda: no_stop_limit(60.0, "P"), "group 'P'"),
        (lambda: group_after(60.0, 64 * MINUTE), "63 min without a stop"),
        (lambda: group_after(60.0, 50 * MINUTE, "C"), "63 min without a stop"),
        (lambda: group_rested("C", 9 * MINUTE), "one dive"),
        (lambda: group_on_arrival(3100.0), "ft of altitude"),
        (lambda: sea_level_depth(1e5, 1.1e5), "cannot be negative"),
    ],
)
def test_outside_the_table_it_refuses_by_name(call, words: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(RangeError, match=words):
        call()
