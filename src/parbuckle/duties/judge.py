"""From facts to findings: run every rule, word what fired, apply the overrides, sort."""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Sequence
from dataclasses import replace

from parbuckle.duties import (
    rules_answers,
    rules_bags,
    rules_control,
    rules_dive,
    rules_emergency,
    rules_gas,
    rules_kit,
    rules_lift,
    rules_load,
    rules_log,
    rules_other_ways,
    rules_regime,
    rules_rigging,
    rules_search,
    rules_site,
    rules_team,
)
from parbuckle.duties.catalogue import LEVELS, Entry, catalogue
from parbuckle.duties.facts import Facts
from parbuckle.duties.finding import Finding, Override
from parbuckle.duties.hit import Hit, Rule
from parbuckle.duties.house import House
from parbuckle.duties.wording import worded
from parbuckle.quantity.errors import CaseError

RULES: tuple[Rule, ...] = (
    *rules_answers.RULES,
    *rules_lift.RULES,
    *rules_other_ways.RULES,
    *rules_control.RULES,
    *rules_bags.RULES,
    *rules_gas.RULES,
    *rules_rigging.RULES,
    *rules_load.RULES,
    *rules_team.RULES,
    *rules_dive.RULES,
    *rules_emergency.RULES,
    *rules_log.RULES,
    *rules_search.RULES,
    *rules_site.RULES,
    *rules_kit.RULES,
    *rules_regime.RULES,
)
"""Every rule."""


def judge(
    facts: Facts, house: House, overrides: Sequence[Override] = (), rules: Sequence[Rule] = RULES
) -> tuple[Finding, ...]:
    """Run every rule on the facts of one case.

    A complete override lifts every stop of its code whose catalogue entry says ``reason``: the finding keeps its level
    and carries who, why and when. A stop of the other kind stays, and the try is a stop of its own. An incomplete
    override lifts nothing.

    Parameters
    ----------
    facts : Facts
        What is known.
    house : House
        The house rules.
    overrides : sequence of Override
        Stops that the supervisor lifts.
    rules : sequence of Rule
        Which rules; left out: every one.

    Returns
    -------
    tuple of Finding
        Stops that hold, then what is not answered, lifted stops, cautions, notes; within each in the order of the
        catalogue.

    Raises
    ------
    CaseError
        If an override names a code that does not exist.

    Notes
    -----
    Source: the project's own list of stops and cautions; each code names the source of its rule.
    """
    for number, override in enumerate(overrides, start=1):
        _check_code(number, override)
    entries = catalogue()
    hits = [hit for rule in rules for hit in rule(facts, house)]
    kept = [hit for hit in hits if hit.source or entries[hit.code].applies(facts.country, facts.rules)]
    found = [_finding(entries[hit.code], hit, facts.units) for hit in kept]
    lifted = [_lift(finding, overrides) for finding in found]
    extra = [_finding(entries[hit.code], hit, facts.units) for hit in _of_overrides(found, overrides)]
    return tuple(sorted([*lifted, *extra], key=_rank))


def _finding(entry: Entry, hit: Hit, units: str) -> Finding:
    """Word one hit."""
    text = entry.text_bare if entry.text_bare and _lacks(entry.text, hit) else entry.text
    return Finding(
        level=entry.level,
        code=entry.code,
        text=worded(text, entry.kind, hit, units),
        value=hit.value,
        limit=hit.limit,
        source=hit.source or entry.source,
        override=entry.override,
        do=worded(entry.do, entry.kind, hit, units),
    )


def _lacks(text: str, hit: Hit) -> bool:
    """True when the sentence speaks of a value or a limit that is not known."""
    return ("{value}" in text and hit.value is None) or ("{limit}" in text and hit.limit is None)


def _missing(override: Override) -> list[str]:
    """What an override leaves out."""
    return [name for name in ("by", "reason", "at") if not getattr(override, name).strip()]


def _lift(finding: Finding, overrides: Sequence[Override]) -> Finding:
    """A stop with its override, where it may be lifted and the override is complete."""
    if finding.level != "stop" or finding.override != "reason":
        return finding
    complete = [o for o in overrides if o.code == finding.code and not _missing(o)]
    return replace(finding, lifted=complete[-1]) if complete else finding


def _of_overrides(found: Sequence[Finding], overrides: Sequence[Override]) -> Iterator[Hit]:
    """What is wrong with the overrides themselves."""
    by_code = {finding.code: finding for finding in found}
    for override in overrides:
        finding = by_code.get(override.code)
        if finding is None:
            yield Hit("override_unused", override.code, None, override.code)
        elif finding.override == "never":
            yield Hit("override_refused", override.by, None, override.code)
        elif _missing(override):
            yield Hit("override_incomplete", ", ".join(_missing(override)), None, override.code)


def _rank(finding: Finding) -> tuple[int, int, int]:
    """Stops that hold, unanswered, lifted stops, cautions, notes; within each the order of the catalogue."""
    shown_as = LEVELS.index(finding.level if finding.holds else "unanswered")
    return (shown_as, 0 if finding.holds else 1, list(catalogue()).index(finding.code))


def _check_code(number: int, override: Override) -> None:
    """An override names a code of the catalogue."""
    if override.code not in catalogue():
        near = difflib.get_close_matches(override.code, list(catalogue()), n=1)
        raise CaseError(
            "there is no finding with this code",
            key=f"override[{number}].code",
            given=override.code,
            allowed="the code of a stop, as the plan prints it",
            do=f"did you mean {near[0]}?" if near else "copy the code from the plan",
        )
