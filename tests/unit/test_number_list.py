"""All numbers of a plan as the app shows them."""

from __future__ import annotations

import pytest

from parbuckle.desk.documents import plan_documents
from parbuckle.desk.number_list import number_list
from parbuckle.desk.numbers import number
from parbuckle.desk.tonight_words import safe
from sample_documents import case_of, kit_of

NAMES = ("quarry-outboard", "tidal-frame", "training-drum")
THIN = "\u202f"


@pytest.mark.parametrize("name", NAMES)
def test_every_line_says_what_the_sheet_of_that_number_says(name: str) -> None:
    case = case_of(name)
    kit = kit_of(case)
    plan, _ = plan_documents(case, kit, name, 64)
    assert plan is not None
    lines = number_list(plan)
    assert len({line["path"] for line in lines}) == len(lines) > 200
    for line in lines[::5]:
        sheet = number(plan, line["path"], case, kit)
        times = sheet["range"] is not None and any(isinstance(one, str) for one in sheet["range"])
        assert (line["name"], line["range"]) == (sheet["name"], None if times else sheet["range"])
        assert line["likely"].replace(THIN, " ") in sheet["value"]


SAFE = {"circles.bottom_m": "length", "circles.surface_m": "length", "lift.surplus_at_most_kg": "mass"}


@pytest.mark.parametrize("name", ["quarry-outboard", "training-drum"])
def test_a_limit_is_rounded_to_the_safe_side_as_everywhere_else(name: str) -> None:
    case = case_of(name)
    plan, _ = plan_documents(case, kit_of(case), name, 64)
    assert plan is not None
    lines = {line["path"]: line["likely"].replace(THIN, " ") for line in number_list(plan)}
    for path, kind in SAFE.items():
        section, key = path.split(".")
        value = plan[section][key]
        assert lines[path] == safe(plan, value, kind, up=True).partition(" (")[0]
        assert float(lines[path].split()[0]) >= value
    assert float(lines["lift.ceiling_kg"].split()[0]) <= plan["lift"]["ceiling_kg"]
    turns = [(p, text) for p, text in lines.items() if p.endswith("leave_bottom_bar")]
    assert turns
    assert all(int(text.split()[0]) % 5 == 0 for _, text in turns)


def test_the_chosen_units_stand_first_and_the_band_apart() -> None:
    case = case_of("quarry-outboard")
    for units, first in (("metric", "kg"), ("imperial", "lb")):
        told = {**case, "case": {**case["case"], "units": units}}
        plan, _ = plan_documents(told, kit_of(case), "quarry", 64)
        assert plan is not None
        weight = next(line for line in number_list(plan) if line["path"] == "load.wet_weight_kg")
        assert weight["likely"].endswith(first)
        assert " to " in weight["band"]
        assert not weight["also"].startswith(weight["likely"])
