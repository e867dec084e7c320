"""The app as a person meets it: a real server, a real browser, and a watch on everything that it asks for and says."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Request, Route, expect, sync_playwright

from guard.tree import ROOT

sys.path.insert(0, str(ROOT / "tools"))
import build_page
import programs_for_tests

WIDE, PHONE = {"width": 1280, "height": 900}, {"width": 390, "height": 844}
SCREENS = ROOT / "build" / "screens"
QUIET = (
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
PATIENCE = 30_000  # ms: a slow machine with much else to do
HEADERS = {"content-type": "application/json"}


class Server:
    """A server of its own folder; it can be killed and started again on the same port.

    Parameters
    ----------
    home : Path
        Its folder.
    options : str
        Further words of the call.
    """

    def __init__(self, home: Path, *options: str) -> None:
        self.home, self.options, self.port = home, options, 0
        self.start()

    def start(self) -> None:
        command = [sys.executable, "-m", "parbuckle", "serve", "--port", str(self.port), *self.options]
        env = {**os.environ, "PARBUCKLE_HOME": str(self.home), "PYTHONPATH": str(ROOT / "src")}
        self.process = subprocess.Popen(command, env=env, stdout=subprocess.PIPE, encoding="utf-8")
        assert self.process.stdout is not None
        self.address = self.process.stdout.readline().strip()
        self.port = int(self.address.rstrip("/").rpartition(":")[2])

    def stop(self, how: signal.Signals = signal.SIGKILL) -> None:
        self.process.send_signal(how)
        self.process.wait(30)
        assert self.process.stdout is not None
        self.process.stdout.close()

    def ask(self, path: str, body: object = None) -> Any:
        data = None if body is None else json.dumps(body).encode()
        asked = urllib.request.Request(f"{self.address}api/{path}", data, HEADERS)
        with urllib.request.urlopen(asked, timeout=60) as answer:
            return json.load(answer)

    def example(self, name: str) -> str:
        """Keep a shipped case of its own; give its id."""
        return str(self.ask("cases", {"example": name, "who": "Ada"})["id"])


class Watch:
    """What a page asked for outside this server, and what it complained of.

    Parameters
    ----------
    context : BrowserContext
        All its pages are watched.
    address : str
        Of the server.
    """

    def __init__(self, context: BrowserContext, address: str) -> None:
        self.address, self.outside, self.said = address, list[str](), list[str]()
        context.route("**/*", self._route)
        context.on("console", lambda message: self._hear(message.type, message.text))
        context.on("weberror", lambda error: self.said.append(str(error.error)))

    def _route(self, route: Route, request: Request) -> None:
        if request.url.startswith((self.address, "data:", "blob:")):
            route.continue_()
        else:
            self.outside.append(request.url)
            route.abort()

    def _hear(self, kind: str, text: str) -> None:
        if kind in ("error", "warning"):
            self.said.append(text)

    def forgive(self, *words: str) -> None:
        """Forget complaints that a test brought about itself, such as those of a server that is away."""
        self.said = [line for line in self.said if not any(word in line for word in words)]


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
    watch = made.watch = Watch(made, server.address)  # type: ignore[attr-defined]
    yield made
    made.close()
    assert not watch.outside
    assert not watch.said
