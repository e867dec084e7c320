"""The base of every Problem and every Result: frozen, shapes checked, arrays not writeable, a digest of the bytes."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from parbuckle.quantity.errors import RangeError

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Numbers = NDArray[np.int64]


@dataclass(frozen=True)
class Frozen:
    """A record whose arrays share one number of draws as their last axis and cannot be written to.

    Raises
    ------
    RangeError
        If two arrays differ in their last axis, or one holds NaN.
    """

    def __post_init__(self) -> None:
        length = 0
        for name, array in _arrays(self):
            if array.dtype.kind == "f" and array.size and np.isnan(np.minimum.reduce(array, axis=None)):
                raise RangeError(f"{type(self).__name__}.{name} holds a value that is not a number")
            if array.ndim and length and array.shape[-1] not in (1, length):
                raise RangeError(f"{type(self).__name__}.{name} has {array.shape[-1]} draws where others have {length}")
            length = max(length, array.shape[-1] if array.ndim else 0)
            array.flags.writeable = False

    def digest(self) -> str:
        """Give the digest of all values: equal digests mean that a stage need not run again.

        Returns
        -------
        str
            32 hexadecimal digits.
        """
        h = hashlib.blake2b(digest_size=16)
        _feed(h, self)
        return h.hexdigest()


@cache
def _names(kind: Any) -> tuple[str, ...]:
    return tuple(f.name for f in fields(kind))


def _arrays(record: Any) -> list[tuple[str, NDArray[Any]]]:
    kind: Any = type(record)
    return [(name, v) for name in _names(kind) if isinstance(v := getattr(record, name), np.ndarray)]


def _feed(h: Any, value: Any) -> None:
    h.update(type(value).__name__.encode())
    if isinstance(value, np.ndarray):
        h.update(str(value.shape).encode() + np.ascontiguousarray(value).tobytes())
    elif is_dataclass(value) and not isinstance(value, type):
        kind: Any = type(value)
        for name in _names(kind):
            h.update(name.encode())
            _feed(h, getattr(value, name))
    elif isinstance(value, (tuple, list)):
        for item in value:
            _feed(h, item)
    elif isinstance(value, dict):
        for key in sorted(value, key=str):
            h.update(str(key).encode())
            _feed(h, value[key])
    else:
        h.update(repr(value).encode())
