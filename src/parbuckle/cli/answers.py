"""The answers of a plan as rows for the terminal: a label and what follows from it, in the order of page one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from parbuckle.brief.range_line import text_line

_WIDE = 96  # columns from which the range line is long
_LINE, _SHORT_LINE = 38, 20  # signs of the range line on a wide and on a narrow screen


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
        ("Abort", [Text(view["abort_action"], style="bold")]),
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
    return [line.append("".join(f" · {text}" for text in clock["known"]))]


def _weight(weight: Mapping[str, Any] | None, signs: int) -> list[RenderableType]:
    if weight is None:
        return [Text("not known")]
    parts, line = weight["parts"], weight["line"]
    drawn = Table.grid(padding=(0, 2))
    heads = [
        Text.assemble((f"{parts['number']} {parts['unit']}", "bold"), f" {parts['range']}"),
        Text(weight["required"]),
    ]
    ends = [_with("   | {}", line["ceiling_label"]), ""]
    for row, head, end in zip(line["rows"], heads, ends, strict=False):
        drawn.add_row(head, Text(text_line(row, signs, line["ceiling"])), Text(f"{row['label']}{end}", style="dim"))
    words = [parts["other"] + ".", f"{weight['of']}: {weight['basis']}.", weight["disagree"], *weight["notes"]]
    return [drawn, Text(" ".join(word for word in words if word))]


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
    words = " ".join(let_go[key] for key in ("after", "most", "by", "catches") if let_go[key])
    left = Text.assemble((number, "bold"), f" {parts['range']} {words} ")
    held = Text.assemble((state, "bold"), f"{let_go['sentence']} {let_go['rate']} ".lstrip(), (let_go["rule"], "bold"))
    return [left.append(held)]


def _gas(gas: Mapping[str, Any] | None) -> list[RenderableType]:
    if gas is None:
        return [Text("not known")]
    told = [row for row in gas["rows"] if not row["label"].startswith("Gauge after")]  # the bags' rows tell it
    rows = ". ".join(f"{row['label']} {row['value']}" for row in told)
    head = Text.assemble((gas["id"], "bold"), f" {gas['what']}. ", (gas["tries"], "bold"), f" {gas['rule']} ")
    return [head.append(f"{rows}." if rows else "")]


def _person(person: Mapping[str, str]) -> str:
    return f"{person['name']} {person['role']}"


def _steps(columns: Sequence[Sequence[Mapping[str, Any]]]) -> list[RenderableType]:
    steps = [step for column in columns for step in column]
    if not steps:
        return []
    points = [step for step in steps if step["stop_point"]]
    head = f"{len(steps)} steps, with the signals and the abort list, are on the brief. Stop points:"
    return [Text(head), *(_stop_point(step) for step in points)]


def _stop_point(step: Mapping[str, Any]) -> Text:
    check = f"; {step['check']} checks" if step["check"] else ""
    return Text.assemble((f"{step['n']:>2} ", "bold"), step["text"], (f" {step['who']}{check}", "dim"))


def _emergency(rows: Sequence[Mapping[str, str]]) -> list[RenderableType]:
    return [Text(". ".join(f"{row['label']}: {row['value']}" for row in rows) + ".")]
