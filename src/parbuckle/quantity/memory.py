"""What was worked out is kept: the same question is answered from memory, whichever stage asks."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Iterable
from dataclasses import fields, is_dataclass
from threading import Lock
from typing import Any, TypeVar, cast

import numpy as np

from parbuckle.quantity.frozen import Frozen

Answer = TypeVar("Answer")

_MOST = 64_000_000  # bytes of arrays that are kept in all: some twenty plans
_MOST_ANSWERS = 512
_SMALL = 64  # bytes that anything but an array counts for


class Memory:
    """Answers by the digest of their questions; those that nobody asked for longest go first. Threads may share it.

    Parameters
    ----------
    most : int
        Bytes of answers that are kept, about. An answer that is larger than half of it is not kept.
    """

    def __init__(self, most: int = _MOST) -> None:
        self._most, self._held = most, 0
        self._answers: OrderedDict[str, tuple[Any, int]] = OrderedDict()
        self._gates: dict[str, Lock] = {}
        self._lock = Lock()

    def ask(self, question: Frozen, work: Callable[[], Answer]) -> Answer:
        """Give the answer to a question, from memory if the same values were asked before.

        Two threads with one question wait for one answer. What ``work`` raises is raised, and nothing is kept.

        Parameters
        ----------
        question : Frozen
            Everything that the answer hangs on; told apart by its class and its digest.
        work : callable
            Finds the answer, which nobody may change: a ``Frozen`` record, or a tuple of such.

        Returns
        -------
        Answer
            The answer.
        """
        key = f"{type(question).__module__}.{type(question).__qualname__} {question.digest()}"
        with self._lock:
            if key in self._answers:
                return cast("Answer", self._again(key))
            gate = self._gates.setdefault(key, Lock())
        with gate:
            with self._lock:
                if key in self._answers:
                    return cast("Answer", self._again(key))
            try:
                found = work()
                self._keep(key, found)
            finally:
                with self._lock:
                    self._gates.pop(key, None)
        return found

    def forget(self) -> None:
        """Forget everything."""
        with self._lock:
            self._answers.clear()
            self._held = 0

    def __len__(self) -> int:
        """Give the number of answers that are kept."""
        return len(self._answers)

    def _again(self, key: str) -> Any:
        self._answers.move_to_end(key)
        return self._answers[key][0]

    def _keep(self, key: str, found: object) -> None:
        size = _sealed(found)
        if size > self._most // 2:
            return
        with self._lock:
            self._held += size - self._answers.get(key, (None, 0))[1]
            self._answers[key] = found, size
            while self._held > self._most or len(self._answers) > _MOST_ANSWERS:
                self._held -= self._answers.popitem(last=False)[1][1]


def _sealed(value: object) -> int:
    """Let nobody write into the arrays of an answer; give about how many bytes it takes."""
    if isinstance(value, np.ndarray):
        value.flags.writeable = False
        return value.nbytes + _SMALL
    parts: Iterable[object] = ()
    if is_dataclass(value) and not isinstance(value, type):
        parts = [getattr(value, f.name) for f in fields(value)]
    elif isinstance(value, dict):
        parts = value.values()
    elif isinstance(value, (tuple, list)):
        parts = value
    return _SMALL + sum(_sealed(part) for part in parts)


memory = Memory()
"""The one that all stages of a plan share."""
