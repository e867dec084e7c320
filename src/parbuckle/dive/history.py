"""What a diver carries into a dive: tissues, the table's record of the dives before, and oxygen of the last day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from parbuckle.dive.both_models import Before
from parbuckle.dive.loading import at_rest, load, rest
from parbuckle.dive.problem import Diver, DivingProblem, Earlier
from parbuckle.dive.profile import Leg, leg, travel
from parbuckle.dive.track import after_track, oxygen_of
from parbuckle.physics.constants import ATMOSPHERE
from parbuckle.quantity.band import HIGH, at_share
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.frozen import Floats, Frozen

_DAY = 86400.0


@dataclass(frozen=True)
class Done(Frozen):
    """A dive that is over, as the table and the oxygen clock see it.

    Parameters
    ----------
    pressure, time : float
        Deepest absolute pressure, Pa, and bottom time, s; high ends.
    gas : Gas
        What was breathed.
    start, surfaced : float or None
        s since 1970; the early end of the one and the late end of the other; None: not known.
    daily, dose : Floats or None
        Share of the oxygen exposure of a day, and dose to the lungs; None: not known.
    """

    pressure: float
    time: float
    gas: Gas
    start: float | None
    surfaced: float | None
    daily: Floats | None
    dose: Floats | None


@dataclass(frozen=True)
class History(Frozen):
    """One diver between two dives.

    Parameters
    ----------
    tissues : Floats
        Partial pressures, Pa, shape (2, 16, n) or (2, 16, 1).
    since : Floats or None
        When the tissues were so, s since 1970, shape (n,) or (1,); None: not known.
    done : tuple of Done
        Dives before, in order.
    """

    tissues: Floats
    since: Floats | None
    done: tuple[Done, ...] = ()

    def interval(self, start: float | None) -> Floats | None:
        """Give the time at the surface before a dive.

        Parameters
        ----------
        start : float or None
            Start of the dive, s since 1970.

        Returns
        -------
        Floats or None
            s, not below 0, shape (n,) or (1,); None without a dive before, or where a time is not known.
        """
        if not self.done or self.since is None or start is None:
            return None
        return np.maximum(start - self.since, 0.0)

    def before(self, start: float | None) -> tuple[Before, ...]:
        """Give the dives before as the table sees them; an interval that is not known counts as none.

        Parameters
        ----------
        start : float or None
            Start of the dive, s since 1970.

        Returns
        -------
        tuple of Before
            In order.
        """
        starts = [*(d.start for d in self.done[1:]), start][: len(self.done)]
        gaps = [
            0.0 if nxt is None or d.surfaced is None else max(nxt - d.surfaced, 0.0)
            for d, nxt in zip(self.done, starts, strict=True)
        ]
        return tuple(Before(d.pressure, d.time, d.gas, gap) for d, gap in zip(self.done, gaps, strict=True))

    def last_day(self, start: float | None) -> tuple[Done, ...]:
        """Give the dives that ended in the 24 hours before a dive; those of unknown time too.

        Parameters
        ----------
        start : float or None
            Start of the dive, s since 1970.

        Returns
        -------
        tuple of Done
            In order.
        """
        return tuple(d for d in self.done if start is None or d.surfaced is None or start - d.surfaced < _DAY)

    def rested(self, problem: DivingProblem, start: float | None) -> Floats:
        """Give the tissues on leaving the surface.

        Parameters
        ----------
        problem : DivingProblem
            Air pressure.
        start : float or None
            Start of the dive, s since 1970.

        Returns
        -------
        Floats
            Partial pressures, Pa; a time at the surface that is not known gives no credit.
        """
        if self.since is None or start is None:
            return self.tissues
        return rest_long(self.tissues, problem.water.surface, np.maximum(start - self.since, 0.0))


def rest_long(tissues: Floats, surface: Floats, time: Floats) -> Floats:
    """Let tissues give off gas at the surface; more than a week counts as a week.

    Parameters
    ----------
    tissues : Floats
        Partial pressures, Pa.
    surface : Floats
        Air pressure, Pa.
    time : Floats
        How long, s.

    Returns
    -------
    Floats
        Partial pressures, Pa; after a week the slowest tissue is within 2e-5 of rest.
    """
    return rest(tissues, surface, np.minimum(time, 7.0 * _DAY))


def fresh(problem: DivingProblem, diver: Diver, first: float | None) -> History:
    """Give a diver before the first dive of the case, with the dives that were made before it.

    Parameters
    ----------
    problem : DivingProblem
        Height, arrival, water, rates.
    diver : Diver
        Who.
    first : float or None
        Start of the diver's first dive of the case, s since 1970.

    Returns
    -------
    History
        Tissues in balance with the sea where the team has only just come up; that is the safe side.
    """
    earlier = sorted(diver.earlier, key=lambda dive: dive.surfaced)
    begins = first if not earlier else earlier[0].surfaced - at_share(_lasts(problem, earlier[0]), HIGH)
    surface = problem.water.surface
    tissues = at_rest(surface if problem.lives_there else ATMOSPHERE)
    if not problem.lives_there and problem.arrived is not None and begins is not None:
        tissues = rest_long(tissues, surface, np.array([max(begins - problem.arrived, 0.0)]))
    history = History(tissues, None)
    for dive in earlier:
        start = dive.surfaced - at_share(_lasts(problem, dive), HIGH)
        after, daily, dose = _through(problem, dive, history.rested(problem, start))
        over = Done(
            at_share(problem.water.at(dive.depth), HIGH),
            at_share(dive.time, HIGH),
            dive.gas,
            start,
            dive.surfaced,
            daily,
            dose,
        )
        history = replace(history, tissues=after, since=np.array([dive.surfaced]), done=(*history.done, over))
    return history


def _through(problem: DivingProblem, dive: Earlier, tissues: Floats) -> tuple[Floats, Floats | None, Floats | None]:
    """Tissues after a dive, and the oxygen it used: known where it was logged."""
    if dive.track is None:
        return load(tissues, _legs(problem, dive)), None, None
    return after_track(tissues, dive.track, problem.water), *oxygen_of(dive.track, problem.water)


def _lasts(problem: DivingProblem, dive: Earlier) -> Floats:
    if dive.track is not None:
        return np.array([dive.track.lasts])
    return np.asarray(dive.time + dive.depth / problem.rules.up)


def _legs(problem: DivingProblem, dive: Earlier) -> Sequence[Leg]:
    """A square dive, straight up: a stop that was made is not known."""
    water, rules = problem.water, problem.rules
    down = travel(water, 0.0, dive.depth, rules.down, dive.gas)
    stay = np.maximum(dive.time - down.time, 0.0)
    return (
        down,
        leg(water, dive.depth, dive.depth, stay, dive.gas),
        travel(water, dive.depth, 0.0, rules.up, dive.gas),
    )
