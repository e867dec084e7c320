"""Small pieces of a page in HTML: escaped words, lists, tables, drawings, shapes of the states."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from html import escape
from typing import Any

_SHAPES = {
    "stop": '<path d="M6 1h8l5 5v8l-5 5H6l-5-5V6z" fill="currentColor"/>',
    "unanswered": '<path d="M2 2h16v16H2z" fill="none" stroke="currentColor" stroke-width="2"/>'
    '<text x="10" y="15" text-anchor="middle" font-size="13" font-weight="700" fill="currentColor">?</text>',
    "caution": '<path d="M10 2l8.5 15h-17z" fill="none" stroke="currentColor" stroke-width="2"/>',
    "note": '<circle cx="10" cy="10" r="3" fill="currentColor"/>',
}
_POINT = 4 / 3
"""Pixels of a page to one point of a drawing."""


def say(text: Any) -> str:
    """Escape a text; the thin space stays.

    Parameters
    ----------
    text : object
        Any text.

    Returns
    -------
    str
        Safe in an element and in an attribute.

    Examples
    --------
    >>> say("2 < 3")
    '2 &lt; 3'
    """
    return escape(str(text), quote=True)


def tag(name: str, inside: str, **attributes: str) -> str:
    """Give an element.

    Parameters
    ----------
    name : str
        Its name.
    inside : str
        HTML inside it.
    **attributes : str
        Attributes; an underscore reads as a dash, one at the end is dropped.

    Returns
    -------
    str
        HTML.

    Examples
    --------
    >>> tag("p", "x", class_="quiet")
    '<p class="quiet">x</p>'
    """
    told = "".join(f' {key.rstrip("_").replace("_", "-")}="{say(value)}"' for key, value in attributes.items())
    return f"<{name}{told}>{inside}</{name}>"


def shape(level: str) -> str:
    """Give the shape of a state; it is hidden from a screen reader, which reads the word beside it.

    Parameters
    ----------
    level : str
        ``stop``, ``unanswered``, ``caution`` or ``note``.

    Returns
    -------
    str
        A small drawing.
    """
    return f'<svg class="shape" viewBox="0 0 20 20" aria-hidden="true">{_SHAPES[level]}</svg>'


def paragraphs(texts: Iterable[Any], name: str = "p") -> str:
    """Give one element for each text that is not empty.

    Parameters
    ----------
    texts : iterable
        Texts.
    name : str
        Name of the element.

    Returns
    -------
    str
        HTML.
    """
    return "".join(tag(name, say(text)) for text in texts if text)


def pairs(rows: Sequence[Mapping[str, Any]]) -> str:
    """Give labels with their values.

    Parameters
    ----------
    rows : sequence of mapping
        ``label``, ``value``, and perhaps ``other``.

    Returns
    -------
    str
        A description list; empty without rows.
    """
    told = "".join(
        tag("dt", say(row["label"]))
        + tag("dd", say(row["value"]) + (f" <small>{say(row['other'])}</small>" if row.get("other") else ""))
        for row in rows
    )
    return tag("dl", told) if rows else ""


def table(title: str, head: Sequence[str], rows: Sequence[Sequence[Any]]) -> str:
    """Give a table that may be moved sideways where it is wider than the page.

    Parameters
    ----------
    title : str
        Its name for a screen reader; no other table of the page has it.
    head : sequence of str
        Titles of the columns.
    rows : sequence of sequence
        Cells; the first of a row is its title.

    Returns
    -------
    str
        HTML; empty without rows.
    """
    if not rows:
        return ""
    titles = "".join(tag("th", say(text), scope="col") for text in head)
    body = "".join(
        tag("tr", tag("th", say(first), scope="row") + "".join(tag("td", say(cell)) for cell in rest))
        for first, *rest in rows
    )
    inside = tag("table", tag("thead", tag("tr", titles)) + tag("tbody", body))
    return tag("div", inside, class_="wide", tabindex="0", role="region", aria_label=title)


def figure(drawing: Mapping[str, Any], number: str, zoom: float = 1.0) -> str:
    """Give a drawing in the ink and on the paper of the page, with its caption.

    Parameters
    ----------
    drawing : mapping
        ``svg``, ``width`` and ``height`` in points, ``caption`` and ``alt``.
    number : str
        Mark that keeps the names inside apart from those of other drawings on the page.
    zoom : float
        How much larger than in print.

    Returns
    -------
    str
        HTML.
    """
    svg = str(drawing["svg"]).replace("#000", "currentColor").replace('fill="#fff"', 'class="paper"')
    svg = re.sub(r'(id="|url\(#)c', rf"\1{number}c", svg)
    wide = float(drawing["width"]) * _POINT * zoom
    size = f'style="max-width:{wide:.0f}px" role="img" aria-label="{say(drawing["alt"])}"'
    svg = re.sub(r' width="[^"]*" height="[^"]*"', f" {size}", svg, count=1)
    return tag("figure", svg + tag("figcaption", say(drawing["caption"])), style=f"flex-basis:{wide:.0f}px")


def part(title: str, inside: str, name: str = "h3") -> str:
    """Give a part of a page under its title; nothing where there is nothing inside.

    Parameters
    ----------
    title : str
        Title.
    inside : str
        HTML.
    name : str
        Level of the title.

    Returns
    -------
    str
        HTML.
    """
    return tag("section", tag(name, say(title)) + inside, class_="part") if inside else ""
