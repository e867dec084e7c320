"""What the rules look at of a search."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SearchFacts:
    """The search and its proposed pattern; nothing where no search is planned.

    Parameters
    ----------
    pattern : str
        Name of the proposed pattern; empty when there is none.
    spacing : float or None
        From lane to lane, m.
    sweep_width : float or None
        Middle of the sweep width, m.
    outside : float
        Length that is swum where it cannot be searched, m.
    drift : float or None
        How far the stream carries an uncorrected diver in the time on the pattern, m; None when it is not known.
    by_compass : bool
        True when the pattern holds to no line.
    on_a_line : bool
        True when a line lies out over the bottom.
    needs : float or None
        Way down, search and the tasks after it, s.
    no_stop : float or None
        Time without a stop of the dive that searches, s.
    passes : int
        Passes that found nothing.
    tried : bool
        True when the sight was tried on a sample object.
    judged : tuple of (str, float)
        Witnesses who judged a distance over water, and the share that it may be more.
    alike : tuple of str
        Pairs of witnesses who may be one.
    short_of_gas : tuple of (str, float, float)
        Divers, what they breathe on the pattern and what their cylinder gives, m3 at the surface.
    """

    pattern: str = ""
    spacing: float | None = None
    sweep_width: float | None = None
    outside: float = 0.0
    drift: float | None = None
    by_compass: bool = False
    on_a_line: bool = False
    needs: float | None = None
    no_stop: float | None = None
    passes: int = 0
    tried: bool = True
    judged: tuple[tuple[str, float], ...] = ()
    alike: tuple[str, ...] = ()
    short_of_gas: tuple[tuple[str, float, float], ...] = ()
