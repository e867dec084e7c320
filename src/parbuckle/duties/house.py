"""House rules: limits from the data file, changed by a case, read as SI; no limit stands in code."""

from __future__ import annotations

import difflib
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources

from parbuckle.quantity.errors import CaseError
from parbuckle.quantity.grammar import parse
from parbuckle.quantity.spread import Spread, exact


@dataclass(frozen=True, slots=True)
class HouseRule:
    """One house rule as the data file tells it.

    Parameters
    ----------
    key : str
        Its key in ``[house]``.
    default : str
        Its default, as text with a unit.
    kind : str
        Kind of quantity; ``number`` is a plain number.
    mark : str
        ``house default``, ``common practice``, ``read`` or ``recalled``.
    source : str
        Where the default comes from.
    meaning : str
        What it limits, in one sentence.
    """

    key: str
    default: str
    kind: str
    mark: str
    source: str
    meaning: str


@dataclass(frozen=True)
class House:
    """The house rules of one case, in SI.

    Parameters
    ----------
    values : Mapping of str to Spread
        Every rule by its key.
    changed : tuple of str
        Keys that the case changed, in the order of the data file.

    Examples
    --------
    >>> load_house({})["surplus_limit"]
    8.0
    """

    values: Mapping[str, Spread]
    changed: tuple[str, ...] = ()

    def __getitem__(self, key: str) -> float:
        """Give one limit in SI; the middle where it has a spread."""
        return self.values[key].mid

    def spread(self, key: str) -> Spread:
        """Give one limit with its spread.

        Parameters
        ----------
        key : str
            Key of the rule.

        Returns
        -------
        Spread
            In SI.
        """
        return self.values[key]


@cache
def house_rules() -> tuple[HouseRule, ...]:
    """Read the shipped house rules.

    Returns
    -------
    tuple of HouseRule
        In the order of the data file.
    """
    text = resources.files("parbuckle.data").joinpath("house.toml").read_text(encoding="utf-8")
    return tuple(HouseRule(key, **row) for key, row in tomllib.loads(text).items())


def load_house(overrides: Mapping[str, object]) -> House:
    """Give the house rules with those that a case changes.

    Parameters
    ----------
    overrides : Mapping of str to object
        The case's ``[house]`` table: key to text with unit, or to a number for a plain number.

    Returns
    -------
    House
        Every rule in SI.

    Raises
    ------
    CaseError
        If a key is unknown (the nearest one is suggested) or a value cannot be read.

    Examples
    --------
    >>> load_house({"surplus_limit": "5 kg"})["surplus_limit"]
    5.0
    """
    rules = {rule.key: rule for rule in house_rules()}
    for key in overrides:
        if key not in rules:
            raise CaseError(
                "there is no such house rule",
                key=f"house.{key}",
                given=key,
                allowed=", ".join(sorted(rules)),
                do=_nearest(key, list(rules)),
            )
    values = {key: _read(rule, overrides.get(key, rule.default)) for key, rule in rules.items()}
    return House(values, tuple(key for key in rules if key in overrides))


def _nearest(key: str, known: list[str]) -> str:
    near = difflib.get_close_matches(key, known, n=1)
    return f"did you mean {near[0]}?" if near else "take one of the allowed keys"


def _read(rule: HouseRule, given: object) -> Spread:
    """Read one value by the kind of its own key."""
    where = f"house.{rule.key}"
    if rule.kind == "number" and isinstance(given, int | float) and not isinstance(given, bool):
        return exact("number", float(given), str(given))
    if not isinstance(given, str):
        raise CaseError(
            "a value needs its unit", key=where, given=repr(given), allowed=f"text such as {rule.default!r}"
        )
    try:
        return parse(given, rule.kind)
    except CaseError as error:
        raise CaseError(
            error.what, key=where, given=error.given or given, allowed=error.allowed, do=error.do
        ) from error
