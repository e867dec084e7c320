"""The stage under control: the team on the lift, from the moment it hangs trimmed off the bottom to the surface."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from parbuckle.lift.ascent import body_of, end_depth
from parbuckle.lift.marks import put_in
from parbuckle.lift.problem import Bag, LiftProblem
from parbuckle.lift.result import LiftResult
from parbuckle.lift.tending_problem import Habits, TendingProblem
from parbuckle.lift.tending_result import Outcome, TendingResult, Tried
from parbuckle.physics.balance import gas_volume
from parbuckle.physics.broach import Arrival, broach
from parbuckle.physics.constants import G
from parbuckle.physics.escape import area_from_pull
from parbuckle.physics.forces import Body
from parbuckle.physics.pressure import absolute_pressure
from parbuckle.physics.simulate import FEW, simulate_all, ways_of
from parbuckle.physics.tended import BOTTOM, SURFACE, Tended, TendedRise
from parbuckle.physics.tender import ON_THE_LOAD, Tender
from parbuckle.quantity.frozen import Bools, Floats

HANDS = ("pulls", "hold", "crack")
"""The policies that are compared, the simplest to follow last."""

_HALF = 0.5  # share of a short pull that is half of one
_RUNAWAY = 2.0  # times the ceiling: a runaway, by the contract
_LEAST_COLUMN = 0.05  # share of a bag's height that stands under its dump, at least
_WAYS = 21  # draws whose whole way is kept: one for each twentieth
_NOTHING = 1e-6  # m3: less gas than this holds nothing


@dataclass(frozen=True)
class Team:
    """One try: who tends, how, with what on the load.

    Parameters
    ----------
    habits : Habits
        Their numbers.
    policy : str
        What they do with the dump.
    target : float
        Rate aimed at, m/s.
    drogue : Floats
        Drag area of a drogue, m2, shape (n,).
    """

    habits: Habits
    policy: str
    target: float
    drogue: Floats


def tend(problem: LiftProblem, lift: LiftResult, asked: TendingProblem) -> TendingResult:
    """Follow the lift with the team on it, over all draws, and compare what else they could do.

    It starts at rest, trimmed: the gas that the break-out left over is vented, what remains is the overfill that nobody
    sees. A surplus that the case gives is taken as it is. Divers who hold on add their own drag.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    lift : LiftResult
        The chosen bags and their filling.
    asked : TendingProblem
        The team.

    Returns
    -------
    TendingResult
        One column for each draw.

    Raises
    ------
    RangeError
        If an ascent does not end.
    """
    bags = {b.id: b for b in problem.bags}
    fill = tuple(bags[s.bag] for s in lift.filling if s.fill != "empty")
    set_up = _SetUp(problem, lift, asked, fill)
    team = Team(asked.people, "", problem.target, asked.drogue)
    tries = HANDS if asked.policy == "choose" else (asked.policy, *(p for p in HANDS if p != asked.policy))
    policies = _told(tries, _runs([set_up.some(replace(team, policy=p)) for p in tries]), problem.ceiling)
    best = max(policies, key=lambda t: t.within) if asked.policy == "choose" else policies[0]
    team = replace(team, policy=best.name)
    tended, teams = set_up.lift(team), _other_teams(asked, team)
    rise, late, *others = _runs([tended, _late(set_up, team), *(set_up.some(other) for other in teams.values())])
    up = rise.end == SURFACE
    within = _outcome(late, problem.ceiling).within.reshape(len(asked.delays), -1)
    held = tuple(float(x) for x in within.mean(axis=1))
    good = [d for d, share in zip(asked.delays, held, strict=True) if share >= asked.asked_chance]
    ways = ways_of(tended, range(min(_WAYS, tended.size)))
    floats, overshoot = _at_surface(problem, lift, fill, rise)
    return TendingResult(
        policy=best.name,
        rise=rise,
        outcome=_outcome(rise, problem.ceiling),
        up=up,
        floats=up & floats,
        overshoot=overshoot,
        policies=policies,
        changes=_told(tuple(teams), others, problem.ceiling),
        delays=asked.delays,
        held=held,
        longest_delay=max(good, default=None),
        ways=ways,
        dump=set_up.dump,
        can=_can(set_up),
        over_pressure=rise.over_pressure,
    )


class _SetUp:
    """The lift with its gas and its dump, ready for one team after the other."""

    def __init__(self, problem: LiftProblem, lift: LiftResult, asked: TendingProblem, fill: tuple[Bag, ...]) -> None:
        self.problem, self.asked, self.fill = problem, asked, fill
        borne = lift.required - problem.held
        start = problem.surplus if problem.surplus is not None else problem.overfill * borne
        really = np.array([b.really for b in fill])
        self.growing = lift.control.growing
        gas = put_in(really, (borne + start) / problem.lift_density)
        body = body_of(problem, fill, lift.required, gas)
        self.body: Body = replace(body, gamma=1.0)
        self.height = np.array([np.full(problem.depth.size, b.height) for b in fill])
        self.end = end_depth(problem, fill)
        self.share = np.clip(self.growing / really[-1], _LEAST_COLUMN, 1.0)
        self.dump = area_from_pull(
            asked.lost,
            asked.lost_in,
            self.share * self.height[-1],
            problem.water_density,
            problem.gas_pressure,
            problem.temperature,
        )
        self.vent_depths = lift.control.vent_depths

    def lift(self, team: Team) -> Tended:
        """Put a team on it."""
        problem, h, n = self.problem, team.habits, self.problem.depth.size
        holding = 2.0 if self.asked.on_load else 1.0
        given = problem.drag_area is not None
        area = self.body.drag_area + team.drogue + (0.0 if given else holding * h.drag)
        w = team.target
        tender = Tender(
            policy=team.policy,
            bag=len(self.fill) - 1,
            delay=h.delay,
            vent_above=np.minimum(w * h.vent_above, 0.5 * (w + problem.ceiling)),
            vent_until=w * h.vent_until,
            add_below=w * h.add_below,
            add_until=w * h.add_until,
            ceiling=np.full(n, problem.ceiling),
            dump=self.dump * (h.opening if team.policy == "crack" else 1.0),
            pull=h.pull,
            watch=h.watch,
            gas=self.asked.inflow,
            thrust=h.thrust,
            count=h.count,
        )
        second = replace(tender, policy="none", bag=ON_THE_LOAD, gas=np.zeros(n))
        return Tended(
            body=replace(self.body, drag_area=area),
            depth=problem.depth,
            rise=np.zeros(n),
            surface=self.end,
            bottom=problem.depth,
            height=self.height,
            relief_area=self.asked.relief_area,
            tenders=(tender, second) if self.asked.on_load and h.thrust.any() else (tender,),
            limit=self.asked.limit,
        )

    def some(self, team: Team) -> Tended:
        """Put a team on it, the first draws only."""
        return self.lift(team).take(slice(0, self.asked.slots))


def _outcome(rise: TendedRise, ceiling: float) -> Outcome:
    up = rise.end == SURFACE
    return Outcome(up & (rise.max_mean <= ceiling), rise.max_speed > _RUNAWAY * ceiling, rise.end == BOTTOM)


def _runs(lifts: Sequence[Tended]) -> list[TendedRise]:
    """Follow several lifts; those with as many hands on them side by side."""
    wait = lifts[0].size > FEW
    found: dict[int, TendedRise] = {}
    for hands in {len(lift.tenders) for lift in lifts}:
        some = [k for k, lift in enumerate(lifts) if len(lift.tenders) == hands]
        rises = simulate_all([lifts[k] for k in some], wait=wait)
        found |= dict(zip(some, rises, strict=True))
    return [found[k] for k in range(len(lifts))]


def _told(names: Sequence[str], rises: Sequence[TendedRise], ceiling: float) -> tuple[Tried, ...]:
    return tuple(Tried(n, *_outcome(rise, ceiling).shares()) for n, rise in zip(names, rises, strict=True))


def _other_teams(asked: TendingProblem, team: Team) -> dict[str, Team]:
    """A drogue, another target, the other kind of people, and shorter pulls where they pull."""
    halved = replace(team.habits, pull=_HALF * team.habits.pull)
    return {
        **({"half pulls": replace(team, habits=halved)} if team.policy == "pulls" else {}),
        "drogue": replace(team, drogue=team.drogue + asked.more_drogue),
        "target rate": replace(team, target=asked.more_target),
        "other people": replace(team, habits=asked.others),
    }


def _late(set_up: _SetUp, team: Team) -> Tended:
    """All reaction delays side by side, each the same for all draws."""
    delays = np.array(set_up.asked.delays)
    some = min(set_up.asked.slots, set_up.problem.depth.size)
    lift = set_up.lift(team).take(np.tile(np.arange(some), delays.size))
    late = tuple(replace(t, delay=np.repeat(delays, some)) for t in lift.tenders)
    return replace(lift, tenders=late)


def _can(set_up: _SetUp) -> Floats:
    """What the dump passes at each depth of the venting table."""
    p = set_up.problem
    column = set_up.share * set_up.height[-1]
    rows = []
    for depth in set_up.vent_depths:
        ambient = absolute_pressure(depth, p.water_density, p.surface_pressure)
        one = area_from_pull(1.0, 1.0, column, p.water_density, ambient, p.temperature)
        rows.append(set_up.dump / one)
    return np.array(rows).reshape(len(rows), p.depth.size)


def _at_surface(
    problem: LiftProblem, lift: LiftResult, fill: tuple[Bag, ...], rise: TendedRise
) -> tuple[Bools, Floats]:
    """Whether the tallest bag stays afloat after it came up, and how far it shoots out; the others keep their gas."""
    n = problem.depth.size
    floats, overshoot = np.zeros(n, bool), np.zeros(n)
    tall = max(range(len(fill)), key=lambda i: fill[i].height)
    rho, bag = problem.water_density, fill[tall]
    product = rise.gas[tall] * problem.surface_pressure
    others = rise.gas.sum(axis=0) - rise.gas[tall]
    needed = np.maximum((lift.required - problem.held) / rho - others, _NOTHING)
    pressure = problem.surface_pressure + rho * G * needed * bag.height / bag.really
    some = (rise.end == SURFACE) & (gas_volume(product, pressure, bag.really) >= needed)
    if some.any():
        found = broach(
            Arrival(
                rise=np.maximum(rise.speed[some], 0.0),
                mass=(problem.dry + problem.entrapped + rho * others)[some],
                capacity=bag.really[some],
                height=np.full(int(some.sum()), bag.height),
                product=product[some],
                needed=needed[some],
                relief=np.full(int(some.sum()), bag.relief or 0.0),
                water_density=rho[some],
                surface_pressure=problem.surface_pressure[some],
            )
        )
        floats[some], overshoot[some] = found.floats, found.overshoot
    return floats, overshoot
