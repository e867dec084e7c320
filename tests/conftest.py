"""What all tests share: the guards run first, and the command can be called as a user calls it."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent

Call = Callable[..., "subprocess.CompletedProcess[str]"]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    items.sort(key=lambda item: "spec" not in item.path.parts)


@pytest.fixture(scope="session")
def root() -> Path:
    """The checkout."""
    return ROOT


@pytest.fixture
def parbuckle(tmp_path: Path) -> Call:
    """Call the command in a process of its own, from an empty folder; text in and out is UTF-8."""

    def call(*args: str | Path, cwd: Path = tmp_path, **env: str) -> subprocess.CompletedProcess[str]:
        everything = {**os.environ, "PYTHONPATH": str(ROOT / "src"), **env}
        command = [sys.executable, "-P", "-m", "parbuckle", *map(str, args)]
        return subprocess.run(command, cwd=cwd, env=everything, capture_output=True, encoding="utf-8", check=False)

    return call
