"""Facts that fire each finding on the other ways up and down, and facts just inside."""

from __future__ import annotations

from typing import Any

from parbuckle.duties.facts import Facts
from parbuckle.duties.lift_facts import LiftFacts

MORE, LESS = 1.000001, 0.999999


def lift(**fields: Any) -> Facts:
    """Facts about the lift alone."""
    return Facts(lift=LiftFacts(**fields))


OTHER_WAYS: dict[str, tuple[Facts, Facts]] = {
    "line_goes_light": (
        lift(method="bag and line", light_at=1.6 * MORE, crown_at_surface=1.6),
        lift(method="bag and line", light_at=1.6, crown_at_surface=1.6),
    ),
    "crown_line_short": (
        lift(method="unaccompanied", crown_length=2.5 * LESS, crown_reach=2.5),
        lift(method="unaccompanied", crown_length=2.5, crown_reach=2.5),
    ),
    "crown_line_weak": (
        lift(method="unaccompanied", crown_load=900.0 * MORE, crown_limit=900.0),
        lift(method="unaccompanied", crown_load=900.0, crown_limit=900.0),
    ),
    "lower_over_limit": (
        lift(lower_way="line", lower_hold=1200.0 * MORE, lower_limit=1200.0),
        lift(lower_way="line", lower_hold=1200.0, lower_limit=1200.0),
    ),
    "lower_hands_short": (
        lift(lower_way="line", lower_people=2.0, lower_hands=1.0),
        lift(lower_way="line", lower_people=2.0, lower_hands=2.0),
    ),
    "lower_by_bag_alone": (lift(lower_way="bag", lower_doubling=1.2), lift(lower_way="bag and line")),
}
