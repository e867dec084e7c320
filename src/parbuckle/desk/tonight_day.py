"""Answers of the evening before about the day: slack, breathing gas, gear, the search, paper, the lesson."""

from __future__ import annotations

from typing import Any

from parbuckle.desk.tonight_lift import Said
from parbuckle.desk.tonight_words import (
    Document,
    band,
    gauges,
    listed,
    safe,
    sentences,
    share,
    texts_of,
    time_band,
)
from parbuckle.quantity.shown import clock

_TASKS = "Write the tasks of each dive with their times under Dive."
_GEAR = ("quarantined", "past_due", "past_due_unused", "due_soon", "no_due_date", "bag_unmeasured")


def slack(document: Document) -> Said:
    """Answer: when is slack, how long is it, and does the work fit in it.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    dives = document.get("dives") or []
    timed = [_window(document, dive) for dive in dives if dive.get("window")]
    others = [_length(document, dive) for dive in dives if not dive.get("window")]
    fits = (document.get("search") or {}).get("window")
    told = [row for row in document["clock"]["known"] if row.startswith(("Slack", "Start", "The stream"))]
    answer = sentences(*timed, *others, fits["words"] if fits else None, *told)
    if not dives:
        return sentences("No dive has a task, so nothing is timed", *document["clock"]["known"][:1]), _TASKS
    if not timed and document["site"]["stream_m_s"] is None:
        return sentences("No slack is worked out: no stream is told for the dives", answer), None
    return answer, None


def _window(document: Document, dive: dict[str, Any]) -> str:
    window = dive["window"]
    there, needed = band(document, window["min"], "minutes"), band(document, window["needed_min"], "minutes")
    return (
        f"{dive['label']}: slack at {time_band(window['slack'])}, under your limit from {time_band(window['opens'])} "
        f"to {time_band(window['closes'])}: {there}. The work needs {needed}: by the clock it fits in "
        f"{share(window['chance_fits'])} of the draws; started when the float stands upright, in "
        f"{share(window['chance_fits_on_sight'])}"
    )


def _length(document: Document, dive: dict[str, Any]) -> str:
    off = f"; off the bottom by {clock(dive['latest_leave_bottom'])}" if dive.get("latest_leave_bottom") else ""
    return f"{dive['label']}: {band(document, dive['bottom_time_min'], 'minutes')} on the bottom{off}"


def breathing(document: Document) -> Said:
    """Turn pressures, and the reserve at the depth of the lift.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    rows = []
    for dive in document.get("dives") or []:
        turns = gauges(document, dive["divers"] if "search" in dive["does"] else [], "turn_bar")
        leave = gauges(document, dive["divers"], "leave_bottom_bar")
        rows += [f"{dive['label']}, turn at: {turns}"] if turns else []
        rows += [f"{dive['label']}, leave the bottom at: {leave}"] if leave else []
        up = [row["two_people_up_l"]["high"] for row in dive["divers"] if leave and row.get("two_people_up_l")]
        if up:
            rows.append(f"Two people up from there need up to {safe(document, max(up), 'free_gas', up=True)}")
    if not rows:
        return "No turn pressure is worked out.", f"Give each diver a breathing cylinder. {_TASKS}"
    return sentences(*rows), None


def gear(document: Document) -> Said:
    """Answer: which gear is out of date, set aside, missing, or not of the planned size.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    if any(row["key"] == "kit" for row in document["unanswered"]):
        return "No kit is named, so nothing can be looked up.", "Name a kit for this case."
    rows = texts_of(document, _GEAR)
    return sentences(*(rows or ["Nothing in this plan is out of date or set aside"]), "Count it into the boat"), None


def found(document: Document) -> Said:
    """Answer: if it is found: how is it marked, and what is brought up.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    best = (document.get("search") or {}).get("best")
    if best is None:
        return "No search is planned in this case.", _told_where(document)
    return (
        sentences(
            "Stop. Do not lift", f"Take down: {listed(best['needs'])}" if best["needs"] else None,
            "Mark it, and come up with depth, size, how it lies, how it can be taken, and every hazard asked again",
        ),
        None,
    )  # fmt: skip


def not_found(document: Document) -> Said:
    """Answer: if it is not found: what next.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    search = document.get("search") or {}
    best, second = search.get("best"), search.get("second")
    if best is None:
        return "No search is planned in this case.", _told_where(document)
    off = document["clock"]["latest_off_bottom"]
    return (
        sentences(
            f"First: {best['words']}",
            f"The chance to find it with that is {share(best['chance'])}",
            f"Off the bottom by {clock(off)}" if off else None,
            f"Then: {second['words']}" if second else "Then write the pass under Search: the map moves, plan again",
            f"The chance that it lies off the map is {share(search['elsewhere'])}" if search["elsewhere"] else None,
        ),
        None,
    )


def _told_where(document: Document) -> str | None:
    """Open only where nobody knows the place at all."""
    return None if document["site"]["datum"] else "Write under Search what was told about where it lies."


def paper(document: Document) -> Said:
    """Answer: what must be on paper, because the phone will be wet.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    pages = ["the brief", "the slates", "the call list and signal table"]
    pages += ["the search card"] if (document.get("search") or {}).get("best") else []
    pages += ["the runaway card"] if (document.get("ascent") or {}).get("under_control") else []
    return f"Print {listed(pages)}.", None


def lesson(document: Document) -> Said:
    """Answer: if it is training: what is the truth, who watches whom, what stops it.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    told = document["asked"]["lesson"]
    if told is None:
        return "It is a recovery, not a lesson.", None
    watching = [row["name"] for row in document["people"] if row["role"] == "instructor"]
    envelope = [f"{key.replace('_', ' ')} {told[key]}" for key in ("wet_weight", "deepest") if told.get(key)]
    answer = sentences(
        "The truth is sealed in the instructor's file; this plan does not open it" if told["sealed"] else None,
        f"Trainees: {listed(told['trainees'])}" if told["trainees"] else "No trainees are named",
        f"Watched by {listed(watching)}" if watching else "No instructor is in the team",
        f"This lesson uses {listed(envelope)}" if envelope else None,
        f"Sums: {told['sums']}" if told.get("sums") else None,
    )
    open_part = None if told["sealed"] else "Name the instructor's file with the truth (sealed), or keep it on paper."
    return answer, open_part
