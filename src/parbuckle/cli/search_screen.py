"""The answer of ``search`` on one small screen: where to start and how, its chance, and what is proved."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from rich.console import Console, RenderableType
from rich.rule import Rule
from rich.table import Table
from rich.text import Text

from parbuckle.brief.frame import frame
from parbuckle.brief.search_view import search_view
from parbuckle.brief.states import state_rows
from parbuckle.cli.screen import WIDEST

Row = tuple[str, Text]


def show(document: Mapping[str, Any], console: Console) -> None:
    """Show the search on one small screen.

    Parameters
    ----------
    document : mapping
        The search document, or a whole plan.
    console : Console
        Where to write; without a terminal the text is plain.
    """
    width = min(console.width, WIDEST)
    stands, view = frame(document, ""), search_view(document)
    console.print(_title(stands), width=width)
    console.print(Text(view["headline"], style="bold"), width=width)
    console.print(Rule(style="dim", characters="─"), width=width)
    console.print(_table([*_stops(document), *_rows(view), *_cautions(document)]), width=width)
    console.print(Rule(style="dim", characters="─"), width=width)
    console.print(Text(" ".join(view["foot"]), style="dim"), width=width)


def _title(stands: Mapping[str, Any]) -> RenderableType:
    row = Table.grid(expand=True, padding=(0, 2))
    row.add_column(ratio=1)
    row.add_column(justify="right")
    row.add_row(Text.assemble((stands["title"], "bold"), (" · search", "dim")), Text(stands["version"], style="dim"))
    return row


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


def _cautions(document: Mapping[str, Any]) -> list[Row]:
    rows = [row for row in document.get("findings", ()) if row["level"] == "caution"]
    return [("△ Caution", Text(row["text"])) for row in rows]


def _rows(view: Mapping[str, Any]) -> list[Row]:
    return [(label, Text(text)) for label, text in view["rows"]]
