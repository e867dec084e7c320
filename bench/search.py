"""What the map and the effort of a search cost, beside one pass over the same memory.

    python bench/search.py          # from the checkout, the package installed or PYTHONPATH=src

Needs the package and nothing else. Trust the ratios; the times are those of the machine.
"""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np

from parbuckle.search.bayes import _missed, after
from parbuckle.search.bounds import bounds
from parbuckle.search.effort import allocate, water_filling
from parbuckle.search.grid import Grid
from parbuckle.search.law_table import law_table
from parbuckle.search.probability import probability_map
from parbuckle.search.problem import BearingAccount, PointAccount, Water
from parbuckle.search.told import search_grid, told_map

SIDE = 1000
REPEATS = 15


def seconds(call: Callable[[], object]) -> float:
    """Processor time of the best of a few calls, after one to warm up; one thread does all of it."""
    call()
    took = []
    for _ in range(REPEATS):
        start = time.process_time()
        call()
        took.append(time.process_time() - start)
    return min(took)


def main() -> None:
    """Measure and print one small table."""
    grid = Grid(-500.0, -500.0, 1.0, SIDE, SIDE)
    east, north = grid.mesh()
    weight = np.exp(-0.5 * (east / 130.0) ** 2 - 0.5 * (north / 90.0) ** 2) + 0.2 * np.exp(
        -((east - 200.0) ** 2) / 9000.0
    )
    before = probability_map(grid, weight, 0.1)
    seen = np.clip(1.0 - np.abs(north) / 400.0, 0.0, 0.95)
    a, b, c = np.empty_like(weight), weight.copy(), seen.copy()

    def one_pass() -> None:
        np.multiply(b, c, out=a)

    def update_in_place() -> None:
        left = _missed(b.ravel(), c.ravel(), a.ravel())
        np.multiply(a, 1.0 / left, out=a)

    width = np.random.default_rng(1).uniform(2.0, 3.2, 1024)
    k = (np.arange(200) + 0.5) / 200
    told = (
        PointAccount("helm", 2.0, None, (5.0, 20.0), 18.0),
        BearingAccount("angler", 1.0, None, (-40.0, -67.0), np.radians(20.0 + 16.0 * k), 60.0 + 60.0 * k),
    )
    small = told_map(told, 0.08, Water(), search_grid(told, 2.6))
    yardstick = seconds(one_pass)
    rows = (
        ("one pass a = b c", yardstick, None),
        ("update, memory there already", seconds(update_in_place), 3.0),
        ("update, new map and its checks", seconds(lambda: after(before, seen)), None),
        ("allocation, random law", seconds(lambda: water_filling(before.share, np.full(1, 2.6), 6e4)), 0.1),
        ("allocation, unequal cells", seconds(lambda: water_filling(before.share, 2.6 + 0 * weight, 6e4)), 0.1),
        (
            "allocation, half-normal law",
            seconds(lambda: allocate(before.share, 1.0, law_table("half-normal", width), 6e4)),
            0.1,
        ),
    )
    print(f"{SIDE * SIDE} cells{'':22}{'measured':>12}{'x one pass':>12}{'target':>12}")
    for name, value, target in rows:
        ratio = value / yardstick
        wanted = "" if target is None else f"{target:g} x" if target > 1.0 else f"{1e3 * target:g} ms"
        late = target is not None and (ratio > target if target > 1.0 else value > target)
        print(f"{name:32}{1e3 * value:9.2f} ms{ratio:12.1f}{wanted:>12}{'  over' if late else ''}")
    cells = small.grid.rows * small.grid.columns
    print(f"two accounts, {cells} cells")
    print(
        f"{'map of two accounts':32}"
        f"{1e3 * seconds(lambda: told_map(told, 0.08, Water(), search_grid(told, 2.6))):9.2f} ms"
    )
    print(f"{'both bounds, 1,024 draws':32}{1e3 * seconds(lambda: bounds(small, 'half-normal', width, 600.0)):9.2f} ms")


if __name__ == "__main__":
    main()
