"""The page for when something goes wrong: whom to call, what to say, and the team's own words for each case."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from parbuckle.brief.figures import NOT_KNOWN

_CALLS = (
    ("Call", "call"),
    ("Position to tell", "position"),
    ("Nearest help", "help"),
    ("Recall", "recall"),
    ("Divers and surface talk", "comms"),
)
_CARDS = (
    ("Gas fails", "gas_loss"),
    ("Diver held", "entangled"),
    ("Lift runs away", "runaway"),
    ("Diver carried up", "carried_up"),
)
_UNKNOWN = "unknown"


def emergency_page(document: Mapping[str, Any]) -> dict[str, Any] | None:
    """Prepare the page of emergencies.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    dict or None
        ``calls`` (label, value) and ``cards`` (title, texts, whether the team has told it); None without dives.

    Examples
    --------
    >>> emergency_page({}) is None
    True
    """
    if not document.get("dives"):
        return None
    told = document.get("emergency") or {}
    told = {**told, "position": told.get("position_written") or told.get("position")}
    cards = [_card(title, _said(told.get(key)), _built(document, key)) for title, key in _CARDS]
    return {
        "calls": [{"label": label, "value": _said(told.get(key)) or NOT_KNOWN} for label, key in _CALLS],
        "cards": [*cards, *_from_dives(document)],
    }


def _said(text: Any) -> str:
    clean = str(text or "").strip()
    return "" if clean == _UNKNOWN else clean


def _card(title: str, words: str, built: list[str]) -> dict[str, Any]:
    """The team's own words go first; a plan's card stands in for them where there is one."""
    return {"title": title, "texts": [words] if words else built, "told": bool(words or built)}


def _built(document: Mapping[str, Any], key: str) -> list[str]:
    control = (document.get("ascent") or {}).get("under_control") or {}
    return [str(text) for text in control.get("runaway_card") or []] if key == "runaway" else []


def _from_dives(document: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """The cards that the dives bring: each one once."""
    seen: set[tuple[str, str]] = set()
    for dive in document["dives"]:
        for card in dive["ascent"].get("cards") or []:
            pair = (str(card["card"]), str(card["do"]))
            if pair not in seen:
                seen.add(pair)
                yield {"title": pair[0][:1].upper() + pair[0][1:], "texts": [pair[1]], "told": True}
