"""Documents of cases and kits: planned, and every value shown in both unit systems."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from parbuckle.quantity.errors import CaseError, RangeError

if TYPE_CHECKING:
    from parbuckle.quantity.spread import Spread

_DIGITS = re.compile(r"[0-9]+\.?[0-9]*")
_FEWEST, _MOST = 3, 6
"""Significant figures of an echo: never fewer than were typed, within these."""


def shown_values(case: Mapping[str, Any], kit: Mapping[str, Any] | None = None) -> dict[str, dict[str, Any]]:
    """Show every written value of a case and a kit in both unit systems.

    Parameters
    ----------
    case : mapping
        The written document of the case.
    kit : mapping, optional
        That of its kit.

    Returns
    -------
    dict
        By the key as it is shown (``object.part[2].mass``; of the kit ``kit.bag[1].really``): ``metric``, ``imperial``
        and ``range`` (low, likely, high in SI). A value that cannot be read is left out; its fault is told elsewhere.
    """
    from parbuckle.case.typed import typed_values
    from parbuckle.duties.house import house_rules

    rules = {rule.key: rule.kind for rule in house_rules()}
    return {key: echo(spread) for key, spread in typed_values(case, kit, rules)}


def shown_kit(kit: Mapping[str, Any]) -> dict[str, dict[str, Any]]:
    """Show every written value of a kit alone in both unit systems.

    Parameters
    ----------
    kit : mapping
        The written document of the kit.

    Returns
    -------
    dict
        As :func:`shown_values` gives it, by the keys of the kit itself: ``bag[1].really``.
    """
    return {key.removeprefix("kit."): row for key, row in shown_values({}, kit).items()}


def kit_faults_of(kit: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Say what is wrong in a kit alone.

    Parameters
    ----------
    kit : mapping
        The written document of the kit.

    Returns
    -------
    list of dict
        Faults as plain values.
    """
    from parbuckle.case.documents import check_kit

    return [fault.document() for fault in check_kit(kit)[1]]


def plan_documents(
    case: Mapping[str, Any], kit: Mapping[str, Any] | None, name: str, draws: int = 1024, seed: int = 1
) -> tuple[dict[str, Any] | None, list[dict[str, Any]]]:
    """Plan a case from its documents.

    Parameters
    ----------
    case : mapping
        The written document of the case.
    kit : mapping or None
        That of its kit.
    name : str
        Name of the case, where a file would have its file name.
    draws : int
        Number of draws.
    seed : int
        Seed.

    Returns
    -------
    tuple of dict or None and list of dict
        The plan document and no fault, or None and everything that is wrong.
    """
    from parbuckle.case.documents import check_documents, fault_of
    from parbuckle.plan.make import make_plan

    loaded, faults = check_documents(case, kit, name)
    if loaded is None:
        return None, [fault.document() for fault in faults]
    try:
        return make_plan(loaded, draws, seed).document, []
    except (CaseError, RangeError) as error:
        return None, [fault_of(error, case, kit).document()]


def trace_documents(
    case: Mapping[str, Any], kit: Mapping[str, Any] | None, name: str, plan: Mapping[str, Any], seed: int = 1
) -> dict[str, Any]:
    """Follow the lift of a planned case once, every input at its middle, step by step.

    Parameters
    ----------
    case : mapping
        The written document of the case.
    kit : mapping or None
        That of its kit.
    name : str
        Name of the case.
    plan : mapping
        Its plan document: the set of bags is taken from it.
    seed : int
        Seed.

    Returns
    -------
    dict
        ``trace_of`` (None without a lift) and ``trace``: rows of ``t_s``, ``depth_m``, ``speed_m_s`` and
        ``bag_volumes_l``.

    Raises
    ------
    CaseError
        If something in the documents is written wrongly.
    """
    from parbuckle.case.documents import read_documents
    from parbuckle.desk.ascending import follow

    loaded = read_documents(case, kit, name)
    return follow(loaded, plan["lift"], seed) if plan.get("lift") else {"trace_of": None, "trace": []}


def echo(spread: Spread) -> dict[str, Any]:
    """Show one value in both unit systems, with no fewer figures than were typed.

    Parameters
    ----------
    spread : Spread
        The value.

    Returns
    -------
    dict
        ``metric``, ``imperial`` and ``range`` (low, likely, high in SI).
    """
    from parbuckle.quantity.shown import SHOWN, show_band
    from parbuckle.quantity.units import from_si, words

    if spread.kind in ("hand", "arms"):
        return {"metric": spread.text, "imperial": spread.text, "range": None}
    three = (spread.low, spread.mid, spread.high)
    if spread.kind == "days":
        return {"metric": spread.text, "imperial": spread.text, "range": list(three)}
    kind = "length" if spread.kind == "touched" else spread.kind
    knots = "stream" if kind == "speed" and spread.text.strip().endswith("kn") else kind
    row = SHOWN[kind]
    based = [from_si(value, words(row.dimension)[row.base]) if row.base else value for value in three]
    band = dict(zip(("low", "likely", "high"), based, strict=True))
    typed = max((len(n.replace(".", "").lstrip("0")) for n in _DIGITS.findall(spread.text)), default=_FEWEST)
    digits = min(max(typed, _FEWEST), _MOST)
    first, second = show_band(band, kind, "metric", digits), show_band(band, knots, "imperial", digits)
    return {"metric": first, "imperial": second, "range": list(three)}
