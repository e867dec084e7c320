"""Invented ascents for the tests of paper and screen; the numbers belong to no case and are not results."""

from __future__ import annotations

from typing import Any

from sample_document import Document, sample

Band = dict[str, float]


def _band(low: float, likely: float, high: float) -> Band:
    return {"low": low, "likely": likely, "high": high}


def _controlled_fan(depth: float, rate: float) -> list[dict[str, float]]:
    """Depth over time at a steady rate, a quarter sooner and a third later."""
    end = depth / rate * 1.5
    times = [end * number / 24 for number in range(25)]
    return [
        {
            "t_s": t,
            "low": max(depth - rate * 1.25 * t, 0.0),
            "likely": max(depth - rate * t, 0.0),
            "high": max(depth - rate / 1.33 * t, 0.0),
        }
        for t in times
    ]


def _held(share: float, delay: float) -> float:
    """Share of draws held: all below a budget that falls with the share that can grow, none above twice of it."""
    budget = 0.42 / max(share, 0.02)
    return min(max((1.4 * budget - delay) / (0.8 * budget), 0.0), 1.0)


def under_control() -> dict[str, Any]:
    """Give the part of a lift that two divers take up."""
    shares = [number / 20 for number in range(1, 21)]
    delays = [number * 0.25 for number in range(13)]
    return {
        "target_m_min": 6.0,
        "ceiling_m_min": 9.0,
        "policy": "pulls",
        "policy_words": "One short pull of the dump, then watch for about 2 s. Pull again if it is still too fast.",
        "person": "practised",
        "people_words": "Numbers for a practised tender are assumptions: nobody has measured divers at this work.",
        "delay_s": _band(0.6, 1.0, 1.4),
        "n": 1024,
        "chance_within_rate": 0.93,
        "chance_within_rate_error": 0.016,
        "chance_runaway": 0.01,
        "chance_runaway_error": 0.006,
        "chance_sinks_back": 0.04,
        "chance_sinks_back_error": 0.012,
        "chance_floats_at_surface": 0.98,
        "chance_floats_at_surface_error": 0.009,
        "longest_delay_s": 1.5,
        "longest_delay_at_least": False,
        "time_s": _band(128.0, 160.0, 213.0),
        "arrival_speed_m_s": _band(0.07, 0.1, 0.13),
        "max_speed_m_s": _band(0.11, 0.13, 0.17),
        "gas_vented_l": _band(6.1, 8.4, 11.0),
        "gas_added_l": _band(0.0, 0.0, 0.0),
        "dumps": _band(7.0, 12.0, 19.0),
        "let_go_share": 0.03,
        "gas_used_l": _band(0.0, 0.0, 0.0),
        "drivers": [
            {"input": "litres of one pull of C15", "share": 0.44},
            {"input": "reaction of Ines", "share": 0.27},
            {"input": "drag of load and bags", "share": 0.12},
        ],
        "state": "can be held",
        "sentence": "Vent early, in short pulls. One pull is 2 windows. It keeps the rate in about 93 of 100.",
        "policies": [
            {
                "policy": "pulls",
                "words": "One short pull, then watch",
                "chance_within_rate": 0.93,
                "chance_runaway": 0.01,
                "chance_sinks_back": 0.04,
                "best": True,
            },
            {
                "policy": "hold",
                "words": "Hold it open until it is slow",
                "chance_within_rate": 0.21,
                "chance_runaway": 0.05,
                "chance_sinks_back": 0.74,
                "best": False,
            },
            {
                "policy": "crack",
                "words": "Keep it open by a crack",
                "chance_within_rate": 0.55,
                "chance_runaway": 0.3,
                "chance_sinks_back": 0.12,
                "best": False,
            },
        ],
        "changes": [
            {
                "what": "drogue",
                "words": "A drogue of 0.2 m2 on the load",
                "delay_budget_s": 2.1,
                "chance_within_rate": 0.98,
            },
            {
                "what": "smaller trim bag",
                "words": "C10 in the place of C15, as the last one",
                "delay_budget_s": 1.9,
                "chance_within_rate": None,
            },
            {
                "what": "target rate",
                "words": "Aim at 8 m/min in the place of 6",
                "delay_budget_s": 1.7,
                "chance_within_rate": None,
            },
        ],
        "fan": _controlled_fan(16.0, 0.1),
        "events": [
            {
                "what": "leaves the bottom",
                "words": "It leaves the bottom.",
                "t_s": _band(0.0, 0.0, 0.0),
                "depth_m": _band(16.0, 16.0, 16.0),
            },
            {
                "what": "first vent",
                "words": "The first pull.",
                "t_s": _band(9.0, 16.0, 27.0),
                "depth_m": _band(13.6, 14.4, 15.2),
            },
            {"what": "bag full", "words": "C15 is full and bubbles.", "t_s": None, "depth_m": None},
            {
                "what": "load is left",
                "words": "Leave it here.",
                "t_s": _band(80.0, 100.0, 133.0),
                "depth_m": _band(6.0, 6.0, 6.0),
            },
            {
                "what": "surface",
                "words": "The crown is at the surface.",
                "t_s": _band(128.0, 160.0, 213.0),
                "depth_m": _band(0.0, 0.0, 0.0),
            },
        ],
        "expect": [
            {"depth_m": 16.0, "words": "It starts slowly. Watch, do not vent yet."},
            {"depth_m": 12.0, "words": "The first short pulls, far apart: one each 15 s or so."},
            {"depth_m": 9.0, "words": "It grows faster now. Keep one hand on the dump."},
            {"depth_m": 6.0, "words": "Leave the load here. It goes on alone, with its line to the surface."},
            {"depth_m": 3.0, "words": "The gas grows half as fast again as at 9 m. Nobody is here."},
        ],
        "who": [
            {"name": "Ines", "role": "bag tender", "does": "Holds the dump line of C15 and does nothing else."},
            {"name": "Tomas", "role": "load tender", "does": "Reads the rate from the shot line. Says stop."},
        ],
        "left_at_m": 6.0,
        "let_go_if": [
            "It rises faster than 9 m/min.",
            "Two pulls have no answer.",
            "A line goes round anyone.",
            "Anyone is carried along.",
        ],
        "runaway_card": [
            "Let go. Never chase.",
            "Move aside, up-stream. Look up.",
            "Stay deeper than you think: it may fall back.",
            "Count people. Then come up slowly.",
        ],
        "map": {
            "share": shares,
            "delay_s": delays,
            "held": [[_held(share, delay) for delay in delays] for share in shares],
            "here": {"share": 0.31, "delay_s": _band(0.6, 1.0, 1.4)},
        },
    }


def tended(state: str = "can be held") -> Document:
    """Give a whole document with its ascent under control."""
    document = sample()
    ascent = document["ascent"]
    ascent["under_control"] = under_control() | {"state": state}
    ascent["words"]["state"] = state
    ascent |= {
        "pull_measured": True,
        "pull_l_band": _band(0.15, 0.3, 0.45),
        "pull_l": 0.3,
        "runaway_bound_m_min": 30.5,
        "vent_l_s": [
            {"depth_m": 15.0, "needed": 0.048, "can": _band(0.31, 0.6, 1.0)},
            {"depth_m": 12.0, "needed": 0.055, "can": _band(0.31, 0.61, 1.0)},
            {"depth_m": 9.0, "needed": 0.064, "can": _band(0.32, 0.62, 1.0)},
            {"depth_m": 6.0, "needed": 0.076, "can": _band(0.32, 0.62, 1.0)},
            {"depth_m": 3.0, "needed": 0.093, "can": _band(0.32, 0.63, 1.1)},
        ],
        "closed": [
            {
                "bag": "C25",
                "relief_bar": 0.14,
                "most_bar": _band(0.14, 0.16, 0.2),
                "bore_known": False,
                "words": "C25: its relief opens at 0.14 bar. Its bore is not known.",
            }
        ],
    }
    return document


def not_held() -> Document:
    """Give a document of a lift that nobody can hold: long texts, no longest delay, few draws come up in order."""
    document = tended("cannot be held")
    told = document["ascent"]["under_control"]
    told |= {
        "sentence": "It grows faster than 1.0 s of reaction can follow. Fill one bag to the brim, the smallest last.",
        "chance_within_rate": 0.0,
        "chance_runaway": 0.81,
        "longest_delay_s": None,
        "delay_s": _band(0.8, 1.6, 2.7),
        "chance_floats_at_surface": None,
    }
    told["map"]["here"] = {"share": 0.95, "delay_s": _band(0.8, 1.6, 2.7)}
    for row in document["ascent"]["vent_l_s"]:
        row["can"] = _band(0.02, row["needed"] * 0.9, row["needed"] * 1.4)
    return document


def in_feet() -> Document:
    """Give the tended document with imperial units chosen."""
    document = tended()
    document["case"]["units"] = "imperial"
    return document


def on_a_line() -> Document:
    """Give the document of a load kept heavy under a bag and hauled."""
    document = sample()
    document["lift"]["method"] = "bag and line"
    document["ascent"]["bag_and_line"] = {
        "heavy_kg": _band(1.5, 3.0, 4.5),
        "line_kg": _band(2.1, 3.4, 5.6),
        "line_limit_kg": 80.0,
        "people": 2,
        "davit": False,
        "words": ["Two people haul, hand over hand.", "Stop hauling when the line goes slack, and vent."],
        "if_line_parts": "It sinks back at 12 m/min.",
        "bags_grow": "The part-filled bag takes over the load at 5 m. Vent it there.",
    }
    return document


def alone() -> Document:
    """Give the document of a load that goes up alone, in its phases."""
    document = sample()
    document["lift"]["method"] = "unaccompanied"
    document["ascent"]["words"] = {"state": "goes alone", "sentence": "Nobody is beside it."}
    document["ascent"]["phases"] = [
        {
            "n": 1,
            "name": "break-out against the restraint",
            "words": ["It comes free and pulls on R1.", "The anchor must hold the high end."],
            "tension_n": _band(180.0, 420.0, 900.0),
            "anchor_n": 980.0,
            "rise_m": _band(0.2, 0.5, 0.9),
            "who": "Ines",
        },
        {
            "n": 2,
            "name": "slack and release",
            "words": ["Vent to neutral, slack the line, then release it. Never cut it under load."],
            "tension_n": None,
            "anchor_n": None,
            "rise_m": None,
            "who": "Tomas, from the shot line",
        },
        {
            "n": 3,
            "name": "up with the crown line",
            "words": ["Everybody is aside. The crown line runs to the load."],
            "tension_n": None,
            "anchor_n": None,
            "rise_m": None,
            "who": None,
        },
    ]
    return document


def put_down() -> Document:
    """Give the document of a block that is put down on a line with a bag."""
    document = sample()
    document["ascent"] = {
        "lowering": {
            "way": "bag and line",
            "load_kg": _band(70.0, 78.0, 86.0),
            "hold_back_n": _band(60.0, 110.0, 190.0),
            "speed_m_min": 6.0,
            "gas_to_add_l": _band(40.0, 52.0, 66.0),
            "by_depth": [
                {"depth_m": 0.0, "gas_l": 0.0, "tension_n": 110.0},
                {"depth_m": 4.0, "gas_l": 14.0, "tension_n": 108.0},
                {"depth_m": 8.0, "gas_l": 28.0, "tension_n": 106.0},
            ],
            "people": 2,
            "if_let_go": {
                "speed_m_s": _band(1.1, 1.5, 2.0),
                "time_s": _band(4.0, 5.3, 7.2),
                "words": "It falls and does not stop. Keep 5 m clear.",
            },
            "words": ["Pay out hand under hand, with one turn round the bollard."],
        }
    }
    return document


def ascents() -> dict[str, Document]:
    """Give every sample of an ascent by name."""
    return {
        "tended": tended(),
        "edge": tended("on the edge"),
        "not_held": not_held(),
        "feet": in_feet(),
        "line": on_a_line(),
        "alone": alone(),
        "down": put_down(),
    }
