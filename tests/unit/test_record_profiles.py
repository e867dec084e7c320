"""Logged dives: what is written comes back, and no hostile or broken file gets further than one clear message."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from parbuckle.quantity.breathing import Gas, parse_gas
from parbuckle.quantity.errors import CallError, CaseError, RangeError
from parbuckle.record import file_text
from parbuckle.record.csv_profile import Column, Columns, profile_of, read_csv
from parbuckle.record.profile import Profile, Series, Switch, Tank, gas_of
from parbuckle.record.rates import ascent_rates, largest_tooth, too_fast
from parbuckle.record.slate_pairs import slate_profile
from parbuckle.record.uddf_read import profiles_of, read_uddf
from parbuckle.record.uddf_write import uddf_of

WRITTEN = "2027-05-09T12:00:00+01:00"
HEAD = "<uddf version='3.2.0' xmlns='any'>"
MIX = "<mix id='a'><o2>0.32</o2><he>0</he></mix>"
PLAIN = Columns(Column("time", "s"), Column("depth", "m"))
WHOLE = Columns(
    Column("Time", "clock"),
    Column("Depth", "ft"),
    Column("Temp", "degF"),
    Column("Tank", "psi"),
    "Gas",
    ";",
    ",",
)


def way(*points: tuple[Any, Any], more: str = "") -> str:
    return "".join(f"<waypoint><depth>{d}</depth><divetime>{t}</divetime>{more}</waypoint>" for t, d in points)


def uddf(samples: str, mixes: str = MIX, before: str = "") -> str:
    return f"{HEAD}{mixes}<dive id='d'>{before}<samples>{samples}</samples></dive></uddf>"


GOOD = way((0, 0), (60, 9))


@st.composite
def profiles(draw: st.DrawFn) -> Profile:
    count = draw(st.integers(2, 25))
    steps = draw(st.lists(st.floats(0.25, 400.0), min_size=count, max_size=count))
    time = np.cumsum(steps)
    depth = np.array(draw(st.lists(st.floats(-0.5, 120.0), min_size=count, max_size=count)))
    where = st.lists(st.integers(0, count - 1), unique=True, min_size=1).map(sorted)

    def series(low: float, high: float) -> Series:
        at = draw(where)
        values = draw(st.lists(st.floats(low, high), min_size=len(at), max_size=len(at)))
        return Series(time[at].copy(), np.array(values))

    gases = st.sampled_from([gas_of(0.2095), gas_of(0.32), gas_of(0.5), gas_of(0.21, 0.35), gas_of(0.18, 0.45)])
    switches = tuple(Switch(float(time[i]), draw(gases)) for i in draw(where)[:3])
    tanks = tuple(
        Tank(f"t{n}", draw(st.none() | gases), draw(st.none() | st.floats(0.003, 0.03)), series(0.0, 3e7))
        for n in range(draw(st.integers(0, 3)))
    )
    warm = draw(st.booleans())
    return Profile(time, depth, series(271.0, 305.0) if warm else None, switches, tanks, draw(st.just(WRITTEN)))


@settings(max_examples=60, deadline=None)
@given(st.lists(profiles(), min_size=1, max_size=3))
def test_what_is_written_is_read_back_to_the_last_bit(dives: list[Profile]) -> None:
    back = profiles_of(uddf_of(dives, "a test", "1", WRITTEN))
    assert [dive.digest() for dive in back] == [dive.digest() for dive in dives]


@settings(max_examples=30, deadline=None)
@given(profiles())
def test_reading_and_writing_again_changes_nothing(dive: Profile) -> None:
    text = uddf_of([dive], "a test", "1", WRITTEN)
    assert uddf_of(profiles_of(text), "a test", "1", WRITTEN) == text


ORDER = {
    "uddf": ["generator", "gasdefinitions", "profiledata"],
    "generator": ["name", "type", "version", "datetime"],
    "mix": ["name", "o2", "n2", "he", "ar", "h2"],
    "dive": ["informationbeforedive", "tankdata", "samples", "informationafterdive"],
    "tankdata": ["link", "tankvolume", "tankpressurebegin", "tankpressureend"],
    "waypoint": ["depth", "divetime", "switchmix", "tankpressure", "temperature"],
    "informationafterdive": ["greatestdepth", "diveduration"],
}  # recalled from the open standard, version 3.2


@settings(max_examples=40, deadline=None)
@given(st.lists(profiles(), min_size=1, max_size=3))
def test_the_structure_is_that_of_the_standard_as_recalled(dives: list[Profile]) -> None:
    root = ElementTree.fromstring(uddf_of(dives, "a test", "1", WRITTEN))
    names = {element: element.tag.removeprefix("{http://www.streit.cc/uddf/3.2/}") for element in root.iter()}
    for element, name in names.items():
        told = list(dict.fromkeys(names[child] for child in element))
        assert told == [each for each in ORDER.get(name, told) if each in told], name
    ids = [element.get("id") for element in root.iter() if element.get("id") is not None]
    assert len(set(ids)) == len(ids)
    assert all(re.fullmatch(r"[A-Za-z_][\w.-]*", name or "") for name in ids)
    refs = {element.get("ref") for element in root.iter() if element.get("ref") is not None}
    assert refs <= set(ids)
    waypoints = [element for element, name in names.items() if name == "waypoint"]
    assert all({"depth", "divetime"} <= {names[child] for child in point} for point in waypoints)


@pytest.mark.parametrize("name", ["1", "left twin", "mix1", "dive1", "group1", "", "t<&>"])
def test_the_name_of_a_cylinder_becomes_an_id(name: str) -> None:
    tank = Tank(name, Gas("EAN32", 0.32, 0.0), 0.012, Series(np.array([0.0]), np.array([2e7])))
    dive = Profile(np.array([0.0, 60.0]), np.array([0.0, 9.0]), None, (), (tank, tank), WRITTEN)
    root = ElementTree.fromstring(uddf_of([dive, dive], "a test", "1", WRITTEN))
    ids = [element.get("id") for element in root.iter() if element.get("id") is not None]
    assert len(set(ids)) == len(ids)
    back = profiles_of(ElementTree.tostring(root, encoding="unicode"))
    assert [[t.volume for t in each.tanks] for each in back] == [[0.012, 0.012]] * 2
    assert all(t.pressure is not None and t.pressure.value.tolist() == [2e7] for each in back for t in each.tanks)


def test_a_file_goes_round_through_the_disk(tmp_path: Path) -> None:
    dive = Profile(np.array([0.0, 60.0]), np.array([0.0, 9.0]), start=WRITTEN)
    path = tmp_path / "dive.uddf"
    path.write_text(uddf_of([dive], "a test", "1", WRITTEN), "utf-8-sig")
    assert read_uddf(path)[0].digest() == dive.digest()


def test_uddf_is_kept_in_si_with_its_gases_and_cylinders() -> None:
    text = f"""<?xml version="1.0" encoding="utf-8"?><uddf xmlns="any" version="3.2.0"><gasdefinitions>{MIX}
      </gasdefinitions><profiledata><repetitiongroup id="g"><dive id="d"><informationbeforedive>
      <datetime>{WRITTEN}</datetime></informationbeforedive><tankdata id="t"><link ref="a"/><tankvolume>0.012
      </tankvolume></tankdata><samples><waypoint><depth>0.0</depth><divetime>0</divetime><switchmix ref="a"/>
      <tankpressure ref="t">2.2e7</tankpressure><temperature>284.15</temperature></waypoint><waypoint>
      <depth>18.2</depth><divetime>90</divetime><alarm>ascent</alarm></waypoint></samples></dive></repetitiongroup>
      </profiledata></uddf>"""
    (dive,) = profiles_of(text)
    assert (dive.start, dive.deepest) == (WRITTEN, 18.2)
    assert dive.switches == (Switch(0.0, Gas("EAN32", 0.32, 0.0)),)
    (tank,) = dive.tanks
    assert (tank.volume, tank.gas) == (0.012, Gas("EAN32", 0.32, 0.0))
    assert tank.pressure is not None and tank.pressure.value.tolist() == [2.2e7]
    assert dive.temperature is not None and dive.temperature.value.tolist() == [284.15]


BOMB = (
    "<!DOCTYPE l [<!ENTITY a 'ha'>"
    + "".join(f"<!ENTITY a{n} '{'&a;' * 10}'>" for n in range(9))
    + "]><uddf>&a8;</uddf>"
)
HOSTILE = {
    "billion laughs": (BOMB, "refused"),
    "external entity": ("<!DOCTYPE x [<!ENTITY e SYSTEM 'file:///etc/hostname'>]><uddf>&e;</uddf>", "refused"),
    "external DTD": (f"<!DOCTYPE uddf SYSTEM 'http://example.invalid/x.dtd'>{uddf(GOOD)}", "refused"),
    "empty DTD": (f"<!DOCTYPE uddf>{uddf(GOOD)}", "refused"),
    "parameter entity": ("<!DOCTYPE x [<!ENTITY % p SYSTEM 'file:///x'> %p;]><uddf/>", "refused"),
    "entity not declared": (uddf(GOOD + "&nbsp;"), "well-formed"),
    "nested deep": (HEAD + "<a>" * 60 + "</a>" * 60 + "</uddf>", "nested deeper"),
    "nested very deep": (HEAD + "<a>" * 60000, "well-formed"),
    "cut off": (uddf(GOOD)[:-20], "well-formed"),
    "nothing": ("", "well-formed"),
    "no XML": ("time,depth\n0,0\n", "well-formed"),
    "another format": ("<gpx version='1.1'/>", "no UDDF"),
    "old version": ("<uddf version='2.2.0'/>", "version 3"),
    "no version": ("<uddf/>", "version 3"),
    "no dive": (HEAD + "</uddf>", "no dive"),
    "no samples": (uddf(""), "0 samples"),
    "one sample": (uddf(way((0, 0))), "1 samples"),
    "no depth": (uddf("<waypoint><divetime>0</divetime></waypoint>" + GOOD), "depth at 0 s is missing"),
    "no time": (uddf("<waypoint><depth>0</depth></waypoint>" + GOOD), "divetime is missing"),
    "NaN": (uddf(way((0, 0), (60, "NaN"))), "no number: 'NaN'"),
    "infinite": (uddf(way((0, 0), ("inf", 5))), "no number: 'inf'"),
    "huge exponent": (uddf(way((0, 0), (60, "1e99"))), ", allowed "),
    "comma": (uddf(way((0, 0), (60, "9,5"))), "no number: '9,5'"),
    "odd digits": (uddf(way((0, 0), (60, "٩"))), "no number"),
    "underscore": (uddf(way((0, 0), (60, "1_0"))), "no number"),
    "time goes back": (uddf(way((0, 0), (60, 9), (30, 9))), "times must rise"),
    "same time twice": (uddf(way((0, 0), (60, 9), (60, 9))), "times must rise"),
    "time below zero": (uddf(way((-5, 0), (60, 9))), ", allowed "),
    "milliseconds": (uddf(way((0, 0), (60_000_000, 9))), ", allowed "),
    "depth too large": (uddf(way((0, 0), (60, 900))), ", allowed "),
    "depth upward": (uddf(way((0, 0), (60, -9))), ", allowed "),
    "degrees Celsius": (uddf(way((0, 0), (60, 9), more="<temperature>12</temperature>")), "kelvin"),
    "hot": (uddf(way((0, 0), (60, 9), more="<temperature>400</temperature>")), ", allowed "),
    "mix unknown": (uddf(way((0, 0), (60, 9), more="<switchmix ref='z'/>")), "mix 'z'"),
    "mix without id": (uddf(GOOD, "<mix><o2>0.32</o2></mix>"), "no id"),
    "mix in percent": (uddf(GOOD, "<mix id='a'><o2>32</o2></mix>"), "make no gas"),
    "mix over one": (uddf(GOOD, "<mix id='a'><o2>0.6</o2><he>0.5</he></mix>"), "make no gas"),
    "mix without oxygen": (uddf(GOOD, "<mix id='a'><o2>0</o2><he>1</he></mix>"), "make no gas"),
    "pressure below zero": (uddf(way((0, 0), (60, 9), more="<tankpressure>-5</tankpressure>")), ", allowed "),
    "two pressures": (uddf(way((0, 0), (60, 9), more="<tankpressure>5</tankpressure>" * 2)), "twice at one moment"),
    "cylinder in litres": (uddf(GOOD, before="<tankdata><tankvolume>12</tankvolume></tankdata>"), ", allowed "),
    "no moment": (uddf(GOOD, before="<datetime>yesterday</datetime>"), "no moment"),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_a_broken_or_hostile_log_gets_one_message(name: str, tmp_path: Path) -> None:
    text, words = HOSTILE[name]
    path = tmp_path / "log.uddf"
    path.write_text(text, "utf-8")
    with pytest.raises(CaseError) as caught:
        read_uddf(path)
    message = str(caught.value)
    assert words in message
    assert message.startswith("log.uddf: profile: this log cannot be used: ")
    assert len(message) < 400


def test_files_that_are_no_text_get_one_message(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    cases = {"a": (b"\xff\xfe\x00\x01", "UTF-8"), "b": (b"<uddf>\0</uddf>", "zero byte")}
    for name, (content, words) in cases.items():
        (tmp_path / name).write_bytes(content)
        with pytest.raises(CaseError, match=words):
            read_uddf(tmp_path / name)
    with pytest.raises(CaseError, match="cannot be used"):
        read_uddf(tmp_path / "none")
    with pytest.raises(CaseError, match="cannot be used"):
        read_uddf(tmp_path)
    monkeypatch.setattr(file_text, "LARGEST", 10)
    (tmp_path / "c").write_text(uddf(GOOD))
    with pytest.raises(CaseError, match="larger than"):
        read_uddf(tmp_path / "c")


def test_the_dive_that_is_wrong_is_named() -> None:
    dives = [f"<dive><samples>{s}</samples></dive>" for s in (GOOD, way((0, 0), (60, "x")))]
    with pytest.raises(RangeError, match=r"dive 2: the depth at 60 s is no number: 'x'"):
        profiles_of(HEAD + "".join(dives) + "</uddf>")


TABLE = """Time;Depth;Temp;Tank;Gas
0:00;0;60,8;3000;air

1:30;59,0;;2900;
1:02:30;59,0;50;2000;EAN50
"""


def test_a_table_is_read_by_its_mapping() -> None:
    dive = profile_of(TABLE, WHOLE)
    assert dive.time.tolist() == [0.0, 90.0, 3750.0]
    assert dive.depth.tolist() == pytest.approx([0.0, 59 * 0.3048, 59 * 0.3048], rel=1e-12)
    assert dive.temperature is not None
    assert dive.temperature.time.tolist() == [0.0, 3750.0]
    assert dive.temperature.value.tolist() == pytest.approx([273.15 + 16.0, 283.15], rel=1e-12)
    assert dive.switches == (Switch(0.0, parse_gas("air")), Switch(3750.0, parse_gas("EAN50")))
    (tank,) = dive.tanks
    assert tank.pressure is not None
    assert tank.pressure.value[0] == pytest.approx(3000 * 6894.757293168, rel=1e-9)


@settings(max_examples=60, deadline=None)
@given(profiles(), st.sampled_from([",", ";", "\t"]))
def test_a_table_gives_back_what_stood_in_it(dive: Profile, delimiter: str) -> None:
    rows = [f"{t!r}{delimiter}{d:.9f}" for t, d in zip(dive.time.tolist(), dive.depth.tolist(), strict=True)]
    text = "\r\n".join([f"time{delimiter}depth", *rows])
    back = profile_of(text, Columns(Column("time", "s"), Column("depth", "m"), delimiter=delimiter))
    assert back.time.tolist() == dive.time.tolist()
    assert back.depth.tolist() == pytest.approx(dive.depth.tolist(), abs=1e-9)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "empty"),
        ("time,deep\n0,0\n1,1\n", "no column with the heading 'depth'"),
        ("time,depth,depth\n0,0,0\n1,1,1\n", "2 columns with the heading 'depth'"),
        ("time;depth\n0;0\n1;1\n", "no column with the heading 'time'"),
        ("time,depth\n0,0\n60\n", "line 3: 1 cells where the headings are 2"),
        ("time,depth\n0,0\n60,9,5\n", "line 3: 3 cells"),
        ("time,depth\n0,0\n60,\n", "line 3: the depth is missing"),
        ("time,depth\n0,0\n60,deep\n", "line 3: the depth is no number: 'deep'"),
        ("time,depth\n0,0\n60,=1+1\n", "no number"),
        ("time,depth\n0,0\n60,nan\n", "no number"),
        ("time,depth\n0,0\n", "1 samples"),
        ("time,depth\n60,9\n0,0\n", "times must rise"),
        ("time,depth\n0,0\n60,1000\n", ", allowed "),
        ('time,depth\n0,0\n60,"9\n', "line 3"),
        ("time,depth\n0,0\n60," + "9" * 200_000 + "\n", "line 3"),
    ],
)
def test_a_broken_table_gets_one_message(text: str, words: str, tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_text(text, "utf-8")
    with pytest.raises(CaseError) as caught:
        read_csv(path, PLAIN)
    assert words in str(caught.value)
    assert len(str(caught.value)) < 400


def test_a_broken_cell_of_the_whole_mapping_is_named() -> None:
    for old, new, words in (
        ("1:30", "90", "mm:ss"),
        ("59,0;;2900", "59.0;;2900", "holds a point"),
        ("EAN50", "EAN500", "line 5: this is not a breathing gas"),
        ("1:30", "1:75", "mm:ss"),
    ):
        with pytest.raises(RangeError, match=words):
            profile_of(TABLE.replace(old, new), WHOLE)


@pytest.mark.parametrize(
    "change",
    [
        {"delimiter": "|"},
        {"decimal": ","},
        {"decimal": "'"},
        {"time": Column("time", "mins")},
        {"depth": Column("depth", "clock")},
        {"pressure": Column("p", "ata")},
    ],
)
def test_a_mapping_that_cannot_be_is_refused(change: dict[str, Any]) -> None:
    with pytest.raises(CallError):
        Columns(**{"time": Column("time", "s"), "depth": Column("depth", "m"), **change})


def test_slate_pairs_come_in_minutes_or_with_a_colon() -> None:
    text = "0 0   # in\n2 18\n25, 18; 28:30 5\n\n31.5 5\n33 0"
    dive = slate_profile(text)
    assert dive.time.tolist() == [0.0, 120.0, 1500.0, 1710.0, 1890.0, 1980.0]
    assert dive.depth.tolist() == [0.0, 18.0, 18.0, 5.0, 5.0, 0.0]
    assert slate_profile("0 0; 2 60", depth_unit="ft").deepest == pytest.approx(18.288)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "0 samples"),
        ("0 0", "1 samples"),
        ("0 0; 2", "pair 2 is not a time and a depth"),
        ("0 0; 2 18 4", "pair 2"),
        ("0 0; two 18", "the time of pair 2 is no number"),
        ("0 0; 2 18m", "the depth of pair 2 is no number"),
        ("0 0; 5 18; 2 18", "times must rise"),
        ("0 0; 2 -18", ", allowed "),
        ("; ".join(f"{n} 1" for n in range(501)), "501 pairs"),
    ],
)
def test_a_broken_pair_gets_one_message(text: str, words: str) -> None:
    with pytest.raises(CaseError) as caught:
        slate_profile(text)
    assert words in str(caught.value)
    assert str(caught.value).startswith("slate: ")


def test_the_units_of_a_slate_are_in_the_list() -> None:
    with pytest.raises(CaseError, match="no unit of length"):
        slate_profile("0 0; 1 1", depth_unit="fsw")


def test_a_steady_ascent_has_one_rate_whatever_the_samples() -> None:
    for step in (1.0, 4.0, 20.0):
        time = np.arange(0.0, 241.0, step)
        rates = ascent_rates(Profile(time, 36.0 - 0.15 * time))
        assert rates[1:] == pytest.approx(0.15, rel=1e-9)
        assert not too_fast(Profile(time, 36.0 - 0.15 * time), 0.15)


def test_a_fast_part_is_found_with_its_time_and_depth() -> None:
    dive = Profile(np.array([0.0, 60, 300, 340, 600, 700]), np.array([0.0, 20, 20, 8, 8, 0]))
    (part,) = too_fast(dive, 0.15)
    assert (part.start, part.end, part.depth) == (340.0, 340.0, 8.0)
    assert part.rate == pytest.approx(0.3)


@settings(max_examples=60, deadline=None)
@given(profiles(), st.floats(0.05, 0.5))
def test_a_higher_limit_never_finds_more(dive: Profile, limit: float) -> None:
    low = sum(part.end - part.start + 1.0 for part in too_fast(dive, limit))
    assert sum(part.end - part.start + 1.0 for part in too_fast(dive, 2.0 * limit)) <= low


@settings(max_examples=60, deadline=None)
@given(profiles())
def test_a_tooth_is_never_larger_than_the_dive_and_does_not_mind_the_direction(dive: Profile) -> None:
    tooth = largest_tooth(dive)
    assert 0.0 <= tooth <= float(np.ptp(dive.depth)) + 1e-12
    assert largest_tooth(Profile(dive.time, dive.depth[::-1].copy())) == tooth
    assert largest_tooth(Profile(dive.time, np.sort(dive.depth))) == 0.0


@pytest.mark.parametrize("limit", [0.0, -0.1, float("nan")])
def test_a_limit_must_be_one(limit: float) -> None:
    with pytest.raises(RangeError, match="above 0"):
        too_fast(Profile(np.array([0.0, 60.0]), np.array([9.0, 0.0])), limit)


def test_the_window_of_a_rate_has_a_range() -> None:
    with pytest.raises(RangeError):
        ascent_rates(Profile(np.array([0.0, 60.0]), np.array([9.0, 0.0])), 1.0)
