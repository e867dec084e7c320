"""The frozen plan: the stages' results, the findings and the one document that every view prints."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from parbuckle.duties.finding import Finding
from parbuckle.plan.stages import Stages


@dataclass(frozen=True)
class Plan:
    """A case worked out.

    Parameters
    ----------
    stages : Stages
        Problems and results.
    findings : tuple of Finding
        What the rules say, stops first.
    document : dict
        What views print; plain values only.
    """

    stages: Stages
    findings: tuple[Finding, ...]
    document: dict[str, Any]

    @property
    def open(self) -> bool:
        """True while a stop holds or a question that must be answered is not."""
        return any(f.holds and f.level in ("stop", "unanswered") for f in self.findings)
