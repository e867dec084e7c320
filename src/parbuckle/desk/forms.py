"""What can be entered: every key of a case and a kit with its type, units, choices and help, out of the models."""

from __future__ import annotations

import types
from collections.abc import Iterator
from functools import cache
from typing import TYPE_CHECKING, Any, Literal, Union, get_args, get_origin

from parbuckle.desk.form_words import kit_table, label_of, suggestions

if TYPE_CHECKING:
    from parbuckle.case.fields import Key

Field = dict[str, Any]

_SPECIAL = {
    ("search", "only"): "words",
    ("shore", "profile"): "pairs",
    ("exposure", "gradient"): "two_numbers",
    ("account", "sure"): "word",
    ("house",): "table",
    ("person", "may"): "words",
}
_SURE = ("sure", "fairly", "guess")


@cache
def form() -> dict[str, list[Field]]:
    """Give the form of a case and of a kit.

    Returns
    -------
    dict
        ``case`` and ``kit``: lists of sections with ``key``, ``title``, ``rows``, ``help`` and ``fields``. A field has
        ``key``, ``label``, ``help``, ``type``, ``kind``, ``units``, ``choices``, ``open`` (other words are allowed
        too), ``kit`` (table of the kit whose ids fit), ``needed``, ``unknown_ok``, ``default``; a table or rows have
        ``fields``. Shared between callers: not to be changed.
    """
    from parbuckle.case.kit import Kit
    from parbuckle.case.model import Case

    return {"case": _sections(Case), "kit": _sections(Kit)}


def _sections(model: Any) -> list[Field]:
    from parbuckle.case.fields import keys_of

    keys = keys_of(model)
    alone = [_field(key, (name,), model) for name, key in keys.items() if key.below is None and name != "house"]
    top = {"key": "", "title": label_of(("",), True), "rows": False, "help": _first_line(model), "fields": alone}
    sections = [top]
    for name, key in keys.items():
        if key.below is not None or name == "house":
            field = _field(key, (name,), model)
            told = {"help": field["help"], "fields": field["fields"], "field": field["type"]}
            sections.append({"key": name, "title": field["label"], "rows": key.many, **told})
    return sections


def _field(key: Key, path: tuple[str, ...], model: Any) -> Field:
    sort = _type(key, path)
    kind = key.value.kind if key.value else None
    words = _choices(key, path)
    open_words = suggestions(path) if sort == "text" else []
    keeps = bool(getattr(model, "keeps_unknown", False))
    return {
        "key": path[-1],
        "label": label_of(path, key.below is not None),
        "help": key.info.description or "",
        "type": sort,
        "kind": kind,
        "units": _units(kind) if kind else [],
        "choices": words or open_words,
        "open": not words,
        "kit": kit_table(path) if key.below is None else None,
        "needed": key.needed or bool(key.value and key.value.needed),
        "unknown_ok": keeps
        or bool(key.value and not key.value.needed)
        or (not key.needed and key.info.default is None),
        "default": _default(key),
        "fields": _below(key, path),
    }


def _below(key: Key, path: tuple[str, ...]) -> list[Field]:
    from parbuckle.case.fields import keys_of

    if path == ("house",):
        return list(_rules())
    if key.below is None:
        return []
    return [_field(inner, (*path, name), key.below) for name, inner in keys_of(key.below).items()]


def _rules() -> Iterator[Field]:
    """House rules that a case may change, with their defaults."""
    from parbuckle.duties.house import house_rules

    for rule in house_rules():
        yield {
            "key": rule.key,
            "label": label_of(("house", rule.key), False),
            "help": rule.meaning,
            "type": "value",
            "kind": rule.kind,
            "units": _units(rule.kind),
            "choices": [],
            "open": True,
            "kit": None,
            "needed": False,
            "unknown_ok": False,
            "default": rule.default,
            "fields": [],
        }


def _type(key: Key, path: tuple[str, ...]) -> str:
    from parbuckle.case.written import Point

    for end, sort in _SPECIAL.items():
        if path[-len(end) :] == end:
            return sort
    if key.below is not None:
        if key.below is Point:
            return "places" if key.many else "place"
        return "rows" if key.many else "table"
    if key.value is not None:
        return "value"
    if key.when is not None:
        return "time" if key.when.__name__ == "datetime" else "date"
    return _plain(key.info.annotation)


def _plain(annotation: Any) -> str:
    from parbuckle.quantity.breathing import Gas

    parts = [part for part in _parts(annotation) if part is not type(None)]
    first = parts[0]
    if any(get_origin(part) is Literal for part in parts):
        return "number" if get_args(first) == (1,) else "word"
    if get_origin(first) is tuple:
        return "texts"
    return {bool: "flag", int: "number", float: "number", str: "text", Gas: "gas"}[first]


def _parts(annotation: Any) -> tuple[Any, ...]:
    """Alternatives of an annotation, marks taken off."""
    if hasattr(annotation, "__metadata__"):
        return _parts(get_args(annotation)[0])
    if get_origin(annotation) in (Union, types.UnionType):
        return tuple(inner for part in get_args(annotation) for inner in _parts(part))
    return (annotation,)


def _choices(key: Key, path: tuple[str, ...]) -> list[str]:
    if path[-2:] == ("account", "sure"):
        return list(_SURE)
    return [str(word) for part in _literals(key.info.annotation) for word in get_args(part) if isinstance(word, str)]


def _literals(annotation: Any) -> Iterator[Any]:
    if get_origin(annotation) is Literal:
        yield annotation
    for part in get_args(annotation) if get_origin(annotation) is not Literal else ():
        yield from _literals(part)


def _units(kind_name: str) -> list[str]:
    from parbuckle.quantity.kinds import kind

    sort = kind(kind_name)
    units = [f"{word} {sort.suffix}".strip() for word in sort.units]
    marked = [f"{word} {sort.may_suffix}" for word in sort.units if sort.may_suffix]
    return [*sort.names, *units, *marked, *sort.by_person]


def _default(key: Key) -> str | bool | int | None:
    from parbuckle.quantity.breathing import Gas

    default = key.info.default
    if isinstance(default, Gas):
        return default.text
    return default if isinstance(default, (str, bool, int)) else None


def _first_line(model: Any) -> str:
    return (model.__doc__ or "").split("\n")[0]
