"""The search as others call it: its JSON, its exit codes, its files, and that it says what the plan says."""

from __future__ import annotations

import argparse
import json
import subprocess
from collections.abc import Callable
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from guard.tree import PACKAGE
from parbuckle.cli.plan import exit_code
from parbuckle.cli.search import minutes
from parbuckle.desk.planning import plan
from parbuckle.desk.searching import _ABOUT, search
from parbuckle.duties.catalogue import catalogue
from sample_search import HEAD, POINT, QUICK

Call = Callable[..., "subprocess.CompletedProcess[str]"]
Document = dict[str, Any]

CASES = ("quarry-outboard", "tidal-frame", "training-drum")
KEYS = {"schema", "program", "case", "draws", "verdict", "site", "dives", "search", "findings", "unanswered"}
SECTION = {
    "cells",
    "cell_m",
    "chance_on_map",
    "elsewhere",
    "closed_share",
    "minutes",
    "law",
    "law_words",
    "sweep_width_m",
    "sweep_words",
    "tried_on_sample",
    "seen_at_m",
    "speed_m_s",
    "visibility_m",
    "accounts",
    "cautions",
    "datum",
    "declination_deg",
    "declination_words",
    "contours",
    "dots",
    "area",
    "best",
    "second",
    "alternatives",
    "bound",
    "sequence",
    "passes",
    "proved",
    "window",
}


def case(name: str) -> Path:
    return PACKAGE / "data" / "cases" / f"{name}.toml"


@cache
def told(name: str) -> Document:
    return search(case(name), draws=128)


@pytest.mark.parametrize("name", CASES)
def test_its_json_has_the_parts_of_a_search(name: str) -> None:
    document = told(name)
    assert set(document) == KEYS
    assert set(document["search"]) >= SECTION
    json.dumps(document, allow_nan=False)


@pytest.mark.parametrize("name", CASES)
def test_its_shares_make_one(name: str) -> None:
    found = told(name)["search"]
    whole = found["chance_on_map"] + found["elsewhere"] + found["closed_share"]
    assert whole == pytest.approx(1.0, abs=1e-12)
    assert sum(row["weight"] for row in found["accounts"]) == pytest.approx(1.0)


@pytest.mark.parametrize("name", CASES)
def test_no_pattern_beats_the_definite_bound(name: str) -> None:
    found = told(name)["search"]
    chances = [row["chance"] for row in (found["best"], *found["alternatives"]) if row["chance"] is not None]
    assert max(chances) <= found["bound"]["definite"]
    assert found["bound"]["chance"] <= found["bound"]["definite"]
    assert found["best"]["share_of_bound"] == pytest.approx(found["best"]["chance"] / found["bound"]["chance"])
    assert found["best"]["minutes"] <= found["minutes"] + 1e-6


@pytest.mark.parametrize("name", CASES)
def test_legs_hang_together(name: str) -> None:
    best = told(name)["search"]["best"]
    legs = best["legs"]
    assert [leg["n"] for leg in legs] == list(range(1, len(legs) + 1))
    swum = sum(leg["length_m"] for leg in legs if leg["kind"] != "shift")
    assert swum == pytest.approx(best["length_m"], rel=1e-9)
    for before, after in pairwise(legs):
        assert before["to"] == pytest.approx(after["from"], abs=0.02)


@pytest.mark.parametrize("name", CASES)
def test_the_sequence_grows_and_stays_below_what_is_on_the_map(name: str) -> None:
    found = told(name)["search"]
    sums = [row["cumulative_chance"] for row in found["sequence"]]
    assert sums == sorted(sums)
    assert sums[-1] < found["chance_on_map"]
    assert found["sequence"][0]["chance"] == pytest.approx(found["best"]["chance"], abs=0.02)


def test_it_says_what_the_plan_says() -> None:
    mine, whole = search(case("quarry-outboard"), draws=128)["search"], plan(case("quarry-outboard"), 128)["search"]
    same = SECTION - {"second", "sequence"}
    assert {key: mine[key] for key in same} == {key: whole[key] for key in same}


def test_two_processes_print_the_same_one_document(parbuckle: Call) -> None:
    name = "quarry-outboard"
    first, second = (parbuckle("search", case(name), "--json", PYTHONHASHSEED=seed) for seed in ("1", "2"))
    assert first.returncode == second.returncode == 0, first.stderr
    assert first.stdout == second.stdout
    assert first.stderr == ""
    assert json.loads(first.stdout)["draws"] == {"n": 1024, "seed": 1}


def test_minutes_and_files(parbuckle: Call, tmp_path: Path) -> None:
    (tmp_path / "case.toml").write_text(HEAD + POINT + QUICK, encoding="utf-8")
    done = parbuckle("search", "case.toml", "--json", "--minutes", "12", "--export", "out.gpx")
    assert "out.gpx" in done.stderr
    assert json.loads(done.stdout)["search"]["minutes"] == 12.0
    assert (tmp_path / "out.gpx").read_text(encoding="utf-8").startswith("<?xml")


def test_the_screen_has_the_answer_first(parbuckle: Call, tmp_path: Path) -> None:
    (tmp_path / "case.toml").write_text(HEAD + POINT + QUICK, encoding="utf-8")
    done = parbuckle("search", "case.toml")
    lines = done.stdout.splitlines()
    assert "search" in lines[0]
    assert lines[1].startswith("Circles on a line from a shot")
    assert "Not found: surface, log what was covered." in done.stdout
    assert max(map(len, lines)) <= 110


def test_nobody_told_where_it_is(parbuckle: Call, tmp_path: Path) -> None:
    (tmp_path / "case.toml").write_text(HEAD, encoding="utf-8")
    shown = parbuckle("search", "case.toml")
    assert "Nobody has told where it may be." in shown.stdout
    assert shown.returncode == 2, shown.stderr
    refused = parbuckle("search", "case.toml", "--export", "out.kml")
    assert refused.returncode == 1
    assert "no search to write" in refused.stderr
    assert not (tmp_path / "out.kml").exists()


@pytest.mark.parametrize("text", ["0", "-1", "nan", "inf", "soon", "1441"])
def test_a_wrong_time_is_refused(text: str) -> None:
    with pytest.raises(argparse.ArgumentTypeError, match="minutes above 0"):
        minutes(text)


@pytest.mark.parametrize(("name", "code"), [("quarry-outboard", 0), ("tidal-frame", 2)])
def test_exit_codes_are_those_of_its_findings(name: str, code: int) -> None:
    assert exit_code(told(name)) == code


def test_findings_about_the_search_are_real_codes() -> None:
    assert set(_ABOUT) <= set(catalogue())
    assert list(_ABOUT) == sorted(_ABOUT)
