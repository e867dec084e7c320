"""What the rules of the house look at: plain values out of the case and the results."""

from __future__ import annotations

from datetime import datetime
from itertools import chain

from parbuckle.case.written import answered
from parbuckle.duties.facts import Answers, Clock, Facts, Lesson, SiteFacts
from parbuckle.duties.log_facts import LogFacts
from parbuckle.duties.rules_emergency import CARDS
from parbuckle.plan.emergency import place_in, position_apart
from parbuckle.plan.facts_control import control_facts
from parbuckle.plan.facts_dives import diving_facts
from parbuckle.plan.facts_lift import bag_facts, gas_facts, lift_facts, rig_facts, surface_facts
from parbuckle.plan.facts_load import load_facts
from parbuckle.plan.facts_search import search_facts
from parbuckle.plan.facts_team import dive_facts, intervals_age, kit_facts
from parbuckle.plan.people import lift_dive
from parbuckle.plan.regime import own_roles, own_rules, ratio_of
from parbuckle.plan.stages import Stages
from parbuckle.quantity.band import HIGH, at_share
from parbuckle.quantity.spread import Spread

_AIR = "air"
_ASKED_ELSEWHERE = ("site.tide", "site.stream")  # the rules on the water of each dive ask for them


def facts_of(stages: Stages) -> Facts:
    """Gather everything that the rules look at.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    Facts
        Plain values; what is not known is left out.
    """
    case = stages.case
    return Facts(
        purpose=case.case.purpose,
        rules=case.case.rules,
        country=(stages.kit.team.country or "") if stages.kit else "",
        units=case.case.units,
        answers=_answers(stages),
        site=_site(stages),
        load=load_facts(stages),
        lift=lift_facts(stages),
        control=control_facts(stages),
        bags=bag_facts(stages),
        gas=gas_facts(stages),
        rigging=rig_facts(stages),
        surface=surface_facts(stages),
        dives=dive_facts(stages),
        diving=diving_facts(stages),
        logs=_logs(stages),
        search=search_facts(stages),
        kit=kit_facts(stages),
        intervals_age=intervals_age(stages),
        clock=_clock(stages),
        lesson=_lesson(stages),
        own_rules=own_rules(stages),
        own_roles=own_roles(stages),
        cut=tuple(stages.asking.ensemble.cuts),
        lacking=tuple(
            (row["key"], row["why"]) for row in stages.asking.unanswered if row["key"] not in _ASKED_ELSEWHERE
        ),
        assumed=tuple(sentence.split(":")[0] for _, sentence in stages.asking.assumed),
    )


def _answers(stages: Stages) -> Answers:
    case = stages.case
    hazards, permission, emergency, limits = case.hazards, case.permission, case.emergency, case.limits
    words = {
        **{name: getattr(hazards, name) for name in type(hazards).model_fields},
        **{name: getattr(permission, name) for name in type(permission).model_fields},
        **{name: getattr(emergency, name) for name in ("call", "position", "help", "recall", "comms", *CARDS)},
        "lift_points": case.object.lift_points,
    }
    if stages.tending is not None and not answered(emergency.runaway):
        words["runaway"] = "the plan's own card"
    return Answers(
        **{name: text or "" for name, text in words.items()},
        position_apart=position_apart(stages),
        position_in_words=answered(emergency.position) and place_in(emergency.position)[0] is None,
        limit_visibility=_end(limits.visibility, "high"),
        limit_stream=_end(limits.stream, "low"),
        limit_wind=_end(limits.wind, "low"),
    )


def _site(stages: Stages) -> SiteFacts:
    site, problem = stages.case.site, stages.load_problem
    told = site.bottom is not None and answered(site.bottom)
    return SiteFacts(
        depth=at_share(stages.site.depth, HIGH),
        temperature=_end(site.temperature, "low"),
        visibility=_end(site.visibility, "low"),
        bottom=site.bottom or "",
        bottom_soft=problem.bottom.cohesive if problem is not None and told else None,
        tidal=tidal_water(stages),
        stream_told=bool(site.stream),
        on_air=_on_air(stages),
    )


def tidal_water(stages: Stages) -> bool | None:
    """Tell whether the place is tidal sea or brackish water.

    Parameters
    ----------
    stages : Stages
        Case and site.

    Returns
    -------
    bool or None
        None when it is not known.
    """
    site = stages.case.site
    return bool(site.tide or site.stream) or (stages.site.salinity > 1.0 if site.water is not None else None)


def _on_air(stages: Stages) -> bool | None:
    cylinders = {c.id: c for c in stages.kit.cylinder} if stages.kit else {}
    used = [m.cylinder for m in chain.from_iterable(d.team for d in stages.case.dive) if m.cylinder in cylinders]
    if not used:
        return None
    return any(cylinders[name].gas.text == _AIR for name in used)


def _clock(stages: Stages) -> Clock:
    case, when = stages.case, stages.when
    lost, light = case.case.lost, case.site.daylight_until
    up = _surfacing(stages, when)
    starts = [d.start for d in case.dive if d.start is not None]
    last = max(starts) if starts else None
    return Clock(
        since_lost=(when - lost).total_seconds() if when and lost else None,
        daylight_left=(light - when).total_seconds() - up if light and when else None,
        start_hour=(last.hour * 3600.0 + last.minute * 60.0) if last else None,
    )


def _surfacing(stages: Stages, when: datetime | None) -> float:
    """Time from the start of the lift to the last diver up, by its tasks' long ends and the ascent, s."""
    dive = lift_dive(stages.case)
    if dive is None or when is None:
        return 0.0
    tasks = sum(t.time.high for t in dive.tasks if t.time is not None)
    return tasks + at_share(stages.site.depth, HIGH) / stages.house["ceiling"]


def _lesson(stages: Stages) -> Lesson | None:
    lesson = stages.case.lesson
    if lesson is None:
        return None
    return Lesson(
        wet_low=_end(lesson.wet_weight, "low"),
        wet_high=_end(lesson.wet_weight, "high"),
        deepest=_end(lesson.deepest, "high"),
        sums_ashore=None if lesson.sums is None else lesson.sums == "ashore",
        ratio=ratio_of(stages),
    )


def _logs(stages: Stages) -> tuple[LogFacts, ...]:
    """The logged dives that count as made before, each with whose it was."""
    earlier = stages.case.exposure.earlier
    return tuple(
        LogFacts(
            label=past.file,
            fast=past.fast,
            tooth=past.tooth,
            bottom_time=past.bottom_time,
            gas_told=bool(past.switches),
            deepest=max(past.depth),
            counts_for=earlier[place].person,
        )
        for place, dives in stages.loaded.past.items()
        for past in dives
    )


def _end(value: Spread | None, end: str) -> float | None:
    return None if value is None else float(getattr(value, end))
