"""One specification of the store, held against all three: memory, SQLite, PostgreSQL."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy import inspect, text

from parbuckle.quantity.errors import CallError
from parbuckle.store.opening import engine_for, open_store
from parbuckle.store.port import NotKeptError, StaleError, Store
from parbuckle.store.rows import Row, Step
from parbuckle.store.tables import TABLES
from sample_stores import postgres

Open = Callable[[], Store]
KEPT = ("sqlite", "postgres")
TREE = {"schema": 1, "object": {"name": "anchor", "part": [{"mass": "46 ± 4 kg"}, {"mass": "9 kg"}]}, "wrong": None}


@pytest.fixture(scope="module")
def server() -> Iterator[str]:
    with postgres() as address:
        yield address


@pytest.fixture(params=("memory", *KEPT))
def opened(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Open]:
    """Open the same store again and again; each test begins with an empty one."""
    address = _address(request, tmp_path)
    one = open_store("memory")
    held: list[Store] = []

    def again() -> Store:
        if address == "memory":
            return one
        held.append(open_store(address))
        return held[-1]

    yield again
    for store in held:
        store.close()


def _address(request: pytest.FixtureRequest, folder: Path) -> str:
    if request.param == "postgres":
        address: str = request.getfixturevalue("server")
        engine = engine_for(address)
        with engine.begin() as connection:
            connection.execute(text("DROP SCHEMA public CASCADE"))
            connection.execute(text("CREATE SCHEMA public"))
        engine.dispose()
        return address
    return "memory" if request.param == "memory" else f"sqlite:///{folder / 'new folder' / 'kept.db'}"


def row(key: str = "a", **more: object) -> Row:
    return replace(Row(id=key, kind="case", title="Anchor", document=TREE), **more)


def step(at: int = 0, **more: object) -> Step:
    return replace(Step(at=f"2027-04-14T10:00:{at:02d}+00:00", who="Ada", what="made"), **more)


def test_what_is_kept_comes_back_after_a_restart(opened: Open) -> None:
    made = opened().add(row(kit="k", parent=None, variant="two bags"), step())
    back = opened().get("case", "a")
    assert back == made
    assert back.document == TREE
    assert list(back.document) == list(TREE), "the order of the keys is kept"
    assert (back.kit, back.variant, back.revision, back.changed_at) == ("k", "two bags", 1, step().at)


def test_a_step_makes_the_next_revision_and_stays_in_the_history(opened: Open) -> None:
    store = opened()
    first = store.add(row(), step())
    change = {"op": "set", "path": ["object", "part", 0, "mass"], "value": "47 kg"}
    second = store.put(
        replace(first, document={"x": 1}, title="Two"), step(1, changes=(change,), gesture="g", back="undo")
    )
    assert (second.revision, second.title, second.document) == (2, "Two", {"x": 1})
    history = opened().steps("a")
    assert [one.number for one in history] == [1, 2]
    assert history[1] == step(1, changes=(change,), gesture="g", back="undo", number=2)
    assert [one.number for one in store.steps("a", after=1)] == [2]


def test_a_revision_made_from_an_old_one_is_refused_and_leaves_nothing(opened: Open) -> None:
    store = opened()
    first = store.add(row(), step())
    store.put(replace(first, document={"by": "one"}), step(1))
    with pytest.raises(StaleError, match="changed elsewhere"):
        store.put(replace(first, document={"by": "two"}), step(2))
    assert opened().get("case", "a").document == {"by": "one"}
    assert len(store.steps("a")) == 2


def test_the_same_id_twice_is_refused(opened: Open) -> None:
    store = opened()
    store.add(row(), step())
    with pytest.raises(StaleError, match="already"):
        store.add(row(document={}), step(1))
    assert store.get("case", "a").document == TREE


def test_what_is_not_there_is_said(opened: Open) -> None:
    store = opened()
    with pytest.raises(NotKeptError, match="no case with the id nowhere"):
        store.get("case", "nowhere")
    with pytest.raises(NotKeptError):
        store.put(row("nowhere"), step())
    with pytest.raises(NotKeptError):
        store.take_out("case", "nowhere")
    store.add(row(), step())
    with pytest.raises(NotKeptError):
        store.get("kit", "a")
    assert store.steps("nowhere") == ()


def test_the_list_begins_with_what_was_changed_last(opened: Open) -> None:
    store = opened()
    for at, key in enumerate("abc"):
        store.add(row(key), step(at))
    store.add(row("k", kind="kit"), step(9))
    store.put(store.get("case", "a"), step(5))
    assert [one.id for one in opened().rows("case")] == ["a", "c", "b"]
    assert [one.id for one in store.rows("kit")] == ["k"]


def test_what_is_taken_out_is_gone_from_the_list(opened: Open) -> None:
    store = opened()
    store.add(row(), step())
    store.take_out("case", "a")
    assert opened().rows("case") == ()
    with pytest.raises(NotKeptError):
        store.get("case", "a")
    with pytest.raises(NotKeptError):
        store.put(row(), step(1))
    with pytest.raises(NotKeptError):
        store.take_out("case", "a")


def test_nobody_changes_what_is_kept_from_outside(opened: Open) -> None:
    store, mine = opened(), {"a": [1]}
    store.add(row(document=mine), step())
    mine["a"].append(2)
    got = store.get("case", "a").document["a"]
    got.append(3)
    assert store.get("case", "a").document == {"a": [1]}


def test_a_number_that_is_not_finite_is_refused_whole(opened: Open) -> None:
    store = opened()
    first = store.add(row(), step())
    with pytest.raises(ValueError):
        store.put(replace(first, document={"a": float("nan")}), step(1))
    assert store.get("case", "a").revision == 1


def test_of_many_writers_each_revision_has_one(opened: Open) -> None:
    store = opened()
    store.add(row(document={"n": 0}), step())

    def write(who: int) -> int:
        won = 0
        for turn in range(10):
            seen = store.get("case", "a")
            try:
                store.put(replace(seen, document={"n": seen.document["n"] + 1}), step(turn, who=str(who)))
                won += 1
            except StaleError:
                pass
        return won

    with ThreadPoolExecutor(4) as pool:
        won = sum(pool.map(write, range(4)))
    end = opened().get("case", "a")
    assert end.document == {"n": won}, "every write that was answered is there once"
    assert end.revision == won + 1
    assert [one.number for one in store.steps("a")] == list(range(1, won + 2))


@pytest.mark.parametrize("kind", KEPT)
def test_the_migrations_make_the_tables_that_the_program_reads(
    kind: str, request: pytest.FixtureRequest, tmp_path: Path
) -> None:
    request.param = kind
    address = _address(request, tmp_path)
    open_store(address).close()
    engine = engine_for(address)
    there = inspect(engine)
    for table in TABLES.sorted_tables:
        columns = {column["name"]: column["nullable"] for column in there.get_columns(table.name)}
        assert columns == {column.name: bool(column.nullable) for column in table.columns}
    engine.dispose()


@pytest.mark.parametrize("address", ["mysql://there/kept", "no address", "sqlite//kept"])
def test_an_address_of_another_kind_is_refused_in_words(address: str) -> None:
    with pytest.raises(CallError, match="Allowed: memory, sqlite:///FILE"):
        open_store(address)
