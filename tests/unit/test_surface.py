"""At the surface: reserve, crown, grounding, tow, weight out of the water, at their edges."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from parbuckle.lift.surface import grounding, surface
from parbuckle.lift.surface_problem import SurfaceProblem
from parbuckle.quantity.errors import RangeError

ONE = np.ones(1)
PROFILE = ((0.0, 23.0), (200.0, 13.0), (420.0, 0.5))


def afloat(capacity: float = 60.0, **more: Any) -> SurfaceProblem:
    given: dict[str, Any] = {"required": 40.0 * ONE, "leaving": 70.0 * ONE, "reserve_wanted": 0.2} | more
    return SurfaceProblem(1025.0 * ONE, capacity * ONE, **given)


def test_the_reserve_at_its_edge() -> None:
    assert surface(afloat(48.0001)).chance_reserve == 1.0
    assert surface(afloat(47.999)).chance_reserve == 0.0
    assert surface(afloat(30.0)).reserve[0] == pytest.approx(-0.25)


def test_the_crown_stands_higher_with_more_reserve_and_never_below_the_water() -> None:
    low, high, sunk = (surface(afloat(c, bag_height=0.75)).crown_height[0] for c in (50.0, 80.0, 30.0))
    assert (low, high, sunk) == (pytest.approx(0.15), pytest.approx(0.375), 0.0)


def test_without_bags_nothing_stands_above_the_water() -> None:
    result = surface(afloat(0.0, bag_height=0.75))
    assert (result.reserve[0], result.crown_height[0]) == (-1.0, 0.0)


def test_waves_over_the_crown_at_the_edge() -> None:
    assert surface(afloat(80.0, bag_height=0.8, wave_height=0.8)).waves_over == 0.0
    assert surface(afloat(80.0, bag_height=0.8, wave_height=0.81)).waves_over == 1.0
    assert surface(afloat(80.0)).waves_over is None


@pytest.mark.parametrize(
    ("draught", "tide", "expected"),
    [
        (3.5, 0.0, (367.2, 3.5)),
        (0.5, 0.0, None),
        (0.51, 0.0, (419.824, 0.51)),
        (3.5, 3.0, None),
        (3.5, 2.99, (419.824, 0.51)),
        (23.0, 0.0, (0.0, 23.0)),
        (23.1, 0.0, (0.0, 23.0)),
    ],
)
def test_where_it_grounds(draught: float, tide: float, expected: tuple[float, float] | None) -> None:
    found = grounding(PROFILE, draught, tide)
    assert found == (None if expected is None else pytest.approx(expected))


def test_a_bar_on_the_way_is_met_before_the_deep_behind_it() -> None:
    bar = ((0.0, 10.0), (100.0, 2.0), (150.0, 8.0), (300.0, 1.0))
    found = grounding(bar, 3.0)
    assert found is not None
    assert found[0] == pytest.approx(87.5)


def test_no_profile_grounds_nowhere_and_answers_nothing() -> None:
    result = surface(afloat(hang=3.5 * ONE))
    assert (result.grounds, result.shallowest) == (None, None)


def test_clearance_and_high_end_of_the_hang_count() -> None:
    hang = np.linspace(3.0, 4.0, 1001)
    wide = np.ones(1001)
    problem = SurfaceProblem(
        1025 * wide, 60 * wide, 40 * wide, 70 * wide, 0.2, hang=hang, profile=PROFILE, clearance=1.0
    )
    result = surface(problem)
    assert result.hang_high == pytest.approx(3.95)
    assert result.grounds is not None
    assert result.grounds[1] == pytest.approx(4.95)
    assert result.shallowest == 0.5


def test_tow_drag_and_time() -> None:
    speed = 0.8 * 1852.0 / 3600.0 * ONE
    result = surface(afloat(tow_speed=speed, drag_area=0.5 * ONE, shore_distance=420.0))
    assert result.tow_drag is not None
    assert result.tow_drag[0] == pytest.approx(0.5 * 1025 * 0.5 * speed[0] ** 2)
    assert result.tow_time is not None
    assert result.tow_time[0] == pytest.approx(420.0 / speed[0])
    assert any("shallow" in note for note in result.notes)


def test_the_tow_ends_where_it_grounds() -> None:
    result = surface(afloat(tow_speed=0.5 * ONE, shore_distance=420.0, hang=3.5 * ONE, profile=PROFILE))
    assert result.tow_time is not None
    assert result.tow_time[0] == pytest.approx(367.2 / 0.5)
    assert result.tow_drag is None


def test_unknown_hang_is_said() -> None:
    assert any("not known" in note for note in surface(afloat(profile=PROFILE)).notes)


def test_the_davit_at_its_edge() -> None:
    assert surface(afloat(limit=70.0)).chance_over == 0.0
    assert surface(afloat(limit=69.9)).chance_over == 1.0
    assert surface(afloat()).chance_over is None


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(RangeError, match="required"):
        surface(afloat(required=0.0 * ONE))
    with pytest.raises(RangeError, match="tow speed"):
        surface(afloat(tow_speed=0.0 * ONE))
    with pytest.raises(RangeError, match="rise from point to point"):
        afloat(profile=((0.0, 5.0), (0.0, 3.0)))
