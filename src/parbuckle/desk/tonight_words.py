"""Small words for the answers of the evening before: numbers in both systems, lists, times."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from parbuckle.duties.words import understood
from parbuckle.quantity.shown import THIN, both, clock, show_band

Document = Mapping[str, Any]


def band(document: Document, values: Mapping[str, float] | None, kind: str, digits: int | None = None) -> str:
    """Show a band in both unit systems, the chosen one first.

    Parameters
    ----------
    document : mapping
        The plan document.
    values : mapping or None
        ``low``, ``likely``, ``high``.
    kind : str
        Kind of the table of shown kinds.
    digits : int, optional
        Significant figures.

    Returns
    -------
    str
        Such as ``37 kg (34 to 40), 81 lb (76 to 87)``.
    """
    first = document["case"]["units"]
    second = "imperial" if first == "metric" else "metric"
    texts = [show_band(values, kind, units, digits).replace(THIN, " ") for units in (first, second)]
    return texts[0] if texts[0] == texts[1] else ", ".join(texts)


def one(document: Document, value: float | None, kind: str) -> str:
    """Show one value in both unit systems, the chosen one first.

    Parameters
    ----------
    document : mapping
        The plan document.
    value : float or None
        In the base unit of the kind.
    kind : str
        Kind of the table of shown kinds.

    Returns
    -------
    str
        Such as ``16 m (52 ft)``.
    """
    first, second = (text.replace(THIN, " ") for text in both(value, kind, document["case"]["units"]))
    return first if first == second else f"{first} ({second})"


def listed(words: Iterable[str], last: str = "and") -> str:
    """Put words in a row.

    Parameters
    ----------
    words : iterable of str
        The words.
    last : str
        What stands before the last.

    Returns
    -------
    str
        Such as ``a, b and c``.

    Examples
    --------
    >>> listed(["a", "b", "c"])
    'a, b and c'
    """
    rows = list(words)
    return rows[0] if len(rows) == 1 else f"{', '.join(rows[:-1])} {last} {rows[-1]}" if rows else ""


def sentences(*parts: str | None) -> str:
    """Put sentences one after the other; what is empty is left out.

    Parameters
    ----------
    *parts : str or None
        Sentences, with or without their full stop.

    Returns
    -------
    str
        One text.

    Examples
    --------
    >>> sentences("go", None, "Stop.")
    'Go. Stop.'
    """
    told = (part[:1].upper() + part[1:] for part in parts if part)
    return " ".join(part if part.endswith((".", "?", "!")) else f"{part}." for part in told)


def split(words: Mapping[str, str | None]) -> tuple[list[str], list[str]]:
    """Part a table of answers in those that say something and those that are open.

    Parameters
    ----------
    words : mapping
        Answers by their keys.

    Returns
    -------
    tuple of list of str
        ``key: answer`` of those that say something; the keys of the others.

    Examples
    --------
    >>> split({"owner": "asked", "site": "unknown"})
    (['owner: asked'], ['site'])
    """
    told = [f"{key.replace('_', ' ')}: {text}" for key, text in words.items() if understood(text) != "open"]
    return told, [key.replace("_", " ") for key, text in words.items() if understood(text) == "open"]


def time_band(values: Mapping[str, str | None]) -> str:
    """Show a band of times.

    Parameters
    ----------
    values : mapping
        ``low``, ``likely``, ``high`` in ISO 8601.

    Returns
    -------
    str
        Such as ``10:07 (09:49 to 10:25)``.
    """
    low, likely, high = (clock(text) if (text := values.get(key)) else "?" for key in ("low", "likely", "high"))
    return likely if low == likely == high else f"{likely} ({low} to {high})"


def texts_of(document: Document, codes: Sequence[str]) -> list[str]:
    """Give the texts of findings by their codes.

    Parameters
    ----------
    document : mapping
        The plan document.
    codes : sequence of str
        Codes.

    Returns
    -------
    list of str
        In the order of the document; lifted ones left out.
    """
    return [row["text"] for row in document["findings"] if row["code"] in codes and not row["lifted"]]
