"""The answer of ``plan`` on one terminal screen: the order of page one, states as shape and word, no colour needed."""

from __future__ import annotations

import re
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

_IN_FULL = 3  # cautions
_FEW = 4  # questions: with more, what to find out first leads
_FIRST = 2
_ASKED = "Not answered: "
_FIRST_SENTENCE = re.compile(r"(?<=[.?]) (?=[A-Z])")

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
    for block in _states(view["states"], _find_out(document)):
        console.print(block, width=width)
    console.print(Rule(style="dim", characters="─"), width=width)
    console.print(answers(view, width), width=width)
    console.print(_footer(stands), width=width)


def _title(stands: Mapping[str, Any]) -> RenderableType:
    row = Table.grid(expand=True, padding=(0, 2))
    row.add_column(ratio=1)
    row.add_column(justify="right")
    row.add_row(Text(stands["title"], style="bold"), Text(stands["version"], style="dim"))
    row.add_row(Text(stands["subtitle"], style="dim"), Text(""))
    return row


def _find_out(document: Mapping[str, Any]) -> str:
    """Say what to find out first, where much is open."""
    rows = [str(row.get("why") or row.get("key")) for row in document.get("find_out_first") or []][:_FIRST]
    texts = [str(document.get("measure_again") or ""), f"Also: {'; '.join(rows)}." if rows else ""]
    return " ".join(text for text in texts if text)


def _states(states: Mapping[str, Any], find_out: str) -> list[RenderableType]:
    lifted = [
        _hanging(Text("Stop lifted", style="bold"), f"{row['text']} {row['lifted']}.") for row in states["lifted"]
    ]
    open_ones = _together("unanswered", _asked_once([row["text"] for row in states["unanswered"]]), "bold")
    first = [_hanging(Text("First", style="bold"), find_out)] if find_out and len(states["unanswered"]) > _FEW else []
    return [*_stops(states), *lifted, *first, *open_ones, *_together("caution", _shortened(states["cautions"]), "")]


def _asked_once(texts: Sequence[str]) -> list[str]:
    """Leave the same first words out where the text before began with them."""
    seen = [before.startswith(_ASKED) for before in ("", *texts)]
    return [text.removeprefix(_ASKED) if after else text for text, after in zip(texts, seen, strict=False)]


def _shortened(rows: Sequence[Mapping[str, str]]) -> list[str]:
    """Give the first few in full, of the others the first sentence; the brief has them all in full."""
    return [
        row["text"] if number < _IN_FULL else _FIRST_SENTENCE.split(row["text"])[0] for number, row in enumerate(rows)
    ]


def _stops(states: Mapping[str, Any]) -> list[RenderableType]:
    if not states["stops"]:
        return [Text(states["line"], style="bold")]
    return [_state("stop", f"{row['text']} {row['do']}".strip(), "bold reverse") for row in states["stops"]]


def _together(level: str, texts: Sequence[str], style: str) -> list[RenderableType]:
    shape = _SHAPES[level].split()[0]
    return [_state(level, f" {shape} ".join(texts), style)] if texts else []


def _state(level: str, text: str, style: str) -> RenderableType:
    return _hanging(Text(_SHAPES[level], style=style), text)


def _hanging(head: Text, text: str) -> RenderableType:
    row = Table.grid(padding=(0, 1))
    row.add_column(no_wrap=True, min_width=len("△ CAUTION"))
    row.add_column()
    row.add_row(head, Text(text))
    return row


def _footer(stands: Mapping[str, Any]) -> RenderableType:
    return Text(" ".join(stands["cautions"]), style="dim")
