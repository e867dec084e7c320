"""The ascent under control as texts: what the people in the water read, and what the supervisor reads."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from typing import Any

from parbuckle.brief.figures import NOT_KNOWN, Figures, figures_of

_OF = 100  # chances are told as so many of a hundred
_SENTENCES = re.compile(r"(?<=[.!?]) (?=[A-Z])")
_POLICIES = {"pulls": "short pulls", "hold": "held open until slow", "crack": "open by a crack"}


def control_view(document: Mapping[str, Any]) -> dict[str, Any] | None:
    """Prepare the ascent under control: every text of it, already formatted.

    Chances stand only in the parts for the supervisor: ``chances``, ``policies`` and ``changes``.

    Parameters
    ----------
    document : mapping
        The plan document; needs ``ascent.under_control``.

    Returns
    -------
    dict or None
        ``state``, ``for_all`` (the sentence without chances), ``policy``, ``people``, ``limits``, ``expect``, ``who``,
        ``let_go``, ``card`` for everybody; ``sentence``, ``numbers``, ``chances``, ``longest``, ``policies``,
        ``changes``, ``drivers``, ``closed`` for the supervisor. None where nobody takes it up.
    """
    ascent = document.get("ascent") or {}
    told: Mapping[str, Any] = ascent.get("under_control") or {}
    if not told:
        return None
    figures = figures_of(document)
    return {
        "state": str(told.get("state") or NOT_KNOWN),
        "sentence": str(told.get("sentence") or ""),
        "for_all": " ".join(sentences(str(told.get("sentence") or ""))),
        "policy": str(told.get("policy_words") or ""),
        "people": str(told.get("people_words") or ""),
        "limits": _limits(told, document, figures),
        "expect": [_expected(row, figures) for row in _beside(told)],
        "who": [{key: str(row.get(key) or "") for key in ("name", "role", "does")} for row in told.get("who") or []],
        "let_go": [str(text) for text in told.get("let_go_if") or []],
        "card": [str(text) for text in told.get("runaway_card") or []],
        "numbers": _numbers(told, ascent, figures),
        "chances": _chances(told),
        "longest": _longest(told, figures),
        "policies": [_policy(row) for row in told.get("policies") or []],
        "changes": [_change(row, figures) for row in told.get("changes") or []],
        "drivers": [
            {"label": str(row.get("input") or ""), "value": figures.one(row.get("share"), "share")}
            for row in told.get("drivers") or []
        ],
        "closed": [str(row.get("words") or "") for row in ascent.get("closed") or []],
        "n": told.get("n"),
    }


def sentences(text: str) -> list[str]:
    """Give the sentences of a text that tell no chance in figures: those that everybody may read.

    Parameters
    ----------
    text : str
        Some sentences.

    Returns
    -------
    list of str
        One for each sentence.

    Examples
    --------
    >>> sentences("Vent early. It keeps the rate in 93 of 100. Wait.")
    ['Vent early.', 'Wait.']
    """
    return [part for part in _SENTENCES.split(text) if f"of {_OF}" not in part]


def chance(share: float | None, error: float | None = None) -> str:
    """Tell a chance as so many of a hundred, with what the number of draws leaves open.

    Parameters
    ----------
    share : float or None
        0 to 1.
    error : float, optional
        Two standard errors.

    Returns
    -------
    str
        Empty when there is no chance to tell.

    Examples
    --------
    >>> chance(0.932, 0.016), chance(0.0), chance(0.999), chance(None)
    ('93 of 100 (± 2)', 'under 1 of 100', 'over 99 of 100', '')
    """
    if share is None:
        return ""
    whole = round(share * _OF)
    if whole <= 0:
        return f"under 1 of {_OF}"
    if whole >= _OF:
        return f"over {_OF - 1} of {_OF}"
    spread = "" if error is None else f" (± {max(math.ceil(error * _OF - 1e-9), 1)})"
    return f"{whole} of {_OF}{spread}"


def _limits(told: Mapping[str, Any], document: Mapping[str, Any], figures: Figures) -> list[dict[str, str]]:
    """One safe-side number each, for the people in the water."""
    clear = (document.get("circles") or {}).get("bottom_m")
    target = told.get("target_m_min")
    aim = {"label": "Aim at", "value": figures.one(target, "rate"), "other": figures.other(target, "rate")}
    rows = [
        ("Let go above", told.get("ceiling_m_min"), "rate", False),
        ("Leave it at", told.get("left_at_m"), "length", True),
        ("Keep clear below", clear, "length", True),
    ]
    safe = [
        {"label": label, "value": figures.safe(value, kind, up), "other": figures.safe(value, kind, up, other=True)}
        for label, value, kind, up in rows
        if value is not None
    ]
    return safe if target is None else [aim, *safe]


def _beside(told: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    """Keep what happens while the divers are beside it: nobody is there above the depth at which they leave it."""
    left = told.get("left_at_m") or 0.0
    return [row for row in told.get("expect") or [] if (row.get("depth_m") or 0.0) >= left]


def _expected(row: Mapping[str, Any], figures: Figures) -> dict[str, str]:
    depth = row.get("depth_m")
    return {
        "depth": figures.one(depth, "length"),
        "other": figures.other(depth, "length"),
        "words": str(row.get("words") or ""),
    }


def _numbers(told: Mapping[str, Any], ascent: Mapping[str, Any], figures: Figures) -> list[dict[str, str]]:
    pull = ascent.get("pull_l_band") or ascent.get("pull_l")
    measured = "measured" if ascent.get("pull_measured") else "not measured"
    rows = [
        ("Up in", figures.band(told.get("time_s"), "time")),
        ("Fastest", figures.band(told.get("max_speed_m_s"), "rise")),
        ("Arrives at", figures.band(told.get("arrival_speed_m_s"), "rise")),
        ("Vented, free", figures.band(told.get("gas_vented_l"), "volume")),
        ("Added, free", figures.band(_some(told.get("gas_added_l")), "volume")),
        (f"One pull ({measured})", figures.band(pull, "volume")),
        ("Neutral window", figures.one(ascent.get("neutral_window_l"), "volume")),
        ("Dump opens", _count(told.get("dumps"), bool(ascent.get("pull_measured")))),
        ("Reaction", figures.band(told.get("delay_s"), "time")),
        ("Delay budget", figures.one(ascent.get("delay_budget_s"), "time")),
    ]
    return [{"label": label, "value": value} for label, value in rows if value != NOT_KNOWN]


def _some(band: Mapping[str, float] | None) -> Mapping[str, float] | None:
    return band if band and band.get("high") else None


def _count(band: Mapping[str, float] | None, measured: bool) -> str:
    """How often the dump opens; without a measured pull no count goes on paper."""
    if band is None or not measured:
        return NOT_KNOWN
    return f"{band['likely']:.0f} times ({band['low']:.0f} to {band['high']:.0f})"


def _chances(told: Mapping[str, Any]) -> list[dict[str, str]]:
    rows = [
        ("Within the rate", "chance_within_rate"),
        ("Runs away", "chance_runaway"),
        ("Sinks back", "chance_sinks_back"),
        ("Floats", "chance_floats_at_surface"),
    ]
    made = [(label, chance(told.get(key), told.get(f"{key}_error"))) for label, key in rows]
    made.append(("A tender lets go", chance(told.get("let_go_share"))))
    return [{"label": label, "value": value} for label, value in made if value]


def _longest(told: Mapping[str, Any], figures: Figures) -> str:
    """The longest reaction time with which it is still held."""
    if "longest_delay_s" not in told:
        return ""
    longest = told["longest_delay_s"]
    if longest is None:
        return "No reaction time that was tried holds it."
    least = "at least " if told.get("longest_delay_at_least") else ""
    return f"Held up to a reaction of {least}{figures.one(longest, 'time')}."


def _policy(row: Mapping[str, Any]) -> dict[str, str]:
    return {
        "words": str(row.get("words") or row.get("policy") or ""),
        "name": _POLICIES.get(str(row.get("policy")), str(row.get("policy") or "")),
        "best": "best" if row.get("best") else "",
        "within": chance(row.get("chance_within_rate")),
        "away": chance(row.get("chance_runaway")),
        "back": chance(row.get("chance_sinks_back")),
    }


def _change(row: Mapping[str, Any], figures: Figures) -> dict[str, str]:
    budget = row.get("delay_budget_s")
    return {
        "what": str(row.get("what") or ""),
        "words": str(row.get("words") or ""),
        "budget": "" if budget is None else figures.one(budget, "time"),
        "within": chance(row.get("chance_within_rate")),
    }


__all__: Sequence[str] = ("chance", "control_view", "sentences")
