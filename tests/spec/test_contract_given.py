"""What a case may give: house rules, overrides, bags by name, other units, unknowns, and next to nothing."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest

from guard.leaves import leaves, put, toml
from guard.shipped import CASES, shipped
from parbuckle.cli.plan import exit_code
from parbuckle.desk.planning import plan
from parbuckle.quantity.errors import CaseError

Data = dict[str, Any]
GAS = {
    "code": "gas_short_tries",
    "by": "Ada",
    "reason": "one try only; we come back",
    "at": datetime(2027, 4, 13, 20, 0, tzinfo=UTC),
}
ORDNANCE = {"code": "ordnance_told", "by": "Ada", "reason": "looks old", "at": datetime(2027, 4, 13, 20, 0, tzinfo=UTC)}


@pytest.fixture
def worked(tmp_path: Path) -> Any:
    def work(case: Data, kit: Data | None = None) -> Data:
        (tmp_path / "kit.toml").write_text(toml(kit or shipped("kit")), encoding="utf-8")
        (tmp_path / "case.toml").write_text(toml(case), encoding="utf-8")
        return plan(tmp_path / "case.toml", 128)

    return work


def codes(document: Data, level: str = "") -> list[str]:
    return [f["code"] for f in document["findings"] if f["level"] == level or not level]


def short_of_gas() -> Data:
    """The quarry with so many tries that the gas does not reach."""
    return put(shipped("quarry-outboard"), ("lift", "tries"), 40)


def test_a_house_rule_is_changed_by_its_key(worked: Any) -> None:
    case = put(shipped("quarry-outboard"), ("house", "reaction"), "2.5 s")
    assert worked(case)["lift"]["bags"] != worked(shipped("quarry-outboard"))["lift"]["bags"]


def test_an_unknown_house_rule_suggests_the_nearest(worked: Any) -> None:
    with pytest.raises(CaseError, match="did you mean reaction"):
        worked(put(shipped("quarry-outboard"), ("house", "reacton"), "2 s"))


def test_an_override_lifts_a_stop(worked: Any) -> None:
    held = worked(short_of_gas())
    assert codes(held, "stop") == ["gas_short_tries"]
    assert exit_code(held) == 2
    lifted = worked(short_of_gas() | {"override": [GAS]})
    assert exit_code(lifted) == 0
    finding = next(f for f in lifted["findings"] if f["code"] == "gas_short_tries")
    assert finding["lifted"]["by"] == "Ada"
    assert finding["level"] == "stop"


def test_an_override_without_a_reason_lifts_nothing(worked: Any) -> None:
    bare = {key: value for key, value in GAS.items() if key != "reason"}
    document = worked(short_of_gas() | {"override": [bare]})
    assert exit_code(document) == 2
    assert "override_incomplete" in codes(document)


def test_some_stops_are_never_lifted(worked: Any) -> None:
    case = put(shipped("quarry-outboard"), ("hazards", "ordnance"), "yes, shells") | {"override": [ORDNANCE]}
    document = worked(case)
    assert exit_code(document) == 2
    assert {"ordnance_told", "override_refused"} <= set(codes(document, "stop"))


@pytest.mark.parametrize("bags", [["C25", "C15"], ["P50"], ["C10", "F30"]])
def test_bags_by_name(worked: Any, bags: list[str]) -> None:
    document = worked(put(shipped("quarry-outboard"), ("lift", "bags"), bags))
    assert sorted(b["id"] for b in document["lift"]["bags"] if b["fill"] != "empty") == sorted(bags)


def test_a_named_bag_past_its_date_is_a_stop(worked: Any) -> None:
    kit = shipped("kit")
    kit["bag"] = [bag | {"due": date(2026, 1, 1)} if bag["id"] == "C25" else bag for bag in kit["bag"]]
    named = worked(put(shipped("quarry-outboard"), ("lift", "bags"), ["C25", "C15"]), kit)
    assert "past_due" in codes(named, "stop")
    chosen = worked(shipped("quarry-outboard"), kit)
    assert "C25" not in [b["id"] for b in chosen["lift"]["bags"]]


@pytest.mark.parametrize("name", CASES)
def test_the_method_may_be_left_open(worked: Any, name: str) -> None:
    document = worked(put(shipped(name), ("lift", "method"), "choose"))
    assert document["lift"]["method_given"] is False
    assert document["lift"]["methods"]
    if name != "first-answer":
        chosen = document["lift"]["method"]
        assert next(r for r in document["lift"]["methods"] if r["method"] == chosen)["possible"]


METRIC_TO_IMPERIAL = {
    ("site", "depth"): ("16 m", "52.4934383 ft"),
    ("site", "temperature"): ("8 degC", "46.4 degF"),
    ("site", "altitude"): ("310 m", "1017.060367 ft"),
    ("lift", "rigging_mass"): ("0.8 kg", "1.763698097 lb"),
}


def test_imperial_units_mean_the_same(worked: Any) -> None:
    metric, imperial = shipped("quarry-outboard"), shipped("quarry-outboard")
    for path, (was, now) in METRIC_TO_IMPERIAL.items():
        assert metric[path[0]][path[1]] == was
        imperial = put(imperial, path, now)
    imperial = put(imperial, ("object", "part", 0, "mass"), "101.4126407 ± 8.818490487 lb")
    one, two = worked(metric), worked(put(imperial, ("case", "units"), "imperial"))
    for section, key in (("load", "wet_weight_kg"), ("lift", "required_kg"), ("lift", "free_gas_l")):
        for end in ("low", "likely", "high"):
            assert two[section][key][end] == pytest.approx(one[section][key][end], rel=1e-6)
    assert " lb" in two["slate"][1]["value"].replace("\u2009", " ").replace("\u202f", " ")


def spread_leaves(name: str) -> list[tuple[Any, ...]]:
    """Paths of a case whose values are a bare number and a unit."""
    bare = re.compile(r"\d+(\.\d+)? (m|kg|degC|m/min|min|kn|l|deg|m/s|%|g/kg|kg in water|h)$")
    return [path for path, value in leaves(shipped(name)) if isinstance(value, str) and bare.match(value)]


@pytest.mark.parametrize(
    "form", ["{low}..{high} {unit}", "{low}..{mid}..{high} {unit}", "{mid} ± {half} {unit}", "{mid} +- {half} {unit}"]
)
@pytest.mark.parametrize("name", ["quarry-outboard", "tidal-frame", "training-drum"])
def test_a_spread_may_stand_on_every_value(worked: Any, name: str, form: str) -> None:
    case, changed = shipped(name), 0
    for path in spread_leaves(name):
        place: Any = case
        for key in path:
            place = place[key]
        number, unit = place.split(" ", 1)
        mid = float(number)
        text = form.format(
            low=f"{mid * 0.98:.6g}", high=f"{mid * 1.02:.6g}", mid=number, half=f"{mid * 0.02:.6g}", unit=unit
        )
        case, changed = put(case, path, text), changed + 1
    assert changed > 8
    document = worked(case)
    depth = document["site"]["depth_m"]
    assert depth["low"] < depth["likely"] < depth["high"]


def test_unknown_may_stand_everywhere_it_is_asked_for(worked: Any) -> None:
    """Every value of the site, the bed and the lift that may be left out may also be called unknown."""
    case = shipped("quarry-outboard")
    refused = []
    for path, value in leaves(case):
        if path[0] not in ("site", "object", "lift", "limits", "surface") or not isinstance(value, str):
            continue
        try:
            assert worked(put(case, path, "unknown"))["findings"]
        except CaseError as error:
            refused.append((".".join(map(str, path)), error.what))
    assert [key for key, _ in refused] == ["lift.rigging.0.connector", "lift.rigging.1.sling"], refused


def test_next_to_nothing_is_an_answer_too(worked: Any) -> None:
    document = worked({"schema": 1})
    assert exit_code(document) == 2
    assert "load" not in document
    assert {row["key"] for row in document["unanswered"]} >= {"object", "site.depth"}


@pytest.mark.parametrize("name", ["quarry-outboard", "tidal-frame"])
def test_a_case_without_an_object(worked: Any, name: str) -> None:
    case = shipped(name)
    del case["object"]
    document = worked(case)
    assert "object" in [row["key"] for row in document["unanswered"]]
    assert "load" not in document


def test_a_kit_without_bags(worked: Any) -> None:
    kit = shipped("kit")
    del kit["bag"]
    for cylinder in kit["cylinder"]:
        cylinder.pop("fills", None)
    document = worked(shipped("quarry-outboard"), kit)
    assert document["lift"]["bags"] == []
    assert exit_code(document) == 2
