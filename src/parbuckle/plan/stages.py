"""The stages one after the other: site, load, choice of bags and method, lift, rigging, surface."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING

import numpy as np

from parbuckle.case.kit import Kit, Line
from parbuckle.case.model import Case
from parbuckle.case.read import LoadedCase
from parbuckle.dive.problem import DivingProblem
from parbuckle.dive.result import DivingResult
from parbuckle.duties.house import House
from parbuckle.lift.method import WITH_BAGS, propose
from parbuckle.lift.problem import LiftProblem
from parbuckle.lift.restraint import RestraintProblem, RestraintResult, restraint
from parbuckle.lift.result import LiftResult, Supply
from parbuckle.lift.rigging import rigging
from parbuckle.lift.rigging_result import RiggingResult
from parbuckle.lift.sets import drag_area_of, two_thirds
from parbuckle.lift.supply import supply
from parbuckle.lift.surface import surface
from parbuckle.lift.surface_result import SurfaceResult
from parbuckle.lift.tending_problem import TendingProblem
from parbuckle.lift.tending_result import TendingResult
from parbuckle.load.problem import LoadProblem
from parbuckle.load.result import LoadResult
from parbuckle.load.weigh import weigh
from parbuckle.physics.constants import G
from parbuckle.plan.asking import Asking
from parbuckle.plan.lift_inputs import lift_problem, restraint_holds
from parbuckle.plan.lifting import choices_of, lifted
from parbuckle.plan.load_inputs import ask_load
from parbuckle.plan.methods import WaysUp, ways_up
from parbuckle.plan.other_ways import LOWERED, OtherWays, bags_down, other_ways
from parbuckle.plan.people import lift_dive
from parbuckle.plan.rigging_inputs import rigging_problem, strop_height
from parbuckle.plan.site_inputs import SiteDraws, site_draws, tide_at
from parbuckle.plan.surface_inputs import surface_problem
from parbuckle.plan.tending import tended
from parbuckle.plan.tending_inputs import tending_problem
from parbuckle.quantity.draws import Ensemble
from parbuckle.quantity.errors import CaseError
from parbuckle.quantity.frozen import Floats

if TYPE_CHECKING:
    from parbuckle.plan.searching import Searched


@dataclass(frozen=True)
class Stages:
    """Everything that the stages were asked and what they answered; None where a stage could not run.

    Parameters
    ----------
    loaded : LoadedCase
        Case and kit.
    house : House
        House rules of this case.
    asking : Asking
        Inputs drawn, assumed and lacking.
    when : datetime or None
        Start of the lift.
    site : SiteDraws
        Water, pressure, depth.
    load_problem, load : LoadProblem, LoadResult or None
        The load.
    method : str or None
        The method worked out; None when nothing can be said.
    ways : WaysUp or None
        The ways up compared.
    lift_problem, lift : LiftProblem, LiftResult or None
        The lift; ``lift`` is None without bags.
    supply : Supply or None
        Lift gas; also known without a choice of bags.
    tending_problem, tending : TendingProblem, TendingResult or None
        The ascent with people on it; None where nobody goes up beside it.
    restraint, rigging, surface, others : results or None
        The other parts.
    diving_problem, diving : DivingProblem, DivingResult or None
        The dives; None when no dive has a task.
    searched : Searched or None
        The search; None when nobody told where it may be.
    """

    loaded: LoadedCase
    house: House
    asking: Asking
    when: datetime | None
    site: SiteDraws
    load_problem: LoadProblem | None = None
    load: LoadResult | None = None
    method: str | None = None
    ways: WaysUp | None = None
    lift_problem: LiftProblem | None = None
    lift: LiftResult | None = None
    supply: Supply | None = None
    tending_problem: TendingProblem | None = None
    tending: TendingResult | None = None
    restraint: RestraintResult | None = None
    rigging: RiggingResult | None = None
    surface: SurfaceResult | None = None
    others: OtherWays | None = None
    diving_problem: DivingProblem | None = None
    diving: DivingResult | None = None
    searched: Searched | None = None

    @property
    def case(self) -> Case:
        """The case."""
        return self.loaded.case

    @property
    def kit(self) -> Kit | None:
        """The kit."""
        return self.loaded.kit


def run_stages(loaded: LoadedCase, house: House, n: int, seed: int) -> Stages:
    """Run all stages over an ensemble.

    Parameters
    ----------
    loaded : LoadedCase
        Case and kit.
    house : House
        House rules of this case.
    n : int
        Number of draws.
    seed : int
        Seed.

    Returns
    -------
    Stages
        Problems and results.
    """
    case = loaded.case
    dive = lift_dive(case)
    when = dive.start if dive else None
    asking = Asking(Ensemble(n, seed))
    site = site_draws(case, asking, when)
    stages = Stages(loaded, house, asking, when, site)
    problem = ask_load(
        case,
        asking,
        site.water_density,
        site.bottom_pressure,
        site.temperature,
        kit=loaded.kit,
        folder=loaded.path.parent,
    )
    if loaded.kit is None:
        asking.lacks("kit", "lift", "Bags, lines and cylinders decide how it comes up.")
    if problem is None:
        return stages
    stages = replace(stages, load_problem=problem, load=weigh(problem))
    return _lowered(stages) if case.lift.method == LOWERED else _other(_bags(_tended(_ways(stages))))


def _ways(stages: Stages) -> Stages:
    """Choose bags under each method that uses them, compare the ways up, settle the method."""
    case, kit, load = stages.case, stages.kit, stages.load
    assert load is not None
    asked = case.lift.method
    strop = _strop(case, kit, stages.asking, stages.site.depth)
    first = asked if asked in WITH_BAGS else "accompanied"
    problem = lift_problem(case, kit, stages.asking, stages.site, load, stages.house, first, strop, stages.when)
    held = restraint_holds(case, kit)
    choices = choices_of(problem, held, held > 0.0 or asked == "unaccompanied")
    ways = ways_up(case, kit, stages.house, load, stages.site.depth, choices, held)
    proposed = None if kit is None else propose(ways.rows)
    method: str | None = proposed if asked == "choose" else asked
    if method in WITH_BAGS and method != first:
        problem = lift_problem(case, kit, stages.asking, stages.site, load, stages.house, method, strop, stages.when)
    lift = lifted(problem, choices[method]) if method in WITH_BAGS and choices[method].best is not None else None
    needs = (problem.on_load / problem.lift_density) if method in (*WITH_BAGS, None) else None
    gas = lift.supply if lift else None if needs is None else supply(problem, needs, needs, ())
    return replace(stages, method=method, ways=ways, lift_problem=problem, lift=lift, supply=gas)


def _tended(stages: Stages) -> Stages:
    """Follow the lift with the team on it, where people go up beside it."""
    problem, lift = stages.lift_problem, stages.lift
    if stages.method != "accompanied" or problem is None or lift is None or problem.as_point:
        return stages
    asked = tending_problem(stages.case, stages.kit, stages.asking, problem, lift)
    return replace(stages, tending_problem=asked, tending=tended(problem, lift, asked))


def _bags(stages: Stages) -> Stages:
    """Work out restraint, rigging and surface."""
    case, kit, load, problem, lift = stages.case, stages.kit, stages.load, stages.lift_problem, stages.lift
    assert load is not None and problem is not None
    hold = _restraint(case, kit, problem, lift)
    owned = {b.id: b for b in problem.bags}
    used = tuple(owned[s.bag] for s in lift.filling) if lift else ()
    rig = None
    if kit is not None and (case.lift.rigging or used):
        rig = rigging(
            rigging_problem(
                case,
                kit,
                stages.house,
                bags=used,
                lift_density=problem.water_density,
                wet=load.wet_weight,
                leaving=load.leaving_water,
                restraint=hold.tension if hold else None,
            )
        )
    really = sum((b.really for b in used), np.zeros_like(load.wet_weight))
    floating = surface(
        surface_problem(
            case,
            stages.asking,
            water_density=problem.water_density,
            capacity=really * problem.water_density,
            required=lift.required if lift else problem.on_load,
            leaving=load.leaving_water,
            reserve_wanted=stages.house["reserve"],
            clearance=stages.house["tow_margin"],
            bag_height=max((b.height for b in used), default=0.0),
            hang=lift.end_depth if lift else None,
            drag_area=drag_area_of(problem, sum((two_thirds(b.really) for b in used), np.zeros_like(really)))
            if used
            else None,
            tide=tide_at(case, stages.asking, stages.when),
        )
    )
    return replace(stages, restraint=hold, rigging=rig, surface=floating if case.surface.then or lift else None)


def _other(stages: Stages) -> Stages:
    """Work out the other ways: on a line, alone, down."""
    problem, load = stages.lift_problem, stages.load
    assert problem is not None and load is not None
    ways = other_ways(stages.case, stages.kit, stages.asking, stages.method, problem, load, stages.lift)
    return replace(stages, others=ways)


def _lowered(stages: Stages) -> Stages:
    """Work out a load that is put down and not lifted: it hangs in the water, so no bottom holds it."""
    case, kit, asking, load = stages.case, stages.kit, stages.asking, stages.load
    assert load is not None
    load = replace(
        load,
        breakout=np.zeros_like(load.wet_weight),
        breakout_why="It is not on the bottom yet: nothing holds it.",
        breakout_hold=(),
        liu=None,
    )
    strop = _strop(case, kit, asking, stages.site.depth)
    problem = lift_problem(case, kit, asking, stages.site, load, stages.house, LOWERED, strop, stages.when)
    ids = bags_down(case, problem)
    used = tuple(b for b in problem.bags if b.id in ids)
    rig = None
    if kit is not None and (case.lift.rigging or used):
        rig = rigging(
            rigging_problem(
                case,
                kit,
                stages.house,
                bags=used,
                lift_density=problem.water_density,
                wet=load.wet_weight,
                leaving=load.leaving_water,
            )
        )
    done = _other(replace(stages, load=load, method=LOWERED, lift_problem=problem, rigging=rig))
    down = done.others.down if done.others else None
    return replace(done, supply=supply(problem, down.gas, down.gas, ()) if down and used else None)


def _restraint(case: Case, kit: Kit | None, problem: LiftProblem, lift: LiftResult | None) -> RestraintResult | None:
    told = case.lift.restraint
    line = next((row for row in kit.line if told and row.id == told.line), None) if kit else None
    if told is None or line is None or lift is None or not _complete(line):
        return None
    assert line.strength is not None and line.length is not None and line.stretch is not None
    return restraint(
        RestraintProblem(
            surplus=np.maximum(lift.ceiling - lift.required, 0.0) * G,
            full_lift=lift.lift * G,
            strength=line.strength.low,
            length=line.length.mid,
            stretch=line.stretch.mid,
            slack=told.slack.high if told.slack else 0.0,
            on=told.on,
            kept=line.knot.low if line.knot else None,
            anchor=told.anchor.low * G if told.anchor else None,
        )
    )


def _complete(line: Line) -> bool:
    return line.strength is not None and line.length is not None and line.stretch is not None


def _strop(case: Case, kit: Kit | None, asking: Asking, depth: Floats) -> Floats:
    """Height of the bags' mouth above the load; refused when the rigging is taller than the water is deep."""
    if case.lift.as_point:
        return np.zeros_like(depth)
    if kit is None or not case.lift.rigging:
        return np.minimum(asking.draw("lift.rigging", None, "strop"), depth / 2.0)
    height = strop_height(case, kit)
    if np.any(depth <= height):
        raise CaseError(
            "the rigging is taller than the water is deep",
            key="lift.rigging",
            given=f"bags {height:.1f} m above the load in {float(np.min(depth)):.1f} m of water",
            allowed="a strop shorter than the depth",
            do="shorten the sling, or give the depth again",
        )
    return np.full_like(depth, height)
