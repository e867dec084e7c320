"""Each code of the catalogue: facts that fire it, and facts just inside that do not."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from parbuckle.duties.catalogue import catalogue
from parbuckle.duties.facts import Answers, Facts, Lesson, SiteFacts
from parbuckle.duties.finding import Override
from parbuckle.duties.house import load_house
from parbuckle.duties.judge import judge
from parbuckle.duties.lift_facts import BagFacts, CavityFacts, GasFacts, LiftFacts, LoadFacts, RigItem, SurfaceFacts
from parbuckle.duties.people_facts import Dive, KitItem, Member
from parbuckle.duties.regimes import legal_limits
from sample_control import CONTROL
from sample_dive_codes import DIVES
from sample_other_ways import OTHER_WAYS
from sample_own_rules import TOLD
from sample_search_codes import SEARCHES

HOUSE = load_house({})
MORE, LESS = 1.000001, 0.999999
US = legal_limits("US", "commercial")
GB = legal_limits("GB", "private")

TEAM = (
    Member("Ada", "supervisor"),
    Member("Ines", "bag tender", in_water=True, may=("bag tender",), cylinder="B1", cylinder_use="breathing"),
    Member("Tomas", "load tender", in_water=True, cylinder="B2", cylinder_use="breathing"),
    Member("Kaya", "standby diver", ready_in=HOUSE["standby_ready"]),
)
GOOD = Facts(
    purpose="recovery",
    rules="private",
    country="GB",
    answers=Answers(
        **dict.fromkeys(
            ("ordnance", "remains_or_evidence", "protected", "fuel", "electrics", "snags", "traffic"), "no"
        ),
        **dict.fromkeys(("owner", "site", "insurer"), "agreed"),
        **dict.fromkeys(("call", "position", "help", "recall"), "words"),
        comms="line",
        limit_visibility=1.0,
        limit_stream=0.2,
        limit_wind=8.0,
        lift_points="bracket, sound",
    ),
    site=SiteFacts(depth=16.0, temperature=288.15, visibility=3.0, bottom="gravel", stream_told=True),
    load=LoadFacts(wet_low=34.0, wet_likely=37.0, wet_high=40.0, estimates=2, agree=True),
    lift=LiftFacts(method="accompanied", required_low=36.0, reference="shot line", rig_checked=True),
    gas=GasFacts(cylinder="L7", use="lifting"),
    surface=SurfaceFacts(line="HAUL"),
    dives=(Dive("lift", TEAM, "dive 1 (lift)", stream=0.0),),
    intervals_age=0.0,
)


def having(part: str = "", /, facts: Facts = GOOD, **fields: Any) -> Facts:
    """Good facts with some fields changed, of one part or of the whole."""
    return replace(facts, **({part: replace(getattr(facts, part), **fields)} if part else fields))


def team(*members: Member, **fields: Any) -> Facts:
    """Good facts with another team, or another fact about the dive."""
    return having(dives=(replace(GOOD.dives[0], team=members or TEAM, **fields),))


def without(role: str, *extra: Member) -> Facts:
    """Good facts with one role left out and others added."""
    return team(*(member for member in TEAM if member.role != role), *extra)


def alone_up(**fields: Any) -> Facts:
    """A load that goes up alone, with all that belongs to it."""
    right: dict[str, Any] = {"restraint": True, "restraint_released_by": "bag tender", "crown_line_to": "load"}
    return having("lift", **(right | {"method": "unaccompanied"} | fields))


def rig(kind: str, load: float = 1.0, limit: float | None = 1.0, **fields: Any) -> Facts:
    """Good facts with one thing that the load hangs on."""
    return having(rigging=(RigItem("X1", kind, load, limit, **fields),))


def kit(time_left: float | None, used: bool = True, quarantined: bool = False) -> Facts:
    """Good facts with one thing that has a date."""
    return having(kit=(KitItem("X1", "sling", used, time_left, quarantined),))


def bag(**fields: Any) -> Facts:
    """Good facts with one bag."""
    return having(bags=(replace(BagFacts("C25", "closed", "full", relief=10e3), **fields),))


def two_bags(second: str) -> Facts:
    """Good facts with a full bag and another one."""
    return having(bags=(BagFacts("A", "open", "full"), BagFacts("B", "open", second)))


def on_edge(kind: str, key: str, field: str, up: bool, **fields: Any) -> tuple[Facts, Facts]:
    """Facts just past a house limit and facts exactly at it."""
    limit = HOUSE[key]
    past = limit * (MORE if up else LESS)
    inside = having(kind, **fields)
    changes: list[dict[str, Any]] = [{field: past}, {field: limit}]
    return having(kind, inside, **changes[0]), having(kind, inside, **changes[1])


def overriding(*overrides: Override, facts: Facts = GOOD) -> tuple[Facts, tuple[Override, ...]]:
    """Facts with overrides."""
    return facts, overrides


LOST_LINE = having("lift", reference="")
SIGNED = {"by": "Ada", "reason": "dug free, two looked", "at": "2027-04-14T09:00:00+01:00"}
COMMERCIAL = having(country="US", rules="commercial")
TIDAL = having("site", tidal=True)

TABLE: dict[str, tuple[Any, Any]] = {
    # answers
    "ordnance_told": (having("answers", ordnance="maybe a shell"), having("answers", ordnance="no")),
    "remains_or_evidence_told": (having("answers", remains_or_evidence="yes"), GOOD),
    "protected_told": (having("answers", protected="a listed wreck"), having("answers", protected="none; asked")),
    "permission_refused": (having("answers", site="no"), having("answers", site="no objection, by mail")),
    "snag_held": (having("answers", snags="a net"), having("lift", having("answers", snags="a net"), restraint=True)),
    "fuel_without_plan": (having("answers", fuel="yes"), having("answers", fuel="yes, 2 l in a closed tank")),
    "hazard_unanswered": (having("answers", traffic="unknown"), having("answers", traffic="none")),
    "permission_unanswered": (having("answers", insurer="unknown"), having("answers", insurer="confirmed")),
    "emergency_unanswered": (having("answers", help=""), having("answers", help="ambulance 12 min")),
    "comms_unanswered": (having("answers", comms=""), having("answers", comms="none")),
    "limits_unanswered": (having("answers", limit_wind=None), having("answers", limit_wind=0.0)),
    "standby_unanswered": (having(dives=()), GOOD),
    "snag_told": (having("lift", having("answers", snags="a net"), restraint=True), having("answers", snags="none")),
    "fuel_told": (having("answers", fuel="2 l in a tank"), having("answers", fuel="none, tank is ashore")),
    "electrics_told": (having("answers", electrics="a battery"), having("answers", electrics="no")),
    "traffic_told": (having("answers", traffic="ferries"), having("answers", traffic="none; swimmers kept off")),
    "insurer_not_confirmed": (having("answers", insurer="no"), having("answers", insurer="confirmed")),
    "no_comms": (having("answers", comms="none"), having("answers", comms="voice")),
    # gas
    "breathing_gas_for_bag": (
        team(*TEAM[:2], replace(TEAM[2], cylinder="L7"), TEAM[3]),
        team(*TEAM[:2], replace(TEAM[2], cylinder="L8"), TEAM[3]),
    ),
    "no_lift_cylinder": (having("gas", cylinder=""), having("gas", cylinder="L7")),
    "gas_short_one_fill": (having("gas", usable=0.2, needed=0.2 * MORE), having("gas", usable=0.2, needed=0.2)),
    "gas_short_tries": (having("gas", usable=0.4, needed_all=0.4 * MORE), having("gas", usable=0.4, needed_all=0.4)),
    "cylinder_below_useful": (
        having("gas", pressure=20e5 * LESS, pressure_needed=20e5),
        having("gas", pressure=20e5, pressure_needed=20e5),
    ),
    "freeze_open": (
        having("site", having("gas", flow=HOUSE["fast_fill"] * MORE), temperature=277.0),
        having("site", having("gas", flow=HOUSE["fast_fill"]), temperature=277.0),
    ),
    # bags
    "closed_no_relief": (bag(relief=None), bag(relief=10e3)),
    "bag_lifts_alone": (bag(lift_high=36.0 * MORE), bag(lift_high=36.0)),
    "bag_part_full": (
        bag(fill="part", fill_share=HOUSE["fill_least"] * LESS),
        bag(fill="part", fill_share=HOUSE["fill_least"]),
    ),
    "much_can_grow": on_edge("lift", "growing_share", "growing_share", up=True),
    "several_bags": (two_bags("part"), two_bags("empty")),
    "bag_unmeasured": (bag(measured=False), bag(measured=True)),
    "no_set_passes": (having("lift", choice_failed=True, choice_why="too light"), having("lift", choice_failed=False)),
    # lift
    "method_not_possible": (
        having("lift", method_possible=False, method_why="No line reaches."),
        having("lift", method_possible=True),
    ),
    "carry_heavy": (
        having("lift", having("load", wet_high=HOUSE["carry_limit"] * MORE), method="carried"),
        having("lift", having("load", wet_high=HOUSE["carry_limit"]), method="carried"),
    ),
    "haul_over_limit": (
        having("lift", method="hauled", haul_needed=300.0 * MORE, haul_limit=300.0),
        having("lift", method="hauled", haul_needed=300.0, haul_limit=300.0),
    ),
    "chance_missed": (
        having("lift", chance_floats=HOUSE["float_chance"] - 0.0201, chance_error=0.01),
        having("lift", chance_floats=HOUSE["float_chance"] - 0.0199, chance_error=0.01),
    ),
    "chance_on_edge": (
        having("lift", chance_floats=HOUSE["float_chance"] + 0.0199, chance_error=0.01),
        having("lift", chance_floats=HOUSE["float_chance"] + 0.0201, chance_error=0.01),
    ),
    "surplus_over_limit": on_edge("lift", "surplus_limit", "surplus_high", up=True),
    "delay_budget_short": on_edge("lift", "reaction", "delay_budget", up=False),
    "runaway_fast": on_edge("lift", "runaway_speed", "runaway_speed", up=True),
    "rate_over_ceiling": on_edge("lift", "ceiling", "rate_ceiling", up=True),
    "no_rate_reference_poor": (
        having("site", LOST_LINE, visibility=HOUSE["poor_visibility"] * LESS),
        having("site", LOST_LINE, visibility=HOUSE["poor_visibility"]),
    ),
    "no_rate_reference": (LOST_LINE, GOOD),
    "stop_beside_load": (
        having("lift", leave_load_at=5.0, stop_depth=5.0),
        having("lift", leave_load_at=5.0 * MORE, stop_depth=5.0),
    ),
    "no_restraint": (alone_up(restraint=None), alone_up()),
    "no_release_plan": (alone_up(restraint_released_by=""), alone_up()),
    "anchor_light": (alone_up(anchor=70.0 * LESS, anchor_needed=70.0), alone_up(anchor=70.0, anchor_needed=70.0)),
    "no_crown_line": (alone_up(crown_line_to="anchor"), alone_up()),
    "keep_clear": (having("lift", keep_clear=4.2), having("lift", keep_clear=0.0)),
    "rig_not_checked": (having("lift", rig_checked=False), GOOD),
    "lift_points_unproven": (having("answers", lift_points=""), having("answers", lift_points="an eye, sound")),
    "lift_points_unknown": (having("answers", alone_up(), lift_points="unknown"), alone_up()),
    # load
    "estimates_disagree": (having("load", agree=False, disagreement=9.0), GOOD),
    "single_estimate": (having("load", estimates=1), having("load", estimates=2)),
    "weight_wide": (
        having("load", wet_low=30.0, wet_high=30.0 * HOUSE["high_over_low"] * MORE),
        having("load", wet_low=30.0, wet_high=30.0 * HOUSE["high_over_low"]),
    ),
    "half_flooded": (
        having("load", cavities=(CavityFacts("hull", 0.0, HOUSE["half_flooded_from"] * MORE, 3.0),)),
        having("load", cavities=(CavityFacts("hull", HOUSE["half_flooded_to"], 1.0, 3.0),)),
    ),
    "soft_bottom": (having("site", bottom="mud", bottom_soft=True), having("site", bottom="rock", bottom_soft=False)),
    "buried_deep": on_edge("load", "buried_share", "buried_share", up=True),
    "long_buried": (
        having("site", having("load", time_down=HOUSE["buried_days"] * MORE), bottom_soft=True),
        having("site", having("load", time_down=HOUSE["buried_days"]), bottom_soft=True),
    ),
    "lesson_weight": (having(lesson=Lesson(8.0, 37.0 * LESS)), having(lesson=Lesson(8.0, 37.0))),
    "lesson_weight_edge": (having(lesson=Lesson(8.0, 40.0 * LESS)), having(lesson=Lesson(8.0, 40.0))),
    "lesson_light": (having(lesson=Lesson(40.0 * MORE)), having(lesson=Lesson(40.0))),
    "lesson_depth": (having(lesson=Lesson(deepest=16.0 * LESS)), having(lesson=Lesson(deepest=16.0))),
    "sums_ashore": (having(lesson=Lesson(sums_ashore=True)), having(lesson=Lesson(sums_ashore=False))),
    "input_missing": (having(lacking=(("site.depth", "Pressure follows from it."),)), GOOD),
    "assumed_defaults": (having(assumed=("bottom: mud",)), GOOD),
    "spread_cut": (having(cut=("object.part.block.mass",)), GOOD),
    # rigging and surface
    "over_limit_attachment": (rig("attachment", MORE), rig("attachment")),
    "over_limit_connector": (rig("connector", MORE), rig("connector")),
    "over_limit_sling": (rig("sling", MORE), rig("sling")),
    "over_limit_line": (rig("line", MORE), rig("line")),
    "over_limit_lift_point": (rig("lift point", MORE), rig("lift point")),
    "connector_unlocked": (rig("connector", locking=False), rig("connector", locking=True)),
    "connector_unmarked": (rig("connector", limit=None), rig("connector")),
    "strength_unmarked": (rig("sling", limit=None), rig("lift point", limit=None)),
    "flat_sling_refused": (
        rig("sling", angle=HOUSE["sling_angle_least"] * LESS),
        rig("sling", angle=HOUSE["sling_angle_least"]),
    ),
    "flat_sling": (rig("sling", angle=HOUSE["sling_angle"] * LESS), rig("sling", angle=HOUSE["sling_angle"])),
    "shared_attachment": (rig("sling", shares_with="crown line"), rig("sling")),
    "reserve_short": on_edge("surface", "reserve", "reserve", up=False),
    "leaving_over_limit": (
        having("surface", leaving_likely=150.0 * MORE, leaving_limit=150.0),
        having("surface", leaving_likely=150.0, leaving_limit=150.0),
    ),
    "leaving_near_limit": (
        having("surface", leaving_likely=90.0, leaving_high=150.0 * MORE, leaving_limit=150.0),
        having("surface", leaving_likely=90.0, leaving_high=150.0, leaving_limit=150.0),
    ),
    "tow_grounds": (
        having("surface", hang=3.5, shallowest=(3.5 + HOUSE["tow_margin"]) * LESS),
        having("surface", hang=3.5, shallowest=3.5 + HOUSE["tow_margin"]),
    ),
    "line_short": (
        having("surface", depth_highest=20.0, line_length=20.0 * (1 + HOUSE["line_allowance"]) * LESS),
        having("surface", depth_highest=20.0, line_length=20.0 * (1 + HOUSE["line_allowance"])),
    ),
    "no_surface_line": (having("surface", line=""), having("lift", having("surface", line=""), method="carried")),
    # team
    "no_standby": (without("standby diver"), GOOD),
    "standby_busy": (team(*TEAM, Member("Kaya", "tender")), team(*TEAM, Member("Lio", "tender"))),
    "standby_slow": (
        without("standby diver", Member("Kaya", "standby diver", ready_in=HOUSE["standby_ready"] * MORE)),
        GOOD,
    ),
    "no_supervisor": (without("supervisor"), GOOD),
    "supervisor_in_water": (team(*TEAM, Member("Ada", "rigger", True)), team(*TEAM, Member("Ada", "tender"))),
    "no_instructor": (
        team(*TEAM, Member("Trainee A", "rigger", True, trainee=True), Member("Sefa", "instructor", False)),
        team(*TEAM, Member("Trainee A", "rigger", True, trainee=True), Member("Sefa", "instructor", True)),
    ),
    "no_bag_tender": (without("bag tender"), GOOD),
    "roles_exclude": (
        team(*TEAM, Member("Lio", "boat", excludes=("tender",)), Member("Lio", "tender")),
        team(*TEAM, Member("Lio", "boat"), Member("Lio", "tender")),
    ),
    "two_roles": (team(*TEAM, Member("Lio", "boat"), Member("Lio", "tender")), team(*TEAM, Member("Lio", "boat"))),
    "not_allowed": (team(*TEAM, Member("Lio", "boat", may=("tender",))), team(*TEAM, Member("Lio", "boat", may=None))),
    "alone_in_water": (
        having("answers", without("load tender"), comms="none"),
        having("answers", without("load tender"), comms="line"),
    ),
    # site and clock
    "visibility_under_limit": (having("site", visibility=LESS), having("site", visibility=1.0)),
    "touch_visibility": on_edge("site", "arms_length", "visibility", up=False),
    "stream_over_limit": (team(stream=0.2 * MORE), team(stream=0.2)),
    "stream_near_limit": (
        team(stream=0.2 * HOUSE["stream_share"] * MORE),
        team(stream=0.2 * HOUSE["stream_share"]),
    ),
    "stream_unknown": (team(stream=None), team(stream=0.0)),
    "stream_not_told": (having("site", stream_told=False), GOOD),
    "outside_tide": (team(in_tide_table=False), team(in_tide_table=True)),
    "cold_hands": on_edge("site", "cold", "temperature", up=False),
    "too_deep_on_air": on_edge("site", "work_depth", "depth", up=True, on_air=True),
    "dark": (having("clock", daylight_left=-1.0), having("clock", daylight_left=0.0)),
    "daylight_short": on_edge("clock", "daylight_margin", "daylight_left", up=False),
    "late_hour": on_edge("clock", "late_hour", "start_hour", up=True),
    # kit
    "past_due": (kit(-1.0), kit(0.0)),
    "past_due_unused": (kit(-1.0, used=False), kit(0.0, used=False)),
    "due_soon": (kit(HOUSE["due_soon"]), kit(HOUSE["due_soon"] * MORE)),
    "no_due_date": (kit(None), kit(None, used=False)),
    "quarantined": (kit(1e9, quarantined=True), kit(1e9, used=False, quarantined=True)),
    "intervals_old": (having(intervals_age=HOUSE["table_age"] * MORE), having(intervals_age=HOUSE["table_age"])),
    "intervals_missing": (having(country="NZ"), having(intervals_age=None)),
    # law and guidance
    "regime_depth": (
        having("site", COMMERCIAL, depth=US["scuba_depth"] * MORE),
        having("site", COMMERCIAL, depth=US["scuba_depth"]),
    ),
    "regime_chamber": (
        having("site", COMMERCIAL, depth=US["scuba_chamber_depth"] * MORE),
        having("site", COMMERCIAL, depth=US["scuba_chamber_depth"]),
    ),
    "regime_stream": (
        having("answers", replace(team(stream=US["scuba_stream"] * MORE), country="US", rules="commercial"), comms=""),
        having("answers", replace(team(stream=US["scuba_stream"]), country="US", rules="commercial"), comms=""),
    ),
    "wreck_report": (TIDAL, having("site", tidal=False)),
    "licence_age": (
        having("clock", TIDAL, since_lost=GB["licence_age"] * MORE),
        having("clock", TIDAL, since_lost=GB["licence_age"]),
    ),
    "licence_lift": (
        having("load", TIDAL, wet_high=GB["licence_lift"] * MORE),
        having("load", TIDAL, wet_high=GB["licence_lift"]),
    ),
    # overrides and house
    "override_refused": (
        overriding(Override("no_standby", **SIGNED), facts=without("standby diver")),
        overriding(Override("rig_not_checked", **SIGNED), facts=having("lift", rig_checked=False)),
    ),
    "override_incomplete": (
        overriding(Override("rig_not_checked", by="Ada"), facts=having("lift", rig_checked=False)),
        overriding(Override("rig_not_checked", **SIGNED), facts=having("lift", rig_checked=False)),
    ),
    **OTHER_WAYS,
    **CONTROL,
    **DIVES,
    **SEARCHES,
    **TOLD,
    "override_unused": (
        overriding(Override("rig_not_checked", **SIGNED)),
        overriding(Override("rig_not_checked", **SIGNED), facts=having("lift", rig_checked=False)),
    ),
}
HOUSE_CODES = {"house_changed"}


def codes(case: Any) -> list[str]:
    """Codes that fire, with the shipped house rules."""
    facts, overrides = case if isinstance(case, tuple) else (case, ())
    return [finding.code for finding in judge(facts, HOUSE, overrides)]


@pytest.mark.parametrize("code", TABLE)
def test_fires(code: str) -> None:
    assert code in codes(TABLE[code][0])


@pytest.mark.parametrize("code", TABLE)
def test_does_not_fire_just_inside(code: str) -> None:
    assert code not in codes(TABLE[code][1])


@pytest.mark.parametrize("code", TABLE)
def test_reads_well(code: str) -> None:
    facts, overrides = TABLE[code][0] if isinstance(TABLE[code][0], tuple) else (TABLE[code][0], ())
    for units in ("metric", "imperial"):
        found = judge(replace(facts, units=units), HOUSE, overrides)
        text, do = next((f.text, f.do) for f in found if f.code == code)
        assert text[0].isupper() or text[0].isdigit()
        assert text[-1] in ".?"
        assert do[-1] == "."
        assert not any(bad in text + do for bad in ("{", "None", "()", " .", " nan", ": .", ".."))


def test_changed_house_rules_are_told() -> None:
    changed = [f.text for f in judge(GOOD, load_house({"surplus_limit": "5 kg"})) if f.code == "house_changed"]
    assert changed == ["House rules that this case changes: surplus_limit = 5 kg."]
    assert "house_changed" not in codes(GOOD)


def test_every_code_has_both() -> None:
    assert set(TABLE) | HOUSE_CODES == set(catalogue())


def test_good_facts_have_no_stop_and_nothing_open() -> None:
    assert [f.code for f in judge(GOOD, HOUSE) if f.level in ("stop", "unanswered")] == []
