"""A docstring is a contract: documentation held against signature, for everything public in a module."""

from __future__ import annotations

import dataclasses
import inspect
import re
from collections.abc import Iterator
from types import ModuleType
from typing import Any

_HEADING = re.compile(r"^(\w[\w ]*)\n-{3,}$", re.MULTILINE)
_NOTHING = {None, "None", "NoReturn", "Never", type(None)}


def broken_contracts(module: ModuleType) -> list[str]:
    """List what is wrong with the documentation of a module's public names."""
    found = [] if inspect.getdoc(module) else [f"{module.__name__}: no docstring"]
    for name, thing in _public(module):
        found += [f"{module.__name__}.{name}: {fault}" for fault in _faults(thing)]
    return found


def _public(module: ModuleType) -> Iterator[tuple[str, Any]]:
    for name, thing in vars(module).items():
        if name.startswith("_") or getattr(thing, "__module__", None) != module.__name__:
            continue
        if inspect.isclass(thing):
            yield name, thing
            yield from (
                (f"{name}.{k}", v) for k, v in vars(thing).items() if _is_told(k, v) and not _of_port(thing, k, v)
            )
        elif inspect.isfunction(inspect.unwrap(thing)) if callable(thing) else False:
            yield name, thing


def _is_told(name: str, value: Any) -> bool:
    own = (
        inspect.isfunction(inspect.unwrap(value))
        if callable(value)
        else isinstance(value, (property, classmethod, staticmethod))
    )
    return own and not name.startswith("_")


def _of_port(thing: type, name: str, method: Any) -> bool:
    """Say whether a method only keeps what a protocol promises: there its contract stands, with the same signature."""
    ports = [base for base in thing.__mro__[1:] if getattr(base, "_is_protocol", False) and name in vars(base)]
    return any(inspect.signature(vars(port)[name]) == inspect.signature(method) for port in ports)


def _faults(thing: Any) -> list[str]:
    text = inspect.cleandoc(_doc(thing) or "")
    if not text:
        return ["no docstring"]
    if isinstance(thing, property):
        return []
    sections = _sections(text)
    told = _names(sections.get("Parameters", ""))
    asked = _parameters(thing)
    faults = [] if _HEADING.split(text)[0].strip() else ["no first sentence"]
    faults += [] if asked is None or told == asked else [f"documented {told}, signature {asked}"]
    if _gives(thing) and not {"Returns", "Yields"} & sections.keys():
        faults.append("no Returns section")
    return faults


def _doc(thing: Any) -> str | None:
    return thing.__dict__.get("__doc__") if inspect.isclass(thing) else thing.__doc__


def _sections(text: str) -> dict[str, str]:
    parts = _HEADING.split(text)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def _names(section: str) -> list[str]:
    heads = [line.partition(" :")[0] for line in section.splitlines() if line and not line[0].isspace()]
    return [name.strip().lstrip("*\\") for head in heads for name in head.split(",")]


def _parameters(thing: Any) -> list[str] | None:
    """Names that the documentation must hold; None where another rule applies."""
    if inspect.isclass(thing):
        return _class_parameters(thing)
    function = thing.__func__ if isinstance(thing, (classmethod, staticmethod)) else thing
    names = [n for n in inspect.signature(function).parameters if not n.startswith("_")]
    return names[1:] if names[:1] in (["self"], ["cls"]) else names


def _class_parameters(thing: type) -> list[str] | None:
    if getattr(thing, "_is_protocol", False):
        return None
    if dataclasses.is_dataclass(thing):
        return [f.name for f in dataclasses.fields(thing) if f.init and not f.name.startswith("_")]
    if "__init__" in vars(thing) and hasattr(vars(thing)["__init__"], "__code__"):
        return list(inspect.signature(vars(thing)["__init__"]).parameters)[1:]
    return None


def _gives(thing: Any) -> bool:
    if inspect.isclass(thing):
        return False
    function = thing.__func__ if isinstance(thing, (classmethod, staticmethod)) else inspect.unwrap(thing)
    return function.__annotations__.get("return") not in _NOTHING


def undescribed_fields(model: Any) -> list[str]:
    """List the fields of a case model that have no description."""
    return [f"{model.__name__}.{name}" for name, field in model.model_fields.items() if not field.description]
