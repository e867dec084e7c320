"""What must be written down and who must be told, by country and by whose duties apply."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from parbuckle.duties.regimes import Limit, applies
from parbuckle.quantity.errors import CaseError
from parbuckle.quantity.grammar import parse


@dataclass(frozen=True, slots=True)
class Record:
    """One record that is kept.

    Parameters
    ----------
    what : str
        What it is.
    contains : tuple of str
        What stands in it.
    keep : str
        How long it is kept.
    mark, source, date : str
        How and when the source was read; ``own`` for one of the team's.
    by : str
        Who asks for it; empty: law or published guidance.
    """

    what: str
    contains: tuple[str, ...]
    keep: str
    mark: str
    source: str
    date: str
    by: str = ""


@dataclass(frozen=True, slots=True)
class Notice:
    """Somebody who must be told.

    Parameters
    ----------
    what, to : str
        What is told, and to whom.
    within : str
        Within which time, as it is written; ``at once`` without one.
    time : float or None
        The same, s.
    counts : str
        From what it counts: ``after the lift``, ``before the lift``, ``after the loss``, or words.
    mark, source, date : str
        How and when the source was read; ``own`` for one of the team's.
    by : str
        Who asks for it; empty: law or published guidance.
    """

    what: str
    to: str
    within: str
    time: float | None
    counts: str
    mark: str
    source: str
    date: str
    by: str = ""


def records_for(country: str, rules: str) -> tuple[Record, ...]:
    """Give the records that law or published guidance asks for.

    Parameters
    ----------
    country : str
        Two letters.
    rules : str
        Whose duties apply.

    Returns
    -------
    tuple of Record
        In the order of the data file.

    Examples
    --------
    >>> [row.what for row in records_for("GB", "commercial")]
    ['Diving project plan', 'Diving operation record']
    """
    return tuple(
        Record(row["what"], tuple(row["contains"]), row["keep"], row["mark"], row["source"], str(row["read"]))
        for row in _rows()["record"].values()
        if applies(row["countries"], country) and applies(row["rules"], rules)
    )


def notices_for(
    country: str, rules: str, purpose: str, tidal: bool | None, limits: Mapping[str, Limit]
) -> tuple[Notice, ...]:
    """Give the notices that law or published guidance asks for.

    Parameters
    ----------
    country : str
        Two letters.
    rules : str
        Whose duties apply.
    purpose : str
        ``recovery`` or ``training``.
    tidal : bool or None
        True in tidal waters; None: not known, which counts as tidal.
    limits : Mapping of str to Limit
        Limits that hold; a notice whose time is one of them takes it from there.

    Returns
    -------
    tuple of Notice
        In the order of the data file.

    Examples
    --------
    >>> [row.to for row in notices_for("US", "private", "training", False, {})]
    ['the authority that takes reports of spills', 'the coastguard below high water, else the police', 'the insurer']
    """
    return tuple(
        _notice(row, limits)
        for row in _rows()["notice"].values()
        if applies(row["countries"], country)
        and applies(row["rules"], rules)
        and row.get("purpose", purpose) == purpose
        and (not row.get("tidal") or tidal is not False)
    )


def _notice(row: Mapping[str, Any], limits: Mapping[str, Limit]) -> Notice:
    within, limit = row["within"], limits.get(row["within"])
    if limit is not None:
        told = (limit.text, limit.value, row["counts"], limit.mark, limit.source, limit.date, limit.by)
        return Notice(row["what"], row["to"], *told)
    return Notice(
        row["what"], row["to"], within, _seconds(within), row["counts"], row["mark"], row["source"], str(row["read"])
    )


def _seconds(within: str) -> float | None:
    try:
        return parse(within, "time").mid
    except CaseError:
        return None  # at once


@cache
def _rows() -> dict[str, dict[str, Any]]:
    return tomllib.loads(resources.files("parbuckle.data").joinpath("records.toml").read_text(encoding="utf-8"))
