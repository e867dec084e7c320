"""The search beside the other stages: its rooms are loaded only where somebody told where it may be."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from parbuckle.plan.stages import Stages


def with_search(stages: Stages, minutes: float | None = None, whole: bool = True) -> Stages:
    """Work the search out.

    Parameters
    ----------
    stages : Stages
        Case and what the stages before found.
    minutes : float, optional
        Time on the pattern, min; left out: as the case says.
    whole : bool
        True looks for two patterns in one dive and plans the dives after it as well.

    Returns
    -------
    Stages
        With the search; the same where there is no account and no area.

    Raises
    ------
    CaseError
        If an account or a pass is not whole.
    RangeError
        If no cell that can be searched holds a chance.
    """
    if not stages.case.account and not stages.case.search.area:
        return stages
    from parbuckle.plan.searching import searched

    return replace(stages, searched=searched(stages, minutes, whole))


def search_of(stages: Stages) -> dict[str, Any] | None:
    """Give the search section of the document.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    dict or None
        None without a search.
    """
    if stages.searched is None:
        return None
    from parbuckle.plan.sheet_search import search_section

    return search_section(stages, stages.searched)
