"""Break-out: laws inside and outside their ranges, and the sentence that goes on paper."""

from __future__ import annotations

import numpy as np
import pytest

from parbuckle.load.bearing import mud_mass, reverse_bearing, skempton_factor
from parbuckle.load.breakout import liu_factor, muga_share
from parbuckle.load.weigh import weigh
from parbuckle.quantity.errors import RangeError
from sample_loads import estimate, full, problem, spread

THING = estimate("list", spread("mass", 60.0, 2.0))


def test_muga_only_in_the_first_hours() -> None:
    assert muga_share(np.array([0.0, 480.0])).round(3).tolist() == [0.814, 0.061]
    for minutes in (-0.1, 480.1):
        with pytest.raises(RangeError, match="Muga"):
            muga_share(minutes)


@pytest.mark.parametrize("ratio", [0.001, 10.0, 0.0, 0.0005, 11.0])
def test_liu_is_refused_outside_its_range(ratio: float) -> None:
    with pytest.raises(RangeError, match="Liu 1969"):
        liu_factor(ratio * 86400.0, 86400.0)


@pytest.mark.parametrize("ratio", [0.00101, 9.99])
def test_liu_holds_just_inside(ratio: float) -> None:
    assert 1.27 < float(liu_factor(ratio * 86400.0, 86400.0)) < 2.44


def test_liu_needs_a_time_in_the_bottom() -> None:
    with pytest.raises(RangeError):
        liu_factor(60.0, 0.0)


def test_skempton_begins_with_five_and_stops_growing() -> None:
    assert float(skempton_factor(0.0, 0.0)) == 5.0
    assert skempton_factor(np.array([2.5, 2.6]), 1.0).tolist() == [9.0, 9.0]
    for wrong in ((-0.1, 1.0), (1.0, 1.1), (1.0, -0.1)):
        with pytest.raises(RangeError):
            skempton_factor(*wrong)


def test_suction_holds_no_more_than_the_pressure_on_the_base() -> None:
    one = np.ones(1)
    held = reverse_bearing(1e6 * one, 1.0 * one, 0.0 * one, 201_840.0 * one)
    assert float(held[0]) * 9.80665 == pytest.approx(201_840.0)


def test_no_footprint_holds_nothing() -> None:
    one = np.ones(1)
    assert float(reverse_bearing(5e3 * one, 0.0 * one, 0.1 * one, 2e5 * one)[0]) == 0.0
    assert float(mud_mass(0.0 * one, 0.1 * one, 0.5 * one)[0]) == 0.0


@pytest.mark.parametrize("on", ["rock", "gravel"])
def test_rock_and_gravel_hold_nothing(on: str) -> None:
    got = weigh(problem(THING, on=on))
    assert not got.breakout.any()
    assert "no break-out" in got.breakout_why
    assert got.breakout_hold == ()
    assert got.liu is None


@pytest.mark.parametrize(("on", "share"), [("sand", 0.15), ("silt", 0.25), ("sticky clay", 0.45), ("soft mud", 0.8143)])
def test_a_bottom_holds_up_to_its_share_and_down_to_nothing(on: str, share: float) -> None:
    got = weigh(problem(THING, on=on))
    part = got.breakout / got.wet_weight
    assert part.max() == pytest.approx(share, rel=0.01)
    assert part.min() == pytest.approx(0.0, abs=0.01 * share)
    assert "may hold 0 to" in got.breakout_why
    assert "not predictable" in got.breakout_why
    assert "%" not in got.breakout_why


def test_an_unknown_bottom_is_taken_as_the_worst() -> None:
    got, mud = weigh(problem(THING, on="unknown")), weigh(problem(THING, on="soft mud"))
    assert np.array_equal(got.breakout, mud.breakout)
    assert "not known" in got.breakout_why


def test_suction_under_a_small_foot_is_held_by_the_pressure_there() -> None:
    small = full(1e-4)
    got = weigh(problem(THING, on="soft mud", footprint=small))
    assert got.breakout.max() == pytest.approx(2.6e5 * 1e-4 / 9.80665, rel=0.01)
    free = weigh(problem(THING, on="sand", footprint=small))
    assert np.array_equal(free.breakout, weigh(problem(THING, on="sand")).breakout)


def test_waiting_leaves_less_and_begins_with_the_band() -> None:
    got = weigh(problem(THING, on="soft mud"))
    minutes, high, sources = zip(*got.breakout_hold, strict=True)
    assert minutes == (0.0, 30.0, 60.0, 260.0)
    assert high[0] == pytest.approx(float(np.quantile(got.breakout, 0.95)))
    assert high[3] / high[0] == pytest.approx(0.2 / 0.8143, rel=1e-3)
    assert all("recalled" in source for source in sources)


def test_a_measured_strength_replaces_the_share_on_mud_and_shows_both() -> None:
    got = weigh(problem(THING, on="soft mud", shear=full(2000.0)))
    top = float(reverse_bearing(full(2000.0, 1), full(0.2, 1), full(0.1, 1), full(2.6e5, 1))[0])
    assert got.breakout.max() == pytest.approx(top, rel=0.01)
    assert "by Muga" in got.breakout_why
    assert got.breakout_hold == ()


def test_a_strength_given_on_sand_is_not_used_and_that_is_said() -> None:
    got = weigh(problem(THING, on="sand", shear=full(2000.0)))
    assert np.array_equal(got.breakout, weigh(problem(THING, on="sand")).breakout)
    assert "not used" in got.warnings[0]


def test_the_time_law_says_why_it_refuses() -> None:
    text = weigh(problem(THING, on="soft mud", days=full(4.0))).liu
    assert text is not None
    assert "5 min after 4 days" in text
    assert "refused" in text
    assert "2.1 times" in text
    assert "is not used" in str(weigh(problem(THING, on="soft mud", days=full(0.0))).liu)


def test_a_load_that_floats_is_not_held() -> None:
    cork = estimate("list", full(10.0), density=500.0)
    got = weigh(problem(cork, on="soft mud"))
    assert got.wet_weight.max() < 0.0
    assert not got.breakout.any()
