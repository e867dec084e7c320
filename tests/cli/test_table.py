"""``parbuckle table`` as a user calls it: two papers out of one kit, or one clear error and nothing written."""

from __future__ import annotations

import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

Call = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.fixture
def kit(root: Path, tmp_path: Path) -> Path:
    own = tmp_path / "kit.toml"
    own.write_bytes((root / "src" / "parbuckle" / "data" / "cases" / "kit.toml").read_bytes())
    return own


def test_both_papers_are_written(parbuckle: Call, kit: Path) -> None:
    done = parbuckle("table", kit, "--out", "table.pdf", "--pool-sheet", "sheet.pdf")
    assert (done.returncode, done.stdout) == (0, ""), done.stderr
    for name in ("table.pdf", "sheet.pdf"):
        assert (kit.parent / name).read_bytes().startswith(b"%PDF")
        assert name in done.stderr


def test_the_sheet_is_only_written_when_asked_for(parbuckle: Call, kit: Path) -> None:
    assert parbuckle("table", kit, "--out", "table.pdf").returncode == 0
    assert sorted(p.name for p in kit.parent.iterdir()) == ["kit.toml", "table.pdf"]


def refused(done: subprocess.CompletedProcess[str], folder: Path) -> str:
    assert (done.returncode, done.stdout) == (1, "")
    assert "Traceback" not in done.stderr
    assert "fault in the program" not in done.stderr
    assert not list(folder.glob("*.pdf"))
    return done.stderr


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("schema = 1\n", ("bag", "no bag", "kit.toml")),
        ('schema = 1\n[[bag]]\nid = "A"\nstyle = "open"\ncapacity = "20"\n', ("bag[1].capacity", "unit is missing")),
        ('schema = 1\n[[bag]]\nid = "A"\nstyle = "open"\ncapacty = "20 l"\n', ("capacity", "kit.toml")),
        (
            'schema = 1\n[[bag]]\nid = "A"\nstyle = "open"\ncapacity = "20 l"\nquarantined = true\n',
            ("set aside", "kit.toml"),
        ),
        ('schema = 1\n[[bag]]\nid = "A"\nstyle = "open"\ncapacity = "20 l"\ndue = 2020-01-01\n', ("past their due",)),
    ],
)
def test_a_bad_kit_is_told_in_words(parbuckle: Call, kit: Path, text: str, says: tuple[str, ...]) -> None:
    kit.write_text(text, encoding="utf-8")
    message = refused(parbuckle("table", "kit.toml", "--out", "table.pdf", "--pool-sheet", "s.pdf"), kit.parent)
    for words in says:
        assert words in message


def test_two_papers_need_two_files(parbuckle: Call, kit: Path) -> None:
    assert "two files" in refused(parbuckle("table", kit, "--out", "a.pdf", "--pool-sheet", "a.pdf"), kit.parent)


def test_a_missing_folder_is_said(parbuckle: Call, kit: Path) -> None:
    assert "folder" in refused(parbuckle("table", kit, "--out", "nowhere/a.pdf"), kit.parent)
