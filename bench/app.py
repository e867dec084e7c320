"""The app as it is waited for: first page, edit to verdict, weight of the page, memory after many edits.

    python bench/app.py             # from the checkout, with the test packages, a built page and Chromium

A real server of its own folder and a real browser on this machine. Run it on a machine that does nothing else.
"""

from __future__ import annotations

import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, CDPSession, Page, sync_playwright

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tools"))
import build_page  # noqa: E402
import programs_for_tests  # noqa: E402

EDITS, MANY = 24, 400
TARGETS = {"usable": 1.0, "usable, 4x slower": 2.0, "verdict": 0.25, "page": 400.0, "memory": 400.0}
QUIET = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run", "--disable-sync"]
VERDICT, DEPTH = "[data-verdict=known]", "[data-key='site.depth'] input"


def say(what: str, value: float, unit: str, target: float | None = None) -> None:
    """Print one line, with its target."""
    late = "" if target is None else f"   target {target:g} {unit}{'   over' if value > target else ''}"
    print(f"{what:44}{value:>9.3f} {unit}{late}")


def ask(address: str, path: str, body: object = None) -> Any:
    """Ask the server."""
    data = None if body is None else json.dumps(body).encode()
    asked = urllib.request.Request(f"{address}api/{path}", data, {"content-type": "application/json"})
    with urllib.request.urlopen(asked) as answer:
        return json.load(answer)


def resident(process: int) -> float:
    """Give the resident size of a process, MB; 0 where the system does not tell."""
    status = Path(f"/proc/{process}/status")
    lines = status.read_text().splitlines() if status.is_file() else []
    return next((int(line.split()[1]) / 1000 for line in lines if line.startswith("VmRSS")), 0.0)


def first_page(browser: Browser, address: str, case: str, slower: float = 1.0) -> tuple[float, float]:
    """Open the first stage in a new window; s until it can be used, and kB that came over the wire."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    page = context.new_page()
    link = context.new_cdp_session(page)
    link.send("Network.enable")
    link.send("Emulation.setCPUThrottlingRate", {"rate": slower})
    weight = watch_weight(link)
    start = time.perf_counter()
    page.goto(f"{address}#/case/{case}/call")
    page.locator("main input").first.wait_for()
    took = time.perf_counter() - start
    page.locator(VERDICT).first.wait_for()
    context.close()
    return took, sum(weight) / 1000


def watch_weight(link: CDPSession) -> list[float]:
    """Gather the bytes of everything that is loaded, as they come over the wire."""
    weight: list[float] = []
    link.on("Network.loadingFinished", lambda told: weight.append(told["encodedDataLength"]))
    return weight


def typed(page: Page, field: str, texts: list[str]) -> list[float]:
    """Type whole values into a field, one after another; s from the last key to the verdict for it."""
    times = []
    for text in texts:
        page.locator(field).first.fill(text)
        start = time.perf_counter()
        page.locator(VERDICT).first.wait_for()
        times.append(time.perf_counter() - start)
    return times


def served(address: str, case: str) -> list[float]:
    """Edit over HTTP; s from the edit that is sent to the whole plan that is read."""
    times, revision = [], ask(address, f"cases/{case}")["revision"]
    for n in range(MANY):
        change = {"op": "set", "path": ["site", "temperature"], "value": f"{6 + n / 50:.2f} degC"}
        start = time.perf_counter()
        body = {"base": revision, "who": "bench", "changes": [change]}
        revision = ask(address, f"cases/{case}/edits", body)["revision"]
        ask(address, f"cases/{case}/plan")
        times.append(time.perf_counter() - start)
    return times


def p95(times: list[float]) -> float:
    """Give the 95th of a hundred."""
    return statistics.quantiles(times, n=20, method="inclusive")[-1]


def measure(address: str, server: int, browser: Browser) -> None:
    """Print everything."""
    cases = {row["title"]: row["id"] for row in ask(address, "cases")["cases"]}
    case = next(iter(cases.values()))
    ask(address, f"cases/{case}/plan")
    for what, slower in (("usable", 1.0), ("usable, 4x slower", 4.0)):
        runs = [first_page(browser, address, case, slower) for _ in range(5)]
        say(f"first stage {what}", statistics.median(took for took, _ in runs), "s", TARGETS[what])
        weight = runs[0][1]
    say("page, everything that is loaded, packed", weight, "kB", TARGETS["page"])
    page = browser.new_page()
    for title, key in cases.items():
        page.goto(f"{address}#/case/{key}/call")
        page.locator(VERDICT).first.wait_for()
        times = typed(page, DEPTH, [f"{10 + n / 10:.1f} m" for n in range(EDITS)])
        say(f"depth to verdict, median: {title[:18]}", statistics.median(times), "s")
        say(f"depth to verdict, p95: {title[:18]}", p95(times), "s", TARGETS["verdict"])
    times = served(address, case)
    say(f"{MANY} edits over HTTP with their plan, median", statistics.median(times), "s")
    say("server after them", resident(server), "MB", TARGETS["memory"])


def main() -> None:
    """Start the server and the browser, measure, stop them."""
    build_page.build()
    with tempfile.TemporaryDirectory() as home, sync_playwright() as play:
        env = {**os.environ, "PARBUCKLE_HOME": home, "PYTHONPATH": str(ROOT / "src")}
        command = [sys.executable, "-m", "parbuckle", "serve", "--demo", "--port", "0"]
        start = time.perf_counter()
        server = subprocess.Popen(command, env=env, stdout=subprocess.PIPE, text=True)
        assert server.stdout is not None
        address = server.stdout.readline().strip()
        say("start of the server, with three cases made", time.perf_counter() - start, "s")
        browser = play.chromium.launch(executable_path=programs_for_tests.browser(), args=QUIET)
        try:
            measure(address, server.pid, browser)
        finally:
            browser.close()
            server.terminate()
            server.wait()


if __name__ == "__main__":
    main()
