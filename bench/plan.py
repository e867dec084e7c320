"""What a plan costs in time and memory, each in a process of its own, beside an empty start of Python.

    python bench/plan.py            # from the checkout, the package installed or PYTHONPATH=src

Needs the package and nothing else. Trust the ratios; the times are those of the machine.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path

CASES = Path(str(files("parbuckle"))) / "data" / "cases"
CASE = CASES / "quarry-outboard.toml"
REPEATS = 5
AGAIN = 20

TARGETS = {
    "empty start of Python": None,
    "parbuckle --help": 0.2,
    "plan --json, cold": 1.2,
    "the brief, on top of that": 1.0,
    "plan again, 12 bags owned": 0.1,
    "memory of a plan, 1,024 draws": 300.0,
    "memory of a plan, 100,000 draws": 1500.0,
}
"""Seconds, and megabytes."""

REPLAN = """
import statistics, sys, time
from pathlib import Path
from parbuckle.case.read import read_case
from parbuckle.plan.make import make_plan
took = []
for turn in range({again} + 1):
    loaded = read_case(Path(sys.argv[1]))
    start = time.perf_counter()
    plan = make_plan(loaded, 1024, turn + 1)
    took.append(time.perf_counter() - start)
assert plan.document["lift"]["bags"]
print(statistics.median(took[1:]))
"""

BAG = """
[[bag]]
id = "{id}"
style = "closed"
capacity = "{litres} l"
mass = "1.5 kg"
in_water = "0.2 kg"
height = "0.9 m"
attachment = "200 kg"
relief = "10 kPa"
due = 2030-09-01
"""


def twelve_bags(folder: Path) -> Path:
    """Write the quarry with twelve bags in its kit."""
    kit = (CASES / "kit.toml").read_text(encoding="utf-8")
    more = "".join(BAG.format(id=f"X{litres}", litres=litres) for litres in (12, 18, 20, 35, 40))
    (folder / "kit.toml").write_text(kit + more, encoding="utf-8")
    case = folder / CASE.name
    case.write_bytes(CASE.read_bytes())
    return case


def run(*args: str) -> subprocess.CompletedProcess[str]:
    """Run Python in a process of its own; stop when it fails."""
    done = subprocess.run([sys.executable, *args], capture_output=True, encoding="utf-8", check=False)
    if done.returncode not in (0, 2):
        sys.exit(done.stderr)
    return done


def seconds(*args: str) -> float:
    """Median of a few cold runs, wall clock."""
    took = []
    for _ in range(REPEATS):
        start = time.perf_counter()
        run(*args)
        took.append(time.perf_counter() - start)
    return statistics.median(took)


def megabytes(draws: int) -> float | None:
    """Give the largest memory of one cold plan; None where the system does not tell."""
    if not hasattr(os, "wait4"):
        return None
    command = [sys.executable, "-m", "parbuckle", "plan", str(CASE), "--json", "--draws", str(draws)]
    with subprocess.Popen(command, stdout=subprocess.DEVNULL) as child:
        _, status, usage = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode not in (0, 2):
        sys.exit("the plan failed")
    return usage.ru_maxrss / (1e6 if sys.platform == "darwin" else 1e3)


def measured(folder: Path) -> dict[str, float | None]:
    """Measure everything, in the order of the targets."""
    brief = str(folder / "brief.pdf")
    plan = ("-m", "parbuckle", "plan", str(CASE), "--json")
    cold = seconds(*plan)
    rows: tuple[tuple[str, Callable[[], float | None]], ...] = (
        ("empty start of Python", lambda: seconds("-c", "pass")),
        ("parbuckle --help", lambda: seconds("-m", "parbuckle", "--help")),
        ("plan --json, cold", lambda: cold),
        ("the brief, on top of that", lambda: seconds(*plan, "--brief", brief) - cold),
        (
            "plan again, 12 bags owned",
            lambda: float(run("-c", REPLAN.format(again=AGAIN), str(twelve_bags(folder))).stdout),
        ),
        ("memory of a plan, 1,024 draws", lambda: megabytes(1024)),
        ("memory of a plan, 100,000 draws", lambda: megabytes(100_000)),
    )
    return {name: measure() for name, measure in rows}


def main() -> None:
    """Measure and print one small table."""
    with tempfile.TemporaryDirectory() as folder:
        found = measured(Path(folder))
    empty = found["empty start of Python"] or 1.0
    print(f"{'':34}{'measured':>12}{'target':>10}{'x empty start':>16}")
    for name, value in found.items():
        unit = "MB" if name.startswith("memory") else "s"
        target = TARGETS[name]
        shown = "not told" if value is None else f"{value:.0f} MB" if unit == "MB" else f"{value:.3f} s"
        ratio = f"{value / empty:.1f}" if unit == "s" and value is not None else ""
        late = "  over" if value is not None and target is not None and value > target else ""
        print(f"{name:34}{shown:>12}{'' if target is None else f'{target:g} {unit}':>10}{ratio:>16}{late}")


if __name__ == "__main__":
    main()
