"""Tissue loading of logged profiles: profiles a second, compiled and in NumPy, on one thread and on two.

    python bench/tissues.py         # from the checkout, the package installed or PYTHONPATH=src

16 tissues, nitrogen and helium, 2,000 samples to a profile, 8,000 profiles. Trust the ratios; the times are those of
the machine. Where others use it too, read the column by processor time.
"""

from __future__ import annotations

import os
import threading
import time
from collections.abc import Callable
from functools import partial

import numpy as np

from parbuckle.dive.loading import AIR, at_rest, load
from parbuckle.dive.logged import highest_ceiling, loaded_at_end
from parbuckle.dive.profile import Leg
from parbuckle.physics.compiled import can_compile
from parbuckle.quantity.breathing import Gas, parse_gas
from parbuckle.quantity.frozen import Floats

PROFILES, SAMPLES, INTERVAL = 8000, 2000, 4.0
SURFACE = 101325.0
REPEATS = 5
TRIMIX = parse_gas("21/35")


def profiles() -> Floats:
    """Make sawtooth dives."""
    rng = np.random.default_rng(1)
    depth = np.abs(np.cumsum(rng.normal(0.0, 0.3, (PROFILES, SAMPLES)), axis=1))
    return SURFACE + 1e4 * depth


def best(run: Callable[[], object], count: int, clock: Callable[[], float] = time.perf_counter) -> float:
    """Give profiles a second, best of some."""
    times = []
    for _ in range(REPEATS):
        start = clock()
        run()
        times.append(clock() - start)
    return count / min(times)


def on_two(run: Callable[[Floats], object], pressure: Floats) -> float:
    """Share the profiles between two threads; give profiles a second by the processor time of each, added up."""
    half, rates = len(pressure) // 2, list[float]()

    def timed(part: Floats) -> None:
        start = time.thread_time()
        run(part)
        rates.append(len(part) / (time.thread_time() - start))

    threads = [threading.Thread(target=timed, args=(part,)) for part in (pressure[:half], pressure[half:])]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return sum(rates)


def at_end(rested: Floats, gas: Gas, part: Floats) -> object:
    """Load some profiles to their end."""
    return loaded_at_end(rested, part, INTERVAL, gas)


def leg_by_leg(pressure: Floats) -> None:
    """Load with the general law, an exponential for each step."""
    tissues = np.repeat(at_rest(SURFACE), len(pressure), axis=2)
    time_each = np.full(len(pressure), INTERVAL)
    for j in range(1, pressure.shape[1]):
        tissues = load(tissues, [Leg(pressure[:, j - 1].copy(), pressure[:, j].copy(), time_each, TRIMIX)])


def main() -> None:
    """Print the table."""
    pressure, rested = profiles(), at_rest(SURFACE)
    print(f"{os.cpu_count()} processors; compiler {'there' if can_compile() else 'missing'}")
    for name, gas in (("trimix, both gases", TRIMIX), ("air, nitrogen alone", AIR)):
        run = partial(at_end, rested, gas)
        run(pressure[:10])
        one = best(partial(run, pressure), len(pressure))
        spent = best(partial(run, pressure), len(pressure), time.thread_time)
        two = best(partial(on_two, run, pressure), len(pressure))
        both = max(on_two(run, pressure) for _ in range(REPEATS))
        print(f"at the end, {name:20}{one:10,.0f} on one thread, {spent:10,.0f} by processor time,", end="")
        print(f"{two:10,.0f} on two, {both:10,.0f} by processor time")
    for plain, count in ((False, 1000), (True, 500)):
        highest_ceiling(rested, pressure[:10], INTERVAL, TRIMIX, 0.8, plain=plain)
        start = time.perf_counter()
        highest_ceiling(rested, pressure[:count], INTERVAL, TRIMIX, 0.8, plain=plain)
        rate = count / (time.perf_counter() - start)
        print(f"with the ceiling, trimix      {'NumPy' if plain else 'compiled':9} {rate:10,.0f}")
    start = time.perf_counter()
    leg_by_leg(pressure[:200])
    print(f"leg by leg, trimix            NumPy     {200 / (time.perf_counter() - start):10,.0f}")


if __name__ == "__main__":
    main()
