"""Patterns: legs, headings, lengths, marks, time; and the chance to see beside one leg."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest

from parbuckle.quantity.errors import RangeError
from parbuckle.search.coverage import LegError, chance_to_see
from parbuckle.search.curves import LAWS, Curve, below, box
from parbuckle.search.detection import lateral
from parbuckle.search.expected import Ground, width_nodes
from parbuckle.search.fit_problem import places
from parbuckle.search.legs import Leg, Pattern, arc, straight
from parbuckle.search.patterns.lanes import along_wall, lanes, lanes_needed
from parbuckle.search.patterns.rounds import arcs, circles
from parbuckle.search.patterns.squares import expanding_square, sector, square_extent
from parbuckle.search.practice import TrackError, practices
from parbuckle.search.swim import gas_needed, kick_cycles, line_marks, seconds
from parbuckle.search.track_error import leg_errors, swum_tracks

O = (0.0, 0.0)  # noqa: E741
ALL = [
    circles(O, 2.0, 4, 0.5),
    arcs(O, 5.0, 2.0, 4, 0.3, 1.5),
    lanes(O, 0.4, 30.0, 2.0, 5),
    lanes(O, 0.4, 30.0, 2.0, 3, "line abreast", 3),
    along_wall((O, (20.0, 0.0), (20.0, 30.0)), 1.0, 2.0, 3, -1.0),
    expanding_square(O, 3.0, 9, 0.2, -1.0, 0.4),
    sector(O, 12.0, 0.3, 2),
]


def degrees(pattern: Pattern) -> list[float]:
    return [round(math.degrees(leg.heading), 6) % 360.0 for leg in pattern.lanes]


@pytest.mark.parametrize("pattern", ALL, ids=lambda p: p.name)
def test_legs_hang_together(pattern: Pattern) -> None:
    led = [leg for leg in pattern.legs if not leg.swimmer]
    assert all(a.end == pytest.approx(b.start, abs=1e-9) for a, b in itertools.pairwise(led))
    numbers = [leg.lane for leg in pattern.lanes]
    assert numbers == sorted(numbers)
    assert numbers[0] == 1
    assert all(leg.strip > 0.0 for leg in pattern.lanes)


def test_rings_go_there_and_back_and_the_way_out_is_counted() -> None:
    rings = circles(O, 1.5, 10)
    assert rings.between == pytest.approx(9.5 * 1.5)
    assert [round(leg.turns / math.tau) for leg in rings.lanes] == [1, -1] * 5
    assert line_marks(rings) == pytest.approx([1.5 * (k - 0.5) for k in range(1, 11)])
    assert circles(O, 2.0, 2, 0.25).search_length == pytest.approx(math.tau * (1.0 + 0.25 * 3.0))


def test_headings_are_true_bearings() -> None:
    assert degrees(expanding_square(O, 3.0, 5)) == [0.0, 90.0, 180.0, 270.0, 0.0]
    assert degrees(expanding_square(O, 3.0, 4, math.radians(30.0), -1.0)) == [30.0, 300.0, 210.0, 120.0]
    assert degrees(sector(O, 20.0)) == [0.0, 120.0, 240.0, 240.0, 0.0, 120.0, 120.0, 240.0, 0.0]
    assert degrees(sector(O, 20.0, 0.0, 2))[9] == 30.0
    assert degrees(lanes(O, math.radians(40.0), 30.0, 2.0, 3)) == [40.0, 220.0, 40.0]
    assert arc(O, 5.0, 0.0, 1.0, 1, 1.0).heading == pytest.approx(math.pi / 2.0)
    assert arc(O, 5.0, 0.0, -1.0, 1, 1.0).heading == pytest.approx(1.5 * math.pi)


def test_lanes_lie_to_the_right_and_half_a_spacing_inside() -> None:
    made = lanes((10.0, 20.0), 0.0, 50.0, 2.0, 15)
    assert made.lanes[0].start == pytest.approx((10.0 - 14.0, -5.0))
    assert made.lanes[-1].start == pytest.approx((10.0 + 14.0, -5.0))
    assert made.shifts == made.turns == 14
    assert lanes_needed(30.0, 2.0) == 15
    assert lanes(O, 0.0, 50.0, 2.0, 5, "compass lanes").shifts == 0


def test_swimmers_abreast_share_the_time() -> None:
    made = lanes(O, 0.0, 40.0, 2.0, 2, "line abreast", 3)
    assert made.search_length == 80.0
    assert made.track == 240.0
    assert made.between == pytest.approx(3 * 2.0)


def test_sectors_come_back_and_squares_reach_as_far_as_they_should() -> None:
    made = sector(O, 20.0)
    assert [leg.lane for leg in made.lanes if math.dist(leg.end, O) < 1e-9] == [3, 6, 9]
    assert made.turns == 6
    square = expanding_square(O, 3.0, 8)
    reach = max(abs(v) for leg in square.legs for v in leg.end)
    assert reach == pytest.approx(square_extent(3.0, 8))


def test_a_wall_bends_its_lanes() -> None:
    made = along_wall((O, (20.0, 0.0), (20.0, 30.0)), 1.0, 2.0, 2, -1.0)
    assert [leg.lane for leg in made.lanes] == [1, 1, 2, 2]
    assert made.lanes[0].end == pytest.approx((19.0, 1.0))
    assert made.lanes[0].length + made.lanes[1].length == pytest.approx(19.0 + 29.0)
    right = along_wall((O, (20.0, 0.0)), 1.0, 2.0, 1, 1.0)
    assert right.lanes[0].start == pytest.approx((0.0, -1.0))


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: circles(O, 0.0, 3),
        lambda: circles(O, 1.0, 0),
        lambda: circles(O, 1.0, 1, 1.1),
        lambda: arcs(O, 5.0, -3.0, 3, 0.0, 1.0),
        lambda: arcs(O, 5.0, 0.0, 3, 0.0, 1.0),
        lambda: arcs(O, 5.0, 1.0, 3, 0.0, 7.0),
        lambda: lanes(O, 0.0, 0.0, 1.0, 3),
        lambda: lanes_needed(3.0, 0.0),
        lambda: along_wall((O,), 1.0, 1.0, 1),
        lambda: along_wall((O, O), 1.0, 1.0, 1),
        lambda: expanding_square(O, 1.0, 3, last=0.0),
        lambda: sector(O, 0.0),
        lambda: square_extent(1.0, 6),
        lambda: straight(O, 0.0, -1.0),
        lambda: arc(O, 0.0, 0.0, 1.0, 1, 1.0),
        lambda: kick_cycles(Leg(O, (1.0, 0.0)), 0.0),
        lambda: gas_needed(60.0, 0.001, 1e5, 2e5),
        lambda: seconds(sector(O, 1.0), practices()[0], 0.0),
        lambda: Curve("hazard", 2.0),
        lambda: Curve("random", 0.0),
        lambda: Curve("half-normal", 2.0, 1.2),
        lambda: Curve("half-normal", 2.0).miss(np.zeros(1), -1.0, 1.0),
    ],
)
def test_what_cannot_be_swum_is_refused(wrong) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(RangeError):
        wrong()


def test_time_is_swimming_turns_shifts_and_ways() -> None:
    row = next(p for p in practices() if p.name == "jackstay")
    made = lanes(O, 0.0, 30.0, 2.0, 4)
    assert seconds(made, row, 0.25) == pytest.approx((120.0 + 6.0) / 0.25 + 3 * row.turn + 3 * row.shift)
    assert line_marks(made) == (0.0, 2.0, 4.0, 6.0)
    assert line_marks(sector(O, 5.0)) == ()
    assert kick_cycles(straight(O, 0.0, 31.0), 1.5) == 21


@pytest.mark.parametrize(
    ("law", "p0"), [("half-normal", 1.0), ("half-normal", 0.7), ("inverse cube", 1.0), ("definite range", 1.0)]
)
def test_without_error_the_curve_is_the_law_and_its_integral_the_sweep_width(law: str, p0: float) -> None:
    x = np.linspace(-400.0, 400.0, 160_001)
    seen = 1.0 - Curve(law, 3.0, p0).miss(x, 0.0, 1.0)
    assert seen.sum() * 5e-3 == pytest.approx(3.0, abs=0.01)
    inside = np.abs(np.abs(x) - 1.5) > 1e-3
    assert np.abs(seen - lateral(law, x, 3.0, p0))[inside].max() < 3e-4


@pytest.mark.parametrize("law", LAWS)
def test_an_error_spreads_the_curve_and_keeps_its_integral(law: str) -> None:
    x = np.linspace(-300.0, 300.0, 60_001)
    curve = Curve(law, 2.0)
    sharp, wide = (
        -np.log(curve.miss(x, e, 2.0)) if law == "random" else 1.0 - curve.miss(x, e, 2.0) for e in (0.05, 1.5)
    )
    assert wide.sum() == pytest.approx(sharp.sum(), rel=2e-3)
    assert wide.max() < sharp.max()
    column = curve.miss(x[None, ::100], np.array([[0.05], [1.5]]), np.array([[2.0], [2.0]]))
    assert column[1] == pytest.approx(curve.miss(x[::100], 1.5, 2.0))


@pytest.mark.parametrize("law", LAWS)
def test_a_very_wide_error_makes_every_law_random(law: str) -> None:
    legs = [Leg((3.0 * k, -1.0), (3.0 * k, 1.0), 1, 3.0) for k in range(-60, 61)]
    seen = chance_to_see(legs, np.array([0.0, 0.7]), np.zeros(2), Curve(law, 3.0), [LegError(20.0, 0.0)] * len(legs))
    assert seen == pytest.approx(1.0 - math.exp(-1.0), abs=0.01)


@pytest.mark.parametrize("pattern", ALL, ids=lambda p: p.name)
@pytest.mark.parametrize("law", LAWS)
def test_tables_and_blocks_give_what_single_legs_give(pattern: Pattern, law: str) -> None:
    dice = np.random.default_rng(3)
    east, north = 25.0 * (dice.random((2, 6000)) - 0.5)
    errors = [LegError(0.3 + 0.01 * k, 0.2) for k in range(len(pattern.lanes))]
    curve = Curve(law, 2.2)
    together = chance_to_see(pattern.lanes, east, north, curve, errors)
    missed = np.ones(6000)
    for leg, error in zip(pattern.lanes, errors, strict=True):
        missed *= 1.0 - chance_to_see([leg], east, north, curve, [error])
    assert np.abs(together - (1.0 - missed)).max() < 2e-3


def test_variances_by_compass_are_those_of_drawn_swims() -> None:
    pattern, error = expanding_square(O, 3.0, 14), TrackError(heading=0.05, distance=0.06)
    swum = swum_tracks(pattern, error, 4000)
    for k, (leg, told) in enumerate(zip(pattern.lanes, leg_errors(pattern, error), strict=True)):
        if not k:
            continue  # the first leg has no other before it: its sway is all askew
        x = swum.east[:, k] + 0.5 * swum.length[:, k] * np.sin(swum.heading[:, k])
        y = swum.north[:, k] + 0.5 * swum.length[:, k] * np.cos(swum.heading[:, k])
        askew = (error.heading * leg.length) ** 2 / 12.0
        across = np.hypot(np.std(x * math.cos(leg.heading) - y * math.sin(leg.heading)), math.sqrt(askew))
        assert across == pytest.approx(told.across, rel=0.08)
        assert np.std(x * math.sin(leg.heading) + y * math.cos(leg.heading)) == pytest.approx(told.along, rel=0.08)


def test_a_found_mark_sets_the_error_back() -> None:
    pattern = sector(O, 15.0)
    marked = leg_errors(pattern, TrackError(heading=0.1, marked=True))
    lost = leg_errors(pattern, TrackError(heading=0.1))
    assert marked[3].across == pytest.approx(marked[0].across)
    assert lost[8].across > 1.5 * marked[8].across


def test_places_follow_the_map() -> None:
    ground = Ground(np.array([0.5, 1.5, 0.5]), np.array([0.5, 0.5, 1.5]), np.array([0.2, 0.5, 0.1]), 1.0)
    east, north = places(ground, 0.0)
    assert np.mean((east > 1.0) & (north < 1.0)) == pytest.approx(0.5 / 0.8, abs=0.01)
    assert not np.any((east > 1.0) & (north > 1.0))
    shaken = places(ground, 3.0)
    assert np.std(shaken[0]) == pytest.approx(3.0, abs=0.2)


def test_widths_stand_for_their_draws() -> None:
    draws = np.linspace(2.0, 3.2, 999)
    assert width_nodes(draws, 3).mean() == pytest.approx(draws.mean())
    assert width_nodes(np.full(5, 2.5), 3).tolist() == [2.5]


def test_the_table_of_the_normal_distribution() -> None:
    z = np.linspace(-7.0, 7.0, 2001)
    exact = np.array([0.5 * math.erfc(-v / math.sqrt(2.0)) for v in z])
    assert np.max(np.abs(below(z) - exact)) < 3e-7
    assert box(np.array([-1.0, 1.0]), 1.0, 0.0).sum() == 1.0
