"""A block that is put down, from `new --from` to the plan, on the screen and as a document."""

from __future__ import annotations

import json
import subprocess
from collections.abc import Callable
from pathlib import Path

Call = Callable[..., "subprocess.CompletedProcess[str]"]


def test_the_shipped_block_is_planned_from_new_to_the_screen(parbuckle: Call, tmp_path: Path) -> None:
    assert parbuckle("new", "block.toml", "--from", "mooring-block").returncode == 0
    shown = parbuckle("plan", "block.toml", "--draws", "64")
    assert (shown.returncode, shown.stderr) == (0, "")
    assert "Lowered" in shown.stdout
    assert "It is put down, not lifted: by bag and line." in shown.stdout
    told = parbuckle("plan", "block.toml", "--draws", "64", "--json")
    document = json.loads(told.stdout)
    assert told.returncode == 0
    assert document["ascent"]["lowering"]["way"] == "bag and line"
    assert document["lift"]["methods"] == []
    assert document["findings"]


def test_a_way_that_is_none_is_refused_with_its_key(parbuckle: Call, tmp_path: Path) -> None:
    parbuckle("new", "block.toml", "--from", "mooring-block")
    text = (tmp_path / "block.toml").read_text(encoding="utf-8")
    (tmp_path / "block.toml").write_text(text.replace('way = "bag and line"', 'way = "crane"'), encoding="utf-8")
    wrong = parbuckle("plan", "block.toml")
    assert wrong.returncode == 1
    assert "lowering.way" in wrong.stderr
