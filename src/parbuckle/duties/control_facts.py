"""What the rules look at of an ascent with people on it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ControlFacts:
    """The ascent under control, as it was followed draw by draw.

    Parameters
    ----------
    within : float or None
        Share of draws that keep the rate up to the surface, 0 to 1; None where nobody goes up beside it.
    within_error : float
        One standard error of that share.
    sinks_back : float or None
        Share of draws that come back to the bottom, 0 to 1.
    sinks_error : float
        One standard error of that share.
    floats : float or None
        Share of those that come up and stay afloat, 0 to 1.
    floats_error : float
        One standard error of that share.
    pull_unmeasured : str
        Id of the part-filled bag whose dump nobody measured; empty: it was measured.
    """

    within: float | None = None
    within_error: float = 0.0
    sinks_back: float | None = None
    sinks_error: float = 0.0
    floats: float | None = None
    floats_error: float = 0.0
    pull_unmeasured: str = ""
