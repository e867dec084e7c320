"""The ten first questions: a case that can be planned at once from any of the answers; and what is missing then."""

from __future__ import annotations

from typing import Any

import pytest

from parbuckle.case.documents import check_documents
from parbuckle.desk.documents import plan_documents
from parbuckle.desk.finding_places import STAGES
from parbuckle.desk.questions import HAZARDS, NONE_OF_THESE, case_from_answers, missing, questions
from sample_documents import case_of, kit_of, planned

ANSWERS: dict[str, Any] = {
    "what": "Anchor, 15 kg",
    "where": "East jetty",
    "depth": "8..14 m",
    "water": "sea",
    "mass": "13..17 kg",
    "material": "steel",
    "hazards": ["fuel or oil"],
    "owner": "asked and agreed",
    "site_owner": "harbour office, by phone",
    "bottom": "sand",
    "divers": "2",
    "when": "2027-05-01T10:00+01:00",
}


def kit() -> dict[str, Any]:
    document = kit_of({"kit": "kit.toml"})
    assert document is not None
    return document


def test_ten_questions_in_the_order_of_the_call() -> None:
    rows = questions()
    assert [row["n"] for row in rows] == list(range(1, 11))
    assert all(row["ask"].endswith("?") for row in rows)
    keys = [row["key"] for row in rows] + [also["key"] for row in rows for also in row["also"]]
    assert set(keys) == set(ANSWERS)
    assert len(keys) == len(set(keys))


def test_all_answers_make_a_case_that_is_planned() -> None:
    case = case_from_answers({**ANSWERS, "supervisor": "Ada"}, kit())
    assert case["case"] == {"title": "Anchor, 15 kg, East jetty", "supervisor": "Ada"}
    assert case["hazards"] == {"fuel": "yes"}
    assert case["object"]["part"] == [
        {"name": "Anchor, 15 kg", "mass": "13..17 kg", "material": "steel", "how": "told"}
    ]
    assert case["dive"][0]["start"] == "2027-05-01T10:00:00+01:00"
    document, faults = plan_documents(case, kit(), "x", 32)
    assert not faults
    assert document is not None
    assert document["load"]["wet_weight_kg"]["high"] < 17.0


@pytest.mark.parametrize("left_out", [*ANSWERS, None])
def test_any_answer_may_be_left_out(left_out: str | None) -> None:
    said = {key: value for key, value in ANSWERS.items() if key != left_out}
    loaded, faults = check_documents(case_from_answers(said, kit()), kit(), "x")
    assert not faults
    assert loaded is not None


@pytest.mark.parametrize("answers", [{}, {"what": "x"}, dict.fromkeys(ANSWERS), dict.fromkeys(ANSWERS, "unknown")])
@pytest.mark.parametrize("has_kit", [True, False])
def test_a_first_answer_comes_even_from_nothing(answers: dict[str, Any], has_kit: bool) -> None:
    owned = kit() if has_kit else None
    document, faults = plan_documents(case_from_answers(answers, owned), owned, "x", 16)
    assert not faults
    assert document is not None
    assert document["verdict"]["unanswered"] > 0


def test_the_team_is_proposed_from_the_roles_of_the_kit() -> None:
    team = case_from_answers(ANSWERS, kit())["dive"][0]["team"]
    assert [(row["person"], row["role"]) for row in team] == [
        ("Ines", "bag tender"),
        ("Tomas", "load tender"),
        ("Kaya", "standby diver"),
        ("Lio", "tender"),
        ("Ada", "supervisor"),
    ]
    sets = [row["cylinder"] for row in team if "cylinder" in row]
    assert len(sets) == len(set(sets)) == 3
    assert "team" not in case_from_answers({**ANSWERS, "divers": "many"}, kit())["dive"][0]
    assert "team" not in case_from_answers(ANSWERS, None)["dive"][0]


def test_a_quarantined_cylinder_is_not_proposed() -> None:
    owned = kit()
    for row in owned["cylinder"]:
        row["quarantined"] = row["use"] == "lifting" and row["id"] == "L7"
    assert case_from_answers(ANSWERS, owned)["lift"]["cylinder"] == "L12"


def test_hazards_are_no_only_when_somebody_said_so() -> None:
    assert "hazards" not in case_from_answers({"hazards": []})
    assert case_from_answers({"hazards": [NONE_OF_THESE]})["hazards"] == dict.fromkeys(HAZARDS.values(), "no")


@pytest.mark.parametrize("words", [[NONE_OF_THESE, "ordnance"], ["ordnance", NONE_OF_THESE]])
def test_a_hazard_that_was_named_is_never_taken_back_by_none_of_these(words: list[str]) -> None:
    assert case_from_answers({"hazards": words})["hazards"] == {"ordnance": "yes"}


def test_what_was_mistyped_is_kept_and_told() -> None:
    case = case_from_answers({**ANSWERS, "depth": "fourteen", "when": "tomorrow"}, kit())
    assert (case["site"]["depth"], case["dive"][0]["start"]) == ("fourteen", "tomorrow")
    _, faults = check_documents(case, kit(), "x")
    assert {fault.key for fault in faults} == {"site.depth", "dive[1].start"}


def test_a_time_without_an_offset_gets_that_of_this_machine() -> None:
    start = case_from_answers({"when": "2027-05-01T10:00"})["dive"][0]["start"]
    assert start.startswith("2027-05-01T10:00:00")
    assert start[19] in "+-"


def test_a_known_object_stands_in_for_its_mass() -> None:
    case = case_from_answers({"what": "anchor, 15 kg"})
    assert case["object"] == {"name": "anchor, 15 kg", "known_as": "anchor, 15 kg"}
    assert "known_as" not in case_from_answers({"what": "an odd thing"})["object"]


@pytest.mark.parametrize("name", ["first-answer", "tidal-frame"])
def test_what_is_missing_has_its_place_and_its_order(name: str) -> None:
    case = case_of(name)
    rows = missing(planned(name), case, kit_of(case))
    assert rows
    assert all(row["stage"] in STAGES and row["what"] and row["of"] in ("case", "kit") for row in rows)
    shares = [row["share"] for row in rows if row["share"] is not None]
    assert shares == sorted(shares, reverse=True)
    if name == "first-answer":
        assert rows[0]["key"] == "kit"
        assert {"hazards.fuel", "emergency.call"} <= {row["key"] for row in rows}
