"""No dead input: change any leaf of any shipped case or kit, and something in the plan changes, or the key is listed.

A listed key has to be idle in truth, so that the list shrinks as later stages arrive.
"""

from __future__ import annotations

import contextlib
import json
import tomllib
from collections.abc import Callable, Iterator
from functools import cache
from itertools import islice
from typing import Any

import pytest

from guard.dead_inputs import IDLE, LABELS, REFUSED, WAITING
from guard.leaves import Leaf, changes, leaves, put, renamed, toml
from guard.shipped import CASES, shipped
from parbuckle.desk.planning import plan
from parbuckle.quantity.errors import CaseError, ParbuckleError

Data = dict[str, Any]
DRAWS = 64
WITH_KIT = ("quarry-outboard", "tidal-frame", "training-drum")
MOST, FEW = 10, 2  # other values of one leaf that are tried: until something changes, and for a listed key
TOLD_APART: dict[Leaf, str] = {("cylinder",): "use", ("dive",): "does"}


def key_of(file: str, data: Data, leaf: Leaf) -> str:
    """Give the key of a leaf without row numbers; cylinders are told apart by their use, dives by what they do."""
    words = ["kit"] if file == "kit" else []
    for place, step in enumerate(leaf):
        if isinstance(step, str):
            words.append(step)
        elif (told := TOLD_APART.get(leaf[:place])) is not None:
            words[-1] += f"[{data[leaf[0]][step][told]}]"
        elif not words[-1].endswith("[]"):
            words[-1] += "[]"
    return ".".join(words)


def every_leaf() -> Iterator[Any]:
    for file in (*CASES, "kit"):
        data = shipped(file)
        for leaf, _ in leaves(data):
            key = key_of(file, data, leaf)
            if key not in IDLE:
                yield pytest.param(file, leaf, key, id=f"{file}:{'.'.join(map(str, leaf))}")


Answer = Callable[[Data, Data], str]


@pytest.fixture(scope="module")
def answer(tmp_path_factory: pytest.TempPathFactory) -> Answer:
    folder, known = tmp_path_factory.mktemp("leaf"), dict[str, str]()

    def work(case: Data, kit: Data) -> str:
        texts = toml(case), toml(kit)
        if (asked := "".join(texts)) not in known:
            for name, text in zip(("case", "kit"), texts, strict=True):
                (folder / f"{name}.toml").write_text(text, encoding="utf-8")
            known[asked] = without_echo(plan(folder / "case.toml", DRAWS))
        return known[asked]

    return work


def without_echo(document: Data) -> str:
    """Leave out what only repeats the case: its digest, and the answers in its own words."""
    head = {key: value for key, value in document["case"].items() if key != "digest"}
    rest = {key: value for key, value in document.items() if key != "asked"}
    return json.dumps(rest | {"case": head}, sort_keys=True)


@cache
def read(file: str) -> Data:
    return shipped(file)


def variants(file: str, leaf: Leaf, case: Data) -> Iterator[tuple[Data, Data]]:
    """Give case and kit with other values in one leaf; a name that is defined there is changed wherever it stands."""
    kit = read("kit")
    value: Any = kit if file == "kit" else case
    for step in leaf:
        value = value[step]
    if isinstance(value, str) and leaf[-1] in ("id", "name") and len(leaf) > 2:
        yield renamed(case, value, f"{value} 9"), renamed(kit, value, f"{value} 9")
    key = next(step for step in reversed(leaf) if isinstance(step, str))
    people = key not in kit or key == "person" or not isinstance(kit[key], list)
    table = [*kit["person"], *case.get("trainee", ())] if people else kit[key]
    names = [row.get("id") or row["name"] for row in table]
    others = [name for name in names if name != value] if value in names else []
    if leaf[-1] == "person" and leaf[0] == "dive":
        for other in others:
            yield put(case, leaf[:2], renamed(case["dive"][leaf[1]], value, other)), kit
    for other in (*others, *changes(value, key)):
        yield (case, put(kit, leaf, other)) if file == "kit" else (put(case, leaf, other), kit)


def acts(file: str, leaf: Leaf, case: Data, answer: Answer, most: int) -> bool:
    """Say whether some other value of the leaf changes the plan; a value that is refused does not count."""
    before = answer(case, read("kit"))

    def told() -> Iterator[str]:
        for changed, kit in variants(file, leaf, case):
            try:
                yield answer(changed, kit)
            except ParbuckleError:
                continue

    return any(after != before for after in islice(told(), most))


def in_use(leaf: Leaf) -> Iterator[Data]:
    """Give cases in which an item of the kit is put to use."""
    quarry, tidal = read("quarry-outboard"), read("tidal-frame")
    if len(leaf) < 3 or "id" not in (row := read("kit")[leaf[0]][leaf[1]]):
        return
    if leaf[0] == "bag":
        yield put(quarry, ("lift", "bags"), [row["id"]])
    elif leaf[0] == "line":
        yield put(tidal, ("lift", "restraint", "line"), row["id"])
        yield put(quarry, ("surface", "line_to_surface"), row["id"])
    elif leaf[0] in ("connector", "sling"):
        yield put(quarry, ("lift", "rigging"), [{leaf[0]: row["id"]}])


@pytest.mark.parametrize(("file", "leaf", "key"), list(every_leaf()))
def test_every_leaf_acts_or_is_listed(file: str, leaf: Leaf, key: str, answer: Answer) -> None:
    listed = WAITING.get(key) or LABELS.get(key) or REFUSED.get(key)
    cases = [read(name) for name in ((file,) if file != "kit" else WITH_KIT)]
    if file == "kit" and not listed:
        cases = [*in_use(leaf), *cases]
    most = MOST if not listed else 1 if file == "kit" else FEW
    alive = any(acts(file, leaf, case, answer, most) for case in cases)
    if listed:
        assert not alive, f"{key} acts now: take it off the list ({listed})"
    else:
        assert alive, f"{key} changes nothing in a plan"


@pytest.mark.parametrize("key", sorted(IDLE))
def test_what_is_idle_acts_elsewhere(key: str, answer: Answer) -> None:
    _, name, patches, leaf = IDLE[key]
    case = read(name)
    for path, value in patches:
        case = put(case, path, value)
    file = "kit" if key.startswith("kit.") else name
    assert key_of(file, read(file), leaf) == key
    assert acts(file, leaf, case, answer, MOST)


@pytest.mark.parametrize("key", sorted(REFUSED))
def test_what_is_refused_is_refused(key: str, answer: Answer) -> None:
    file, leaf = next(
        (f, leaf) for f in ("quarry-outboard", "kit") for leaf, _ in leaves(read(f)) if key_of(f, read(f), leaf) == key
    )
    case, refused = read("quarry-outboard"), 0
    for changed, kit in islice(variants(file, leaf, case), 40):
        with contextlib.suppress(CaseError):
            assert answer(changed, kit) is None, "one was taken"
        refused += 1
    assert refused


def test_every_listed_key_is_there() -> None:
    there = {key_of(f, read(f), leaf) for f in (*CASES, "kit") for leaf, _ in leaves(read(f))}
    listed = (*REFUSED, *LABELS, *WAITING, *IDLE)
    assert not set(listed) - there
    assert len(listed) == len(set(listed))


def test_a_dead_input_is_seen(answer: Answer) -> None:
    case = read("quarry-outboard")
    assert not acts("kit", ("team", "name"), case, answer, FEW)
    assert acts("quarry-outboard", ("site", "depth"), case, answer, FEW)


def test_a_written_file_reads_back() -> None:
    for name in (*CASES, "kit"):
        assert tomllib.loads(toml(read(name))) == read(name)
