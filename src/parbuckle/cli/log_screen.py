"""Logged dives on one screen: what they say first, then the figures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from rich.console import Console
from rich.rule import Rule
from rich.table import Table
from rich.text import Text

from parbuckle.cli.screen import WIDEST

_SIGN = {"caution": "△", "note": "·"}
_CAUTION = "It does not replace the divers' own computers, tables and training."


def show_logs(document: Mapping[str, Any], console: Console) -> None:
    """Show logged dives.

    Parameters
    ----------
    document : mapping
        What ``dive --log`` gives.
    console : Console
        Where to write.
    """
    width = min(console.width, WIDEST)
    for row in document["logs"]:
        when = f", {row['start'].replace('T', ' ')[:16]}" if row["start"] else ""
        console.print(Text(f"{row['file']}{when}", style="bold"), width=width)
        table = Table.grid(padding=(0, 1))
        table.add_column(no_wrap=True)
        table.add_column()
        for label, text in (*((_SIGN[said["level"]], said["text"]) for said in row["says"]), *_figures(row)):
            table.add_row(Text(label, style="bold"), Text(text))
        console.print(table, width=width)
        console.print(Rule(style="dim", characters="─"), width=width)
    console.print(Text(_CAUTION, style="dim"), width=width)


def _figures(row: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    model, table, oxygen, ascent = row["model"], row["table"], row["oxygen"], row["ascent"]
    yield "Depth", f"deepest {row['deepest_m']:.1f} m, mean {row['mean_depth_m']:.1f} m, on {', '.join(row['gases'])}"
    yield "Time", f"bottom {row['bottom_time_min']:.0f} min, whole dive {row['dive_time_min']:.0f} min"
    yield "Way up", f"fastest {ascent['fastest_m_min']:.1f} m/min over {ascent['over_s']:.0f} s"
    yield "Model", f"largest gradient {model['largest_gradient']:.2f}, planned up to {model['factor']:.2f}"
    if table["known"]:
        limit = "no limit" if table["no_stop_min"] is None else f"{table['no_stop_min']:.0f} min without a stop"
        yield "Navy table", limit
    share = "" if oxygen["single_share"] is None else f", {oxygen['single_share']:.0%} of the single limit"
    yield "Oxygen", f"up to {oxygen['highest_bar']:.2f} bar{share}, {oxygen['dose_otu']:.0f} OTU"
    yield from _cylinders(row["cylinders"])
    yield from _planned(row["plan"])


def _planned(plan: Mapping[str, Any] | None) -> Iterator[tuple[str, str]]:
    if plan:
        time = plan["bottom_time_min"]
        yield "Planned", f"{plan['label']}: bottom {time['likely']:.0f} min ({time['low']:.0f} to {time['high']:.0f})"
        for stop in plan["stops"]:
            done = "made" if stop["made"] else "missed"
            yield "Stop", f"{stop['min']:.0f} min at {stop['depth_m']:.0f} m: {stop['made_min']:.1f} min, {done}"


def _cylinders(tanks: Iterable[Mapping[str, Any]]) -> Iterator[tuple[str, str]]:
    for tank in tanks:
        if tank["start_bar"] is not None:
            told = (tank["start_bar"], tank["at_leaving_bar"], tank["end_bar"])
            yield (
                "Cylinder",
                "{}: {:.0f} bar, {:.0f} bar when the bottom was left, {:.0f} bar".format(tank["name"], *told),
            )
