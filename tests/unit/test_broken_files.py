"""Broken case and kit files: each gives one CaseError that names file, key, line, what was given, what is allowed."""

from __future__ import annotations

from pathlib import Path

import pytest

from parbuckle.case.read import read_case, read_kit
from parbuckle.case.source import LARGEST
from parbuckle.quantity.errors import CaseError

CASES = Path(__file__).parents[2] / "src" / "parbuckle" / "data" / "cases"

# name, file, what stands there, what is written instead, key of the message, words of the message
Row = tuple[str, str, str, str, str, str]
Q, T, D, K = "quarry-outboard", "tidal-frame", "training-drum", "kit"

VALUES: list[Row] = [
    ("no unit", Q, 'depth = "16 m"', 'depth = "16"', "site.depth", "unit is missing"),
    ("a bare number", Q, 'depth = "16 m"', "depth = 16", "site.depth", "text with its unit"),
    ("a bare truth", Q, 'depth = "16 m"', "depth = true", "site.depth", "text with its unit"),
    ("wrong kind", Q, 'depth = "16 m"', 'depth = "16 kg"', "site.depth", "belongs to a mass"),
    ("comma", Q, '"46 ± 4 kg"', '"46,5 ± 4 kg"', "object.part[1].mass", "comma"),
    ("fraction", Q, '"16 m"', '"1 1/2 m"', "site.depth", "fraction"),
    ("trailing text", Q, '"46 ± 4 kg"', '"46 ± 4 kg or so"', "object.part[1].mass", "text after the unit"),
    ("code", Q, '"9 ± 2 kg"', "\"__import__('os')\"", "object.part[2].mass", "no number"),
    ("infinite", Q, '"4 ± 1 kg"', '"inf kg"', "object.part[3].mass", "finite"),
    ("nan", Q, '"4 ± 1 kg"', '"nan kg"', "object.part[3].mass", "finite"),
    ("exponent", Q, '"16 m"', '"1e999 m"', "site.depth", "exponents"),
    ("tower", Q, '"16 m"', '"9**9**9 m"', "site.depth", "exponents"),
    ("wide digits", Q, '"16 m"', '"１６ m"', "site.depth", "digits 0 to 9"),
    ("5,000 digits in a text", Q, '"16 m"', f'"{"9" * 5000} m"', "site.depth", "15 digits"),
    ("reversed range", Q, '"2.0..3.2 m"', '"3.2..2.0 m"', "search.sweep_width", "backwards"),
    ("reversed triangle", Q, '"60..120 m"', '"60..130..120 m"', "account[2].distance", "backwards"),
    ("negative spread", Q, '"46 ± 4 kg"', '"46 ± -4 kg"', "object.part[1].mass", "negative"),
    ("negative mass", Q, '"46 ± 4 kg"', '"-46 kg"', "object.part[1].mass", "below"),
    ("300 % flooded", Q, '"90..100 %"', '"300 %"', "object.cavity[1].flooded", "above"),
    ("share as a number", Q, '"90..100 %"', "0.9", "object.cavity[1].flooded", "text with its unit"),
    ("no depth at all", Q, '"16 m"', '"0 m"', "site.depth", "more than 0"),
    ("salt as a word", Q, 'water = "fresh"', 'water = "salty"', "site.water", "no number"),
    ("too salt", Q, 'water = "fresh"', 'water = "300 g/kg"', "site.water", "above"),
    ("boiling", Q, '"8 degC"', '"300 degC"', "site.temperature", "above"),
    ("degrees sign", Q, '"8 degC"', '"8 °C"', "site.temperature", "degC"),
    ("not in water", T, '"70 kg in water"', '"70 kg"', "lift.restraint.anchor", "in water"),
    ("plain gal", K, 'capacity = "25 l"', 'capacity = "6 gal"', "bag[1].capacity", "two gallons"),
    ("content as capacity", K, 'volume = "7 l"', 'volume = "80 cu ft"', "cylinder[1].volume", "belongs to"),
    ("unknown capacity", K, 'capacity = "25 l"', 'capacity = "unknown"', "bag[1].capacity", "no default"),
    ("limit as a length", K, 'limit = "1500 kg"', 'limit = "1500 mm"', "connector[2].limit", "belongs to a length"),
    ("gas", K, 'gas = "EAN32"', 'gas = "nitrox 32"', "cylinder[6].gas", "not a breathing gas"),
    ("target above ceiling", Q, 'target = "6 m/min"', 'target = "12 m/min"', "lift.rate", "above the ceiling"),
]

WORDS: list[Row] = [
    ("mistyped key", Q, 'depth = "16 m"', 'dept = "16 m"', "site.dept", "did you mean 'depth'"),
    ("mistyped table", Q, "[hazards]", "[hazard]", "hazard", "did you mean 'hazards'"),
    ("key of another table", Q, "tries = 2", 'tries = 2\nvisibility = "2 m"', "lift.visibility", "not known"),
    ("mistyped word", Q, '"accompanied"', '"acompanied"', "lift.method", "did you mean 'accompanied'"),
    ("unknown role", Q, 'role = "bag tender"', 'role = "captain"', "dive[1].team[1].role", "not known here"),
    ("style", K, 'style = "open with flap"', 'style = "half open"', "bag[4].style", "not known here"),
    ("both uses", K, 'use = "lifting"', 'use = "both"', "cylinder[1].use", "not known here"),
    ("truth as text", K, "locking = true", 'locking = "yes"', "connector[1].locking", "true or false"),
    ("whole number", Q, "tries = 2", "tries = 2.5", "lift.tries", "whole number"),
    ("number as text", Q, "tries = 2", 'tries = "2"', "lift.tries", "whole number"),
    ("no tries", Q, "tries = 2", "tries = 0", "lift.tries", "at least 1"),
    ("many tries", Q, "tries = 2", f"tries = {'9' * 4000}", "lift.tries", "at most"),
    ("latitude", Q, "lat = 52.48210", "lat = 152.4821", "site.datum.lat", "at most 90"),
    ("infinite latitude", Q, "lat = 52.48210", "lat = inf", "site.datum.lat", "finite"),
    ("latitude as text", Q, "lat = 52.48210", 'lat = "52 N"', "site.datum.lat", "plain number"),
    ("half a place", Q, ", lon = -3.71540", "", "site.datum.lon", "is missing"),
    ("answer as truth", Q, 'ordnance = "no"', "ordnance = false", "hazards.ordnance", "text is wanted"),
    ("gradients turned", Q, "[0.50, 0.80]", "[0.80, 0.50]", "exposure.gradient", "low one first"),
    ("one gradient", Q, "[0.50, 0.80]", "[0.50]", "exposure.gradient", "two gradient"),
    ("naive time", Q, "T10:00:00+01:00", "T10:00:00", "dive[1].start", "offset"),
    (
        "date for a time",
        Q,
        "start = 2027-04-14T10:00:00+01:00",
        "start = 2027-04-14",
        "dive[1].start",
        "time with its offset",
    ),
    ("time as text", Q, "= 2027-04-14T10:00:00+01:00", '= "10:00"', "dive[1].start", "time with its offset"),
    ("date as text", K, "due = 2027-06-01", 'due = "June"', "bag[4].due", "date"),
    ("table for a list", Q, "[[dive]]", "[dive]", "dive", "list"),
    ("list for a table", Q, "[site]", "[[site]]", "site", "table"),
    (
        "text for a table",
        Q,
        'rate = { target = "6 m/min", ceiling = "9 m/min" }',
        'rate = "6 m/min"',
        "lift.rate",
        "table",
    ),
    ("bags as a word", Q, 'bags = "choose"', 'bags = "all"', "lift.bags", "list of bag ids"),
    ("how sure", Q, 'sure = "guess"', 'sure = "perhaps"', "account[2].sure", "how sure"),
    (
        "two items in one row",
        Q,
        '{ connector = "K1" }',
        '{ connector = "K1", sling = "W1" }',
        "lift.rigging[1]",
        "one thing",
    ),
    ("a box with a diameter", D, 'width = "0.30 ± 0.04 m"', 'diameter = "0.3 m"', "object.measured[2]", "no diameter"),
    ("stream out of order", T, "2027-05-09T09:00:00+01:00", "2027-05-09T07:00:00+01:00", "site.stream", "must rise"),
    (
        "house rule as a list",
        Q,
        "[exposure]",
        "[house]\ncarry_limit = [1]\n[exposure]",
        "house",
        "house rule 'carry_limit'",
    ),
]

ACROSS: list[Row] = [
    ("unknown cylinder", Q, 'cylinder = "L7"', 'cylinder = "L8"', "lift.cylinder", "not known as a cylinder"),
    ("unknown bag", Q, 'bags = "choose"', 'bags = ["C25", "C16"]', "lift.bags[2]", "did you mean 'C15'"),
    ("a bag twice", Q, 'bags = "choose"', 'bags = ["C25", "C25"]', "lift.bags[2]", "stands twice"),
    ("unknown connector", Q, 'connector = "K1"', 'connector = "K9"', "lift.rigging[1].connector", "did you mean 'K1'"),
    ("unknown sling", Q, 'sling = "W1"', 'sling = "W2"', "lift.rigging[2].sling", "not known as a sling"),
    ("unknown line", Q, 'line_to_surface = "HAUL"', 'line_to_surface = "HALL"', "surface.line_to_surface", "'HAUL'"),
    ("unknown restraint", T, 'line = "HOLD"', 'line = "HELD"', "lift.restraint.line", "did you mean 'HOLD'"),
    ("unknown crown line", T, 'line = "CROWN"', 'line = "CROW"', "lift.crown_line.line", "did you mean 'CROWN'"),
    ("unknown diver", Q, 'person = "Ines"', 'person = "Inez"', "dive[1].team[1].person", "did you mean 'Ines'"),
    ("task for a stranger", Q, 'by = ["Tomas"]', 'by = ["Sefa"]', "dive[1].tasks[2].by[1]", "this dive's team"),
    ("checked by a stranger", Q, 'check = "Ines"', 'check = "Sefa"', "dive[1].tasks[2].check", "this dive's team"),
    ("unknown earlier diver", T, '"Tomas", depth', '"Tom", depth', "exposure.earlier[1].person", "mean 'Tomas'"),
    ("cylinder twice", Q, '"B15-2"', '"B15-1"', "dive[1].team[2].cylinder", "two divers breathe from one cylinder"),
    ("breathing lift gas", Q, 'cylinder = "B15-1"', 'cylinder = "L12"', "dive[1].team[1].cylinder", "never comes"),
    ("lifting with breathing gas", Q, 'cylinder = "L7"', 'cylinder = "B15-1"', "lift.cylinder", "never comes"),
    ("a table too many", Q, "[exposure]", "[exposure]\n[surface2]", "surface2", "did you mean 'surface'"),
    ("breathing top-up", T, 'hang = "3.5 m"', 'top_up = "D12-1"', "surface.top_up", "never comes"),
    ("part twice", Q, '"cowling and trim"', '"block, leg and bracket"', "object.part[3].name", "stands twice"),
    ("trainee twice", D, 'name = "Trainee B"', 'name = "Trainee A"', "trainee[2].name", "stands twice"),
    ("trainee with a diver's name", D, 'name = "Trainee B"', 'name = "Ines"', "trainee[2].name", "stands twice"),
    ("bag id twice", K, 'id = "C15"', 'id = "C25"', "bag[2].id", "stands twice"),
    ("person twice", K, 'name = "Tomas"', 'name = "Ines"', "person[3].name", "stands twice"),
    ("filled an unknown bag", K, 'bag = "C25", at', 'bag = "C26", at', "cylinder[1].fills.bag", "did you mean"),
    ("content without rating", K, 'volume = "7 l"', 'content = "80 cu ft"', "cylinder[1].content", "rated pressure"),
    ("2", K, 'volume = "7 l"', 'volume = "7 l"\ncontent = "80 cu ft"\nrated = "9 Pa"', "cylinder[1]", "not both"),
    ("empty id", K, 'id = "C15"', 'id = ""', "bag[2].id", "empty"),
    ("missing kit", Q, 'kit = "kit.toml"', 'kit = "gear/our kit.toml"', "kit", "gear/our kit.toml"),
    ("no kit", Q, 'kit = "kit.toml"', "", "lift.cylinder", "no kit"),
    ("point and bearing", Q, "how = \"by phone\"", "at = { lat = 1.0, lon = 2.0 }", "account[2]", "not both"),
    ("a span nobody measured", D, 'hand = "0.22 m", ', "", "object.measured[2].width", "hand span of Trainee B"),
]  # fmt: skip


def folder(tmp_path: Path, name: str, old: str, new: str) -> Path:
    """Copy the shipped files and break one of them in one place."""
    for source in CASES.glob("*.toml"):
        (tmp_path / source.name).write_bytes(source.read_bytes())
    path = tmp_path / f"{name}.toml"
    text = path.read_text(encoding="utf-8")
    assert old in text
    text = text.replace(old, new, 1)
    if "span nobody" in new or 'hand = "0.22 m"' in old:
        text = text.replace('width = "0.30 ± 0.04 m"', 'width = "1.5 hand"')
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("name", "old", "new", "key", "says"),
    [row[1:] for row in VALUES + WORDS + ACROSS],
    ids=[row[0] for row in VALUES + WORDS + ACROSS],
)
def test_names_file_key_line_given_and_allowed(
    tmp_path: Path, name: str, old: str, new: str, key: str, says: str
) -> None:
    path = folder(tmp_path, name, old, new)
    case = tmp_path / f"{Q if name == K else name}.toml"
    with pytest.raises(CaseError) as caught:
        read_case(case)
    error, told = caught.value, str(caught.value)
    assert error.file == str(path)
    assert error.key.startswith(key), told
    assert says in told
    assert error.given or "missing" in told or "empty" in told, told
    assert error.allowed, told
    assert error.line is not None
    assert len(told) < 1200
    if name == K:
        with pytest.raises(CaseError):
            read_kit(path)


def test_the_line_is_the_line_of_the_key(tmp_path: Path) -> None:
    path = folder(tmp_path, Q, '"46 ± 4 kg"', '"46 ± 4"')
    with pytest.raises(CaseError) as caught:
        read_case(path)
    assert caught.value.line is not None
    assert '"46 ± 4"' in path.read_text(encoding="utf-8").split("\n")[caught.value.line - 1]


def test_the_first_fault_is_told_and_the_others_are_counted(tmp_path: Path) -> None:
    path = folder(tmp_path, Q, '"46 ± 4 kg"', '"46 ± 4"')
    text = path.read_text(encoding="utf-8").replace('"16 m"', '"16"').replace('"9 ± 2 l"', '"9"')
    path.write_text(text, encoding="utf-8")
    with pytest.raises(CaseError, match="2 more faults") as caught:
        read_case(path)
    assert caught.value.key == "site.depth"


WHOLE: list[tuple[str, bytes, str]] = [
    ("empty", b"", "schema"),
    ("not TOML", b"schema = 1\n[case\ntitle = 3\n", "not valid TOML"),
    ("half a text", b'schema = 1\n[case]\ntitle = "no end\n', "not valid TOML"),
    ("no quotes", b"schema = 1\n[site]\ndepth = 16 m\n", "not valid TOML"),
    ("key twice", b'schema = 1\n[site]\ndepth = "1 m"\ndepth = "2 m"\n', "stands twice"),
    ("table twice", b"schema = 1\n[site]\n[site]\n", "stands twice"),
    ("binary", b"\x7fELF\x02\x01\x01\x00\x00\x00", "not a text file"),
    ("another alphabet", "schema = 1\n[case]\ntitle = 'Bóje'\n".encode("latin-1"), "not UTF-8"),
    ("wide text", "schema = 1\n".encode("utf-16"), ""),
    ("newer format", b"schema = 2\n", "newer format"),
    ("older format", b"schema = 0\n", "not a version"),
    ("version as text", b'schema = "1"\n', "not a version"),
    ("version as truth", b"schema = true\n", "not a version"),
    ("no version", b"[case]\ntitle = 'x'\n", "version of the format is missing"),
    ("deep lists", b"schema = 1\na = " + b"[" * 5000 + b"]" * 5000, "nested too deep"),
    ("deep tables", b"schema = 1\na = " + b"{a=" * 200 + b"1" + b"}" * 200, "nested too deep"),
    ("deep keys", b"schema = 1\n" + b"a." * 5000 + b"b = 1\n", "nested too deep"),
    ("deep names", b"schema = 1\n[" + b"a." * 5000 + b"b]\n", "nested too deep"),
    ("5,000-digit number", b"schema = 1\nx = " + b"9" * 5000 + b"\n", "too many digits"),
    ("no such date", b"schema = 1\n[case]\nlost = 2027-02-31T10:00:00Z\n", "not valid TOML"),
    ("quoted deep keys", b"schema = 1\n" + b'"a".' * 3000 + b"b = 1\n", "nested too deep"),
]


@pytest.mark.parametrize(("raw", "says"), [row[1:] for row in WHOLE], ids=[row[0] for row in WHOLE])
def test_a_file_that_cannot_be_read_at_all(tmp_path: Path, raw: bytes, says: str) -> None:
    path = tmp_path / "case.toml"
    path.write_bytes(raw)
    with pytest.raises(CaseError) as caught:
        read_case(path)
    assert says in str(caught.value)
    assert caught.value.file == str(path)
    assert caught.value.allowed
    assert len(str(caught.value)) < 1000


def test_fifty_megabytes_are_refused_unread(tmp_path: Path) -> None:
    path = tmp_path / "large.toml"
    with path.open("wb") as file:
        file.truncate(50_000_000)
    with pytest.raises(CaseError, match="too large") as caught:
        read_case(path)
    assert caught.value.given == "50.0 MB"


def test_one_megabyte_is_read_and_one_byte_more_is_not(tmp_path: Path) -> None:
    path = tmp_path / "full.toml"
    head = b"schema = 1\n#"
    path.write_bytes(head + b"x" * (LARGEST - len(head)))
    assert read_case(path).case.case.title is None
    path.write_bytes(head + b"x" * (LARGEST - len(head) + 1))
    with pytest.raises(CaseError, match="too large"):
        read_case(path)


@pytest.mark.parametrize("name", ["nowhere.toml", ".", "a\0b"])
def test_no_file(tmp_path: Path, name: str) -> None:
    with pytest.raises(CaseError) as caught:
        read_case(tmp_path / name)
    assert caught.value.do


def test_a_byte_order_mark_and_windows_lines_are_read(tmp_path: Path) -> None:
    path = tmp_path / "windows.toml"
    path.write_bytes(b"\xef\xbb\xbf" + (CASES / "first-answer.toml").read_bytes().replace(b"\n", b"\r\n"))
    assert read_case(path).case.case.title == "Anchor under the jetty"
