"""A case as a document: the same plan as from its file, every fault at once with its place, out to TOML and back."""

from __future__ import annotations

import json
from datetime import date
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guard.leaves import leaves, put
from guard.shipped import shipped
from guard.tree import PACKAGE
from parbuckle.case.documents import check_documents, check_kit, digest_of, fault_of, read_documents
from parbuckle.case.key_paths import place_of
from parbuckle.case.lines import DEEPEST
from parbuckle.case.moments import plain
from parbuckle.case.toml_text import from_toml, to_toml
from parbuckle.desk.documents import kit_faults_of, plan_documents, shown_kit, shown_values, trace_documents
from parbuckle.desk.planning import plan
from parbuckle.quantity.errors import CallError, CaseError, RangeError
from sample_documents import ALL, DRAWS, case_of, kit_of, planned

FILES = PACKAGE / "data" / "cases"


@pytest.mark.parametrize("name", ALL)
def test_the_plan_is_that_of_the_file(name: str) -> None:
    mine, theirs = planned(name), plan(FILES / f"{name}.toml", DRAWS)
    for document in (mine, theirs):
        document["case"].pop("digest")
    assert mine == theirs


@pytest.mark.parametrize("name", ALL)
def test_the_loaded_case_says_what_the_reader_says(name: str) -> None:
    from parbuckle.case.read import read_case

    case = case_of(name)
    mine, theirs = read_documents(case, kit_of(case), f"{name}.toml"), read_case(FILES / f"{name}.toml")
    assert (mine.case, mine.kit, mine.said_unknown) == (theirs.case, theirs.kit, theirs.said_unknown)
    assert mine.path.name == theirs.path.name


def faults(case: dict[str, Any], kit: dict[str, Any] | None = None) -> dict[str, Any]:
    loaded, found = check_documents(case, kit, "case")
    assert loaded is None
    assert found
    return {fault.key: fault for fault in found}


def test_every_fault_is_told_at_once_with_its_place() -> None:
    case = put(put(case_of("quarry-outboard"), ("site", "depth"), "16 kg"), ("object", "part", 1, "mass"), "9 ± 2 m")
    kit = put(kit_of(case), ("bag", 0, "capacity"), "25 bar")
    found = faults({**case, "sonar": 1}, kit)
    assert found["site.depth"].path == ("site", "depth")
    assert found["object.part[2].mass"].path == ("object", "part", 1, "mass")
    assert (found["bag[1].capacity"].of, found["bag[1].capacity"].path) == ("kit", ("bag", 0, "capacity"))
    assert found["sonar"].what == "the key 'sonar' is not known"
    assert json.dumps([fault.document() for fault in found.values()])


def test_names_are_checked_across_case_and_kit() -> None:
    case = put(case_of("quarry-outboard"), ("lift", "cylinder"), "B15-1")
    found = faults(put(case, ("dive", 0, "team", 0, "person"), "Nobody"), kit_of(case))
    assert "never comes from a cylinder that anybody breathes from" in found["lift.cylinder"].what
    assert "dive[1].team[1].person" in found
    assert faults(case_of("quarry-outboard"))["lift.cylinder"].do == "choose a kit for this case"


def test_a_broken_kit_does_not_make_the_case_look_broken() -> None:
    case = case_of("quarry-outboard")
    kit = put(kit_of(case), ("line", 0, "length"), "40 kg")
    assert set(faults(case, kit)) == {"line[1].length"}
    assert [fault.key for fault in check_kit(kit)[1]] == ["line[1].length"]
    twice = kit_of(case)
    assert twice is not None
    twice["bag"].append(twice["bag"][0])
    assert [fault.key for fault in check_kit(twice)[1]] == ["bag[8].id"]


def test_the_words_are_those_of_a_document() -> None:
    case = put(case_of("quarry-outboard"), ("dive", 0, "start"), "tomorrow")
    told = faults(put(case, ("lift", "tries"), "two"), kit_of(case))
    assert told["dive[1].start"].allowed == "a time with its offset, such as 2027-04-14T10:00:00+01:00"
    assert "quotes" not in told["lift.tries"].allowed


def test_a_time_needs_its_offset() -> None:
    case = put(case_of("quarry-outboard"), ("dive", 0, "start"), "2027-04-14T10:00:00")
    assert "offset" in faults(case, kit_of(case))["dive[1].start"].what


def test_null_counts_as_left_out() -> None:
    case = case_of("first-answer")
    loaded, _ = check_documents({**case, "site": {**case["site"], "bottom": None}, "lift": None}, None, "x")
    assert loaded is not None
    assert loaded.case.site.bottom is None


def test_the_trace_is_that_of_the_file() -> None:
    from parbuckle.desk.ascending import ascend

    case = case_of("quarry-outboard")
    mine = trace_documents(case, kit_of(case), "x", planned("quarry-outboard"))
    theirs = ascend(FILES / "quarry-outboard.toml", draws=DRAWS, trace=True)
    assert mine == {key: theirs[key] for key in ("trace_of", "trace")}
    assert len(mine["trace"]) > 20
    assert trace_documents({"schema": 1}, None, "x", {})["trace"] == []


def test_no_file_is_opened_for_a_document(tmp_path: Any) -> None:
    case = case_of("first-answer")
    shape = {"by": "Ada", "shape": "mesh", "file": "thing.stl"}
    case["object"]["measured"] = [shape]
    assert faults(case)["object.measured[1].file"].what == "no files lie beside a case in the app"
    for name in ("/etc/hostname", "../thing.stl"):
        case["object"]["measured"] = [{**shape, "file": name}]
        loaded, found = check_documents(case, None, "x", tmp_path)
        assert loaded is None
        assert "own folder" in found[0].what


def test_the_digest_sees_values_and_not_the_order_of_keys() -> None:
    case = case_of("tidal-frame")
    turned = dict(reversed(case.items()))
    assert digest_of(case, kit_of(case)) == digest_of(turned, kit_of(case))
    assert digest_of(case, kit_of(case)) != digest_of(case, None)
    assert digest_of(case, None) != digest_of(put(case, ("site", "depth"), "23.1 m"), None)


def test_nesting_is_bounded() -> None:
    deep: Any = "x"
    for _ in range(DEEPEST + 5000):
        deep = [deep]
    assert "too deep" in next(iter(faults({"schema": 1, "object": deep}).values())).what


@pytest.mark.parametrize("name", ["", ".", "..", "a/b", "x\0y", "/etc/passwd", "case.toml"])
def test_the_name_never_leads_elsewhere(name: str) -> None:
    loaded = read_documents(case_of("first-answer"), None, name)
    assert len(loaded.path.parts) == 1


def test_read_documents_raises_the_first_fault() -> None:
    with pytest.raises(CaseError) as told:
        read_documents({"schema": 1, "a": 1, "b": 2, "c": 3}, None, "x")
    assert told.value.what == "the key 'a' is not known (2 more)"
    assert (told.value.key, told.value.file) == ("a", "case")


@pytest.mark.parametrize(
    ("key", "of", "path"),
    [
        ("object.part.block, leg and bracket.mass", "case", ("object", "part", 0, "mass")),
        ("object.part[2].mass", "case", ("object", "part", 1, "mass")),
        ("kit.bag.C15.pull", "kit", ("bag", 1, "pull")),
        ("person.Tomas.working_rate", "kit", ("person", 2, "working_rate")),
        ("lift.bags[2]", "case", ("lift", "bags", 1)),
        ("dive.1.rig.2.time", "case", ("dive", 0)),
        ("account.from", "case", ("account",)),
        ("house.surplus_limit", "case", ("house", "surplus_limit")),
        ("site.depth", "case", ("site", "depth")),
        ("kit", "case", ("kit",)),
        ("breathing cylinder of Ada", "case", ()),
        ("", "case", ()),
    ],
)
def test_a_told_key_leads_to_its_field(key: str, of: str, path: tuple[Any, ...]) -> None:
    case = case_of("quarry-outboard")
    assert place_of(key, case, kit_of(case)) == (of, path)


def test_a_trainee_is_in_the_case() -> None:
    case = case_of("training-drum")
    assert place_of("person.Trainee B.reaction", case, kit_of(case)) == ("case", ("trainee", 1, "reaction"))


def test_what_a_stage_refuses_becomes_a_fault() -> None:
    case = put(case_of("quarry-outboard"), ("site", "depth"), "0.5 m")
    document, found = plan_documents(case, kit_of(case), "x", 16)
    assert document is None
    assert [(fault["key"], fault["path"], fault["of"]) for fault in found] == [
        ("lift.rigging", ["lift", "rigging"], "case")
    ]
    unknown, found = plan_documents(case_of("first-answer") | {"house": {"surplus": "1 kg"}}, None, "x", 16)
    assert unknown is None
    assert found[0]["path"] == ["house", "surplus"]
    assert fault_of(RangeError("too warm"), {}, None).what == "too warm"


@pytest.mark.parametrize("name", ALL)
def test_a_case_goes_out_and_comes_back(name: str) -> None:
    case = case_of(name)
    text = to_toml(case, "Written by hand\nand by eye")
    assert text.startswith("# Written by hand\n# and by eye\n")
    assert from_toml(text) == case
    assert from_toml("\ufeff" + text.replace("\n", "\r\n")) == case


def test_a_kit_goes_out_with_its_dates() -> None:
    kit = kit_of({"kit": "kit.toml"})
    assert kit is not None
    text = to_toml(kit, of="kit")
    assert from_toml(text, "the kit") == kit
    assert any(isinstance(value, date) for _, value in leaves(shipped("kit")))
    assert "due = 20" in text
    with pytest.raises(CallError):
        to_toml(kit, of="sonar")


WRITTEN = st.recursive(
    st.text(max_size=8) | st.integers(-(2**53), 2**53) | st.floats(allow_nan=False) | st.booleans(),
    lambda inside: st.lists(inside, max_size=3) | st.dictionaries(st.text(min_size=1, max_size=5), inside, max_size=3),
    max_leaves=8,
)


@settings(max_examples=150, deadline=None)
@given(st.dictionaries(st.sampled_from(["site", "object", "case", "dive", "x y", "lift"]), WRITTEN, max_size=4))
def test_anything_is_checked_and_comes_back(tables: dict[str, Any]) -> None:
    document = plain({"schema": 1, **tables})
    loaded, found = check_documents(document, None, "x")
    assert (loaded is None) == bool(found)
    assert isinstance(shown_values(document), dict)
    assert from_toml(to_toml(document)) == document


@pytest.mark.parametrize(
    "text", ["schema = 2", "schema = 1\nx = [", "schema = 1\n\0", "x = 1", "schema = 1\nx = " + "[" * 99]
)
def test_a_text_that_is_no_case_is_refused(text: str) -> None:
    with pytest.raises(CaseError) as told:
        from_toml(text, "the upload")
    assert told.value.file == "the upload"


def test_too_large_a_text_is_refused() -> None:
    with pytest.raises(CaseError, match="too large"):
        from_toml("schema = 1\n#" + "x" * 1_000_001)


def test_numbers_that_json_lacks_become_texts() -> None:
    document = from_toml("schema = 1\n[house]\na = nan\nb = -inf\nc = 07:30:00")
    assert document["house"] == {"a": "nan", "b": "-inf", "c": "07:30:00"}
    json.dumps(document, allow_nan=False)


SHOWN = [
    ("object.part[1].mass", "46 kg (42 to 50)", "101 lb (93 to 110)"),
    ("site.temperature", "8 °C", "46.4 °F"),
    ("limits.stream", "0.154 m/s", "0.3 kn"),
    ("object.bed.days", "4", "4"),
    ("kit.bag[1].capacity", "25 l", "0.883 cu ft"),
    ("account[2].bearing", "028° (020° to 036°)", "028° (020° to 036°)"),
]


@pytest.mark.parametrize(("key", "metric", "imperial"), SHOWN)
def test_values_are_shown_in_both_systems(key: str, metric: str, imperial: str) -> None:
    case = case_of("quarry-outboard")
    row = shown_values(case, kit_of(case))[key]
    assert [row[unit].replace("\u202f", " ") for unit in ("metric", "imperial")] == [metric, imperial]


def test_a_kit_is_shown_by_its_own_keys() -> None:
    kit = kit_of({"kit": "kit.toml"})
    assert kit is not None
    assert shown_kit(kit)["bag[1].capacity"]["metric"] == "25\u202fl"
    assert kit_faults_of(kit) == []
    assert kit_faults_of(put(kit, ("bag", 0, "style"), "round"))[0]["path"] == ["bag", 0, "style"]


def test_what_is_shown_keeps_the_figures_that_were_typed() -> None:
    shown = shown_values({"site": {"depth": "16.25 m", "altitude": "nonsense"}, "house": {"surplus_limit": "5 kg"}})
    assert shown["site.depth"]["metric"] == "16.25\u202fm"
    assert "site.altitude" not in shown
    assert shown["house.surplus_limit"]["range"] == [5.0, 5.0, 5.0]


@pytest.mark.parametrize("name", ALL)
def test_every_value_of_a_shipped_case_is_shown(name: str) -> None:
    """What is a value in the form and was typed has its echo."""
    from parbuckle.case.fields import keys_of
    from parbuckle.case.model import Case

    case, shown = case_of(name), shown_values(case_of(name))
    typed = [leaf for leaf, value in leaves(case) if isinstance(value, str) and value != "unknown"]
    values = []
    for leaf in typed:
        model: Any = Case
        for step in leaf[:-1]:
            key = keys_of(model).get(step) if isinstance(step, str) and model is not None else None
            model = key.below if key else model if isinstance(step, int) else None
        key = keys_of(model).get(leaf[-1]) if model is not None and isinstance(leaf[-1], str) else None
        if key is not None and key.value is not None:
            values.append("".join(f"[{s + 1}]" if isinstance(s, int) else f".{s}" for s in leaf).lstrip("."))
    assert values
    assert not set(values) - set(shown)
