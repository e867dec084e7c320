"""The answer of ``ascent`` on one small screen: the state first, then what to do, numbers as bands, what would help."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from rich.console import Console, RenderableType
from rich.rule import Rule
from rich.table import Table
from rich.text import Text

from parbuckle.brief.control_view import control_view
from parbuckle.brief.figures import Figures, figures_of
from parbuckle.brief.first_page import first_page
from parbuckle.brief.frame import frame
from parbuckle.brief.other_ways import other_ways
from parbuckle.brief.states import state_rows
from parbuckle.cli.screen import WIDEST

_FIRST = ("Up in", "Fastest", "Arrives at")
_CHANGES = 4  # the few that help most come first

Row = tuple[str, Text]


def show(document: Mapping[str, Any], console: Console) -> None:
    """Show the way up on one small screen.

    Parameters
    ----------
    document : mapping
        The ascent document, or a whole plan.
    console : Console
        Where to write; without a terminal the text is plain.
    """
    width = min(console.width, WIDEST)
    stands, control = frame(document, ""), control_view(document)
    console.print(_title(stands), width=width)
    console.print(_state(document, control), width=width)
    console.print(Rule(style="dim", characters="─"), width=width)
    console.print(_table([*_stops(document), *_set(document), *_rows(document, control)]), width=width)
    console.print(Rule(style="dim", characters="─"), width=width)
    console.print(Text(" ".join(_foot(control, stands)), style="dim"), width=width)


def _title(stands: Mapping[str, Any]) -> RenderableType:
    row = Table.grid(expand=True, padding=(0, 2))
    row.add_column(ratio=1)
    row.add_column(justify="right")
    row.add_row(Text.assemble((stands["title"], "bold"), (" · ascent", "dim")), Text(stands["version"], style="dim"))
    return row


def _state(document: Mapping[str, Any], control: Mapping[str, Any] | None) -> Text:
    told = control or ((document.get("ascent") or {}).get("words") or {})
    if not told.get("state"):
        return Text(_nothing(document), style="bold")
    return Text.assemble((f"{told['state'].upper()}.", "bold"), f" {told['sentence']}")


def _nothing(document: Mapping[str, Any]) -> str:
    lift, down = document.get("lift") or {}, (document.get("ascent") or {}).get("lowering") or {}
    if down:
        return f"Put down: {down.get('way')}."
    if lift.get("bags") or not lift.get("method"):
        return "Not worked out: bags, lines and cylinders are not known. Name the kit."
    return f"{lift['method'].capitalize()}: no bag goes up. To look at a set of bags, add --bags ID,ID."


def _table(rows: Iterable[Row]) -> RenderableType:
    table = Table.grid(padding=(0, 1))
    table.add_column(no_wrap=True, min_width=len("Emergency"))
    table.add_column()
    before = ""
    for label, text in rows:
        table.add_row(Text("" if label == before else label, style="bold"), text)
        before = label
    return table


def _stops(document: Mapping[str, Any]) -> list[Row]:
    states = state_rows(document)
    stops = [("⯃ STOP", Text(f"{row['text']} {row['do']}".strip(), style="bold")) for row in states["stops"]]
    left = len(states["unanswered"])
    return [*stops, ("[?]", Text(f"{left} questions are not answered; see the plan."))] if left else stops


def _set(document: Mapping[str, Any]) -> list[Row]:
    lift = document.get("lift") or {}
    if not lift.get("bags"):
        return []
    words = ", ".join(f"{bag['id']} {bag['fill']}" for bag in lift["bags"])
    return [("Bags", Text.assemble((words, "bold"), f". {str(lift.get('method') or '').capitalize()}."))]


def _rows(document: Mapping[str, Any], control: Mapping[str, Any] | None) -> list[Row]:
    others = other_ways(document)
    line, down = others["line"], others["down"]
    alone = [] if line or down else _alone(document)
    rows = _controlled(control) if control else alone
    return [*rows, *_line(line), *_phases(others["phases"]), *_down(down)]


def _controlled(control: Mapping[str, Any]) -> list[Row]:
    numbers = [row for row in control["numbers"] if row["label"] in _FIRST]
    others = [row for row in control["numbers"] if row["label"] not in _FIRST]
    return [
        ("Do", Text(control["policy"])),
        ("Do", _pairs(control["limits"])),
        ("Let go if", Text(" ".join(control["let_go"]))),
        ("Numbers", _pairs(numbers)),
        ("Numbers", _pairs(others)),
        ("Chances", Text.assemble(_pairs(control["chances"]), f" {control['longest']}")),
        *_policies(control["policies"]),
        *[("Change", _change(row)) for row in control["changes"][:_CHANGES]],
        *_drivers(control["drivers"]),
    ]


def _pairs(rows: Sequence[Mapping[str, str]]) -> Text:
    text = Text()
    for number, row in enumerate(rows):
        text.append(". " if number else "").append(f"{row['label']} ").append(row["value"], style="bold")
    return text.append("." if rows else "")


def _policies(rows: Sequence[Mapping[str, str]]) -> list[Row]:
    text = "; ".join(f"{row['name']} {row['within']}{' (best)' if row['best'] else ''}" for row in rows)
    return [("Dump", Text(f"Within the rate: {text}."))] if rows else []


def _change(row: Mapping[str, str]) -> Text:
    told = [
        f"budget {row['budget']}" if row["budget"] else "",
        f"within the rate {row['within']}" if row["within"] else "",
    ]
    after = ", ".join(text for text in told if text)
    words = row["words"].rstrip(".")
    return Text.assemble((row["what"].capitalize(), "bold"), f": {words}", f" ({after})." if after else ".")


def _drivers(rows: Sequence[Mapping[str, str]]) -> list[Row]:
    text = "; ".join(f"{row['label']} {row['value']}" for row in rows)
    return [("Risk from", Text(f"{text}."))] if rows else []


def _alone(document: Mapping[str, Any]) -> list[Row]:
    """Say how it rises with nobody beside it."""
    page, figures = first_page(document), figures_of(document)
    let_go, told = page["let_go"], (document.get("ascent") or {}).get("left_alone") or {}
    rows = [("Alone", _pairs(_left_alone(told, figures)))] if told else []
    return [("Let go", Text(f"{let_go['rate']} {let_go['rule']}".strip())), *rows] if let_go and told else rows


def _left_alone(told: Mapping[str, Any], figures: Figures) -> list[dict[str, str]]:
    return [
        {"label": "Up in", "value": figures.band(told.get("time_s"), "time")},
        {"label": "Arrives at", "value": figures.band(told.get("arrival_speed_m_s"), "rise")},
    ]


def _line(told: Mapping[str, Any] | None) -> list[Row]:
    if told is None:
        return []
    words = " ".join([*told["words"], told["grow"]])
    parts = [("If it parts", Text(told["parts"], style="bold"))] if told["parts"] else []
    return [("Line", _pairs(told["rows"])), ("Line", Text(words.strip())), *parts]


def _phases(rows: Sequence[Mapping[str, Any]]) -> list[Row]:
    return [(f"Phase {row['n']}", _phase(row)) for row in rows]


def _phase(row: Mapping[str, Any]) -> Text:
    by = f" By: {row['who']}." if row["who"] else ""
    return Text.assemble((f"{row['name']}. ", "bold"), " ".join(row["words"]), by, " ", _pairs(row["rows"]))


def _down(told: Mapping[str, Any] | None) -> list[Row]:
    if told is None:
        return []
    fall = [("Let go", Text(told["fall"], style="bold"))] if told["fall"] else []
    return [("Down", _pairs(told["rows"])), ("Down", Text(" ".join(told["words"]))), *fall]


def _foot(control: Mapping[str, Any] | None, stands: Mapping[str, Any]) -> list[str]:
    people = [control["people"]] if control and control["people"] else []
    return [*people, *stands["cautions"]]
