"""What the rules look at of the dives."""

from __future__ import annotations

import math

from parbuckle.dive.problem import DiveProblem
from parbuckle.dive.result import CarriedPlan, DiveResult, DiverResult
from parbuckle.duties.dive_facts import CarriedFacts, DiverFacts, DivingFacts
from parbuckle.lift.method import WITH_BAGS
from parbuckle.plan.people import lift_dive
from parbuckle.plan.stages import Stages
from parbuckle.quantity.band import HIGH, LOW, at_share

BESIDE = ("bag tender", "load tender", "instructor")
"""Roles that have a place beside the load while it is filled and goes up."""


def diving_facts(stages: Stages) -> tuple[DivingFacts, ...]:
    """Give the dives that were worked out.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    tuple of DivingFacts
        In the order of their start.
    """
    if stages.diving is None or stages.diving_problem is None:
        return ()
    asked = {d.place: d for d in stages.diving_problem.dives}
    return tuple(_dive(stages, asked[d.place], d) for d in stages.diving.dives)


def _dive(stages: Stages, asked: DiveProblem, dive: DiveResult) -> DivingFacts:
    rules = stages.diving_problem.rules if stages.diving_problem else None
    lifts = stages.case.dive[dive.place] is lift_dive(stages.case)
    late = dive.over_run
    with_bags = lifts and stages.method in WITH_BAGS
    return DivingFacts(
        label=dive.label,
        divers=tuple(_diver(stages, dive, d) for d in dive.divers),
        bottom_time=at_share(dive.bottom_time, HIGH),
        model_limit=min((at_share(d.limit, LOW) for d in dive.divers), default=math.inf),
        stops=sum(s.time for s in dive.stops),
        late_stops=sum(s.time for s in late.stops) if late else 0.0,
        fits=float(dive.window.fits.mean()) if dive.window else None,
        fits_on_sight=float(dive.window.fits_on_sight.mean()) if dive.window else None,
        tooth=dive.tooth,
        load_rate=stages.lift_problem.ceiling if asked.beside and stages.lift_problem else None,
        leave_load_at=asked.beside[1] if asked.beside else None,
        stop_depth=rules.stop_depth if rules and rules.stop_time > 0.0 else None,
        without_place=tuple(d.name for d in dive.divers if d.role not in BESIDE) if with_bags else (),
        standby_short=tuple((s.name, float((~s.enough).mean())) for s in dive.standby),
    )


def _diver(stages: Stages, dive: DiveResult, diver: DiverResult) -> DiverFacts:
    gas, oxygen = diver.gas, diver.oxygen
    known = gas.end is not None
    used = [at_share(share, HIGH) for share in (oxygen.single, oxygen.daily) if share is not None]
    team = stages.case.dive[dive.place].team
    return DiverFacts(
        name=diver.name,
        gas=diver.breathes,
        set_known=known,
        cylinder=next((m.cylinder for m in team if m.person == diver.name and m.cylinder), ""),
        over_no_stop=float((diver.limit < dive.bottom_time).mean()),
        table_limit=diver.table,
        table_why=diver.table_why,
        under_reserve=float(gas.under.mean()) if known else None,
        late=float(gas.late.mean()) if known else None,
        empty=float(gas.empty.mean()) if known else None,
        reserve_fits=gas.leave is not None if known else None,
        oxygen=at_share(oxygen.pressure, HIGH),
        oxygen_at_surface=at_share(oxygen.at_surface, LOW),
        exposure=max(used) if used else math.inf,
        density=at_share(oxygen.density, HIGH),
        runs_late=dive.over_run is not None and diver.name in dive.over_run.late,
        carried=tuple(_carried(row) for row in diver.carried),
    )


def _carried(row: CarriedPlan) -> CarriedFacts:
    known = row.end is not None
    return CarriedFacts(
        cylinder=row.name,
        gas=row.breathes,
        oxygen=at_share(row.oxygen, HIGH),
        oxygen_least=at_share(row.oxygen_least, LOW),
        short=float(row.short.mean()) if known else None,
        empty=float(row.empty.mean()) if known else None,
        spare=row.change is None,
    )
