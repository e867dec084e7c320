"""``parbuckle serve`` as a process: says its address, keeps what it acknowledged, stops when it is told to."""

from __future__ import annotations

import json
import os
import signal
import socket
import subprocess
import sys
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import IO, Any

import pytest

PATIENCE = 60


class Server:
    """A running server, in a folder of its own."""

    def __init__(self, home: Path, *options: str) -> None:
        command = [sys.executable, "-m", "parbuckle", "serve", "--port", "0", *options]
        env = {**os.environ, "PARBUCKLE_HOME": str(home)}
        self.process = subprocess.Popen(command, env=env, stdout=subprocess.PIPE, encoding="utf-8")
        assert self.process.stdout is not None
        self.address = self.process.stdout.readline().strip()

    def open(self, path: str) -> IO[bytes]:
        found: IO[bytes] = urllib.request.urlopen(self.address + path, timeout=PATIENCE)
        return found

    def get(self, path: str) -> Any:
        with self.open(path) as answer:
            return json.load(answer)

    def post(self, path: str, body: object) -> Any:
        head = {"content-type": "application/json"}
        asked = urllib.request.Request(self.address + path, json.dumps(body).encode(), head)
        with urllib.request.urlopen(asked, timeout=PATIENCE) as answer:
            return json.load(answer)

    def end(self, how: signal.Signals = signal.SIGTERM) -> int:
        self.process.send_signal(how)
        try:
            return self.process.wait(PATIENCE)
        finally:
            self.process.kill()
            assert self.process.stdout is not None
            self.process.stdout.close()


@pytest.fixture
def demo(tmp_path: Path) -> Iterator[Server]:
    server = Server(tmp_path, "--demo")
    yield server
    if server.process.poll() is None:
        server.end()


def test_the_demonstration_has_three_cases_and_stops_with_an_open_stream(demo: Server, tmp_path: Path) -> None:
    assert demo.address.startswith("http://127.0.0.1:")
    assert len(demo.get("api/cases")["cases"]) == 3
    said = demo.get("api/app")
    assert (said["demo"], said["data_folder"]) == (True, str(tmp_path))
    with demo.open("api/events") as stream:
        assert stream.readline() == b": here\n"
        assert demo.end() in (0, -signal.SIGTERM)


def test_what_was_acknowledged_is_there_after_a_crash(tmp_path: Path) -> None:
    first = Server(tmp_path)
    assert first.get("api/cases") == {"cases": []}
    case = first.post("api/cases", {"who": "Ada", "answers": {"what": "anchor", "depth": "9 m"}})
    change = {"op": "set", "path": ["site", "depth"], "value": "11 m"}
    first.post(f"api/cases/{case['id']}/edits", {"base": 1, "who": "Ada", "changes": [change]})
    first.end(signal.SIGKILL)
    second = Server(tmp_path)
    kept = second.get(f"api/cases/{case['id']}")
    second.end()
    assert (kept["revision"], kept["document"]["site"]["depth"]) == (2, "11 m")


def test_a_port_that_is_taken_or_is_none_is_told(tmp_path: Path) -> None:
    env = {**os.environ, "PARBUCKLE_HOME": str(tmp_path)}
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        for port, said in ((str(other.getsockname()[1]), "give another --port"), ("70000", "0 to 65535")):
            call = [sys.executable, "-m", "parbuckle", "serve", "--port", port]
            done = subprocess.run(call, env=env, capture_output=True, encoding="utf-8", check=False)
            assert (done.returncode, done.stdout) == (1, "")
            assert said in done.stderr
