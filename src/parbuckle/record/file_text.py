"""The text of a file from outside: small enough, UTF-8, no signs that no log holds."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from parbuckle.quantity.errors import CaseError, RangeError
from parbuckle.quantity.refusals import shorten

LARGEST = 20_000_000
"""Largest file that is read, bytes. House default: a season of dives at one sample a second."""

_NUMBER = re.compile(r"[-+]?([0-9]{1,15}(\.[0-9]{0,25})?|\.[0-9]{1,25})([eE][-+]?[0-9]{1,3})?", re.ASCII)
_CLOCK = re.compile(r"(?:([0-9]{1,3}):)?([0-9]{1,4}):([0-5][0-9])", re.ASCII)
_HOUR, _MINUTE = 3600.0, 60.0


def read_text(path: Path) -> str:
    """Read a text file from outside.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    str
        Its text.

    Raises
    ------
    CaseError
        If it cannot be read, is larger than 20 MB, is no UTF-8, or holds a zero byte.
    """
    with told(path.name):
        try:
            if path.stat().st_size > LARGEST:
                raise RangeError(f"it is larger than {LARGEST // 1_000_000} MB")
            text = path.read_text(encoding="utf-8-sig")
        except UnicodeDecodeError:
            raise RangeError("it is no text in UTF-8") from None
        except OSError as error:
            raise RangeError(str(error.strerror or "it cannot be read")) from None
        if "\0" in text:
            raise RangeError("it holds a zero byte: it is no text")
        return text


def number(text: str | None, what: str) -> float:
    """Read one plain number.

    Parameters
    ----------
    text : str or None
        What stands there.
    what : str
        What it is, for the message.

    Returns
    -------
    float
        Finite.

    Raises
    ------
    RangeError
        If it is none.

    Examples
    --------
    >>> number(" 12.5 ", "depth")
    12.5
    """
    clean = (text or "").strip()
    if not _NUMBER.fullmatch(clean) or not math.isfinite(float(clean)):
        raise RangeError(f"{what} is no number: '{shorten(clean)}'" if clean else f"{what} is missing")
    return float(clean)


def clock(text: str) -> float | None:
    """Read a time written with colons.

    Parameters
    ----------
    text : str
        ``mm:ss`` or ``h:mm:ss``.

    Returns
    -------
    float or None
        In s; None when it is not written so.

    Examples
    --------
    >>> clock("2:30"), clock("1:02:30"), clock("2.5")
    (150.0, 3750.0, None)
    """
    found = _CLOCK.fullmatch(text.strip())
    if found is None:
        return None
    return float(found[1] or 0) * _HOUR + float(found[2]) * _MINUTE + float(found[3])


@contextmanager
def told(name: str) -> Iterator[None]:
    """Turn what a profile refuses into one message that names the file.

    Parameters
    ----------
    name : str
        Name of the file, or what stands for it.

    Returns
    -------
    iterator
        A context.

    Raises
    ------
    CaseError
        In the place of a RangeError raised inside.
    """
    try:
        yield
    except CaseError:
        raise
    except RangeError as error:
        do = "export it again, or correct the place that is named"
        raise CaseError(f"this log cannot be used: {error}", file=name, key="profile", do=do) from None
