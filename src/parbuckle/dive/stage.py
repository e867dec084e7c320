"""The dive stage: each dive in the order of its start, each diver with what the dives before have left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from parbuckle.dive.both_models import Before, group_after_dive, limit_after, model_limit, table_depth_of, table_start
from parbuckle.dive.carried import Breathing
from parbuckle.dive.ceilings import gradient
from parbuckle.dive.climb import on_one_set, up
from parbuckle.dive.gas_plan import Taken, carried_plan, gas_plan, oxygen_plan, standby_plan, taken
from parbuckle.dive.history import Done, History, fresh
from parbuckle.dive.loading import AIR, Step, load
from parbuckle.dive.over_run import middle, over_run, stops_due
from parbuckle.dive.problem import DiveProblem, Diver, DivingProblem
from parbuckle.dive.profile import Leg, Water, travel
from parbuckle.dive.result import DiveResult, DiverResult, DivingResult, Window
from parbuckle.dive.stops import Stop
from parbuckle.dive.tasks import Piece, blocks, down_and_work, merged, tooth
from parbuckle.dive.window import window
from parbuckle.quantity.band import HIGH, LOW, at_share, at_shares
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats


@dataclass(frozen=True)
class _Down:
    """One diver on leaving the bottom."""

    diver: Diver
    told: Breathing
    history: History
    start: Floats
    pieces: tuple[Piece, ...]
    tissues: Floats


@dataclass(frozen=True)
class _Shape:
    """What all divers of one dive share."""

    dive: DiveProblem
    water: Water
    last: Floats
    deepest: Floats
    bottom: Floats
    rise: Floats
    climbs: dict[Breathing, tuple[Piece, ...]]
    together: tuple[Leg, ...]
    oxygen: dict[Breathing, Taken]
    after: dict[tuple[bytes, Breathing], tuple[Floats, Floats, Floats]]


def solve(problem: DivingProblem) -> DivingResult:
    """Work out all dives of a case.

    Parameters
    ----------
    problem : DivingProblem
        Dives in the order of their start.

    Returns
    -------
    DivingResult
        In the same order; a dive without tasks is left out.

    Raises
    ------
    RangeError
        Where a law is asked outside its range, such as a stop that would last more than a day.

    Notes
    -----
    Tissues: ZH-L16C with gradient factors over all draws. Stops are those of the long end of time and depth, by the
    highest tissues of all who breathe alike, and everybody makes them; all wait for a change of gas. The stop that is
    always made gives no credit to the limits. An aid to planning: it does not replace the divers' own computers, tables
    and training.
    """
    pasts: dict[str, History] = {}
    narrow = middle(problem.water)
    return DivingResult(tuple(_dive(problem, dive, pasts, narrow) for dive in problem.dives if dive.tasks))


def _dive(problem: DivingProblem, dive: DiveProblem, pasts: dict[str, History], narrow: Water) -> DiveResult:
    work, rules, water = blocks(dive.tasks), problem.rules, problem.water
    last = work[-1].depth
    deepest = np.maximum.reduce([block.depth for block in work])
    gases = {diver.gas.text: diver.gas for diver in dive.divers} or {AIR.text: AIR}
    paths = {name: tuple(down_and_work(work, water, gas, rules.down, rules.up)) for name, gas in gases.items()}
    down = _down(problem, dive, paths, pasts)
    due = _due(problem, down, last, narrow)
    told = [d.told for d in down] or [Breathing(AIR)]
    climbs = {one: tuple(up(last, dive, water, one, rules, due)) for one in dict.fromkeys(told)}
    first = climbs[told[0]]
    bottom, rise = (_wide(_time(pieces), last) for pieces in (paths[told[0].gas.text], first))
    together = on_one_set([climbs[one] for one in told])
    oxygen = {one: taken(merged((*paths[one.gas.text], *climbs[one]))) for one in climbs}
    after = _after(problem, down, climbs, deepest)
    shape = _Shape(dive, narrow, last, deepest, bottom, rise, climbs, together, oxygen, after)
    divers = tuple(_diver(problem, shape, d, pasts) for d in down)
    legs = tuple(p.leg for p in first)
    ready = (standby_plan(problem, waiting, deepest, legs) for waiting in dive.standby)
    found = _window(problem, dive, bottom + rise)
    latest, by = _latest(problem, found, rise)
    late = over_run(problem, dive, work, [(d.diver, d.start) for d in down], narrow) if down else None
    return DiveResult(
        label=dive.label,
        does=dive.does,
        place=dive.place,
        start=dive.start,
        depth=deepest,
        bottom_time=bottom,
        way_up=rise,
        blocks=tuple((block.name, block.time) for block in work),
        stops=due,
        tooth=tooth(work),
        latest_leave=latest,
        latest_from=by,
        window=found,
        over_run=late,
        divers=divers,
        standby=tuple(row for row in ready if row is not None),
    )


def _down(
    problem: DivingProblem, dive: DiveProblem, paths: dict[str, tuple[Piece, ...]], pasts: dict[str, History]
) -> list[_Down]:
    """Every diver on leaving the bottom; who starts alike on one gas is worked out once."""
    alike: dict[tuple[bytes, str], Floats] = {}
    steps = {name: [Step(each) for each in merged(pieces)] for name, pieces in paths.items()}
    rows = []
    for diver in dive.divers:
        past = pasts.get(diver.name) or fresh(problem, diver, dive.start)
        start, pieces = past.rested(problem, dive.start), paths[diver.gas.text]
        key = (start.tobytes(), diver.gas.text)
        if key not in alike:
            alike[key] = load(start, steps[diver.gas.text])
        rows.append(_Down(diver, dive.breathed_by(diver), past, start, pieces, alike[key]))
    return rows


def _time(pieces: Sequence[Piece]) -> Floats:
    return np.asarray(sum((p.leg.time for p in pieces), np.zeros(1)))


def _due(problem: DivingProblem, down: Sequence[_Down], last: Floats, narrow: Water) -> tuple[Stop, ...]:
    """Stops at the long end, by the highest tissues of all who breathe alike; of those that need most."""
    rules, depth = problem.rules, at_share(last, HIGH)
    high: dict[Breathing, Floats] = {}
    for d in down:
        tissues = at_shares(d.tissues, (HIGH,))[0][..., None]
        high[d.told] = np.maximum(high.get(d.told, tissues), tissues)
    ways = [stops_due(tissues, depth, narrow, told, rules) for told, tissues in high.items()]
    return max(ways, key=lambda stops: sum(s.time for s in stops), default=())


def _after(
    problem: DivingProblem, down: Sequence[_Down], climbs: dict[Breathing, tuple[Piece, ...]], deepest: Floats
) -> dict[tuple[bytes, Breathing], tuple[Floats, Floats, Floats]]:
    """Tissues at the surface, their gradient and the limit, for each start and each way to breathe; once each."""
    found = {}
    steps = {one: [Step(each) for each in merged(climb)] for one, climb in climbs.items()}
    for d in down:
        key = (d.start.tobytes(), d.told)
        if key not in found:
            after = load(d.tissues, steps[d.told])
            limit = _limit(problem, d.diver, d.start, deepest)
            found[key] = (after, gradient(after, problem.water.surface), limit)
    return found


def _diver(problem: DivingProblem, shape: _Shape, d: _Down, pasts: dict[str, History]) -> DiverResult:
    diver, water, dive, deepest, bottom = d.diver, problem.water, shape.dive, shape.deepest, shape.bottom
    climb = shape.climbs[d.told]
    oxygen = oxygen_plan(problem, diver, deepest, shape.oxygen[d.told], d.history.last_day(dive.start))
    after, surfacing, limit = shape.after[d.start.tobytes(), d.told]
    table, why, before, group = _table(problem, diver, d.history.before(dive.start), deepest, bottom, shape.water)
    waited = d.history.interval(dive.start)
    surfaced = None if dive.start is None else dive.start + bottom + shape.rise
    done = Done(
        at_share(water.at(deepest), HIGH),
        at_share(bottom, HIGH),
        diver.gas,
        dive.start,
        None if surfaced is None else at_share(surfaced, HIGH),
        None if oxygen.daily is None or oxygen.single is None else oxygen.daily,
        oxygen.dose,
    )
    pasts[diver.name] = History(after, surfaced, (*d.history.done, done))
    return DiverResult(
        name=diver.name,
        role=diver.role,
        breathes=diver.gas.text,
        interval=None if waited is None else _wide(waited, bottom),
        limit=_wide(limit, bottom),
        table=table,
        table_why=why,
        group_before=before,
        group_after=group,
        surfacing=_wide(surfacing, bottom),
        gas=gas_plan(problem, diver, d.pieces, climb, shape.together),
        oxygen=oxygen,
        carried=carried_plan(problem, diver, deepest, climb) if diver.carried else (),
    )


def _limit(problem: DivingProblem, diver: Diver, start: Floats, deepest: Floats) -> Floats:
    down = travel(problem.water, 0.0, deepest, problem.rules.down, diver.gas)
    return model_limit(start, down, problem.water.surface, problem.rules.factors[1])


def _wide(values: Floats, like: Floats) -> Floats:
    return np.array(np.broadcast_to(values, like.shape))


def _table(
    problem: DivingProblem, diver: Diver, before: tuple[Before, ...], deepest: Floats, bottom: Floats, narrow: Water
) -> tuple[float | None, str, str, str]:
    """The published table: limit, why there is none, group before and after."""
    surface = float(narrow.surface[0])
    pressure = at_share(problem.water.at(deepest), HIGH)
    climbed = 0.0 if problem.lives_there else problem.climbed
    try:
        start, depth = table_start(surface, before, climbed), table_depth_of(pressure, surface, diver.gas)
        limit = limit_after(start, depth)
    except RangeError as error:
        return None, str(error), "", ""
    try:
        after = group_after_dive(start, depth, at_share(bottom, HIGH))
    except RangeError:
        after = ""
    return limit, "", start.group, after


def _window(problem: DivingProblem, dive: DiveProblem, needed: Floats) -> Window | None:
    """The window of the stream; None without a start, a table, or a start inside the table."""
    stream, start = problem.stream, dive.start
    if stream is None or start is None or not stream.times[0] <= start <= stream.times[-1]:
        return None
    return window(stream, start, needed)


def _latest(problem: DivingProblem, found: Window | None, rise: Floats) -> tuple[float | None, str]:
    """Latest time to leave the bottom at the safe end, and what sets it."""
    ends = []
    if found is not None and found.exists.any():
        leave = (found.closes - rise)[found.exists]
        ends.append((at_share(leave, LOW), "stream"))
    if problem.daylight is not None:
        ends.append((problem.daylight - at_share(rise, HIGH), "daylight"))
    return min(ends) if ends else (None, "")
