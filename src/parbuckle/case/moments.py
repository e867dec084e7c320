"""Dates and times of a written document: ISO texts in a document, dates and times in a file and in the models."""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import date, time
from typing import Any

from pydantic import BaseModel

from parbuckle.case.fields import keys_of


def with_moments(written: Any, model: type[BaseModel]) -> Any:
    """Turn the ISO texts of a document into dates and times where the model wants them; leave out what is null.

    Parameters
    ----------
    written : object
        A table of the document, or whatever stands in its place.
    model : type of BaseModel
        Model of that table.

    Returns
    -------
    object
        A copy; a text that is no date stays as it is, so that the model can refuse it.

    Examples
    --------
    >>> from parbuckle.case.kit import Bag
    >>> with_moments({"due": "2027-09-01", "mass": None}, Bag)
    {'due': datetime.date(2027, 9, 1)}
    """
    if not isinstance(written, Mapping):
        return written
    keys = keys_of(model)
    copy = {}
    for name, value in written.items():
        key = keys.get(name)
        if value is None:
            continue
        if key is None:
            copy[name] = value
        elif key.below is not None and isinstance(value, list):
            copy[name] = [with_moments(row, key.below) for row in value]
        elif key.below is not None:
            copy[name] = with_moments(value, key.below)
        else:
            copy[name] = _moment(value, key.when)
    return copy


def plain(written: Any) -> Any:
    """Turn the tables of a TOML file into a document: dates, times and numbers that JSON has not become texts.

    Parameters
    ----------
    written : object
        What the reader of TOML gave.

    Returns
    -------
    object
        Tables, lists, texts, finite numbers and truths.

    Examples
    --------
    >>> plain({"due": date(2027, 9, 1), "n": float("nan")})
    {'due': '2027-09-01', 'n': 'nan'}
    """
    if isinstance(written, Mapping):
        return {str(key): plain(value) for key, value in written.items()}
    if isinstance(written, (list, tuple)):
        return [plain(value) for value in written]
    if isinstance(written, (date, time)):
        return written.isoformat()
    if isinstance(written, float) and not math.isfinite(written):
        return str(written)
    return written


def _moment(value: Any, when: type[date] | None) -> Any:
    if when is None or not isinstance(value, str):
        return value
    try:
        return when.fromisoformat(value.strip())
    except ValueError:
        return value
