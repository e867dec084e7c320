"""What is worked out once: from memory when asked again, anew when a value changes, shared by threads, sealed."""

from __future__ import annotations

import threading
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from guard.leaves import put, toml
from guard.shipped import shipped
from parbuckle.case.read import read_case
from parbuckle.plan import diving, lifting, other_ways, searching, tending
from parbuckle.plan.make import make_plan
from parbuckle.plan.plan import Plan
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen
from parbuckle.quantity.memory import Memory, memory

Document = dict[str, Any]
DRAWS = 32


@dataclass(frozen=True)
class Question(Frozen):
    value: Floats
    name: str = "a"


@dataclass(frozen=True)
class OtherQuestion(Frozen):
    value: Floats
    name: str = "a"


@dataclass(frozen=True)
class Answer(Frozen):
    value: Floats


def question(value: float, size: int = 4) -> Question:
    return Question(np.full(size, value))


def test_the_same_values_are_asked_once_and_a_changed_value_again() -> None:
    kept, done = Memory(), []

    def work(value: float) -> Answer:
        done.append(value)
        return Answer(np.full(4, value))

    first = kept.ask(question(1.0), lambda: work(1.0))
    assert kept.ask(question(1.0), lambda: work(1.0)) is first
    assert kept.ask(question(np.nextafter(1.0, 2.0)), lambda: work(2.0)) is not first
    assert kept.ask(Question(np.full(4, 1.0), "b"), lambda: work(3.0)) is not first
    assert kept.ask(OtherQuestion(np.full(4, 1.0)), lambda: work(4.0)) is not first
    assert done == [1.0, 2.0, 3.0, 4.0]
    kept.forget()
    assert not len(kept)
    assert kept.ask(question(1.0), lambda: work(5.0)).value[0] == 5.0


def test_what_was_not_asked_for_longest_goes_first() -> None:
    kept = Memory(most=40_000)
    for n in range(8):
        kept.ask(question(float(n)), lambda n=n: Answer(np.full(1000, float(n))))  # type: ignore[misc]
        kept.ask(question(0.0), lambda: Answer(np.full(1000, -1.0)))
    assert 2 <= len(kept) <= 4
    assert kept.ask(question(0.0), lambda: Answer(np.full(1, -2.0))).value[0] == 0.0
    assert kept.ask(question(1.0), lambda: Answer(np.full(1, -2.0))).value[0] == -2.0


def test_an_answer_that_is_too_large_is_not_kept() -> None:
    kept = Memory(most=10_000)
    assert kept.ask(question(1.0), lambda: Answer(np.zeros(2000))).value.size == 2000
    assert not len(kept)


def test_nobody_can_write_into_an_answer() -> None:
    found = Memory().ask(question(1.0), lambda: (np.zeros(3), [np.zeros(2)]))
    with pytest.raises(ValueError, match="read-only"):
        found[0][0] = 1.0
    with pytest.raises(ValueError, match="read-only"):
        found[1][0][0] = 1.0


def test_an_error_is_told_each_time_and_nothing_is_kept() -> None:
    kept = Memory()

    def fails() -> Answer:
        raise RangeError("no")

    for _ in range(2):
        with pytest.raises(RangeError, match="no"):
            kept.ask(question(1.0), fails)
    assert not len(kept)
    assert kept.ask(question(1.0), lambda: Answer(np.zeros(1))).value.size == 1


def test_threads_with_one_question_wait_for_one_answer() -> None:
    kept, done, together = Memory(), [], threading.Barrier(4)

    def ask(n: int) -> Answer:
        together.wait(10)
        return kept.ask(question(1.0), lambda: done.append(n) or Answer(np.zeros(3)))  # type: ignore[func-returns-value]

    with ThreadPoolExecutor(4) as pool:
        found = list(pool.map(ask, range(4)))
    assert len(done) == 1
    assert all(answer is found[0] for answer in found)


def test_threads_with_many_questions_get_their_own_answers() -> None:
    kept = Memory(most=20_000)

    def ask(n: int) -> bool:
        value = float(n % 7)
        return bool(kept.ask(question(value), lambda: Answer(np.full(300, value))).value[0] == value)

    with ThreadPoolExecutor(4) as pool:
        assert all(pool.map(ask, range(400)))


# ---- the stages of a plan ----------------------------------------------------------------------------


STAGES = (
    (lifting, "choose"),
    (lifting, "solve"),
    (tending, "tend"),
    (diving, "solve"),
    (searching, "map_of"),
    (searching, "_work_out"),
    (other_ways, "phases"),
)


def planned(folder: Path, case: Document, kit: Document | None = None) -> Plan:
    (folder / "kit.toml").write_text(toml(kit or shipped("kit")), encoding="utf-8")
    (folder / "case.toml").write_text(toml(case), encoding="utf-8")
    return make_plan(read_case(folder / "case.toml"), DRAWS)


@pytest.fixture
def ran(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Names of the stages that ran, in order, since the list was cleared."""
    memory.forget()
    names: list[str] = []
    for module, name in STAGES:
        work = getattr(module, name)
        told = f"{module.__name__.rsplit('.')[-1]}.{name}"

        def noted(*args: Any, work: Any = work, told: str = told, **more: Any) -> Any:
            names.append(told)
            return work(*args, **more)

        monkeypatch.setattr(module, name, noted)
    return names


def test_the_same_case_runs_no_stage_again_and_gives_the_same_document(tmp_path: Path, ran: list[str]) -> None:
    for name in ("quarry-outboard", "tidal-frame"):
        ran.clear()
        first = planned(tmp_path, shipped(name)).document
        assert ran
        ran.clear()
        assert planned(tmp_path, shipped(name)).document == first
        assert not ran


EDITS: tuple[tuple[str, tuple[Any, ...], object, set[str], set[str]], ...] = (
    ("title", ("case", "title"), "Another title", set(), {"lifting.solve", "tending.tend", "diving.solve"}),
    ("account", ("account", 0, "within"), "21 m", {"searching._work_out"}, {"lifting.solve", "tending.tend"}),
    ("reaction", ("lift", "tender", "delay"), "0.4..1.1 s", {"tending.tend"}, {"lifting.solve", "searching._work_out"}),
    (
        "mass",
        ("object", "part", 0, "mass"),
        "44 ± 4 kg",
        {"lifting.choose", "lifting.solve", "tending.tend"},
        {"searching._work_out"},
    ),
    (
        "depth",
        ("site", "depth"),
        "15 m",
        {"lifting.solve", "tending.tend", "diving.solve"},
        set(),
    ),
)


@pytest.mark.parametrize(("what", "path", "value", "again", "not_again"), EDITS, ids=[e[0] for e in EDITS])
def test_a_changed_value_runs_the_stages_that_hang_on_it(
    tmp_path: Path,
    ran: list[str],
    what: str,
    path: tuple[Any, ...],
    value: object,
    again: set[str],
    not_again: set[str],
) -> None:
    case = shipped("quarry-outboard")
    planned(tmp_path, case)
    ran.clear()
    warm = planned(tmp_path, put(case, path, value)).document
    assert again <= set(ran)
    assert not not_again & set(ran)
    memory.forget()
    assert planned(tmp_path, put(case, path, value)).document == warm, what


def test_a_changed_gas_of_a_diver_runs_the_dives_and_no_lift(tmp_path: Path, ran: list[str]) -> None:
    case, kit = shipped("quarry-outboard"), shipped("kit")
    row = next(n for n, person in enumerate(kit["person"]) if person["name"] == "Ines")
    before = planned(tmp_path, case, kit)
    ran.clear()
    after = planned(tmp_path, case, put(kit, ("person", row, "working_rate"), "40 l/min"))
    assert set(ran) == {"diving.solve"}
    assert before.document["dives"] != after.document["dives"]


def test_a_plan_leaves_its_results_as_they_were(tmp_path: Path, ran: list[str]) -> None:
    first = planned(tmp_path, shipped("quarry-outboard"))
    parts = [getattr(first.stages, name) for name in ("lift", "tending", "diving", "load", "surface")]
    told = [part.digest() for part in parts]
    second = planned(tmp_path, put(shipped("quarry-outboard"), ("case", "title"), "Another title"))
    assert second.stages.tending is first.stages.tending
    assert second.stages.lift is first.stages.lift
    assert [part.digest() for part in parts] == told


def test_plans_in_two_threads_are_the_plans_of_one(tmp_path: Path) -> None:
    folders = []
    for n, mass in enumerate(("45 ± 4 kg", "46 ± 4 kg", "45 ± 4 kg", "47 ± 4 kg")):
        folders.append(tmp_path / f"{n}")
        folders[-1].mkdir()
        case = put(shipped("quarry-outboard"), ("object", "part", 0, "mass"), mass)
        (folders[-1] / "kit.toml").write_text(toml(shipped("kit")), encoding="utf-8")
        (folders[-1] / "case.toml").write_text(toml(case), encoding="utf-8")

    def document(folder: Path) -> Document:
        return make_plan(read_case(folder / "case.toml"), DRAWS).document

    memory.forget()
    with ThreadPoolExecutor(2) as pool:
        together = list(pool.map(document, folders))
    memory.forget()
    assert together == [document(folder) for folder in folders]
