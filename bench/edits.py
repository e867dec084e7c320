"""What one edit of a case costs in a process that is warm: from the changed document to the whole plan.

    python bench/edits.py           # from the checkout, the package installed or PYTHONPATH=src

Each edit takes a value that was not asked before, so that nothing but the untouched stages comes from memory. Times are
wall clock; run it on a machine that does nothing else.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Iterator
from importlib.resources import files
from typing import Any

from parbuckle.desk.changes import change, value_at
from parbuckle.desk.documents import plan_documents
from parbuckle.desk.examples import DEMO
from parbuckle.desk.exchange import take_in

DRAWS, TIMES = 1024, 12
WHOLE = 0.7  # target for the whole plan, s

EDITS = {
    "title": (["case", "title"], "Variant {}"),
    "mass of a part": (["object", "part", 0, "mass"], "{} ± 4 kg"),
    "solid share": (["object", "measured", 0, "solid"], "{} ± 10 %"),
    "rate": (["lift", "rate"], {"target": "6.{} m/min", "ceiling": "9 m/min"}),
    "account": (["account", 0, "within"], "{} m"),
    "task": (["dive", 0, "tasks", 0, "time"], "{}.5 min"),
    "depth": (["site", "depth"], "{} m"),
}


def values(pattern: Any) -> Iterator[Any]:
    """Fill a pattern with one number after another."""
    for n in range(10, 10 + TIMES):
        yield {k: v.format(n) for k, v in pattern.items()} if isinstance(pattern, dict) else pattern.format(n)


def took(case: dict[str, Any], kit: dict[str, Any] | None, name: str) -> float:
    """Plan once; s. An edit that is refused measures nothing."""
    start = time.perf_counter()
    plan, faults = plan_documents(case, kit, name, DRAWS)
    if plan is None:
        raise SystemExit(f"{name}: {faults[0]}")
    return time.perf_counter() - start


def main() -> None:
    """Print the median and the 95th of a hundred of each edit, and of all."""
    folder = files("parbuckle.data") / "cases"
    every: list[float] = []
    print(f"{'':18}{'edit':18}{'median':>10}{'p95':>10}   {DRAWS} draws, {TIMES} edits of each kind")
    for name in DEMO:
        case, kit = take_in((folder / f"{name}.toml").read_text("utf-8"), (folder / "kit.toml").read_text("utf-8"))
        took(case, kit, name)
        for what, (path, pattern) in EDITS.items():
            if value_at(case, path[:-1]) is None:
                continue
            times = [
                took(change(case, [{"op": "set", "path": path, "value": value}])[0], kit, name)
                for value in values(pattern)
            ]
            every += times
            print(f"{name:18}{what:18}{statistics.median(times):>8.3f} s{p95(times):>8.3f} s")
    late = "over" if p95(every) > WHOLE else ""
    print(f"{'all':36}{statistics.median(every):>8.3f} s{p95(every):>8.3f} s   target {WHOLE:g} s {late}")


def p95(times: list[float]) -> float:
    """Give the 95th of a hundred."""
    return statistics.quantiles(times, n=20, method="inclusive")[-1]


if __name__ == "__main__":
    main()
