"""When the dives are: what cannot be at the same time, and how deep it is at the time of each."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from itertools import pairwise

import numpy as np

from parbuckle.case.diving import Dive
from parbuckle.case.model import Case
from parbuckle.case.read import LoadedCase
from parbuckle.plan.asking import Asking
from parbuckle.plan.site_inputs import tide_at
from parbuckle.plan.stages import Stages
from parbuckle.quantity.errors import CaseError
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.spread import Spread, exact


def check_overlap(case: Case) -> None:
    """Refuse a person who is on two dives at the same time.

    Parameters
    ----------
    case : Case
        The case.

    Raises
    ------
    CaseError
        If one dive starts before another one with the same person can be over, by the short ends of its tasks.
    """
    rows = sorted((d.start, n, d) for n, d in enumerate(case.dive, start=1) if d.start is not None)
    for i, (start, number, dive) in enumerate(rows):
        over = start + timedelta(seconds=sum(t.time.low for t in dive.tasks if t.time is not None))
        for later, place, other in rows[i + 1 :]:
            both = {m.person for m in dive.team if m.cylinder} & {m.person for m in other.team if m.cylinder}
            if later < over and both:
                raise CaseError(
                    f"{', '.join(sorted(both))} would be on two dives at once",
                    key=f"dive[{place}].start",
                    given=later.isoformat(),
                    allowed=f"after {over.isoformat()}, when dive {number} can be over at the soonest",
                    do="start later, or send somebody else",
                )


def check_earlier(loaded: LoadedCase) -> None:
    """Refuse earlier dives without an end, that end after the case has begun, or that cannot both have been.

    Parameters
    ----------
    loaded : LoadedCase
        The case, with the logs that it names.

    Raises
    ------
    CaseError
        If an earlier dive has no time of surfacing, if it lies after the start of a dive of the same person or while a
        logged one of the same person lasts, or if a log was not read.
    """
    case, ends = loaded.case, []
    for place, told in enumerate(case.exposure.earlier):
        key = f"exposure.earlier[{place + 1}]"
        if told.log is not None and place not in loaded.past:
            raise CaseError("the log of this dive was not read", key=f"{key}.log", given=told.log)
        if told.log is None and told.surfaced is None:
            raise CaseError(
                "an earlier dive counts from its end",
                key=f"{key}.surfaced",
                allowed="a date with time and offset",
                do="write surfaced = 2027-05-09T06:20:00+01:00",
            )
        ends += [(told.person, past.surfaced, past.start, f"{key}.log") for past in loaded.past.get(place, ())]
        if told.log is None and told.surfaced is not None:
            moment = told.surfaced.timestamp()
            ends.append((told.person, moment, moment, f"{key}.surfaced"))
    _apart(case, sorted(ends))


def _apart(case: Case, ends: list[tuple[str, float, float, str]]) -> None:
    """One person is on one dive at a time; ``ends`` holds person, end, start and key, in order."""
    for before, after in pairwise(ends):
        if before[0] == after[0] and after[2] < before[1]:
            raise CaseError(
                f"two earlier dives of {after[0]} are at the same time",
                key=after[3],
                given=_said(case, after[2]),
                allowed=f"after {_said(case, before[1])}",
                do="correct one of the two, or take out what stands twice",
            )
    for person, end, _, key in ends:
        own = [d.start for d in case.dive if d.start and any(m.person == person for m in d.team)]
        first = min(own, default=None)
        if first is not None and end > first.timestamp():
            raise CaseError(
                f"{person} has not surfaced when the first dive of this case starts",
                key=key,
                given=_said(case, end),
                allowed=f"before {first.isoformat()}",
                do="correct one of the two times",
            )


def _said(case: Case, moment: float) -> str:
    """A moment in the time zone of the case's dives."""
    zone = next((d.start.tzinfo for d in case.dive if d.start), UTC)
    return datetime.fromtimestamp(moment, zone).isoformat(timespec="seconds")


def depth_of_dive(stages: Stages, asking: Asking, dive: Dive) -> Floats:
    """Give the depth to the bottom while a dive lasts: the highest water of it where the depth is charted.

    Parameters
    ----------
    stages : Stages
        Case and site.
    asking : Asking
        Where inputs are drawn and noted.
    dive : Dive
        The dive.

    Returns
    -------
    Floats
        m, shape (n,).
    """
    case = stages.case
    depth = asking.draw("site.depth", case.site.depth, "depth")
    if case.site.depth_how != "chart datum":
        return depth
    heights = [tide_at(case, asking, when) for when in _moments(case, dive)]
    known = [h for h in heights if h is not None]
    if known and len(known) == len(heights):
        return np.asarray(depth + np.maximum.reduce(known))
    if dive.tasks:
        asking.lacks("site.tide", "dive", "The depth is charted; the tide at a dive is not in the table.")
    highest = max((row.height.high for row in case.site.tide), default=0.0)
    stand_in = Spread("length", "flat", 0.0, highest / 2.0, highest, f"0..{highest:g} m", assumed=True)
    return np.asarray(depth + asking.ensemble.draw("site.tide", stand_in if highest > 0.0 else exact("length", 0.0)))


def _moments(case: Case, dive: Dive) -> list[datetime | None]:
    """Start and late end of a dive's work, and the rows of the table between."""
    if dive.start is None:
        return [None]
    end = dive.start + timedelta(seconds=sum(t.time.high for t in dive.tasks if t.time is not None))
    return [dive.start, end, *(row.time for row in case.site.tide if dive.start < row.time < end)]
