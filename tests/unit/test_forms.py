"""The form: every key of case and kit is in it, with its units, its words and its help."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest
from pydantic import BaseModel

from guard.leaves import leaves
from parbuckle.case.fields import keys_of
from parbuckle.case.kit import Kit
from parbuckle.case.model import Case
from parbuckle.desk.form_words import LABELS
from parbuckle.desk.forms import form
from parbuckle.duties.house import house_rules
from parbuckle.quantity.kinds import kind
from sample_documents import ALL, case_of, kit_of

MODELS: dict[str, type[BaseModel]] = {"case": Case, "kit": Kit}


def keys_of_model(model: type[BaseModel], path: str = "") -> Iterator[str]:
    for name, key in keys_of(model).items():
        yield path + name
        if key.below is not None:
            yield from keys_of_model(key.below, f"{path}{name}.")


def fields(of: str) -> dict[str, dict[str, Any]]:
    found = {}

    def walk(rows: list[dict[str, Any]], path: str) -> None:
        for row in rows:
            found[path + row["key"]] = row
            walk(row["fields"], f"{path}{row['key']}.")

    for section in form()[of]:
        if section["key"]:
            found[section["key"]] = section
        walk(section["fields"], f"{section['key']}." if section["key"] else "")
    return found


@pytest.mark.parametrize("of", MODELS)
def test_every_key_of_the_format_is_in_the_form(of: str) -> None:
    there = {key for key in fields(of) if not key.startswith("house.")}
    assert there == set(keys_of_model(MODELS[of]))


def test_every_house_rule_is_in_the_form() -> None:
    there = {key.removeprefix("house.") for key in fields("case") if key.startswith("house.")}
    assert there == {rule.key for rule in house_rules()}


@pytest.mark.parametrize("of", MODELS)
def test_every_field_has_label_help_and_what_its_type_needs(of: str) -> None:
    for key, field in fields(of).items():
        assert field["help"], key
        if "label" not in field:
            assert field["title"], key
            continue
        assert field["label"][0].isupper() or not field["label"][0].isalpha(), key
        assert "_" not in field["label"], key
        if field["type"] == "value":
            assert field["units"] or field["kind"] in ("days", "number"), key
        if field["type"] in ("word", "words"):
            assert field["choices"], key
            assert not field["open"], key
        if field["type"] in ("table", "rows", "place", "places"):
            assert field["fields"], key


def test_units_are_those_that_the_reader_takes() -> None:
    found = fields("case")
    assert "kg in water" in found["object.balance.weight"]["units"]
    assert "deg mag" in found["account.bearing"]["units"]
    assert {"fresh", "sea"} <= set(found["site.water"]["units"])
    assert {"hand", "arms"} <= set(found["object.measured.length"]["units"])
    assert set(found["site.depth"]["units"]) == set(kind("length").units)


def test_words_come_from_the_models_and_from_the_data() -> None:
    case, kit = fields("case"), fields("kit")
    assert case["lift.method"]["choices"][0] == "choose"
    assert case["lift.method"]["default"] == "choose"
    assert "aluminium" in case["object.part.material"]["choices"]
    assert case["object.part.material"]["open"]
    assert "soft mud" in case["site.bottom"]["choices"]
    assert "anchor" in case["object.known_as"]["choices"]
    assert "bag tender" in kit["person.may"]["choices"]
    assert case["account.sure"]["choices"] == ["sure", "fairly", "guess"]
    assert case["hazards.fuel"]["choices"] == ["no", "yes", "unknown"]
    assert (case["lift.bags"]["kit"], case["dive.team.person"]["kit"], case["lift.restraint.line"]["kit"]) == (
        "bag",
        "person",
        "line",
    )


def test_what_is_needed_and_what_may_be_unknown() -> None:
    case, kit = fields("case"), fields("kit")
    assert kit["bag.capacity"]["needed"]
    assert not kit["bag.capacity"]["unknown_ok"]
    assert case["site.depth"]["unknown_ok"]
    assert case["hazards.fuel"]["unknown_ok"]
    assert not case["case.purpose"]["unknown_ok"]


def test_types() -> None:
    case, kit = fields("case"), fields("kit")
    told = {
        "site.datum": "place",
        "account.area": "places",
        "site.shore.profile": "pairs",
        "exposure.gradient": "two_numbers",
        "dive.start": "time",
        "dive.tasks.by": "texts",
        "lift.as_point": "flag",
        "lift.tries": "number",
        "lift.rigging": "rows",
        "lift.rate": "table",
    }
    assert {key: case[key]["type"] for key in told} == told
    assert (kit["bag.due"]["type"], kit["cylinder.gas"]["type"]) == ("date", "gas")


@pytest.mark.parametrize("name", ALL)
def test_everything_that_a_shipped_case_says_has_a_field(name: str) -> None:
    case = case_of(name)
    for of, document in (("case", case), ("kit", kit_of(case) or {})):
        known = fields(of)
        for leaf, _ in leaves(document):
            key = ".".join(str(step) for step in leaf if isinstance(step, str))
            assert key in known, key


def test_every_label_is_used() -> None:
    paths = [tuple(key.split(".")) for of in MODELS for key in fields(of)] + [("",)]
    assert not [end for end in LABELS if not any(path[-len(end) :] == end for path in paths)]


def test_the_form_is_plain() -> None:
    assert json.loads(json.dumps(form())) == form()
