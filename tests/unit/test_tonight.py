"""Tonight: twenty answers out of the plan, with the state that the rules give them; nothing more is said."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest

from guard.leaves import put
from parbuckle.case.fields import keys_of
from parbuckle.case.kit import Kit
from parbuckle.case.model import Case
from parbuckle.desk.documents import plan_documents
from parbuckle.desk.finding_places import (
    STAGES,
    finding_places,
    place_of_finding,
    placed_findings,
    stage_of_lack,
    stage_states,
)
from parbuckle.desk.tonight import tonight
from parbuckle.duties.catalogue import catalogue
from parbuckle.quantity.shown import THIN
from sample_documents import ALL, case_of, kit_of, planned

STATES = {"stop", "unanswered", "caution", "answered"}
LEVELS = ("stop", "unanswered", "caution", "note")


def answers(document: dict[str, Any]) -> dict[int, dict[str, Any]]:
    return {row["n"]: row for row in tonight(document)["questions"]}


def changed(name: str, *changes: tuple[tuple[Any, ...], Any]) -> dict[int, dict[str, Any]]:
    case = case_of(name)
    for path, value in changes:
        case = put(case, path, value)
    document, faults = plan_documents(case, kit_of(case), "x", 32)
    assert document is not None, faults
    return answers(document)


def is_key(key: str) -> bool:
    model: Any = Kit if key.startswith("kit.") else Case
    for step in key.removeprefix("kit.").split("."):
        found = keys_of(model).get(step) if model else None
        if found is None:
            return False
        model = found.below
    return True


def test_every_finding_has_its_place_once() -> None:
    assert set(finding_places()) == set(catalogue())
    for code, place in finding_places().items():
        assert place["stage"] in STAGES, code
        assert is_key(place["key"]), place["key"]


@pytest.mark.parametrize("name", ALL)
def test_twenty_questions_are_answered_or_said_to_be_open(name: str) -> None:
    rows = answers(planned(name))
    assert list(rows) == list(range(1, 21))
    for row in rows.values():
        assert row["state"] in STATES
        assert row["answer"].endswith((".", "?", "!")), row
        assert row["stage"] in STAGES
        assert is_key(row["key"]), row["key"]
        assert bool(row["what_to_do"]) == (row["state"] != "answered"), row
        assert not re.search(r"\bNone\b(?! is|:)|\bnan\b|\{|\}", row["answer"]), row["answer"]
    assert json.loads(json.dumps(tonight(planned(name))))


@pytest.mark.parametrize("name", ALL)
def test_every_stop_and_caution_weighs_on_a_question(name: str) -> None:
    document = planned(name)
    rows = answers(document).values()
    told = {code for row in rows for code in row["findings"]}
    assert told == {row["code"] for row in document["findings"]}
    for finding in document["findings"]:
        mine = [row for row in rows if finding["code"] in row["findings"]]
        if finding["level"] == "stop":
            assert {row["state"] for row in mine} == {"stop"}
            assert any(finding["text"] in row["what_to_do"] for row in mine)


@pytest.mark.parametrize("name", ALL)
def test_no_question_is_answered_while_a_rule_says_otherwise(name: str) -> None:
    document = planned(name)
    levels: dict[str, str] = {}
    for finding in document["findings"]:
        levels[finding["code"]] = min(levels.get(finding["code"], "note"), finding["level"], key=LEVELS.index)
    for row in answers(document).values():
        worst = min((levels[code] for code in row["findings"]), key=LEVELS.index, default="note")
        if worst != "note":
            assert row["state"] in (worst, "unanswered")


def test_a_lifted_stop_no_longer_holds_a_question() -> None:
    document = planned("tidal-frame")
    for finding in document["findings"]:
        if finding["level"] == "stop":
            finding["lifted"] = {"by": "Ada", "reason": "seen", "at": ""}
    assert "stop" not in {row["state"] for row in answers(document).values()}
    assert stage_states(document)["lift"]["stop"] == 0


def test_a_lifted_stop_stays_visible_with_its_reason() -> None:
    document = planned("tidal-frame")
    lifted = [row for row in document["findings"] if row["level"] == "stop"]
    for finding in lifted:
        finding["lifted"] = {"by": "Ada", "reason": "seen by two", "at": ""}
    for finding in lifted:
        mine = [row for row in answers(document).values() if finding["code"] in row["findings"]]
        assert mine
        assert not [row for row in mine if row["state"] == "answered"]
    told = " ".join(row["what_to_do"] for row in answers(document).values())
    assert "Stop lifted. " in told
    assert "Lifted by Ada: seen by two." in told
    assert stage_states(document)["lift"]["state"] in ("unanswered", "caution")


def test_gear_that_is_past_its_date_is_told_after_its_stop_was_lifted() -> None:
    document = planned("quarry-outboard")
    row = {**document["findings"][0], "code": "past_due", "level": "stop", "text": "Bag C25 is past its date."}
    document["findings"].append({**row, "lifted": {"by": "Ada", "reason": "tested today", "at": ""}})
    answer = answers(document)[15]["answer"]
    assert "Bag C25 is past its date." in answer
    assert "Nothing in this plan is out of date" not in answer


def test_pressures_to_act_at_are_those_of_the_dive_page_and_circles_are_rounded_up() -> None:
    document = planned("quarry-outboard")
    document["dives"][0]["divers"][0] |= {"name": "Ines", "leave_bottom_bar": 71.2, "turn_bar": 141.2}
    document["dives"][0]["does"] = "search"
    document["circles"] |= {"bottom_m": 12.1, "surface_m": 17.1}
    document["lift"]["ceiling_kg"] = 39.9
    rows = answers(document)
    assert "turn at: Ines 145 bar (2110 psi)" in rows[6]["answer"]
    assert "leave the bottom at: Ines 75 bar (1090 psi)" in rows[6]["answer"]
    assert "inside 13 m (40 ft)" in rows[8]["answer"]
    assert "inside 18 m (57 ft)" in rows[8]["answer"]
    assert "Stop filling at 39 kg (87 lb)" in rows[3]["answer"]


def test_numbers_come_in_both_systems() -> None:
    rows = answers(planned("quarry-outboard"))
    for number, metric, imperial in (
        (2, "kg", "lb"),
        (3, "kg", "lb"),
        (5, " l ", "cu ft"),
        (6, "bar", "psi"),
        (8, "m", "ft"),
    ):
        assert metric in rows[number]["answer"]
        assert imperial in rows[number]["answer"]
    assert THIN not in rows[2]["answer"]


def test_the_chosen_system_comes_first() -> None:
    rows = changed("quarry-outboard", (("case", "units"), "imperial"))
    assert re.match(r"\d+ lb .*kg", rows[2]["answer"])


AGREED = {7: ("fit", "Ann and Bo, asked tonight"), 11: ("signals", "the club's set"), 12: ("flag", "A, the cox")}


def test_what_the_team_has_to_agree_is_open_until_it_is_written() -> None:
    rows = answers(planned("quarry-outboard"))
    for number in AGREED:
        assert rows[number]["state"] == "unanswered"
        assert "under Brief" in rows[number]["what_to_do"]
    told = changed("quarry-outboard", *(((("agreed", key)), words) for key, words in AGREED.values()))
    for number, (_, words) in AGREED.items():
        assert words in told[number]["answer"]
        assert told[number]["state"] != "unanswered"
    assert rows[11]["key"] == "agreed.signals"


def test_unknown_is_no_agreement() -> None:
    assert changed("quarry-outboard", (("agreed", "fit"), "unknown"))[7]["state"] == "unanswered"


def test_an_empty_case_says_how_each_answer_is_given() -> None:
    document, _ = plan_documents({"schema": 1}, None, "x", 16)
    assert document is not None
    rows = answers(document)
    open_rows = [row for row in rows.values() if row["state"] == "unanswered"]
    assert len(open_rows) == 18
    assert all(row["what_to_do"] for row in open_rows)
    assert rows[2]["answer"] == "Nothing says what it weighs."
    assert rows[15]["what_to_do"] == "Name a kit for this case."


def test_answers_follow_the_case() -> None:
    assert "towed by a whale" in changed("quarry-outboard", (("surface", "then"), "towed by a whale"))[12]["answer"]
    rows = changed("quarry-outboard", (("hazards", "ordnance"), "a shell"), (("permission", "owner"), "unknown"))
    assert rows[13]["state"] == "stop"
    assert "Do not touch or move it." in rows[13]["what_to_do"]
    assert rows[14]["state"] == "unanswered"
    assert "owner" in rows[14]["what_to_do"]
    assert "wind 9 kn" in changed("quarry-outboard", (("limits", "wind"), "9 kn"))[10]["answer"]
    assert "Call: the harbour" in changed("quarry-outboard", (("emergency", "call"), "the harbour"))[18]["answer"]


def test_slack_is_told_with_its_chance() -> None:
    row = answers(planned("tidal-frame"))[1]
    assert "slack at 10:" in row["answer"]
    assert "by the clock it fits in" in row["answer"]
    assert row["state"] == "stop"


def test_a_lesson_keeps_its_truth_sealed() -> None:
    row = answers(planned("training-drum"))[20]
    assert "sealed" in row["answer"]
    assert "Watched by Sefa" in row["answer"]
    assert row["state"] == "answered"
    case = case_of("training-drum")
    del case["sealed"]
    document, _ = plan_documents(case, kit_of(case), "x", 16)
    assert document is not None
    assert answers(document)[20]["state"] == "unanswered"
    assert answers(planned("quarry-outboard"))[20]["answer"] == "It is a recovery, not a lesson."


def test_lines_that_hold_are_named() -> None:
    row = answers(planned("tidal-frame"))[9]
    assert "Restraint HOLD to an anchor of 70 kg in water" in row["answer"]
    assert "Crown line CROWN to the load" in row["answer"]
    assert "None is in the plan (accompanied)" in answers(planned("quarry-outboard"))[9]["answer"]
    assert "put down" in answers(planned("mooring-block"))[9]["answer"]


@pytest.mark.parametrize("name", ALL)
def test_stages_have_the_state_of_their_worst_finding(name: str) -> None:
    document = planned(name)
    states = stage_states(document)
    assert tuple(states) == STAGES
    for level, key in (("stop", "stops"), ("unanswered", "unanswered"), ("caution", "cautions")):
        assert sum(row[level] for row in states.values()) == document["verdict"][key]


@pytest.mark.parametrize("name", ALL)
def test_findings_come_with_their_places(name: str) -> None:
    document, case = planned(name), case_of(name)
    rows = placed_findings(document, case, kit_of(case))
    assert [row["code"] for row in rows] == [row["code"] for row in document["findings"]]
    assert all(row["path"] and row["of"] in ("case", "kit") and row["stage"] in STAGES for row in rows)


def test_what_is_not_answered_leads_to_its_own_field() -> None:
    document = planned("first-answer")
    keys = {place_of_finding(row, document)["key"] for row in document["findings"] if row["level"] == "unanswered"}
    assert {
        "hazards.ordnance",
        "hazards.traffic",
        "permission.owner",
        "limits.visibility",
        "kit",
        "lift.cylinder",
    } <= keys


@pytest.mark.parametrize(
    ("key", "stage", "mine"),
    [
        ("site.depth", "lift", "call"),
        ("account[1]", "search", "search"),
        ("object.part[1].mass", "load", "object"),
        ("lift.cylinder", "gas", "lift"),
        ("dive[1].start", "dive", "dive"),
        ("kit", "lift", "lift"),
        ("person.Ada.working_rate", "", "dive"),
    ],
)
def test_a_lack_is_entered_in_its_stage(key: str, stage: str, mine: str) -> None:
    assert stage_of_lack({"key": key, "stage": stage}) == mine


@pytest.mark.parametrize(
    "method", ["carried", "hauled", "bag and line", "accompanied", "unaccompanied", "lowered", "choose"]
)
def test_every_way_up_is_answered(method: str) -> None:
    rows = changed("quarry-outboard", (("lift", "method"), method))
    for number in (3, 4, 5, 8, 9):
        assert rows[number]["answer"]
        assert not re.search(r"\bNone\b(?! is|:)|\{", rows[number]["answer"])
    heavy = method in ("carried", "hauled", "choose")  # choose takes the haul here
    assert rows[4]["answer"].startswith("Nothing: it comes up") == heavy
