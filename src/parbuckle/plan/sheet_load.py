"""The load section of the plan document: weight, basis, what drives the spread, what the bottom holds."""

from __future__ import annotations

from typing import Any

from parbuckle.plan.bands import LITRES, band_of
from parbuckle.plan.drivers import drivers
from parbuckle.plan.stages import Stages
from parbuckle.plan.words import in_words

_TRIES = (
    "Dig or fan one side free.",
    "Tip one edge, so that water gets under it.",
    "Rock and turn it.",
    "Jet under it.",
    "Pull from above.",
    "Pull steadily and wait: it holds less with time.",
)
_TELLS = 0.3  # share of the spread from which it pays to measure one input again
_FEWEST = 0.005  # drivers below this share are left out


def load_section(stages: Stages) -> dict[str, Any] | None:
    """Give the load as the contract and the brief want it.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    dict or None
        None when nothing says what it weighs.
    """
    load, thing = stages.load, stages.case.object
    if load is None or stages.load_problem is None:
        return None
    sticks = stages.load_problem.bottom.method != "none"
    return {
        "name": thing.name,
        "dry_mass_kg": band_of(load.dry_mass),
        "displaced_l": band_of(load.displaced, LITRES),
        "wet_weight_kg": band_of(load.wet_weight),
        "breakout_kg": band_of(load.breakout),
        "leaving_water_kg": band_of(load.leaving_water),
        "basis": _basis(stages),
        "estimates": [
            {"by": by, "how": how, "wet_weight_kg": band_of(wet), "weight": weight}
            for (by, how, wet), weight in zip(load.estimates, load.weights, strict=False)
        ],
        "agree": load.agree,
        "disagreement_kg": load.disagreement_kg,
        "drivers": driver_rows(stages),
        "breakout_why": load.breakout_why,
        "breakout_tries": list(_TRIES) if sticks else [],
        "breakout_hold": [{"minutes": m, "kg": kg, "source": source} for m, kg, source in load.breakout_hold],
        "breakout_time_law": load.liu,
        "bearing_pressure_pa": band_of(load.bearing_pressure),
        "warnings": list(load.warnings),
        "lift_points": thing.lift_points,
        "lies": thing.lies,
        "envelope_l": band_of(load.envelope, LITRES),
    }


def driver_rows(stages: Stages) -> list[dict[str, Any]]:
    """Give what drives the weight in water.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    list of dict
        ``input`` in words, ``key``, ``share``; largest first, ``together`` last.
    """
    if stages.load is None:
        return []
    seen = stages.asking.ensemble.inputs
    mine = {path: u for path, u in seen.items() if path.startswith(("object.", "material.", "load.", "site."))}
    rows = drivers(stages.load.wet_weight, mine)
    return [
        {"input": in_words(path), "key": path, "share": share}
        for path, share in rows
        if share >= _FEWEST or path == "together"
    ]


def measure_again(rows: list[dict[str, Any]]) -> str | None:
    """Say which one measurement narrows the weight most, where one does.

    Parameters
    ----------
    rows : list of dict
        Drivers, largest first.

    Returns
    -------
    str or None
        One sentence.
    """
    if not rows or rows[0]["key"] == "together" or rows[0]["share"] < _TELLS:
        return None
    return f"Find out again: {rows[0]['input']}. It is {_part(rows[0]['share'])} of the spread of the weight."


def _part(share: float) -> str:
    parts = ((0.9, "nearly all"), (0.7, "three quarters"), (0.6, "two thirds"), (0.45, "half"), (0.0, "a third"))
    return next(words for least, words in parts if share >= least)


def _basis(stages: Stages) -> str:
    """Say on what the weight rests: the estimates and where their numbers came from."""
    thing, load = stages.case.object, stages.load
    if load is None:
        return ""
    told = []
    if thing.part:
        ways = sorted({p.how for p in thing.part if p.how})
        told.append(f"parts ({', '.join(ways)})" if ways else "parts")
    told += [f"{m.how or 'measured'} by {m.by}" for m in thing.measured]
    told += [f"spring balance, {b.by}" for b in thing.balance] + [f"trial lift, {t.by}" for t in thing.trial]
    if thing.known_as:
        told.append(f"known as {thing.known_as}")
    return "; ".join(told)
