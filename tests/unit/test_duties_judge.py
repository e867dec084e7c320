"""How findings are worded, sorted, lifted and summed up."""

from __future__ import annotations

from dataclasses import replace

import pytest

from parbuckle.duties.catalogue import LEVELS, Entry, catalogue
from parbuckle.duties.facts import Answers, Facts, SiteFacts
from parbuckle.duties.finding import Finding, Override, verdict
from parbuckle.duties.hit import Hit
from parbuckle.duties.house import load_house
from parbuckle.duties.judge import judge
from parbuckle.duties.lift_facts import LiftFacts
from parbuckle.duties.people_facts import Dive, Member
from parbuckle.duties.wording import worded
from parbuckle.quantity.errors import CaseError

HOUSE = load_house({})
SIGNED = Override("surplus_over_limit", "Ada", "held on the davit", "2027-04-14T09:00:00+01:00")
HEAVY = Facts(lift=LiftFacts(method="accompanied", surplus_high=12.0, reference="shot line"))


def of(code: str, findings: tuple[Finding, ...]) -> Finding:
    return next(finding for finding in findings if finding.code == code)


def test_text_holds_value_and_limit() -> None:
    text = of("surplus_over_limit", judge(HEAVY, HOUSE)).text
    assert "12" in text
    assert "8" in text
    assert "kg" in text


def test_value_and_limit_stay_in_si() -> None:
    finding = of("stream_over_limit", judge(_stream(0.3), HOUSE))
    assert (finding.value, finding.limit) == (0.3, 0.2)


def _stream(speed: float) -> Facts:
    return Facts(answers=Answers(limit_stream=0.2), dives=(Dive("lift", label="dive 1 (lift)", stream=speed),))


def test_value_and_limit_never_read_the_same() -> None:
    near = Facts(lift=LiftFacts(method="accompanied", surplus_high=8.004, reference="shot line"))
    text = of("surplus_over_limit", judge(near, HOUSE)).text
    assert "up to just over 8" in text


def test_units_of_the_case() -> None:
    metric = of("surplus_over_limit", judge(HEAVY, HOUSE)).text
    imperial = of("surplus_over_limit", judge(replace(HEAVY, units="imperial"), HOUSE)).text
    assert "kg" in metric
    assert "lb" in imperial
    assert "kg" not in imperial


def test_sorted_by_level_then_catalogue() -> None:
    found = judge(HEAVY, HOUSE)
    order = list(catalogue())
    ranks = [(LEVELS.index(finding.level), order.index(finding.code)) for finding in found]
    assert ranks == sorted(ranks)
    assert {finding.level for finding in found} >= {"stop", "unanswered"}


def test_a_reason_lifts_and_is_kept() -> None:
    finding = of("surplus_over_limit", judge(HEAVY, HOUSE, [SIGNED]))
    assert finding.level == "stop"
    assert not finding.holds
    assert finding.document()["lifted"] == {
        "by": "Ada",
        "reason": "held on the davit",
        "at": "2027-04-14T09:00:00+01:00",
    }


def test_a_lifted_stop_comes_after_what_is_open_and_before_cautions() -> None:
    shown = [(f.level, f.holds) for f in judge(replace(HEAVY, site=SiteFacts(temperature=275.0)), HOUSE, [SIGNED])]
    place = shown.index(("stop", False))
    assert ("unanswered", True) in shown[:place]
    assert ("caution", True) not in shown[:place]
    assert ("caution", True) in shown[place:]


@pytest.mark.parametrize("missing", ["by", "reason", "at"])
def test_an_incomplete_override_lifts_nothing(missing: str) -> None:
    found = judge(HEAVY, HOUSE, [replace(SIGNED, **{missing: "  "})])
    assert of("surplus_over_limit", found).holds
    assert of("override_incomplete", found).value == missing


@pytest.mark.parametrize(
    "code", ["ordnance_told", "breathing_gas_for_bag", "no_standby", "visibility_under_limit", "override_refused"]
)
def test_what_is_never_lifted(code: str) -> None:
    assert catalogue()[code].override == "never"


def test_a_try_to_lift_what_is_never_lifted_is_a_stop() -> None:
    facts = Facts(answers=Answers(ordnance="a shell"))
    found = judge(facts, HOUSE, [replace(SIGNED, code="ordnance_told")])
    assert of("ordnance_told", found).holds
    assert of("override_refused", found).level == "stop"
    assert verdict(found)["stops"] == 2


def test_an_open_question_is_not_lifted() -> None:
    found = judge(Facts(), HOUSE, [replace(SIGNED, code="comms_unanswered")])
    assert of("comms_unanswered", found).holds
    assert of("override_refused", found).holds


def test_an_unknown_code_suggests_the_nearest() -> None:
    with pytest.raises(CaseError, match="did you mean surplus_over_limit"):
        judge(HEAVY, HOUSE, [replace(SIGNED, code="surplus_over_limits")])


def test_one_override_lifts_every_finding_of_its_code() -> None:
    facts = Facts(dives=(Dive("lift", tuple(Member(n, "boat", may=()) for n in ("Lio", "Mara"))),))
    found = judge(facts, HOUSE, [replace(SIGNED, code="not_allowed")])
    assert [finding.holds for finding in found if finding.code == "not_allowed"] == [False, False]


def finding(level: str, lifted: Override | None = None) -> Finding:
    return Finding(level, "x", "X.", None, None, "", "reason", "", lifted)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("levels", "line"),
    [
        ([], "No stop found in what you told me."),
        (["caution", "note"], "No stop found in what you told me."),
        (["unanswered"], "No stop found in what you told me, but 1 question is not answered."),
        (["unanswered"] * 2, "No stop found in what you told me, but 2 questions are not answered."),
        (["stop"], "STOP: 1 stop holds."),
        (["stop", "stop", "unanswered"], "STOP: 2 stops hold. 1 question is not answered."),
    ],
)
def test_verdict(levels: list[str], line: str) -> None:
    assert verdict([finding(level) for level in levels])["line"] == line


def test_verdict_does_not_count_lifted_stops() -> None:
    told = verdict([finding("stop", SIGNED), finding("caution")])
    assert told == {
        "line": "No stop found in what you told me.",
        "stops": 0,
        "unanswered": 0,
        "cautions": 1,
        "lifted": 1,
    }


def test_nothing_is_ever_called_ready() -> None:
    texts = [entry.text + entry.do + entry.text_bare for entry in catalogue().values()]
    chamber = "a chamber must be ready for use"
    assert not [text for text in texts if "ready" in text.replace(chamber, "")]


@pytest.mark.parametrize("code", catalogue())
def test_entry(code: str) -> None:
    entry: Entry = catalogue()[code]
    assert entry.level in LEVELS
    assert entry.override in ("never", "reason")
    assert entry.override == "never" or entry.level == "stop"
    assert entry.source
    assert entry.do


def test_brackets_that_stay_empty_go() -> None:
    assert worded("Fast ({what}): {value}.", "words", Hit("x", "yes"), "metric") == "Fast: yes."


@pytest.mark.parametrize(
    ("kind", "value", "said"),
    [
        ("chance", 0.97, "about 97 of 100 draws"),
        ("chance", 0.0, "none of the draws"),
        ("chance", 1.0, "all of the draws"),
        ("clock", 66600.0, "18:30"),
        ("count", 2, "2"),
        ("words", 3, "3"),
        ("number", 1.46, "1.5"),
        ("words", None, "not known"),
    ],
)
def test_special_words(kind: str, value: float | None, said: str) -> None:
    assert worded("It is {value}", kind, Hit("x", value), "metric") == f"It is {said}"


def test_a_length_is_rounded_up_on_the_safe_side() -> None:
    assert worded("{value}", "length_up", Hit("x", 4.01), "metric").startswith("5")
