"""The page of each dive: when, who, what at which pressure, how long, and what happens if it takes longer."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from parbuckle.brief.dive_carried import carried_rows
from parbuckle.brief.dive_picture import dive_picture
from parbuckle.brief.dive_rows import dive_rows, leave_at
from parbuckle.brief.figures import NOT_KNOWN, Figures, figures_of
from parbuckle.brief.first_page import clock_time

_HEIGHTS = (300.0, 250.0, 210.0, 175.0, 150.0)  # of the picture; the largest that leaves room for the rest, points
_NOTES = ("Window", "Leave", "Turn", "If late", "Up", "Standby", "Oxygen", "Flying")
_TITLES = {
    "Leave": "Off the bottom",
    "Turn": "Turn back",
    "If late": "If it takes longer",
    "Up": "The way up",
    "Flying": "Before flying",
}
_BY = {"stream": "by the stream", "daylight": "by daylight"}
_SHORTER = {"model": "the model", "navy_table": "the table"}

Row = dict[str, str]


def dive_pages(document: Mapping[str, Any], width: float) -> list[dict[str, Any]]:
    """Prepare one page for each dive.

    Parameters
    ----------
    document : mapping
        The plan document.
    width : float
        Room for text and drawings, points.

    Returns
    -------
    list of dict
        ``title``, ``time``, ``day``, ``team``, ``limits``, ``pictures``, ``divers``, ``tasks``, ``notes``, ``models``
        and ``caution`` of each; empty without dives.

    Examples
    --------
    >>> dive_pages({}, 500.0)
    []
    """
    dives = document.get("dives") or []
    figures = figures_of(document)
    return [
        _page(document, dive, f"Dive {place} of {len(dives)}", figures, width) for place, dive in enumerate(dives, 1)
    ]


def _page(
    document: Mapping[str, Any], dive: Mapping[str, Any], place: str, figures: Figures, width: float
) -> dict[str, Any]:
    start = clock_time(dive.get("start"))
    return {
        "title": f"{place}: {dive['does']}",
        **start,
        "team": [{"name": str(row["name"]), "role": str(row["role"])} for row in dive["team"]],
        "limits": _limits(dive, figures),
        "pictures": [dive_picture(document, dive, width, tall) for tall in _HEIGHTS],
        "divers": [_diver(row, figures) for row in dive["divers"]],
        "tasks": _tasks(dive),
        "notes": _notes(dive, figures),
        "models": _models(dive),
        "caution": str(dive.get("caution") or ""),
    }


def _limits(dive: Mapping[str, Any], figures: Figures) -> list[Row]:
    """The few numbers that are kept in the head."""
    told = dive["no_stop_min"]
    known = [told[key] for key in ("model", "navy_table") if told[key] is not None]
    late = dive["latest_leave_bottom"]
    rows = [
        ("On the bottom", minutes(dive["bottom_time_min"]), "from leaving the surface"),
        ("No stop until", f"{int(min(known))} min" if known else "no limit", _by(told)),
        (
            "Deepest",
            figures.safe(dive["depth_m"]["high"], "length", True),
            figures.safe(dive["depth_m"]["high"], "length", True, True),
        ),
        *([("Off the bottom by", clock_time(late)["time"], _BY[dive["latest_from"]])] if late else []),
    ]
    return [{"label": label, "value": value, "other": other} for label, value, other in rows]


def _by(told: Mapping[str, Any]) -> str:
    return f"by {_SHORTER[told['shorter']]}, the shorter" if told.get("shorter") else ""


def minutes(band: Mapping[str, float]) -> str:
    """Give a band of minutes.

    Parameters
    ----------
    band : mapping
        ``low``, ``likely`` and ``high``, min.

    Returns
    -------
    str
        Such as ``21 min (19 to 24)``.

    Examples
    --------
    >>> minutes({"low": 19.2, "likely": 21.4, "high": 24.1})
    '21 min (19 to 24)'
    """
    low, likely, high = (f"{band[name]:.0f}" for name in ("low", "likely", "high"))
    return f"{likely} min" if low == high else f"{likely} min ({low} to {high})"


def _diver(row: Mapping[str, Any], figures: Figures) -> dict[str, Any]:
    leave = row["leave_bottom_bar"]
    other = Figures("imperial" if figures.units == "metric" else "metric")
    return {
        "name": str(row["name"]),
        "role": str(row["role"]),
        "gas": str(row["gas"]),
        "leave": NOT_KNOWN if leave is None else leave_at(row, figures.units),
        "other": "" if leave is None else leave_at(row, other.units),
        "start": figures.one((row["start_bar"] or {}).get("likely"), "pressure"),
        "leaving": figures.band(_whole(row["leaving_bar"]), "pressure"),
        "end": figures.band(_whole(row["end_pressure_bar"]), "pressure"),
        "shared": figures.one((row["two_people_up_l"] or {}).get("high"), "free_gas"),
        "no_stop": f"{_minute(row['no_stop_min'], 'model')} / {_minute(row['no_stop_min'], 'navy_table')}",
        "group": f"{row['group_before'] or 'none'}, {row['group_after']}" if row["group_after"] else "",
        "carried": [told.removeprefix(f"{row['name']}, ") for told in carried_rows(row, figures.units)],
        "watch": _watch(row),
    }


def _minute(told: Mapping[str, Any], key: str) -> str:
    if key == "navy_table" and not told["navy_known"]:
        return "no answer"
    return "no limit" if told[key] is None else f"{int(told[key])} min"


def _whole(band: Mapping[str, float] | None) -> dict[str, float] | None:
    """Whole bars, rounded down: a gauge shows no more."""
    return None if band is None else {name: max(band[name], 0.0) // 1.0 for name in ("low", "likely", "high")}


def _watch(row: Mapping[str, Any]) -> str:
    """What may go short, in words: no chances in figures on this page."""
    rows = (
        ("chance_empty", "The gas may not last."),
        ("chance_under_reserve", "May come up under the reserve."),
        ("chance_past_leave_pressure", "The work may not be done at the pressure to leave at: leave all the same."),
        ("chance_over_no_stop", "May pass the no-stop limit."),
    )
    return " ".join([text for key, text in rows if row.get(key)])


def _tasks(dive: Mapping[str, Any]) -> list[Row]:
    """Each task with its minutes, and the minute of the dive at which it is likely done."""
    now = dive["bottom_time_min"]["likely"] - sum(task["min"]["likely"] for task in dive["tasks"])
    rows = [{"n": "", "does": "go down", "takes": _about(now), "done": f"{max(now, 0.0):.0f}"}]
    for place, task in enumerate(dive["tasks"], 1):
        now += task["min"]["likely"]
        rows.append({"n": str(place), "does": str(task["does"]), "takes": minutes(task["min"]), "done": f"{now:.0f}"})
    now += dive["way_up_min"]["likely"]
    rows.append({"n": "", "does": "come up", "takes": minutes(dive["way_up_min"]), "done": f"{now:.0f}"})
    return rows


def _about(time: float) -> str:
    return f"{time:.0f} min" if time >= 1.0 else "under 1 min"


def _notes(dive: Mapping[str, Any], figures: Figures) -> list[dict[str, Any]]:
    rows = dive_rows(dive, figures.units)
    told = [(label, [text for name, text in rows if name == label]) for label in _NOTES]
    return [{"label": _TITLES.get(label, label), "texts": texts} for label, texts in told if texts]


def _models(dive: Mapping[str, Any]) -> str:
    told = dive["no_stop_min"].get("of") or {}
    names: Sequence[str] = [str(told[key]) for key in ("model", "table") if told.get(key)]
    return f"Minutes from leaving the surface, never blended: {'; '.join(names)}." if names else ""
