"""A case with everything that lies beside it: its kit, and the logs of dives that were made before."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from parbuckle.case.read import LoadedCase


def whole_case(path: Path) -> LoadedCase:
    """Read a case with its kit and its logs.

    Parameters
    ----------
    path : Path
        The case file.

    Returns
    -------
    LoadedCase
        Ready for a plan.

    Raises
    ------
    CaseError
        If something in one of the files is written wrongly.
    """
    from parbuckle.case.located import located
    from parbuckle.case.read import read_case
    from parbuckle.quantity.errors import CaseError

    loaded = read_case(path)
    if all(row.log is None for row in loaded.case.exposure.earlier):
        return loaded
    from parbuckle.record.past import with_past

    try:
        return with_past(loaded)
    except CaseError as error:
        raise located(error, path) from error
