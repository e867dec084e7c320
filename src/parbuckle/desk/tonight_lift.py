"""Answers of the evening before about the lift: weight, bags, surplus, gas, places, what holds it."""

from __future__ import annotations

from typing import Any

from parbuckle.desk.tonight_words import Document, band, listed, safe, sentences

Said = tuple[str, str | None]
"""The answer; and what is still open, with how to say it in the case, or None."""

_HEAVY = ("carried", "hauled", "bag and line")
_NO_LOAD = "Say under Object what it is made of and how heavy, or name a known object."
_NO_BAGS = "Name a kit and its bags, or choose a way without bags under Lift."


def weight(document: Document) -> Said:
    """Answer: how heavy is it in the water, and where is that from.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    load = document.get("load")
    if load is None:
        return "Nothing says what it weighs.", _NO_LOAD
    drivers = [row["input"] for row in load["drivers"] if row["key"] != "together"]
    return (
        sentences(
            f"{band(document, load['wet_weight_kg'], 'mass')} in water",
            f"From: {load['basis']}",
            load["breakout_why"][:1].upper() + load["breakout_why"][1:],
            f"Most of the spread: {drivers[0]}" if drivers else None,
        ),
        None,
    )


def bags(document: Document) -> Said:
    """Answer: which bags, and what if it is the heavy or the light case.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    lift = document.get("lift")
    if lift is None or not lift.get("method"):
        needs = band(document, lift["required_kg"], "mass") if lift and lift.get("required_kg") else None
        told = sentences("No way up is worked out", f"It needs {needs} of lift" if needs else None)
        return told, _NO_BAGS if document.get("load") else _NO_LOAD
    if not lift.get("bags"):
        needs = band(document, lift.get("required_kg"), "mass") if lift.get("required_kg") else None
        return sentences(f"No bag: {lift['method']}", lift["method_why"], f"Needs {needs}" if needs else None), None
    rows = [f"{row['id']} {row['fill']}" for row in lift["bags"]]
    return (
        sentences(
            listed(rows),
            f"Stop filling at {safe(document, lift['ceiling_kg'], 'mass', up=False)} of lift"
            if lift.get("ceiling_kg")
            else None,
            f"Needed: {band(document, lift['required_kg'], 'mass')}" if lift.get("required_kg") else None,
            f"Free of the bottom it floats in {lift['chance_floats_words']}" if "chance_floats_words" in lift else None,
            _if_light(document, lift),
        ),
        None,
    )


def _if_light(document: Document, lift: dict[str, Any]) -> str | None:
    most = lift.get("surplus_at_most_kg")
    return None if most is None else f"If it is the light case: up to {safe(document, most, 'mass', up=True)} over"


def surplus(document: Document) -> Said:
    """Answer: how much is over at the second it lets go, and what stops it then.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    lift = document.get("lift") or {}
    if lift.get("surplus_at_most_kg") is None:
        if lift.get("method") == "lowered":
            return sentences("It is put down, not lifted", lift.get("catches")), None
        if lift.get("method") in _HEAVY:
            return sentences(
                f"Nothing: it comes up {lift['method']}, heavier than the water", lift.get("catches")
            ), None
        return "Not worked out: no bags are chosen.", _NO_BAGS
    now = lift.get("surplus_at_release_kg")
    return (
        sentences(
            f"Up to {safe(document, lift['surplus_at_most_kg'], 'mass', up=True)}",
            f"At the moment it comes free {band(document, now, 'mass')}" if now else None,
            f"Then: {lift['catches']}" if lift.get("catches") else "Nothing is named that stops it",
            lift.get("sentence") if lift.get("method") == "accompanied" else None,
        ),
        None,
    )


def lift_gas(document: Document) -> Said:
    """Answer: is there gas for the lift and a second try, in a cylinder that nobody breathes from.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    lift = document.get("lift") or {}
    if not lift:
        return "Not worked out: no way up is known.", _NO_BAGS
    if lift.get("free_gas_l") is None:
        return f"No lift gas is needed: {lift.get('method')}.", None
    needs = band(document, lift["free_gas_l"], "free_gas")
    cylinder = lift.get("cylinder")
    if cylinder is None:
        return f"All tries need {needs} of free gas.", "Name the lifting cylinder under Lift."
    usable = safe(document, cylinder["usable_l"], "free_gas", up=False)
    return (
        sentences(
            f"{cylinder['id']}, for lifting alone, gives {usable}",
            f"{cylinder['tries']} tries need {needs}" if cylinder.get("tries", 1) > 1 else f"One try needs {needs}",
            f"It is enough for {cylinder['enough_for_tries']}" if cylinder.get("enough_for_tries") else None,
        ),
        None,
    )


def places(document: Document) -> Said:
    """Answer: where does everybody stand, and where does the load go if it falls or drifts.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    wet = [f"{row['name']}: {row['place']}" for row in document["people"] if row["in_water"]]
    circles = document.get("circles")
    around = drift = None
    if circles and circles["bottom_m"] is not None:
        around = f"It can fall back inside {safe(document, circles['bottom_m'], 'length', up=True)} on the bottom"
        drift = f"It can come up inside {safe(document, circles['surface_m'], 'length', up=True)}"
        if circles["drift_towards_deg"] is not None:
            drift += f", and drifts towards {circles['drift_towards_deg']:03.0f}°"
    elif (document.get("lift") or {}).get("method"):
        around = "No circle is worked out for this way of lifting: nobody under the load, nobody in the bight of a line"
    answer = sentences(*wet, around, drift)
    if not wet:
        return answer or "Not planned.", "Write the team of the lift under Dive."
    return answer, None


def held(document: Document) -> Said:
    """Answer: is the hold-back or crown line in the plan, on the list, and in the bag.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    tuple of str and str or None
        The answer, and what is open.
    """
    asked, lift = document["asked"], document.get("lift") or {}
    back, crown = asked["restraint"], asked["crown_line"]
    parts = []
    if back and back["line"]:
        anchor = f" to an anchor of {back['anchor']}" if back["anchor"] else ""
        by = f", let go by: {back['released_by']}" if back["released_by"] else ""
        parts.append(f"Restraint {back['line']}{anchor}{by}")
    if crown and crown["line"]:
        parts.append(f"Crown line {crown['line']} to the {crown['to'] or 'load'}")
    if parts:
        return sentences(*parts, "See with your own eyes that it lies in the bag"), None
    if lift.get("method") in ("accompanied", "unaccompanied"):
        return f"None is in the plan ({lift['method']}). {lift.get('catches') or ''}".strip(), None
    if lift.get("method") == "lowered":
        return "None: it is put down, not lifted.", None
    if lift.get("method"):
        return f"None is needed for this way ({lift['method']}): it stays heavier than the water.", None
    return "No way up is worked out.", _NO_BAGS
