"""Answers of the app: worked out once, one at a time, and only for what stands in the store at their turn."""

from __future__ import annotations

from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from threading import Event
from typing import Any

import pytest

from parbuckle.desk import answering
from parbuckle.desk.answers_kept import Answers
from parbuckle.desk.keeping import edit, keep
from parbuckle.desk.warming import warm
from parbuckle.quantity.errors import CallError
from parbuckle.store.memory import MemoryStore
from parbuckle.store.port import NotKeptError
from parbuckle.store.rows import Row


class Slow:
    """Stands for the planning: counts, and waits until it is let go."""

    def __init__(self) -> None:
        self.depths: list[object] = []
        self.begun, self.go = Event(), Event()

    def __call__(self, case: Mapping[str, Any], *_: object) -> tuple[dict[str, Any], list[dict[str, Any]]]:
        self.begun.set()
        assert self.go.wait(20)
        self.depths.append(case["site"]["depth"])
        return {"depth": case["site"]["depth"]}, []


@pytest.fixture
def slow(monkeypatch: pytest.MonkeyPatch) -> Slow:
    stands = Slow()
    monkeypatch.setattr(answering, "plan_documents", stands)
    return stands


@pytest.fixture
def store() -> MemoryStore:
    return MemoryStore()


def case(store: MemoryStore, depth: str = "10 m") -> Row:
    return keep(store, "case", {"schema": 1, "site": {"depth": depth}}, "Ada")


def deeper(store: MemoryStore, row: Row, depth: str) -> Row:
    change = {"op": "set", "path": ["site", "depth"], "value": depth}
    return edit(store, row, [change], "Ada")


def test_the_same_documents_are_worked_out_once(store: MemoryStore, slow: Slow) -> None:
    row, answers = case(store), Answers(store)
    slow.go.set()
    first = answers.of(row.id)
    changed = deeper(store, row, "12 m")
    assert answers.of(row.id).plan == {"depth": "12 m"}
    back = deeper(store, changed, "10 m")
    again = answers.of(row.id)
    assert (again.plan, again.case.revision, again.digest) == (first.plan, back.revision, first.digest)
    assert slow.depths == ["10 m", "12 m"]


def test_who_waits_gets_the_last_and_what_came_between_is_not_worked_out(store: MemoryStore, slow: Slow) -> None:
    row, answers = case(store), Answers(store)
    with ThreadPoolExecutor(8) as pool:
        first = pool.submit(answers.of, row.id)
        assert slow.begun.wait(20)
        waiting = [pool.submit(answers.of, row.id) for _ in range(5)]
        for depth in ("11 m", "12 m", "13 m"):
            row = deeper(store, row, depth)
        slow.go.set()
        assert first.result(20).case.revision == 1
        told = [each.result(20) for each in waiting]
    assert {(each.case.revision, each.plan and each.plan["depth"]) for each in told} <= {(4, "13 m"), (1, "10 m")}
    assert (answers.of(row.id).case.revision, slow.depths[-1]) == (4, "13 m")
    assert slow.depths == ["10 m", "13 m"]


def test_what_is_tried_is_not_taken_for_what_is_kept(store: MemoryStore, slow: Slow) -> None:
    row, answers = case(store), Answers(store)
    slow.go.set()
    tried = answers.of(row.id, [{"op": "set", "path": ["site", "depth"], "value": "30 m"}])
    assert (tried.plan, answers.of(row.id).plan) == ({"depth": "30 m"}, {"depth": "10 m"})
    assert tried.digest != answers.of(row.id).digest


def test_a_change_that_cannot_be_made_holds_nobody_up(store: MemoryStore, slow: Slow) -> None:
    row, answers = case(store), Answers(store)
    slow.go.set()
    with pytest.raises(CallError):
        answers.of(row.id, [{"op": "remove", "path": ["nothing"]}])
    with pytest.raises(NotKeptError):
        answers.of("nobody")
    assert answers.of(row.id).plan


def test_the_case_changed_last_is_worked_out_beside(store: MemoryStore, slow: Slow) -> None:
    case(store, "9 m")
    row, answers = case(store, "10 m"), Answers(store)
    slow.go.set()
    warm(store, answers).join(20)
    newest = store.rows("case")[0]
    assert slow.depths == [newest.document["site"]["depth"]]
    assert answers.of(newest.id).plan
    assert len(slow.depths) == 1 and row


def test_an_empty_store_is_nothing_to_work_out(store: MemoryStore, slow: Slow) -> None:
    warm(store, Answers(store)).join(20)
    assert not slow.begun.is_set()
