"""Water, pressure and real gas make sense, and agree with judges that the program does not use itself."""

import gsw
import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from fluids.atmosphere import ATMOSPHERE_1976
from hypothesis import given
from hypothesis import strategies as st

from parbuckle.physics import air, pressure, water
from parbuckle.physics.air import INTERPOLATION_ERROR

SEA_AGREES = 0.01  # kg/m3, 75 terms against the exact Gibbs function
FRESH_AGREES = 0.002  # kg/m3, CIPM formula against IAPWS-95 from 0.1 to 35 degC
VISCOSITY_AGREES = 0.005  # relative, against IAPWS 2008

celsius = st.floats(-2.0, 40.0)
salinities = st.floats(0.0, 42.0)


def test_sea_water_against_the_exact_gibbs_function() -> None:
    s, t = np.meshgrid(np.linspace(0.5, 42.0, 12), np.linspace(-2.0, 40.0, 15))
    ours = water.density(s, t + 273.15)
    assert np.abs(ours - gsw.rho_t_exact(s, t, 0.0)).max() < SEA_AGREES


def test_fresh_water_against_iapws() -> None:
    t = np.linspace(0.1, 35.0, 40) + 273.15
    judge = np.array([PropsSI("D", "P", 101325.0, "T", k, "Water") for k in t])
    assert np.abs(water.density(0.0, t) - judge).max() < FRESH_AGREES


def test_fresh_viscosity_against_iapws() -> None:
    t = np.linspace(0.1, 40.0, 40) + 273.15
    judge = np.array([PropsSI("V", "P", 101325.0, "T", k, "Water") for k in t])
    assert np.abs(water.viscosity(0.0, t) / judge - 1.0).max() < VISCOSITY_AGREES


def test_fresh_and_nearly_fresh_water_join() -> None:
    t = np.linspace(-2.0, 30.0, 33) + 273.15
    assert np.abs(water.density(1e-9, t) - water.density(0.0, t)).max() < SEA_AGREES


@given(salinities, celsius)
def test_salt_makes_water_heavier_and_thicker(salinity: float, t: float) -> None:
    more = min(salinity + 1.0, 42.0)
    assert water.density(more, t + 273.15) >= water.density(salinity, t + 273.15)
    assert water.viscosity(more, t + 273.15) >= water.viscosity(salinity, t + 273.15)


def test_fresh_water_is_heaviest_at_four_degrees() -> None:
    t = np.linspace(0.0, 10.0, 1001)
    assert t[np.argmax(water.density(0.0, t + 273.15))] == pytest.approx(3.98, abs=0.02)


def test_one_call_mixes_fresh_and_sea_draws() -> None:
    mixed = water.density(np.array([0.0, 35.0]), 283.15)
    assert mixed[0] == water.density(0.0, 283.15)
    assert mixed[1] == water.density(35.0, 283.15)


def test_altitude_against_the_1976_atmosphere() -> None:
    for height in (0.0, 300.0, 1500.0, 4000.0, 9000.0):
        ours = pressure.surface_pressure(pressure.geopotential(height))
        assert float(ours) == pytest.approx(ATMOSPHERE_1976(height).P, rel=2e-6)


@given(st.floats(0.0, 999.0), st.floats(995.0, 1035.0), st.floats(5e4, 1.1e5))
def test_depth_and_pressure_undo_each_other(depth: float, density: float, surface: float) -> None:
    there = pressure.absolute_pressure(depth, density, surface)
    assert float(pressure.depth_of(there, density, surface)) == pytest.approx(depth, abs=1e-7)
    assert there >= surface


def test_real_air_against_the_equation_of_state() -> None:
    rng = np.random.default_rng(7)
    p, t = rng.uniform(0.5e5, 350e5, 4000), rng.uniform(263.15, 333.15, 4000)
    judge = PropsSI("Z", "P", p, "T", t, "Air")
    assert np.abs(air.compressibility(p, t) / judge - 1.0).max() < INTERPOLATION_ERROR <= 2e-4
    dense = PropsSI("D", "P", p, "T", t, "Air")
    assert np.abs(air.air_density(p, t) / dense - 1.0).max() < INTERPOLATION_ERROR + 1e-5  # and the molar mass


def test_nodes_of_the_table_are_the_equation_of_state() -> None:
    z, (p0, dp), (t0, dt) = air._table()
    for i, j in ((1, 0), (40, 13), (80, 12), (140, 28), (120, 3)):
        judge = PropsSI("Z", "P", (p0 + i * dp) * 1e5, "T", t0 + j * dt + 273.15, "Air")
        assert z[j, i] == pytest.approx(judge, abs=6e-8)
    assert (z[:, 0] == 1.0).all()


@given(st.floats(0.0, 320.0), st.floats(-10.0, 60.0), st.floats(0.55e5, 1.05e5), st.floats(0.5, 20.0))
def test_content_and_gauge_undo_each_other(bar: float, t: float, surface: float, litres: float) -> None:
    capacity, kelvin = litres / 1000.0, t + 273.15
    content = air.free_content(capacity, bar * 1e5, surface, kelvin)
    assert float(air.gauge_for_content(capacity, content, surface, kelvin)) == pytest.approx(bar * 1e5, abs=20.0)


def test_an_empty_cylinder_reads_zero_and_holds_its_own_volume() -> None:
    assert float(air.free_content(0.012, 0.0)) == pytest.approx(0.012)
    assert float(air.gauge_for_content(0.012, 0.012)) == pytest.approx(0.0, abs=1e-6)


def test_content_grows_with_pressure_for_every_temperature() -> None:
    p = np.linspace(0.0, 345e5, 700)
    for t in (-10.0, 5.0, 20.0, 60.0):
        assert (np.diff(air.free_content(0.01, p, 101325.0, t + 273.15)) > 0.0).all()


def test_bar_times_litre_promises_too_much_where_it_matters() -> None:
    """Seven per cent for a warm 232 bar cylinder, twelve for 300 bar; none of it for a low one."""
    for bar, low, high in ((232.0, 1.04, 1.07), (300.0, 1.10, 1.13), (20.0, 0.94, 1.0)):
        real = air.free_content(0.01, bar * 1e5) - 0.01
        assert low < 0.01 * bar * 1e5 / 101325.0 / real < high


def test_a_cylinder_loses_more_on_cooling_than_an_ideal_gas() -> None:
    real = 200e5 - air.cooled_pressure(200e5, 293.15, 278.15)
    ideal = 200e5 * (1.0 - 278.15 / 293.15)
    assert 1.37 < real / ideal < 1.45


def test_cooling_and_warming_undo_each_other() -> None:
    cold = air.cooled_pressure(np.array([50e5, 232e5]), 303.15, 277.15)
    np.testing.assert_allclose(air.cooled_pressure(cold, 277.15, 303.15), [50e5, 232e5], rtol=1e-9)
