"""The closed forms of line and lowering against the ascent under control on its elastic line, step by step."""

from __future__ import annotations

import numpy as np
import pytest

from parbuckle.lift.line_pull import light_at, line_pull
from parbuckle.lift.lowering import LoweringProblem, lowering
from parbuckle.physics.rise import BOTTOM
from parbuckle.physics.simulate import simulate, way_of
from parbuckle.physics.tended import Line, Tended
from parbuckle.quantity.frozen import Floats
from sample_lines import RHO, body, metres

STIFF, RATE = 2.0e4, 0.1


def on_line(weight: float, start: float, surface: float, bottom: float, paying: float, at: float) -> Tended:
    """A load that already moves as fast as its line, which pulls as much as that needs."""
    one = body(weight, 25.0, 20.0, at)
    hangs = line_pull(one, metres(start), -paying)
    return Tended(
        body=one,
        depth=metres(start),
        rise=metres(-paying),
        surface=metres(surface),
        bottom=metres(bottom),
        height=np.ones((2, 1)),
        relief_area=np.full((2, 1), np.inf),
        tenders=(),
        line=Line(np.full(1, STIFF), metres(start) - hangs / STIFF, np.full(1, paying)),
        limit=600.0,
    )


def pulls(tended: Tended) -> tuple[Floats, Floats, Floats]:
    """Time, depth and pull along the way."""
    way = way_of(tended)
    line = tended.line
    assert line is not None
    stretch = way.depth - (line.paid + line.paying * way.time)
    return way.time, way.depth, STIFF * np.maximum(stretch, 0.0)


def test_the_pull_of_a_steady_haul_is_the_closed_form() -> None:
    tended = on_line(75.0, 20.0, 4.0, 20.5, -RATE, 20.0)
    time, depth, pull = pulls(tended)
    later = (time > 5.0) & (depth > 6.0)
    assert later.sum() > 50
    expected = np.array([line_pull(tended.body, metres(float(z)), RATE)[0] for z in depth[later]])
    assert pull[later] == pytest.approx(expected, rel=0.02)


def test_the_line_goes_slack_where_the_closed_form_says() -> None:
    tended = on_line(50.0, 20.0, 1.0, 20.5, -RATE / 4.0, 20.0)
    _, depth, pull = pulls(tended)
    slack = depth[np.flatnonzero(pull == 0.0)[0]]
    assert slack == pytest.approx(light_at(tended.body, metres(20.0), metres(1.0))[0], abs=0.3)


def test_it_floats_past_a_line_that_went_slack() -> None:
    """Hauled no farther than half way, it comes to the surface all the same when it is light before."""
    way = way_of(on_line(48.0, 20.0, 1.0, 20.5, -RATE, 20.0))
    assert way.depth[-1] == pytest.approx(1.0, abs=1e-3)
    assert way.speed.max() > 2.0 * RATE


def test_the_pull_on_the_way_down_is_the_closed_form() -> None:
    tended = on_line(50.0, 2.0, 1.0, 14.0, RATE, 2.0)
    time, depth, pull = pulls(tended)
    later = (time > 5.0) & (depth < 13.9)
    expected = np.array([line_pull(tended.body, metres(float(z)), -RATE)[0] for z in depth[later]])
    assert pull[later] == pytest.approx(expected, rel=0.02)
    problem = LoweringProblem(
        "bag and line", tended.body, metres(2.0), metres(14.0), RATE, (2.0, 14.0), metres(0.0), 0.26, 0.99, 8.0
    )
    result = lowering(problem)
    assert result.hold_back is not None
    assert pull.max() < result.hold_back[0]  # with its dynamic factor it covers the start and the drag


def test_let_go_it_falls_as_in_the_engine() -> None:
    one = body(50.0, 25.0, 20.0, 2.0)
    free = simulate(
        Tended(one, metres(2.0), metres(-RATE), metres(1.0), metres(14.0), np.ones((2, 1)), np.full((2, 1), np.inf), ())
    )
    problem = LoweringProblem("bag", one, metres(2.0), metres(14.0), RATE, (2.0, 14.0), metres(0.0), 0.26, 0.99, 8.0)
    fallen = lowering(problem).let_go
    assert free.end[0] == fallen.end[0] == BOTTOM
    assert fallen.time[0] == pytest.approx(free.time[0], rel=2e-3)
    assert fallen.speed[0] == pytest.approx(free.speed[0], rel=2e-3)


def test_just_off_neutral_it_sinks_away_at_the_growth_rate() -> None:
    """The doubling time of the lowering is that of the unstable equilibrium, drag left out."""
    one = body(RHO * 0.045, 25.0, 20.0, 2.0, molar_mass=0.0, drag_area=np.full(1, 1e-6), bag_drag=np.full(1, 1e-6))
    one = type(one)(**{**vars(one), "capacity": np.full((2, 1), 0.1)})
    problem = LoweringProblem("bag", one, metres(2.0), metres(14.0), RATE, (2.0,), metres(0.0), 0.26, 0.99, 8.0)
    rate = np.log(2.0) / lowering(problem).doubling[0]
    way = way_of(
        Tended(
            one, metres(2.0), np.full(1, -1e-4), metres(0.5), metres(14.0), np.ones((2, 1)),
            np.full((2, 1), np.inf), (), step=0.05,
        )
    )  # fmt: skip
    early = (way.depth - 2.0 < 0.05) & (way.time > 0.5)
    off = 1e-4 / rate * np.sinh(rate * way.time[early])
    assert way.depth[early] - 2.0 == pytest.approx(off, rel=0.05)
