"""What the dives of the case in tidal water cost, warm, at 1,024 draws.

    python bench/dives.py            # from the checkout, the package installed or PYTHONPATH=src

Needs the package and nothing else. Processor time and the clock are both shown: on a busy machine they differ.
"""

from __future__ import annotations

import statistics
import time
from importlib.resources import files
from pathlib import Path

from parbuckle.case.read import read_case
from parbuckle.dive.stage import solve
from parbuckle.duties.house import load_house
from parbuckle.plan.dive_inputs import diving_problem
from parbuckle.plan.stages import run_stages

CASES = Path(str(files("parbuckle"))) / "data" / "cases"
DRAWS, REPEATS, TARGET = 1024, 20, 0.060


def main() -> None:
    """Time the stage on each shipped case with dives."""
    for name in ("tidal-frame", "quarry-outboard", "training-drum"):
        loaded = read_case(CASES / f"{name}.toml")
        problem = diving_problem(run_stages(loaded, load_house(loaded.case.house), DRAWS, 1))
        assert problem is not None
        solve(problem)
        clock, processor = [], []
        for _ in range(REPEATS):
            start, used = time.perf_counter(), time.process_time()
            solve(problem)
            clock.append(time.perf_counter() - start)
            processor.append(time.process_time() - used)
        times = f"clock {statistics.median(clock) * 1e3:.0f} ms, best {min(clock) * 1e3:.0f} ms"
        print(f"{name:16} {times}, processor {min(processor) * 1e3:.0f} ms (wanted {TARGET * 1e3:.0f} ms)")


if __name__ == "__main__":
    main()
