"""The tended lift: what is fast, and against what. Ratios count; all runs in one process, one after the other in turn.

Times of one thread are those of the processor, so that other work on the machine counts less; those of two threads and
of fresh processes are by the clock and need a quiet machine.

    python bench/tended.py            # needs the package, numba and SciPy; a first run makes the compiled form

The ensemble is the headline one of the tests: 69 kg of steel at 24 m, a full 50 l bag and a 25 l bag to trim. The peer
is SciPy's ``solve_ivp`` (RK45) with right-hand side and events compiled by numba, one member after the other. It starts
anew only where the tender or the load changes its state, with the step that it had there, and looks only for what can
come next. It runs at the loosest tolerance of a few that is within 1e-3 in 99 of 100; longest steps are left to it. It
and the kernel take turns. All of it takes a minute or two.
"""

from __future__ import annotations

import json
import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

import numba
from scipy.integrate import solve_ivp

from headline import AIR, KELVIN, RHO, headline
from parbuckle.physics.constants import GAS_CONSTANT_AIR, G
from parbuckle.physics.simulate import simulate, way_of
from parbuckle.physics.tended import BOTTOM, SURFACE, Tended

PEERS, TRIED = 25, 100
ROUNDS = 5
TRACES = 100
TOLERANCES = (1e-4, 1e-5, 3e-6, 1e-6, 3e-7)
CLOSE = 1e-3
FIRST = """
import sys, time
sys.path.insert(0, sys.argv[1])
from headline import headline
from parbuckle.physics.simulate import simulate, warm_up
if sys.argv[3] == "1":
    start = time.process_time()
    warm_up(wait=True)
    print(time.process_time() - start)
simulate(headline(int(sys.argv[2])))
"""


@numba.njit(error_model="numpy")
def slope(_t, y, w):
    """Give the slopes of depth, speed and the gas of the trim bag; ``w`` holds what else they hang on."""
    m0, weight, mass, added, area, c0, c1 = w[0], w[1], w[2], w[3], w[4], w[5], w[6]
    opened, inflow, head, scale = w[7], w[8], w[9], w[10]
    p, v, m1 = AIR + RHO * G * y[0], y[1], y[2]
    v0, v1 = min(m0 / p, c0), min(m1 / p, c1)
    kept = min(m0, c0 * p) + min(m1, c1 * p)
    force = G * (RHO * (v0 + v1) - kept / scale) - weight - 0.5 * RHO * area * v * abs(v)
    lost = 0.0
    if opened > 0.0:
        inside = p + head * v1
        loss = max(1.0 - p / inside, 0.0)
        lost = opened * inside * np.sqrt(scale * 2.0 * loss * (1.0 - 1.5 / 1.4 * loss))
    told = np.empty(3)
    told[0], told[1], told[2] = -v, force / (mass + added * (v0 + v1)), inflow - lost
    return told


@numba.njit
def turns(_t, y, w):
    """Rise above 0 where the speed turns."""
    return w[11] * y[1]


@numba.njit
def seen_first(_t, y, w):
    """Rise above 0 where the tender sees a new state."""
    return w[12] * (y[1] - w[13])


@numba.njit
def seen_second(_t, y, w):
    """The same for the other state that he could see."""
    return w[14] * (y[1] - w[15])


@numba.njit
def ends(_t, y, w):
    """Rise above 0 at the surface on the way up, and at the bottom on the way down."""
    return w[11] * (y[0] - w[16])


for passes in (turns, seen_first, seen_second, ends):
    passes.terminal, passes.direction = True, 1


def peer(lift: Tended, i: int, rtol: float) -> tuple[float, float, int]:
    """Follow one member with solve_ivp from change to change; give time, highest speed and how it ended."""
    body, hand, w = lift.body, lift.tenders[0], np.zeros(17)
    c0, c1 = (float(c) for c in body.capacity[:, i])
    m0, m1 = (float(g) for g in body.gas[:, i] * body.gas_pressure[i])
    w[1:5] = [a[i] for a in (body.weight, body.mass, body.bag_added_mass, body.drag_area)]
    w[5:7], w[9], w[10] = (c0, c1), RHO * G * lift.height[1, i] / c1, GAS_CONSTANT_AIR * KELVIN
    delay, dump, gas = float(hand.delay[i]), float(hand.dump[i]), float(hand.gas[i]) * AIR
    above, until, below, enough = (
        float(a[i]) for a in (hand.vent_above, hand.vent_until, hand.add_below, hand.add_until)
    )
    sights = {0: [(1, above, -1), (-1, below, 1)], -1: [(-1, until, 0)], 1: [(1, enough, 0)]}
    looks = {0: (turns, ends, seen_first, seen_second), -1: (turns, ends, seen_first), 1: (turns, ends, seen_first)}
    t, z, v, mood, wants, rising, best, first = 0.0, float(lift.depth[i]), 0.0, 0, 0, True, 0.0, 0.1
    pending: list[tuple[float, int]] = []
    while True:
        w[0], w[7], w[8], w[11] = m0, dump * (wants < 0), gas * (wants > 0), -1.0 if rising else 1.0
        w[16] = lift.surface[i] if rising else lift.bottom[i]
        for k, (way, level, _) in enumerate(sights[mood]):
            w[12 + 2 * k], w[13 + 2 * k] = way, level
        due = pending[0][0] if pending else 1800.0
        if due <= t:
            wants = pending.pop(0)[1]
            continue
        done = solve_ivp(
            slope,
            (t, due),
            [z, v, m1],
            rtol=rtol,
            atol=1e-9,
            events=looks[mood],
            first_step=min(first, due - t),
            args=(w,),
        )
        first = max(float(np.diff(done.t).max(initial=0.0)), 1e-3)
        t, z, v, m1 = float(done.t[-1]), *(float(a) for a in done.y[:, -1])
        best = max(best, float(done.y[1].max()))
        p = AIR + RHO * G * z
        m0, m1 = min(m0, c0 * p), min(m1, c1 * p)
        if done.status == 0:
            wants = pending.pop(0)[1]
            continue
        which = next(k for k, hits in enumerate(done.t_events) if hits.size)
        if which == 1:
            return t, best, SURFACE if rising else BOTTOM
        if which == 0:
            rising, v = not rising, 0.0
        else:
            mood = sights[mood][which - 2][2]
            pending.append((t + delay, mood))


def timed(
    *works: Callable[[], object], rounds: int = ROUNDS, clock: Callable[[], float] = time.process_time
) -> list[float]:
    """Median times of some works done in turn, s."""
    took: list[list[float]] = [[] for _ in works]
    for _ in range(rounds):
        for one, work in zip(took, works, strict=True):
            start = clock()
            work()
            one.append(clock() - start)
    return [statistics.median(one) for one in took]


def loosest(lift: Tended) -> float:
    """Give the loosest tolerance at which the peer is near a fine run in 99 of 100."""
    fine = simulate(replace(lift, step=0.05), form="kernel")
    peer(lift, 0, TOLERANCES[0])
    for rtol in TOLERANCES:
        told = np.array([peer(lift, i, rtol)[:2] for i in range(lift.size)])
        off = np.maximum(np.abs(told[:, 0] / fine.time - 1.0), np.abs(told[:, 1] / fine.max_speed - 1.0))
        near = (off <= CLOSE).mean()
        print(f"  solve_ivp rtol {rtol:.0e}: {near:.1%} within 1e-3, median {np.median(off):.0e}")
        if near >= 0.99:
            return rtol
    raise SystemExit("no tolerance is fine enough")


def fresh(members: int, folder: str | None = None) -> tuple[float, str]:
    """Time of a fresh process to its first ensemble, s, and what it says; with a folder nothing was kept before."""
    start = time.perf_counter()
    told = [sys.executable, "-c", FIRST, str(Path(__file__).parents[1] / "tests"), str(members), str(int(bool(folder)))]
    kept = {**os.environ, "PYTHONPYCACHEPREFIX": folder, "HOME": folder, "USERPROFILE": folder} if folder else None
    done = subprocess.run(told, check=True, capture_output=True, text=True, env=kept)
    return time.perf_counter() - start, done.stdout.strip()


def trace_as_text(lift: Tended) -> str:
    """Give the way of one member as JSON."""
    way = way_of(lift)
    columns = (way.time, way.depth, way.speed, *way.volumes)
    return json.dumps([np.round(column, 4).tolist() for column in columns])


def told(what: str, value: float, target: float, unit: str, most: bool = True) -> None:
    """Print one measure beside its target."""
    met = value <= target if most else value >= target
    print(
        f"{what:44} {value:9.2f} {unit:8} {'at most' if most else 'at least'} {target:g}: {'met' if met else 'NOT MET'}"
    )


def main() -> None:
    """Measure all and print them."""
    small, large = headline(PEERS), headline(10_000)
    simulate(small, form="kernel")
    print(f"load of the machine: {os.getloadavg()[0]:.1f} on {os.cpu_count()} processors")
    rtol = loosest(headline(TRIED))
    theirs, ours = timed(
        lambda: [peer(small, i, rtol) for i in range(PEERS)],
        lambda: simulate(large, threads=1, form="kernel"),
    )
    columns, beside = timed(
        lambda: simulate(large, form="lockstep"), lambda: simulate(large, threads=1, form="kernel"), rounds=3
    )
    alone, two, middle = timed(
        lambda: simulate(large, threads=1, form="kernel"),
        lambda: simulate(large, threads=2, form="kernel"),
        lambda: simulate(headline(2000), threads=2, form="kernel"),
        rounds=7,
        clock=time.perf_counter,
    )
    usual = small.take(np.argsort(simulate(small).steps)[PEERS // 2 : PEERS // 2 + 1])
    side, traces = timed(
        lambda: simulate(large.take(slice(1024)), form="lockstep"),
        lambda: [trace_as_text(usual) for _ in range(TRACES)],
    )
    each, one = theirs / PEERS, ours / large.size
    steps = float(simulate(large, form="kernel").steps.mean())
    print(f"solve_ivp, rtol {rtol:.0e}: {each * 1e6:.0f} us a member")
    print(
        f"kernel: {steps:.0f} steps a member, {one / steps * 1e9:.0f} ns a step; lockstep {columns / 1e4 * 1e6:.0f} us"
    )
    told("kernel, one thread", one * 1e6, 20.0, "us")
    told("kernel against solve_ivp", each / one, 600.0, "times", most=False)
    told("kernel against lockstep, 10,000 members", columns / beside, 3.0, "times", most=False)
    told("second thread, by the clock", alone / two, 1.8, "times", most=False)
    told("2,000 members, drawn anew, two threads", middle * 1e3, 20.0, "ms")
    told("1,024 members in lockstep", side, 1.0, "s")
    told("one way of the usual length with its JSON", traces / TRACES * 1e3, 1.0, "ms")
    told("fresh process, 1,024 members, all kept", min(fresh(1024)[0] for _ in range(3)), 0.6, "s")
    with TemporaryDirectory() as folder:
        told("first compile, time of the processor", float(fresh(1024, folder)[1]), 6.0, "s")
    print(f"load of the machine: {os.getloadavg()[0]:.1f}")


if __name__ == "__main__":
    main()
