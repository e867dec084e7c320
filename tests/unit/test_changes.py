"""Changes of a written document: made, taken back, done again, and held against those of somebody else."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from parbuckle.desk.changes import change, clash, value_at
from parbuckle.desk.history import done_again, reach, taken_back
from parbuckle.quantity.errors import CallError
from parbuckle.store.rows import Step

TREE: dict[str, Any] = {
    "schema": 1,
    "object": {"name": "anchor", "part": [{"mass": "46 kg"}, {"mass": "9 kg"}, {"mass": "4 kg"}]},
    "site": {"datum": {"lat": 52.5}},
}


def put(path: list[str | int], value: object) -> dict[str, Any]:
    return {"op": "set", "path": path, "value": value}


def test_a_value_is_set_and_the_document_given_stays() -> None:
    before = deepcopy(TREE)
    tree, back = change(TREE, [put(["object", "part", 1, "mass"], "10 kg")])
    assert value_at(tree, ["object", "part", 1, "mass"]) == "10 kg"
    assert before == TREE
    assert back == (put(["object", "part", 1, "mass"], "9 kg"),)


def test_missing_tables_are_made_and_go_again() -> None:
    tree, back = change(TREE, [put(["lift", "rate", "target"], "6 m/min")])
    assert tree["lift"] == {"rate": {"target": "6 m/min"}}
    assert change(tree, back)[0] == TREE


def test_rows_come_go_and_move() -> None:
    rows = [
        {"op": "insert", "path": ["object", "part", 1], "value": {"mass": "1 kg"}},
        {"op": "move", "path": ["object", "part", 3], "to": 0},
        {"op": "remove", "path": ["object", "part", 1]},
    ]
    tree, back = change(TREE, rows)
    assert [part["mass"] for part in tree["object"]["part"]] == ["4 kg", "1 kg", "9 kg"]
    assert change(tree, back)[0] == TREE


def test_the_first_row_makes_its_list() -> None:
    tree, back = change({}, [{"op": "insert", "path": ["account", 0], "value": {"who": "the helm"}}])
    assert tree == {"account": [{"who": "the helm"}]}
    assert change(tree, back)[0] == {}


@pytest.mark.parametrize(
    "wrong",
    [
        {"op": "erase", "path": ["site"]},
        {"op": "set", "path": ["site"]},
        {"op": "set", "path": [], "value": 1},
        {"op": "set", "path": [0], "value": 1},
        {"op": "set", "path": ["object", "part", 3], "value": 1},
        {"op": "set", "path": ["object", "part", -1], "value": 1},
        {"op": "set", "path": ["object", "part", True], "value": 1},
        {"op": "set", "path": ["object", "name", "first"], "value": 1},
        {"op": "set", "path": ["a"] * 13, "value": 1},
        {"op": "remove", "path": ["object", "colour"]},
        {"op": "insert", "path": ["object", "part", 4], "value": 1},
        {"op": "insert", "path": ["object", "part", "one"], "value": 1},
        {"op": "insert", "path": ["account", 1], "value": 1},
        {"op": "move", "path": ["object", "part", 0], "to": 3},
        {"op": "move", "path": ["object", "part", 0]},
        {"op": "move", "path": ["site", "datum"], "to": 0},
        {"path": ["site"]},
        {},
    ],
)
def test_a_change_that_cannot_be_made_is_refused_in_words(wrong: dict[str, Any]) -> None:
    before = deepcopy(TREE)
    with pytest.raises(CallError, match=r"change|place"):
        change(TREE, [wrong])
    assert before == TREE


_key = st.sampled_from(["object", "part", "name", "mass", "site", "new"])
_path = st.tuples(_key, st.lists(st.one_of(_key, st.integers(0, 3)), max_size=3)).map(lambda p: [p[0], *p[1]])
_value = st.one_of(st.none(), st.text(max_size=3), st.just([{"mass": "1 kg"}]), st.just({"name": "x"}))
_change = st.one_of(
    st.fixed_dictionaries({"op": st.sampled_from(["set", "insert"]), "path": _path, "value": _value}),
    st.fixed_dictionaries({"op": st.just("remove"), "path": _path}),
    st.fixed_dictionaries({"op": st.just("move"), "path": _path, "to": st.integers(0, 3)}),
)


@given(st.lists(_change, max_size=8))
def test_whatever_was_changed_can_be_taken_back(wanted: list[dict[str, Any]]) -> None:
    tree: dict[str, Any] = TREE
    made: list[Step] = []
    for one in wanted:
        try:
            tree, back = change(tree, [one])
        except CallError:
            continue
        made.append(Step("", "Ada", "", (one,), back))
    first, again = change(tree, taken_back(made))
    assert first == TREE
    assert change(first, done_again(made))[0] == tree
    assert change(first, again)[0] == tree


@pytest.mark.parametrize(
    ("theirs", "meets"),
    [
        (put(["site", "depth"], "17 m"), True),
        (put(["site"], {}), True),
        (put(["site", "depth", "how"], 1), True),
        (put(["site", "depth_how"], "sounded"), False),
        ({"op": "remove", "path": ["site", "depth"]}, True),
        ({"op": "remove", "path": ["site", "stream", 0]}, False),
    ],
)
def test_changes_of_two_people_meet_or_do_not(theirs: dict[str, Any], meets: bool) -> None:
    assert (clash([put(["site", "depth"], "16 m")], [theirs]) is not None) is meets


@pytest.mark.parametrize("op", ["insert", "remove", "move"])
def test_rows_that_shift_meet_everything_in_their_list(op: str) -> None:
    theirs = {"op": op, "path": ["dive", 0], "value": {}, "to": 1}
    assert clash([put(["dive", 2, "does"], "lift")], [theirs]) == ("dive", 0)
    assert clash([put(["diver", 2, "does"], "lift")], [theirs]) is None


def step(number: int, gesture: str | None = None, who: str = "Ada", back: str = "") -> Step:
    made = () if back else (put(["n"], number),)
    return Step("", who, "", made, made, gesture, back, number)  # type: ignore[arg-type]


def numbers(steps: tuple[Step, ...]) -> list[int]:
    return [one.number for one in steps]


def test_steps_of_one_gesture_go_together() -> None:
    history = [Step("", "Ada", "made", number=1), step(2, "g"), step(3, "g"), step(4, "h"), step(5, "h", "Lio")]
    assert numbers(reach(history).undo) == [5]
    assert numbers(reach(history[:4]).undo) == [4]
    assert numbers(reach(history[:3]).undo) == [2, 3]
    assert reach(history[:1]).undo == ()


def test_undo_and_redo_follow_the_history_and_a_new_step_drops_redo() -> None:
    history = [Step("", "Ada", "made", number=1), step(2), step(3), step(4, back="undo")]
    assert (numbers(reach(history).undo), numbers(reach(history).redo)) == ([2], [3])
    history.append(step(5, back="undo"))
    assert (numbers(reach(history).undo), numbers(reach(history).redo)) == ([], [2])
    history.append(step(6, back="redo"))
    assert (numbers(reach(history).undo), numbers(reach(history).redo)) == ([2], [3])
    history.append(step(7))
    assert (numbers(reach(history).undo), numbers(reach(history).redo)) == ([7], [])
