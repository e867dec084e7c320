"""The dives in words: label and text of each row, for the screen and for paper; plain values of the document only."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from parbuckle.brief.dive_carried import carried_rows
from parbuckle.quantity.shown import show, show_band
from parbuckle.quantity.units import words

Row = tuple[str, str]

_ROUND_BAR = 5.0  # gauges are read to 5 bar; a pressure to leave at is rounded up
_ROUND_PSI = 10.0 * words("pressure")["psi"].factor / words("pressure")["bar"].factor  # 10 psi, in bar
_TENTHS = 10
_SHORTER = {"model": " The model is shorter.", "navy_table": " The table is shorter."}


def dive_rows(dive: Mapping[str, Any], units: str) -> list[Row]:
    """Give what one dive says, the first question first.

    Parameters
    ----------
    dive : mapping
        One of ``dives`` of the document.
    units : str
        ``metric`` or ``imperial``.

    Returns
    -------
    list of (str, str)
        Label and text; a label may stand several times.
    """
    return [
        ("Window", _window(dive)),
        *_leave(dive),
        *_turn(dive, units),
        ("Times", _times(dive)),
        ("No stop", _limits(dive["no_stop_min"])),
        *[("Stops", _stop(stop, units)) for stop in dive["stops"]],
        *[("Gas", text) for row in dive["divers"] for text in (_gas(row, units), *carried_rows(row, units))],
        *[("Standby", _standby(row, units)) for row in dive["standby"]],
        *_oxygen(dive, units),
        *_late(dive, units),
        *[("Up", text) for text in dive["ascent"]["plan"]],
        *[("Up", dive["ascent"]["why"])],
        *_flying(dive),
    ]


def leave_at(row: Mapping[str, Any], units: str) -> str:
    """Give the pressure at which one diver leaves the bottom, rounded up to what a gauge shows.

    Parameters
    ----------
    row : mapping
        One of a dive's ``divers``.
    units : str
        ``metric`` or ``imperial``.

    Returns
    -------
    str
        With unit.
    """
    return gauge(row["leave_bottom_bar"], units)


def gauge(bar: float | None, units: str) -> str:
    """Give a pressure to act at as it is read: rounded up, to 5 bar, and that to 10 psi.

    Parameters
    ----------
    bar : float or None
        The pressure; None where it is not known.
    units : str
        ``metric`` or ``imperial``.

    Returns
    -------
    str
        With unit.

    Examples
    --------
    >>> gauge(141.2, "metric").split(), gauge(141.2, "imperial").split()
    (['145', 'bar'], ['2110', 'psi'])
    """
    read = None if bar is None else _up(bar, _ROUND_BAR)
    return show(_up(read, _ROUND_PSI) if read and units == "imperial" else read, "pressure", units, 3)


def gauge_both(bar: float | None, units: str) -> str:
    """Give a pressure to act at in both unit systems, the chosen one first.

    Parameters
    ----------
    bar : float or None
        The pressure; None where it is not known.
    units : str
        ``metric`` or ``imperial``.

    Returns
    -------
    str
        Such as ``75 bar (1090 psi)``.
    """
    first, second = gauge(bar, units), gauge(bar, "imperial" if units == "metric" else "metric")
    return first if first == second else f"{first} ({second})"


def _up(value: float, step: float) -> float:
    return math.ceil(value / step) * step


def _window(dive: Mapping[str, Any]) -> str:
    window = dive["window"]
    if window is None:
        return "No slack window is known: no stream table, no limit, or no row for that time."
    if window["min"] is None:
        return "The stream does not fall under the limit in the table."
    opens, closes = window["opens"], window["closes"]
    return (
        f"Slack {_hour(window['slack']['likely'])}, under the limit {_hour(opens['likely'])} to "
        f"{_hour(closes['likely'])}; at worst {_hour(opens['high'])} to {_hour(closes['low'])}. "
        f"By the clock it {_how_sure(window['chance_fits'])}; started on sight it "
        f"{_how_sure(window['chance_fits_on_sight'])}. {window['start_when']}"
    )


def _how_sure(share: float) -> str:
    """In whole tenths: two-digit chances are not known so well."""
    tenths = round(share * _TENTHS)
    if tenths == _TENTHS:
        return "fits"
    return "does not fit" if tenths == 0 else f"fits in about {tenths} of {_TENTHS}"


def _leave(dive: Mapping[str, Any]) -> list[Row]:
    if dive["latest_leave_bottom"] is None:
        return []
    by = {"stream": "the stream", "daylight": "daylight"}[dive["latest_from"]]
    return [("Leave", f"Off the bottom by {_hour(dive['latest_leave_bottom'])} at the latest, by {by}.")]


def _turn(dive: Mapping[str, Any], units: str) -> list[Row]:
    """Only where there is a way back: a search."""
    known = [row for row in dive["divers"] if row.get("turn_bar") is not None and "search" in dive["does"]]
    told = ", ".join(f"{row['name']} at {gauge(row['turn_bar'], units)}" for row in known)
    return [("Turn", f"{told}. The first gauge that reads this turns both.")] if known else []


def _times(dive: Mapping[str, Any]) -> str:
    return f"Bottom {_minutes(dive['bottom_time_min'])}, up {_minutes(dive['way_up_min'])}."


def _limits(limits: Mapping[str, Any]) -> str:
    table = f"{limit(limits['navy_table'])}" if limits["navy_known"] else "no answer"
    shorter = {"model": " The model is shorter.", "navy_table": " The table is shorter."}.get(
        limits["shorter"] or "", ""
    )
    return f"Model {limit(limits['model'])}, Navy table {table}, from leaving the surface.{shorter}"


def limit(minutes: float | None) -> str:
    """Give a no-stop limit in whole minutes, cut off.

    Parameters
    ----------
    minutes : float or None
        The limit; None without one.

    Returns
    -------
    str
        Such as ``26 min``, or ``no limit``.

    Examples
    --------
    >>> limit(26.9), limit(None)
    ('26 min', 'no limit')
    """
    return "no limit" if minutes is None else f"{minutes // 1.0:.0f} min"


def _stop(stop: Mapping[str, float], units: str) -> str:
    return f"{show(stop['depth_m'], 'length', units)} for {stop['min']:.0f} min at the long end."


def _gas(row: Mapping[str, Any], units: str) -> str:
    used = show_band(row["gas_needed_l"], "free_gas", units)
    if row["end_pressure_bar"] is None:
        return f"{row['name']}, {row['gas']}: needs {used}. The cylinder is not known."
    end = show_band(row["end_pressure_bar"], "pressure", units)
    return (
        f"{row['name']}, {row['gas']}: leave the bottom at {leave_at(row, units)}; {end} left at the end; needs {used}."
    )


def _standby(row: Mapping[str, Any], units: str) -> str:
    needs = show_band(row["needs_l"], "free_gas", units)
    stays = row["stays_working_min"]["low"]
    return f"{row['name']}, {row['gas']}: down and two up needs {needs}; then {stays // 1.0:.0f} min of work at depth."


def _oxygen(dive: Mapping[str, Any], units: str) -> list[Row]:
    told = dive["oxygen"]
    if told is None:
        return []
    share = told["single_share"]
    used = "over 1.6 atm" if share is None else f"{share * 100.0:.0f} % of one exposure"
    mod = "" if told["mod_m"] is None else f", limit at {show(told['mod_m'], 'length', units)}"
    return [("Oxygen", f"{told['gas']}: {told['oxygen_bar']['high']:.2f} bar at the deepest{mod}; {used}.")]


def _late(dive: Mapping[str, Any], units: str) -> list[Row]:
    late = dive["over_run"]
    if late is None:
        return []
    stops = ", ".join(f"{show(s['depth_m'], 'length', units)} for {s['min']:.0f} min" for s in late["stops"])
    ends = ", ".join(f"{row['name']} {_whole(row['bar'], units)}" for row in late["end_pressure_bar"])
    passes, short = late["passes_leave_pressure"], late.get("carried_short")
    parts = [
        f"If the work takes {late['longer_by_min']:.0f} min longer: bottom {late['bottom_time_min']:.0f} min;",
        f"stops {stops};" if stops else "no stop is due;",
        f"left at the end: {ends}." if ends else "gas is not known.",
        f"{' and '.join(passes)} must leave before that." if passes else "",
        f"{' and '.join(short)} then gives more than planned for." if short else "",
        f"{late['after_slack_min']:.0f} min after slack." if late["after_slack_min"] else "",
    ]
    return [("If late", " ".join(part for part in parts if part))]


def _whole(bar: float, units: str) -> str:
    """A pressure in whole bars, rounded down; a tenth of a bar says nothing."""
    return show(max(bar, 0.0) // 1.0, "pressure", units, 3)


def _flying(dive: Mapping[str, Any]) -> list[Row]:
    told = dive["flying"]
    if told is None or not told["hours"]:
        return []
    group = f"group {told['group']}" if told["group"] else "no group known"
    return [("Flying", f"Not before {-(-told['hours'] // 1.0):.0f} h at the surface ({group}).")]


def _minutes(told: Mapping[str, float]) -> str:
    low, likely, high = (f"{told[name]:.0f}" for name in ("low", "likely", "high"))
    return f"{likely} min" if low == high else f"{likely} ({low} to {high}) min"


def _hour(moment: str) -> str:
    return moment[11:16]
