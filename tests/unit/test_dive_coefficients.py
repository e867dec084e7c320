"""The coefficients of the tissue model, held against their rules: a faulty table is in circulation."""

from __future__ import annotations

import numpy as np
import pytest

from parbuckle.dive.ceilings import factor_at, gradient, m_value, tolerated
from parbuckle.dive.compartments import Compartments, compartments, theory_a, theory_b, water_vapour
from parbuckle.dive.loading import at_rest, inspired, load, ramp
from parbuckle.dive.logged import highest_ceiling, loaded_at_end
from parbuckle.dive.no_stop import no_stop_time
from parbuckle.dive.profile import Leg, leg, travel
from parbuckle.dive.stops import way_up
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats
from sample_dives import AIR, SEA, SURFACE, piece


def all_seventeen(letter: str) -> Compartments:
    first, second = compartments(letter, "1"), compartments(letter, "1b")
    joined = (np.concatenate([getattr(first, n)[:, :1], getattr(second, n)], axis=1) for n in ("half", "a", "b"))
    return Compartments(*joined)


def test_set_a_follows_its_formulas_but_for_the_one_known_row() -> None:
    model = all_seventeen("A")
    assert np.abs(model.a[0] - theory_a(model.half[0])).max() < 5.1
    off = np.abs(model.b[0] - theory_b(model.half[0]))
    assert off[4] == pytest.approx(0.01, abs=1e-4)  # 18.5 min: 0.7825, where the formula gives 0.7725
    assert np.delete(off, 4).max() < 5.6e-5
    assert model.b[0, 5] == 0.8126


@pytest.mark.parametrize("letter", ["B", "C"])
def test_other_sets_change_a_of_nitrogen_only_and_downward(letter: str) -> None:
    theory, other = all_seventeen("A"), all_seventeen(letter)
    assert np.array_equal(theory.b, other.b)
    assert np.array_equal(theory.half, other.half)
    assert np.array_equal(theory.a[1], other.a[1])
    assert (other.a[0] <= theory.a[0]).all()
    assert (other.a[0] < theory.a[0]).any()


@pytest.mark.parametrize("letter", ["A", "B", "C"])
def test_columns_run_one_way(letter: str) -> None:
    model = all_seventeen(letter)
    assert (np.diff(model.half) > 0.0).all()
    assert (np.diff(model.a[0]) < 0.0).all()
    assert (np.diff(model.b) > 0.0).all()


def test_helium_is_quicker_by_the_square_root_of_the_masses() -> None:
    model = all_seventeen("C")
    assert model.half[0] / model.half[1] == pytest.approx(np.full(17, 2.65), abs=0.011)
    assert np.abs(model.a[1, :9] - theory_a(model.half[1, :9])).max() < 2000.0


def test_a_shifted_table_would_be_seen() -> None:
    model = all_seventeen("A")
    assert np.abs(np.roll(model.a[0], -1)[:16] - theory_a(model.half[0, :16])).max() > 1e3


def test_a_factor_works_on_the_gradient_and_not_on_the_value() -> None:
    whole = float(m_value(SURFACE, 1e5, 0.6514))
    assert float(m_value(SURFACE, 1e5, 0.6514, 0.9)) == pytest.approx(2.4013e5, abs=10.0)
    assert 0.9 * whole == pytest.approx(2.3000e5, abs=10.0)


def test_tolerated_undoes_the_m_value() -> None:
    model = compartments()
    tissues = np.zeros((2, 16, 1))
    tissues[0, 3] = m_value(250000.0, model.a[0, 3], model.b[0, 3], 0.6)
    assert tolerated(tissues, 0.6)[0] == pytest.approx(250000.0)
    assert gradient(tissues, 250000.0)[0] == pytest.approx(0.6)


def test_empty_tissues_are_no_division_by_nothing() -> None:
    a, b = compartments().mixed(np.zeros((2, 16, 2)))
    assert np.isfinite(a).all()
    assert np.array_equal(b[:, 0], compartments().b[0])


def test_vapour_is_the_printed_one() -> None:
    assert water_vapour() == pytest.approx(6270.0)
    assert float(inspired(SURFACE, 0.79)) == pytest.approx(75093.45)


def wrong(call: object) -> str:
    with pytest.raises(RangeError) as caught:
        call()  # type: ignore[operator]
    return str(caught.value)


def samples(count: int, pressure: float = SURFACE) -> Floats:
    return np.full((1, count), pressure)


REST = at_rest(SURFACE)
TWO = np.repeat(REST, 2, axis=2)
REFUSED = {
    "sets A, B, C": lambda: compartments("D"),
    "tissue 1 or 1b": lambda: compartments("C", "2"),
    "half-time": lambda: theory_a(59.0),
    "half-time of": lambda: theory_b(60001.0),
    "time of a leg": lambda: piece(SURFACE, SURFACE, -1.0),
    "time": lambda: ramp(1e5, 1e5, 1e5, -1.0, 300.0),
    "half-time: given 0": lambda: ramp(1e5, 1e5, 1e5, 1.0, 0.0),
    "pressure that a diver": lambda: piece(0.29e5, SURFACE, 1.0),
    "from a mountain lake": lambda: piece(SURFACE, 31.1e5, 1.0),
    "not a number": lambda: Leg(np.array([np.nan]), np.array([1e5]), np.array([1.0]), AIR),
    "depth": lambda: leg(SEA, -1.0, 3.0, 1.0, AIR),
    "rate": lambda: travel(SEA, 0.0, 10.0, 0.0, AIR),
    "share of a gas": lambda: inspired(SURFACE, 1.01),
    "gradient factor": lambda: m_value(SURFACE, 1e5, 0.5, 1.01),
    "0.05 to 1": lambda: tolerated(REST, 0.04),
    "low gradient factor": lambda: factor_at(3.0, 6.0, 0.8, 0.5),
    "share of the first stop": lambda: factor_at(9.0, 6.0, 0.5, 0.8),
    "beyond the model": lambda: no_stop_time(REST, 3e5, AIR, SURFACE, 1.2),
    "one diver": lambda: way_up(TWO, 20.0, SEA, AIR, 0.15),
    "interval between samples": lambda: loaded_at_end(REST, samples(5), 0.05, AIR),
    "1 sample": lambda: highest_ceiling(REST, samples(1), 4.0, AIR),
    "300 m": lambda: loaded_at_end(REST, samples(5, 32e5), 4.0, AIR),
}


@pytest.mark.parametrize("words", REFUSED)
def test_outside_its_range_a_law_refuses_by_name(words: str) -> None:
    assert words in wrong(REFUSED[words])


def test_just_inside_they_answer() -> None:
    assert theory_a(60.0) > theory_a(60000.0)
    assert piece(0.3e5, 31e5, 7 * 24 * 60.0).mean[0] == pytest.approx(15.65e5)
    assert m_value(SURFACE, 1e5, 0.5, 0.05) < m_value(SURFACE, 1e5, 0.5, 1.0)
    assert loaded_at_end(REST, samples(2), 0.1, AIR).shape == (2, 16, 1)


def test_a_stop_that_never_ends_is_refused() -> None:
    """At 2 bar on air the slow tissues fill up to more than the surface allows with a small factor."""
    soaked = load(REST, [leg(SEA, 10.0, 10.0, 6 * 86400.0, AIR)])
    with pytest.raises(RangeError, match="more than 24 h"):
        way_up(soaked, 10.0, SEA, AIR, 0.15, (0.05, 0.05), step=6.0)
