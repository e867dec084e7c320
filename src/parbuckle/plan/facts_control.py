"""What the rules look at of the ascent with people on it, out of the results."""

from __future__ import annotations

from parbuckle.duties.control_facts import ControlFacts
from parbuckle.plan.stages import Stages
from parbuckle.quantity.band import chance


def control_facts(stages: Stages) -> ControlFacts:
    """Give what the rules look at of the ascent under control.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    ControlFacts
        Plain values; nothing where nobody tends it.
    """
    lift, asked, found = stages.lift, stages.tending_problem, stages.tending
    if lift is None or asked is None or found is None:
        return ControlFacts()
    within, back = chance(found.outcome.within), chance(found.outcome.sinks_back)
    afloat = chance(found.floats[found.up]) if found.up.any() else None
    part = [s.bag for s in lift.filling if s.fill != "empty"][-1]
    return ControlFacts(
        within=within.share,
        within_error=within.error,
        sinks_back=back.share,
        sinks_error=back.error,
        floats=None if afloat is None else afloat.share,
        floats_error=0.0 if afloat is None else afloat.error,
        pull_unmeasured="" if asked.measured else part,
    )
