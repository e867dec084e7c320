"""The shipped example files as parsed data."""

from __future__ import annotations

import tomllib
from typing import Any

from guard.tree import PACKAGE

CASES = ("first-answer", "quarry-outboard", "tidal-frame", "training-drum")
"""Names of the shipped cases that lift something; ``mooring-block`` puts a load down and has tests of its own."""


def shipped(name: str) -> dict[str, Any]:
    """Give a shipped case, or ``kit``, as parsed data of its own."""
    text = PACKAGE.joinpath("data", "cases", f"{name}.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)
