"""The words of a search card: what to do when it is found, when not, and when line or buddy are lost."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib import resources
from typing import Any


@cache
def search_words() -> dict[str, dict[str, Any]]:
    """Read the words of the cards.

    Returns
    -------
    dict
        ``found``, ``not_found``, ``lost_line``, ``lost_buddy`` and ``turn``: each ``title``, ``words`` (sentences),
        ``short`` (lines for the slate) and ``source``.

    Notes
    -----
    Source: common practice; the words are the project's own.

    Examples
    --------
    >>> search_words()["found"]["short"][1]
    'Do not lift it.'
    """
    text = resources.files("parbuckle.data").joinpath("search_words.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)
