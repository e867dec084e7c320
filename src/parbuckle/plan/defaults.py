"""The named defaults that stand in for what a case leaves out."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, replace
from functools import cache
from importlib import resources

from parbuckle.quantity.grammar import parse
from parbuckle.quantity.spread import Spread


@dataclass(frozen=True, slots=True)
class Default:
    """One default with its name and source.

    Parameters
    ----------
    value : Spread
        In SI, marked as assumed.
    name : str
        What it stands for, in a few words.
    mark : str
        ``read``, ``computed``, ``recalled``, ``common practice`` or ``assumption``.
    source : str
        Where it comes from.
    """

    value: Spread
    name: str
    mark: str
    source: str

    @property
    def sentence(self) -> str:
        """The default in one line: name, value, source."""
        return f"{self.name}: {self.value.text} ({self.source})"


@cache
def defaults() -> dict[str, Default]:
    """Read the shipped defaults.

    Returns
    -------
    dict of str to Default
        By key.
    """
    text = resources.files("parbuckle.data").joinpath("defaults.toml").read_text(encoding="utf-8")
    rows = tomllib.loads(text)
    return {
        key: Default(replace(parse(row["value"], row["kind"]), assumed=True), row["name"], row["mark"], row["source"])
        for key, row in rows.items()
    }
