"""The tended lift: what is fast, and against what. Ratios count; all runs in one process, one after the other in turn.

Times of one thread are those of the processor, so that other work on the machine counts less; those of two threads and
of fresh processes are by the clock and need a quiet machine.

    python bench/tended.py            # needs the package, numba and SciPy; a first run makes the compiled form

The ensemble is the headline one of the tests: 69 kg of steel at 24 m, a full 50 l bag and a 25 l bag to trim. The peer
is SciPy's ``solve_ivp`` (RK45, events, a right-hand side compiled by numba), restarted at each event, one member after
the other, at the loosest tolerance that is within 1e-3 in 99 of 100.
"""

from __future__ import annotations

import json
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

import numba
from scipy.integrate import solve_ivp

from headline import AIR, KELVIN, RHO, headline
from parbuckle.physics.constants import GAS_CONSTANT_AIR, G
from parbuckle.physics.simulate import simulate, way_of
from parbuckle.physics.tended import BOTTOM, SURFACE, Tended
from parbuckle.quantity.frozen import Floats

PEERS = 40
ROUNDS = 5
TOLERANCES = (1e-3, 3e-4, 1e-4, 3e-5, 1e-5, 1e-6)
CLOSE = 1e-3
FIRST = """
import sys, time
sys.path.insert(0, sys.argv[1])
from headline import headline
from parbuckle.physics.compiled import compiler_state
from parbuckle.physics.simulate import simulate
simulate(headline(1024))
print(compiler_state())
"""


@numba.njit(error_model="numpy")
def slope(z, v, m0, m1, weight, mass, added, area, c0, c1, opened, inflow, head, air_scale):
    """Give the slopes of depth, speed and the gas of the trim bag."""
    p = AIR + RHO * G * z
    v0, v1 = min(m0 / p, c0), min(m1 / p, c1)
    kept = min(m0, c0 * p) + min(m1, c1 * p)
    force = G * (RHO * (v0 + v1) - kept / air_scale) - weight - 0.5 * RHO * area * v * abs(v)
    lost = 0.0
    if opened > 0.0:
        inside = p + head * v1
        loss = max(1.0 - p / inside, 0.0)
        lost = opened * inside * np.sqrt(air_scale * 2.0 * loss * (1.0 - 1.5 / 1.4 * loss))
    return -v, force / (mass + added * (v0 + v1)), inflow - lost


def peer(lift: Tended, i: int, rtol: float) -> tuple[float, float, int]:
    """Follow one member with solve_ivp from event to event; give time, highest speed and how it ended."""
    body, hand = lift.body, lift.tenders[0]
    c0, c1 = (float(c) for c in body.capacity[:, i])
    m0, m1 = (float(g) for g in body.gas[:, i] * body.gas_pressure[i])
    told = [float(a[i]) for a in (body.weight, body.mass, body.bag_added_mass, body.drag_area)]
    delay, dump, gas = float(hand.delay[i]), float(hand.dump[i]), float(hand.gas[i]) * AIR
    above, until, below, enough = (
        float(a[i]) for a in (hand.vent_above, hand.vent_until, hand.add_below, hand.add_until)
    )
    head, air_scale = RHO * G * float(lift.height[1, i]) / c1, GAS_CONSTANT_AIR * KELVIN
    t, z, v, mood, wants, rising, pending = 0.0, float(lift.depth[i]), 0.0, 0, 0, True, []
    top, floor, best = float(lift.surface[i]), float(lift.bottom[i]), 0.0
    while True:
        opened, inflow = dump * (wants < 0), gas * (wants > 0)

        def rhs(
            _t: float, y: Floats, m0: float = m0, opened: float = opened, inflow: float = inflow
        ) -> tuple[float, ...]:
            return slope(y[0], y[1], m0, y[2], *told, c0, c1, opened, inflow, head, air_scale)

        marks = [(0.0, -1 if rising else 1, "turn")]
        marks += {0: [(above, 1, -1), (below, -1, 1)], -1: [(until, -1, 0)], 1: [(enough, 1, 0)]}[mood]
        events = [event(1, level, way) for level, way, _ in marks]
        events.append(event(0, top, -1) if rising else event(0, floor, 1))
        due = pending[0][0] if pending else 1800.0
        done = solve_ivp(rhs, (t, due), [z, v, m1], rtol=rtol, atol=1e-9, events=events, max_step=2.0)
        t, z, v, m1 = float(done.t[-1]), *(float(a) for a in done.y[:, -1])
        best = max(best, float(done.y[1].max()))
        p = AIR + RHO * G * z
        m0, m1 = min(m0, c0 * p), min(m1, c1 * p)
        if done.status == 0:
            wants = pending.pop(0)[1]
            continue
        which = next(k for k, hits in enumerate(done.t_events) if hits.size)
        if which == len(marks):
            return t, best, SURFACE if rising else BOTTOM
        if marks[which][2] == "turn":
            rising, v = not rising, 0.0
        else:
            mood = int(marks[which][2])
            pending.append((t + delay, mood))


def event(row: int, level: float, way: int) -> Callable[[float, Floats], float]:
    """Give an event of solve_ivp: a row of the state passes a level."""

    def passes(_t: float, y: Floats) -> float:
        return float(y[row] - level)

    passes.terminal, passes.direction = True, way  # type: ignore[attr-defined]
    return passes


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
    for rtol in TOLERANCES:
        told = np.array([peer(lift, i, rtol)[:2] for i in range(lift.size)])
        off = np.maximum(np.abs(told[:, 0] / fine.time - 1.0), np.abs(told[:, 1] / fine.max_speed - 1.0))
        print(f"  solve_ivp rtol {rtol:.0e}: {(off <= CLOSE).mean():.1%} within 1e-3, median {np.median(off):.1e}")
        if (off <= CLOSE).mean() >= 0.99:
            return rtol
    return TOLERANCES[-1]


def first_answer() -> float:
    """Time of a fresh process to its first ensemble of 1,024, s."""
    start = time.perf_counter()
    tests = str(Path(__file__).parents[1] / "tests")
    done = subprocess.run([sys.executable, "-c", FIRST, tests], check=True, capture_output=True, text=True)
    print(f"  fresh process, 1,024 members: {time.perf_counter() - start:.2f} s, compiler {done.stdout.strip()}")
    return time.perf_counter() - start


def trace_as_text(lift: Tended) -> str:
    """Give the way of one member as JSON."""
    way = way_of(lift)
    columns = (way.time, way.depth, way.speed, *way.volumes)
    return json.dumps([np.round(column, 4).tolist() for column in columns])


def main() -> None:
    """Measure all and print them."""
    small, large = headline(PEERS), headline(10_000)
    simulate(small, form="kernel")
    rtol = loosest(small)
    theirs, ours, columns = timed(
        lambda: [peer(small, i, rtol) for i in range(PEERS)],
        lambda: simulate(large, threads=1, form="kernel"),
        lambda: simulate(large, form="lockstep"),
        rounds=3,
    )
    alone, two, middle = timed(
        lambda: simulate(large, threads=1, form="kernel"),
        lambda: simulate(large, threads=2, form="kernel"),
        lambda: simulate(headline(2000), threads=2, form="kernel"),
        rounds=7,
        clock=time.perf_counter,
    )
    each, one = theirs / PEERS, ours / large.size
    print(f"solve_ivp, rtol {rtol:.0e}:      {each * 1e6:9.0f} us a member")
    print(f"kernel, 1 thread:           {one * 1e6:9.1f} us a member: {each / one:6.0f} times solve_ivp")
    print(
        f"lockstep, 10,000 members:   {columns / large.size * 1e6:9.1f} us a member, kernel {columns / ours:.1f} times"
    )
    print(f"second thread:              {alone / two:9.2f} times")
    side, trace = timed(
        lambda: simulate(large.take(slice(1024)), form="lockstep"),
        lambda: trace_as_text(small.take(slice(0, 1))),
    )
    print(f"2,000 members, drawn anew:  {middle * 1e3:9.1f} ms on two threads")
    print(f"1,024 members in lockstep:  {side * 1e3:9.1f} ms")
    print(f"one way with its JSON:      {trace * 1e3:9.2f} ms")
    for _ in range(3):
        first_answer()


if __name__ == "__main__":
    main()
