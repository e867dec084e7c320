"""Method first: every way up that the kit and the place allow, compared; the safest that works is proposed."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources

METHODS = ("carried", "hauled", "bag and line", "accompanied", "unaccompanied", "crane or others")
"""All ways up, the safest first."""

WITH_BAGS = ("bag and line", "accompanied", "unaccompanied")
"""Ways up that use lift bags."""


@dataclass(frozen=True, slots=True)
class MethodRow:
    """One way up.

    Parameters
    ----------
    method : str
        One of METHODS.
    possible : bool
        True when kit, load and place allow it.
    why : str
        Why it is, or is not, in one sentence.
    people_in_water : int
        People in the water beside the load while it moves.
    surplus : float or None
        Lift left over at the instant of release, high end, kg.
    minutes : float or None
        From the first gas, or the first pull, to the surface, likely, s.
    goes_wrong : str
        What can go wrong.
    """

    method: str
    possible: bool
    why: str
    people_in_water: int
    surplus: float | None
    minutes: float | None
    goes_wrong: str


@cache
def method_words() -> dict[str, tuple[int, str]]:
    """Read who is in the water and what can go wrong for each way up.

    Returns
    -------
    dict of str to (int, str)
        By method.
    """
    text = resources.files("parbuckle.data").joinpath("methods.toml").read_text(encoding="utf-8")
    return {m["name"]: (m["people_in_water"], m["goes_wrong"]) for m in tomllib.loads(text)["method"]}


def row(method: str, possible: bool, why: str, surplus: float | None = None, minutes: float | None = None) -> MethodRow:
    """Make one row of the comparison.

    Parameters
    ----------
    method : str
        One of METHODS.
    possible : bool
        True when it can be done.
    why : str
        One sentence.
    surplus : float, optional
        Lift left over at release, kg.
    minutes : float, optional
        Time it takes, s.

    Returns
    -------
    MethodRow
        With its words.
    """
    people, wrong = method_words()[method]
    return MethodRow(method, possible, why, people, surplus, minutes, wrong)


def propose(rows: tuple[MethodRow, ...]) -> str:
    """Give the safest method that is possible.

    Parameters
    ----------
    rows : tuple of MethodRow
        The comparison.

    Returns
    -------
    str
        Its name.
    """
    possible = {r.method for r in rows if r.possible}
    return next(m for m in METHODS if m in possible)
