"""How near the chosen patterns come to the best allocation on random maps, and what a choice costs in time.

    python bench/search_patterns.py [MAPS [LAW ...]]    # from the checkout, the package installed or PYTHONPATH=src

Each map is a mix of 2 to 5 accounts. The bound has the same law, draws of the sweep width and speed; turns, ways and
the move between two patterns are paid on both sides, so that its minutes are those spent searching. Errors of the track
are left out, as in the bound. Prints the distribution for each law.
"""

from __future__ import annotations

import statistics
import sys
import time
from dataclasses import replace

import numpy as np

from parbuckle.search.bounds import best_allocation
from parbuckle.search.chooser import choose_pattern
from parbuckle.search.practice import Practice, TrackError, practices
from parbuckle.search.probability import ProbabilityMap
from parbuckle.search.problem import Account, BearingAccount, PointAccount, SearchProblem, TrackAccount, Water
from parbuckle.search.told import map_of

MAPS = 200
LAWS = tuple(sys.argv[2:]) or ("random", "half-normal", "inverse cube")
TARGETS = {"nine in ten": 0.85, "median": 0.92}
DRAWS = 256


def random_account(dice: np.random.Generator, k: int) -> Account:
    """A point, a bearing with a distance, or a track."""
    x, y = (float(v) for v in dice.normal(0.0, 14.0, 2))
    weight = float(dice.choice([1.0, 2.0, 4.0]))
    kind = dice.integers(3)
    if kind == 0:
        return PointAccount(f"w{k}", weight, None, (x, y), float(dice.uniform(8.0, 40.0)))
    if kind == 1:
        far, bearing = float(dice.uniform(30.0, 90.0)), float(dice.uniform(0.0, 2.0 * np.pi))
        stood = (x - far * np.sin(bearing), y - far * np.cos(bearing))
        bearings = bearing + np.radians(dice.uniform(2.0, 8.0)) * dice.standard_normal(DRAWS)
        return BearingAccount(f"w{k}", weight, None, stood, bearings, far * dice.uniform(0.75, 1.25, DRAWS))
    way = dice.uniform(0.0, 2.0 * np.pi)
    half = float(dice.uniform(8.0, 30.0))
    ends = tuple((x + s * half * np.sin(way), y + s * half * np.cos(way)) for s in (-1.0, 1.0))
    return TrackAccount(f"w{k}", weight, None, ends, float(dice.uniform(6.0, 20.0)))


def random_problem(seed: int, law: str) -> SearchProblem:
    """Two to five accounts, 20 to 60 minutes, one to five metres of sweep width."""
    dice = np.random.default_rng(seed)
    accounts = tuple(random_account(dice, k) for k in range(dice.integers(2, 6)))
    width = float(dice.uniform(1.2, 5.0))
    return SearchProblem(
        accounts,
        float(dice.choice([0.0, 0.05, 0.1])),
        Water(),
        law,
        1.0,
        width * dice.uniform(0.8, 1.2, DRAWS),
        np.full(DRAWS, float(dice.uniform(0.15, 0.35))),
        float(dice.uniform(20.0, 60.0)),
        np.full(DRAWS, 3.0),
    )


def line_patterns() -> list[Practice]:
    """Circles and jackstay lanes with their turns and ways, without errors."""
    named = [row for row in practices() if row.name in ("circles", "jackstay")]
    return [replace(row, error=TrackError()) for row in named]


def share_of_bound(problem: SearchProblem, before: ProbabilityMap) -> tuple[float, bool]:
    """Best chance by one pattern or two, over the bound of the time that it spends searching."""
    choice = choose_pattern(problem, before, rows=line_patterns())
    found = [(a.chance, (a.pattern,)) for a in choice.answers]
    if choice.pair is not None:
        found.append((choice.pair.chance, (choice.pair.first, choice.pair.second)))
    shares = []
    for chance, swum in found:
        length = sum(p.search_length for p in swum)
        bound = best_allocation(before, problem.law, problem.sweep_width, length, problem.p0).chance
        shares.append((chance, chance / bound, bool(swum[1:])))
    best = max(shares)
    return best[1], best[2]


def main() -> None:
    """Print one table."""
    maps = int(sys.argv[1]) if sys.argv[1:] else MAPS
    print(f"{'law':14}{'least':>8}{'1 in 10':>9}{'median':>8}{'best':>8}{'two patterns':>14}{'s a choice':>12}")
    for law in LAWS:
        rows, took = [], []
        for seed in range(maps):
            problem = random_problem(seed, law)
            before = map_of(problem)
            start = time.process_time()
            rows.append(share_of_bound(problem, before))
            took.append(time.process_time() - start)
        shares = sorted(share for share, _ in rows)
        low, middle = shares[len(shares) // 10], statistics.median(shares)
        late = "" if low >= TARGETS["nine in ten"] and middle >= TARGETS["median"] else "  under"
        two = sum(pair for _, pair in rows) / len(rows)
        print(
            f"{law:14}{shares[0]:8.3f}{low:9.3f}{middle:8.3f}{shares[-1]:8.3f}{two:14.0%}"
            f"{statistics.median(took):12.2f}{late}"
        )
    print(f"wanted: {TARGETS['nine in ten']} in nine maps of ten, median {TARGETS['median']}")


if __name__ == "__main__":
    main()
