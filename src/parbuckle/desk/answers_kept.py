"""The answers of the app are kept: one is worked out at a time, and only for what stands in the store at its turn."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

from parbuckle.desk.answering import Answered, answered, asked_of
from parbuckle.desk.changes import Change
from parbuckle.store.port import Store

_MOST = 24  # answers, each of some hundred kilobytes


class Answers:
    """Answers to the cases of a store.

    A case that waits for its turn is read from the store again when the turn comes. So a quick row of edits is answered
    once, for the last of them, and whoever waited for an older one gets that answer; its revisions say so.

    Parameters
    ----------
    store : Store
        Where the cases are kept.
    """

    def __init__(self, store: Store) -> None:
        self._store = store
        self._kept: OrderedDict[str, Answered] = OrderedDict()
        self._desk = ThreadPoolExecutor(1, "answers")

    def of(self, key: str, changes: Sequence[Change] = ()) -> Answered:
        """Give the answer to a case, from what is kept if the same was asked before.

        Parameters
        ----------
        key : str
            Id of the case.
        changes : sequence of Mapping
            Changes to try; nothing of them is saved.

        Returns
        -------
        Answered
            For the revisions of case and kit that were the last when its turn came.

        Raises
        ------
        NotKeptError
            If there is no such case.
        CallError
            If a change cannot be made.
        """
        return self._look(key, changes) or self._desk.submit(self._at_turn, key, changes).result()

    def _at_turn(self, key: str, changes: Sequence[Change]) -> Answered:
        return self._look(key, changes) or self._work(key, changes)

    def _look(self, key: str, changes: Sequence[Change]) -> Answered | None:
        """Give what is kept for these very documents, under the revisions that they stand at now."""
        case, kit, digest = asked_of(self._store, key, changes)
        found = self._kept.get(digest)
        return found and replace(found, case=case, kit=kit)

    def _work(self, key: str, changes: Sequence[Change]) -> Answered:
        found = answered(self._store, key, changes)
        self._kept[found.digest] = found
        while len(self._kept) > _MOST:
            self._kept.popitem(last=False)
        return found
