"""Every valid range bites: the edge is inside, a little further is refused by name."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from parbuckle.physics import (
    added_mass,
    added_mass_tables,
    air,
    bodies,
    buoyancy,
    drag,
    dump,
    excursion,
    gas,
    holding,
    holes,
    line,
    pressure,
    spheres,
    water,
)
from parbuckle.physics.ranges import Range, not_negative, positive
from parbuckle.quantity.errors import RangeError

Law = Callable[..., Any]
# law, the argument under test, lowest and highest allowed value (None: open), the other arguments
RANGES: list[tuple[Law, str, float | None, float | None, dict[str, Any]]] = [
    (water.density, "salinity", 0.0, 42.0, {"temperature": 283.15}),
    (water.density, "temperature", 271.15, 313.15, {"salinity": 35.0}),
    (water.viscosity, "salinity", 0.0, 42.0, {"temperature": 283.15}),
    (water.viscosity, "temperature", 271.15, 313.15, {"salinity": 0.0}),
    (water.absolute_salinity, "practical", 0.0, 42.0, {}),
    (pressure.geopotential, "height", -500.0, 11000.0, {}),
    (pressure.surface_pressure, "altitude", -500.0, 11000.0, {}),
    (pressure.gauge_pressure, "depth", 0.0, 1000.0, {"density": 1000.0}),
    (pressure.absolute_pressure, "depth", 0.0, 1000.0, {"density": 1000.0}),
    (pressure.absolute_pressure, "surface", 0.0, None, {"depth": 1.0, "density": 1000.0}),
    (pressure.depth_of, "pressure", 101325.0, None, {"density": 1000.0}),
    (air.compressibility, "pressure", 0.5e5, 350e5, {"temperature": 293.15}),
    (air.compressibility, "temperature", 263.15, 333.15, {"pressure": 1e7}),
    (air.air_density, "pressure", 0.5e5, 350e5, {"temperature": 293.15}),
    (air.free_content, "capacity", 0.0, None, {"gauge_pressure": 1e7}),
    (air.free_content, "gauge_pressure", 0.0, 350e5 - 101325.0, {"capacity": 0.012}),
    (air.free_content, "surface_pressure", 0.5e5, None, {"capacity": 0.012, "gauge_pressure": 1e7}),
    (air.gauge_for_content, "content", 0.012, None, {"capacity": 0.012}),
    (air.cooled_pressure, "pressure", None, 350e5, {"temperature": 293.15, "new_temperature": 278.15}),
    (air.cooled_pressure, "new_temperature", 263.15, 333.15, {"pressure": 1e7, "temperature": 293.15}),
    (gas.ideal_density, "pressure", 0.0, None, {"temperature": 283.15}),
    (gas.volume_at, "volume", 0.0, None, {"pressure": 2e5, "new_pressure": 1e5}),
    (gas.rule_free_gas, "depth", 0.0, None, {"volume": 0.1, "depth_per_atmosphere": 10.0}),
    (gas.full_depth, "share", 1e-6, 1.0, {"depth": 20.0, "density": 1025.0}),
    (gas.vent_needed, "rise", 0.0, None, {"volume": 0.1, "density": 1000.0, "pressure": 2e5}),
    (gas.relief_extra, "relief", 0.0, None, {"pressure": 2e5}),
    (gas.ideal_content, "gauge_pressure", 0.0, None, {"capacity": 0.01}),
    (buoyancy.weight_in_water, "mass", 0.0, None, {"displaced": 0.01, "density": 1000.0}),
    (buoyancy.weight_in_water, "displaced", 0.0, None, {"mass": 10.0, "density": 1000.0}),
    (buoyancy.dry_mass_for, "weight", 0.0, None, {"material_density": 7850.0, "density": 1000.0}),
    (buoyancy.lift_of, "volume", 0.0, None, {"density": 1000.0}),
    (buoyancy.volume_to_lift, "weight", 0.0, None, {"density": 1000.0}),
    (holes.critical_ratio, "gamma", 1.01, 1.67, {}),
    (holes.hole_mass_flow, "discharge", 0.3, 1.0, {"area": 1e-6, "before": 2e5, "after": 1e5, "temperature": 283.15}),
    (holes.hole_mass_flow, "after", 0.0, 2e5, {"area": 1e-6, "discharge": 0.6, "before": 2e5, "temperature": 283.15}),
    (holes.relative_flow, "ambient", None, 10.63e5, {"intermediate": 9.5e5}),
    (holes.free_flow, "mass_flow", 0.0, None, {"temperature": 283.15}),
    (dump.dump_jet, "column", 0.0, None, {"water_density": 1000.0, "ambient": 2e5, "temperature": 283.15}),
    (dump.drain_time, "discharge", 0.3, 1.0, {"surface_area": 1.0, "height": 0.5, "hole_area": 0.01}),
    (spheres.schiller_naumann, "reynolds", 1e-9, 1000.0, {}),
    (spheres.clift_gauvin, "reynolds", 1e-9, 3e5, {}),
    (spheres.brown_lawler, "reynolds", 1e-9, 2e5, {}),
    (drag.drag_force, "drag_area", 0.0, None, {"density": 1000.0, "speed": 1.0}),
    (drag.sphere_area, "volume", 0.0, None, {}),
    (added_mass.prolate, "slenderness", 1.0001, 1000.0, {"direction": "axial"}),
    (added_mass.oblate, "flatness", 1.0001, 1000.0, {"direction": "short"}),
    (added_mass.disc, "radius", 0.0, None, {"density": 1000.0}),
    (added_mass.sphere, "volume", 0.0, None, {"density": 1000.0}),
    (added_mass_tables.plate, "long", 1.0, 10.0, {"short": 1.0, "density": 1000.0}),
    (added_mass_tables.prism, "length", 1.0, 10.0, {"side": 1.0, "density": 1000.0}),
    (added_mass_tables.cylinder, "length", 1.2, 9.0, {"diameter": 1.0, "density": 1000.0}),
    (added_mass_tables.block, "height", 0.0, None, {"short": 1.0, "long": 2.0, "density": 1000.0}),
    (added_mass_tables.perforation_factor, "perforation", 0.0, 0.5, {}),
    (line.line_stiffness, "stretch", 0.005, 0.6, {"breaking_load": 20e3, "length": 10.0}),
    (line.snap_load, "speed", 0.0, None, {"stiffness": 1e4, "mass": 100.0}),
    (line.sudden_load, "drop", 0.0, None, {"weight": 100.0, "stiffness": 1e4}),
    (line.snap_speed, "free_fall", 0.0, None, {"relative": 1.0}),
    (line.slam_force, "slam", 2.0, 10.0, {"density": 1000.0, "area": 1.0, "speed": 1.0}),
    (excursion.deviation, "height", 0.0, None, {"angle": 0.2}),
    (excursion.deviation, "angle", np.radians(1.0), np.radians(30.0), {"height": 10.0}),
    (excursion.share_within, "radius", 0.0, None, {"delta": 1.0}),
    (excursion.excursion_radius, "share", 1e-6, 1.0 - 1e-9, {"height": 10.0, "angle": 0.2}),
    (holding.sinker_hold, "tan_delta", 0.0, 1.0, {"weight": 100.0, "pull_up": 0.0}),
    (holding.lean_angle, "drag", 0.0, None, {"net_lift": 100.0}),
    (bodies.plate_drag, "long", 1.0, 20.0, {"short": 1.0}),
]
NAMES = [f"{law.__name__}-{argument}" for law, argument, *_ in RANGES]


@pytest.mark.parametrize(("law", "argument", "low", "high", "rest"), RANGES, ids=NAMES)
def test_edges_hold_and_outside_is_refused(
    law: Law, argument: str, low: float | None, high: float | None, rest: dict[str, Any]
) -> None:
    for edge, step in ((low, -1.0), (high, 1.0)):
        if edge is None:
            continue
        inside = np.asarray(law(**rest, **{argument: edge}))
        assert np.isfinite(inside).all()
        with pytest.raises(RangeError):
            law(**rest, **{argument: edge + step * max(abs(edge) * 1e-2, 1e-3)})


@pytest.mark.parametrize(("law", "argument", "low", "high", "rest"), RANGES, ids=NAMES)
def test_a_missing_number_is_refused_and_one_bad_draw_is_enough(
    law: Law, argument: str, low: float | None, high: float | None, rest: dict[str, Any]
) -> None:
    fine = low if low is not None else high
    assert fine is not None
    for bad in (np.nan, np.inf, -np.inf):
        with pytest.raises(RangeError):
            law(**rest, **{argument: np.array([fine, bad, fine])})


@pytest.mark.parametrize(("law", "argument", "low", "high", "rest"), RANGES, ids=NAMES)
def test_an_array_gives_what_its_members_give(
    law: Law, argument: str, low: float | None, high: float | None, rest: dict[str, Any]
) -> None:
    fine = low if low is not None else high
    assert fine is not None
    many = np.asarray(law(**rest, **{argument: np.full(3, fine)}))
    assert many.shape == (3,)
    assert many.dtype == np.float64
    np.testing.assert_array_equal(many, np.full(3, law(**rest, **{argument: fine})))


ABOVE_ZERO: list[tuple[Law, str, dict[str, Any]]] = [
    (pressure.gauge_pressure, "density", {"depth": 1.0}),
    (pressure.depth_of, "density", {"pressure": 2e5}),
    (gas.ideal_density, "temperature", {"pressure": 1e5}),
    (gas.volume_at, "new_pressure", {"volume": 1.0, "pressure": 1e5}),
    (gas.relief_extra, "pressure", {"relief": 1e4}),
    (air.gauge_for_content, "capacity", {"content": 1.0}),
    (buoyancy.submerged_factor, "material_density", {"density": 1000.0}),
    (drag.terminal_speed, "drag_area", {"force": 1.0, "density": 1000.0}),
    (dump.drain_time, "hole_area", {"surface_area": 1.0, "height": 0.5, "discharge": 0.6}),
    (line.sudden_load, "weight", {"drop": 0.1, "stiffness": 1e4}),
    (line.line_stiffness, "length", {"breaking_load": 1e4, "stretch": 0.1}),
    (excursion.share_within, "delta", {"radius": 1.0}),
    (holding.lean_angle, "net_lift", {"drag": 1.0}),
]


@pytest.mark.parametrize(("law", "argument", "rest"), ABOVE_ZERO, ids=[f"{a[0].__name__}-{a[1]}" for a in ABOVE_ZERO])
def test_what_divides_must_be_above_zero(law: Law, argument: str, rest: dict[str, Any]) -> None:
    for bad in (0.0, -1.0):
        with pytest.raises(RangeError):
            law(**rest, **{argument: bad})


def test_the_text_names_quantity_value_range_and_source() -> None:
    with pytest.raises(RangeError, match=r"depth: given 120 m, allowed 0 to 100 m \(common practice\)"):
        Range("depth", 0.0, 100.0, "m", "common practice").check(120.0)


def test_small_helpers_refuse_by_name() -> None:
    with pytest.raises(RangeError, match="volume"):
        not_negative("volume", -1.0)
    with pytest.raises(RangeError, match="must be above zero"):
        positive("pressure", 0.0)


def test_words_that_are_not_known_are_refused_with_what_is_allowed() -> None:
    with pytest.raises(RangeError, match="Brown-Lawler"):
        spheres.sphere_fall_speed(0.01, 7850.0, 1000.0, 1e-3, "Stokes")
    with pytest.raises(RangeError, match="axial"):
        added_mass.prolate(2.0, "sideways")
    with pytest.raises(RangeError, match="cube"):
        bodies.drag_coefficient("banana")
    with pytest.raises(RangeError, match="gravel"):
        holding.sinker_friction("mud")


def test_slenderness_is_asked_for_only_where_it_means_something() -> None:
    with pytest.raises(RangeError, match="needed"):
        bodies.drag_coefficient("plate")
    with pytest.raises(RangeError, match="not taken"):
        bodies.drag_coefficient("cube", 2.0)
    with pytest.raises(RangeError, match="slenderness"):
        bodies.drag_coefficient("plate", 11.0)
    with pytest.raises(RangeError, match="drag_coefficient"):
        bodies.drag_spread("plate")


def test_a_floating_material_is_no_anchor() -> None:
    with pytest.raises(RangeError, match="submerged share"):
        buoyancy.dry_mass_for(10.0, 600.0, 1000.0)


def test_the_drag_crisis_is_never_let_in() -> None:
    with pytest.raises(RangeError, match="Brown and Lawler"):
        spheres.sphere_fall_speed(1.0, 7850.0, 1000.0, 1e-3)
    assert spheres.sphere_drag_methods(4e5) == []
    assert spheres.sphere_drag_methods(10.0) == ["Brown-Lawler", "Clift-Gauvin", "Schiller-Naumann"]
