"""A plain search uphill for the best size and place of a pattern, and the same again with more places."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from parbuckle.search.fit_problem import Fit
from parbuckle.search.fit_quick import Build, Quick
from parbuckle.search.legs import Pattern

HALVINGS = 2
"""Sizes of step that are walked."""

_BETTER = 1.0001
_BACK = 2.0  # the last walk's steps again, not their half
_HALVED = 0.5


@dataclass(frozen=True)
class Fitted:
    """A pattern with the numbers that made it, so that it can be fitted on.

    Parameters
    ----------
    pattern : Pattern
        What is swum.
    score : float
        Its quick score.
    quick : Quick
        Builds and scores.
    numbers : tuple of float
        The numbers.
    steps : tuple of float
        By how much each may be changed; 0 leaves it alone.
    """

    pattern: Pattern
    score: float
    quick: Quick
    numbers: tuple[float, ...]
    steps: tuple[float, ...]


def climb(
    build: Build,
    starts: Sequence[tuple[float, ...]],
    steps: Sequence[float],
    fit: Fit,
    halvings: int = HALVINGS,
    framed: bool = True,
) -> Fitted | None:
    """Walk to a better pattern from the best of some starts, one number at a time, in steps that are halved.

    Parameters
    ----------
    build : callable
        Makes a pattern from numbers; None where it cannot be swum.
    starts : sequence of tuple of float
        Numbers to begin with.
    steps : sequence of float
        First step of each number; 0 leaves it alone.
    fit : Fit
        What it is fitted to.
    halvings : int
        How many sizes of step are walked; 0 gives the best start.
    framed : bool
        Whether the numbers begin with place and turn.

    Returns
    -------
    Fitted or None
        The best found; None where no start can be swum.
    """
    return _walk(Quick(build, fit, framed), starts, steps, halvings)


def climb_on(fitted: Fitted, fit: Fit, halvings: int = HALVINGS) -> Fitted:
    """Fit on with other places or weights, from the last steps.

    Parameters
    ----------
    fitted : Fitted
        What was found.
    fit : Fit
        Same pattern, law and time; other places.
    halvings : int
        How many sizes of step are walked; 0 scores it anew.

    Returns
    -------
    Fitted
        At least as good on those places.
    """
    steps = [_BACK * step for step in fitted.steps] if halvings else fitted.steps
    return _walk(fitted.quick.on(fit), [fitted.numbers], steps, halvings) or fitted


def _walk(quick: Quick, starts: Sequence[tuple[float, ...]], steps: Sequence[float], halvings: int) -> Fitted | None:
    tried = [(quick.score(start), start) for start in starts]
    top, here = max(tried, key=lambda row: row[0], default=(-1.0, ()))
    if top < 0.0:
        return None
    stride = list(steps)
    for _ in range(halvings):
        better = True
        while better:
            better = False
            for k, step in enumerate(stride):
                for sign in (1.0, -1.0) if step else ():
                    there = (*here[:k], here[k] + sign * step, *here[k + 1 :])
                    value = quick.score(there)
                    if value > top * _BETTER:
                        here, top, better = there, value, True
                        break
        stride = [_HALVED * step for step in stride]
    pattern = quick.build(here)
    return None if pattern is None else Fitted(pattern, top, quick, here, tuple(stride))
