"""The ascent as others call it: its JSON, its exit codes, other bags, and one trace at the middle of all inputs."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from guard.shipped import CASES
from guard.tree import PACKAGE
from parbuckle.cli import ascent
from parbuckle.cli.plan import exit_code
from parbuckle.desk.ascending import _ABOUT, ascend
from parbuckle.desk.planning import plan
from parbuckle.duties.catalogue import catalogue
from parbuckle.quantity.errors import CallError

Call = Callable[..., "subprocess.CompletedProcess[str]"]
Document = dict[str, Any]

KEYS = {
    "schema",
    "program",
    "case",
    "draws",
    "verdict",
    "lift",
    "ascent",
    "findings",
    "unanswered",
    "trace",
    "trace_of",
}
HEAVY = ("numpy", "scipy", "pydantic", "typst", "rich", "gsw", "pint", "numba")
FEW = 64


def case(name: str) -> Path:
    return PACKAGE / "data" / "cases" / f"{name}.toml"


@cache
def told(name: str, *bags: str) -> Document:
    return ascend(case(name), bags, FEW, 1, trace=True)


@pytest.mark.parametrize("name", CASES)
def test_its_json_has_the_parts_of_the_way_up(name: str) -> None:
    document = told(name)
    assert set(document) >= KEYS
    assert document["schema"] == 1
    assert document["draws"] == {"n": FEW, "seed": 1}
    assert "steps" not in document
    json.dumps(document, allow_nan=False)


@pytest.mark.parametrize("name", CASES)
def test_it_says_what_the_plan_says(name: str) -> None:
    whole = plan(case(name), FEW, 1)
    assert told(name)["ascent"] == whole.get("ascent")
    assert told(name)["verdict"] == whole["verdict"]
    assert exit_code(told(name)) == exit_code(whole)


def test_two_processes_print_the_same_one_document(parbuckle: Call) -> None:
    call = ("ascent", case("quarry-outboard"), "--json", "--draws", str(FEW))
    first, second = (parbuckle(*call, PYTHONHASHSEED=seed) for seed in ("1", "2"))
    assert (first.returncode, first.stderr) == (0, "")
    assert first.stdout == second.stdout
    assert json.loads(first.stdout, parse_constant=lambda word: pytest.fail(word)) == told("quarry-outboard")


@pytest.mark.parametrize("name", [name for name in CASES if name != "first-answer"])
def test_the_trace_begins_on_the_bottom_and_is_in_order(name: str) -> None:
    document = told(name)
    trace = document["trace"]
    assert document["trace_of"] in ("under control", "left alone")
    assert set(trace[0]) == {"t_s", "depth_m", "speed_m_s", "bag_volumes_l", "surplus_kg"}
    litres = [sum(line["bag_volumes_l"].values()) for line in trace]
    grown = litres.index(max(litres))
    assert trace[grown]["surplus_kg"] > trace[0]["surplus_kg"] - 0.1
    assert trace[0]["t_s"] == 0.0
    assert trace[0]["speed_m_s"] == pytest.approx(0.0, abs=1e-9)
    assert all(after["t_s"] > before["t_s"] for before, after in pairwise(trace))
    filled = {bag["id"] for bag in document["lift"]["bags"] if bag["fill"] != "empty"}
    assert all(set(row["bag_volumes_l"]) == filled for row in trace)


def test_a_trace_is_of_the_set_that_was_chosen_and_no_bag_is_over_full() -> None:
    document = told("quarry-outboard")
    for bag in document["lift"]["bags"]:
        if bag["fill"] != "empty":
            most = max(row["bag_volumes_l"][bag["id"]] for row in document["trace"])
            assert 0.0 < most <= bag["really_l"]["high"] + 1e-6


def test_without_a_kit_there_is_no_trace() -> None:
    document = told("first-answer")
    assert (document["trace"], document["trace_of"], document["ascent"]) == ([], None, None)


def test_other_bags_give_another_ascent() -> None:
    document = told("quarry-outboard", "P50")
    assert [bag["id"] for bag in document["lift"]["bags"] if bag["fill"] != "empty"] == ["P50"]
    assert document["ascent"]["delay_budget_s"] < told("quarry-outboard")["ascent"]["delay_budget_s"]
    assert exit_code(document) == 2


def test_the_order_of_the_ids_does_not_matter() -> None:
    assert told("quarry-outboard", "C15", "C25") == told("quarry-outboard", "C25", "C15")


def test_bags_asked_for_take_the_place_of_a_way_without_bags(tmp_path: Path) -> None:
    text = case("quarry-outboard").read_text(encoding="utf-8").replace('method = "accompanied"', 'method = "hauled"')
    assert "hauled" in text
    (tmp_path / "kit.toml").write_bytes(case("kit").read_bytes())
    (tmp_path / "case.toml").write_text(text, encoding="utf-8")
    assert ascend(tmp_path / "case.toml", (), FEW)["lift"]["method"] == "hauled"
    asked = ascend(tmp_path / "case.toml", ("C25", "C15"), FEW)
    assert asked["lift"]["method"] == "accompanied"
    assert asked["ascent"]


@pytest.mark.parametrize(
    ("name", "bags", "words"),
    [
        ("quarry-outboard", "C25,X9", "no bag X9 in the kit; it has C25, C15, C10"),
        ("quarry-outboard", "C25,C25", "stands twice"),
        ("first-answer", "C25", "it has no bags"),
    ],
)
def test_a_wrong_bag_is_said_in_words(name: str, bags: str, words: str) -> None:
    with pytest.raises(CallError, match=words):
        ascend(case(name), ascent.ids(bags), FEW)


@pytest.mark.parametrize("text", ["", ",", "C25,", " , C25"])
def test_an_empty_id_is_refused(text: str, parbuckle: Call) -> None:
    done = parbuckle("ascent", "x.toml", "--bags", text)
    assert (done.returncode, done.stdout) == (1, "")
    assert "such as C25,C15" in done.stderr


@pytest.mark.parametrize(("name", "code"), [("quarry-outboard", 0), ("tidal-frame", 2), ("first-answer", 2)])
def test_exit_codes_are_those_of_the_plan(name: str, code: int, parbuckle: Call) -> None:
    done = parbuckle("ascent", case(name), "--draws", str(FEW))
    assert done.returncode == code, done.stderr
    assert done.stderr == ""
    assert "· ascent" in done.stdout


def test_a_missing_case_is_said_in_words(parbuckle: Call) -> None:
    done = parbuckle("ascent", "nowhere.toml", "--json")
    assert (done.returncode, done.stdout) == (1, "")
    assert "nowhere.toml" in done.stderr


def test_help_loads_nothing_heavy(root: Path) -> None:
    source = (
        "import sys\nfrom parbuckle.cli.main import main\n"
        "try:\n    main(['ascent', '--help'])\nexcept SystemExit as end:\n    assert end.code == 0\n"
        f"loaded = [name for name in {HEAVY!r} if name in sys.modules]\nassert not loaded, loaded\n"
    )
    env = {**os.environ, "PYTHONPATH": str(root / "src")}
    done = subprocess.run([sys.executable, "-c", source], env=env, capture_output=True, encoding="utf-8", check=False)
    assert done.returncode == 0, done.stderr


def test_findings_about_the_ascent_are_real_codes() -> None:
    assert set(_ABOUT) <= set(catalogue())
