"""The answers of a plan as rows for the terminal: a label and what follows from it, in the order of page one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from parbuckle.brief.range_line import text_line

_WIDE = 96  # columns from which the range line is long
_LINE, _SHORT_LINE = 50, 34  # signs of the range line on a wide and on a narrow screen


def answers(view: Mapping[str, Any], width: int) -> RenderableType:
    """Lay the answers out, label at the left.

    Parameters
    ----------
    view : mapping
        Page one, already formatted.
    width : int
        Columns of the screen.

    Returns
    -------
    rich.console.RenderableType
        What the console prints.
    """
    rows = Table.grid(padding=(0, 1))
    rows.add_column(no_wrap=True, min_width=len("Emergency"))
    rows.add_column()
    parts = (
        ("Method", _method(view["method"])),
        ("Clock", _clock(view["clock"])),
        ("Weight", _weight(view["weight"], _SHORT_LINE if width < _WIDE else _LINE)),
        ("Bags", _bags(view["bags"])),
        ("Lets go", _let_go(view["let_go"])),
        ("Lift gas", _gas(view["gas"])),
        ("People", [Text(", ".join(map(_person, view["people"])))]),
        ("Steps", _steps(view["steps"])),
        ("Signals", [Text(", ".join(view["signals"]))]),
        ("Abort", [Text(" ".join(view["abort"])), Text(view["abort_action"], style="bold")]),
        ("Emergency", _emergency(view["emergency"])),
    )
    for label, blocks in parts:
        _add(rows, label, _said(blocks))
    return rows


def _add(rows: Table, label: str, blocks: Sequence[RenderableType]) -> None:
    for number, block in enumerate(blocks):
        rows.add_row(Text("" if number else label, style="bold"), block)


def _said(blocks: Iterable[RenderableType]) -> list[RenderableType]:
    return [block for block in blocks if not isinstance(block, Text) or block.plain.strip()]


def _method(method: Mapping[str, str]) -> list[RenderableType]:
    other = _with("; proposed: {}", method["proposed"])
    whose = _with(" ({})", method["whose"] + other)
    return [Text.assemble((method["name"], "bold"), whose, ". ", method["why"])]


def _clock(clock: Mapping[str, Any]) -> list[RenderableType]:
    line = Text()
    for number, row in enumerate(clock["rows"]):
        line.append("   " if number else "").append(f"{row['label']} ").append(row["time"], style="bold")
        line.append(f" {row['day']}" if row["day"] and not number else "", style="dim")
    return [line, Text(" ".join(clock["known"]))]


def _weight(weight: Mapping[str, Any] | None, signs: int) -> list[RenderableType]:
    if weight is None:
        return [Text("not known")]
    parts, line = weight["parts"], weight["line"]
    number = Text.assemble(
        (f"{parts['number']} {parts['unit']}", "bold"), f" {parts['range']}   ", (parts["other"], "dim")
    )
    drawn = [
        Text.assemble(text_line(row, signs, line["ceiling"]), (f"  {row['label']}{after}", "dim"))
        for row, after in zip(
            line["rows"], (_with("   | {}", line["ceiling_label"]), f" {weight['required']}"), strict=False
        )
    ]
    words = [f"{weight['of']}: {weight['basis']}.", weight["disagree"], *weight["notes"]]
    return [number, *drawn, Text(" ".join(word for word in words if word))]


def _bags(bags: Mapping[str, Any]) -> list[RenderableType]:
    if not bags["rows"]:
        return [Text("none chosen")]
    table = Table.grid(padding=(0, 2))
    for bag in bags["rows"]:
        gauge = _with("gauge then {}", bag["gauge"])
        table.add_row(Text(bag["id"], style="bold"), Text(bag["mark"]), Text(bag["seconds"]), Text(gauge, style="dim"))
    stop = _with("Stop filling at {} of lift. ", bags["ceiling"])
    why, floats = _with("Ceiling: {}. ", bags["ceiling_from"]), _with("Floats once free: {}.", bags["floats"])
    return [table, Text.assemble((stop, "bold"), why, floats)]


def _with(words: str, value: str) -> str:
    return words.format(value) if value else ""


def _let_go(let_go: Mapping[str, Any] | None) -> list[RenderableType]:
    if let_go is None:
        return [Text("not known")]
    parts = let_go["parts"] or {"number": "not known", "unit": "", "range": "", "other": ""}
    number = f"{parts['number']} {parts['unit']}".strip()
    state = f"State: {let_go['state']}. " if let_go["state"] else ""
    return [
        Text.assemble(
            (number, "bold"), f" {parts['range']} left over. {let_go['most']} Caught by: {let_go['catches']}"
        ),
        Text.assemble((state, "bold"), let_go["sentence"]),
        Text.assemble(f"{let_go['rate']} ".lstrip(), (let_go["rule"], "bold")),
    ]


def _gas(gas: Mapping[str, Any] | None) -> list[RenderableType]:
    if gas is None:
        return [Text("not known")]
    rows = ". ".join(f"{row['label']} {row['value']}" for row in gas["rows"])
    return [
        Text.assemble((gas["id"], "bold"), f" {gas['what']}. ", (gas["tries"], "bold"), f" {gas['rule']}"),
        Text(f"{rows}." if rows else ""),
    ]


def _person(person: Mapping[str, str]) -> str:
    gas = f" on {person['gas']}" if person["gas"] else ""
    return f"{person['name']} {person['role']}{gas}"


def _steps(columns: Sequence[Sequence[Mapping[str, Any]]]) -> list[RenderableType]:
    steps = [step for column in columns for step in column]
    if not steps:
        return []
    points = [step for step in steps if step["stop_point"]]
    return [Text(f"{len(steps)} steps, all on the brief. Stop points:"), *(_stop_point(step) for step in points)]


def _stop_point(step: Mapping[str, Any]) -> Text:
    check = f"; {step['check']} checks" if step["check"] else ""
    return Text.assemble((f"{step['n']:>2} ", "bold"), step["text"], (f" {step['who']}{check}", "dim"))


def _emergency(rows: Sequence[Mapping[str, str]]) -> list[RenderableType]:
    return [Text(". ".join(f"{row['label']}: {row['value']}" for row in rows) + ".")]
