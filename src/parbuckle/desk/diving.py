"""The dives of a case, by themselves: the plan's part about who goes, for how long, with which gas."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from parbuckle.desk.planning import plan

_KEYS = ("schema", "program", "case", "draws", "verdict", "clock", "emergency", "unanswered", "cautions_footer")
_ALWAYS = ("stop", "unanswered")


def dive(path: Path, draws: int = 1024, seed: int = 1) -> dict[str, Any]:
    """Read a case and give what the plan says about its dives.

    Parameters
    ----------
    path : Path
        The case file.
    draws : int
        Number of draws.
    seed : int
        Seed.

    Returns
    -------
    dict
        ``dives``, ``findings`` and what stands around them; the same bytes for the same call.

    Raises
    ------
    CaseError
        If something in the files is written wrongly.
    """
    whole = plan(path, draws, seed)
    part = {key: whole[key] for key in _KEYS if key in whole}
    part["dives"] = whole.get("dives") or []
    part["findings"] = [row for row in whole["findings"] if _belongs(row)]
    return part


def _belongs(row: Mapping[str, Any]) -> bool:
    """Every stop and every open question stays; of the rest what a rule on dives and logs says."""
    from parbuckle.duties import rules_dive, rules_log

    return row["level"] in _ALWAYS or row["code"] in rules_dive.CODES | rules_log.CODES
