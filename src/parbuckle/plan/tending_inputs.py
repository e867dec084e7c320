"""From case and kit to the problem of the stage under control."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from parbuckle.case.kit import Bag as KitBag
from parbuckle.case.kit import Kit
from parbuckle.case.model import Case
from parbuckle.lift.problem import Bag, LiftProblem
from parbuckle.lift.result import LiftResult
from parbuckle.lift.tending_problem import Habits, TendingProblem
from parbuckle.physics.escape import area_from_pull, dump_area
from parbuckle.physics.tender import people
from parbuckle.plan.asking import Asking
from parbuckle.plan.defaults import defaults
from parbuckle.plan.people import lift_dive
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.grammar import parse
from parbuckle.quantity.spread import Spread

DELAYS = (0.1, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0)
"""Reaction delays that are tried, s: the span in which people lie, and a little less."""

PRACTISED, NOVICE = "practised", "novice"
"""Whose assumed numbers there are."""

_TOLD = ("delay", "pull", "watch", "thrust", "drag", "count")  # what a case may say of its own people


def tending_problem(
    case: Case, kit: Kit | None, asking: Asking, problem: LiftProblem, lift: LiftResult
) -> TendingProblem:
    """Translate a case into the problem of the stage under control.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit or None
        What the team owns.
    asking : Asking
        Where inputs are drawn.
    problem : LiftProblem
        The lift.
    lift : LiftResult
        The chosen bags and their filling.

    Returns
    -------
    TendingProblem
        One column for each draw.
    """
    told, e, known = case.lift.tender, asking.ensemble, defaults()
    who = told.who or PRACTISED
    owned = {b.id: b for b in kit.bag} if kit else {}
    used = [s.bag for s in lift.filling if s.fill != "empty"]
    by_id = {b.id: b for b in problem.bags}
    habits = _habits(case, asking, who, own=True, reaction=own_reaction(case, kit))
    lost, lost_in, measured = _pull(owned[used[-1]], by_id[used[-1]], asking, problem, lift, habits.pull)
    roles = [m.role for m in dive.team] if (dive := lift_dive(case)) else []
    return TendingProblem(
        people=habits,
        others=_habits(case, asking, NOVICE if who == PRACTISED else PRACTISED, own=False),
        policy=told.policy,
        on_load="load tender" in roles,
        lost=lost,
        lost_in=lost_in,
        measured=measured,
        inflow=_inflow(problem),
        drogue=e.draw("lift.tender.drogue", told.drogue) if told.drogue else np.zeros(e.n),
        relief_area=np.array([_relief(owned[i], e.n) for i in used]),
        slots=int(known["tried_draws"].value.mid),
        limit=known["ascent_limit"].value.mid,
        delays=DELAYS,
        asked_chance=known["held_chance"].value.mid,
        more_drogue=known["more_drogue"].value.mid,
        more_target=min(known["more_target"].value.mid, problem.ceiling),
    )


def habit(who: str, key: str) -> Spread:
    """Give an assumed number of a kind of people.

    Parameters
    ----------
    who : str
        ``practised`` or ``novice``.
    key : str
        Name of the number.

    Returns
    -------
    Spread
        In SI, marked as assumed.

    Examples
    --------
    >>> habit("practised", "delay").mid
    1.0
    """
    row = people()[who][key]
    return replace(parse(row["default"], row["kind"]), assumed=True)


def own_reaction(case: Case, kit: Kit | None) -> Spread | None:
    """Give the reaction time of whoever tends the bag, where it is known.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit or None
        What the team owns.

    Returns
    -------
    Spread or None
        s; None where nobody timed it.
    """
    dive = lift_dive(case)
    names = [m.person for m in dive.team if m.role == "bag tender"] if dive else []
    known = [*(kit.person if kit else ()), *case.trainee]
    return next((p.reaction for p in known if p.name in names and p.reaction is not None), None)


def _habits(case: Case, asking: Asking, who: str, own: bool, reaction: Spread | None = None) -> Habits:
    """The numbers of a team: the same uniforms for both kinds of people, so that they are compared like for like."""
    told, e = case.lift.tender, asking.ensemble
    drawn: dict[str, Floats] = {}
    for key in Habits.__dataclass_fields__:
        given = getattr(told, key) if own and key in _TOLD else None
        if own and key == "delay" and given is None:
            given = reaction
        value = given or habit(who, key)
        drawn[key] = np.full(e.n, value.mid) if value.exact else e.draw(f"lift.tender.{key}", value)
    return Habits(**drawn)


def _pull(
    kit_bag: KitBag, bag: Bag, asking: Asking, problem: LiftProblem, lift: LiftResult, pull: Floats
) -> tuple[Floats, Floats, bool]:
    """What one short pull loses and how long it was: measured, else from the bore, else a wide default."""
    e, path = asking.ensemble, f"kit.bag.{kit_bag.id}"
    seconds = e.draw(f"{path}.pull_in", kit_bag.pull_in) if kit_bag.pull_in else pull
    if bag.pull is not None:
        return np.maximum(bag.pull, _LEAST), seconds, True
    if kit_bag.dump_bore is None:
        return asking.draw(f"{path}.pull", None, "pull"), pull, False
    bore = e.draw(f"{path}.dump_bore", kit_bag.dump_bore)
    area = dump_area(bore, asking.draw(f"{path}.dump_discharge", None, "dump_discharge"))
    column = np.clip(lift.control.growing / bag.really, _COLUMN, 1.0) * bag.height
    per_area = area_from_pull(1.0, 1.0, column, problem.water_density, problem.gas_pressure, problem.temperature)
    return pull * area / per_area, pull, False


_GOES_UP = ("with the bag tender", "on the load")
_LEAST = 1e-6  # m3: a measured pull cannot lose less than nothing
_COLUMN = 0.05  # share of a bag's height that stands under its dump, at least


def _relief(bag: KitBag, n: int) -> Floats:
    """Effective area of a relief valve: infinite where its bore is not known, and for a bag that has none."""
    if bag.relief is None or bag.relief_bore is None:
        return np.full(n, np.inf)
    return np.full(n, float(dump_area(bag.relief_bore.mid, defaults()["relief_discharge"].value.mid)))


def _inflow(problem: LiftProblem) -> Floats:
    """Flow of the inflator when the cylinder goes up with the tender."""
    cylinder = problem.cylinder
    if cylinder is None or cylinder.goes not in _GOES_UP:
        return np.zeros(problem.depth.size)
    return cylinder.flow
