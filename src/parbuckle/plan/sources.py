"""The sources of this plan, and no others."""

from __future__ import annotations

from parbuckle.duties.finding import Finding
from parbuckle.plan.stages import Stages

_WATER = {
    True: "Fresh water: Tanaka et al. 2001 (CIPM)",
    False: "Sea water: TEOS-10",
}
_LIFT = (
    "Air in cylinders: Lemmon et al. 2000, as a table",
    "Spread of falls: DNV-RP-F107, half-normal radius (seen second-hand)",
    "Ascent: one-dimensional balance of forces; Dormand and Prince 1980",
)

_DIVE = (
    "No-stop limit and stops: ZH-L16C with gradient factors (coefficients C recalled)",
    "No-stop table: U.S. Navy Diving Manual, Revision 7 (read in a transcription)",
    "Oxygen: NOAA Diving Manual; Clark and Lambertsen 1970",
)


def sources(stages: Stages, findings: tuple[Finding, ...]) -> list[str]:
    """Give the sources that this plan used.

    Parameters
    ----------
    stages : Stages
        Case and results.
    findings : tuple of Finding
        What the rules say.

    Returns
    -------
    list of str
        Each once, in the order of use.
    """
    told = [_WATER[stages.site.salinity == 0.0], "Air pressure: U.S. Standard Atmosphere 1976"]
    if stages.load is not None and stages.load_problem is not None:
        told += [*stages.load_problem.sources, *stages.load.sources]
    if stages.lift is not None:
        told += _LIFT
    if stages.rigging is not None:
        told += stages.rigging.sources
    if stages.diving is not None:
        told += _DIVE
    for finding in findings:
        if finding.level in ("stop", "caution"):
            told += [s.strip() for s in finding.source.split(";")]
    return list(dict.fromkeys(s for s in told if s and s != "common practice"))
