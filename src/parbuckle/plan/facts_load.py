"""What the rules look at of the load."""

from __future__ import annotations

import numpy as np

from parbuckle.case.thing import Cavity
from parbuckle.duties.lift_facts import CavityFacts, LoadFacts
from parbuckle.plan.stages import Stages
from parbuckle.quantity.band import HIGH, LIKELY, LOW, at_share, at_shares

_DAY = 86400.0


def load_facts(stages: Stages) -> LoadFacts:
    """Give what the rules look at of the load.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    LoadFacts
        Plain values.
    """
    load, problem, thing = stages.load, stages.load_problem, stages.case.object
    if load is None or problem is None:
        return LoadFacts()
    low, middle, high = at_shares(load.wet_weight, (LOW, LIKELY, HIGH))
    tall = at_share(np.cbrt(load.envelope), LIKELY)
    buried = at_share(problem.buried, LIKELY) if thing.bed.buried is not None else None
    days = at_share(problem.days, HIGH) if thing.bed.days is not None or stages.case.case.lost else None
    return LoadFacts(
        wet_low=float(low),
        wet_likely=float(middle),
        wet_high=float(high),
        estimates=len(load.estimates),
        agree=load.agree,
        disagreement=load.disagreement_kg,
        cavities=tuple(_cavity(c, stages) for c in thing.cavity),
        buried_share=None if buried is None else buried / tall,
        time_down=None if days is None else days * _DAY,
    )


def _cavity(cavity: Cavity, stages: Stages) -> CavityFacts:
    """Low and high flooded share, and what the gas in it could lift more at the surface than on the bottom."""
    low = cavity.flooded.low if cavity.flooded else 0.0
    high = cavity.flooded.high if cavity.flooded else 1.0
    more = None
    if cavity.volume is not None:
        grows = at_share(stages.site.bottom_pressure / stages.site.surface_pressure, LIKELY)
        volume, density = cavity.volume.high, at_share(stages.site.water_density, LIKELY)
        half = min(max(1.0 - 1.0 / grows, low), high)
        more = max(min(volume * (1.0 - s) * grows, volume) - volume * (1.0 - s) for s in (low, half, high)) * density
    return CavityFacts(cavity.name, low, high, more)
