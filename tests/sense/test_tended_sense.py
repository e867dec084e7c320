"""What must always hold of a tended lift: gas is kept, work becomes speed, closed forms are met and bounds kept."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from headline import headline
from parbuckle.lift.control import delay_budget, growth_rate, runaway_bound
from parbuckle.physics.constants import GAS_CONSTANT_AIR, G
from parbuckle.physics.forces import Body
from parbuckle.physics.simulate import simulate, way_of
from parbuckle.physics.tended import OUT_OF_TIME, STAYS, SURFACE, Line, Tended, TendedRise
from sample_tended import Array, draw_lifts, grouped, tended_of

AIR, KELVIN, RHO = 101_325.0, 283.15, 1025.0


def bare(members: int, weight: Array, capacity: Array, gas: Array, depth: float, area: Array, mass: Array) -> Tended:
    """Give a load under its bags that nobody tends; gas in m3 at its depth."""
    one = np.ones(members)
    pressure = AIR + RHO * G * depth
    body = Body(
        water_density=RHO * one,
        surface_pressure=AIR * one,
        temperature=KELVIN * one,
        weight=weight,
        mass=mass,
        bag_added_mass=0.5 * RHO * one,
        drag_area=area,
        bag_drag=0.0 * one,
        reach=0.0 * one,
        capacity=capacity,
        gas=gas,
        gas_pressure=pressure * one,
        over_pressure=0.0 * capacity,
    )
    return Tended(
        body=body,
        depth=depth * one,
        rise=0.0 * one,
        surface=0.2 * one,
        bottom=depth * one,
        height=0.5 + 0.0 * capacity,
        relief_area=np.full(capacity.shape, np.inf),
        tenders=(),
    )


def test_gas_is_kept() -> None:
    drawn = draw_lifts(100, 3)
    for group in grouped(drawn):
        lift = tended_of([drawn[i] for i in group], limit=300.0)
        told = simulate(lift, form="kernel")
        at_start = lift.body.gas * lift.body.gas_pressure
        start_pressure = lift.body.surface_pressure + lift.body.water_density * G * (lift.depth - lift.body.reach)
        at_start = np.minimum(at_start, lift.body.capacity * (start_pressure + lift.body.over_pressure))
        free = (at_start / lift.body.surface_pressure).sum(axis=0)
        left = told.gas.sum(axis=0) + told.spilled + told.vented - told.added
        assert np.allclose(left, free, rtol=1e-9, atol=0.0)
        assert all((value >= 0.0).all() for value in (told.spilled, told.vented, told.added, told.gas))


def test_boyle_holds_along_the_way_while_nothing_is_opened() -> None:
    lift = headline(12)
    lift = replace(lift, tenders=(replace(lift.tenders[0], gas=np.zeros(12)),))
    checked = 0
    for member in range(12):
        way = way_of(lift, member)
        pressure = AIR + RHO * G * way.depth
        product = way.volumes[1] * pressure
        quiet = (way.open_dump[1:] == 0.0) & (way.volumes[1, 1:] < 0.025) & (way.speed[1:] > 0.05)
        quiet &= way.speed[:-1] > 0.05
        assert np.allclose(product[1:][quiet], product[:-1][quiet], rtol=1e-9, atol=0.0)
        checked += int(quiet.sum())
    assert checked > 100


def along_the_way(lift: Tended) -> tuple[Array, Array]:
    """Give the work of lift, weight, drag and fins in each step, shape (4, steps), and the energy of motion after it.

    Simpson's rule; in the middle of a step depth, speed and gas are those of the cubics through values and slopes at
    its ends, and the slopes are written out here again.
    """
    way = way_of(lift)
    mass, area, weight = (float(a[0]) for a in (lift.body.mass, lift.body.drag_area, lift.body.weight))
    capacity, air_scale = lift.body.capacity[:, :1], GAS_CONSTANT_AIR * KELVIN
    opened, push, h = way.open_dump[1:], way.push[1:], np.diff(way.time)

    def pressure(z: Array) -> Array:
        return AIR + RHO * G * z

    def forces(z: Array, v: Array, m: Array) -> Array:
        volume = np.minimum(m / pressure(z), capacity)
        heavy = -weight - G / air_scale * (volume * pressure(z)).sum(axis=0)
        return np.array([RHO * G * volume.sum(axis=0), heavy, -0.5 * RHO * area * v * np.abs(v), push])

    def flow(z: Array, m: Array) -> Array:
        inside = pressure(z) + RHO * G * 0.25 / 0.025 * np.minimum(m[1] / pressure(z), 0.025)
        loss = 1.0 - pressure(z) / inside
        out = opened * inside * np.sqrt(air_scale * 2.0 * loss * (1.0 - 1.5 / 1.4 * loss))
        return np.array([0.0 * out, -out])

    m = way.volumes * pressure(way.depth)
    z0, v0, m0, z1, v1, m1 = way.depth[:-1], way.speed[:-1], m[:, :-1], way.depth[1:], way.speed[1:], m[:, 1:]
    a0, a1 = forces(z0, v0, m0).sum(axis=0) / mass, forces(z1, v1, m1).sum(axis=0) / mass
    z, v = 0.5 * (z0 + z1) - h / 8.0 * (v0 - v1), 0.5 * (v0 + v1) + h / 8.0 * (a0 - a1)
    middle = 0.5 * (m0 + m1) + h / 8.0 * (flow(z0, m0) - flow(z1, m1))
    brimful = way.volumes[0] > capacity[0] * (1.0 - 1e-12)
    full = brimful[:-1] & brimful[1:]
    middle[0] = np.where(full, capacity[0] * pressure(z), middle[0])
    work = forces(z0, v0, m0) * v0 + 4.0 * forces(z, v, middle) * v + forces(z1, v1, m1) * v1
    return work * h / 6.0, 0.5 * mass * v1**2


def test_work_becomes_speed_along_the_way() -> None:
    for member in range(6):
        lift = headline(6).take(np.array([member]))
        tender = replace(lift.tenders[0], thrust=np.array([15.0]), gas=np.zeros(1))
        body = replace(lift.body, bag_added_mass=np.zeros(1))
        work, motion = along_the_way(replace(lift, body=body, tenders=(tender,), step=0.01, limit=60.0))
        moved = np.abs(work).sum()
        assert abs(work.sum() - motion[-1]) <= 1e-10 * moved
        assert work[2].sum() < 0.0 < work[0].sum() and work[3].any()


def test_the_unstable_equilibrium_grows_as_its_closed_form() -> None:
    rng = np.random.default_rng(8)
    n, depth = 200, 15.0
    pressure = AIR + RHO * G * depth
    full, part = rng.uniform(0.01, 0.2, n), rng.uniform(0.005, 0.1, n)
    capacity = np.array([full, 2.0 * part])
    mass = rng.uniform(50.0, 600.0, n)
    weight = RHO * G * (full + part)
    lift = bare(n, weight, capacity, np.array([full, part]), depth, np.full(n, 0.2), mass)
    lift = replace(lift, body=replace(lift.body, molar_mass=0.0))  # the closed form leaves the weight of the gas out
    heavy = mass + 0.5 * RHO * (full + part)
    rate = growth_rate(lift.body.water_density, part, np.full(n, pressure), heavy)
    off = 1e-5
    start = replace(lift, depth=lift.depth - off, rise=off * rate, surface=lift.depth - off * np.exp(3.0), step=0.1)
    told = simulate(start)
    assert (told.end == SURFACE).all()
    assert np.allclose(3.0 / told.time, rate, rtol=0.01)


def test_a_runaway_never_passes_its_bound() -> None:
    rng = np.random.default_rng(9)
    n, depth = 400, 30.0
    need = rng.uniform(0.02, 0.3, n)
    capacity = need * rng.uniform(1.02, 2.0, n)
    gas = need * (1.0 + rng.uniform(0.005, 0.06, n))
    area = rng.uniform(0.1, 1.0, n)
    weight = RHO * G * need * 0.995
    lift = bare(n, weight, capacity[None], np.minimum(gas, capacity)[None], depth, area, need * RHO * 2.0)
    told = simulate(lift)
    bound = runaway_bound((RHO * G * capacity - weight) / G, lift.body.water_density, area)
    assert (told.end == SURFACE).all() and (told.max_speed <= bound).all()
    assert np.median(told.max_speed / bound) > 0.9


def held(share: float, of_limit: Array, dump: Array) -> TendedRise:
    """Follow the headline load with a share of its lift that can grow, by delay (share of the limit) and dump."""
    lift = headline(of_limit.size)
    need = lift.body.gas.sum(axis=0).mean() / 1.0175
    part = share * need
    gas = np.array([np.full(of_limit.size, need - part), np.full(of_limit.size, part + 0.005 * need)])
    capacity = np.array([np.maximum(gas[0], 1e-6), gas[1] * 4.0])
    area = np.full(of_limit.size, 0.3)
    pressure = AIR + RHO * G * 3.0
    limit = 2.0 * delay_budget(area, 0.15, pressure + 0.0 * area, RHO + 0.0 * area, part + 0.0 * area)
    tender = replace(lift.tenders[0], delay=of_limit * limit, dump=dump, vent_above=0.152 + 0.0 * area)
    tender = replace(tender, vent_until=0.148 + 0.0 * area)
    body = replace(lift.body, gas=np.maximum(gas, 1e-9), capacity=capacity, drag_area=area)
    return simulate(replace(lift, body=body, tenders=(tender,), height=np.full(capacity.shape, 0.4), limit=900.0))


@pytest.mark.parametrize("share", [1.0, 0.5, 0.3, 0.14])
def test_no_tender_holds_a_lift_with_a_delay_above_the_limit(share: float) -> None:
    dumps = np.geomspace(0.03e-4, 3e-4, 14)
    late, dump = (a.ravel() for a in np.meshgrid([1.0, 1.1, 1.3, 1.7], dumps))
    told = held(share, late, dump)
    assert not ((told.end == SURFACE) & (told.max_speed < 0.3)).any()
    quick = held(share, np.full(dumps.size, 0.2), dumps)
    assert ((quick.end == SURFACE) & (quick.max_speed < 0.3)).any()


def test_a_bag_of_its_rated_capacity_stays_and_a_quarter_more_runs_away() -> None:
    """A flange of 600 kg at 19 m under a bag said to hold 500 kg that held a quarter more."""
    steel = 600.0 / 7850.0
    weight = np.full(2, (600.0 - RHO * steel) * G)
    room = np.array([500.0, 625.0]) / RHO
    lift = bare(2, weight, room[None], room[None], 19.0, np.full(2, 0.8), np.full(2, 600.0 + 0.7 * RHO * steel))
    told = simulate(lift)
    assert told.end.tolist() == [STAYS, SURFACE]
    assert told.time[0] == 0.0 and told.max_speed[1] > 1.0


def test_a_load_paid_out_on_a_line_hangs_with_its_weight_less_the_drag() -> None:
    weight, area, speed, stiff = 800.0, 0.4, np.array([0.1, 0.3, 0.6]), 4e4
    lift = bare(
        3, np.full(3, weight), np.full((1, 3), 1e-6), np.full((1, 3), 1e-9), 5.0, np.full(3, area), np.full(3, 120.0)
    )
    tension = weight - 0.5 * RHO * area * speed**2
    line = Line(np.full(3, stiff), 5.0 - tension / stiff, speed)
    lift = replace(lift, line=line, rise=-speed, bottom=np.full(3, 60.0), limit=30.0)
    told = simulate(lift)
    assert (told.end == OUT_OF_TIME).all()
    assert np.allclose(told.end_depth, 5.0 + 30.0 * speed, rtol=1e-6)
    assert np.allclose(told.tension, tension, rtol=1e-4)
    rough = simulate(replace(lift, rise=np.zeros(3)))  # taken up from rest
    assert (rough.tension > tension * 1.02).all()


def test_stiff_corners_end() -> None:
    drawn = [lift for lift in draw_lifts(120, 77) if len(lift.divers) == 1]
    drawn = [
        x for x in drawn if (x.divers[0].policy, x.divers[0].unanswered) in {("hold", 0), ("pulls", 2), ("crack", 1)}
    ]
    for factor, area, relief in ((0.01, 40.0, 1e-6), (30.0, 0.02, 1e-2), (1.0, 5.0, 1e-3)):
        changed = [
            replace(
                lift,
                area=lift.area * area,
                relief=(10e3, 10e3),
                relief_area=(relief, relief),
                divers=(replace(lift.divers[0], dump=lift.divers[0].dump / factor, delay=lift.divers[0].delay * 0.02),),
            )
            for lift in drawn[:40]
        ]
        for group in grouped(changed):
            told = simulate(tended_of([changed[i] for i in group], limit=60.0), form="kernel")
            assert np.isfinite(told.time).all() and np.isfinite(told.max_speed).all()
