"""House rules, legal limits, inspection intervals, and how answers are understood."""

from __future__ import annotations

from datetime import date
from importlib import resources
from pathlib import Path

import pytest

from parbuckle.duties.house import HouseRule, house_rules, load_house
from parbuckle.duties.intervals import age_of_table, due_after, intervals, table_date
from parbuckle.duties.regimes import legal_limits
from parbuckle.duties.words import understood
from parbuckle.quantity.errors import CaseError


def test_defaults_in_si() -> None:
    house = load_house({})
    assert house["surplus_limit"] == 8.0
    assert house["ceiling"] == pytest.approx(0.15)
    assert house["cold"] == pytest.approx(283.15)
    assert house["growing_share"] == pytest.approx(0.333)
    assert (house.spread("bag_tolerance").low, house.spread("bag_tolerance").high) == pytest.approx((-0.05, 0.25))
    assert house.changed == ()


@pytest.mark.parametrize("rule", house_rules(), ids=lambda rule: rule.key)
def test_rule(rule: HouseRule) -> None:
    assert rule.mark in ("house default", "common practice", "read", "recalled")
    assert rule.source
    assert rule.meaning.endswith(".")
    assert load_house({rule.key: rule.default})[rule.key] == load_house({})[rule.key]


def test_a_case_changes_a_rule() -> None:
    house = load_house({"reaction": "1.5 s", "high_over_low": 2})
    assert (house["reaction"], house["high_over_low"]) == (1.5, 2.0)
    assert house.changed == ("reaction", "high_over_low")


def test_an_unknown_rule_suggests_the_nearest() -> None:
    with pytest.raises(CaseError, match="did you mean reaction"):
        load_house({"reacton": "1 s"})


@pytest.mark.parametrize(
    ("key", "given"),
    [
        ("surplus_limit", "8"),
        ("surplus_limit", 8),
        ("surplus_limit", "8 m"),
        ("surplus_limit", True),
        ("high_over_low", "much"),
        ("high_over_low", True),
        ("high_over_low", "inf"),
        ("reserve", "20"),
    ],
)
def test_what_cannot_be_read_names_its_key(key: str, given: object) -> None:
    with pytest.raises(CaseError) as told:
        load_house({key: given})
    assert told.value.key == f"house.{key}"
    assert told.value.allowed


def test_law_is_not_a_house_rule() -> None:
    keys = {key for country in ("GB", "US") for key in legal_limits(country, "commercial")}
    assert keys
    assert not keys & {rule.key for rule in house_rules()}


def test_no_limit_is_dead() -> None:
    package = Path(str(resources.files("parbuckle")))
    code = "\n".join(path.read_text(encoding="utf-8") for path in package.rglob("*.py"))
    keys = [rule.key for rule in house_rules()]
    keys += [key for country in ("GB", "US") for key in legal_limits(country, "commercial")]
    assert [key for key in keys if f'"{key}"' not in code] == []


def test_law_by_country_and_regime() -> None:
    assert legal_limits("US", "commercial")["scuba_depth"] == pytest.approx(39.624)
    assert legal_limits("GB", "private")["wreck_report"] == 28 * 86400.0
    assert not legal_limits("", "private")


def test_due_after_takes_the_soonest() -> None:
    assert due_after("GB", "cylinder", date(2026, 1, 1)) == date(2028, 7, 2)
    assert due_after("NZ", "cylinder", date(2026, 1, 1)) is None


def test_date_of_table() -> None:
    assert table_date("NZ") is None
    assert age_of_table("NZ", date(2027, 1, 1)) is None
    assert age_of_table("GB", date(2020, 1, 1)) == 0.0
    assert table_date("GB") == min(row.read for row in intervals("GB"))
    assert all(row.source and row.mark in ("read", "recalled") for row in intervals("GB") + intervals("US"))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (None, "open"),
        ("", "open"),
        (" Unknown ", "open"),
        ("unknown, ask the owner", "open"),
        ("?", "open"),
        ("no idea", "open"),
        ("No.", "none"),
        ("none; swimmers kept off by the owner", "none"),
        ("nobody looked", "words"),
        ("no objection from the owner", "words"),
        ("yes", "yes"),
        ("yes, a net", "words"),
        ("ground line may still be attached", "words"),
    ],
)
def test_answers(text: str | None, said: str) -> None:
    assert understood(text) == said
