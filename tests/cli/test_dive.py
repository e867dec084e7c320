"""``parbuckle dive``: one document, one screen, the same numbers as the plan."""

from __future__ import annotations

import json
import subprocess
from collections.abc import Callable
from functools import cache
from typing import Any

import pytest

from guard.tree import PACKAGE
from parbuckle.brief.dive_rows import dive_rows, leave_at
from parbuckle.cli.dive_screen import show
from parbuckle.cli.output import console
from parbuckle.desk.diving import dive
from parbuckle.desk.planning import plan

Call = Callable[..., "subprocess.CompletedProcess[str]"]


CASES = PACKAGE / "data" / "cases"
DRAWS = 32


@cache
def dives() -> dict[str, Any]:
    """The dives of the case in tidal water."""
    return dive(CASES / "tidal-frame.toml", DRAWS)


def test_json_is_one_document(parbuckle: Call) -> None:
    done = parbuckle("dive", CASES / "tidal-frame.toml", "--json", "--draws", str(DRAWS))
    assert done.returncode == 2, done.stderr
    document = json.loads(done.stdout)
    assert document == json.loads(json.dumps(dives()))
    assert [row["does"] for row in document["dives"]] == ["search", "lift"]
    assert {"schema", "case", "draws", "dives", "findings", "unanswered"} <= document.keys()
    assert "slack_by_clock" in [row["code"] for row in document["findings"]]


def test_screen_says_what_divers_ask(capsys: pytest.CaptureFixture[str]) -> None:
    show(dives(), console())
    told = capsys.readouterr().out
    for word in ("Slack", "Model", "Navy table", "leave the bottom at", "If late", "does not replace"):
        assert word in told, word


def test_a_search_says_where_it_turns_and_a_lift_does_not() -> None:
    search, lift = dives()["dives"]
    turns = [text for label, text in dive_rows(search, "metric") if label == "Turn"]
    assert turns == ["Ines at 145\u202fbar, Tomas at 145\u202fbar. The first gauge that reads this turns both."]
    assert all(row["leave_bottom_bar"] < row["turn_bar"] < row["start_bar"]["low"] for row in search["divers"])
    assert "Turn" not in dict(dive_rows(lift, "metric"))


def test_the_plan_prints_the_same_numbers() -> None:
    assert dives()["dives"] == plan(CASES / "tidal-frame.toml", DRAWS)["dives"]


def test_a_case_without_dives_says_so(parbuckle: Call) -> None:
    done = parbuckle("dive", CASES / "first-answer.toml", "--draws", "16")
    assert done.returncode == 2
    assert "No dive has a task" in done.stdout


def test_rounding_is_on_the_safe_side() -> None:
    told = dives()["dives"][0]
    row = told["divers"][0]
    shown = float(leave_at(row, "metric").split("\u202f")[0])
    assert row["leave_bottom_bar"] <= shown < row["leave_bottom_bar"] + 5.0
    psi = float(leave_at(row, "imperial").split("\u202f")[0])
    assert row["leave_bottom_bar"] <= psi / 14.5038
    texts = dict(dive_rows(told, "metric"))
    assert f"Model {int(told['no_stop_min']['model'])} min" in texts["No stop"]
    hours = float(texts["Flying"].split("before ")[1].split(" h")[0])
    assert hours >= told["flying"]["hours"]


def test_both_systems_of_units() -> None:
    told = dives()["dives"][0]
    assert any("psi" in text for _, text in dive_rows(told, "imperial"))
    assert not any(" bar" in text and label == "Gas" for label, text in dive_rows(told, "imperial"))
