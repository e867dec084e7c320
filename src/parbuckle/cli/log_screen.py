"""Logged dives on one screen: what they say first, then the figures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from rich.console import Console
from rich.rule import Rule
from rich.table import Table
from rich.text import Text

from parbuckle.cli.screen import WIDEST
from parbuckle.quantity.shown import show

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
    width, units = min(console.width, WIDEST), document["case"]["units"]
    for row in document["logs"]:
        when = f", {row['start'].replace('T', ' ')[:16]}" if row["start"] else ""
        console.print(Text(f"{row['file']}{when}", style="bold"), width=width)
        table = Table.grid(padding=(0, 3, 0, 0))
        table.add_column(no_wrap=True)
        table.add_column()
        for label, text in (*_said(row["findings"]), *_figures(row, units)):
            table.add_row(Text(label, style="bold"), Text(text))
        console.print(table, width=width)
        console.print(Rule(style="dim", characters="─"), width=width)
    console.print(Text(_CAUTION, style="dim"), width=width)


def _said(findings: Iterable[Mapping[str, Any]]) -> Iterator[tuple[str, str]]:
    for row in findings:
        yield _SIGN[row["level"]], f"{row['text']} {row['do']}".strip()


def _figures(row: Mapping[str, Any], units: str) -> Iterator[tuple[str, str]]:
    model, table, ascent = row["model"], row["table"], row["ascent"]
    deepest, mean = (show(row[key], "length", units, 3) for key in ("deepest_m", "mean_depth_m"))
    yield "Depth", f"deepest {deepest}, mean {mean}, on {', '.join(row['gases'])}"
    yield "Time", f"bottom {row['bottom_time_min']:.0f} min, whole dive {row['dive_time_min']:.0f} min"
    yield "Way up", f"fastest {show(ascent['fastest_m_min'], 'rate', units, 3)} over {ascent['over_s']:.0f} s"
    yield "Model", f"largest gradient {model['largest_gradient']:.2f}, planned up to {model['factor']:.2f}"
    if table["known"]:
        limit = "no limit" if table["no_stop_min"] is None else f"{table['no_stop_min']:.0f} min without a stop"
        yield "Navy table", limit
    yield "Oxygen", _oxygen(row["oxygen"])
    yield from _cylinders(row["cylinders"], units)
    yield from _planned(row["plan"], units)


def _oxygen(told: Mapping[str, Any]) -> str:
    share = "" if told["single_share"] is None else f", {told['single_share']:.0%} of the single limit"
    dose = "" if told["dose_otu"] is None else f", {told['dose_otu']:.0f} OTU"
    return f"up to {told['highest_bar']:.2f} bar{share}{dose}"


def _planned(plan: Mapping[str, Any] | None, units: str) -> Iterator[tuple[str, str]]:
    if plan:
        time = plan["bottom_time_min"]
        yield "Planned", f"{plan['label']}: bottom {time['likely']:.0f} min ({time['low']:.0f} to {time['high']:.0f})"
        for stop in plan["stops"]:
            done = "made" if stop["made"] else "missed"
            depth = show(stop["depth_m"], "length", units)
            yield "Stop", f"{stop['min']:.0f} min at {depth}: {stop['made_min']:.1f} min, {done}"


def _cylinders(tanks: Iterable[Mapping[str, Any]], units: str) -> Iterator[tuple[str, str]]:
    for tank in tanks:
        if tank["start_bar"] is not None:
            told = (tank["start_bar"], tank["at_leaving_bar"], tank["end_bar"])
            start, leaving, end = (show(bar, "pressure", units, 3) for bar in told)
            yield "Cylinder", f"{tank['name']}: {start}, {leaving} when the bottom was left, {end}"
