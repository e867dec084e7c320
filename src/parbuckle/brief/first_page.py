"""Page one, for everybody: the document's answers as texts, in the order in which they are read."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from parbuckle.brief.control_view import sentences
from parbuckle.brief.figures import NOT_KNOWN, Figures, figures_of
from parbuckle.brief.range_line import kilo_scale
from parbuckle.brief.states import state_rows
from parbuckle.quantity import shown

_LINE_COST = 20  # signs that the number and the white at the end of a step are worth
_LEFT_OVER, _HELD_BACK = "Left over when it lets go", "To hold back"
_NEVER_CHASE = "Let go, never chase."
_STAY_CLEAR = "Stay clear, never chase."


def first_page(document: Mapping[str, Any]) -> dict[str, Any]:
    """Prepare page one: every text that it shows, already formatted.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    dict
        ``states``, ``method``, ``clock``, ``weight``, ``bags``, ``let_go``, ``let_go_title``, ``gas``, ``people``,
        ``steps``, ``signals``, ``abort``, ``emergency`` and ``agreed``, in this order; a part that the document lacks
        is None or empty.

    Examples
    --------
    >>> first_page({"findings": [], "verdict": {"line": "No stop found in what you told me."}})["states"]["line"]
    'No stop found in what you told me.'
    """
    figures = figures_of(document)
    lift = document.get("lift") or {}
    ascent = document.get("ascent") or {}
    return {
        "states": state_rows(document),
        "method": _method(lift),
        "clock": _clock(document),
        "weight": _weight(document, figures),
        "bags": _bags(lift, figures),
        "let_go": _held_back(ascent, figures) or _let_go(lift, ascent, figures),
        "let_go_title": _HELD_BACK if ascent.get("lowering") else _LEFT_OVER,
        "gas": _gas(lift, figures),
        "people": [_person(person) for person in document.get("people") or []],
        "steps": _two_columns([_step(step) for step in document.get("steps") or []]),
        "signals": [str(signal.get("message", "")) for signal in document.get("signals") or []],
        "abort": [str(text) for text in document.get("abort") or []],
        "abort_action": document.get("abort_action") or "",
        "emergency": _emergency(document),
        "agreed": _agreed(document),
    }


def clock_time(text: str | None) -> dict[str, str]:
    """Split a time into what is set large and what is set small.

    Parameters
    ----------
    text : str or None
        ISO 8601 with an offset.

    Returns
    -------
    dict of str to str
        ``time`` (hours and minutes, or ``not known``) and ``day`` (date and offset of the zone, may be empty).

    Examples
    --------
    >>> clock_time("2027-04-14T10:00:00+01:00")
    {'time': '10:00', 'day': '14 Apr 2027, UTC+01:00'}
    """
    if not text:
        return {"time": NOT_KNOWN, "day": ""}
    hours, _, day = shown.clock(text, with_date=True).partition(" on ")
    zone = datetime.fromisoformat(text).tzinfo
    return {"time": hours, "day": f"{day}, {zone}" if zone else day}


def _method(lift: Mapping[str, Any]) -> dict[str, str]:
    name = lift.get("method")
    whose = "asked for in the case" if lift.get("method_given") else "proposed"
    return {
        "name": str(name).capitalize() if name else NOT_KNOWN.capitalize(),
        "whose": whose if name else "",
        "proposed": str(lift.get("proposed") or "") if lift.get("proposed") != name else "",
        "why": lift.get("method_why") or "",
    }


def _clock(document: Mapping[str, Any]) -> dict[str, Any]:
    clock = document.get("clock") or {}
    site = document.get("site") or {}
    told = [
        ("Earliest in", clock.get("earliest_in")),
        ("Latest off the bottom", clock.get("latest_off_bottom")),
        ("Daylight until", site.get("daylight_until")),
    ]
    rows = [{"label": label, **clock_time(time)} for label, time in told if time or label != "Daylight until"]
    return {"rows": rows, "known": [str(text) for text in clock.get("known") or []]}


def _weight(document: Mapping[str, Any], figures: Figures) -> dict[str, Any] | None:
    load = document.get("load") or {}
    wet = load.get("wet_weight_kg")
    if wet is None:
        return None
    lift = document.get("lift") or {}
    agree = load.get("agree")
    notes = [load.get("breakout_why") or " ".join(load.get("breakout_tries") or [])]
    return {
        "parts": figures.parts(wet, "mass"),
        "of": load.get("name") or "",
        "basis": load.get("basis") or NOT_KNOWN,
        "disagree": "The estimates disagree: measure again." if agree is False else "",
        "required": figures.band(lift.get("required_kg"), "mass"),
        "dry": figures.band(load.get("dry_mass_kg"), "mass"),
        "notes": [note[:1].upper() + note[1:] for note in notes if note],
        "line": kilo_scale(wet, lift.get("required_kg"), lift.get("ceiling_kg"), figures),
    }


def _bags(lift: Mapping[str, Any], figures: Figures) -> dict[str, Any]:
    filling = {row.get("bag"): row for row in lift.get("filling") or []}
    ceiling = lift.get("ceiling_kg")
    return {
        "rows": [_bag(bag, filling.get(bag.get("id")) or {}, figures) for bag in lift.get("bags") or []],
        "ceiling": "" if ceiling is None else figures.safe_both(ceiling, "mass", up=False),
        "ceiling_from": lift.get("ceiling_from") or "",
        "floats": _state_words(lift.get("chance_floats_words")),
    }


def _state_words(words: str | None) -> str:
    """Page one shows states; a chance in figures is for the supervisor's page."""
    return "" if not words or any(sign.isdigit() for sign in words) else words


def _bag(bag: Mapping[str, Any], filled: Mapping[str, Any], figures: Figures) -> dict[str, str]:
    fill = bag.get("fill")
    mark = {"full": "to the brim", "empty": "empty, carried up"}.get(str(fill), "")
    if filled.get("kind") == "top up":
        mark = "empty; fill it at the surface"
    if fill == "part":
        mark = "to " + figures.safe_both(filled.get("mark_l"), "volume", up=False)
    seconds = filled.get("seconds")
    return {
        "id": str(bag.get("id", "")),
        "style": str(bag.get("style") or ""),
        "marked": figures.one(bag.get("marked_l"), "volume"),
        "mark": mark,
        "part": "part" if fill == "part" else "",
        "seconds": "" if seconds is None else "count " + figures.safe(seconds, "time", up=False),
        "gauge": figures.span(filled.get("gauge_bar"), "pressure"),
    }


def _let_go(lift: Mapping[str, Any], ascent: Mapping[str, Any], figures: Figures) -> dict[str, Any] | None:
    surplus = lift.get("surplus_at_release_kg")
    words = _state_and_sentence(ascent)
    if surplus is None and not words["state"] and not lift.get("catches"):
        return None
    alone = lift.get("method") == "unaccompanied"
    most = lift.get("surplus_at_most_kg")
    return {
        "parts": figures.parts(surplus, "mass"),
        "most": "" if most is None else f"At most {figures.safe_both(most, 'mass', up=True)}.",
        "after": "left over.",
        "by": "Caught by:",
        "catches": lift.get("catches") or NOT_KNOWN,
        "state": words["state"],
        "sentence": words["sentence"],
        "rate": "" if alone else _rate(ascent.get("rate") or {}, figures),
        "rule": _STAY_CLEAR if alone else _let_go_rule(ascent, figures),
    }


def _state_and_sentence(ascent: Mapping[str, Any]) -> dict[str, str]:
    """Give the state of the closed forms; where the ascent was followed with people on it, the state of that."""
    words = {key: str((ascent.get("words") or {}).get(key) or "") for key in ("state", "sentence")}
    told = ascent.get("under_control") or {}
    if not told or told.get("state") == words["state"]:
        return words
    first, last = sentences(str(told.get("sentence") or ""))[:1], sentences(words["sentence"])[-1:]
    return {"state": str(told.get("state") or ""), "sentence": " ".join([*first, *last])}


def _held_back(ascent: Mapping[str, Any], figures: Figures) -> dict[str, Any] | None:
    """For a load that is put down: what the people at the line hold back."""
    down = ascent.get("lowering")
    if not down:
        return None
    speed = down.get("speed_m_min")
    return {
        "parts": figures.parts(down.get("hold_back_n"), "load"),
        "most": "",
        "after": "to hold back.",
        "by": "Goes down by:",
        "catches": f"{down.get('way') or NOT_KNOWN}.",
        "state": "",
        "sentence": "",
        "rate": "" if speed is None else f"Down at {figures.both(speed, 'rate')}.",
        "rule": str((down.get("if_let_go") or {}).get("words") or ""),
    }


def _rate(rate: Mapping[str, Any], figures: Figures) -> str:
    target, ceiling = rate.get("target_m_min"), rate.get("ceiling_m_min")
    rise = "" if target is None else f"Rise at {figures.both(target, 'rate')}. "
    return rise + ("" if ceiling is None else f"Let go above {figures.both(ceiling, 'rate')}.")


def _let_go_rule(ascent: Mapping[str, Any], figures: Figures) -> str:
    height = ascent.get("let_go_at_m")
    if height is None:
        return _NEVER_CHASE
    return f"Let go when it has risen {figures.both(height, 'length')} more than you wanted. {_NEVER_CHASE}"


def _gas(lift: Mapping[str, Any], figures: Figures) -> dict[str, Any] | None:
    cylinder = lift.get("cylinder") or {}
    if not cylinder and not lift.get("free_gas_l"):
        return None
    tries = cylinder.get("enough_for_tries")
    rows = [
        ("Needed, all tries", figures.band(lift.get("free_gas_l"), "free_gas")),
        ("In it, usable there", figures.one(cylinder.get("usable_l"), "free_gas")),
        ("Gauge before", figures.one(cylinder.get("pressure_bar"), "pressure")),
    ]
    rows += [(label, figures.band(after, "pressure")) for label, after in _after_tries(cylinder)]
    return {
        "id": cylinder.get("id") or "Cylinder",
        "what": ", ".join(text for text in (cylinder.get("gas"), cylinder.get("goes")) if text) or "not named",
        "tries": "" if tries is None else f"Enough for {tries} {'try' if tries == 1 else 'tries'}.",
        "rows": [{"label": label, "value": value} for label, value in rows if value != NOT_KNOWN],
        "rule": "Nobody breathes from this cylinder.",
    }


def _after_tries(cylinder: Mapping[str, Any]) -> list[tuple[str, Any]]:
    tries = cylinder.get("after_tries_bar")
    if not tries:
        return [("Gauge afterwards", cylinder.get("pressure_after_bar"))]
    return [(f"Gauge after try {number}", after) for number, after in enumerate(tries, start=1)]


def _person(person: Mapping[str, Any]) -> dict[str, str]:
    gas = " ".join(str(person[key]) for key in ("cylinder", "gas") if person.get(key))
    return {
        "name": str(person.get("name", "")),
        "role": str(person.get("role") or ""),
        "gas": gas,
        "place": str(person.get("place") or NOT_KNOWN),
    }


def _step(step: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "n": str(step.get("n", "")),
        "text": str(step.get("text", "")),
        "who": str(step.get("who") or ""),
        "check": str(step.get("check") or ""),
        "stop_point": bool(step.get("stop_point")),
    }


def _two_columns(steps: list[dict[str, Any]]) -> list[list[dict[str, Any]]]:
    """Break the steps where the texts of both columns are about as long."""
    lengths = [len(step["text"]) + len(step["who"]) + len(step["check"]) + _LINE_COST for step in steps]
    half, run, left = sum(lengths) / 2, 0.0, 0
    while left < len(steps) and run + lengths[left] / 2 < half:
        run += lengths[left]
        left += 1
    return [steps[:left], steps[left:]] if steps else []


def _agreed(document: Mapping[str, Any]) -> list[dict[str, str]]:
    """What the team agreed, where it is told; what is not told stands on the page of the evening, not on the brief."""
    told = document.get("agreed") or {}
    labels = (("Fit to dive", "fit"), ("Signals", "signals"), ("Flag", "flag"), ("Boat", "boat"))
    return [{"label": label, "value": told[key]} for label, key in labels if told.get(key) not in (None, "unknown")]


def _emergency(document: Mapping[str, Any]) -> list[dict[str, str]]:
    told = document.get("emergency") or {}
    told = {**told, "position": told.get("position_written") or told.get("position")}
    labels = (("Call", "call"), ("Position", "position"), ("Help", "help"), ("Recall", "recall"), ("Comms", "comms"))
    return [{"label": label, "value": told.get(key) or NOT_KNOWN} for label, key in labels]
