"""The head of the plan document: program, case, site, and what is not known."""

from __future__ import annotations

from typing import Any

from parbuckle import __version__
from parbuckle.physics.constants import ZERO_C
from parbuckle.plan.bands import band_of
from parbuckle.plan.stages import Stages
from parbuckle.quantity.band import LIKELY, at_share


def head(stages: Stages) -> dict[str, Any]:
    """Give program, case and draws.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    dict
        ``schema``, ``program``, ``case``, ``draws``.
    """
    told, ensemble = stages.case.case, stages.asking.ensemble
    return {
        "schema": 1,
        "program": {"name": "parbuckle", "version": __version__},
        "case": {
            "title": told.title or "Case without a title",
            "purpose": told.purpose,
            "rules": told.rules,
            "units": told.units,
            "supervisor": told.supervisor,
            "file": stages.loaded.path.name,
            "digest": stages.loaded.digest[:12],
        },
        "draws": {"n": ensemble.n, "seed": ensemble.seed},
    }


def site_section(stages: Stages) -> dict[str, Any]:
    """Give the water, the pressure and the place.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    dict
        Keys of the contract and what the brief prints.
    """
    site, draws = stages.case.site, stages.site
    return {
        "name": site.name,
        "water": site.water.text if site.water else None,
        "water_density_kg_m3": at_share(draws.water_density, LIKELY),
        "surface_pressure_pa": at_share(draws.surface_pressure, LIKELY),
        "bottom_pressure_pa": at_share(draws.bottom_pressure, LIKELY),
        "depth_m": band_of(draws.depth),
        "depth_how": site.depth_how,
        "bottom": site.bottom,
        "visibility_m": site.visibility.low if site.visibility else None,
        "temperature_c": site.temperature.mid - ZERO_C if site.temperature else None,
        "stream_m_s": band_of(draws.stream) if draws.stream_known else None,
        "altitude_m": site.altitude.mid if site.altitude else None,
        "datum": {"lat": site.datum.lat, "lon": site.datum.lon} if site.datum else None,
        "daylight_until": site.daylight_until.isoformat() if site.daylight_until else None,
    }


def find_out_first(stages: Stages, drivers: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Give what to find out first: unknowns in use, ranked by how much they drive the weight, then the rest.

    Parameters
    ----------
    stages : Stages
        Case and results.
    drivers : list of dict
        Drivers of the weight in water: ``key`` and ``share``.

    Returns
    -------
    list of dict
        ``key``, ``why``, ``share``.
    """
    shares = {row["key"]: row["share"] for row in drivers}
    rows: list[dict[str, Any]] = [
        {"key": key, "why": why, "share": shares.get(key)} for key, why in stages.asking.assumed
    ]
    rows.sort(key=lambda row: -(row["share"] or 0.0))
    return rows
