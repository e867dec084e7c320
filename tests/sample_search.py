"""Small cases of a search, and their answers; each is worked out once."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from parbuckle.desk.searching import search

HEAD = """schema = 1
[case]
title = "A lost anchor & chain"
lost = 2027-04-10T16:30:00+01:00
[site]
datum = { lat = 52.48210, lon = -3.71540 }
depth = "12 m"
"""
POINT = """[[account]]
who = "the helm"
at = { lat = 52.48210, lon = -3.71540 }
within = "20 m"
"""
QUICK = """[search]
sweep_width = "3 m"
speed = "0.25 m/s"
elsewhere = "10 %"
minutes = "20 min"
only = ["circles"]
"""


@cache
def answer(text: str, minutes: float | None = None, draws: int = 64) -> dict[str, Any]:
    """The search document of a case text."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "case.toml"
        path.write_text(text, encoding="utf-8")
        return search(path, minutes, draws)


def case(accounts: str = POINT, more: str = "", head: str = HEAD, quick: str = QUICK) -> dict[str, Any]:
    """The search section of a case of circles."""
    return dict(answer(head + accounts + quick + more)["search"])
