"""From the site of a case to water, pressure, depth and stream at the time of the lift."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

import numpy as np

from parbuckle.case.model import Case
from parbuckle.case.site import StreamRow, TideRow
from parbuckle.physics.pressure import absolute_pressure, surface_pressure
from parbuckle.physics.water import density
from parbuckle.plan.asking import Asking
from parbuckle.quantity.frozen import Floats, Frozen
from parbuckle.quantity.spread import Spread, exact

_FRESH = 0.5  # g/kg: below it, water counts as fresh when the altitude is not told


@dataclass(frozen=True)
class SiteDraws(Frozen):
    """Water and pressure of every draw.

    Parameters
    ----------
    water_density, surface_pressure, temperature, depth, bottom_pressure, stream : Floats
        kg/m3, Pa, K, m, Pa and m/s, shape (n,).
    stream_towards : float or None
        Direction that the stream sets towards at that time, rad; None when it is not known.
    stream_known : bool
        True when the table of the stream reaches the time of the lift.
    tide_known : bool
        False when a charted depth has no tide at the time of the lift.
    salinity : float
        Middle salinity, g/kg.
    """

    water_density: Floats
    surface_pressure: Floats
    temperature: Floats
    depth: Floats
    bottom_pressure: Floats
    stream: Floats
    stream_towards: float | None
    stream_known: bool
    tide_known: bool
    salinity: float


def site_draws(case: Case, asking: Asking, when: datetime | None) -> SiteDraws:
    """Draw the site.

    Parameters
    ----------
    case : Case
        The case.
    asking : Asking
        Where inputs are drawn and noted.
    when : datetime or None
        Start of the lift; None when no dive is planned.

    Returns
    -------
    SiteDraws
        One column for each draw.
    """
    site = case.site
    salinity = asking.known("site.water", site.water, "water")
    salt = asking.ensemble.draw("site.water", salinity)
    if site.altitude is None and salinity.mid > _FRESH:
        height = np.zeros(asking.ensemble.n)
    else:
        height = asking.draw("site.altitude", site.altitude, "altitude")
    temperature = asking.draw("site.temperature", site.temperature, "temperature")
    rho = density(salt, temperature)
    air = surface_pressure(height)
    depth, tide_known = _depth(case, asking, when)
    stream, towards, stream_known = _stream(case, asking, when)
    return SiteDraws(
        rho,
        air,
        temperature,
        depth,
        absolute_pressure(depth, rho, air),
        stream,
        towards,
        stream_known,
        tide_known,
        salinity.mid,
    )


def tide_at(case: Case, asking: Asking, when: datetime | None) -> Floats | None:
    """Give the height of the tide above chart datum at a time, inside the table's own span.

    Parameters
    ----------
    case : Case
        The case.
    asking : Asking
        Where inputs are drawn.
    when : datetime or None
        Time asked for.

    Returns
    -------
    Floats or None
        m, shape (n,); None outside the table or without one.
    """
    rows = case.site.tide
    place = _between(rows, when)
    if place is None:
        return None
    i, share = place
    low, high = (asking.ensemble.draw(f"site.tide.{r.time.isoformat()}", r.height) for r in rows[i : i + 2])
    return np.asarray(low + share * (high - low))


def stream_at(case: Case, asking: Asking, when: datetime | None) -> tuple[Floats, Floats] | None:
    """Give the stream at a time as a vector (east, north), inside the table's own span.

    Parameters
    ----------
    case : Case
        The case.
    asking : Asking
        Where inputs are drawn.
    when : datetime or None
        Time asked for.

    Returns
    -------
    tuple of Floats or None
        Two arrays, m/s, shape (n,); None outside the table or without one.
    """
    rows = case.site.stream
    place = _between(rows, when)
    if place is None:
        return None
    i, share = place
    ends = []
    for row in rows[i : i + 2]:
        path = f"site.stream.{row.time.isoformat()}"
        speed = asking.ensemble.draw(f"{path}.speed", row.speed)
        towards = asking.ensemble.draw(f"{path}.towards", row.towards)
        ends.append((speed * np.sin(towards), speed * np.cos(towards)))
    (e0, n0), (e1, n1) = ends
    return e0 + share * (e1 - e0), n0 + share * (n1 - n0)


def _between(rows: tuple[StreamRow, ...] | tuple[TideRow, ...], when: datetime | None) -> tuple[int, float] | None:
    """Give the row before a time and the share of the way to the next; None outside the table."""
    if when is None or len(rows) < 2 or not rows[0].time <= when <= rows[-1].time:
        return None
    i = max(k for k in range(len(rows) - 1) if rows[k].time <= when)
    whole = (rows[i + 1].time - rows[i].time).total_seconds()
    return i, (when - rows[i].time).total_seconds() / whole


def _depth(case: Case, asking: Asking, when: datetime | None) -> tuple[Floats, bool]:
    depth = asking.draw("site.depth", case.site.depth, "depth")
    if case.site.depth is None:
        asking.lacks("site.depth", "lift", "Pressure, gas and time all follow from the depth.")
    if case.site.depth_how != "chart datum":
        return depth, True
    tide = tide_at(case, asking, when)
    if tide is not None:
        return depth + tide, True
    asking.lacks("site.tide", "lift", "The depth is charted; the tide at the start of the lift is not in the table.")
    highest = max((r.height.high for r in case.site.tide), default=0.0)
    text = f"0..{highest:g} m"
    stand_in = Spread("length", "flat", 0.0, highest / 2.0, highest, text, assumed=True) if highest > 0.0 else None
    asking.assumed.append(("site.tide", f"tide at the lift, not in the table: {text} (any height of the table)"))
    return depth + asking.ensemble.draw("site.tide", stand_in or exact("length", 0.0)), False


def _stream(case: Case, asking: Asking, when: datetime | None) -> tuple[Floats, float | None, bool]:
    vector = stream_at(case, asking, when)
    if vector is not None:
        east, north = vector
        towards = float(np.arctan2(np.median(east), np.median(north)) % (2.0 * np.pi))
        return np.hypot(east, north), towards, True
    if case.site.stream:
        asking.lacks("site.stream", "lift", "The stream at the start of the lift is not in the table.")
    limit = case.limits.stream
    if limit is None:
        return asking.draw("site.stream", None, "stream"), None, False
    stand_in = Spread("speed", "flat", 0.0, limit.mid / 2.0, limit.mid, f"0..{limit.text}", assumed=True)
    asking.assumed.append(("site.stream", f"stream nobody told: up to the limit of {limit.text}"))
    return asking.ensemble.draw("site.stream", stand_in), None, False
