"""Rules on what the load hangs on, and on the way from the surface to the shore."""

from __future__ import annotations

from parbuckle.duties.facts import Facts
from parbuckle.duties.hit import Hit, Hits, Rule, over, under
from parbuckle.duties.house import House

OVER_LIMIT = {
    "attachment": "over_limit_attachment",
    "connector": "over_limit_connector",
    "sling": "over_limit_sling",
    "line": "over_limit_line",
    "lift point": "over_limit_lift_point",
}
"""Code for each kind of item that carries more than it may."""


def _limits(facts: Facts, house: House) -> Hits:
    """No item carries more than it may."""
    for item in facts.rigging:
        if item.kind in OVER_LIMIT and over(item.load, item.limit):
            yield Hit(OVER_LIMIT[item.kind], item.load, item.limit, item.item)


def _marks(facts: Facts, house: House) -> Hits:
    """Every item is marked; connectors lock. What is told of a lift point is asked elsewhere."""
    for item in facts.rigging:
        if item.limit is None and item.kind in OVER_LIMIT and item.kind != "lift point":
            code = "connector_unmarked" if item.kind == "connector" else "strength_unmarked"
            yield Hit(code, None, None, item.item)
        if item.kind == "connector" and item.locking is False:
            yield Hit("connector_unlocked", None, None, item.item)


def _legs(facts: Facts, house: House) -> Hits:
    """Sling legs stand steep."""
    for item in facts.rigging:
        if under(item.angle, house["sling_angle_least"]):
            yield Hit("flat_sling_refused", item.angle, house["sling_angle_least"], item.item)
        elif under(item.angle, house["sling_angle"]):
            yield Hit("flat_sling", item.angle, house["sling_angle"], item.item)


def _shared(facts: Facts, house: House) -> Hits:
    """One attachment holds one thing."""
    told: set[frozenset[str]] = set()
    for item in facts.rigging:
        pair = frozenset((item.item, item.shares_with))
        if item.shares_with and pair not in told:
            told.add(pair)
            yield Hit("shared_attachment", item.shares_with, None, item.item)


def _afloat(facts: Facts, house: House) -> Hits:
    """It floats with something in reserve, and what lifts it out can carry it."""
    surface = facts.surface
    if under(surface.reserve, house["reserve"]):
        yield Hit("reserve_short", surface.reserve, house["reserve"])
    if over(surface.leaving_likely, surface.leaving_limit):
        yield Hit("leaving_over_limit", surface.leaving_likely, surface.leaving_limit)
    elif over(surface.leaving_high, surface.leaving_limit):
        yield Hit("leaving_near_limit", surface.leaving_high, surface.leaving_limit)


def _tow(facts: Facts, house: House) -> Hits:
    """Water stays under the load on the tow."""
    surface = facts.surface
    if surface.hang is None:
        return
    needed = surface.hang + house["tow_margin"]
    if under(surface.shallowest, needed):
        where = "" if surface.grounds_at is None else "on the tow"
        yield Hit("tow_grounds", surface.shallowest, needed, where)


def _line(facts: Facts, house: House) -> Hits:
    """A line from the load reaches the surface at the highest water."""
    surface = facts.surface
    if facts.lift.method and facts.lift.method not in ("carried", "lowered") and not surface.line:
        yield Hit("no_surface_line")
    if surface.line and surface.depth_highest is not None:
        needed = surface.depth_highest * (1 + house["line_allowance"])
        if under(surface.line_length, needed):
            yield Hit("line_short", surface.line_length, needed, surface.line)


RULES: tuple[Rule, ...] = (_limits, _marks, _legs, _shared, _afloat, _tow, _line)
"""Every rule on rigging and on the surface."""
