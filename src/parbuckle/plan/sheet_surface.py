"""The surface section of the plan document: how it goes on, where it grounds, what it weighs on leaving the water."""

from __future__ import annotations

from typing import Any

import numpy as np

from parbuckle.plan.bands import MINUTE, band_of
from parbuckle.plan.stages import Stages


def surface_section(stages: Stages) -> dict[str, Any] | None:
    """Give the surface as the brief wants it.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    dict or None
        None when nothing is told and nothing is lifted.
    """
    floating = stages.surface
    if floating is None:
        return None
    tow = None
    if floating.tow_drag is not None or floating.tow_time is not None:
        tow = {"drag_n": band_of(floating.tow_drag), "minutes": band_of(floating.tow_time, 1.0 / MINUTE)}
    grounds, shore = floating.grounds, stages.case.site.shore
    towards = shore.bearing.mid if shore and shore.bearing else None
    return {
        "then": stages.case.surface.then,
        "line": stages.case.surface.line_to_surface,
        "top_up": stages.case.surface.top_up,
        "hang_m": band_of(floating.hang),
        "grounds": [{"distance_m": grounds[0], "depth_m": grounds[1]}] if grounds else None,
        "shallowest_m": floating.shallowest,
        "shore_deg": None if towards is None else towards * 180.0 / np.pi,
        "tow": tow,
        "leaving_water_kg": band_of(floating.leaving),
        "limit_kg": floating.limit,
        "notes": list(floating.notes),
    }
