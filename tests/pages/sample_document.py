"""Invented plan documents for the tests of paper and screen; the numbers belong to no case and are not results."""

from __future__ import annotations

import copy
from typing import Any

Document = dict[str, Any]


def _band(low: float, likely: float, high: float, of: float | None = None) -> dict[str, float]:
    band = {"low": low, "likely": likely, "high": high}
    return band if of is None else {**band, "of": of}


def _step(n: int, text: str, who: str, check: str | None = None, stop_point: bool = False) -> Document:
    return {"n": n, "text": text, "who": who, "check": check, "stop_point": stop_point}


def _steps() -> list[Document]:
    rows = [
        ("Go down the shot line to the load.", "Ines, Tomas", None, False),
        ("Look at the load. Say if it is not as planned.", "Tomas", "Ines", True),
        ("Look for snags: chain, net, cable.", "Ines", "Tomas", False),
        ("Fit the sling W1 round the bracket, choked.", "Tomas", None, False),
        ("Check the sling and the locked carabiner K1.", "Ines", "Tomas", False),
        ("Fit C25 and C15 close to the load. Tie C10 up, empty.", "Tomas", None, False),
        ("Check that both dump lines run free.", "Ines", "Tomas", False),
        ("Tie HAUL to the load, not to a bag.", "Tomas", "Ines", False),
        ("Clear below: nobody lower than the load.", "Ines", "Tomas", True),
        ("Fill C25 to the brim. Count the seconds.", "Ines", "Tomas", False),
        ("Wait one minute. Edge the load.", "Tomas", None, False),
        ("Fill C15 to its mark, in short pulls.", "Ines", "Tomas", False),
        ("No movement at the mark: stop filling, come up, think.", "Ines", None, True),
        ("Hose off. Close the valve of L7.", "Ines", "Tomas", False),
        ("Hold the load one hand's breadth off the bottom.", "Ines", None, True),
        ("Go up beside the load, level with the bag, venting.", "Ines, Tomas", None, False),
        ("At 6 m leave the load to its line. Go aside.", "Ines, Tomas", None, False),
        ("Make the stop at 5 m for 3 min, well aside.", "Ines, Tomas", None, False),
        ("Fill C10 at the surface from the boat.", "Lio", "Ada", False),
        ("Count heads. Then haul alongside.", "Lio", "Ada", False),
    ]
    return [_step(n, *row) for n, row in enumerate(rows, start=1)]


def _finding(level: str, code: str, text: str, **more: Any) -> Document:
    base = {"value": None, "limit": None, "source": "common practice", "override": "never", "do": "", "lifted": None}
    return {"level": level, "code": code, "text": text, **base, **more}


_MESSAGES = (
    "OK",
    "Not OK",
    "Stop",
    "Hold",
    "Slack",
    "Take up",
    "Come up",
    "Found it",
    "Ready to fill",
    "Add a little",
    "Stop gas",
    "Vent",
    "Moving",
    "Broken out",
    "Letting it go",
    "Clear below",
    "Load up",
    "Recall",
    "Emergency",
)


def _lift() -> Document:
    return {
        "methods": [
            {
                "method": "carried",
                "possible": False,
                "why": "It weighs more than the house limit of 5 kg.",
                "people_in_water": 2,
                "surplus_kg": None,
                "minutes": None,
                "what_can_go_wrong": "",
            },
            {
                "method": "hauled",
                "possible": False,
                "why": "The davit lifts it, but no one can guide it past the pontoon.",
                "people_in_water": 2,
                "surplus_kg": 0.0,
                "minutes": 14.0,
                "what_can_go_wrong": "Line catches under the pontoon.",
            },
            {
                "method": "accompanied",
                "possible": True,
                "why": "Two divers can stop what is left over.",
                "people_in_water": 2,
                "surplus_kg": 2.0,
                "minutes": 22.0,
                "what_can_go_wrong": "Late venting in the last metres.",
            },
        ],
        "method": "accompanied",
        "method_why": "Two divers can stop what is left over at release. They have time to answer.",
        "method_given": True,
        "required_kg": _band(34.6, 37.5, 40.6),
        "ceiling_kg": 40.0,
        "ceiling_from": "what two divers can stop, 8 kg over the light end",
        "bags": [
            {
                "id": "C25",
                "style": "closed",
                "fill": "full",
                "marked_l": 25.0,
                "really_l": _band(25.6, 26.1, 26.6),
                "height_m": 0.75,
                "fill_share": 1.0,
            },
            {
                "id": "C15",
                "style": "closed",
                "fill": "part",
                "marked_l": 15.0,
                "really_l": _band(15.0, 15.4, 15.8),
                "height_m": 0.60,
                "fill_share": 0.78,
            },
            {
                "id": "C10",
                "style": "closed",
                "fill": "empty",
                "marked_l": 10.0,
                "really_l": _band(9.9, 10.2, 10.5),
                "height_m": 0.50,
                "fill_share": 0.0,
            },
        ],
        "bag_volume_l": _band(34.7, 37.6, 40.7),
        "free_gas_l": _band(198.0, 215.0, 232.0),
        "filling": [
            {
                "bag": "C25",
                "litres": 26.1,
                "seconds": 38.0,
                "gauge_bar": _band(180.0, 188.0, 194.0),
                "mark_l": 25.0,
                "kind": "full",
            },
            {
                "bag": "C15",
                "litres": 12.0,
                "seconds": 18.0,
                "gauge_bar": _band(173.0, 182.0, 189.0),
                "mark_l": 12.0,
                "kind": "part",
            },
        ],
        "cylinder": {
            "id": "L7",
            "goes": "stays on the bottom",
            "use": "lifting",
            "usable_l": 1240.0,
            "pressure_bar": 200.0,
            "pressure_after_bar": _band(156.0, 164.0, 172.0),
            "enough_for_tries": 2,
            "gas": "air",
        },
        "chance_floats_once_free": 0.97,
        "chance_floats_words": "about 97 in 100",
        "surplus_at_release_kg": _band(0.2, 2.0, 4.1, 0.93),
        "catches": "Two divers and the dump; venting starts when it moves.",
        "alternatives": [
            {
                "bags": ["C25", "C15", "C10"],
                "why_not": "one more bag to rig",
                "sentence": "C10 filled as well: 5 % of the lift can grow, for one more bag to rig.",
            },
            {
                "bags": ["P50"],
                "why_not": "lifts the light end alone while it is just being filled",
                "sentence": "P50 alone: it lifts the light end alone. It needs a restraint.",
            },
        ],
        "rigging": [
            {
                "item": "carabiner K1",
                "load_n": 407.0,
                "limit_n": 4800.0,
                "factor": 5.0,
                "source": "marked strength 24 kN",
            },
            {
                "item": "sling W1, choked",
                "load_n": 407.0,
                "limit_n": 7845.0,
                "factor": 0.8,
                "source": "marked limit 1000 kg",
            },
            {
                "item": "ring of C25",
                "load_n": 256.0,
                "limit_n": 1177.0,
                "factor": 1.0,
                "source": "maker's limit 120 kg",
            },
        ],
        "reserve": {"wanted_share": 0.2, "reached_share": _band(0.29, 0.37, 0.47), "with": ["C10"]},
    }


def _ascent() -> Document:
    fan = [
        {"t_s": t, "low": low, "likely": likely, "high": high}
        for t, low, likely, high in (
            (0.0, 16.0, 16.0, 16.0),
            (5.0, 15.2, 15.6, 15.9),
            (10.0, 12.1, 14.2, 15.4),
            (15.0, 7.0, 11.0, 14.0),
            (20.0, 1.2, 6.6, 11.5),
            (22.0, 0.0, 4.7, 10.2),
            (26.0, 0.0, 0.6, 7.2),
            (27.0, 0.0, 0.0, 6.4),
            (34.0, 0.0, 0.0, 0.0),
        )
    ]
    return {
        "left_alone": {"time_s": _band(21.5, 26.6, 33.5), "arrival_speed_m_s": _band(0.9, 1.2, 1.5)},
        "growing_share": 0.31,
        "doubling_time_s": 3.4,
        "point_of_no_return_m": 1.9,
        "neutral_window_l": 0.24,
        "neutral_window_share": 0.006,
        "vent_l_s": [
            {"depth_m": 16.0, "needed": 0.06},
            {"depth_m": 6.0, "needed": 0.10},
            {"depth_m": 1.0, "needed": 0.17},
        ],
        "pull_l": _band(0.2, 0.32, 0.45),
        "delay_budget_s": 1.3,
        "full_at_m": 9.2,
        "fall": {"speed_m_s": _band(1.1, 1.5, 2.0), "time_s": _band(8.0, 10.7, 14.5), "keep_clear_m": 5.0},
        "surfaces_within_m": 7.0,
        "words": {"state": "can be held", "sentence": "Two divers have time to answer, if one of them vents at once."},
        "rate": {"target_m_min": 6.0, "ceiling_m_min": 9.0},
        "trace": {
            "t_s": [row["t_s"] for row in fan],
            "depth_m": [row["likely"] for row in fan],
            "speed_m_s": [0.0, 0.1, 0.4, 0.7, 0.9, 1.0, 1.1, 1.2, 0.0],
        },
        "fan": fan,
    }


def _people() -> list[Document]:
    return [
        {
            "name": "Ines",
            "role": "bag tender",
            "in_water": True,
            "cylinder": "B15-1",
            "gas": "air",
            "place": "level with the bag, up-stream, at arm's length",
        },
        {
            "name": "Tomas",
            "role": "load tender",
            "in_water": True,
            "cylinder": "B15-2",
            "gas": "air",
            "place": "level with the load, to one side, never below",
        },
        {
            "name": "Kaya",
            "role": "standby diver",
            "in_water": False,
            "cylinder": "B15-3",
            "gas": "air",
            "place": "dressed, at the water's edge, ready in 2 min",
        },
        {"name": "Lio", "role": "tender", "in_water": False, "cylinder": None, "gas": None, "place": "at the lines"},
        {
            "name": "Ada",
            "role": "supervisor",
            "in_water": False,
            "cylinder": None,
            "gas": None,
            "place": "with a view of all",
        },
    ]


def sample() -> Document:
    """Give a complete document of an accompanied lift without a stop."""
    return {
        "schema": 1,
        "program": {"name": "parbuckle", "version": "0.1.0"},
        "case": {
            "title": "Outboard off the pump-house pontoon",
            "purpose": "recovery",
            "rules": "private",
            "units": "metric",
            "supervisor": "Ada",
            "file": "quarry-outboard.toml",
            "digest": "3fa9c2d41b07",
        },
        "draws": {"n": 1024, "seed": 1},
        "site": {
            "name": "Harrow Quarry",
            "water": "fresh",
            "water_density_kg_m3": 999.85,
            "surface_pressure_pa": 97656.0,
            "bottom_pressure_pa": 254500.0,
            "depth_m": _band(16.0, 16.0, 16.0),
            "depth_how": "sounded",
            "bottom": "soft mud",
            "visibility_m": 2.5,
            "temperature_c": 8.0,
            "stream_m_s": None,
            "altitude_m": 310.0,
            "datum": {"lat": 52.4821, "lon": -3.7154},
            "daylight_until": "2027-04-14T19:40:00+01:00",
        },
        "load": {
            "name": "Four-stroke outboard, about 20 hp",
            "dry_mass_kg": _band(55.3, 59.0, 62.7),
            "displaced_l": _band(20.1, 22.0, 24.0),
            "wet_weight_kg": _band(34.0, 37.0, 40.0),
            "breakout_kg": _band(0.0, 9.0, 30.0),
            "leaving_water_kg": _band(61.0, 66.0, 72.0),
            "basis": "by parts: maker's plate, told",
            "estimates": [{"by": "parts", "how": "maker's plate, told", "wet_weight_kg": _band(34.0, 37.0, 40.0)}],
            "agree": True,
            "drivers": [
                {"input": "mass of block, leg and bracket", "share": 0.66},
                {"input": "mass of shafts, flywheel and fastenings", "share": 0.2},
                {"input": "together", "share": 0.02},
            ],
            "breakout_why": "Soft mud: may hold 0 to 30 kg more; not predictable.",
            "breakout_tries": ["Edge it.", "Dig one side free.", "Rock it.", "Wait."],
            "lift_points": "bracket, sound, felt by two",
            "lies": "on its side",
            "envelope_l": _band(29.0, 31.0, 33.0),
        },
        "lift": _lift(),
        "ascent": _ascent(),
        "surface": {
            "then": "hauled alongside and lifted by the davit, limit 150 kg",
            "hang_m": None,
            "grounds": None,
            "tow": None,
            "leaving_water_kg": _band(61.0, 66.0, 72.0),
            "limit_kg": 150.0,
        },
        "people": _people(),
        "clock": {
            "earliest_in": "2027-04-14T10:00:00+01:00",
            "latest_off_bottom": "2027-04-14T10:27:00+01:00",
            "known": ["No stream is told.", "No-stop time is not worked out yet: use your own tables."],
        },
        "emergency": {
            "call": "112, then the owner's gate phone",
            "position": "52 28.926 N 003 42.924 W, quarry gate B",
            "help": "helicopter field 400 m, chamber 95 min by road",
            "recall": "three revs of the outboard, twice",
            "comms": "line",
        },
        "signals": [{"message": m, "means": "agreed by the team: ____"} for m in _MESSAGES],
        "steps": _steps(),
        "abort": [
            "Gas at turn pressure.",
            "Buddy lost.",
            "A line round anyone.",
            "Load tilts, slips or starts before the word.",
            "Stream or visibility past the limit.",
            "A signal is not answered.",
            "Anyone calls stop.",
        ],
        "abort_action": "Stop gas. Move to the side and away. Let it go. Count heads. Then look at the load.",
        "circles": {"bottom_m": 5.0, "surface_m": 7.0, "drift_towards_deg": None},
        "sketch": {
            "depth_m": 16.0,
            "strop_m": 0.9,
            "load": {"length_m": 1.0, "height_m": 0.45},
            "bags": [
                {"id": "C25", "width_m": 0.30, "height_m": 0.75, "fill_share": 1.0},
                {"id": "C15", "width_m": 0.25, "height_m": 0.60, "fill_share": 0.78},
                {"id": "C10", "width_m": 0.22, "height_m": 0.50, "fill_share": 0.0},
            ],
            "people": [
                {"name": "Ines", "side": "up-stream", "x_m": -1.4, "depth_m": 14.2},
                {"name": "Tomas", "side": "level", "x_m": 1.7, "depth_m": 15.2},
            ],
            "bottom_circle_m": 5.0,
            "surface_circle_m": 7.0,
            "sling_angle_deg": None,
            "line_to_surface": "HAUL",
            "restraint": None,
        },
        "sums": [
            {
                "name": "Water density",
                "formula": "rho(S, T, p)",
                "numbers": "S = 0 g/kg, T = 8 °C",
                "result": "999.9 kg/m³",
                "source": "TEOS-10",
            },
            {
                "name": "Wet weight",
                "formula": "W = m − ρ V",
                "numbers": "59.0 kg − 0.9999 kg/l × 22.0 l",
                "result": "37 kg (34 to 40)",
                "source": "by parts",
            },
            {
                "name": "Free gas, one try",
                "formula": "V p(interface) / p(surface)",
                "numbers": "38.1 l × 2.40",
                "result": "91 l",
                "source": "Boyle",
            },
            {
                "name": "Delay budget",
                "formula": "½ CdA w p / (ρ g² Vexp)",
                "numbers": "w = 0.10 m/s, Vexp = 12 l",
                "result": "1.3 s",
                "source": "closed form",
            },
        ],
        "sources": [
            "Material densities: data/materials.toml.",
            "Break-out in mud: recalled, tests on a ten-ton scale.",
        ],
        "find_out_first": [
            {"key": "object.part.mass", "why": "It is two thirds of the spread of the weight.", "share": 0.66},
            {"key": "site.stream", "why": "No stream was told.", "share": None},
        ],
        "measure_again": "Weigh the block again: it is two thirds of the spread.",
        "findings": [
            _finding(
                "caution",
                "one_estimate",
                "Only one way of estimating the weight was used.",
                do="Estimate it a second way.",
            ),
            _finding(
                "caution",
                "cold_water",
                "The water is below 10 °C.",
                value="8 °C",
                limit="10 °C",
                do="Double the time for knots.",
            ),
            _finding("note", "spread_cut", "A spread was cut at a physical limit."),
        ],
        "unanswered": [],
        "verdict": {"line": "No stop found in what you told me.", "stops": 0, "unanswered": 0, "cautions": 2},
        "slate": [
            {"label": "Load, at most", "value": "40 kg"},
            {"label": "C25", "value": "full, 38 s"},
            {"label": "C15", "value": "to 12 l, 18 s"},
            {"label": "Stop filling at", "value": "40 kg"},
            {"label": "L7 comes up at", "value": "170 bar"},
            {"label": "Rise, at most", "value": "9 m/min"},
            {"label": "Leave load at", "value": "6 m"},
            {"label": "Keep clear", "value": "5 m"},
        ],
        "cautions_footer": [
            "Local rules and the supervisor on site come first.",
            "No lift has been measured against this model.",
        ],
    }


def with_stops() -> Document:
    """Give a document with two stops that hold, one that was lifted, and four unanswered questions."""
    document = sample()
    document["findings"][:0] = [
        _finding(
            "stop",
            "gas_from_breathing_cylinder",
            "The bag would be filled from a cylinder that somebody breathes from.",
            do="Take a cylinder that nobody breathes from.",
        ),
        _finding(
            "stop",
            "restraint_missing",
            "There is no restraint on a load that can be over-lifted.",
            value="12 kg",
            limit="8 kg",
            override="reason",
            do="Fit a restraint, or fill less.",
        ),
        _finding(
            "stop",
            "gas_short",
            "Lift gas is short for the second try.",
            override="reason",
            lifted={"by": "Ada", "reason": "one try only; we come back tomorrow", "at": "2027-04-13T21:40:00+01:00"},
        ),
        _finding("unanswered", "ordnance", "Ordnance was not asked.", do="Ask at the call, and again when found."),
        _finding("unanswered", "emergency_call", "Whom to call is not known.", do="Fill in the emergency part."),
        _finding("unanswered", "owner", "The owner was not asked.", do="Ask the owner."),
    ]
    document["unanswered"] = [{"key": "site.stream", "stage": "ascent", "why": "The stream at the site is not told."}]
    document["verdict"] = {"line": "STOP: 2 stops hold", "stops": 2, "unanswered": 4, "cautions": 2}
    return document


def sparse() -> Document:
    """Give the document of a case of twelve lines: many sections are absent or null."""
    whole = with_stops()
    document = {
        key: whole[key]
        for key in ("schema", "program", "draws", "findings", "unanswered", "verdict", "cautions_footer")
    }
    document["case"] = {"title": "First answer", "purpose": "recovery", "units": "metric", "supervisor": None}
    document["load"] = {
        "name": "mooring block",
        "wet_weight_kg": _band(50.0, 90.0, 140.0),
        "basis": "told",
        "drivers": [],
    }
    document["lift"] = {"method": None, "bags": [], "required_kg": None, "ceiling_kg": None}
    document["ascent"] = None
    document["clock"] = {"earliest_in": None, "latest_off_bottom": None, "known": []}
    return document


def long_names() -> Document:
    """Give a document whose texts are long, and full of signs that a typesetting language could read as orders."""
    document = sample()
    document["case"]["title"] = (
        "Frame #1 *with* $signs$ @home <tag> [x] \\ _under_ `code` // and a very long title that goes on"
    )
    document["load"]["name"] = (
        "A load with a name that is much longer than anybody would write by hand, and then some #more"
    )
    document["people"][0]["name"] = "Maximiliana-Theodora"
    document["sketch"]["people"][0]["name"] = "Maximiliana-Theodora"
    for step in document["steps"]:
        step["text"] += " Say it aloud and wait for the answer."
    document["lift"]["bags"][0]["id"] = "CLOSED-25-HARBOUR"
    document["lift"]["filling"][0]["bag"] = "CLOSED-25-HARBOUR"
    return document


def imperial() -> Document:
    """Give the complete document with imperial units chosen."""
    document = sample()
    document["case"]["units"] = "imperial"
    return document


def training() -> Document:
    """Give the document of an exercise."""
    document = sample()
    document["case"]["purpose"] = "training"
    document["case"]["title"] = "Drum lift, first evening"
    document["lift"]["method_given"] = False
    return document


def variants() -> dict[str, Document]:
    """Give every sample document by name."""
    made = {
        "whole": sample(),
        "stops": with_stops(),
        "sparse": sparse(),
        "long": long_names(),
        "imperial": imperial(),
        "training": training(),
    }
    return copy.deepcopy(made)
