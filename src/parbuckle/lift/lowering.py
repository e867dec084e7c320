"""Putting a load down over a line, under a bag that shrinks on the way, or both; what holds it, and if it is let go."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from parbuckle.lift.control import growth_rate
from parbuckle.lift.line_pull import line_pull
from parbuckle.lift.restraint import line_limit
from parbuckle.lift.rigging_table import dynamic_factor, rigging_table
from parbuckle.physics.constants import G
from parbuckle.physics.excursion import excursion_radius
from parbuckle.physics.forces import Body, gas_pressure_at, gas_volumes, moving_mass, whole
from parbuckle.physics.rise import Rise, left_alone
from parbuckle.quantity.band import HIGH, at_share
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen

WAYS = ("bag", "line", "bag and line")
"""How a load is put down."""


@dataclass(frozen=True)
class LoweringProblem(Frozen):
    """A load on its way down.

    Parameters
    ----------
    way : str
        One of ``WAYS``.
    body : Body
        Load, bags and the gas at the start; bags without gas where only a line holds it.
    start, depth : Floats
        Depth of the load at the start, the crown at the surface, and on the bottom, m, shape (n,).
    speed : float
        Speed downward, m/s, over 0.
    steps : tuple of float
        Depths of the table, m.
    stream : Floats
        Speed of the stream, m/s, shape (n,).
    angle, share : float
        Spread of a falling object, rad, and share of falls inside the circle.
    divers_stop : float
        What two divers can stop, kg.
    strength : float or None
        Breaking strength of the line, N; None when not known.
    kept : float or None
        Share that its knots keep; None: a knot.
    turns : int
        Full turns of the line round a post.
    """

    way: str
    body: Body
    start: Floats
    depth: Floats
    speed: float
    steps: tuple[float, ...]
    stream: Floats
    angle: float
    share: float
    divers_stop: float
    strength: float | None = None
    kept: float | None = None
    turns: int = 0

    def __post_init__(self) -> None:
        """Check way, speed and depths."""
        super().__post_init__()
        if self.way not in WAYS:
            raise RangeError(f"way down: given {self.way!r}, allowed {', '.join(WAYS)}")
        if self.speed <= 0.0 or self.turns < 0:
            raise RangeError("the speed downward must be over 0, the turns not below 0")
        if np.any(self.start > self.depth):
            raise RangeError("the load starts below the bottom")


@dataclass(frozen=True)
class LoweringResult(Frozen):
    """What holds it on the way down, and what comes of it when it is let go.

    Parameters
    ----------
    hold_back : Floats or None
        Most that the line holds with no gas added on the way, dynamic factor of calm water counted, N, shape (n,); None
        without a line.
    by_hand : Floats or None
        What is left of it for the hands behind the turns, N, shape (n,).
    people : int or None
        People for the high end of that.
    turns_for_one : int or None
        Full turns with which one person holds it.
    limit : float or None
        Working limit of the line, N.
    gas : Floats
        Gas in the bags at the start, m3 there, shape (n,).
    gas_to_add : Floats
        Free gas that keeps the bags' lift to the bottom, m3, shape (n,); 0 without bags.
    table : tuple of (float, Floats, Floats, Floats)
        Depth, m; free gas added by then, m3; pull with it and without it, N; the last three of shape (n,).
    let_go : Rise
        The way down when all let go at the start, at the speed that it has then.
    keep_clear : Floats
        Radius on the bottom, drift included, m, shape (n,).
    doubling : Floats
        Time in which a move away from neutral doubles, at the start, s, shape (n,); infinite without gas.
    no_return : Floats
        Sinking below neutral beyond which the divers cannot stop it, m, shape (n,); infinite when never.
    """

    hold_back: Floats | None
    by_hand: Floats | None
    people: int | None
    turns_for_one: int | None
    limit: float | None
    gas: Floats
    gas_to_add: Floats
    table: tuple[tuple[float, Floats, Floats, Floats], ...]
    let_go: Rise
    keep_clear: Floats
    doubling: Floats
    no_return: Floats


def lowering(problem: LoweringProblem) -> LoweringResult:
    """Follow a load down to the bottom in closed form, and let it go in the one force balance.

    Pull at rest T(z) = W - (rho - rho_gas) g V(z); V = V0 p0/p when no gas is added.
    Gas to add = V0 (p - p0) / p_surface.

    Parameters
    ----------
    problem : LoweringProblem
        Load, gas, line and depths.

    Returns
    -------
    LoweringResult
        One column for each draw.

    Notes
    -----
    Drag on the way down takes some of the pull away; it is left out of the pull, on the safe side. Source: balance of
    forces; Boyle's law.
    """
    body = problem.body
    first = gas_pressure_at(body, problem.start)
    gas = whole(gas_volumes(body, first))
    on_line = problem.way != "bag"
    still = np.maximum(line_pull(body, problem.start), line_pull(body, problem.depth))
    hold = np.maximum(still, 0.0) * dynamic_factor("calm").value
    hand = hold * left_by_turns(problem.turns)
    one = float(rigging_table()["haul"]["person"])
    down = np.where(problem.start < problem.depth, -problem.speed, 0.0)
    let_go = left_alone(body, problem.start, problem.start, problem.depth, down)
    with np.errstate(divide="ignore"):
        doubling = np.log(2.0) / growth_rate(body.water_density, gas, first, moving_mass(body, gas))
    return LoweringResult(
        hold_back=hold if on_line else None,
        by_hand=hand if on_line else None,
        people=int(np.ceil(at_share(hand, HIGH) / one)) if on_line else None,
        turns_for_one=turns_for(at_share(hold, HIGH), one) if on_line else None,
        limit=line_limit(problem.strength, problem.kept)[0] if on_line and problem.strength is not None else None,
        gas=gas,
        gas_to_add=_added(body, gas, first, problem.depth),
        table=tuple(_row(problem, gas, first, d) for d in problem.steps),
        let_go=let_go,
        keep_clear=excursion_radius(problem.depth, problem.angle, problem.share) + problem.stream * let_go.time,
        doubling=doubling,
        no_return=_no_return(problem.divers_stop, body, gas, first),
    )


def left_by_turns(turns: float) -> float:
    """Give the share of the pull that hands still feel behind turns round a post.

    T_hand / T_load = exp(-2 pi mu n), mu the low end of the friction.

    Parameters
    ----------
    turns : float
        Full turns, at least 0.

    Returns
    -------
    float
        Share, 1 without a turn.

    Raises
    ------
    RangeError
        For fewer turns than none.

    Notes
    -----
    Source: Euler and Eytelwein, belt friction; friction of rope on a post is recalled.

    Examples
    --------
    >>> left_by_turns(0.0)
    1.0
    """
    if turns < 0.0:
        raise RangeError(f"turns round a post: given {turns:g}, allowed 0 or more")
    return float(np.exp(-2.0 * np.pi * float(rigging_table()["post"]["low"]) * turns))


def turns_for(pull: float, hand: float) -> int:
    """Give the full turns round a post with which a hand holds a pull.

    n = ln(T / T_hand) / (2 pi mu), rounded up.

    Parameters
    ----------
    pull : float
        Pull of the load, N.
    hand : float
        What one person holds, N, over 0.

    Returns
    -------
    int
        Turns; 0 when the hand alone is enough.

    Raises
    ------
    RangeError
        When the hand holds nothing.

    Notes
    -----
    Source: Euler and Eytelwein, belt friction; friction of rope on a post is recalled.

    Examples
    --------
    >>> turns_for(100.0, 150.0), turns_for(600.0, 150.0)
    (0, 3)
    """
    if hand <= 0.0:
        raise RangeError(f"pull of a hand: given {hand:g} N, it must be over 0")
    turns = np.log(max(pull, hand) / hand) / (2.0 * np.pi * float(rigging_table()["post"]["low"]))
    return int(np.ceil(turns))


def _row(problem: LoweringProblem, gas: Floats, first: Floats, depth: float) -> tuple[float, Floats, Floats, Floats]:
    """Give one depth: gas added by then, pull with it, pull without it."""
    body, here = problem.body, np.full_like(first, depth)
    pressure = gas_pressure_at(body, here)
    kept = replace(body, gas=gas_volumes(body, first), gas_pressure=pressure)
    return depth, _added(body, gas, first, here), line_pull(kept, here), line_pull(body, here)


def _added(body: Body, gas: Floats, first: Floats, depth: Floats) -> Floats:
    return np.asarray(gas * (gas_pressure_at(body, depth) - first) / body.surface_pressure)


def _no_return(stop: float, body: Body, gas: Floats, first: Floats) -> Floats:
    """Give the sinking h whose loss of lift, rho V rho g h / (p + rho g h), is what divers can stop."""
    spare = body.water_density * gas - stop
    held = np.where(spare > 0.0, spare, 1.0)
    return np.where(spare > 0.0, stop * first / (body.water_density * G * held), np.inf)
