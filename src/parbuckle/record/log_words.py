"""What a logged dive says, in plain sentences."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from parbuckle.quantity.shown import show


def words_of(row: Mapping[str, Any], units: str) -> list[dict[str, str]]:
    """Say what a log shows that the team should talk about.

    Parameters
    ----------
    row : mapping
        One row of ``logs``.
    units : str
        ``metric`` or ``imperial``.

    Returns
    -------
    list of dict
        ``level`` (``caution`` or ``note``) and ``text``; cautions first.
    """
    rows = [*_of_the_way_up(row, units), *_of_limits(row), *_of_the_plan(row.get("plan") or {}, units)]
    return sorted(({"level": level, "text": text} for level, text in rows), key=lambda said: said["level"])


def _of_the_way_up(row: Mapping[str, Any], units: str) -> Iterator[tuple[str, str]]:
    ascent = row["ascent"]
    for fast in ascent["too_fast"]:
        fastest = show(fast["fastest_m_min"], "rate", units)
        yield (
            "caution",
            f"Rapid ascent: up to {fastest} over {ascent['over_s']:.0f} s, ending at "
            f"{show(fast['at_m'], 'length', units)}, {_clock(fast['to_s'])} into the dive; "
            f"the limit is {show(ascent['limit_m_min'], 'rate', units)}.",
        )
    if row["sawtooth"]:
        yield "caution", f"Sawtooth: {show(row['tooth_m'], 'length', units)} up and down again in one dive."


def _of_limits(row: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    model, table, oxygen = row["model"], row["table"], row["oxygen"]
    if not model["limit_kept"]:
        yield "caution", "The model's own limit was passed: the tissues held more than it allows."
    elif not model["ceiling_kept"]:
        yield (
            "caution",
            f"The ceiling with gradient factor {model['factor']:.2f} was passed "
            f"for {model['over_ceiling_min']:.1f} min.",
        )
    if table["known"] and not table["within"]:
        limit = f"{table['no_stop_min']:.0f} min" if table["no_stop_min"] is not None else "no limit"
        yield (
            "caution",
            f"Bottom time {row['bottom_time_min']:.1f} min is over the Navy table's no-stop limit of {limit}.",
        )
    if not table["known"]:
        yield "note", f"The Navy table has no answer: {table['why']}"
    if oxygen["single_share"] is None:
        yield "caution", f"Oxygen pressure reached {oxygen['highest_bar']:.2f} bar: no time is allowed there."
    elif oxygen["single_share"] > 1.0:
        yield "caution", f"{oxygen['single_share']:.0%} of the single oxygen limit was used."
    if not row["gas_told"]:
        yield "note", "The log names no gas; it counts as air."


def _of_the_plan(plan: Mapping[str, Any], units: str) -> Iterator[tuple[str, str]]:
    if not plan:
        yield "note", "No planned dive belongs to this log: none starts near it. Name one with --dive."
        return
    if plan["past_long_end"]:
        yield (
            "caution",
            f"Bottom time was {plan['longer_by_min']:.0f} min longer than likely, past the long end of the plan.",
        )
    if plan["deeper_by_m"] > 0.0:
        yield "caution", f"The dive went {show(plan['deeper_by_m'], 'length', units)} deeper than the plan's deepest."
    for stop in plan["stops"]:
        if not stop["made"]:
            yield (
                "caution",
                f"Stop missed: {stop['min']:.0f} min at {show(stop['depth_m'], 'length', units)} were planned, "
                f"{stop['made_min']:.1f} min were made.",
            )
    if plan["left_late_on_gas"]:
        yield (
            "caution",
            f"The bottom was left under the planned {show(plan['leave_bottom_bar'], 'pressure', units, 3)}.",
        )


def _clock(seconds: float) -> str:
    minutes, rest = divmod(int(seconds), 60)
    return f"{minutes}:{rest:02d}"
