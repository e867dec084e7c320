"""The one ensemble: stratified uniforms by path, spreads against scipy, bands against numpy, chances in words."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import special, stats

from parbuckle.quantity.band import Chance, at_share, at_shares, band, chance
from parbuckle.quantity.draws import Ensemble, uniforms
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.normal import cumulative, quantile
from parbuckle.quantity.spread import Spread, exact


@pytest.mark.parametrize("n", [2, 3, 7, 100, 1000, 1024, 4097, 10_000])
def test_every_cell_holds_one_draw(n: int) -> None:
    for path in ("load.mass", "material.steel"):
        u = uniforms(3, path, n)
        assert u.shape == (n,) and (u > 0.0).all() and (u < 1.0).all()
        assert np.array_equal(np.sort(np.floor(u * n)), np.arange(n))


def test_the_draws_are_mixed_and_jittered() -> None:
    u = uniforms(1, "a", 1024)
    assert abs(np.corrcoef(u, np.arange(1024))[0, 1]) < 4.0 / np.sqrt(1024)
    inside = u * 1024 % 1.0
    assert stats.kstest(inside, "uniform").pvalue > 1e-3


def test_one_draw_is_the_middle() -> None:
    assert uniforms(1, "x", 1)[0] == 0.5 and uniforms(99, "y", 1)[0] == 0.5
    with pytest.raises(RangeError):
        uniforms(1, "x", 0)


def test_seed_and_path_are_the_key_and_nothing_else() -> None:
    assert np.array_equal(uniforms(1, "a", 64), uniforms(1, "a", 64))
    assert not np.array_equal(uniforms(1, "a", 64), uniforms(2, "a", 64))
    assert not np.array_equal(uniforms(1, "a", 64), uniforms(1, "b", 64))
    assert not np.array_equal(uniforms(1, "1a", 64), uniforms(11, "a", 64))
    with pytest.raises(ValueError, match="read-only"):
        uniforms(1, "a", 64)[0] = 0.0


def test_another_input_changes_no_other() -> None:
    mass = Spread("mass", "normal", 42.0, 46.0, 50.0)
    first, second = Ensemble(128, 5), Ensemble(128, 5)
    alone = first.draw("load.mass", mass)
    second.draw("load.other", mass)
    assert np.array_equal(second.draw("load.mass", mass), alone)
    assert sorted(second.inputs) == ["load.mass", "load.other"] and sorted(first.inputs) == ["load.mass"]


def test_an_exact_input_is_no_uncertain_input() -> None:
    e = Ensemble(16)
    assert np.array_equal(e.draw("depth", exact("length", 16.0)), np.full(16, 16.0)) and not e.inputs


def test_a_cut_is_noted_once() -> None:
    e = Ensemble(64)
    cut = Spread("mass", "normal", -1.0, 1.0, 3.0, floor=0.0)
    assert (e.draw("m", cut) >= 0.0).all()
    e.draw("m", cut)
    e.draw("k", Spread("mass", "normal", 0.5, 1.0, 1.5, floor=0.0))
    assert e.cuts == ["m"]


def test_pairs_of_inputs_do_not_run_together() -> None:
    n = 512
    columns = [uniforms(1, f"input {i}", n) for i in range(21)]
    r = np.corrcoef(columns)[np.triu_indices(21, 1)]
    assert r.size >= 200 and np.abs(r).max() < 4.0 / np.sqrt(n)
    assert np.std(r) == pytest.approx(1.0 / np.sqrt(n), rel=0.25)


U = np.concatenate([[1e-12, 1e-6], np.linspace(0.001, 0.999, 201), [1.0 - 1e-6]])


def test_normal_means_nineteen_in_twenty() -> None:
    s = Spread("mass", "normal", 42.0, 46.0, 50.0)
    sd = 4.0 / special.ndtri(0.975)
    assert np.allclose(s.at(U), stats.norm.ppf(U, 46.0, sd), rtol=1e-12)
    x = s.at(uniforms(1, "a", 4000))
    assert ((x > 42.0) & (x < 50.0)).mean() == pytest.approx(0.95, abs=1.0 / 4000)


@pytest.mark.parametrize(("floor", "ceiling"), [(0.0, np.inf), (-np.inf, 1.5), (0.0, 1.2), (0.99, 1.01)])
def test_a_cut_normal_is_the_truncated_normal(floor: float, ceiling: float) -> None:
    s = Spread("share", "normal", -1.0, 1.0, 3.0, floor=floor, ceiling=ceiling)
    sd = 2.0 / special.ndtri(0.975)
    wanted = stats.truncnorm.ppf(U, (floor - 1.0) / sd, (ceiling - 1.0) / sd, 1.0, sd)
    assert s.is_cut
    assert np.allclose(s.at(U), wanted, rtol=1e-9, atol=1e-9)
    assert s.at(U).min() >= floor and s.at(U).max() <= ceiling


def test_flat_and_triangular() -> None:
    flat = Spread("length", "flat", 2.0, 3.0, 5.0)
    assert np.allclose(flat.at(U), stats.uniform.ppf(U, 2.0, 3.0), rtol=1e-14)
    for low, mid, high in ((60.0, 80.0, 120.0), (0.0, 0.0, 1.0), (0.0, 1.0, 1.0)):
        tri = Spread("length", "triangular", low, mid, high)
        c = (mid - low) / (high - low)
        assert np.allclose(tri.at(U), stats.triang.ppf(U, c, low, high - low), rtol=1e-10, atol=1e-12)
    assert np.array_equal(Spread("length", "triangular", 2.0, 2.0, 2.0).at(U), np.full(U.shape, 2.0))


def test_the_inverse_normal_against_scipy() -> None:
    u = np.concatenate(
        [10.0 ** -np.arange(1.0, 300.0, 3.0), np.linspace(0.01, 0.99, 999), 1.0 - 10.0 ** -np.arange(1.0, 16.0)]
    )
    assert np.allclose(quantile(u), special.ndtri(u), rtol=2e-14, atol=1e-15)
    z = np.linspace(-30.0, 8.0, 77)
    assert np.allclose([cumulative(float(x)) for x in z], special.ndtr(z), rtol=1e-12)


@pytest.mark.parametrize("n", [1, 2, 3, 10, 101, 256])
def test_bands_are_numpys_quantiles(n: int) -> None:
    x = np.random.default_rng(n).normal(size=(4, n))
    shares = (0.0, 0.05, 0.5, 0.95, 1.0, 0.333)
    assert np.allclose(at_shares(x, shares), np.quantile(x, shares, axis=-1), rtol=1e-13, atol=1e-15)
    for share in shares:
        assert at_share(x[0], share) == pytest.approx(np.quantile(x[0], share), rel=1e-12)


def test_a_band_holds_infinite_draws_and_tells_the_share_that_counts() -> None:
    x = np.array([1.0, 2.0, 3.0, np.inf, np.inf, np.inf])
    assert at_share(x, 0.95) == np.inf and at_share(x, 0.4) == 3.0 and at_share(x, 0.5) == np.inf
    made = band(x, np.isfinite(x))
    assert made is not None and made.of == 0.5 and (made.low, made.likely, made.high) == pytest.approx((1.1, 2.0, 2.9))
    assert band(x, np.zeros(6, dtype=bool)) is None


def test_chances_have_an_error_and_are_compared_with_it() -> None:
    c = chance(np.arange(1000) < 950)
    assert (c.share, c.n) == (0.95, 1000) and c.error == pytest.approx(np.sqrt(0.95 * 0.05 / 1000))
    assert c.against(0.95) == "on the edge" and c.against(0.95 - 2.1 * c.error) == "reached"
    assert c.against(0.95 + 2.1 * c.error) == "missed" and c.against(0.95 + 1.9 * c.error) == "on the edge"
    assert Chance(0.0, 1024).error == pytest.approx(3.0 / 1024) and Chance(1.0, 1024).against(0.95) == "reached"
