"""The scanner that finds the line of a key."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from parbuckle.case.lines import deepest, key_lines

CASES = sorted((Path(__file__).parents[2] / "src" / "parbuckle" / "data" / "cases").glob("*.toml"))


@pytest.mark.parametrize("path", CASES, ids=[path.stem for path in CASES])
def test_every_key_of_the_shipped_files_is_found_on_its_line(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    lines, rows = key_lines(text), text.split("\n")
    for keys in _keys(tomllib.loads(text)):
        assert keys in lines, keys
        assert str(keys[-1]) in rows[lines[keys] - 1]


def _keys(data: object, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    found: list[tuple[str | int, ...]] = []
    if isinstance(data, dict):
        for key, value in data.items():
            found += [(*path, key), *_keys(value, (*path, key))]
    elif isinstance(data, list):
        for row, value in enumerate(data):
            found += _keys(value, (*path, row))
    return found


def test_nested_tables_and_lists() -> None:
    text = 'a = { }\nb = { c = 1, d = [1, { e = 2 }] }\n[x.y]\nz = """\nq = 1\n"""\nw = 1\n[[p]]\n[[p]]\nk = 1\n'
    lines = key_lines(text)
    assert lines["b", "d", 1, "e"] == 2
    assert lines["x", "y", "w"] == 7
    assert lines["p", 1, "k"] == 10
    assert ("q",) not in lines


def test_depth_counts_brackets_and_dots_but_not_texts() -> None:
    assert deepest("a = [[[1]]]") == 3
    assert deepest("a = '[[[[' # [[[[") == 0
    assert deepest("a.b.c.d = 1") == 4
    assert deepest("[" * 500) == 500


@given(st.text(alphabet="ab.=[]{}\"'#,\n 1\\", max_size=80))
def test_any_text_is_scanned_without_an_error(text: str) -> None:
    key_lines(text)
    assert deepest(text) >= 0
