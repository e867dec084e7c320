"""Invented dives for the tests of their pages; the numbers belong to no case and are not results."""

from __future__ import annotations

from typing import Any

from sample_document import Document, sample

CARDS = [
    {"card": "stop missed", "do": "Follow the divers' own table. Oxygen, watch, call."},
    {"card": "buddy lost", "do": "Look round for one minute. Come up. Tell the surface."},
]
WORDS = {
    "gas_loss": "Cross the arms. Take the long hose. Leave the load and come up together.",
    "entangled": "Stop moving. One cuts, one watches the gauges.",
    "runaway": "Let go and swim across, never up.",
    "carried_up": "Breathe out. Stay up. On oxygen, then call.",
}


def band(low: float, likely: float, high: float) -> dict[str, float]:
    return {"low": low, "likely": likely, "high": high}


def diver(name: str, **more: Any) -> Document:
    """Give one diver of a dive."""
    base = {
        "name": name,
        "role": "load tender",
        "gas": "EAN32",
        "interval_min": None,
        "no_stop_min": {"model": 31.4, "navy_table": 48.0, "navy_known": True},
        "group_before": "A",
        "group_after": "G",
        "surfacing_gradient": band(0.4, 0.5, 0.6),
        "chance_over_no_stop": 0.0,
        "gas_needed_l": band(1400.0, 1700.0, 2100.0),
        "way_up_l": band(200.0, 230.0, 260.0),
        "two_people_up_l": band(1400.0, 1600.0, 1790.0),
        "start_bar": band(220.0, 220.0, 220.0),
        "leave_bottom_bar": 71.2,
        "leaving_bar": band(101.9, 117.6, 130.2),
        "end_pressure_bar": band(92.9, 107.8, 121.3),
        "chance_under_reserve": 0.0,
        "chance_past_leave_pressure": 0.0,
        "chance_empty": 0.0,
    }
    return {**base, **more}


def dive(**more: Any) -> Document:
    """Give one dive of 23 minutes at 24 m."""
    base = {
        "does": "lift",
        "label": "dive 1 (lift)",
        "start": "2027-05-10T10:20:00+01:00",
        "team": [{"name": "Ines", "role": "bag tender"}, {"name": "Tomas", "role": "load tender"}],
        "depth_m": band(23.0, 24.0, 25.2),
        "tasks": [
            {"does": "rig the frame", "min": band(8.0, 12.0, 15.0)},
            {"does": "fill", "min": band(6.0, 9.0, 11.0)},
        ],
        "bottom_time_min": band(17.0, 23.0, 28.0),
        "way_up_min": band(5.6, 24.0 / 9.0 + 3.0, 5.8),
        "dive_time_min": band(22.6, 28.7, 33.8),
        "no_stop_min": {
            "model": 31.4,
            "navy_table": 39.0,
            "navy_known": True,
            "navy_why": None,
            "shorter": "model",
            "chance_over": 0.0,
            "of": {"model": "a model", "table": "a table"},
        },
        "stops": [],
        "always_stop": {"depth_m": 5.0, "min": 3.0},
        "window": None,
        "latest_leave_bottom": "2027-05-10T10:51+01:00",
        "latest_from": "stream",
        "over_run": {
            "bottom_time_min": 33.0,
            "longer_by_min": 10.0,
            "stops": [{"depth_m": 3.0, "min": 4.0}],
            "way_up_min": 24.0 / 9.0 + 7.0,
            "surfaced": "2027-05-10T11:02+01:00",
            "after_slack_min": None,
            "end_pressure_bar": [{"name": "Ines", "bar": 48.3}, {"name": "Tomas", "bar": 33.1}],
            "passes_leave_pressure": ["Tomas"],
        },
        "divers": [diver("Ines", role="bag tender"), diver("Tomas", chance_over_no_stop=0.37)],
        "standby": [],
        "oxygen": None,
        "ascent": {
            "beside_load": False,
            "why": "The divers go up apart from the load.",
            "load_leave_at_m": None,
            "stop_is_aside": True,
            "rate_m_min": 9.0,
            "sawtooth_m": None,
            "rapid": False,
            "plan": ["Stop at 5 m for 3 min, well aside of the load."],
            "cards": CARDS,
        },
        "flying": None,
        "caution": "An aid to planning. It does not replace the divers' own computers, tables and training.",
    }
    return {**base, **more}


def with_dives(*dives: Document, **emergency: str) -> Document:
    """Give a whole document with dives."""
    document = sample()
    document["dives"] = list(dives) or [dive(does="search"), dive()]
    document["emergency"].update(emergency)
    return document
