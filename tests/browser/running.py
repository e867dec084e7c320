"""A server that a test may kill, and a watch on all that its pages ask for and say."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import urllib.request
from pathlib import Path
from typing import Any

from playwright.sync_api import BrowserContext, Request, Route

from guard.tree import ROOT

SCREENS = ROOT / "build" / "screens"
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


WATCHES: dict[BrowserContext, Watch] = {}
"""The watch on each context that is open."""
