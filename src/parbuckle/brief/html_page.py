"""The brief as one HTML file: the same texts and drawings as in print, for a phone without a network."""

from __future__ import annotations

from collections.abc import Mapping
from importlib.resources import files
from typing import Any

from parbuckle.brief.ascent_picture import ascent_picture
from parbuckle.brief.control_fan import control_fan
from parbuckle.brief.dive_picture import dive_picture
from parbuckle.brief.html_first import abort, answers, cautions, people, sketches, slate, states, steps
from parbuckle.brief.html_records import records
from parbuckle.brief.html_stages import dive, emergency, search, supervisor, way
from parbuckle.brief.html_words import pairs, paragraphs, say, shape, tag
from parbuckle.brief.render import brief_view
from parbuckle.brief.search_map import search_map
from parbuckle.brief.sketch import narrow_sketches

_ROOM = 258.0
"""Room that drawings are made for, points: a phone held upright, so that no label is made smaller there."""

_POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"
_BAR = (("top", "Top"), ("steps", "Steps"), ("emergency", "Help"), ("slate", "Slate"), ("abort", "Abort"))


def write_brief_html(document: Mapping[str, Any], written_at: str = "") -> str:
    """Write the brief of a plan as one HTML file that asks nothing from outside.

    Parameters
    ----------
    document : mapping
        The plan document. Any section may be absent.
    written_at : str
        When it was written, as it shall stand at the top.

    Returns
    -------
    str
        A whole page; the same document and time give the same text.

    Examples
    --------
    >>> page = write_brief_html({"case": {"title": "Anchor <1>"}})
    >>> page.startswith("<!doctype html>"), "Anchor &lt;1&gt;" in page, "<script" in page
    (True, True, False)
    """
    view = brief_view(document, written_at)
    frame = view["frame"]
    style = files("parbuckle.brief").joinpath("templates/page.css").read_text(encoding="utf-8")
    head = (
        '<meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">'
        f'<meta http-equiv="Content-Security-Policy" content="{say(_POLICY)}">'
        f"<title>{say(frame['title'])}: brief</title><style>{style}</style>"
    )
    main = tag("main", _main(view, document))
    body = _top(frame) + main + _bar(main) + _foot(frame)
    return f'<!doctype html>\n<html lang="en"><head>{head}</head><body id="top">{body}</body></html>\n'


def _top(frame: Mapping[str, Any]) -> str:
    stamp = " · ".join(text for text in (frame["version"], frame["written"]) if text)
    return tag("header", tag("h1", say(frame["title"])) + paragraphs([frame["subtitle"], stamp]))


def _main(view: Mapping[str, Any], document: Mapping[str, Any]) -> str:
    first, frame = view["first"], view["frame"]
    told = [
        states(first["states"]),
        _section("plan", "The plan", answers(first) + sketches(narrow_sketches(document, _ROOM))),
        _section("people", "People", people(first["people"])),
        _section("steps", "Steps", _stops(frame) + steps(first["steps"])) if first["steps"] else "",
        _section("signals", "Signals", _signals(first["signals"])),
        _section("agreed", "Agreed", tag("div", pairs(first["agreed"]))) if first["agreed"] else "",
        _section("abort", "Abort: anyone may call it", abort(first)),
        _section("emergency", "Emergency", _emergency(view)),
        _section("slate", "Slate", _stops(frame) + slate(view["slate"])) if view["slate"] else "",
        _section("cautions", "Cautions and notes", cautions(first["states"])),
    ]
    if view["way"]:
        told.append(_section("way", view["way"]["title"], way(_narrow_way(document, view["way"]))))
    if view["search"]:
        told.append(_section("search", "Search", search(_narrow_search(document, view["search"]))))
    for number, page in enumerate(_narrow_dives(document, view["dives"]), 1):
        told.append(_section(f"dive-{number}", page["title"], dive(page, number)))
    if view["records"]:
        told.append(_section("records", "Records and notices", records(view["records"])))
    told.append(tag("details", tag("summary", "For the supervisor") + supervisor(view["second"]), id="supervisor"))
    return "".join(told)


def _stops(frame: Mapping[str, Any]) -> str:
    """The stops that hold stand on everything that is carried away."""
    rows = "".join(tag("li", shape("stop") + tag("div", f"<b>STOP</b> {say(text)}")) for text in frame["stops"])
    return tag("ul", rows, class_="states stop") if rows else ""


def _narrow_way(document: Mapping[str, Any], page: Mapping[str, Any]) -> Mapping[str, Any]:
    """The same page with its drawings made for the room of a phone."""
    fan = control_fan(document, _ROOM, 230.0) if page["fans"] else None
    alone = ascent_picture(document, _ROOM, 200.0) if page["alone"] else None
    return {**page, "fans": [fan] if fan else [], "alone": alone}


def _narrow_search(document: Mapping[str, Any], page: Mapping[str, Any]) -> Mapping[str, Any]:
    """The same page with its map made for the room of a phone."""
    drawn = search_map(document, _ROOM, _ROOM) if page["maps"] else None
    return {**page, "maps": [drawn] if drawn else []}


def _narrow_dives(document: Mapping[str, Any], pages: Any) -> list[dict[str, Any]]:
    """The same pages with their pictures made for the room of a phone."""
    dives = list(document.get("dives") or [])
    return [
        {**page, "pictures": [dive_picture(document, row, _ROOM, 230.0)]}
        for page, row in zip(pages, dives, strict=True)
    ]


def _emergency(view: Mapping[str, Any]) -> str:
    page = view["emergency"]
    return emergency(page) if page else tag("div", pairs(view["first"]["emergency"]), class_="box")


def _signals(rows: Any) -> str:
    if not rows:
        return ""
    told = "Write down the sign agreed for each. All of one set."
    return paragraphs([told]) + tag(
        "div", pairs([{"label": row, "value": "________"} for row in rows]), class_="signals"
    )


def _section(mark: str, title: str, inside: str) -> str:
    return tag("section", tag("h2", say(title)) + inside, id=mark) if inside else ""


def _bar(main: str) -> str:
    """Links at the thumb, the abort list always in the same corner."""
    there = [(mark, word) for mark, word in _BAR if mark == "top" or f' id="{mark}"' in main]
    rows = "".join(tag("li", tag("a", word, href=f"#{mark}")) for mark, word in there)
    return tag("nav", tag("ul", rows), aria_label="Pages")


def _foot(frame: Mapping[str, Any]) -> str:
    return tag("footer", paragraphs(frame["cautions"]))
