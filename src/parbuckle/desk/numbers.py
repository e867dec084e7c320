"""Where a number of the plan comes from: formula, its numbers, range, source, and the inputs that it follows from."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

from parbuckle.brief.dive_rows import gauge
from parbuckle.brief.figures import Figures
from parbuckle.desk.tonight_words import band, one
from parbuckle.quantity.errors import CallError
from parbuckle.quantity.rounding import figures
from parbuckle.quantity.shown import THIN

Document = Mapping[str, Any]

_STEP = re.compile(r"\[(\d+)\]|\.?([^.\[\]]+)")
_BAND = {"low", "likely", "high"}

_UNITS = (
    ("_kg_m3", "density"), ("_m_min", "rate"), ("_m_s", "rise"), ("_l_s", "venting"), ("_pa", "air_pressure"),
    ("_bar", "pressure"), ("_kg", "mass"), ("_deg", "bearing"), ("litres", "volume"), ("_l", "volume"), ("_n", "load"),
    ("_m", "length"), ("seconds", "time"), ("_s", "time"), ("minutes", "minutes"), ("_min", "minutes"),
    ("share", "share"),
)  # fmt: skip
"""Kinds by the unit at the end of a key; the longer endings first."""

_WORDS = ("chance", "share")


def number(document: Document, path: str, case: Document | None = None, kit: Document | None = None) -> dict[str, Any]:
    """Tell where one number of a plan comes from.

    Parameters
    ----------
    document : mapping
        The plan document.
    path : str
        Path in the plan; rows count from 1: ``lift.bags[1].really_l``.
    case : mapping, optional
        The written document of the case, so that inputs show what was typed.
    kit : mapping, optional
        That of its kit.

    Returns
    -------
    dict
        ``path``, ``name``, ``value``, ``range`` (low, likely, high in the unit of the plan, or null), ``formula``,
        ``numbers`` (what stands in it, where the plan has it), ``source``, ``section`` of the method and ``inputs``:
        ``key`` and ``text``.

    Raises
    ------
    CallError
        If the plan has no such number.
    """
    value = _at(document, path)
    row = origin_of(path)
    told = next((each for each in document["sums"] if each["name"] == row.get("sum")), None)
    is_band = isinstance(value, Mapping)
    kind = row.get("kind", kind_of(path))
    return {
        "path": path,
        "name": row["name"],
        "value": _shown(document, value, kind, row.get("safe")),
        "range": [value[key] for key in ("low", "likely", "high")] if is_band else None,
        "formula": told["formula"] if told else row["formula"],
        "numbers": told["numbers"] if told else "",
        "source": told["source"] if told else row["source"],
        "section": row["section"],
        "inputs": list(_inputs(document, row["inputs"], case, kit)),
    }


def origin_of(path: str) -> dict[str, Any]:
    """Give the row of the table of origins that fits a path.

    Parameters
    ----------
    path : str
        Path in the plan, with or without rows.

    Returns
    -------
    dict
        ``name``, ``formula``, ``source``, ``section``, ``inputs``; perhaps ``kind`` and ``sum``.

    Raises
    ------
    CallError
        If no row fits.

    Examples
    --------
    >>> origin_of("load.wet_weight_kg")["name"]
    'Weight in water'
    """
    found = _origin(re.sub(r"\[\d*\]", "", path))
    if found is None:
        raise CallError(f"the plan has no number {path[:80]!r}")
    return found


def kind_of(path: str) -> str:
    """Give the kind of a number by the end of its key.

    Parameters
    ----------
    path : str
        Path in the plan.

    Returns
    -------
    str
        A kind of the table of shown kinds; empty for a plain number.

    Examples
    --------
    >>> kind_of("ascent.fall.keep_clear_m"), kind_of("dives[1].oxygen.dose_otu")
    ('length', '')
    """
    last = re.sub(r"\[\d*\]", "", path).rsplit(".", 1)[-1]
    if last.startswith(_WORDS):
        return "share"
    if last.startswith("minutes"):
        return "minutes"
    return next((kind for end, kind in _UNITS if last.endswith(end) or f"_{last}" == end), "") if last != "n" else ""


@lru_cache(maxsize=4096)
def _origin(bare: str) -> dict[str, Any] | None:
    for pattern, row in _rows():
        if pattern.fullmatch(bare):
            return {**row, "name": f"{row['name']} ({_last_words(bare)})"} if pattern.groups else row
    return None


def _last_words(bare: str) -> str:
    """The last key without its unit, in words."""
    last = bare.rsplit(".", 1)[-1]
    end = next((unit for unit, _ in _UNITS if unit.startswith("_") and last.endswith(unit)), "")
    return last.removesuffix(end).replace("_", " ")


@cache
def _rows() -> tuple[tuple[re.Pattern[str], dict[str, Any]], ...]:
    text = files("parbuckle.data").joinpath("numbers.toml").read_text(encoding="utf-8")
    return tuple((_pattern(glob), row) for glob, row in tomllib.loads(text).items())


def _pattern(glob: str) -> re.Pattern[str]:
    escaped = re.escape(glob).replace(r"\*\*", "(.*)").replace(r"\*", "([^.]*)")
    return re.compile(escaped)


def _at(document: Document, path: str) -> Any:
    """Follow a path; it must end at a number, a time or a band."""
    here: Any = document
    for row, key in _STEP.findall(path):
        try:
            here = here[_place(row)] if row else here[key]
        except (KeyError, IndexError, TypeError):
            raise CallError(f"the plan has no number {path[:80]!r}") from None
    if isinstance(here, Mapping) and set(here) >= _BAND:
        return here
    if here is None or isinstance(here, (bool, list, Mapping)):
        raise CallError(f"{path[:80]!r} is no number of the plan")
    return here


def _place(row: str) -> int:
    """Rows count from 1."""
    if int(row) == 0:
        raise IndexError(row)
    return int(row) - 1


def safe_texts(value: float, kind: str, side: str, units: str) -> tuple[str, str]:
    """Show a limit that must be kept, rounded to the safe side, in both unit systems.

    Parameters
    ----------
    value : float
        In the base unit of the kind.
    kind : str
        Kind of the table of shown kinds.
    side : str
        ``up``, ``down`` or ``gauge`` (up, to what a gauge can be read to).
    units : str
        The chosen system, which comes first.

    Returns
    -------
    tuple of str
        Such as ``12 m`` and ``40 ft``.

    Examples
    --------
    >>> [text.split() for text in safe_texts(12.2, "length", "up", "metric")]
    [['13', 'm'], ['41', 'ft']]
    """
    other = "imperial" if units == "metric" else "metric"
    if side == "gauge":
        return gauge(value, units), gauge(value, other)
    figures_of = Figures(units)
    return figures_of.safe(value, kind, side == "up"), figures_of.safe(value, kind, side == "up", other=True)


def _shown(document: Document, value: Any, kind: str, side: str | None) -> str:
    if side and isinstance(value, (int, float)):
        first, second = (text.replace(THIN, " ") for text in safe_texts(value, kind, side, document["case"]["units"]))
        return first if first == second else f"{first} ({second})"
    if isinstance(value, Mapping):
        if kind:
            return band(document, value, kind)
        low, likely, high = (_plain(value[key]) for key in ("low", "likely", "high"))
        return likely if low == likely == high else f"{likely} ({low} to {high})"
    return one(document, value, kind) if kind and not isinstance(value, str) else _plain(value)


def _plain(value: Any) -> str:
    return figures(value, 4) if isinstance(value, float) else str(value)


def _inputs(
    document: Document, keys: list[str], case: Document | None, kit: Document | None
) -> Iterator[dict[str, str]]:
    """What drives the weight comes with its share; other keys with what was typed below them."""
    written = _written(case, kit)
    for key in keys:
        if key == "drivers":
            for row in document.get("load", {}).get("drivers", []):
                yield {"key": row["key"], "text": f"{row['input']}: {row['share']:.0%} of the spread of the weight"}
            continue
        below = [(name, text) for name, text in written.items() if _is_below(name, key)]
        for name, text in below:
            yield {"key": name, "text": text}
        if not below:
            yield {"key": key, "text": "not told" if written else ""}


def _is_below(name: str, key: str) -> bool:
    bare = re.sub(r"\[\d+\]", "", name)
    return bare == key or bare.startswith(f"{key}.")


def _written(case: Document | None, kit: Document | None) -> dict[str, str]:
    """Every leaf that was typed, by its key."""
    found = dict(_leaves(case, "")) if case is not None else {}
    return found | (dict(_leaves(kit, "kit.")) if kit is not None else {})


def _leaves(written: Any, path: str) -> Iterator[tuple[str, str]]:
    rows = written.items() if isinstance(written, Mapping) else ()
    for key, value in rows:
        yield from _leaf(value, f"{path}{key}")


def _leaf(value: Any, path: str) -> Iterator[tuple[str, str]]:
    if isinstance(value, Mapping):
        yield from _leaves(value, f"{path}.")
    elif isinstance(value, list):
        for number_of_row, row in enumerate(value, 1):
            yield from _leaf(row, f"{path}[{number_of_row}]")
    elif value is not None:
        yield path, str(value)
