"""Invented plan documents for the tests of paper and screen; the numbers belong to no case and are not results."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

Document = dict[str, Any]


def _band(low: float, likely: float, high: float, of: float | None = None) -> dict[str, float]:
    band = {"low": low, "likely": likely, "high": high}
    return band if of is None else {**band, "of": of}


def _finding(level: str, code: str, text: str, **more: Any) -> Document:
    base = {"value": None, "limit": None, "source": "common practice", "override": "never", "do": "", "lifted": None}
    return {"level": level, "code": code, "text": text, **base, **more}


def sample() -> Document:
    """Give a complete document of an accompanied lift without a stop."""
    document: Document = json.loads(Path(__file__).with_name("sample_document.json").read_text(encoding="utf-8"))
    return document


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
    document["steps"] = [{**step, "n": step["n"] + more} for more in (0, 20, 40) for step in document["steps"]]
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
