"""Laws of detection: their curves, limits, and what passes and divers make of them together."""

import math
from itertools import pairwise

import numpy as np
import pytest

from parbuckle.quantity.errors import RangeError
from parbuckle.search.curves import Curve
from parbuckle.search.detection import LAWS, coverage, lateral, one_of_two, pod, together, two_divers
from parbuckle.search.law_table import law_table
from parbuckle.search.numbers import chance_in_words, number, pair
from parbuckle.search.seeing import (
    contrast_factor,
    slower_is_better,
    stirred,
    sweep_by_touch,
    sweep_from_trial,
    sweep_from_visibility,
)

WITH_CURVE = [("half-normal", 1.0), ("half-normal", 0.6), ("definite range", 1.0), ("definite range", 0.5)]


@pytest.mark.parametrize(("law", "p0"), [*WITH_CURVE, ("inverse cube", 1.0)])
def test_the_integral_of_the_curve_is_the_sweep_width(law: str, p0: float) -> None:
    t = (np.arange(400_000) + 0.5) / 400_000 * math.pi - math.pi / 2
    integral = np.sum(lateral(law, 3.0 * np.tan(t), 3.0, p0) * 3.0 / np.cos(t) ** 2) * math.pi / t.size
    assert integral == pytest.approx(3.0, rel=2e-5)


@pytest.mark.parametrize("law", ["half-normal", "inverse cube", "definite range"])
def test_the_curve_is_that_of_one_pass(law: str) -> None:
    x = np.linspace(-7.0, 7.0, 40)
    assert lateral(law, x, 3.0) == pytest.approx(1.0 - Curve(law, 3.0).miss(x, 0.0, 3.0), abs=1e-4)


@pytest.mark.parametrize(("law", "p0"), [*WITH_CURVE, ("random", 1.0), ("inverse cube", 1.0)])
def test_more_coverage_never_sees_less_and_never_more_than_there_is(law: str, p0: float) -> None:
    c = np.linspace(0.0, 12.0, 500)
    chance = pod(law, c, p0)
    assert chance[0] == 0.0
    assert (np.diff(chance) >= -1e-12).all()
    assert (chance <= np.minimum(1.0, c) + 1e-12).all()
    if law == "random":
        assert chance == pytest.approx(1.0 - np.exp(-c))
    elif p0 == 1.0:
        assert (chance >= 1.0 - np.exp(-c) - 1e-12).all()


def test_lanes_of_the_half_normal_by_brute_force() -> None:
    for c, p0 in ((0.05, 0.9), (0.7, 1.0), (1.7, 0.4), (6.0, 0.8)):
        spacing = 1.0 / c
        x = (np.arange(20_000) + 0.5) / 20_000 * spacing
        missed = np.ones_like(x)
        for k in range(-120, 121):
            missed *= 1.0 - lateral("half-normal", x - k * spacing, 1.0, p0)
        assert float(pod("half-normal", c, p0)) == pytest.approx(1.0 - missed.mean(), abs=1e-7)


def test_looks_together_and_apart() -> None:
    assert float(together([0.3, 0.3])) == pytest.approx(0.51)
    assert together(np.array([[0.5, 0.0], [0.5, 1.0]])) == pytest.approx([0.75, 1.0])
    assert float(one_of_two(together([0.3, 0.3]))) == pytest.approx(0.3)
    with pytest.raises(RangeError, match="chance"):
        together([1.2])


@pytest.mark.parametrize("law", ["half-normal", "inverse cube", "definite range"])
def test_two_divers_gain_with_distance_and_never_double_count(law: str) -> None:
    widths = [two_divers(law, 3.0, apart) for apart in (0.0, 1.0, 2.0, 4.0, 9.0)]
    assert all(b > a for a, b in pairwise(widths) if a < 5.99)
    assert widths[0] >= 3.0 - 2e-3
    assert widths[-1] <= 6.0 + 1e-9
    assert two_divers("half-normal", 3.0, 0.0) == pytest.approx(6.0 - 3.0 / math.sqrt(2.0), rel=1e-4)


def test_two_divers_under_the_random_law_do_not_share() -> None:
    assert two_divers("random", 3.0, 0.0) == 6.0


def test_what_a_law_does_not_take_is_refused() -> None:
    for call in (
        lambda: pod("cube", 1.0),
        lambda: pod("random", -0.1),
        lambda: pod("random", 1.0, 0.5),
        lambda: pod("half-normal", 1.0, 0.0),
        lambda: pod("half-normal", 1.0, 1.1),
        lambda: lateral("random", 1.0, 3.0),
        lambda: lateral("half-normal", 1.0, 0.0),
        lambda: coverage(3.0, 1.0, 0.0),
        lambda: two_divers("half-normal", 3.0, -1.0),
        lambda: law_table("random", np.array([0.0, 1.0])),
    ):
        with pytest.raises(RangeError):
            call()


@pytest.mark.parametrize("law", LAWS)
def test_a_table_is_the_law_averaged_over_the_draws_and_concave(law: str) -> None:
    width = np.array([2.0, 3.0, 4.0])
    table = law_table(law, width)
    x = np.linspace(0.0, 3.0, 50)
    mean = np.mean([pod(law, w * x) for w in width], axis=0)
    assert table.pod_at(x) == pytest.approx(mean, abs=2e-4)
    assert (np.diff(table.slope) <= 1e-12).all()
    assert float(table.slope[0]) <= 4.0 + 1e-6


def test_many_draws_of_the_sweep_width_are_grouped_without_loss() -> None:
    width = np.random.default_rng(3).uniform(2.0, 3.2, 1024)
    x = np.linspace(0.0, 2.0, 30)
    mean = np.mean([1.0 - np.exp(-w * x) for w in width], axis=0)
    assert law_table("random", width).pod_at(x) == pytest.approx(mean, abs=5e-5)


def test_sweep_width_by_sight_is_never_wider_than_the_object_looks_large() -> None:
    assert contrast_factor("high") == (1.8, 1.8)
    assert contrast_factor() == (1.1, 1.8)
    assert float(sweep_from_visibility(3.0, math.inf, 1.6)) == pytest.approx(4.8)
    assert float(sweep_from_visibility(10.0, 0.03, 1.0)) == pytest.approx(3.0)
    assert float(sweep_from_trial(2.5, 1.6)) == pytest.approx(4.0)
    with pytest.raises(RangeError, match="contrast"):
        contrast_factor("dazzling")
    with pytest.raises(RangeError, match="visibility"):
        sweep_from_visibility(0.0, 1.0, 1.6)


def test_sweep_width_by_touch_speed_and_silt() -> None:
    assert sweep_by_touch(np.array([0.0, 1.0])) == pytest.approx(pair("touch", "reach"))
    assert sweep_by_touch(np.array([0.2, 0.9]), 1.7) == pytest.approx([1.7, 1.7])
    assert float(slower_is_better(3.0, 0.2, 0.3)) == 3.0
    assert float(slower_is_better(3.0, 0.6, 0.3)) * 0.6 == pytest.approx(3.0 * 0.3)
    assert float(stirred(3.0, "rock")) == 3.0
    assert float(stirred(3.0, "soft mud")) < 0.5
    with pytest.raises(RangeError, match="silt"):
        stirred(3.0, "custard")


def test_words_for_a_chance_go_one_step_down_where_nothing_was_tried() -> None:
    said = [chance_in_words(c, True) for c in (1.0, 0.9, 0.7, 0.5, 0.1)]
    assert said == ["almost certainly", "very likely", "likely", "perhaps", "not shown"]
    careful = [chance_in_words(c, False) for c in (1.0, 0.9, 0.7, 0.5, 0.1)]
    assert careful == [*said[1:], "not shown"]
    with pytest.raises(RangeError, match="chance"):
        chance_in_words(1.01, True)
    with pytest.raises(RangeError, match="allowed"):
        number("sure", "very")
