"""Dives that are over: read, held against the limits and the plan; what is wrong is said once, by its key."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest

from guard.tree import PACKAGE
from parbuckle.cli.log_screen import show_logs
from parbuckle.cli.output import console
from parbuckle.desk.logs import LogCall, logs
from parbuckle.dive.loading import AIR, at_rest, load
from parbuckle.dive.problem import DiveRules
from parbuckle.dive.profile import Water, leg
from parbuckle.quantity.errors import ParbuckleError
from parbuckle.record.log_judging import judged, leaves_bottom, stops_made
from parbuckle.record.log_reading import read_logs
from parbuckle.record.slate_pairs import slate_profile
from parbuckle.record.uddf_read import read_uddf

CASE = PACKAGE / "data" / "cases" / "tidal-frame.toml"
RULES = DiveRules((0.5, 0.8), 5.0, 180.0, 0.3, 0.15, np.array([1e-3]), 60.0, 5e6, 600.0, 3.0, 1.4e5)
SEA = Water(np.array([101325.0]), np.array([1025.0]))
REST = at_rest(101325.0)
GOOD = "0 0; 2 24; 24 24; 26:40 5; 29:40 5; 30:30 0"
FAST = "0 0; 2 24; 24 24; 24:40 10; 26:30 3; 27:30 0"
HEAD = 'schema = 1\nstart = 2027-05-09T09:30:00+01:00\ngas = "EAN32"\n'
MAPPING = 'schema = 1\ntime = { name = "t", unit = "clock" }\ndepth = { name = "d", unit = "ft" }\n'
UDDF = '<uddf version="3.2.0"><profiledata><repetitiongroup><dive><samples>{}</samples></dive></repetitiongroup>{}'
POINT = "<waypoint><depth>{}</depth><divetime>{}</divetime></waypoint>"


def row_of(pairs: str) -> dict[str, Any]:
    return judged(slate_profile(pairs), REST, SEA, RULES)[0]


def write(folder: Path, name: str, text: str) -> Path:
    file = folder / name
    file.write_text(text, encoding="utf-8")
    return file


def test_a_quiet_dive_has_no_flag() -> None:
    row = row_of(GOOD)
    assert (row["deepest_m"], row["bottom_time_min"], row["ascent"]["too_fast"], row["sawtooth"]) == (
        24.0,
        24.0,
        [],
        False,
    )
    area = 2 * 12 + 22 * 24 + (8 / 3) * 14.5 + 3 * 5 + (5 / 6) * 2.5
    assert row["mean_depth_m"] == pytest.approx(area / 30.5, rel=1e-12)
    assert row["model"]["ceiling_kept"]
    table = {"known": True, "why": None, "no_stop_min": 39.0, "within": True, "group_before": None}
    assert row["table"] == table  # 24 m: 80 fsw


def test_tissues_are_those_of_the_same_legs() -> None:
    legs = [leg(SEA, 0.0, 24.0, 120.0, AIR), leg(SEA, 24.0, 24.0, 1320.0, AIR), leg(SEA, 24.0, 0.0, 160.0, AIR)]
    after = judged(slate_profile("0 0; 2 24; 24 24; 26:40 0"), REST, SEA, RULES)[1]
    assert np.allclose(after, load(REST, legs), rtol=1e-12)


def test_rapid_ascent_sawtooth_and_ceiling_are_flagged() -> None:
    assert row_of(FAST)["ascent"]["fastest_m_min"] == pytest.approx(21.0)
    assert row_of("0 0; 2 20; 10 20; 12 10; 14 18; 20 18; 23 0")["tooth_m"] == 8.0
    late = row_of("0 0; 2 40; 40 40; 44:30 0")
    assert not late["model"]["limit_kept"]
    assert late["table"]["within"] is False


def test_stops_count_only_on_the_way_up() -> None:
    profile = slate_profile("0 0; 1 5; 6 5; 8 24; 24 24; 26:40 5; 28 5; 29 0")
    leaves = leaves_bottom(profile, RULES.stop_depth + RULES.sawtooth, RULES.up)
    assert leaves == pytest.approx(1440.0, abs=30.0)
    (stop,) = stops_made(profile, [{"depth_m": 5.0, "min": 3.0}], leaves, 1.5)
    assert 1.33 < stop["made_min"] < 2.2
    assert not stop["made"]


def test_the_plan_stands_beside_the_log(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    slate, out = write(tmp_path, "slate.toml", f'{HEAD}pairs = "{FAST}"'), tmp_path / "out.uddf"
    document = logs(CASE, LogCall((slate,), diver="Tomas", uddf=out), draws=32)
    (row,) = document["logs"]
    assert row["plan"]["label"] == "dive 1 (search)"
    assert row["plan"]["leave_bottom_bar"] is not None
    assert row["table"]["known"]
    assert row["table"]["group_before"] == "A"  # Tomas dived before: D after 24 min at 50 fsw, then 190 min
    said = {found["code"]: found["text"].replace("\u202f", " ") for found in row["findings"]}
    assert said["log_rapid_ascent"].startswith("Rapid ascent, slate.toml, ending at")
    assert "slate.toml, at 5 m: 3 min were planned" in said["log_stop_missed"]
    assert all(set(found) >= {"level", "code", "text", "do", "source"} for found in row["findings"])
    show_logs(document, console())
    assert "missed" in capsys.readouterr().out
    (again,) = read_uddf(out)
    (first,) = read_logs([slate])
    assert np.array_equal(again.depth, first.profile.depth)
    assert np.array_equal(again.time, first.profile.time)
    assert again.switches[0].gas.text == "EAN32"
    with pytest.raises(ParbuckleError, match="there already"):
        logs(CASE, LogCall((slate,), uddf=out), draws=32)


def test_the_dive_before_loads_the_diver(tmp_path: Path) -> None:
    first = write(tmp_path, "a.toml", f'{HEAD}pairs = "{GOOD}"')
    second = write(tmp_path, "b.toml", f'{HEAD.replace("09:30", "10:45")}pairs = "{GOOD}"')
    alone, after = logs(CASE, LogCall((second, first)), draws=32)["logs"]
    assert (alone["file"], after["file"]) == ("a.toml", "b.toml")
    assert after["surface_interval_min"] == pytest.approx(44.5)
    assert alone["table"]["group_before"] is None
    assert after["table"]["group_before"] == "F"  # 24 min at 70 fsw, then 44 min at the surface
    assert after["table"]["no_stop_min"] < alone["table"]["no_stop_min"]
    assert after["model"]["surfacing_gradient"] > alone["model"]["surfacing_gradient"]


def test_a_log_without_a_start_gets_no_rest(tmp_path: Path) -> None:
    first = write(tmp_path, "a.toml", f'schema = 1\npairs = "{GOOD}"')
    second = write(tmp_path, "b.toml", f'{HEAD}pairs = "{GOOD}"')
    alone, after = logs(CASE, LogCall((first, second)), draws=32)["logs"]
    assert after["surface_interval_min"] is None
    assert after["table"]["no_stop_min"] == pytest.approx(alone["table"]["no_stop_min"] - alone["bottom_time_min"])
    assert after["model"]["surfacing_gradient"] > alone["model"]["surfacing_gradient"]


def test_a_table_with_a_mapping(tmp_path: Path) -> None:
    table = write(tmp_path, "log.csv", "t,d\n0:00,0\n2:00,60\n20:00,60\n24:00,0\n")
    (log,) = read_logs([table], write(tmp_path, "map.toml", MAPPING))
    assert log.profile.deepest == pytest.approx(18.288)


@pytest.mark.parametrize(("leaving", "late"), [(20, True), (200, False)])
def test_the_pressure_at_leaving_is_held_against_the_plan(leaving: int, late: bool, tmp_path: Path) -> None:
    text = f"t,d,p\n0:00,0,220\n2:00,78,215\n20:00,78,{leaving}\n23:00,16,{leaving - 5}\n27:00,0,{leaving - 10}\n"
    mapping = write(tmp_path, "map.toml", MAPPING + 'pressure = { name = "p", unit = "bar" }')
    call = LogCall((write(tmp_path, "log.csv", text),), mapping, 1, "Tomas")
    (row,) = logs(CASE, call, draws=32)["logs"]
    assert row["cylinders"][0]["at_leaving_bar"] == pytest.approx(leaving)
    assert row["plan"]["left_bottom_bar"] == pytest.approx(leaving)
    assert ("log_left_late" in {found["code"] for found in row["findings"]}) is late


BOMB = '<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b "bb"><!ENTITY c "&b;&b;">]><uddf version="3.2.0">&c;</uddf>'
OUTSIDE = '<?xml version="1.0"?><!DOCTYPE a [<!ENTITY x SYSTEM "other.txt">]><uddf version="3.2.0">&x;</uddf>'
BROKEN: dict[str, tuple[str, str, str]] = {
    "many entities": ("x.uddf", BOMB, "x.uddf"),
    "an entity from outside": ("x.uddf", OUTSIDE, "x.uddf"),
    "not XML": ("x.uddf", "<uddf", "x.uddf"),
    "another document": ("x.uddf", "<gpx/>", "x.uddf"),
    "UDDF without dives": ("x.uddf", '<uddf version="3.2.0"/>', "x.uddf"),
    "UDDF cut short": ("x.uddf", UDDF.format(POINT.format(1, 0), ""), "x.uddf"),
    "no pairs": ("s.toml", "schema = 1", "pairs"),
    "one pair": ("s.toml", 'schema = 1\npairs = "0 0"', "pairs"),
    "pairs as numbers": ("s.toml", "schema = 1\npairs = [0, 1]", "pairs"),
    "times that fall": ("s.toml", 'schema = 1\npairs = "0 0; 9 9; 8 0"', "must rise"),
    "a negative time": ("s.toml", 'schema = 1\npairs = "-1 0; 9 9"', "pairs"),
    "too deep": ("s.toml", 'schema = 1\npairs = "0 0; 9 900"', "pairs"),
    "a gas that is none": ("s.toml", 'schema = 1\ngas = "EAN150"\npairs = "0 0; 9 9"', "gas"),
    "a start that is none": ("s.toml", 'schema = 1\nstart = "noon"\npairs = "0 0; 9 9"', "start"),
    "an unknown key": ("s.toml", 'schema = 1\ndepths = 1\npairs = "0 0; 9 9"', "depths"),
    "a unit that is none": ("s.toml", 'schema = 1\ndepth_unit = "fathoms"\npairs = "0 0; 9 9"', "fathoms"),
    "no version": ("s.toml", 'pairs = "0 0; 9 9"', "schema"),
    "an unknown ending": ("s.doc", "", "doc"),
    "a table without a mapping": ("s.csv", "t,d\n", "--mapping"),
}
MAPPINGS = {
    "no depth": (MAPPING.split("depth")[0], "depth"),
    "a column as text": (MAPPING.replace('{ name = "d", unit = "ft" }', '"d"'), "depth"),
    "a unit that is none": (MAPPING.replace("ft", "ell"), "ell"),
    "a sign that is none": (MAPPING + 'delimiter = "dash"', "columns are parted"),
    "an unknown key": (MAPPING + 'colour = "red"', "colour"),
    "a heading that is missing": (MAPPING.replace('"d"', '"deep"'), "deep"),
}


@pytest.mark.parametrize("fault", BROKEN)
def test_a_broken_log_has_one_message(fault: str, tmp_path: Path) -> None:
    name, text, named = BROKEN[fault]
    with pytest.raises(ParbuckleError) as told:
        read_logs([write(tmp_path, name, text)])
    assert name in str(told.value)
    assert named in str(told.value)


@pytest.mark.parametrize("fault", MAPPINGS)
def test_a_broken_mapping_has_one_message(fault: str, tmp_path: Path) -> None:
    text, named = MAPPINGS[fault]
    table = write(tmp_path, "log.csv", "t,d\n0:00,0\n2:00,60\n")
    with pytest.raises(ParbuckleError) as told:
        read_logs([table], write(tmp_path, "map.toml", text))
    assert named in str(told.value)


def test_overlapping_dives_are_refused(tmp_path: Path) -> None:
    files = [write(tmp_path, n, f'{HEAD}pairs = "{GOOD}"') for n in ("a.toml", "b.toml")]
    with pytest.raises(ParbuckleError, match="is over"):
        read_logs(files)


@pytest.mark.parametrize(("asked", "named"), [({"dive": 9}, "no dive 9"), ({"diver": "Nobody"}, "Nobody")])
def test_what_the_case_lacks_is_said(asked: dict[str, Any], named: str, tmp_path: Path) -> None:
    slate = write(tmp_path, "s.toml", f'{HEAD}pairs = "{GOOD}"')
    with pytest.raises(ParbuckleError, match=named):
        logs(CASE, LogCall((slate,), **asked), draws=32)


def test_the_screen_and_its_words_speak_the_units_of_the_case(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = CASE.read_text("utf-8").replace('units = "metric"', 'units = "imperial"')
    case = write(tmp_path, "case.toml", text)
    write(tmp_path, "kit.toml", (CASE.parent / "kit.toml").read_text("utf-8"))
    document = logs(case, LogCall((write(tmp_path, "s.toml", f'{HEAD}pairs = "{FAST}"'),)), draws=32)
    show_logs(document, console())
    told = capsys.readouterr().out.replace("\u202f", " ")
    assert "ft/min" in told
    assert "78.7 ft" in told  # 24 m
    assert " m/min" not in told
    assert " m:" not in told and " m," not in told


@pytest.mark.parametrize(("rule", "made"), [("1.5 m", True), ("0.5 m", False)])
def test_the_house_says_how_near_a_stop_must_be(rule: str, made: bool, tmp_path: Path) -> None:
    case = write(tmp_path, "case.toml", CASE.read_text("utf-8") + f'\n[house]\nstop_band = "{rule}"\n')
    write(tmp_path, "kit.toml", (CASE.parent / "kit.toml").read_text("utf-8"))
    pairs = "0 0; 2 24; 16 24; 18 6; 22 6; 23 0"
    document = logs(case, LogCall((write(tmp_path, "s.toml", f'{HEAD}pairs = "{pairs}"'),)), draws=32)
    assert [stop["made"] for stop in document["logs"][0]["plan"]["stops"]] == [made]


@pytest.mark.parametrize(("hours", "label"), [("2 h", "dive 1 (search)"), ("1 min", None)])
def test_the_house_says_how_near_a_log_must_start(hours: str, label: str | None, tmp_path: Path) -> None:
    case = write(tmp_path, "case.toml", CASE.read_text("utf-8") + f'\n[house]\nlog_near = "{hours}"\n')
    write(tmp_path, "kit.toml", (CASE.parent / "kit.toml").read_text("utf-8"))
    (row,) = logs(case, LogCall((write(tmp_path, "s.toml", f'{HEAD}pairs = "{GOOD}"'),)), draws=32)["logs"]
    assert (row["plan"] and row["plan"]["label"]) == label
