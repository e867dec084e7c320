"""The dive stage: each dive in the order of its start, each diver with what the dives before have left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from parbuckle.dive.both_models import Before, model_limit, table_depth_of, table_limit
from parbuckle.dive.ceilings import gradient
from parbuckle.dive.gas_plan import gas_plan, oxygen_plan, standby_plan
from parbuckle.dive.history import Done, History, fresh
from parbuckle.dive.loading import AIR, load
from parbuckle.dive.navy_tables import group_after
from parbuckle.dive.over_run import middle, over_run, stops_due
from parbuckle.dive.problem import DiveProblem, Diver, DivingProblem
from parbuckle.dive.profile import Water, travel
from parbuckle.dive.result import DiveResult, DiverResult, DivingResult, Window
from parbuckle.dive.stops import Stop
from parbuckle.dive.tasks import Piece, blocks, down_and_work, merged, tooth, up
from parbuckle.dive.window import window
from parbuckle.quantity.band import HIGH, LOW, at_share, at_shares
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats


@dataclass(frozen=True)
class _Down:
    """One diver on leaving the bottom."""

    diver: Diver
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
    climbs: dict[str, tuple[Piece, ...]]


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
    highest tissues of all divers on one gas, and everybody makes them. The stop that is always made gives no credit to
    the limits. An aid to planning: it does not replace the divers' own computers, tables and training.
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
    climbs = {name: tuple(up(last, dive, water, gas, rules, due)) for name, gas in gases.items()}
    one = next(iter(gases))
    bottom, rise = (_wide(_time(pieces), last) for pieces in (paths[one], climbs[one]))
    shape = _Shape(dive, narrow, last, deepest, bottom, rise, climbs)
    divers = tuple(_diver(problem, shape, d, pasts) for d in down)
    legs = tuple(p.leg for p in climbs[one])
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
    alike: dict[tuple[int, str], Floats] = {}
    rows = []
    for diver in dive.divers:
        past = pasts.get(diver.name) or fresh(problem, diver, dive.start)
        start, pieces = past.rested(problem, dive.start), paths[diver.gas.text]
        key = (hash(start.tobytes()), diver.gas.text)
        if key not in alike:
            alike[key] = load(start, merged(pieces))
        rows.append(_Down(diver, past, start, pieces, alike[key]))
    return rows


def _time(pieces: Sequence[Piece]) -> Floats:
    return np.asarray(sum((p.leg.time for p in pieces), np.zeros(1)))


def _due(problem: DivingProblem, down: Sequence[_Down], last: Floats, narrow: Water) -> tuple[Stop, ...]:
    """Stops at the long end, by the highest tissues of all divers on one gas; of the gas that needs most."""
    rules, depth = problem.rules, at_share(last, HIGH)
    high: dict[Gas, Floats] = {}
    for d in down:
        tissues = at_shares(d.tissues, (HIGH,))[0][..., None]
        high[d.diver.gas] = np.maximum(high.get(d.diver.gas, tissues), tissues)
    ways = [stops_due(tissues, depth, narrow, gas, rules) for gas, tissues in high.items()]
    return max(ways, key=lambda stops: sum(s.time for s in stops), default=())


def _diver(problem: DivingProblem, shape: _Shape, d: _Down, pasts: dict[str, History]) -> DiverResult:
    diver, water, dive, deepest, bottom = d.diver, problem.water, shape.dive, shape.deepest, shape.bottom
    climb = shape.climbs[diver.gas.text]
    legs = merged((*d.pieces, *climb))
    day = d.history.last_day(dive.start)
    oxygen = oxygen_plan(problem, diver, deepest, legs, day)
    after = load(d.tissues, merged(climb))
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
        limit=_wide(_limit(problem, diver, d.start, deepest), bottom),
        table=table,
        table_why=why,
        group_before=before,
        group_after=group,
        surfacing=_wide(gradient(after, water.surface), bottom),
        gas=gas_plan(problem, diver, d.pieces, climb),
        oxygen=oxygen,
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
        limit, group = table_limit(pressure, surface, diver.gas, before, climbed)
    except RangeError as error:
        return None, str(error), "", ""
    try:
        after = group_after(table_depth_of(pressure, surface, diver.gas), at_share(bottom, HIGH), group)
    except RangeError:
        after = ""
    return limit, "", group, after


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
