"""Answers of the evening before that were told: people, rules, signals, the boat, the law, permission, emergency."""

from __future__ import annotations

from parbuckle.desk.tonight_lift import Said
from parbuckle.desk.tonight_words import Document, listed, sentences, split, texts_of

_AGREED = {"fit": "Current and fit", "signals": "Signals", "flag": "Flag", "boat": "Boat"}
_LICENCE = ("licence_lift", "licence_age", "wreck_report")


def people(document: Document) -> Said:
    """Answer: who is in the water, who is standby, who watches; is everybody current and fit.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    rows = document["people"]
    if not rows:
        return "No team is named.", "Write the team of each dive under Dive."
    wet = listed(f"{row['name']} ({row['role']})" for row in rows if row["in_water"])
    dry = listed(f"{row['name']} ({row['role']})" for row in rows if not row["in_water"])
    return (
        sentences(f"In the water: {wet or 'nobody'}", f"Not in it: {dry or 'nobody'}", _told(document, "fit")),
        _open(document, "fit", "Ask each one tonight, by name: current and fit? Write it under Brief."),
    )


def stop_rules(document: Document) -> Said:
    """The stop rules, and that everybody may call one.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    limits = document["asked"]["limits"]
    told = [f"{key} {text}" for key, text in limits.items() if text]
    lines = [row.rstrip(".").lower() for row in document["abort"]]
    answer = sentences(
        f"Stop on: {'; '.join(lines)}",
        f"Limits of the day: {', '.join(told)}" if told else None,
        document["abort_action"],
        "Everybody may call it",
    )
    open_limits = [key for key, text in limits.items() if not text]
    return answer, f"Set under Call, the limits of the day: {', '.join(open_limits)}." if open_limits else None


def signals(document: Document) -> Said:
    """Answer: which signals, and are they all of one set.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    told = document["emergency"]
    return (
        sentences(
            f"Recall: {told['recall']}" if told["recall"] else "No recall is told",
            f"Divers and surface talk by: {told['comms']}"
            if told["comms"]
            else "How divers and surface talk is not told",
            f"{len(document['signals'])} messages need a signal; the brief has the table",
            _told(document, "signals"),
        ),
        _open(document, "signals", "Agree one set, write which under Brief, and fill in the signal table."),
    )


def boat(document: Document) -> Said:
    """Answer: how and when does the boat come in, and which flag is up.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    calls = [row for row in document["steps"] if "boat" in row["text"].lower()]
    surface = document.get("surface") or {}
    traffic = document["asked"]["hazards"]["traffic"]
    return (
        sentences(
            *[f"Step {row['n']}: {row['text']}" for row in calls],
            f"Then: {surface['then']}" if surface.get("then") else "How it goes on from the surface is not told",
            f"Traffic: {traffic}" if traffic else None,
            _told(document, "boat"),
            _told(document, "flag"),
        ),
        _open(document, "flag", "Name the flag and who sees to it, under Brief. The local rule decides."),
    )


def legal(document: Document) -> Said:
    """Answer: is anything about the object or the place a legal stop.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    said, lacking = split(document["asked"]["hazards"])
    answer = sentences("; ".join(said) if said else "Nothing was asked yet", *texts_of(document, _LICENCE))
    return answer, f"Ask, and write it under Call: {', '.join(lacking)}." if lacking else None


def permission(document: Document) -> Said:
    """Answer: who said yes, and where is that written down.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    said, lacking = split(document["asked"]["permission"])
    answer = sentences("; ".join(said) if said else "Nobody has said yes")
    return answer, f"Ask and write who, when and how, under Call: {', '.join(lacking)}." if lacking else None


def emergency(document: Document) -> Said:
    """Answer: who is called, from where comes help, what is our position.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    told = document["emergency"]
    words = {"call": "Call", "position": "Say", "help": "Help", "recall": "Recall"}
    said, lacking = split({word: told[key] for key, word in words.items()})
    answer = sentences(*said) if said else "Nothing is written down."
    return answer, f"Write under Brief: {', '.join(lacking).lower()}." if lacking else None


def _told(document: Document, key: str) -> str | None:
    said = document["agreed"][key]
    return None if said in (None, "unknown") else f"{_AGREED[key]}: {said}"


def _open(document: Document, key: str, do: str) -> str | None:
    return do if _told(document, key) is None else None
