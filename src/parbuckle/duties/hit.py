"""What one rule says: a code of the data file with what was measured, against which limit, of what."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TypeAlias

from parbuckle.duties.facts import Facts
from parbuckle.duties.house import House


@dataclass(frozen=True, slots=True)
class Hit:
    """One rule that fired.

    Parameters
    ----------
    code : str
        A code of the data file of findings.
    value : float, str or None
        What was measured (SI) or told; None when it is not known.
    limit : float, str or None
        What it is held against; None when there is none.
    what : str
        Of which thing, person or dive.
    source : str
        Where this limit comes from, when a team set it itself; then it holds in every country and regime.
    """

    code: str
    value: float | str | None = None
    limit: float | str | None = None
    what: str = ""
    source: str = ""


Hits: TypeAlias = Iterable[Hit]
Rule: TypeAlias = Callable[[Facts, House], Hits]


def over(value: float | None, limit: float | None) -> bool:
    """Tell whether a known value is above a known limit; an unknown one never is.

    Parameters
    ----------
    value : float or None
        What was measured.
    limit : float or None
        What it is held against, in the same unit.

    Returns
    -------
    bool
        True when both are known and the value is greater.

    Examples
    --------
    >>> over(2.0, 1.0), over(1.0, 1.0), over(None, 1.0)
    (True, False, False)
    """
    return value is not None and limit is not None and value > limit


def under(value: float | None, limit: float | None) -> bool:
    """Tell whether a known value is below a known limit; an unknown one never is.

    Parameters
    ----------
    value : float or None
        What was measured.
    limit : float or None
        What it is held against, in the same unit.

    Returns
    -------
    bool
        True when both are known and the value is less.

    Examples
    --------
    >>> under(1.0, 2.0), under(2.0, 2.0), under(None, 2.0)
    (True, False, False)
    """
    return value is not None and limit is not None and value < limit
