"""One finding, the override that lifts a stop, and the verdict in one line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from parbuckle.duties.catalogue import LEVELS, Level


@dataclass(frozen=True, slots=True)
class Override:
    """A stop that the supervisor lifts in writing.

    Parameters
    ----------
    code : str
        Code of the stop.
    by : str
        Who lifts it.
    reason : str
        Why.
    at : str
        When, as ISO text with its offset.
    """

    code: str
    by: str = ""
    reason: str = ""
    at: str = ""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that the rules say of a case.

    Parameters
    ----------
    level : str
        ``stop``, ``unanswered``, ``caution`` or ``note``; a lifted stop keeps its level.
    code : str
        Its code.
    text : str
        One sentence or two, with value and limit worded.
    value : float, str or None
        What was measured (SI) or told.
    limit : float, str or None
        What it is held against (SI).
    source : str
        Where the rule comes from.
    override : str
        ``never`` or ``reason``.
    do : str
        What to do.
    lifted : Override or None
        Who lifted it, why and when; None while it holds.
    """

    level: Level
    code: str
    text: str
    value: float | str | None
    limit: float | str | None
    source: str
    override: str
    do: str
    lifted: Override | None = None

    @property
    def holds(self) -> bool:
        """True while nobody lifted it."""
        return self.lifted is None

    def document(self) -> dict[str, Any]:
        """Give it as it stands in the plan document.

        Returns
        -------
        dict
            Plain values only.
        """
        lifted = self.lifted and {"by": self.lifted.by, "reason": self.lifted.reason, "at": self.lifted.at}
        return {
            "level": self.level,
            "code": self.code,
            "text": self.text,
            "value": self.value,
            "limit": self.limit,
            "source": self.source,
            "override": self.override,
            "do": self.do,
            "lifted": lifted,
        }


def verdict(findings: Sequence[Finding]) -> dict[str, Any]:
    """Sum the findings up in one line; the plan is never called ready, that is the supervisor's signature.

    Parameters
    ----------
    findings : sequence of Finding
        What the rules say.

    Returns
    -------
    dict
        ``line``, and the numbers ``stops`` (that hold), ``unanswered``, ``cautions`` and ``lifted``.

    Examples
    --------
    >>> verdict(())["line"]
    'No stop found in what you told me.'
    """
    counts = {level: sum(f.level == level and f.holds for f in findings) for level in LEVELS}
    return {
        "line": _line(counts["stop"], counts["unanswered"]),
        "stops": counts["stop"],
        "unanswered": counts["unanswered"],
        "cautions": counts["caution"],
        "lifted": sum(not f.holds for f in findings),
    }


def _line(stops: int, unanswered: int) -> str:
    """The verdict in words."""
    asked = "1 question is not answered." if unanswered == 1 else f"{unanswered} questions are not answered."
    if stops:
        holds = "1 stop holds." if stops == 1 else f"{stops} stops hold."
        return f"STOP: {holds} {asked}" if unanswered else f"STOP: {holds}"
    return f"No stop found in what you told me, but {asked}" if unanswered else "No stop found in what you told me."
