"""The tended lift against the slow reference of the tests, 500 drawn lifts; it prints what agrees and what flips.

python bench/tended_reference.py [count] [seed]        # some minutes; needs the package and SciPy
"""

from __future__ import annotations

import sys
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from parbuckle.physics.tended import BOTTOM, OUT_OF_TIME, STAYS, SURFACE
from sample_tended import draw_lifts, simulated
from tended_reference import reference

ENDS = {"surface": SURFACE, "bottom": BOTTOM, "late": OUT_OF_TIME, "stays": STAYS}
LIMIT = 600.0
CLOSE = 1e-3


def main(count: int = 500, seed: int = 500) -> None:
    """Compare and print."""
    lifts = draw_lifts(count, seed)
    with ProcessPoolExecutor(2) as pool:
        told = list(pool.map(reference, lifts, [LIMIT] * count, chunksize=4))
    their_end = np.array([float(ENDS[t.end]) for t in told])
    end, time, top = simulated(lifts, ("end", "time", "max_speed"), limit=LIMIT)
    flips = np.zeros(count, dtype=bool)
    for factor in (1.0 - 1e-6, 1.0 + 1e-6):
        other = [replace(lift, weight=lift.weight * factor) for lift in lifts]
        its_end, its_time = simulated(other, ("end", "time"), limit=LIMIT)
        flips |= (its_end != end) | (np.abs(its_time / time - 1.0) > CLOSE)
    theirs = np.array([[t.time, t.max_speed] for t in told]).T
    off = np.maximum(np.abs(time / theirs[0] - 1.0), np.abs(top / theirs[1] - 1.0))
    off[end != their_end] = np.inf
    steady = off[~flips]
    print(f"{count} lifts: {flips.sum()} flip under a millionth of the load")
    print(f"others: {(steady <= CLOSE).mean():.2%} within 1e-3, median {np.median(steady):.1e}")
    print(f"all: {(off <= CLOSE).mean():.2%} within 1e-3")
    for name, mine, reference_values in (("time", time, theirs[0]), ("highest speed", top, theirs[1])):
        shift = [
            np.percentile(mine[~flips], q) / np.percentile(reference_values[~flips], q) - 1.0
            for q in (5, 25, 50, 75, 95)
        ]
        print(f"quantiles of the {name}: {np.abs(shift).max():.1e}")


if __name__ == "__main__":
    main(*(int(word) for word in sys.argv[1:]))
