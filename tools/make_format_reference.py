"""Write docs/format.md: every key of a case and a kit file, its kind, its units, its default, what it means.

Run: ``python tools/make_format_reference.py`` (``--check`` only compares).
"""

from __future__ import annotations

import sys
import tomllib
import types
from datetime import date
from pathlib import Path
from typing import Any, Literal, Union, get_args, get_origin

from pydantic import AwareDatetime, BaseModel
from pydantic.fields import FieldInfo
from pydantic_core import PydanticUndefined

from parbuckle.case.kit import Kit
from parbuckle.case.model import Case
from parbuckle.case.source import LARGEST, VERSION
from parbuckle.case.written import Value
from parbuckle.quantity.breathing import ALLOWED, Gas
from parbuckle.quantity.kinds import KINDS, Kind, all_kinds
from parbuckle.quantity.units import Unit, from_si

OUT = Path(__file__).resolve().parents[1] / "docs" / "format.md"

HEAD = f"""# The case file and the kit file

<!-- Written by tools/make_format_reference.py from the models. Do not edit it by hand. -->

This is version {VERSION} of the format. A file is TOML, UTF-8, at most {LARGEST // 1_000_000} MB.
The first key is `schema = {VERSION}`. Paths inside a case are relative to the case file. Every section may be left out:
what is missing is listed in the answer, not guessed. An unknown key is an error that suggests the nearest.

## How a value is written

A physical value is a text with its unit: number, spread, unit. The key decides which units it may have.

| written | means |
|---|---|
| `"16 m"` | exact |
| `"46 ± 4 kg"` or `"46 +- 4 kg"` | normal; 19 times in 20 it is within 4 kg |
| `"35..45 kg"` | anything between, all alike |
| `"60..80..120 m"` | lowest, likeliest, highest |
| `"unknown"` | like leaving the key out; the default is named in the answer |

- Digits are 0 to 9, the point is `.`. A comma, a fraction such as `1 1/2`, an exponent and text after the unit are
  refused.
- The ± of a temperature is a difference: `"8 ± 2 degC"`.
- A spread is cut at a physical limit, and the answer says so. Bearings wrap and are never cut: `"355 ± 10 deg"`,
  `"350..370 deg"`. A bearing is true; `"28 ± 8 deg mag"` is magnetic.
- Plain numbers, without quotes: schema, lat, lon, days, tries, legs, count, gradient. Only days may also be a text
  with a spread: `"60..120"`.
- Dates are TOML dates. Times carry their offset from UTC: `2027-04-14T10:00:00+01:00`.
- Yes and no are `true` and `false`. Questions (hazards, permission, emergency) are answered in words;
  `"unknown"` counts as not answered.

## Kinds and their units

| kind | what it is | unit words | limits |
|---|---|---|---|
"""


def reference() -> str:
    """Write the whole text.

    Returns
    -------
    str
        Markdown.
    """
    kinds = "".join(_kind_row(kind) for kind in all_kinds().values())
    gas = f"| gas | a breathing gas | {ALLOWED} | |\n"
    case = "\n## The case file\n" + "".join(_tables(Case, ""))
    kit = "\n## The kit file\n\nWhat a team owns and who they are. A case names it with `kit`.\n" + "".join(
        _tables(Kit, "")
    )
    return HEAD + kinds + gas + case + kit


def _kind_row(kind: Kind) -> str:
    units = ", ".join(f"`{word}`" for word in [*kind.names, *kind.units, *kind.by_person]) or "none"
    if kind.suffix:
        units += f", each with `{kind.suffix}`"
    if kind.may_suffix:
        units += f"; `{kind.may_suffix}` may follow"
    raw = tomllib.loads(KINDS.read_text(encoding="utf-8"))[kind.name]
    limits = "" if kind.wraps or "floor" not in raw else f"{raw['floor']} to {raw['ceiling']}"
    return f"| {kind.name} | {kind.meaning} | {units} | {limits} |\n"


def _number(limit: float, unit: Unit) -> str:
    return f"{round(from_si(limit, unit), 3):.10g}"


def _tables(model: type[BaseModel], path: str) -> list[str]:
    rows, inner = [], []
    for name, info in model.model_fields.items():
        key = info.alias or name
        below, many = _model_in(info.annotation)
        if below is not None:
            inner += _tables(below, f"{path}.{key}".lstrip(".") + ("[]" if many else ""))
        rows.append(
            f"| `{key}` | {_written(info, below, many)} | {_default(info, many)} | {info.description or ''} |\n"
        )
    doc = (model.__doc__ or "").split("\n")[0]
    title = (
        f"\n### {path or 'top of the file'}\n\n{doc}\n\n| key | written as | left out | meaning |\n|---|---|---|---|\n"
    )
    return [title + "".join(rows), *inner]


def _model_in(annotation: Any) -> tuple[type[BaseModel] | None, bool]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation, False
    if get_origin(annotation) in (tuple, Union, types.UnionType):
        for part in get_args(annotation):
            found, many = _model_in(part)
            if found is not None:
                return found, many or get_origin(annotation) is tuple
    return None, False


def _written(info: FieldInfo, below: type[BaseModel] | None, many: bool) -> str:
    if below is not None:
        return "list of tables" if many else "table"
    value = next((mark for mark in info.metadata if isinstance(mark, Value)), None)
    if value is not None:
        sort = all_kinds()[value.kind]
        first = next(iter(sort.units.values()), Unit("", 1.0, 0.0))
        limits = [f"at least {_number(value.floor, first)} {first.word}"] if value.floor is not None else []
        limits += [f"at most {_number(value.ceiling, first)} {first.word}"] if value.ceiling is not None else []
        limits += ["more than 0"] if value.positive else []
        return f"{value.kind}" + (f", {', '.join(limits)}" if limits else "")
    if info.alias == "schema":
        return f"the number {VERSION}"
    return _plain(info.annotation)


def _plain(annotation: Any) -> str:
    names = {
        str: "text",
        int: "whole number",
        float: "number",
        bool: "true or false",
        date: "date",
        AwareDatetime: "time with offset",
    }
    if annotation in names:
        return names[annotation]
    if annotation is Gas:
        return "gas"
    origin, parts = get_origin(annotation), [part for part in get_args(annotation) if part is not type(None)]
    if origin is Literal:
        return " or ".join(f'`"{word}"`' for word in parts)
    if origin is tuple:
        return (
            "list of two numbers"
            if parts == [float, float]
            else f"list of: {_plain(parts[0])}".replace("of: list of: pair", "of pairs")
        )
    if origin is dict:
        return "keys with text, number, true or false"
    if origin in (Union, types.UnionType):
        return " or ".join(dict.fromkeys(_plain(part) for part in parts))
    return _plain(parts[0]) if parts else "pair of lengths"


def _default(info: FieldInfo, many: bool) -> str:
    if info.default is PydanticUndefined:
        return "**needed**"
    if isinstance(info.default, bool):
        return str(info.default).lower()
    if isinstance(info.default, (str, int)):
        return f"`{info.default}`"
    if isinstance(info.default, Gas):
        return f"`{info.default.text}`"
    return "none" if many or info.default in ((), {}) else "unknown"


def main() -> int:
    """Write the file, or with ``--check`` say whether it is current.

    Returns
    -------
    int
        0 when written or current, 1 otherwise.
    """
    text = reference()
    if "--check" in sys.argv:
        return 0 if OUT.read_text(encoding="utf-8") == text else 1
    OUT.write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
