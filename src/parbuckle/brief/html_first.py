"""The first pages of the brief in HTML: states, weight, bags, gas, people, steps, abort, emergency, slate."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from parbuckle.brief.html_words import figure, pairs, paragraphs, part, say, shape, tag

View = Mapping[str, Any]

_WORDS = {"stop": "STOP", "unanswered": "UNANSWERED", "caution": "CAUTION", "note": "Note"}


def states(view: View) -> str:
    """Give the verdict, then stops and what is not answered, each as shape and word; cautions as a count.

    Parameters
    ----------
    view : mapping
        ``states`` of page one.

    Returns
    -------
    str
        HTML.
    """
    told = tag("p", say(view["line"]), class_="verdict") + _level("stop", view["stops"])
    told += _level("unanswered", view["unanswered"])
    told += paragraphs(f"Stop lifted. {row['text']} {row['lifted']}." for row in view["lifted"])
    if view["cautions"]:
        words = shape("caution") + tag("span", f"<b>CAUTION: {len(view['cautions'])}</b>, listed further down")
        told += tag("p", tag("a", words, href="#cautions"), class_="count")
    return told


def cautions(view: View) -> str:
    """Give every caution and note, each as shape and word.

    Parameters
    ----------
    view : mapping
        ``states`` of page one.

    Returns
    -------
    str
        HTML.
    """
    return _level("caution", view["cautions"]) + _level("note", view["notes"])


def _level(level: str, rows: Sequence[View]) -> str:
    items = "".join(
        tag("li", shape(level) + tag("div", f"<b>{_WORDS[level]}</b> {say(row['text'])} {say(row['do'])}"))
        for row in rows
    )
    return tag("ul", items, class_=f"states {level}") if items else ""


def big(parts: View | None) -> str:
    """Give a number that decides: large, its band smaller, the other system after it.

    Parameters
    ----------
    parts : mapping or None
        ``number``, ``unit``, ``range``, ``other``.

    Returns
    -------
    str
        HTML.
    """
    if not parts:
        return ""
    number = f'<b>{say(parts["number"])}</b>\u202f<span class="unit">{say(parts["unit"])}</span>'
    rest = " ".join(say(parts[key]) for key in ("range", "other") if parts.get(key))
    return tag("p", f"{number} <small>{rest}</small>", class_="big")


def answers(first: View) -> str:
    """Give what page one answers, in the order in which it is read.

    Parameters
    ----------
    first : mapping
        Page one of the brief's view.

    Returns
    -------
    str
        HTML.
    """
    told = [
        part("Method", _method(first["method"])),
        part("Clock", _clock(first["clock"])),
        part("Weight in the water", _weight(first["weight"])),
        part("Bags, marks and counted seconds", _bags(first["bags"])),
        part(first["let_go_title"], _let_go(first["let_go"])),
        part("Lift gas", _gas(first["gas"])),
    ]
    return tag("div", "".join(told), class_="parts")


def _method(row: View) -> str:
    whose = f"{row['whose']}; proposed: {row['proposed']}" if row["proposed"] else row["whose"]
    return tag("p", f"<b>{say(row['name'])}</b> <small>{say(whose)}</small>", class_="lead") + paragraphs([row["why"]])


def _clock(clock: View) -> str:
    rows = [{"label": row["label"], "value": row["time"], "other": row["day"]} for row in clock["rows"]]
    return pairs(rows) + paragraphs([" ".join(clock["known"])])


def _weight(weight: View | None) -> str:
    if weight is None:
        return tag("p", "not known")
    words = f"<b>{say(weight['of'])}</b>: {say(weight['basis'])}. <b>{say(weight['disagree'])}</b>"
    needed = f"Lift needed {weight['required']}."
    return big(weight["parts"]) + _range(weight["line"]) + tag("p", words) + paragraphs([needed, *weight["notes"]])


def _range(line: View) -> str:
    """Thin lines with a tick at the likely value, all on one scale from zero."""
    rows = []
    for row in line["rows"]:
        low, likely, high = (f"{100 * row[key]:.2f}%" for key in ("low", "likely", "high"))
        marks = '<line x1="0" x2="100%" y1="9" y2="9" class="hair"/>'
        marks += f'<line x1="{low}" x2="{high}" y1="9" y2="9" class="firm"/>'
        marks += f'<line x1="{likely}" x2="{likely}" y1="2" y2="16" class="firm"/>'
        if line["ceiling"] is not None:
            stop = f"{100 * line['ceiling']:.2f}%"
            marks += f'<line x1="{stop}" x2="{stop}" y1="0" y2="18" class="dotted"/>'
        words = say(f"{row['label']}: {row['value']}")
        drawn = f'<svg height="18" width="100%" role="img" aria-label="{words}">{marks}</svg>'
        rows.append(tag("div", tag("span", say(row["label"])) + drawn))
    stop = line["ceiling_label"]
    end = f"The scale begins at zero. {stop[:1].upper()}{stop[1:]}".strip()
    return tag("div", "".join(rows) + tag("small", say(end)), class_="range")


def _bags(bags: View) -> str:
    rows = "".join(
        tag("li", f"<b>{say(row['id'])}</b> <b>{say(row['mark'])}</b> <span>{say(_more(row))}</span>")
        for row in bags["rows"]
    )
    stop = f"Stop filling at {bags['ceiling']} of lift. Ceiling: {bags['ceiling_from']}." if bags["ceiling"] else ""
    floats = f"Floats once free: {bags['floats']}." if bags["floats"] else ""
    none = "" if rows else "No bags chosen."
    return (
        (tag("ul", rows, class_="plain") if rows else "")
        + tag("p", f"<b>{say(stop or none)}</b>")
        + paragraphs([floats])
    )


def _more(row: View) -> str:
    gauge = f"gauge then {row['gauge']}" if row["gauge"] else f"{row['marked']} {row['style']}"
    return f"{row['seconds']}; {gauge}" if row["seconds"] else gauge


def _let_go(row: View | None) -> str:
    if row is None:
        return tag("p", "not known")
    state = f"<b>State: {say(row['state'])}.</b> {say(row['sentence'])}" if row["state"] else ""
    caught = f"<b>{say(row['most'])} {say(row['by'])}</b> {say(row['catches'])}"
    told = [tag("p", text) for text in (caught, state, say(row["rate"]), f"<b>{say(row['rule'])}</b>") if text]
    return big(row["parts"]) + "".join(told)


def _gas(gas: View | None) -> str:
    if gas is None:
        return tag("p", "not known")
    lead = tag("p", f"<b>{say(gas['id'])}</b> {say(gas['what'])}. {say(gas['tries'])}", class_="lead")
    return lead + pairs(gas["rows"]) + tag("p", f"<b>{say(gas['rule'])}</b>")


def sketches(drawings: Sequence[View]) -> str:
    """Give the three drawings of the lift to scale.

    Parameters
    ----------
    drawings : sequence of mapping
        Drawings.

    Returns
    -------
    str
        HTML.
    """
    return tag("div", "".join(figure(each, f"s{n}") for n, each in enumerate(drawings)), class_="drawings")


def people(rows: Sequence[View]) -> str:
    """Give everybody with role, gas and place.

    Parameters
    ----------
    rows : sequence of mapping
        ``name``, ``role``, ``gas``, ``place``.

    Returns
    -------
    str
        HTML.
    """
    told = [
        tag(
            "li",
            f"<b>{say(row['name'])}</b> {say(', '.join(filter(None, (row['role'], row['gas']))))}: {say(row['place'])}",
        )
        for row in rows
    ]
    return tag("ul", "".join(told), class_="plain") if told else ""


def steps(columns: Sequence[Sequence[View]]) -> str:
    """Give the numbered steps, each with a box to tick.

    Parameters
    ----------
    columns : sequence of sequence of mapping
        ``n``, ``text``, ``who``, ``check``, ``stop_point``.

    Returns
    -------
    str
        HTML; a tick lasts as long as the page is open.
    """
    rows = [_step(step) for column in columns for step in column]
    return tag("ol", "".join(rows), class_="steps") if rows else ""


def _step(step: View) -> str:
    stop = "<b>Stop point.</b> " if step["stop_point"] else ""
    check = f" <small>checked by {say(step['check'])}</small>" if step["check"] else ""
    words = f"<span>{stop}{say(step['text'])} <small>{say(step['who'])}</small>{check}</span>"
    box = f'<input type="checkbox" aria-label="Step {say(step["n"])} done">'
    inside = tag("label", f"{box}<b>{say(step['n'])}</b>{words}")
    return tag("li", inside, class_="stop-point") if step["stop_point"] else tag("li", inside)


def abort(first: View) -> str:
    """Give the abort list and what is done then.

    Parameters
    ----------
    first : mapping
        Page one of the brief's view.

    Returns
    -------
    str
        HTML.
    """
    rows = paragraphs(first["abort"], "li")
    return (tag("ul", rows) if rows else "") + (tag("p", f"<b>{say(first['abort_action'])}</b>") if rows else "")


def slate(rows: Sequence[View]) -> str:
    """Give the slate: big lines, one safe-side number each.

    Parameters
    ----------
    rows : sequence of mapping
        ``label`` and ``value``.

    Returns
    -------
    str
        HTML.
    """
    return tag("div", pairs(rows), class_="slate") if rows else ""
