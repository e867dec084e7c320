"""The answer of ``dive`` on one screen: the states first, then each dive in its rows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from textwrap import wrap
from typing import Any

from rich.console import Console, RenderableType
from rich.rule import Rule
from rich.table import Table
from rich.text import Text

from parbuckle.brief.dive_rows import dive_rows
from parbuckle.brief.frame import frame
from parbuckle.brief.states import state_rows
from parbuckle.cli.screen import WIDEST

_WIDEST_LABEL, _LEAST = "Emergency", 20
_NONE = "No dive has a task: write who does what, and for how long."


def show(document: Mapping[str, Any], console: Console) -> None:
    """Show the dives on one screen.

    Parameters
    ----------
    document : mapping
        The dive document, or a whole plan.
    console : Console
        Where to write; without a terminal the text is plain.
    """
    width, stands = min(console.width, WIDEST), frame(document, "")
    console.print(Text.assemble((stands["title"], "bold"), (" · dives", "dim")), width=width)
    console.print(_table(_states(document), width), width=width)
    units = document["case"].get("units", "metric")
    for dive in document["dives"]:
        console.print(Rule(style="dim", characters="─"), width=width)
        console.print(Text(_head(dive), style="bold"), width=width)
        console.print(_table(dive_rows(dive, units), width), width=width)
    console.print(Rule(style="dim", characters="─"), width=width)
    console.print(Text(_foot(document, stands), style="dim"), width=width)


def _head(dive: Mapping[str, Any]) -> str:
    start = str(dive["start"] or "no start planned").replace("T", " ")[:16]
    return f"{dive['label'].capitalize()}, {start}"


def _states(document: Mapping[str, Any]) -> list[tuple[str, str]]:
    states = state_rows(document)
    rows = [("⯃ STOP", f"{row['text']} {row['do']}".strip()) for row in states["stops"]]
    rows += [("[?]", row["text"]) for row in states["unanswered"]]
    rows += [("△", row["text"]) for row in states["cautions"]]
    return rows or [("", states["line"])]


def _foot(document: Mapping[str, Any], stands: Mapping[str, Any]) -> str:
    dives = document["dives"]
    first = dives[0]["caution"] if dives else _NONE
    return " ".join([first, *stands["cautions"]])


def _table(rows: Iterable[tuple[str, str]], width: int) -> RenderableType:
    """Labels and texts; lines never end between a number and its unit, which a narrow space joins."""
    table = Table.grid(padding=(0, 1))
    table.add_column(no_wrap=True, min_width=len(_WIDEST_LABEL))
    table.add_column()
    before, room = "", max(width - len(_WIDEST_LABEL) - 1, _LEAST)
    for label, text in rows:
        lines = "\n".join(wrap(text, room, break_on_hyphens=False))
        table.add_row(Text("" if label == before else label, style="bold"), Text(lines))
        before = label
    return table
