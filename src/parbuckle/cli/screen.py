"""The answer of ``plan`` on one terminal screen: the order of page one, states as shape and word, no colour needed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from rich.console import Console, RenderableType
from rich.rule import Rule
from rich.table import Table
from rich.text import Text

from parbuckle.brief.first_page import first_page
from parbuckle.brief.frame import frame
from parbuckle.cli.answers import answers

WIDEST = 110
"""Columns beyond which a line is too long to read."""

_SHAPES = {"stop": "⯃ STOP", "unanswered": "[?] UNANSWERED", "caution": "△ CAUTION"}


def show(document: Mapping[str, Any], console: Console) -> None:
    """Show a plan on one screen.

    Parameters
    ----------
    document : mapping
        The plan document.
    console : Console
        Where to write; without a terminal the text is plain.
    """
    width = min(console.width, WIDEST)
    view, stands = first_page(document), frame(document, "")
    console.print(_title(stands), width=width)
    for block in _states(view["states"]):
        console.print(block, width=width)
    console.print(Rule(style="dim", characters="─"), width=width)
    console.print(answers(view, width), width=width)
    console.print(Rule(style="dim", characters="─"), width=width)
    console.print(_footer(stands), width=width)


def _title(stands: Mapping[str, Any]) -> RenderableType:
    row = Table.grid(expand=True, padding=(0, 2))
    row.add_column(ratio=1)
    row.add_column(justify="right")
    row.add_row(Text(stands["title"], style="bold"), Text(stands["version"], style="dim"))
    row.add_row(Text(stands["subtitle"], style="dim"), Text(""))
    return row


def _states(states: Mapping[str, Any]) -> list[RenderableType]:
    lifted = [
        _hanging(Text("Stop lifted", style="bold"), f"{row['text']} {row['lifted']}.") for row in states["lifted"]
    ]
    open_ones = _together("unanswered", states["unanswered"], "bold")
    return [*_stops(states), *lifted, *open_ones, *_together("caution", states["cautions"], "")]


def _stops(states: Mapping[str, Any]) -> list[RenderableType]:
    if not states["stops"]:
        return [Text(states["line"], style="bold")]
    return [_state("stop", f"{row['text']} {row['do']}".strip(), "bold reverse") for row in states["stops"]]


def _together(level: str, rows: Sequence[Mapping[str, str]], style: str) -> list[RenderableType]:
    shape = _SHAPES[level].split()[0]
    return [_state(level, f" {shape} ".join(row["text"] for row in rows), style)] if rows else []


def _state(level: str, text: str, style: str) -> RenderableType:
    return _hanging(Text(_SHAPES[level], style=style), text)


def _hanging(head: Text, text: str) -> RenderableType:
    row = Table.grid(padding=(0, 1))
    row.add_column(no_wrap=True, min_width=len("[?] UNANSWERED"))
    row.add_column()
    row.add_row(head, Text(text))
    return row


def _footer(stands: Mapping[str, Any]) -> RenderableType:
    return Text(" ".join(stands["cautions"]), style="dim")
