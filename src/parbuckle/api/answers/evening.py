"""Answers to the questions of the evening before."""

from __future__ import annotations

from typing import Literal

from parbuckle.api.answers.base import Answer
from parbuckle.api.answers.planned import Belongs, Stage, StageState


class Asked(Answer):
    """One question of the evening, with its answer."""

    n: int
    ask: str
    answer: str
    state: Literal["answered", "stop", "unanswered", "caution"]
    stage: Stage
    key: str
    what_to_do: str
    findings: list[str]


class Verdict(Answer):
    """The line above everything, and how many findings stand."""

    line: str
    stops: int
    unanswered: int
    cautions: int
    lifted: int


class TonightSaid(Belongs):
    """The questions of the evening."""

    verdict: Verdict
    stages: dict[Stage, StageState]
    questions: list[Asked]
