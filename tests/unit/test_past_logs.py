"""Logged dives as a diver's history: the real profile loads the tissues, and what is wrong is said by its key."""

from __future__ import annotations

import shutil
from pathlib import Path

import numpy as np
import pytest

from guard.tree import PACKAGE
from parbuckle.case.documents import check_documents, read_documents
from parbuckle.desk.diving import dive
from parbuckle.desk.planning import plan
from parbuckle.desk.reading import whole_case
from parbuckle.dive.loading import AIR, at_rest, load
from parbuckle.dive.oxygen import dose_where_known, limit_used
from parbuckle.dive.profile import Water, leg
from parbuckle.dive.track import Track, after_track, oxygen_of
from parbuckle.plan.make import make_plan
from parbuckle.quantity.breathing import parse_gas
from parbuckle.quantity.errors import CaseError
from parbuckle.record.log_judging import legs_of
from parbuckle.record.profile import Profile, Switch

CASES = PACKAGE / "data" / "cases"
SEA = Water(np.array([101325.0]), np.array([1025.0]))
TOLD = 'depth = "14 m"'
SLATE = 'schema = 1\nstart = 2027-05-09T05:36:00+01:00\ngas = "air"\npairs = "0 0; 1 14; 41 14; 42 5; 43 5; 44 0"\n'


def folder_with(tmp_path: Path, row: str, **files: str) -> Path:
    """The tidal case with another row of earlier dives, and files beside it."""
    for name in ("tidal-frame.toml", "kit.toml"):
        shutil.copy(CASES / name, tmp_path)
    case = tmp_path / "tidal-frame.toml"
    text = case.read_text(encoding="utf-8")
    begin = text.index("earlier = [")
    end = text.index("]", begin) + 1
    case.write_text(f"{text[:begin]}earlier = [{row}]{text[end:]}", encoding="utf-8")
    for name, content in files.items():
        (tmp_path / name.replace("_", ".")).write_text(content, encoding="utf-8")
    return case


def tomas(case: Path) -> dict[str, object]:
    return next(d for d in plan(case, draws=64)["dives"][0]["divers"] if d["name"] == "Tomas")


def test_a_track_equals_the_same_legs() -> None:
    rng = np.random.default_rng(7)
    time = np.concatenate([[0.0], np.cumsum(rng.uniform(1.0, 60.0, 200))])
    depth = np.concatenate([[0.0], rng.uniform(0.0, 40.0, 199), [0.0]])
    switches = (
        (0.0, parse_gas("EAN32")),
        (float(time[90]), parse_gas("21/35")),
        (float(time[150]), parse_gas("EAN32")),
    )
    track = Track(time, depth, switches)
    legs = legs_of(Profile(time, depth, switches=tuple(Switch(*each) for each in switches)), SEA)
    rest = at_rest(101325.0)
    assert np.allclose(after_track(rest, track, SEA), load(rest, legs), rtol=1e-12)
    shallow = Track(time, depth / 2.0, switches)
    legs = legs_of(Profile(time, depth / 2.0, switches=tuple(Switch(*each) for each in switches)), SEA)
    daily, dose = oxygen_of(shallow, SEA)
    assert daily == pytest.approx(limit_used(legs, daily=True))
    assert dose == pytest.approx(dose_where_known(legs))


def test_oxygen_beyond_the_tables_is_not_known() -> None:
    track = Track(np.array([0.0, 60.0, 600.0]), np.array([0.0, 60.0, 60.0]), ((0.0, parse_gas("EAN50")),))
    assert oxygen_of(track, SEA) == (None, None)


def test_a_square_log_counts_like_the_dive_it_draws(tmp_path: Path) -> None:
    flat = Track(np.array([0.0, 60.0, 1200.0, 1260.0]), np.array([0.0, 18.0, 18.0, 0.0]))
    legs = [leg(SEA, 0.0, 18.0, 60.0, AIR), leg(SEA, 18.0, 18.0, 1140.0, AIR), leg(SEA, 18.0, 0.0, 60.0, AIR)]
    assert np.allclose(after_track(at_rest(101325.0), flat, SEA), load(at_rest(101325.0), legs), rtol=1e-13)


def test_the_real_profile_loads_the_diver(tmp_path: Path) -> None:
    logged = '{ person = "Tomas", log = "morning.toml" }'
    square = '{ person = "Tomas", depth = "14 m", time = "41 min", surfaced = 2027-05-09T06:20:00+01:00 }'
    one = tomas(folder_with(tmp_path, logged, morning_toml=SLATE))
    shallow = SLATE.replace("41 14; 42 5; 43 5; 44 0", "5 14; 41 3; 44 0")
    less = tomas(folder_with(tmp_path, logged, morning_toml=shallow))
    told = tomas(folder_with(tmp_path, square))
    none = tomas(folder_with(tmp_path, ""))
    limits = [row["no_stop_min"]["model"] for row in (one, less, told, none)]  # type: ignore[index]
    assert limits[0] < limits[1] < limits[3]
    assert limits[0] == pytest.approx(limits[2], rel=0.05)
    assert one["group_before"] == told["group_before"]
    assert none["group_before"] is None


def test_a_file_with_two_dives_counts_both(tmp_path: Path) -> None:
    from parbuckle.record.slate_pairs import slate_profile
    from parbuckle.record.uddf_write import uddf_of

    starts = ("2027-05-09T04:00:00+01:00", "2027-05-09T05:36:00+01:00")
    dives = [slate_profile("0 0; 1 14; 41 14; 44 0") for _ in starts]
    dated = [Profile(d.time, d.depth, start=start) for d, start in zip(dives, starts, strict=True)]
    text = uddf_of(dated, "parbuckle", "0", "2027-05-09T07:00:00+00:00")
    case = folder_with(tmp_path, '{ person = "Tomas", log = "both.uddf" }', both_uddf=text)
    loaded = whole_case(case)
    assert [past.file for past in loaded.past[0]] == ["both.uddf, dive 1", "both.uddf, dive 2"]
    twice = tomas(case)
    once = tomas(folder_with(tmp_path, '{ person = "Tomas", log = "morning.toml" }', morning_toml=SLATE))
    assert twice["no_stop_min"]["model"] < once["no_stop_min"]["model"]  # type: ignore[index]


def test_the_bytes_of_a_log_stand_in_the_digest(tmp_path: Path) -> None:
    row = '{ person = "Tomas", log = "morning.toml" }'
    first = whole_case(folder_with(tmp_path, row, morning_toml=SLATE)).digest
    assert whole_case(folder_with(tmp_path, row, morning_toml=SLATE)).digest == first
    assert whole_case(folder_with(tmp_path, row, morning_toml=SLATE + "# again\n")).digest != first


def test_a_log_that_begins_under_water_begins_at_the_surface(tmp_path: Path) -> None:
    late = SLATE.replace('"0 0; 1 14', '"0:20 3; 1 14')
    (past,) = whole_case(folder_with(tmp_path, '{ person = "Tomas", log = "a.toml" }', a_toml=late)).past[0]
    assert (past.time[:2], past.depth[:2]) == ((0.0, 20.0), (0.0, 3.0))
    assert past.switches[0][0] == 0.0


BROKEN = {
    "no file": ('log = "gone.uddf"', SLATE, "log", "not there"),
    "no mapping file": ('log = "a.toml", mapping = "gone.toml"', SLATE, "mapping", "not there"),
    "mapping alone": ('mapping = "a.toml", surfaced = 2027-05-09T06:20:00+01:00', SLATE, "mapping", "belongs to a log"),
    "depth beside it": ('log = "a.toml", depth = "14 m"', SLATE, "depth", "tells this itself"),
    "time beside it": ('log = "a.toml", time = "41 min"', SLATE, "time", "tells this itself"),
    "end told twice": ('log = "a.toml", surfaced = 2027-05-09T06:20:00+01:00', SLATE, "surfaced", "tells when"),
    "no end": ('log = "a.toml"', SLATE.replace("+01:00", ""), "surfaced", "does not tell when"),
    "another gas": ('log = "a.toml", gas = "EAN32"', SLATE, "gas", "another gas"),
    "after the case": ('log = "a.toml"', SLATE.replace("T05:36", "T09:50"), "log", "has not surfaced"),
    "broken log": ('log = "a.toml"', SLATE.replace("41 14", "0:30 14"), "pairs", "must rise"),
    "another ending": ('log = "kit.toml.pdf"', SLATE, "log", "not there"),
    "a case as a log": ('log = "kit.toml"', SLATE, "team", "not known here"),
    "no log at all": ("", SLATE, "surfaced", "counts from its end"),
}


@pytest.mark.parametrize("name", BROKEN)
def test_what_is_wrong_is_said_once(name: str, tmp_path: Path) -> None:
    row, text, key, what = BROKEN[name]
    case = folder_with(tmp_path, f'{{ person = "Tomas"{", " * bool(row)}{row} }}', a_toml=text)
    with pytest.raises(CaseError) as caught:
        plan(case, draws=16)
    assert caught.value.key.endswith(key)
    assert what in str(caught.value)
    assert caught.value.file


def test_dives_at_one_time_are_refused(tmp_path: Path) -> None:
    square = '{ person = "Tomas", depth = "9 m", time = "10 min", surfaced = 2027-05-09T06:00:00+01:00 }'
    case = folder_with(tmp_path, f'{square}, {{ person = "Tomas", log = "a.toml" }}', a_toml=SLATE)
    with pytest.raises(CaseError, match="at the same time"):
        plan(case, draws=16)
    plan(folder_with(tmp_path, f'{square}, {{ person = "Ines", log = "a.toml" }}', a_toml=SLATE), draws=16)


def test_a_document_without_a_folder_has_no_logs(tmp_path: Path) -> None:
    row = {"person": "Tomas", "log": "morning.uddf", "mapping": "m.toml"}
    person = {"name": "Tomas"}
    case = {"schema": 1, "exposure": {"earlier": [row]}}
    loaded, faults = check_documents(case, {"schema": 1, "person": [person]}, "x")
    assert loaded is None
    assert [fault.key for fault in faults] == ["exposure.earlier[1].log", "exposure.earlier[1].mapping"]
    _, outside = check_documents(
        {"schema": 1, "exposure": {"earlier": [{**row, "log": "../a.uddf"}]}},
        {"schema": 1, "person": [person]},
        "x",
        tmp_path,
    )
    assert [fault.what for fault in outside] == ["a file of a case lies in its own folder"]


def test_a_log_that_nobody_read_is_refused(tmp_path: Path) -> None:
    case = {
        "schema": 1,
        "exposure": {"earlier": [{"person": "Tomas", "log": "morning.uddf"}]},
        "dive": [
            {
                "does": "search",
                "team": [{"person": "Tomas", "role": "searcher"}],
                "tasks": [{"do": "a", "time": "9 min"}],
            }
        ],
        "site": {"depth": "9 m"},
    }
    loaded = read_documents(case, {"schema": 1, "person": [{"name": "Tomas"}]}, "x", tmp_path)
    with pytest.raises(CaseError, match="was not read"):
        make_plan(loaded, draws=8)


def test_what_the_log_shows_is_said_before_the_next_dive(tmp_path: Path) -> None:
    quick = SLATE.replace("41 14; 42 5; 43 5; 44 0", "41 14; 42 0")
    rows = plan(folder_with(tmp_path, '{ person = "Tomas", log = "a.toml" }', a_toml=quick), draws=16)["findings"]
    said = {row["code"]: row["text"] for row in rows if row["code"].startswith("log_")}
    assert set(said) == {"log_rapid_ascent", "log_counts"}
    assert "Tomas" in said["log_counts"]
    assert {row["code"] for row in dive(tmp_path / "tidal-frame.toml", draws=16)["findings"]} >= set(said)
    told = '{ person = "Tomas", depth = "14 m", time = "41 min", surfaced = 2027-05-09T06:20:00+01:00 }'
    rows = plan(folder_with(tmp_path, told), draws=16)["findings"]
    assert not [row for row in rows if row["code"].startswith("log_")]


def test_a_table_with_its_mapping_counts_too(tmp_path: Path) -> None:
    mapping = 'schema = 1\ntime = { name = "t", unit = "clock" }\ndepth = { name = "d", unit = "m" }\n'
    row = (
        '{ person = "Tomas", log = "a.csv", mapping = "map.toml", gas = "EAN32", surfaced = 2027-05-09T06:20:00+01:00 }'
    )
    case = folder_with(tmp_path, row, a_csv="t,d\n0:00,0\n1:00,14\n41:00,14\n44:00,0\n", map_toml=mapping)
    (past,) = whole_case(case).past[0]
    assert past.surfaced - past.start == 44 * 60.0
    assert past.switches == ((0.0, parse_gas("EAN32")),)
    air = tomas(folder_with(tmp_path, row.replace('"EAN32"', '"air"')))
    assert tomas(folder_with(tmp_path, row))["no_stop_min"]["model"] > air["no_stop_min"]["model"]  # type: ignore[index]


def test_an_ending_and_a_table_without_columns_are_refused(tmp_path: Path) -> None:
    for name, key in (("a.pdf", "log"), ("a.csv", "mapping")):
        case = folder_with(tmp_path, f'{{ person = "Tomas", log = "{name}" }}', **{name.replace(".", "_"): "t,d\n"})
        with pytest.raises(CaseError) as caught:
            plan(case, draws=16)
        assert caught.value.key == f"exposure.earlier[1].{key}"
        assert "--" not in str(caught.value)


@pytest.mark.parametrize(
    "text",
    [
        '<!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/hostname">]><uddf version="3.2.0">&e;</uddf>',
        '<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]><uddf version="3.2.0">&b;</uddf>',
    ],
)
def test_a_hostile_log_of_a_case_is_refused(text: str, tmp_path: Path) -> None:
    case = folder_with(tmp_path, '{ person = "Tomas", log = "a.uddf" }', a_uddf=text)
    with pytest.raises(CaseError, match="refused") as caught:
        plan(case, draws=16)
    assert caught.value.file == "a.uddf"
