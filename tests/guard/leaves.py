"""Leaves of a case or kit file: walk them, change them by their looks, write the file again."""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from typing import Any

Leaf = tuple[str | int, ...]

WORDS: dict[str, tuple[Any, ...]] = {
    "purpose": ("training", "recovery"),
    "rules": ("commercial", "teaching"),
    "units": ("imperial",),
    "water": ("sea", "fresh"),
    "depth_how": ("sounded", "chart datum"),
    "bottom": ("rock", "sand"),
    "material": ("lead", "steel"),
    "how": ("weighed", "touched", "told"),
    "shape": ("cone", "ellipsoid", "sphere"),
    "known_as": ("anchor, 30 kg",),
    "sure": ("guess", "sure"),
    "sums": ("on the day",),
    "method": ("unaccompanied", "bag and line", "carried"),
    "bags": (["P50"],),
    "cylinder_goes": ("on the load", "with the bag tender"),
    "hitch": ("choke", "basket", "straight"),
    "to": ("bag",),
    "does": ("search", "lift"),
    "role": ("supervisor", "standby diver", "rigger", "boat", "tender", "bag tender", "load tender", "searcher"),
    "may": ("boat", "rigger"),
    "effort": ("rest", "easy", "work"),
    "gas": ("EAN32", "air"),
    "style": ("open", "closed"),
    "use": ("lifting", "breathing"),
    "kind": ("carabiner",),
    "country": ("CA",),
    "do": ("rig",),
}
"""Other words of the closed lists of the format, and telling ones of the open lists, by the last key of a leaf."""

_NUMBER = re.compile(r"\d+(?:\.\d+)?")


def leaves(data: Any, path: Leaf = ()) -> Iterator[tuple[Leaf, Any]]:
    """Walk all values that are no table and no list."""
    if isinstance(data, dict):
        for key, value in data.items():
            yield from leaves(value, (*path, key))
    elif isinstance(data, list):
        for row, value in enumerate(data):
            yield from leaves(value, (*path, row))
    else:
        yield path, data


def changes(value: Any, key: str = "") -> Iterator[Any]:
    """Give other values of the same looks; for the last key of the leaf, other words of its list first."""
    if isinstance(value, bool):
        yield not value
    elif isinstance(value, datetime):
        yield from (value + timedelta(minutes=m) for m in (40, -40, 60 * 24 * 40, -60 * 24 * 40))
    elif isinstance(value, date):
        yield from (value + timedelta(days=d) for d in (-40, 400, -400))
    elif isinstance(value, int):
        yield from (value + 1, value + 40)
    elif isinstance(value, float):
        yield from (value * 1.1, value * 0.9, value + 1e-4)  # the last: a place some metres off
    elif _NUMBER.match(value):
        yield from (_NUMBER.sub(lambda m, f=factor: _times(m[0], f), value) for factor in (1.1, 0.4, 4.0, 10.0, 0.1))
        yield from (f"{value} x", "unknown")
    else:
        yield from (word for word in WORDS.get(key, ()) if word != value)
        yield from (f"{value} x", "unknown", "no", "yes")


def _times(number: str, factor: float) -> str:
    return f"{(float(number) or 2.0) * factor:.6g}"


def put(data: dict[str, Any], path: Leaf, value: Any) -> dict[str, Any]:
    """Give a copy with another value in one place."""
    new = copy.deepcopy(data)
    place: Any = new
    for key in path[:-1]:
        place = place.setdefault(key, {}) if isinstance(place, dict) else place[key]
    place[path[-1]] = value
    return new


def renamed(data: Any, old: str, new: str) -> Any:
    """Give a copy in which a name reads otherwise wherever it stands."""
    if isinstance(data, dict):
        return {key: renamed(value, old, new) for key, value in data.items()}
    if isinstance(data, list):
        return [renamed(value, old, new) for value in data]
    return new if data == old else data


def toml(data: dict[str, Any]) -> str:
    """Write a file that reads back to the same data."""
    return "".join(f"{json.dumps(key)} = {_inline(value)}\n" for key, value in data.items())


def _inline(value: Any) -> str:
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{json.dumps(k)} = {_inline(v)}" for k, v in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(map(_inline, value)) + "]"
    if isinstance(value, (datetime, date)):
        return value.isoformat()
    return json.dumps(value, ensure_ascii=False)
