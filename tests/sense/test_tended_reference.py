"""Controlled ascents against a slow solver of high order that shares no law with the program."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from headline import headline
from parbuckle.physics.simulate import simulate
from parbuckle.physics.tended import BOTTOM, OUT_OF_TIME, STAYS, SURFACE
from sample_tended import Array, Lift, draw_lifts, simulated
from tended_reference import reference

ENDS = {"surface": SURFACE, "bottom": BOTTOM, "late": OUT_OF_TIME, "stays": STAYS}
COUNT = 120
LIMIT = 600.0
CLOSE = 1e-3


def flipped(lifts: list[Lift], time: Array, end: Array) -> Array:
    """Tell which lifts end quite differently under a change of the load by a millionth."""
    found = np.zeros(len(lifts), dtype=bool)
    for factor in (1.0 - 1e-6, 1.0 + 1e-6):
        other = [replace(lift, weight=lift.weight * factor) for lift in lifts]
        its_end, its_time = simulated(other, ("end", "time"), limit=LIMIT)
        found |= (its_end != end) | (np.abs(its_time / time - 1.0) > CLOSE)
    return found


@pytest.fixture(scope="module")
def drawn() -> tuple[list[Lift], Array, Array]:
    """Lifts, and time and highest speed by the reference (nan where the end differs)."""
    lifts = draw_lifts(COUNT, 2026)
    told = [reference(lift, LIMIT) for lift in lifts]
    return lifts, np.array([[t.time, t.max_speed] for t in told]).T, np.array([float(ENDS[t.end]) for t in told])


def test_ascents_and_their_quantiles_agree_with_the_reference(drawn: tuple[list[Lift], Array, Array]) -> None:
    lifts, theirs, their_end = drawn
    end, time, top = simulated(lifts, ("end", "time", "max_speed"), limit=LIMIT)
    steady = ~flipped(lifts, time, end)
    assert steady.sum() > 0.95 * COUNT
    off = np.maximum(np.abs(time / theirs[0] - 1.0), np.abs(top / theirs[1] - 1.0))
    off[end != their_end] = np.inf
    assert (off[steady] <= CLOSE).mean() >= 0.99
    assert np.median(off[steady]) < 1e-5
    assert {SURFACE, BOTTOM} <= set(end)  # both ways out are in the draw
    for mine, reference_values in ((time, theirs[0]), (top, theirs[1])):
        for q in (5, 25, 50, 75, 95):
            expected = np.percentile(reference_values[steady], q)
            assert np.percentile(mine[steady], q) == pytest.approx(expected, rel=CLOSE)


def test_few_lifts_flip_under_a_millionth_of_the_load() -> None:
    lifts = draw_lifts(1500, 2026)
    end, time = simulated(lifts, ("end", "time"), limit=LIMIT)
    assert flipped(lifts, time, end).mean() <= 0.02


def test_the_working_step_is_near_enough_and_half_of_it_eight_times_nearer() -> None:
    lift = headline(3000)
    fine = simulate(replace(lift, step=0.05), form="kernel")
    off = []
    for step in (0.4, 0.2):
        told = simulate(replace(lift, step=step), form="kernel")
        off.append(np.maximum(np.abs(told.time / fine.time - 1.0), np.abs(told.max_speed / fine.max_speed - 1.0)))
        for name in ("time", "max_speed"):
            quantiles = [np.percentile(getattr(t, name), (1, 5, 25, 50, 75, 95, 99)) for t in (told, fine)]
            assert np.allclose(*quantiles, rtol=CLOSE)
    assert (off[0] <= CLOSE).mean() >= 0.99
    assert np.median(off[0]) >= 8.0 * np.median(off[1])
