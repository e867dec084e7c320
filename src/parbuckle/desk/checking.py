"""Hold this installation against published numbers: every row of ``data/checks`` computed by our own code.

A file in ``data/checks`` holds groups. One group is one table of one source::

    [[group]]
    id = "W7"                                # rows become W7-1, W7-2, ...; a group of one row keeps the id
    quantity = "density of sea water at {temperature} degC"
    call = "physics.water.density"           # a function of this package, without the word parbuckle
    fixed = { salinity = 35.16504 }          # arguments that stay; a number is SI, "10 degC" carries its unit
    vary = { temperature = "degC" }          # arguments that the rows give, in this order, with their unit;
                                             # unit "label" stands only in the text, "word" passes as it is
    unit = "kg/m3"                           # unit of the value; the result of the call is SI
    abs = 0.05                               # or rel = 0.001: the tolerance that belongs to the source
    source = "..."                           # with page, table or equation
    mark = "computed"                        # read, computed, recalled or common practice
    pick = "name"                            # optional: field or index of the result
    rows = [[4.0, 1027.79], [10.0, 1026.95]] # varied arguments, then the published value

So more checks need a file, and a function where none gives the number; sums over several functions stand in
``desk/check_sums.py`` or a file beside it.
"""

from __future__ import annotations

import importlib
import math
import re
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np

MARKS = ("read", "computed", "recalled", "common practice")
"""How a published value came here: seen in the source, computed by others' means, recalled, or what everybody uses."""

_LABEL, _WORD = "label", "word"
_NUMBER_UNIT = re.compile(r"(-?\d+(?:\.\d+)?(?:e-?\d+)?) (\S.*)")


@dataclass(frozen=True)
class Check:
    """One published number and the call that has to reproduce it.

    Parameters
    ----------
    id : str
        Short name, unique.
    quantity : str
        What the number is, in words.
    value : float
        The published value, in ``unit``.
    tolerance : float
        How far ours may be off, in ``unit``, not negative.
    unit : str
        Unit as in ``data/check_units.toml``.
    source : str
        Where it is printed.
    mark : str
        One of ``MARKS``.
    call : str
        Dotted name of our function, inside the package.
    arguments : dict[str, Any]
        Its arguments, SI numbers and words.
    pick : str or int or None
        Field or index of the result.
    """

    id: str
    quantity: str
    value: float
    tolerance: float
    unit: str
    source: str
    mark: str
    call: str
    arguments: dict[str, Any]
    pick: str | int | None = None


def run_checks() -> list[dict[str, Any]]:
    """Compute every published check value with this installation.

    Returns
    -------
    list[dict[str, Any]]
        For each check id, quantity, value, ours, tolerance, unit, source, mark, ok. ``ours`` is None, and ``why`` says
        the reason, where our code refused or failed.

    Examples
    --------
    >>> all(row["mark"] in MARKS for row in run_checks())
    True
    """
    return [_row(check) for check in all_checks()]


def all_checks() -> list[Check]:
    """Read all tables of checks.

    Returns
    -------
    list[Check]
        In the order of the files' names and of the rows.

    Raises
    ------
    ValueError
        If a table is written wrongly.

    Examples
    --------
    >>> len({check.id for check in all_checks()}) == len(all_checks())
    True
    """
    folder = files("parbuckle.data").joinpath("checks")
    tables = sorted((entry for entry in folder.iterdir() if entry.name.endswith(".toml")), key=lambda entry: entry.name)
    groups = [group for table in tables for group in tomllib.loads(table.read_text(encoding="utf-8"))["group"]]
    return [check for group in groups for check in _checks(group)]


def compute(check: Check) -> float:
    """Compute the number of one check.

    Parameters
    ----------
    check : Check
        What to compute.

    Returns
    -------
    float
        Our number, in the unit of the check.

    Raises
    ------
    ValueError
        If the call gives more than one number, or one that is not finite.

    Examples
    --------
    >>> round(compute(all_checks()[0]), 1) > 0
    True
    """
    result: Any = _function(check.call)(**check.arguments)
    if isinstance(check.pick, int):
        result = result[check.pick]
    elif check.pick is not None:
        result = result[check.pick] if isinstance(result, dict) else getattr(result, check.pick)
    numbers = np.asarray(result, dtype=np.float64).ravel()
    if numbers.size != 1 or not math.isfinite(numbers[0]):
        raise ValueError(f"{check.id}: {check.call} gave no single number")
    factor, offset = _unit(check.unit)
    return (float(numbers[0]) - offset) / factor


def _row(check: Check) -> dict[str, Any]:
    row: dict[str, Any] = {
        "id": check.id,
        "quantity": check.quantity,
        "value": check.value,
        "ours": None,
        "tolerance": check.tolerance,
        "unit": check.unit,
        "source": check.source,
        "mark": check.mark,
        "ok": False,
    }
    try:
        ours = compute(check)
    except (ImportError, AttributeError, TypeError, ValueError, ArithmeticError, LookupError, OSError) as error:
        return row | {"why": f"{type(error).__name__}: {error}"}
    return row | {"ours": ours, "ok": abs(ours - check.value) <= check.tolerance * (1.0 + 1e-9)}


def _checks(group: dict[str, Any]) -> Iterator[Check]:
    vary: dict[str, str] = group.get("vary", {})
    fixed = {name: _argument(value) for name, value in group.get("fixed", {}).items()}
    for number, row in enumerate(group["rows"], start=1):
        given, value = dict(zip(vary, row[:-1], strict=True)), float(row[-1])
        yield Check(
            id=group["id"] if len(group["rows"]) == 1 else f"{group['id']}-{number}",
            quantity=group["quantity"].format(**given),
            value=value,
            tolerance=float(group["abs"]) if "abs" in group else float(group["rel"]) * abs(value),
            unit=group["unit"],
            source=group["source"],
            mark=group["mark"],
            call=group["call"],
            arguments=fixed | {name: _si(value, vary[name]) for name, value in given.items() if vary[name] != _LABEL},
            pick=group.get("pick"),
        )


def _argument(value: Any) -> Any:
    """Give an argument in SI: a text of a number and a unit is converted, other words pass."""
    match = _NUMBER_UNIT.fullmatch(value) if isinstance(value, str) else None
    return value if match is None else _si(float(match[1]), match[2])


def _si(value: Any, unit: str) -> Any:
    if unit == _WORD or not isinstance(value, (int, float)):
        return value
    factor, offset = _unit(unit)
    return factor * float(value) + offset


def _unit(word: str) -> tuple[float, float]:
    table = _units()
    if word not in table["factor"]:
        raise ValueError(f"unit {word!r} is not in data/check_units.toml")
    return float(table["factor"][word]), float(table["offset"].get(word, 0.0))


@cache
def _units() -> dict[str, dict[str, float]]:
    return tomllib.loads(files("parbuckle.data").joinpath("check_units.toml").read_text(encoding="utf-8"))


def _function(name: str) -> Callable[..., Any]:
    room, _, function = name.rpartition(".")
    found: Callable[..., Any] = getattr(importlib.import_module(f"parbuckle.{room}"), function)
    return found
