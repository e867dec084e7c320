"""What happens when the work takes long: one column at the safe end of everything."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from parbuckle.dive.carried import Breathing
from parbuckle.dive.ceilings import tolerated
from parbuckle.dive.climb import on_one_set, up
from parbuckle.dive.cylinders import Breathed
from parbuckle.dive.gas_plan import carried_plan, gas_plan
from parbuckle.dive.loading import load
from parbuckle.dive.problem import DiveProblem, Diver, DiveRules, DivingProblem, Task
from parbuckle.dive.profile import Water
from parbuckle.dive.result import OverRun
from parbuckle.dive.stops import Stop, way_up
from parbuckle.dive.tasks import Block, blocks, down_and_work, merged
from parbuckle.quantity.band import HIGH, LIKELY, LOW, at_share, at_shares
from parbuckle.quantity.frozen import Floats

_MINUTE = 60.0


def over_run(
    problem: DivingProblem,
    dive: DiveProblem,
    work: Sequence[Block],
    divers: Sequence[tuple[Diver, Floats]],
    narrow: Water,
) -> OverRun:
    """Give the dive in which every task takes its long end, and at least so much longer than likely as the house says.

    What lacks to that is added to the hardest task, the last one of them. Depth and rates are at their high ends, the
    start pressure at its low end, tissues at their high ends.

    Parameters
    ----------
    problem : DivingProblem
        Water, rates, house figures.
    dive : DiveProblem
        The dive.
    work : sequence of Block
        Its tasks.
    divers : sequence of (Diver, Floats)
        Who, and the tissues on leaving the surface.
    narrow : Water
        The water at its middle, one column.

    Returns
    -------
    OverRun
        Times, stops, and what is left.
    """
    rules = replace(problem.rules, stress=_end(problem.rules.stress, HIGH))
    long = replace(problem, water=narrow, rules=rules)
    late = blocks(_long_tasks(work, rules.overrun))
    last = late[-1].depth
    told = [dive.breathed_by(d) for d, _ in divers]
    paths = {d.gas: down_and_work(late, narrow, d.gas, rules.down, rules.up) for d, _ in divers}
    due = tuple[Stop, ...]()
    for one in dict.fromkeys(told):
        alike = [start for (_, start), other in zip(divers, told, strict=True) if other == one]
        high = np.maximum.reduce([at_shares(start, (HIGH,))[0] for start in alike])
        asked = stops_due(load(high[..., None], merged(paths[one.gas])), float(last[0]), narrow, one, rules)
        due = max(due, asked, key=lambda stops: sum(s.time for s in stops))
    climbs = {one: up(last, dive, narrow, one, rules, due) for one in told}
    together = on_one_set([climbs[one] for one in told])
    ends, out_of_time, short = [], [], []
    for (diver, _), one in zip(divers, told, strict=True):
        thin = _narrow(diver)
        left = gas_plan(long, thin, paths[diver.gas], climbs[one], together)
        rows = carried_plan(long, thin, last, climbs[one])
        short += [row.name for row in rows if row.change is not None and row.short.any()]
        if left.end is not None:
            ends.append((diver.name, float(left.end[0])))
        if left.late.any():
            out_of_time.append(diver.name)
    return OverRun(
        bottom_time=float(sum(p.leg.time[0] for p in paths[divers[0][0].gas])),
        stops=due,
        way_up=float(sum(p.leg.time[0] for p in climbs[told[0]])),
        ends=tuple(ends),
        late=tuple(out_of_time),
        short=tuple(short),
    )


def stops_due(tissues: Floats, depth: float, water: Water, told: Breathing, rules: DiveRules) -> tuple[Stop, ...]:
    """Give the stops that are due to one diver, in whole minutes, rounded up; none while the surface is tolerated.

    Parameters
    ----------
    tissues : Floats
        Partial pressures on leaving the bottom, Pa, shape (2, 16, 1).
    depth : float
        Depth that is left, m.
    water : Water
        One column.
    told : Breathing
        What is breathed, with the changes on the way.
    rules : DiveRules
        Rate, gradient factors, time for a change.

    Returns
    -------
    tuple of Stop
        Deepest first.
    """
    if tolerated(tissues, rules.factors[1])[0] <= water.surface[0]:
        return ()
    factors, pause = rules.factors, rules.change
    found = way_up(tissues, depth, water, told.gas, rules.up, factors, changes=told.changes, pause=pause)
    return tuple(Stop(stop.depth, _MINUTE * math.ceil(stop.time / _MINUTE)) for stop in found.stops)


def middle(water: Water) -> Water:
    """Give the water at its middle as one column.

    Parameters
    ----------
    water : Water
        Of all draws.

    Returns
    -------
    Water
        Shape (1,).
    """
    return Water(*(np.array([at_share(part, LIKELY)]) for part in (water.surface, water.density)))


def _long_tasks(work: Sequence[Block], overrun: float) -> list[Task]:
    likely = sum(at_share(block.time, LIKELY) for block in work)
    lacking = max(likely + overrun - sum(block.longest for block in work), 0.0)
    hard = [i for i, block in enumerate(work) if block.works] or [len(work) - 1]
    longest = [block.longest + (lacking if i == hard[-1] else 0.0) for i, block in enumerate(work)]
    return [
        replace(task, time=np.array([time]), longest=time, depth=_end(task.depth, HIGH))
        for block, time in zip(work, longest, strict=True)
        for task in block.tasks
    ]


def _narrow(diver: Diver) -> Diver:
    return replace(
        diver,
        kit=_thin(diver.kit),
        carried=tuple(replace(each, kit=_thin(each.kit)) for each in diver.carried),
        resting=_end(diver.resting, HIGH),
        working=_end(diver.working, HIGH),
        easy=_end(diver.easy, HIGH),
        earlier=(),
    )


def _thin(kit: Breathed | None) -> Breathed | None:
    return None if kit is None else replace(kit, gauge=_end(kit.gauge, LOW), surface=_end(kit.surface, LIKELY))


def _end(values: Floats, share: float) -> Floats:
    return np.array([at_share(values, share)])
