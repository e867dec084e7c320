"""Plan a case: from the file to the one document that every face prints."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from parbuckle.quantity.errors import CaseError, RangeError


def plan(path: Path, draws: int = 1024, seed: int = 1) -> dict[str, Any]:
    """Read a case, work it out, give the plan document.

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
        The plan document; the same bytes for the same case, draws and seed.

    Raises
    ------
    CaseError
        If something in the files is written wrongly.
    """
    from parbuckle.case.located import located
    from parbuckle.desk.reading import whole_case
    from parbuckle.plan.make import make_plan

    loaded = whole_case(path)
    try:
        return make_plan(loaded, draws, seed).document
    except (CaseError, RangeError) as error:
        raise located(error, path) from error
