"""The team's own table: its bags against loads and depths, two pages to be laminated, one for each water."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from parbuckle.brief.figures import Figures
from parbuckle.brief.frame import frame
from parbuckle.brief.press import compile_pdf


def render_table(table: Mapping[str, Any], written_at: str, paper: str = "a4") -> bytes:
    """Set the table of a team's own bags, one page for each water.

    Parameters
    ----------
    table : mapping
        ``team`` (name), ``units`` (``metric`` or ``imperial``), ``version``; ``cylinder`` (text, such as
        ``L7, 200 bar, air``); ``bags``: rows with ``id``, ``style``, ``marked_l``; ``assumptions``: list of sentences;
        ``waters``: two of ``{name, rows}``, each row ``{load_kg, cells}``, each cell ``{depth_m, bags, bar, note}``;
        ``bags`` holds ``{id, fill ("full" or "part"), litres, seconds}`` in the order of filling, ``bar`` is what the
        cylinder's gauge falls by, and ``note`` says in few words why there is no answer. All rows of one water have the
        same depths.
    written_at : str
        When the table was written.
    paper : str
        ``a4`` or ``us-letter``; the page lies on its long side.

    Returns
    -------
    bytes
        A tagged PDF of one page for each water.

    Raises
    ------
    CallError
        The paper is not known.
    """
    return compile_pdf("bag_table.typ", table_view(table, written_at), paper)


def table_view(table: Mapping[str, Any], written_at: str) -> dict[str, Any]:
    """Prepare the texts of the table.

    Parameters
    ----------
    table : mapping
        As for the page itself.
    written_at : str
        When the table was written.

    Returns
    -------
    dict
        ``frame``, ``cylinder``, ``bags``, ``assumptions`` and ``waters``: each with ``name``, ``depths`` and ``rows``.

    Examples
    --------
    >>> table_view({"team": "Crew", "waters": []}, "today")["frame"]["title"]
    'Bags of Crew'
    """
    figures = Figures("imperial" if table.get("units") == "imperial" else "metric")
    title = f"Bags of {table['team']}" if table.get("team") else "Bags of the team"
    document = {"case": {"title": title}, "program": {"version": table.get("version")}}
    return {
        "frame": frame(document, written_at),
        "cylinder": str(table.get("cylinder") or "not known"),
        "bags": [
            f"{bag.get('id')}: {figures.one(bag.get('marked_l'), 'volume')} {bag.get('style') or ''}".strip()
            for bag in table.get("bags") or []
        ],
        "assumptions": [str(text) for text in table.get("assumptions") or []],
        "waters": [_water(water, figures) for water in table.get("waters") or []],
    }


def _water(water: Mapping[str, Any], figures: Figures) -> dict[str, Any]:
    rows: Sequence[Mapping[str, Any]] = water.get("rows") or []
    first = rows[0].get("cells") or [] if rows else []
    return {
        "name": str(water.get("name") or ""),
        "depths": [_pair(cell.get("depth_m"), "length", figures) for cell in first],
        "rows": [
            {
                "load": _pair(row.get("load_kg"), "mass", figures),
                "cells": [_cell(cell, figures) for cell in row.get("cells") or []],
            }
            for row in rows
        ],
    }


def _pair(value: float | None, kind: str, figures: Figures) -> dict[str, str]:
    return {"first": figures.one(value, kind), "other": figures.other(value, kind)}


def _cell(cell: Mapping[str, Any], figures: Figures) -> dict[str, Any]:
    bar = cell.get("bar")
    return {
        "bags": [_bag(bag, figures) for bag in cell.get("bags") or []],
        "bar": "" if bar is None else f"−{figures.one(bar, 'pressure')}",
        "note": str(cell.get("note") or ""),
    }


def _bag(bag: Mapping[str, Any], figures: Figures) -> dict[str, str]:
    seconds = bag.get("seconds")
    part = bag.get("fill") == "part"
    return {
        "id": str(bag.get("id", "")),
        "fill": f"to {figures.safe(bag.get('litres'), 'volume', up=False)}" if part else "full",
        "seconds": "" if seconds is None else figures.safe(seconds, "time", up=False),
    }
