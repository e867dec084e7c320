"""The supervisor's page: what drives the answers, sums, rigging, alternatives, every caution, and the sources."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from parbuckle.brief.figures import NOT_KNOWN, Figures, figures_of
from parbuckle.brief.states import state_rows


def second_page(document: Mapping[str, Any]) -> dict[str, Any]:
    """Prepare the supervisor's page: every text that it shows, already formatted.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    dict
        ``again``, ``drivers``, ``find``, ``methods``, ``alternatives``, ``rigging``, ``chances``, ``ascent``,
        ``surface``, ``site``, ``estimates``, ``sums``, ``open``, ``states``, ``sources`` and ``about``; a part that the
        document lacks is empty.

    Examples
    --------
    >>> second_page({"draws": {"n": 8, "seed": 1}})["about"]
    ['8 draws, seed 1.']
    """
    figures = figures_of(document)
    lift = document.get("lift") or {}
    return {
        "again": document.get("measure_again") or "",
        "drivers": _drivers(document, figures),
        "find": _find(document, figures),
        "methods": [_way(row, figures) for row in lift.get("methods") or []],
        "alternatives": [_other(row) for row in lift.get("alternatives") or []],
        "rigging": [_item(row, figures) for row in lift.get("rigging") or []],
        "chances": _chances(lift, figures),
        "ascent": _ascent(document.get("ascent") or {}, figures),
        "surface": _surface(document, figures),
        "site": _site(document.get("site") or {}, figures),
        "estimates": [_estimate(row, figures) for row in (document.get("load") or {}).get("estimates") or []],
        "sums": [
            {key: str(row.get(key) or "") for key in ("name", "formula", "numbers", "result", "source")}
            for row in document.get("sums") or []
        ],
        "open": [_not_worked_out(row) for row in document.get("unanswered") or []],
        "states": state_rows(document),
        "sources": [str(text) for text in document.get("sources") or []],
        "about": _about(document),
    }


def _drivers(document: Mapping[str, Any], figures: Figures) -> list[dict[str, str]]:
    rows = (document.get("load") or {}).get("drivers") or []
    return [{"label": str(row.get("input", "")), "value": figures.one(row.get("share"), "share")} for row in rows]


def _find(document: Mapping[str, Any], figures: Figures) -> list[str]:
    rows = document.get("find_out_first") or []
    return [str(row.get("why") or row.get("key")) for row in rows]


def _chances(lift: Mapping[str, Any], figures: Figures) -> list[str]:
    surplus, words = lift.get("surplus_at_release_kg") or {}, lift.get("chance_floats_words")
    texts = [f"Floats once free: {words}."] if words else []
    share = surplus.get("of")
    if share is not None:
        texts.append(
            f"It comes free below the ceiling in {figures.one(share, 'share')} of the draws; "
            f"there {figures.band(surplus, 'mass')} are left over."
        )
    return texts


def _way(row: Mapping[str, Any], figures: Figures) -> dict[str, str]:
    minutes = row.get("minutes")
    return {
        "method": str(row.get("method", "")),
        "possible": "possible" if row.get("possible") else "not possible",
        "why": str(row.get("why") or ""),
        "people": "" if row.get("people_in_water") is None else str(row["people_in_water"]),
        "surplus": "" if row.get("surplus_kg") is None else figures.one(row["surplus_kg"], "mass"),
        "time": "" if minutes is None else figures.one(minutes, "minutes"),
        "wrong": str(row.get("what_can_go_wrong") or ""),
    }


def _other(row: Mapping[str, Any]) -> dict[str, str]:
    bags = row.get("bags") or []
    why = str(row.get("why_not") or "")
    return {
        "bags": " + ".join(str(bag) for bag in bags),
        "why": f"{why[:1].upper()}{why[1:]}." if why else "",
        "sentence": str(row.get("sentence") or ""),
    }


def _item(row: Mapping[str, Any], figures: Figures) -> dict[str, str]:
    factor = row.get("factor")
    return {
        "item": str(row.get("item", "")),
        "load": figures.both(row.get("load_n"), "force"),
        "limit": figures.both(row.get("limit_n"), "force"),
        "factor": "" if factor is None else f"{factor:g}",
        "source": str(row.get("source") or ""),
    }


def _ascent(ascent: Mapping[str, Any], figures: Figures) -> list[dict[str, str]]:
    alone, fall = ascent.get("left_alone") or {}, ascent.get("fall") or {}
    drawn = bool(ascent.get("under_control"))  # then these stand with the ascent under control, and in its pictures
    rows = [
        ("Left alone, to the surface", figures.band(alone.get("time_s"), "time")),
        ("Speed on arrival", figures.band(alone.get("arrival_speed_m_s"), "speed")),
        ("Share of the lift that can grow", figures.one(ascent.get("growing_share"), "share")),
        ("Growth doubles in", figures.one(ascent.get("doubling_time_s"), "time")),
        ("Point of no return, rise", figures.one(ascent.get("point_of_no_return_m"), "length")),
        ("Neutral window", _unless(drawn, figures.one(ascent.get("neutral_window_l"), "volume"))),
        ("One short pull loses", _unless(drawn, figures.band(ascent.get("pull_l"), "volume"))),
        ("Delay budget", _unless(drawn, figures.one(ascent.get("delay_budget_s"), "time"))),
        ("Part-filled bag is full at", figures.one(ascent.get("full_at_m"), "length")),
        ("If it falls: speed", figures.band(fall.get("speed_m_s"), "speed")),
        ("If it falls: time", figures.band(fall.get("time_s"), "time")),
    ]
    rows += [
        (f"Vent at {figures.one(vent.get('depth_m'), 'length')}", figures.one(vent.get("needed"), "venting"))
        for vent in (not drawn and ascent.get("vent_l_s")) or []
    ]
    return [{"label": label, "value": value} for label, value in rows if value != NOT_KNOWN]


def _unless(drawn: bool, text: str) -> str:
    return NOT_KNOWN if drawn else text


def _site(site: Mapping[str, Any], figures: Figures) -> list[dict[str, str]]:
    words = [site.get(key) for key in ("name", "water", "bottom")]
    rows = [
        ("Place", ", ".join(str(word) for word in words if word) or NOT_KNOWN),
        ("Depth", figures.band(site.get("depth_m"), "length")),
        ("Depth is", site.get("depth_how") or NOT_KNOWN),
        ("Water density", figures.one(site.get("water_density_kg_m3"), "density")),
        ("Temperature", figures.one(site.get("temperature_c"), "temperature")),
        ("Visibility", figures.one(site.get("visibility_m"), "length")),
        ("Stream", figures.band(site.get("stream_m_s"), "stream")),
        ("Altitude", figures.one(site.get("altitude_m"), "length")),
    ]
    return [{"label": label, "value": str(value)} for label, value in rows if value != NOT_KNOWN]


def _surface(document: Mapping[str, Any], figures: Figures) -> list[dict[str, str]]:
    surface, lift = document.get("surface") or {}, document.get("lift") or {}
    reserve, tow = lift.get("reserve") or {}, surface.get("tow") or {}
    load = document.get("load") or {}
    rows = [
        ("Dry mass", figures.band(load.get("dry_mass_kg"), "mass")),
        ("Displaces", figures.band(load.get("displaced_l"), "volume")),
        ("Lift points", load.get("lift_points") or NOT_KNOWN),
        ("Lies", load.get("lies") or NOT_KNOWN),
        ("Then", surface.get("then") or NOT_KNOWN),
        ("Leaving the water", figures.band(surface.get("leaving_water_kg"), "mass")),
        ("Limit of what lifts it out", figures.one(surface.get("limit_kg"), "mass")),
        ("Reserve wanted", figures.one(reserve.get("wanted_share"), "share")),
        ("Reserve reached", figures.band(reserve.get("reached_share"), "share")),
        ("Reserve from", ", ".join(str(bag) for bag in reserve.get("with") or []) or NOT_KNOWN),
        ("Hangs below the surface", figures.band(surface.get("hang_m"), "length")),
        ("Grounds at", ", ".join(figures.one(row.get("distance_m"), "length") for row in surface.get("grounds") or [])),
        ("Tow drag", figures.band(tow.get("drag_n"), "force")),
        ("Tow takes", figures.band(tow.get("minutes"), "minutes")),
    ]
    return [{"label": label, "value": str(value)} for label, value in rows if value not in ("", NOT_KNOWN)]


def _estimate(row: Mapping[str, Any], figures: Figures) -> dict[str, str]:
    how = ", ".join(str(row[key]) for key in ("by", "how") if row.get(key))
    return {"label": how, "value": figures.band(row.get("wet_weight_kg"), "mass")}


def _not_worked_out(row: Mapping[str, Any]) -> str:
    stage = f"{row['stage']}: " if row.get("stage") else ""
    text = f"{stage}{row.get('why') or row.get('key') or ''}"
    return text[:1].upper() + text[1:]


def _about(document: Mapping[str, Any]) -> list[str]:
    draws, case = document.get("draws") or {}, document.get("case") or {}
    texts = []
    if draws.get("n"):
        texts.append(f"{draws['n']} draws, seed {draws.get('seed')}.")
    if case.get("file"):
        texts.append(f"Case file {case['file']}, digest {case.get('digest') or NOT_KNOWN}.")
    return texts
