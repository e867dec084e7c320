"""A broken file at the command line: words on standard error, exit code 1, nothing on standard output."""

from __future__ import annotations

import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

Call = Callable[..., "subprocess.CompletedProcess[str]"]

BROKEN = [
    ('depth = "16 m"', 'depth = "16"', "site.depth", "unit is missing"),
    ('"46 ± 4 kg"', '"46,5 ± 4 kg"', "object.part[1].mass", "comma"),
    ('"90..100 %"', '"300 %"', "object.cavity[1].flooded", "0 to 100 %"),
    ("T10:00:00+01:00", "T10:00:00", "dive[1].start", "offset"),
    ('cylinder = "L7"', 'cylinder = "B15-3"', "lift.cylinder", "anybody breathes from"),
    ('depth = "16 m"', 'dept = "16 m"', "site.dept", "did you mean 'depth'"),
    ("schema = 1", "schema = 7", "schema", "newer format"),
]


@pytest.fixture
def case(root: Path, tmp_path: Path) -> Path:
    cases = root / "src" / "parbuckle" / "data" / "cases"
    for name in ("kit.toml", "quarry-outboard.toml"):
        (tmp_path / name).write_bytes((cases / name).read_bytes())
    return tmp_path / "quarry-outboard.toml"


def told(answer: subprocess.CompletedProcess[str]) -> str:
    assert answer.returncode == 1
    assert answer.stdout == ""
    assert "Traceback" not in answer.stderr
    assert "fault in the program" not in answer.stderr
    return answer.stderr


@pytest.mark.parametrize(("old", "new", "key", "says"), BROKEN, ids=[row[2] for row in BROKEN])
def test_one_message_and_exit_one(parbuckle: Call, case: Path, old: str, new: str, key: str, says: str) -> None:
    text = case.read_text(encoding="utf-8")
    assert old in text
    case.write_text(text.replace(old, new, 1), encoding="utf-8")
    message = told(parbuckle("plan", case.name, "--json"))
    assert case.name in message
    assert key in message
    assert says in message


@pytest.mark.parametrize("raw", [b"\0\1\2", b"schema = 1\nx = " + b"[" * 3000, b"schema = 1\nx = " + b"9" * 5000])
def test_what_is_not_a_case_at_all(parbuckle: Call, tmp_path: Path, raw: bytes) -> None:
    (tmp_path / "odd.toml").write_bytes(raw)
    assert "odd.toml" in told(parbuckle("plan", "odd.toml"))


def test_a_file_that_is_not_there(parbuckle: Call) -> None:
    assert "nowhere.toml" in told(parbuckle("plan", "nowhere.toml"))
