"""Tonight: the twenty questions of the evening before, each answered out of the plan document, or said to be open."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from parbuckle.desk import tonight_day as day
from parbuckle.desk import tonight_lift as lift
from parbuckle.desk import tonight_told as told
from parbuckle.desk.finding_places import finding_places, level_of, place_of_finding, stage_states
from parbuckle.desk.tonight_lift import Said
from parbuckle.desk.tonight_words import Document, with_lifting

_WORST = ("stop", "unanswered", "caution")
_MOST = 3
"""Most findings that are told under one question; the stage has them all."""

_MISSING = {
    "kit.cylinder": "dive.team.cylinder",
    "kit": "kit.bag",
    "lift.cylinder": "lift.cylinder",
    "lift": "lift.bags",
    "lowering": "lowering.way",
    "surface": "surface.then",
    "site.stream": "site.stream",
    "site.tide": "site.tide",
    "site": "lift.bags",
    "dive": "dive.start",
    "breathing": "dive.team.cylinder",
    "account": "account",
    "search": "search.speed",
}
"""On which of the keys below a missing input weighs, by the start of its key."""


@dataclass(frozen=True, slots=True)
class _Asked:
    """One question: its words, who answers it, where it is decided, and the keys whose findings weigh on it."""

    ask: str
    answer: Callable[[Document], Said]
    stage: str
    key: str
    keys: tuple[str, ...]


_QUESTIONS = (
    _Asked(
        "When is slack, how long is it, and does the work fit in it?", day.slack, "dive", "site.stream",
        ("site.stream", "site.tide", "limits.stream", "dive.start", "search.minutes"),
    ),
    _Asked(
        "How heavy is it in the water, and where is that from?", lift.weight, "object", "object.part",
        ("object", "object.part", "object.cavity", "object.bed.buried", "object.bed.days", "site.bottom",
         "lesson.wet_weight"),
    ),
    _Asked(
        "Which bags, and what if it is heavy, or light?", lift.bags, "lift", "lift.bags",
        ("lift.bags", "lift.method", "surface.then", "lift.kept_heavy", "lowering.way", "lowering.line"),
    ),
    _Asked(
        "How much is over the second it lets go, and what stops it then?", lift.surplus, "lift", "lift.restraint",
        ("lift.tender", "lift.rate.ceiling", "lift.rate.target", "lift.reference", "lift.leave_load_at",
         "kit.bag.pull"),
    ),
    _Asked(
        "Is there gas for the lift and a second try, in a cylinder that nobody breathes from?", lift.lift_gas, "lift",
        "lift.cylinder", ("lift.cylinder",),
    ),
    _Asked(
        "Turn pressures, and the reserve down there?", day.breathing, "dive", "dive.team.cylinder",
        ("dive.team.cylinder", "dive.tasks", "exposure.earlier", "search"),
    ),
    _Asked(
        "Who is in the water, who is standby, who watches? All current and fit?", told.people, "dive", "dive.team",
        ("dive", "dive.team", "dive.team.ready_in", "dive.tasks.check", "lesson.ratio"),
    ),
    _Asked(
        "Where does everybody stand, and where does it go if it falls or drifts?", lift.places, "lift", "dive.team",
        ("surface.hang",),
    ),
    _Asked(
        "Is the hold-back or crown line in the plan, on the list, in the bag?", lift.held, "lift", "lift.restraint",
        ("lift.restraint", "lift.restraint.anchor", "lift.restraint.released_by", "lift.crown_line", "lift.rigging",
         "surface.line_to_surface", "object.lift_points"),
    ),
    _Asked(
        "What are the stop rules, and may everybody call one?", told.stop_rules, "call", "limits",
        ("limits", "limits.visibility", "site.visibility", "site.temperature"),
    ),
    _Asked("Which signals, all of one set?", told.signals, "brief", "agreed.signals", ("emergency.comms",)),
    _Asked(
        "How and when does the boat come in, which flag is up?", told.boat, "brief", "agreed.flag",
        ("hazards.traffic",),
    ),
    _Asked(
        "Is anything here a legal stop?", told.legal, "call", "hazards",
        ("hazards", "hazards.ordnance", "hazards.remains_or_evidence", "hazards.protected", "hazards.fuel",
         "hazards.electrics", "hazards.snags", "permission.site", "case.lost"),
    ),
    _Asked(
        "Who said yes, and where is that written?", told.permission, "call", "permission",
        ("permission", "permission.owner", "permission.insurer"),
    ),
    _Asked(
        "What gear is out of date, set aside, missing, or not of that size?", day.gear, "lift", "kit",
        ("kit.bag", "kit.team.country"),
    ),
    _Asked(
        "If we find it: how is it marked, what do we come up with?", day.found, "search", "search",
        ("search.trial", "search.speed", "search.line", "search.pass", "search.area"),
    ),
    _Asked("If we do not find it: what next?", day.not_found, "search", "account", ("account", "account.distance")),
    _Asked("If something goes wrong: who is called, from where?", told.emergency, "brief", "emergency", ("emergency",)),
    _Asked("What must be on paper?", day.paper, "brief", "case.title", ("override", "house")),
    _Asked(
        "If it is training: the truth, who watches whom, what stops it?", day.lesson, "dive", "lesson",
        ("lesson.deepest", "lesson.sums"),
    ),
)  # fmt: skip


def tonight(document: Document) -> dict[str, Any]:
    """Answer the twenty questions of the evening before.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    dict
        ``verdict``, ``stages`` (state of each stage) and ``questions``: ``n``, ``ask``, ``answer``, ``state``
        (``stop``, ``unanswered``, ``caution`` or ``answered``), ``stage``, ``key``, ``what_to_do`` and ``findings``
        (codes that weigh on it).
    """
    rows = [_row(number, asked, document) for number, asked in enumerate(_QUESTIONS, 1)]
    return {"verdict": dict(document["verdict"]), "stages": stage_states(document), "questions": rows}


def _row(number: int, asked: _Asked, document: Document) -> dict[str, Any]:
    answer, lacking = asked.answer(document)
    weighing = [row for row in document["findings"] if _key(row, document) in asked.keys]
    worst = next((level for level in _WORST if any(level_of(row) == level for row in weighing)), "answered")
    state = "unanswered" if lacking and worst != "stop" else worst
    return {
        "n": number,
        "ask": asked.ask,
        "answer": answer,
        "state": state,
        "stage": asked.stage,
        "key": asked.key,
        "what_to_do": _to_do(lacking, [row for row in weighing if level_of(row) == state]),
        "findings": [row["code"] for row in weighing],
    }


def _to_do(lacking: str | None, rows: list[dict[str, Any]]) -> str:
    """What is open comes alone; else the first findings of that state, and how many more there are."""
    if lacking and not any(level_of(row) == "stop" for row in rows):
        return lacking
    texts = list(dict.fromkeys(with_lifting(row) if row["lifted"] else f"{row['text']} {row['do']}" for row in rows))
    more = f"And {len(texts) - _MOST} more." if len(texts) > _MOST else ""
    return " ".join(part for part in (*texts[:_MOST], more, lacking) if part)


def _key(row: dict[str, Any], document: Document) -> str:
    """The key that a finding hangs on; a missing input weighs where it is used."""
    if row["code"] != "input_missing":
        return finding_places()[row["code"]]["key"]
    key = place_of_finding(row, document)["key"]
    return next((place for start, place in _MISSING.items() if key.startswith(start)), "object")
