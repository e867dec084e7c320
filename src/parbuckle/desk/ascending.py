"""The ascent of a case, by itself: the plan's part about the way up, with other bags if asked, and its trace."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from parbuckle.quantity.errors import CallError, CaseError, RangeError

if TYPE_CHECKING:
    from parbuckle.case.read import LoadedCase

WITH_BAGS = ("accompanied", "unaccompanied", "bag and line")
"""Ways up that use bags; asked for a set of bags, any other one gives way to the first."""

_KEYS = ("schema", "program", "case", "draws", "verdict", "circles", "unanswered", "cautions_footer")
_OF_THE_LIFT = ("method", "method_given", "method_why", "proposed", "bags", "filling", "alternatives", "required_kg")
_ALWAYS = ("stop", "unanswered")
_ABOUT = (
    "bag_part_full",
    "bag_unmeasured",
    "chance_on_edge",
    "control_unsure",
    "crown_line_short",
    "crown_line_weak",
    "half_flooded",
    "keep_clear",
    "line_goes_light",
    "lower_by_bag_alone",
    "lower_hands_short",
    "lower_over_limit",
    "much_can_grow",
    "no_rate_reference",
    "pull_unmeasured",
    "several_bags",
    "sinks_back",
    "spills_at_surface",
)


def ascend(
    path: Path, bags: Sequence[str] = (), draws: int = 1024, seed: int = 1, trace: bool = False
) -> dict[str, Any]:
    """Read a case and give what the plan says about the way up.

    Parameters
    ----------
    path : Path
        The case file.
    bags : sequence of str
        Ids of the bags to take; empty: as the case says.
    draws : int
        Number of draws.
    seed : int
        Seed.
    trace : bool
        True adds one ascent with all inputs at their middle, step by step.

    Returns
    -------
    dict
        ``lift``, ``ascent``, ``findings`` and what stands around them; the same bytes for the same call.

    Raises
    ------
    CaseError
        If something in the files is written wrongly.
    CallError
        If a bag is not in the kit.
    """
    from parbuckle.case.located import located
    from parbuckle.desk.reading import whole_case
    from parbuckle.plan.make import make_plan

    loaded = _with_bags(whole_case(path), tuple(bags))
    try:
        document = _part(make_plan(loaded, draws, seed).document)
        return document | follow(loaded, document["lift"], seed) if trace else document
    except (CaseError, RangeError) as error:
        raise located(error, path) from error


def _part(plan: Mapping[str, Any]) -> dict[str, Any]:
    """Take the part about the way up out of a plan; every stop and every open question stays."""
    lift = plan.get("lift") or {}
    part = {key: plan[key] for key in _KEYS if key in plan}
    part["lift"] = {key: lift[key] for key in _OF_THE_LIFT if key in lift}
    part["ascent"] = plan.get("ascent")
    part["findings"] = [row for row in plan["findings"] if row["level"] in _ALWAYS or row["code"] in _ABOUT]
    return part


def _with_bags(loaded: LoadedCase, bags: tuple[str, ...]) -> LoadedCase:
    """Put the asked bags into a case, as if they stood there."""
    if not bags:
        return loaded
    owned = [bag.id for bag in loaded.kit.bag] if loaded.kit else []
    unknown = [bag for bag in bags if bag not in owned]
    if unknown:
        raise CallError(f"no bag {', '.join(unknown)} in the kit; it has {', '.join(owned) or 'no bags'}")
    if len(set(bags)) < len(bags):
        raise CallError(f"a bag stands twice in {', '.join(bags)}; a set names each bag once")
    asked = loaded.case.lift.method
    return _settled(loaded, bags, asked if asked in WITH_BAGS else WITH_BAGS[0])


def _settled(loaded: LoadedCase, bags: tuple[str, ...], method: str) -> LoadedCase:
    lift = loaded.case.lift.model_copy(update={"bags": bags, "method": method})
    return replace(loaded, case=loaded.case.model_copy(update={"lift": lift}))


def follow(loaded: LoadedCase, lift: Mapping[str, Any], seed: int = 1) -> dict[str, Any]:
    """Follow the set that the whole ensemble chose, all inputs at their middle.

    Parameters
    ----------
    loaded : LoadedCase
        Case and kit.
    lift : mapping
        The ``lift`` section of its plan.
    seed : int
        Seed.

    Returns
    -------
    dict
        ``trace_of`` and ``trace``; see :func:`parbuckle.plan.trace.trace_of`.
    """
    from parbuckle.plan.trace import trace_of

    chosen = tuple(bag["id"] for bag in lift.get("bags") or [] if bag["fill"] != "empty")
    return trace_of(_settled(loaded, chosen, lift["method"]) if chosen else loaded, seed)
