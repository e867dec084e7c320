"""Put file and line to an error that a later stage raised about a key of the case."""

from __future__ import annotations

from pathlib import Path

from parbuckle.case.faults import key_text
from parbuckle.case.lines import key_lines
from parbuckle.quantity.errors import CaseError, RangeError


def located(error: CaseError | RangeError, path: Path) -> CaseError:
    """Give the same error with the file and the line of its key.

    Parameters
    ----------
    error : CaseError or RangeError
        What a stage refused; one that already names its file is given back as it is.
    path : Path
        The case file.

    Returns
    -------
    CaseError
        With file and, where the key stands in it, line.
    """
    if isinstance(error, RangeError):
        return CaseError(str(error), file=str(path), do="check the values that it speaks of")
    if error.file:
        return error
    lines = {key_text(key): line for key, line in key_lines(path.read_text(encoding="utf-8")).items()}
    return CaseError(
        error.what,
        file=str(path),
        key=error.key,
        line=lines.get(error.key),
        given=error.given,
        allowed=error.allowed,
        do=error.do,
    )
