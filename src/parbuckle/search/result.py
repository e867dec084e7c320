"""What the search stage found: the map, the bounds, and the patterns with their chances."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from parbuckle.quantity.frozen import Frozen
from parbuckle.search.probability import ProbabilityMap


@dataclass(frozen=True)
class Caution(Frozen):
    """Something about the accounts that a person has to look at.

    Parameters
    ----------
    code : str
        ``range over water`` or ``counted twice``.
    who : tuple of str
        Whose accounts.
    values : tuple of float
        Numbers that belong to it: the share to add, or metres between the two places and the nearer radius.
    """

    code: str
    who: tuple[str, ...]
    values: tuple[float, ...]


@dataclass(frozen=True)
class Bounds(Frozen):
    """What no plan of the same effort can beat.

    Parameters
    ----------
    law : str
        Law of detection of the allocation.
    effort_m : float
        Length of track that the time allows, m.
    allocation : float
        Chance of success of the exact optimal allocation under that law.
    definite_range : float
        Chance of success that no law can beat: every metre looked at is seen, nothing twice.
    """

    law: str
    effort_m: float
    allocation: float
    definite_range: float


@dataclass(frozen=True)
class SearchResult(Frozen):
    """Where to start, how to swim it, and what chance that has.

    Parameters
    ----------
    map : ProbabilityMap
        Before the pass.
    bounds : Bounds
        What no plan can beat.
    patterns : tuple
        Answers of the patterns, best first.
    cautions : tuple of Caution
        About the accounts.
    """

    map: ProbabilityMap
    bounds: Bounds
    patterns: tuple[Any, ...] = ()
    cautions: tuple[Caution, ...] = ()
