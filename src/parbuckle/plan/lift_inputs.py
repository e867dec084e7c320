"""From case and kit to the problem of the lift stage."""

from __future__ import annotations

from datetime import date, datetime

import numpy as np

from parbuckle.case.kit import Bag as KitBag
from parbuckle.case.kit import Cylinder as KitCylinder
from parbuckle.case.kit import Kit
from parbuckle.case.model import Case
from parbuckle.duties.house import House
from parbuckle.lift.problem import Bag, Cylinder, LiftProblem, Rules
from parbuckle.lift.restraint import line_limit
from parbuckle.load.result import LoadResult
from parbuckle.physics.air import free_content
from parbuckle.physics.constants import ATMOSPHERE, G
from parbuckle.plan.asking import Asking
from parbuckle.plan.defaults import defaults
from parbuckle.plan.site_inputs import SiteDraws
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.spread import Spread

_RATED_TEMPERATURE = 293.15  # K: 20 degC, at which a cylinder's rated content is stated (common practice)


def lift_problem(
    case: Case,
    kit: Kit | None,
    asking: Asking,
    site: SiteDraws,
    load: LoadResult,
    house: House,
    method: str,
    strop: Floats,
    when: datetime | None,
) -> LiftProblem:
    """Translate a case into the problem of the lift stage.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit or None
        What the team owns.
    asking : Asking
        Where inputs are drawn.
    site : SiteDraws
        Water, pressure, depth.
    load : LoadResult
        What it weighs.
    house : House
        House rules.
    method : str
        Method that the lift is worked out for.
    strop : Floats
        Height of the bags above the load, m, shape (n,).
    when : datetime or None
        Start of the lift: bags past their due date then are left out.

    Returns
    -------
    LiftProblem
        One column for each draw.
    """
    lift, e = case.lift, asking.ensemble
    point = lift.as_point
    rules = _rules(house)
    return LiftProblem(
        water_density=site.water_density,
        surface_pressure=site.surface_pressure,
        temperature=site.temperature,
        depth=site.depth,
        wet=load.wet_weight,
        dry=load.dry_mass,
        entrapped=load.entrapped_water,
        envelope=load.envelope,
        displaced=load.displaced,
        breakout=load.breakout,
        rigging=asking.draw("lift.rigging_mass", lift.rigging_mass, "rigging"),
        held=(lift.kept_heavy or defaults()["kept_heavy"].value).mid if method == "bag and line" else 0.0,
        bags=tuple(_bag(b, asking, house, e.n) for b in usable_bags(case, kit, when)),
        wanted=lift.bags,
        method=method,
        restrained=restraint_holds(case, kit) if method == "unaccompanied" else 0.0,
        cylinder=_cylinder(case, kit, asking, site) if _fills(case) else None,
        strop=np.zeros(e.n) if point else strop,
        as_point=point,
        target=lift.rate.target.mid if lift.rate.target else house["target"],
        ceiling=lift.rate.ceiling.mid if lift.rate.ceiling else house["ceiling"],
        drag_factor=e.draw("lift.drag_factor", defaults()["drag_factor"].value),
        drag_area=e.draw("lift.drag_area", lift.drag_area) if lift.drag_area else None,
        added_factor=e.draw("lift.added_factor", defaults()["added_factor"].value),
        bag_added_factor=e.draw("lift.bag_added_factor", defaults()["bag_added_factor"].value),
        added_mass=e.draw("lift.added_mass", lift.added_mass) if lift.added_mass else None,
        surplus=e.draw("lift.surplus", lift.surplus) if lift.surplus else None,
        overfill=e.draw("lift.overfill", defaults()["overfill"].value),
        stream=site.stream,
        tries=lift.tries,
        gauge_u=e.uniform("kit.gauge"),
        adiabatic=lift.gas == "adiabatic",
        rules=rules,
    )


def usable_bags(case: Case, kit: Kit | None, when: datetime | None) -> list[KitBag]:
    """Give the bags that may be chosen: not set aside and in date; those that the case names are kept in any case.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit or None
        What the team owns.
    when : datetime or None
        Start of the lift.

    Returns
    -------
    list of Bag
        In the order of the kit.
    """
    named = case.lift.bags or ()
    day = when.date() if when else date.min
    bags = kit.bag if kit else ()
    if named:
        return [b for b in bags if b.id in named or not _barred(b, day)]
    return [b for b in bags if not _barred(b, day)]


def restraint_holds(case: Case, kit: Kit | None) -> float:
    """Give what the restraint can stop: the lesser of its anchor in water and the working limit of its line.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit or None
        What the team owns.

    Returns
    -------
    float
        kg; 0 when there is no restraint or something of it is not known.
    """
    restraint = case.lift.restraint
    lines = {line.id: line for line in kit.line} if kit else {}
    if restraint is None or restraint.anchor is None or restraint.line not in lines:
        return 0.0
    line = lines[restraint.line]
    limit = line.limit.low if line.limit else line_limit(line.strength.low)[0] if line.strength else 0.0
    return max(min(restraint.anchor.low, limit / G), 0.0)


def real_capacity(bag: KitBag, house: House) -> Spread:
    """Give what a bag really holds: measured, else its mark with the house tolerance.

    Parameters
    ----------
    bag : Bag
        The bag of the kit.
    house : House
        House rules; ``bag_tolerance`` is a share.

    Returns
    -------
    Spread
        m3.
    """
    if bag.really is not None:
        return bag.really
    tolerance = house.spread("bag_tolerance")
    mark = bag.capacity
    low, high = mark.low * (1.0 + tolerance.low), mark.high * (1.0 + tolerance.high)
    text = f"{mark.text} with {tolerance.text}"
    return Spread("volume", "flat", low, 0.5 * (low + high), high, text, 0.0, assumed=True)


def _barred(bag: KitBag, day: date) -> bool:
    return bag.quarantined or (bag.due is not None and bag.due < day)


def _bag(bag: KitBag, asking: Asking, house: House, n: int) -> Bag:
    e, path = asking.ensemble, f"kit.bag.{bag.id}"
    marked = bag.capacity.mid
    height = bag.height.mid if bag.height else defaults()["bag_height"].value.mid * marked ** (1 / 3)
    weight = e.draw(f"{path}.in_water", bag.in_water or defaults()["bag_in_water"].value)
    return Bag(
        id=bag.id,
        style=bag.style,
        marked=marked,
        really=e.draw(f"{path}.really", real_capacity(bag, house)),
        weight=weight,
        mass=e.draw(f"{path}.mass", bag.mass) if bag.mass else np.zeros(n),
        height=height,
        attachment=bag.attachment.low if bag.attachment else None,
        relief=bag.relief.mid if bag.relief else None,
        pull=e.draw(f"{path}.pull", bag.pull) if bag.pull else None,
    )


def _cylinder(case: Case, kit: Kit | None, asking: Asking, site: SiteDraws) -> Cylinder | None:
    owned = {c.id: c for c in kit.cylinder} if kit else {}
    cylinder = owned.get(case.lift.cylinder or "")
    capacity = capacity_of(cylinder) if cylinder else None
    if cylinder is None or capacity is None:
        asking.lacks("lift.cylinder", "gas", "Gas for the bags comes from a cylinder that nobody breathes from.")
        return None
    path, e = f"kit.cylinder.{cylinder.id}", asking.ensemble
    flow, measured_at = _flow(cylinder, kit, asking, site)
    return Cylinder(
        id=cylinder.id,
        capacity=capacity,
        pressure=asking.draw(f"{path}.pressure", cylinder.pressure, "cylinder_pressure"),
        flow=flow,
        flow_depth_pressure=measured_at,
        goes=case.lift.cylinder_goes or "stays on the bottom",
        weight=e.draw(f"{path}.in_water", cylinder.in_water or defaults()["cylinder_on_load"].value)
        if case.lift.cylinder_goes == "on the load"
        else np.zeros(e.n),
    )


def _fills(case: Case) -> bool:
    """Tell whether any bag is filled: a load that only a line lets down needs no gas."""
    return not (case.lift.method == "lowered" and case.lowering is not None and case.lowering.way == "line")


def capacity_of(cylinder: KitCylinder) -> float | None:
    """Give the water capacity of all joined cylinders, from a rated content where that is what is known.

    Parameters
    ----------
    cylinder : KitCylinder
        Of the kit.

    Returns
    -------
    float or None
        m3; None when neither is told.
    """
    if cylinder.volume is not None:
        return cylinder.volume.mid * cylinder.count
    if cylinder.content is not None and cylinder.rated is not None:
        one = float(free_content(1.0, cylinder.rated.mid, ATMOSPHERE, _RATED_TEMPERATURE))
        return cylinder.content.mid / one * cylinder.count
    return None


def _flow(cylinder: KitCylinder, kit: Kit | None, asking: Asking, site: SiteDraws) -> tuple[Floats, Floats]:
    """Give the free flow into a bag at the site's surface pressure and the pressure at which it was measured."""
    fills, e = cylinder.fills, asking.ensemble
    bags = {b.id: b for b in kit.bag} if kit else {}
    if fills is None or fills.bag not in bags:
        return e.draw("lift.flow", defaults()["flow"].value), site.surface_pressure
    bag, path = bags[fills.bag], f"kit.cylinder.{cylinder.id}.fills"
    volume = e.draw(f"kit.bag.{bag.id}.really", bag.really or bag.capacity)
    pressure = site.surface_pressure + site.water_density * G * e.draw(f"{path}.at", fills.at)
    seconds = e.draw(f"{path}.in", fills.in_)
    return volume * pressure / site.surface_pressure / seconds, pressure


def _rules(house: House) -> Rules:
    fixed = {key: defaults()[key].value.mid for key in ("intermediate", "budget_depth", "falling_angle", "clear_share")}
    keys = (
        "divers_stop",
        "reaction",
        "runaway_speed",
        "float_chance",
        "reserve",
        "spill_allowance",
        "cylinder_margin",
        "gauge_error",
        "carry_limit",
    )
    return Rules(**{key: house[key] for key in keys}, **fixed)
