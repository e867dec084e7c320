"""The catalogue of findings: every code once, with its level, words, source and what to do, from the data file."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any, Literal

Level = Literal["stop", "unanswered", "caution", "note"]

LEVELS: tuple[Level, ...] = ("stop", "unanswered", "caution", "note")
"""Levels in the order in which findings are shown."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One code of the catalogue.

    Parameters
    ----------
    code : str
        Its name.
    level : str
        ``stop``, ``unanswered``, ``caution`` or ``note``.
    override : str
        ``never``, or ``reason`` when the supervisor may lift it in writing.
    kind : str
        How value and limit are worded; see :mod:`parbuckle.duties.wording`.
    text : str
        The sentence, with ``{value}``, ``{limit}`` and ``{what}``.
    do : str
        What to do, with the same fields.
    source : str
        Where the rule comes from.
    text_bare : str
        The sentence for an unknown value; empty when the text serves.
    rules, countries : tuple of str
        Where it applies; empty means everywhere.
    """

    code: str
    level: Level
    override: Literal["never", "reason"]
    kind: str
    text: str
    do: str
    source: str
    text_bare: str = ""
    rules: tuple[str, ...] = ()
    countries: tuple[str, ...] = ()

    def applies(self, country: str, rules: str) -> bool:
        """Tell whether the code applies in one country under one regime.

        Parameters
        ----------
        country : str
            Two letters.
        rules : str
            Whose duties apply.

        Returns
        -------
        bool
            True when it does.
        """
        return (not self.countries or country in self.countries) and (not self.rules or rules in self.rules)


@cache
def catalogue() -> Mapping[str, Entry]:
    """Read the catalogue.

    Returns
    -------
    Mapping of str to Entry
        By code, in the order of the data file: the most important first within a level.

    Examples
    --------
    >>> catalogue()["no_standby"].override
    'never'
    """
    text = resources.files("parbuckle.data").joinpath("findings.toml").read_text(encoding="utf-8")
    rows = tomllib.loads(text)
    return {code: Entry(code, **{key: _frozen(value) for key, value in row.items()}) for code, row in rows.items()}


def _frozen(value: Any) -> Any:
    """Lists become tuples."""
    return tuple(value) if isinstance(value, list) else value
