"""Small words for the answers of the evening before: numbers in both systems, lists, times."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from parbuckle.brief.dive_rows import gauge_both
from parbuckle.brief.figures import Figures
from parbuckle.duties.words import understood
from parbuckle.quantity.shown import THIN, both, clock, show, show_band

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


def safe(document: Document, value: float | None, kind: str, up: bool) -> str:
    """Show one limit in whole units of both systems, rounded to the safe side.

    Parameters
    ----------
    document : mapping
        The plan document.
    value : float or None
        In the base unit of the kind.
    kind : str
        Kind of the table of shown kinds.
    up : bool
        True when more is safer.

    Returns
    -------
    str
        Such as ``12 m (40 ft)``.
    """
    return Figures(document["case"]["units"]).safe_both(value, kind, up).replace(THIN, " ")


def gauges(document: Document, rows: Iterable[Mapping[str, Any]], key: str) -> str:
    """Show the pressure at which each diver acts, as the dive page rounds it.

    Parameters
    ----------
    document : mapping
        The plan document.
    rows : iterable of mapping
        Divers.
    key : str
        Key of the pressure, bar; a diver without it is left out.

    Returns
    -------
    str
        Such as ``Ines 75 bar (1090 psi) and Tomas 80 bar (1170 psi)``.
    """
    units = document["case"]["units"]
    known = [(row["name"], row[key]) for row in rows if row.get(key) is not None]
    return listed(f"{name} {gauge_both(bar, units)}".replace(THIN, " ") for name, bar in known)


def share(value: float) -> str:
    """Show a share of a hundred.

    Parameters
    ----------
    value : float
        From 0 to 1.

    Returns
    -------
    str
        Such as ``48 %``.
    """
    return show(value, "share").replace(THIN, " ")


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
        In the order of the document; of a stop that was lifted, that it was, and by whom.
    """
    return [with_lifting(row) for row in document["findings"] if row["code"] in codes]


def with_lifting(row: Mapping[str, Any]) -> str:
    """Give the text of a finding; a stop that was lifted stays visible.

    Parameters
    ----------
    row : mapping
        A row of ``findings``.

    Returns
    -------
    str
        Such as ``Stop lifted. The bag is past its date. Lifted by Ada: tested today.``.
    """
    lifted = row["lifted"]
    if not lifted:
        return str(row["text"])
    return f"Stop lifted. {row['text']} Lifted by {lifted['by']}: {str(lifted['reason']).rstrip('.')}."
