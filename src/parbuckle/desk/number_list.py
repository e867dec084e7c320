"""All numbers of a plan as they are shown: in the chosen units first, the band apart from what is likely."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from parbuckle.desk.numbers import kind_of, origin_of, safe_texts
from parbuckle.quantity.errors import CallError
from parbuckle.quantity.rounding import figures
from parbuckle.quantity.shown import SHOWN, both, show_band

Document = Mapping[str, Any]

WORDS_ONLY = frozenset({
    "schema", "program", "case", "sums", "sources", "find_out_first", "measure_again", "findings", "unanswered",
    "slate", "cautions_footer", "sketch", "asked", "agreed", "emergency", "people", "steps", "signals", "abort",
})  # fmt: skip
"""Sections that hold no number of their own."""

_DRAWN = ("fan", "map")
_MOST_ROWS = 40
_FIGURES = 4


def number_list(document: Document) -> list[dict[str, Any]]:
    """List the numbers of a plan, each as it is shown.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    list of dict
        ``path`` (rows count from 1), ``name``, ``likely`` (with its unit), ``band`` (``34 to 40``; empty where there is
        none), ``also`` (the same in the other units; empty where it reads the same), ``value`` (all of it in one text),
        ``range`` (low, likely, high in the unit of the plan, or null) and ``section`` of the method.
    """
    found = []
    for section, value in document.items():
        for path, leaf in () if section in WORDS_ONLY else _leaves(value, section):
            line = _line(document, path, leaf)
            if line is not None:
                found.append(line)
    return found


def _line(document: Document, path: str, leaf: Any) -> dict[str, Any] | None:
    try:
        row = origin_of(path)
    except CallError:
        return None
    kind, is_band = row.get("kind", kind_of(path)), isinstance(leaf, Mapping)
    first, second = _texts(document, leaf, kind, row.get("safe"))
    likely, _, band = first.partition(" (")
    return {
        "path": path,
        "name": row["name"],
        "likely": likely if is_band else first,
        "band": band.removesuffix(")") if is_band else "",
        "also": "" if first == second else second,
        "value": first if first == second else f"{first}, {second}",
        "range": _numbers(leaf) if is_band else None,
        "section": row["section"],
    }


def _numbers(leaf: Mapping[str, Any]) -> list[float] | None:
    """Low, likely, high; None where they are times of day."""
    three = [leaf[key] for key in ("low", "likely", "high")]
    return None if any(isinstance(one, str) for one in three) else three


def _texts(document: Document, leaf: Any, kind: str, side: str | None) -> tuple[str, str]:
    units = document["case"]["units"]
    if side and isinstance(leaf, (int, float)):
        return safe_texts(leaf, kind, side, units)
    other = "imperial" if units == "metric" else "metric"
    if kind not in SHOWN:
        text = _plain_band(leaf) if isinstance(leaf, Mapping) else _plain(leaf)
        return text, text
    if isinstance(leaf, Mapping):
        return show_band(leaf, kind, units), show_band(leaf, kind, other)
    return both(leaf, kind, units)


def _plain_band(leaf: Mapping[str, float]) -> str:
    low, likely, high = (_plain(leaf[key]) for key in ("low", "likely", "high"))
    return likely if low == likely == high else f"{likely} ({low} to {high})"


def _plain(value: Any) -> str:
    return figures(value, _FIGURES) if isinstance(value, float) else str(value)


def _leaves(value: Any, path: str) -> Iterator[tuple[str, Any]]:
    """Walk to numbers and bands; lists of bare numbers are drawings, and very long tables too."""
    if isinstance(value, Mapping):
        if {"low", "likely", "high"} <= set(value):
            yield path, value
            return
        for key, inner in value.items():
            if key not in _DRAWN:
                yield from _leaves(inner, f"{path}.{key}")
    elif isinstance(value, list) and len(value) <= _MOST_ROWS:
        for row, inner in enumerate(value, 1):
            if isinstance(inner, Mapping):
                yield from _leaves(inner, f"{path}[{row}]")
    elif isinstance(value, (int, float)) and not isinstance(value, bool):
        yield path, value
