"""From the rigging of a case and the kit's marks to the rigging stage."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

import numpy as np

from parbuckle.case.kit import Connector, Kit, Line, Sling
from parbuckle.case.model import Case
from parbuckle.case.raising import Rigged
from parbuckle.lift.problem import Bag
from parbuckle.lift.rigging_problem import RiggingItem, RiggingProblem
from parbuckle.lift.sling import strop_reach
from parbuckle.physics.constants import G
from parbuckle.plan.surface_inputs import onward
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.spread import Spread


class HouseRules(Protocol):
    """What this translation needs of the house rules: one limit in SI by its key."""

    def __getitem__(self, key: str) -> float:
        """Give one limit in SI.

        Parameters
        ----------
        key : str
            Key of the rule.

        Returns
        -------
        float
            In SI.
        """
        ...


def rigging_problem(
    case: Case,
    kit: Kit,
    house: HouseRules,
    *,
    bags: tuple[Bag, ...],
    lift_density: Floats,
    wet: Floats,
    leaving: Floats,
    restraint: Floats | None = None,
    sea: str = "waves",
) -> RiggingProblem:
    """Translate the rigging: everything between bags and load, the bags' attachments, and the lines.

    Pull on the pick point = lift of all bags at their real capacity. A line to the surface holds the load's weight in
    water should
    the bag fail, and the weight out of the water when it is hauled out by that line. A crown line holds the largest
    bag.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit
        Its kit.
    house : HouseRules
        Needs ``sling_angle`` and ``sling_angle_least``, rad.
    bags : tuple of Bag
        Bags that are filled on the bottom or at the surface.
    lift_density : Floats
        Lift of one m3 of gas where the bags pull most, kg/m3, shape (n,): at the surface.
    wet : Floats
        Weight in water of load and rigging, kg, shape (n,).
    leaving : Floats
        Weight on leaving the water, kg, shape (n,).
    restraint : Floats, optional
        Tension of the restraint, N, shape (n,).
    sea : str
        ``calm`` or ``waves``; a case does not tell, so waves are taken.

    Returns
    -------
    RiggingProblem
        Items in the order: rigging of the case, bags, lines.
    """
    way = onward(case.surface.then)
    lifts = {bag.id: (lift_density * bag.really - bag.weight) * G for bag in bags}
    peak = sum(lifts.values(), np.zeros_like(wet))
    lines = {line.id: line for line in kit.line}
    items = _chain(case, kit, at_surface=way.lifted_out or way.hauled)
    items += [RiggingItem(bag.id, "bag", load=lifts[bag.id], limit=bag.attachment) for bag in bags]
    hauled_out = way.hauled and not way.lifted_out
    told = (
        (case.surface.line_to_surface, wet * G, hauled_out),
        (case.lift.restraint.line if case.lift.restraint else None, restraint, False),
        (case.lift.crown_line.line if case.lift.crown_line else None, _largest(lifts), False),
    )
    items += [_line(lines[name], load, out) for name, load, out in told if name in lines and load is not None]
    return RiggingProblem(
        peak=peak,
        items=tuple(items),
        least_angle=house["sling_angle_least"],
        caution_angle=house["sling_angle"],
        surface=leaving * G if way.lifted_out or way.hauled else None,
        sea=sea,
    )


def strop_height(case: Case, kit: Kit) -> float:
    """Give how far the rigging puts the bags above the load's lift points.

    Sum of the reach of its slings; connectors are left out.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit
        Its kit.

    Returns
    -------
    float
        m; 0 when no sling has a length.
    """
    return sum(strop_reach(item) for item in _chain(case, kit, at_surface=False) if item.kind == "sling")


def _chain(case: Case, kit: Kit, *, at_surface: bool) -> list[RiggingItem]:
    owned: dict[str, Connector | Sling | Line] = {item.id: item for item in kit.connector}
    owned |= {item.id: item for item in kit.sling} | {item.id: item for item in kit.line}
    items: list[RiggingItem] = []
    for row in case.lift.rigging:
        name = row.connector or row.sling or row.line
        if name in owned:
            before = items[-1].id if items else ""
            items.append(_item(owned[name], row, row.on or before, at_surface))
    return items


def _item(owned: Connector | Sling | Line, row: Rigged, on: str, at_surface: bool) -> RiggingItem:
    if isinstance(owned, Connector):
        return RiggingItem(
            owned.id, "connector", owned.kind, None, at_surface,
            limit=_low(owned.limit), strength=_low(owned.strength), locking=owned.locking, on=on,
        )  # fmt: skip
    if isinstance(owned, Line):
        line = _line(owned, None, at_surface)
        return RiggingItem(**{**vars(line), "hitch": row.hitch or "straight", "on": on})
    return RiggingItem(
        owned.id, "sling", owned.kind, None, at_surface,
        hitch=row.hitch or "straight", choke_angle=_mid(row.choke_angle), legs=row.legs,
        spread=_mid(row.spread), length=_mid(owned.length), limit=_low(owned.limit), on=on,
    )  # fmt: skip


def _line(line: Line, load: Floats | None, at_surface: bool) -> RiggingItem:
    return RiggingItem(
        line.id, "line", "", load, at_surface,
        length=_mid(line.length), limit=_low(line.limit), strength=_low(line.strength), kept=_low(line.knot),
    )  # fmt: skip


def _largest(lifts: Mapping[str, Floats]) -> Floats | None:
    return max(lifts.values(), key=lambda lift: float(np.mean(lift)), default=None)


def _low(value: Spread | None) -> float | None:
    return None if value is None else value.low


def _mid(value: Spread | None) -> float | None:
    return None if value is None else value.mid
