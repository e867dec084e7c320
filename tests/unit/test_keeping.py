"""Keep a case: saved at once, merged where it can be, refused where two meet, taken back after a restart."""

from __future__ import annotations

from typing import Any

import pytest

from parbuckle.desk.changes import value_at
from parbuckle.desk.going_back import as_of, become, choose, redo, undo
from parbuckle.desk.keeping import ClashError, edit, keep, title_of
from parbuckle.quantity.errors import CallError
from parbuckle.store.memory import MemoryStore
from parbuckle.store.port import StaleError
from parbuckle.store.rows import Row

TREE: dict[str, Any] = {"case": {"title": "Anchor"}, "site": {"depth": "16 m"}, "dive": [{"does": "search"}]}


@pytest.fixture
def store() -> MemoryStore:
    return MemoryStore()


@pytest.fixture
def row(store: MemoryStore) -> Row:
    return keep(store, "case", TREE, "Ada", kit="k")


def put(path: list[str | int], value: object) -> dict[str, Any]:
    return {"op": "set", "path": path, "value": value}


def depth(row: Row) -> object:
    return value_at(row.document, ["site", "depth"])


def test_a_new_case_has_an_id_and_its_title(store: MemoryStore, row: Row) -> None:
    other = keep(store, "case", {}, "Ada", what="made from the questions")
    assert (row.title, row.kit, row.revision) == ("Anchor", "k", 1)
    assert other.id != row.id
    assert other.title == "A case without a name"
    assert store.steps(other.id)[0].what == "made from the questions"


def test_a_wrong_value_is_kept_as_it_was_typed(store: MemoryStore, row: Row) -> None:
    assert depth(edit(store, row, [put(["site", "depth"], "16 mm deep")], "Ada")) == "16 mm deep"


def test_two_people_at_two_places_both_stand(store: MemoryStore, row: Row) -> None:
    edit(store, row, [put(["site", "bottom"], "mud")], "Lio")
    merged = edit(store, row, [put(["site", "depth"], "17 m")], "Ada")
    assert merged.document["site"] == {"depth": "17 m", "bottom": "mud"}
    assert merged.revision == 3


def test_two_people_at_one_place_the_second_is_told(store: MemoryStore, row: Row) -> None:
    edit(store, row, [put(["site", "depth"], "15 m")], "Lio")
    edit(store, row, [put(["site", "bottom"], "mud")], "Kaya")
    with pytest.raises(ClashError, match="Lio changed this elsewhere") as told:
        edit(store, row, [put(["site", "depth"], "17 m")], "Ada")
    assert (told.value.by, told.value.place, told.value.theirs, told.value.revision) == (
        "Lio",
        ("site", "depth"),
        "15 m",
        3,
    )
    assert depth(store.get("case", row.id)) == "15 m", "nothing is written over"


def test_a_row_that_was_moved_away_is_not_hit(store: MemoryStore, row: Row) -> None:
    edit(store, row, [{"op": "insert", "path": ["dive", 0], "value": {"does": "lift"}}], "Lio")
    with pytest.raises(ClashError):
        edit(store, row, [put(["dive", 0, "does"], "mark")], "Ada")


def test_an_edit_on_a_revision_that_never_was_is_refused(store: MemoryStore, row: Row) -> None:
    from dataclasses import replace

    for base in (0, 7):
        with pytest.raises(CallError, match="Allowed: 1 to 1"):
            edit(store, replace(row, revision=base), [put(["a"], 1)], "Ada")
    with pytest.raises(CallError, match="at least one change"):
        edit(store, row, [], "Ada")


def test_typing_is_one_step_back(store: MemoryStore, row: Row) -> None:
    now = row
    for text in ("1", "17", "17 ", "17 m"):
        now = edit(store, now, [put(["site", "depth"], text)], "Ada", gesture="field 1")
    back = undo(store, now, "Ada")
    assert depth(back) == "16 m"
    again = redo(store, back, "Ada")
    assert depth(again) == "17 m"
    assert [step.what for step in store.steps(row.id)][-2:] == ["took back: site.depth", "did again: site.depth"]
    assert depth(undo(store, again, "Ada")) == "16 m"


def test_undo_of_what_was_not_seen_is_refused(store: MemoryStore, row: Row) -> None:
    edit(store, row, [put(["site", "depth"], "17 m")], "Lio")
    with pytest.raises(StaleError):
        undo(store, row, "Ada")


def test_nothing_to_take_back_is_said(store: MemoryStore, row: Row) -> None:
    with pytest.raises(CallError, match="nothing to take back"):
        undo(store, row, "Ada")
    with pytest.raises(CallError, match="nothing to do again"):
        redo(store, row, "Ada")


def test_an_old_revision_and_a_chosen_variant_come_as_steps(store: MemoryStore, row: Row) -> None:
    now = edit(store, row, [put(["site", "depth"], "17 m"), put(["lift"], {"bags": ["C25"]})], "Ada")
    assert as_of(store, now, 1) == TREE
    assert as_of(store, now, 2) == now.document
    old = become(store, now, as_of(store, now, 1), "Ada", "went back to revision 1")
    assert old.document == TREE
    assert undo(store, old, "Ada").document == now.document
    with pytest.raises(CallError, match="no revision 9"):
        as_of(store, now, 9)


def test_the_title_follows_the_document(store: MemoryStore, row: Row) -> None:
    assert edit(store, row, [put(["case", "title"], "Chain")], "Ada").title == "Chain"
    assert title_of("kit", {"team": {"name": "Crew"}}) == "Crew"
    assert title_of("case", {"case": {"title": 3}}) == "A case without a name"


def test_only_a_variant_of_the_case_can_be_chosen(store: MemoryStore, row: Row) -> None:
    variant = keep(store, "case", {**TREE, "lift": {}}, "Ada", parent=row.id, variant="two bags")
    chosen = choose(store, row, variant.id, "Ada")
    assert chosen.document == variant.document
    assert store.steps(row.id)[-1].what == "chose two bags"
    stranger = keep(store, "case", TREE, "Lio")
    with pytest.raises(CallError, match="no variant of"):
        choose(store, chosen, stranger.id, "Ada")
