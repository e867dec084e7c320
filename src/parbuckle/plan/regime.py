"""Whose rules hold: those of the law, with those that the kit and the case set; what is written down, who is told."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Any

from parbuckle.case.regime import Limits, Regime
from parbuckle.case.regime import Notice as OwnNotice
from parbuckle.duties.records import Notice, Record, notices_for, records_for
from parbuckle.duties.regimes import Limit, OwnRules, limits_for
from parbuckle.plan.stages import Stages

Row = dict[str, Any]

_OWN = "own"


def own_rules(stages: Stages) -> tuple[OwnRules, ...]:
    """Give the limits that kit and case set, the kit's first.

    Parameters
    ----------
    stages : Stages
        Case and kit.

    Returns
    -------
    tuple of OwnRules
        In order.
    """
    return tuple(OwnRules(told.by, told.source, told.date, _limits(told.limits)) for told in _told(stages))


def own_roles(stages: Stages) -> tuple[tuple[str, str], ...]:
    """Give the roles that every dive must have by the rules of kit and case.

    Parameters
    ----------
    stages : Stages
        Case and kit.

    Returns
    -------
    tuple of (str, str)
        Role, and where it is written; each role once.
    """
    found = {role: _line(told) for told in _told(stages) for role in told.roles}
    return tuple(found.items())


def ratio_of(stages: Stages) -> int | None:
    """Give the most trainees to one instructor: the smaller one of lesson and own rules.

    Parameters
    ----------
    stages : Stages
        Case and kit.

    Returns
    -------
    int or None
        None where nobody set it.
    """
    own = limits_for(_country(stages), stages.case.case.rules, own_rules(stages)).get("ratio")
    lesson = stages.case.lesson.ratio if stages.case.lesson else None
    told = [ratio for ratio in (lesson, None if own is None else int(own.value)) if ratio is not None]
    return min(told, default=None)


def regime_section(stages: Stages, tidal: bool | None) -> Row:
    """Give the section ``regime`` of the document.

    Parameters
    ----------
    stages : Stages
        Case and kit.
    tidal : bool or None
        True in tidal waters; None: not known.

    Returns
    -------
    dict
        ``rules``, ``country``, and rows of ``limits``, ``roles``, ``records`` and ``notices``, each with its source,
        date and who set it.
    """
    case, country = stages.case.case, _country(stages)
    limits = limits_for(country, case.rules, own_rules(stages))
    records = [*records_for(country, case.rules), *_own_records(stages)]
    notices = [*notices_for(country, case.rules, case.purpose, tidal, limits), *_own_notices(stages)]
    return {
        "rules": case.rules,
        "country": country or None,
        "limits": [_limit(limit) for limit in limits.values()],
        "roles": [{"role": role, "source": source} for role, source in own_roles(stages)],
        "records": [_record(record) for record in records],
        "notices": [_notice(notice, stages) for notice in notices],
    }


def _told(stages: Stages) -> tuple[Regime, ...]:
    return (*(stages.kit.regime if stages.kit else ()), *stages.case.regime)


def _limits(told: Limits) -> dict[str, tuple[float, str]]:
    """What was told, in SI and as it was written."""
    given = {key: getattr(told, key) for key in type(told).model_fields}
    return {
        key: (float(value), str(value)) if isinstance(value, int) else (value.mid, value.text)
        for key, value in given.items()
        if value is not None
    }


def _country(stages: Stages) -> str:
    return (stages.kit.team.country or "") if stages.kit else ""


def _line(told: Regime) -> str:
    return f"{told.by}: {told.source}, {told.date.isoformat()}"


def _own_records(stages: Stages) -> Iterator[Record]:
    for told in _told(stages):
        for what in told.records:
            yield Record(what, (), "", _OWN, told.source, told.date.isoformat(), told.by)


def _own_notices(stages: Stages) -> Iterator[Notice]:
    for told in _told(stages):
        for row in told.notices:
            yield _own_notice(told, row)


def _own_notice(told: Regime, row: OwnNotice) -> Notice:
    within, time = (row.within.text, row.within.mid) if row.within else ("at once", None)
    counts = row.counts if row.within else "after it happens"
    return Notice(row.what, row.to or "", within, time, counts, _OWN, told.source, told.date.isoformat(), told.by)


def _limit(limit: Limit) -> Row:
    return {
        "key": limit.key,
        "value": limit.text,
        "meaning": limit.meaning,
        "instead_of": limit.instead.text if limit.instead else None,
        **_from(limit),
    }


def _record(record: Record) -> Row:
    return {
        "what": record.what,
        "contains": list(record.contains),
        "keep": record.keep or None,
        **_from(record),
    }


def _notice(notice: Notice, stages: Stages) -> Row:
    due = _due(notice, stages)
    return {
        "what": notice.what,
        "to": notice.to or None,
        "within": notice.within,
        "counts": notice.counts,
        "due": None if due is None else due.isoformat(timespec="minutes"),
        **_from(notice),
    }


def _from(row: Limit | Record | Notice) -> Row:
    return {"mark": row.mark, "source": row.source, "date": row.date, "by": row.by or None}


def _due(notice: Notice, stages: Stages) -> datetime | None:
    """The moment at which a clock runs out; None where it has none, or what it counts from is not told."""
    begins = {"after the lift": stages.when, "before the lift": stages.when, "after the loss": stages.case.case.lost}
    begin = begins.get(notice.counts)
    if begin is None or notice.time is None:
        return None
    return begin + timedelta(seconds=-notice.time if notice.counts == "before the lift" else notice.time)
