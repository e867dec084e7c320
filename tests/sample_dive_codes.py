"""Facts of dives that fire each code on the divers' exposure, and facts just inside."""

from __future__ import annotations

from typing import Any

from parbuckle.duties.dive_facts import CarriedFacts, DiverFacts, DivingFacts
from parbuckle.duties.facts import Facts, Lesson
from parbuckle.duties.house import load_house
from parbuckle.duties.people_facts import Dive, Member

HOUSE = load_house({})
MORE, LESS = 1.000001, 0.999999
SUPERVISED = (Member("Ada", "supervisor"), Member("Kaya", "standby diver"))


def dive(**fields: Any) -> Facts:
    """One dive."""
    return Facts(diving=(DivingFacts("dive 1 (lift)", **fields),))


def diver(**fields: Any) -> Facts:
    """One dive with one diver."""
    return dive(divers=(DiverFacts("Ines", **fields),))


def edge(kind: Any, key: str, field: str, up: bool = True, **fields: Any) -> tuple[Facts, Facts]:
    """Just past a house limit, and at it."""
    limit = HOUSE[key]
    return kind(**fields, **{field: limit * (MORE if up else LESS)}), kind(**fields, **{field: limit})


def lesson(ratio: int | None, trainees: int) -> Facts:
    """A lesson with one instructor in the water."""
    team = [Member(f"Trainee {n}", "searcher", in_water=True, trainee=True) for n in range(trainees)]
    teacher = Member("Sefa", "instructor", in_water=True)
    return Facts(lesson=Lesson(ratio=ratio), dives=(Dive("search", (*SUPERVISED, teacher, *team), "dive 1 (search)"),))


def twice(second: str) -> Facts:
    """Two dives, one diver."""
    rows = [("dive 1 (search)", "D12-1"), ("dive 2 (lift)", second)]
    return Facts(diving=tuple(DivingFacts(name, (DiverFacts("Ines", cylinder=c),)) for name, c in rows))


def limits(bottom: float) -> Facts:
    """Two limits that differ: 20 min by the model, 25 min by the table."""
    return dive(divers=(DiverFacts("Ines", table_limit=1500.0),), bottom_time=bottom, model_limit=1200.0)


def at_work(country: str, **fields: Any) -> Facts:
    """A commercial dive."""
    return Facts(country=country, rules="commercial", diving=(DivingFacts("dive 1 (lift)", **fields),))


def carried(short: float = 0.0, **fields: Any) -> Facts:
    """One diver with one cylinder beside the set."""
    return diver(carried=(CarriedFacts("S7-1", "EAN50", short=short, **fields),))


def edge_carried(key: str, field: str, up: bool = True, **fields: Any) -> tuple[Facts, Facts]:
    """Just past a house limit of what is carried, and at it."""
    return edge(carried, key, field, up, **fields)


DIVES: dict[str, tuple[Any, Any]] = {
    "stops_due": (dive(stops=1.0), dive(stops=0.0)),
    "regime_decompression": (at_work("US", stops=90.0), at_work("GB", stops=90.0)),
    "no_stop_on_edge": (diver(over_no_stop=0.001), diver(over_no_stop=0.0)),
    "late_stops_due": (dive(late_stops=90.0), dive(late_stops=90.0, stops=90.0)),
    "models_differ": (limits(1201.0), limits(1200.0)),
    "table_silent": (diver(table_why="given 21/35, allowed air and nitrox"), diver(table_limit=600.0)),
    "slack_too_short": edge(dive, "window_chance", "fits_on_sight", up=False),
    "slack_by_clock": edge(dive, "window_chance", "fits", up=False, fits_on_sight=1.0),
    "breathing_empty": (diver(empty=0.001), diver(empty=0.0)),
    "breathing_short": edge(diver, "short_chance", "late"),
    "standby_gas_short": (
        dive(standby_short=(("Kaya", HOUSE["short_chance"] * MORE),)),
        dive(standby_short=(("Kaya", HOUSE["short_chance"]),)),
    ),
    "reserve_too_big": (diver(reserve_fits=False), diver(reserve_fits=True)),
    "breathing_unknown": (diver(set_known=False), diver()),
    "late_gas": (diver(runs_late=True), diver(runs_late=True, late=1.0)),
    "cylinder_again": (twice("D12-1"), twice("D12-2")),
    "oxygen_high": edge(diver, "oxygen_limit", "oxygen"),
    "oxygen_low": edge(diver, "oxygen_least", "oxygen_at_surface", up=False),
    "oxygen_exposure_over": (diver(exposure=MORE), diver(exposure=1.0)),
    "oxygen_exposure_high": edge(diver, "exposure_share", "exposure"),
    "gas_dense": edge(diver, "gas_density", "density"),
    "change_oxygen_high": edge_carried("oxygen_limit_up", "oxygen"),
    "change_oxygen_low": edge_carried("oxygen_least", "oxygen_least", up=False),
    "carried_gas_short": edge_carried("short_chance", "short"),
    "emergency_gas_short": edge_carried("short_chance", "short", spare=True),
    "sawtooth": edge(dive, "sawtooth", "tooth"),
    "load_rate_over": edge(dive, "ceiling", "load_rate"),
    "stop_beside_load": (dive(leave_load_at=4.9, stop_depth=5.0), dive(leave_load_at=5.0, stop_depth=5.0)),
    "in_fall_path": (dive(without_place=("Tomas",)), dive()),
    "ratio_over": (lesson(2, 3), lesson(2, 2)),
    "ratio_not_set": (lesson(None, 2), lesson(2, 2)),
}
"""Each code: facts that fire it, and facts that do not."""
