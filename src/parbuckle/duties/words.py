"""How an answer in words is understood: not answered, none, yes, or words that say more."""

from __future__ import annotations

import re
from typing import Literal

Answer = Literal["open", "none", "yes", "words"]

OPEN = frozenset({"", "?", "unknown", "not known", "not asked", "no idea", "don't know", "unclear", "tbc", "tbd"})
"""Texts that answer nothing."""

NONE = frozenset({"no", "none", "nothing", "not any", "none seen", "none known"})
"""Texts that say: there is none. More words may follow after a comma, a semicolon or a full stop."""

YES = frozenset({"yes", "y"})
"""Texts that say yes and nothing more."""


def understood(text: str | None) -> Answer:
    """Tell what an answer in words says; in doubt it says that there is something.

    Parameters
    ----------
    text : str or None
        The answer.

    Returns
    -------
    str
        ``open`` when it answers nothing, ``none`` when there is none, ``yes``, or ``words``.

    Examples
    --------
    >>> understood("unknown"), understood("none; swimmers kept off"), understood("no idea"), understood("a chain")
    ('open', 'none', 'open', 'words')
    """
    whole = (text or "").strip().lower().rstrip(".!")
    first = re.split(r"[,;.:(]", whole, maxsplit=1)[0].strip()
    if whole in OPEN or first in OPEN:
        return "open"
    if first in NONE:
        return "none"
    return "yes" if whole in YES else "words"
