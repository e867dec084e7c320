"""What the chooser found: every pattern with its chance, the best first, and why."""

from __future__ import annotations

from dataclasses import dataclass

from parbuckle.quantity.frozen import Floats, Frozen
from parbuckle.search.legs import Pattern


@dataclass(frozen=True)
class PatternAnswer(Frozen):
    """One pattern, fitted to the map and the time.

    Parameters
    ----------
    pattern : Pattern
        Its legs, marks and parameters.
    chance : float
        Chance that it finds the object, errors and sweep width averaged, 0 to 1.
    bound : float
        Chance of the best allocation of the same effort under the same law, ways and turns not paid.
    minutes : float
        Time on the pattern with turns, shifts and ways, min.
    gas_reaches : bool
        Whether the gas of the two divers lasts so long.
    outside : float
        Length that would be swum where it cannot be searched, m.
    judged : str
        ``good``, ``fair`` or ``poor`` against the bound.
    why : str
        What it promises and why it stands where it stands.
    positions, snags : str
        Where the divers are, and what to do at a snag.
    """

    pattern: Pattern
    chance: float
    bound: float
    minutes: float
    gas_reaches: bool
    outside: float
    judged: str
    why: str
    positions: str
    snags: str

    @property
    def share_of_bound(self) -> float:
        """Chance over the bound."""
        return self.chance / self.bound if self.bound > 0.0 else 0.0


@dataclass(frozen=True)
class PatternRefused(Frozen):
    """A pattern that cannot be swum here.

    Parameters
    ----------
    name : str
        Name of the pattern.
    why : str
        What is missing.
    """

    name: str
    why: str


@dataclass(frozen=True)
class PatternPair(Frozen):
    """Two patterns in one dive that promise more than the best one alone.

    Parameters
    ----------
    first, second : Pattern
        In the order in which they are swum.
    names : tuple of str
        Their names.
    chance : float
        Chance that one of the two finds it.
    bound : float
        Chance of the best allocation of all the time.
    minutes : float
        Time on both with the way between, min.
    clearly : bool
        Whether they promise so much more that two are worth the trouble.
    why : str
        What it promises.
    """

    first: Pattern
    second: Pattern
    names: tuple[str, ...]
    chance: float
    bound: float
    minutes: float
    clearly: bool
    why: str

    @property
    def share_of_bound(self) -> float:
        """Chance over the bound."""
        return self.chance / self.bound if self.bound > 0.0 else 0.0


@dataclass(frozen=True)
class Choice(Frozen):
    """All patterns, the best first.

    Parameters
    ----------
    answers : tuple of PatternAnswer
        The proposed one first, then by chance.
    refused : tuple of PatternRefused
        Patterns that cannot be swum here.
    pair : PatternPair or None
        Two patterns in one dive, where they promise more.
    coverage : Floats
        Chance that the proposed pattern sees an object in each cell, shape (rows, columns); 0 in closed cells.
    """

    answers: tuple[PatternAnswer, ...]
    refused: tuple[PatternRefused, ...]
    pair: PatternPair | None
    coverage: Floats
