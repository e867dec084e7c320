"""Words of the form that are not in the models: labels, and where suggestions come from."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

LABELS: dict[tuple[str, ...], str] = {
    ("",): "The case itself",
    ("schema",): "Version of the format",
    ("kit",): "Kit file",
    ("sealed",): "Instructor's file",
    ("case",): "The case",
    ("case", "rules"): "Whose rules",
    ("case", "lost"): "Lost at",
    ("permission",): "Who said yes",
    ("permission", "owner"): "The owner",
    ("permission", "site"): "Who controls the place",
    ("permission", "insurer"): "The insurer",
    ("ordnance",): "Ordnance or explosives",
    ("protected",): "Protected wreck, place or species",
    ("fuel",): "Fuel, oil, chemicals",
    ("electrics",): "Batteries and live cables",
    ("snags",): "Nets, ropes, cables",
    ("traffic",): "Boats and swimmers",
    ("site", "datum"): "Origin of the map",
    ("site", "depth_how"): "How the depth is known",
    ("site", "slack_error"): "Slack may be wrong by",
    ("shore", "profile"): "Distance and depth",
    ("agreed", "fit"): "Current and fit",
    ("agreed", "flag"): "Flag, and who sees to it",
    ("agreed", "boat"): "How the boat comes in",
    ("emergency", "call"): "Who is called",
    ("emergency", "help"): "Where help comes from",
    ("emergency", "recall"): "Recall signal",
    ("emergency", "comms"): "Divers and surface talk by",
    ("emergency", "position_as"): "Position written as",
    ("emergency", "gas_loss"): "Gas fails",
    ("emergency", "entangled"): "Diver held",
    ("emergency", "runaway"): "Lift runs away",
    ("emergency", "carried_up"): "Diver carried up",
    ("account",): "Accounts",
    ("account", "how"): "How it was asked",
    ("account", "at"): "Place shown",
    ("account", "from"): "Where the witness stood",
    ("account", "along"): "Along this line",
    ("account", "area"): "Inside these corners",
    ("sank_through", "towards"): "Stream sets towards",
    ("search", "by"): "Looked for by",
    ("search", "law"): "Law of detection",
    ("search", "only"): "Only these patterns",
    ("search", "stands"): "Where a tender may stand",
    ("search", "boat"): "A boat may tow",
    ("search", "kick"): "Way of one kick",
    ("search", "pass"): "Passes swum",
    ("pass", "along"): "Places passed",
    ("search", "trial"): "Trial on a sample",
    ("lesson", "sums"): "Sums are done",
    ("trainee",): "Trainees",
    ("object", "name"): "What it is",
    ("object", "lies"): "How it lies",
    ("object", "part"): "Parts",
    ("object", "measured"): "Measurements",
    ("object", "cavity"): "Spaces inside",
    ("object", "balance"): "Spring balance",
    ("object", "trial"): "Trial lifts",
    ("object", "bed"): "In the bottom",
    ("bed", "days"): "Days it has lain there",
    ("part", "how"): "Known from",
    ("measured", "by"): "Measured by",
    ("measured", "how"): "Measured how",
    ("measured", "file"): "Mesh file",
    ("balance", "by"): "Weighed by",
    ("trial", "by"): "Done by",
    ("lift", "rate"): "Rate up",
    ("lift", "tries"): "Tries the gas must cover",
    ("lift", "reference"): "Rate is read from",
    ("lift", "cylinder_goes"): "Where the cylinder goes",
    ("lift", "rigging"): "Rigging, from the load upward",
    ("lift", "tender"): "The tender",
    ("lift", "gas"): "How the gas expands",
    ("lift", "as_point"): "Gas at the load's depth (for checks)",
    ("rigging", "on"): "Attached to",
    ("restraint", "on"): "Made fast to",
    ("crown_line", "to"): "Made fast to",
    ("tender", "who"): "Whose numbers stand in",
    ("surface", "then"): "How it goes on",
    ("surface", "hang"): "Load hangs down to",
    ("dive",): "Dives",
    ("dive", "does"): "What for",
    ("dive", "start"): "Leaves the surface at",
    ("tasks", "do"): "Task",
    ("tasks", "by"): "Done by",
    ("tasks", "check"): "Checked by",
    ("tasks", "meanwhile"): "While the task before is done",
    ("exposure", "gradient"): "Gradient factors",
    ("exposure", "earlier"): "Dives before",
    ("exposure", "arrived"): "At this height since",
    ("earlier", "log"): "Log of the dive",
    ("earlier", "mapping"): "Columns of the log",
    ("regime",): "Rules of your own",
    ("regime", "by"): "Set by",
    ("regime", "source"): "Written in",
    ("regime", "date"): "Date of that text",
    ("limits", "team"): "Least people on a dive",
    ("limits", "ratio"): "Trainees to one instructor",
    ("notices", "to"): "Who is told",
    ("notices", "counts"): "Counts from",
    ("house",): "House rules",
    ("override",): "Stops lifted",
    ("override", "by"): "Lifted by",
    ("lat",): "Latitude",
    ("lon",): "Longitude",
    ("bag", "really"): "Really holds",
    ("bag", "pull"): "Lost by one pull",
    ("bag", "pull_in"): "That pull took",
    ("bag", "attachment"): "Limit of straps and ring",
    ("bag", "relief"): "Relief opens at",
    ("bag", "withstands"): "Made for",
    ("fills", "at"): "At depth",
    ("fills", "in"): "Full after",
    ("line", "knot"): "Strength its knots keep",
    ("person", "may"): "Roles",
}
"""Labels by the end of the path, where the words of the key do not read well alone; the longest end counts."""

_PLURAL = {"bag": "Bags", "cylinder": "Cylinders", "connector": "Connectors", "sling": "Slings", "line": "Lines"}
_PLURAL |= {"person": "People"}

FROM_KIT = {
    ("lift", "bags"): "bag",
    ("lift", "cylinder"): "cylinder",
    ("connector",): "connector",
    ("sling",): "sling",
    ("line",): "line",
    ("line_to_surface",): "line",
    ("bag",): "bag",
    ("team", "cylinder"): "cylinder",
    ("top_up",): "cylinder",
    ("person",): "person",
    ("measured", "by"): "person",
    ("balance", "by"): "person",
    ("object", "trial", "by"): "person",
    ("tasks", "by"): "person",
    ("check",): "person",
}
"""Keys, by the end of their path, whose words are ids of a table of the kit, or names of its people."""

_TABLES = {
    ("material",): ("materials", "material"),
    ("known_as",): ("known_objects", "object"),
    ("site", "bottom"): ("bottoms", "bottom"),
    ("part", "how"): ("how", "how"),
    ("measured", "how"): ("how", "how"),
    ("country",): ("intervals", "interval"),
}

_OPEN = {
    ("hazards",): ("no", "yes", "unknown"),
    ("permission",): ("asked and agreed", "not asked yet", "unknown"),
    ("emergency", "comms"): ("none", "line", "voice"),
    ("crown_line", "to"): ("load",),
    ("restraint", "on"): ("load", "bag"),
}


def label_of(path: tuple[str, ...], is_table: bool) -> str:
    """Give the label of a key.

    Parameters
    ----------
    path : tuple of str
        Keys that lead to it, without positions.
    is_table : bool
        True where a table or rows stand below it.

    Returns
    -------
    str
        Short words.

    Examples
    --------
    >>> label_of(("object", "lift_points"), False)
    'Lift points'
    """
    fitting = [end for end in LABELS if path[-len(end) :] == end]
    if fitting:
        return LABELS[max(fitting, key=len)]
    key = path[-1]
    return _PLURAL[key] if is_table and key in _PLURAL else key.replace("_", " ").capitalize()


def suggestions(path: tuple[str, ...]) -> list[str]:
    """Give words that a text may be, out of the tables of the data; any other text is allowed too.

    Parameters
    ----------
    path : tuple of str
        Keys that lead to it, without positions.

    Returns
    -------
    list of str
        In the order of the table; empty where there is no table.

    Examples
    --------
    >>> "sand" in suggestions(("site", "bottom"))
    True
    """
    for start, words in _OPEN.items():
        if path[-len(start) :] == start or path[:1] == start:
            return list(words)
    for end, (table, rows) in _TABLES.items():
        if path[-len(end) :] == end:
            return list(dict.fromkeys(_words(table, rows)))
    return []


def kit_table(path: tuple[str, ...]) -> str | None:
    """Give the table of the kit whose ids or names fit a key.

    Parameters
    ----------
    path : tuple of str
        Keys that lead to it, without positions.

    Returns
    -------
    str or None
        Name of the table.

    Examples
    --------
    >>> kit_table(("lift", "bags"))
    'bag'
    """
    fitting = [end for end in FROM_KIT if path[-len(end) :] == end]
    return FROM_KIT[max(fitting, key=len)] if fitting else None


@cache
def _words(table: str, rows: str) -> tuple[str, ...]:
    from parbuckle.load.tables import read_table

    return tuple(_names(read_table(table)[rows]))


def _names(rows: list[dict[str, Any]]) -> Iterator[str]:
    for row in rows:
        yield str(row.get("name") or row.get("country"))
