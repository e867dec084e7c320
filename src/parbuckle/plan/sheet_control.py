"""The ascent under control as the plan document holds it: chances, bands, events, what drives the risk."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from parbuckle.case.kit import Kit
from parbuckle.case.model import Case
from parbuckle.duties.house import load_house
from parbuckle.lift.problem import LiftProblem
from parbuckle.lift.result import LiftResult
from parbuckle.lift.tending_problem import TendingProblem
from parbuckle.lift.tending_result import Outcome, TendingResult, Tried
from parbuckle.physics.simulate import Way
from parbuckle.plan.bands import BAR, LITRES, MINUTE, band_of
from parbuckle.plan.control_changes import changes, held_map
from parbuckle.plan.control_words import (
    POLICY_WORDS,
    RUNAWAY_CARD,
    expect,
    let_go_if,
    sentence_of,
    state_of,
    who_does_what,
)
from parbuckle.plan.drivers import drivers
from parbuckle.plan.stages import Stages
from parbuckle.plan.tending_inputs import PRACTISED, own_reaction
from parbuckle.plan.words import in_words
from parbuckle.quantity.band import HIGH, LIKELY, LOW, at_share, at_shares, chance
from parbuckle.quantity.frozen import Bools, Floats

Row = dict[str, Any]

_TIMES = 25  # points in time of the depth band
_DRIVERS = 5  # inputs that are named
_LEAST_SHARE = 0.03  # of the spread: what drives less is not named


def control_sections(stages: Stages) -> Row:
    """Give what the ascent says of dump and relief, and the ascent with the team on it.

    Parameters
    ----------
    stages : Stages
        Case and results, with a lift.

    Returns
    -------
    dict
        ``pull_measured``, ``pull_l_band``, ``runaway_bound_m_min``, ``vent_l_s``, ``closed`` and ``under_control``,
        which is None where nobody tends it.
    """
    problem, lift, asked, found = stages.lift_problem, stages.lift, stages.tending_problem, stages.tending
    assert problem is not None and lift is not None
    control = lift.control
    can = None if found is None else found.can
    return {
        "pull_measured": control.pull is not None,
        "pull_l_band": band_of(asked.lost if asked is not None else control.pull, LITRES),
        "runaway_bound_m_min": at_share(control.runaway, LIKELY) * MINUTE,
        "vent_l_s": [
            {
                "depth_m": depth,
                "needed": at_share(needed, LIKELY) * LITRES,
                "can": None if can is None else band_of(can[i], LITRES),
            }
            for i, (depth, needed) in enumerate(zip(control.vent_depths, control.vent, strict=True))
        ],
        "closed": _closed(stages),
        "under_control": None
        if asked is None or found is None
        else under_control(stages.case, stages.kit, problem, lift, asked, found, stages.asking.ensemble.inputs),
    }


def under_control(
    case: Case,
    kit: Kit | None,
    problem: LiftProblem,
    lift: LiftResult,
    asked: TendingProblem,
    found: TendingResult,
    inputs: Mapping[str, Floats],
) -> Row:
    """Give the ascent with the team on it.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit or None
        What the team owns.
    problem : LiftProblem
        The lift.
    lift : LiftResult
        Over all draws.
    asked : TendingProblem
        The team.
    found : TendingResult
        What following the draws gave.
    inputs : Mapping of str to Floats
        Uniforms of the uncertain inputs by path.

    Returns
    -------
    dict
        ``under_control`` of the plan document.
    """
    units, rise, up = case.case.units, found.rise, found.up
    outcome = found.outcome
    within = chance(outcome.within).share
    state = state_of(asked, lift, within)
    person = _person(case, kit)
    left_at = _left_at(case, problem)
    part = [s.bag for s in lift.filling if s.fill != "empty"][-1]
    tended = rise.pulls[0]
    return {
        "target_m_min": problem.target * MINUTE,
        "ceiling_m_min": problem.ceiling * MINUTE,
        "policy": found.policy,
        "policy_words": POLICY_WORDS[found.policy],
        "person": person,
        "people_words": _people_words(person),
        "delay_s": band_of(asked.people.delay),
        "n": int(up.size),
        **_chances("chance_within_rate", outcome.within),
        **_chances("chance_runaway", outcome.runaway),
        **_chances("chance_sinks_back", outcome.sinks_back),
        **_chances("chance_floats_at_surface", found.floats[up] if up.any() else None),
        "longest_delay_s": found.longest_delay,
        "longest_delay_at_least": found.longest_delay is not None and found.longest_delay == max(found.delays),
        "time_s": band_of(rise.time, 1.0, up),
        "arrival_speed_m_s": band_of(rise.speed, 1.0, up),
        "max_speed_m_s": band_of(rise.max_speed),
        "gas_vented_l": band_of(rise.vented, LITRES),
        "gas_added_l": band_of(rise.added, LITRES),
        "dumps": band_of(tended),
        "let_go_share": float(np.isfinite(rise.let_go[0]).mean()),
        "gas_used_l": band_of(rise.added, LITRES),
        "drivers": _drivers(~outcome.within, inputs),
        "state": state,
        "sentence": sentence_of(state, problem, lift, asked, within, units),
        "policies": [_policy(t, t.name == found.policy, outcome) for t in found.policies],
        "policies_n": min(asked.slots, int(up.size)),
        "changes": changes(problem, lift, asked, found, person, units),
        "fan": _fan(found, problem),
        "events": _events(found, problem, lift, part, left_at),
        "expect": expect(problem, lift, asked, found.policy, left_at, units),
        "who": who_does_what(case, part),
        "left_at_m": left_at,
        "let_go_if": let_go_if(problem, lift, units),
        "runaway_card": list(RUNAWAY_CARD),
        "map": held_map(problem, lift, asked),
    }


def _policy(tried: Tried, best: bool, outcome: Outcome) -> Row:
    """One policy: the one in use over all draws, the others over the first ones."""
    within, runaway, back = outcome.shares() if best else (tried.within, tried.runaway, tried.sinks_back)
    return {
        "policy": tried.name,
        "words": POLICY_WORDS[tried.name],
        "chance_within_rate": within,
        "chance_runaway": runaway,
        "chance_sinks_back": back,
        "best": best,
    }


def _chances(key: str, hits: Bools | None) -> Row:
    if hits is None:
        return {key: None, f"{key}_error": None}
    told = chance(hits)
    return {key: told.share, f"{key}_error": min(2.0 * told.error, 1.0)}


def _person(case: Case, kit: Kit | None) -> str:
    told = case.lift.tender
    own = told.delay is not None or own_reaction(case, kit) is not None
    return "own numbers" if own else told.who or PRACTISED


def _people_words(person: str) -> str:
    whose = "Own numbers of this team, the rest as" if person == "own numbers" else "Numbers"
    kind = "practised" if person == "own numbers" else person
    return (
        f"{whose} for a {kind} tender are assumptions: nobody has measured divers at this work. "
        "The sum starts with the load trimmed off the bottom: what the break-out left over is vented. "
        "The divers who hold on add their own drag, and stay with it to the surface."
    )


def _left_at(case: Case, problem: LiftProblem) -> float | None:
    told = case.lift.leave_load_at
    depth = told.mid if told is not None else load_house(case.house)["leave_load_at"]
    return depth if depth < at_share(problem.depth, LIKELY) else None


def _drivers(missed: Bools, inputs: Mapping[str, Floats]) -> list[Row]:
    rows = drivers(missed.astype(np.float64), inputs)
    told = [{"input": in_words(path), "share": share} for path, share in rows if share >= _LEAST_SHARE]
    return told[:_DRIVERS]


def _came_up(found: TendingResult) -> list[Way]:
    return [way for i, way in enumerate(found.ways) if found.up[i]]


def _fan(found: TendingResult, problem: LiftProblem) -> list[Row]:
    """Band of depth over time, of the followed draws that come up."""
    ways = _came_up(found)
    if not ways:
        return []
    times = np.linspace(0.0, at_share(np.array([way.time[-1] for way in ways]), HIGH), _TIMES)
    depths = np.array([np.interp(times, way.time, way.depth) for way in ways]).T
    low, mid, high = at_shares(depths, (LOW, LIKELY, HIGH))
    return [
        {"t_s": float(t), "low": float(a), "likely": float(b), "high": float(c)}
        for t, a, b, c in zip(times, low, mid, high, strict=True)
    ]


def _events(found: TendingResult, problem: LiftProblem, lift: LiftResult, bag: str, left_at: float | None) -> list[Row]:
    """What happens on the way, with the time and depth at which it does in the followed draws that come up."""
    ways, full = _came_up(found), {b.id: b.really for b in problem.bags}[bag]
    brim = [_first(way, way.volumes[-1] >= full[i] * (1.0 - 1e-9)) for i, way in enumerate(ways)]
    vent = [_first(way, way.open_dump > 0.0) for way in ways]
    up = [(float(way.time[-1]), float(way.depth[-1])) for way in ways]
    start = [(0.0, float(way.depth[0])) for way in ways]
    rows = [
        _event("leaves the bottom", "It leaves the bottom.", start, len(ways)),
        _event("first vent", "The dump opens for the first time.", vent, len(ways)),
        _event("bag full", f"{bag} is full: what more it grows, it spills.", brim, len(ways)),
    ]
    if left_at is not None:
        left = [_first(way, way.depth <= left_at) for way in ways]
        rows.append(_event("load is left", "The divers leave the load and go aside.", left, len(ways)))
    return [*rows, _event("surface", "The crown is at the surface.", up, len(ways))]


def _first(way: Way, holds: Bools) -> tuple[float, float] | None:
    if not holds.any():
        return None
    i = int(np.argmax(holds))
    return float(way.time[i]), float(way.depth[i])


def _event(what: str, words: str, told: Sequence[tuple[float, float] | None], of: int) -> Row:
    """One event; ``of`` in its bands is the share of the followed draws in which it happens."""
    seen = np.array([row for row in told if row is not None]).reshape(-1, 2)
    if not len(seen):
        return {"what": what, "words": words, "t_s": None, "depth_m": None}
    share = len(seen) / of
    bands = [band_of(seen[:, i].copy()) or {} for i in (0, 1)]
    if share < 1.0:
        bands = [b | {"of": share} for b in bands]
    return {"what": what, "words": words, "t_s": bands[0], "depth_m": bands[1]}


def _closed(stages: Stages) -> list[Row]:
    """Over-pressure of the closed bags."""
    problem, lift, asked, found = stages.lift_problem, stages.lift, stages.tending_problem, stages.tending
    assert problem is not None and lift is not None
    bags = {b.id: b for b in problem.bags}
    made_for = {b.id: b.withstands for b in stages.kit.bag} if stages.kit else {}
    rows = []
    for i, name in enumerate([s.bag for s in lift.filling if s.fill != "empty"]):
        bag = bags[name]
        if bag.style != "closed" or bag.relief is None:
            continue
        known = asked is not None and bool(np.isfinite(asked.relief_area[i]).all())
        most = band_of(found.over_pressure[i], 1.0 / BAR) if found is not None else None
        limit = made_for.get(name)
        margin = None if most is None or limit is None else limit.low / BAR - most["high"]
        rows.append(
            {
                "bag": name,
                "relief_bar": bag.relief / BAR,
                "most_bar": most,
                "bore_known": known,
                "margin_bar": margin,
                "words": _closed_words(name, bag.relief, known, margin),
            }
        )
    return rows


def _closed_words(name: str, relief: float, known: bool, margin: float | None) -> str:
    words = f"{name}: its relief opens at {relief / BAR:.2f} bar over the water."
    bore = "Followed through its bore." if known else "Its bore is not known: the sum lets it pass whatever comes."
    if margin is None:
        return f"{words} {bore} What the bag is made for is not known."
    left = f"{margin:.2f} bar are left to what it is made for." if margin > 0.0 else "It passes what it is made for."
    return f"{words} {bore} {left}"
