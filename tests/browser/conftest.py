"""The app as a person meets it: a real server, a real browser, and a watch on everything that it asks for and says."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect, sync_playwright

from browser.running import WATCHES, Server, Watch
from guard.tree import ROOT

sys.path.insert(0, str(ROOT / "tools"))
import build_page
import programs_for_tests

WIDE, PHONE = {"width": 1280, "height": 900}, {"width": 390, "height": 844}
QUIET = (
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
PATIENCE = 30_000  # ms: a slow machine with much else to do


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    build_page.build()
    program = programs_for_tests.browser()
    if program is None and not os.environ.get("CI"):
        pytest.skip("no browser: python tools/programs_for_tests.py")
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=program, args=[*QUIET, *(["--no-sandbox"] if root else [])])
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    running = Server(tmp_path_factory.mktemp("home"), "--demo")
    yield running
    running.stop(signal.SIGTERM)


@pytest.fixture
def own_server(tmp_path: Path) -> Iterator[Server]:
    """A server that a test may kill."""
    running = Server(tmp_path, "--demo")
    yield running
    running.stop()


@pytest.fixture
def context(chromium: Browser, server: Server, request: pytest.FixtureRequest) -> Iterator[BrowserContext]:
    yield from watched(chromium, server)


@pytest.fixture
def own_context(chromium: Browser, own_server: Server) -> Iterator[BrowserContext]:
    yield from watched(chromium, own_server)


@pytest.fixture
def page(context: BrowserContext) -> Page:
    return context.new_page()


@pytest.fixture
def phone(chromium: Browser, server: Server) -> Iterator[Page]:
    for made in watched(chromium, server, viewport=PHONE, has_touch=True, is_mobile=True):
        yield made.new_page()


def watched(chromium: Browser, server: Server, **settings: Any) -> Iterator[BrowserContext]:
    """Open a context for one test; at its end nothing was asked for outside, and nothing was complained of."""
    made = chromium.new_context(base_url=server.address, **{"viewport": WIDE, "reduced_motion": "reduce", **settings})
    made.set_default_timeout(PATIENCE)
    expect.set_options(timeout=PATIENCE)
    who = "localStorage.getItem('parbuckle.who') === null && localStorage.setItem('parbuckle.who', 'Ada')"
    made.add_init_script(f"location.protocol === 'http:' && {who}")
    watch = WATCHES[made] = Watch(made, server.address)
    yield made
    made.close()
    del WATCHES[made]
    assert not watch.outside
    assert not watch.said
