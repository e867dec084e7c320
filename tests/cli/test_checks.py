"""``parbuckle checks``: what it prints, and that one number outside its tolerance fails it."""

from __future__ import annotations

import argparse
import json
from typing import Any

import pytest

from parbuckle.cli import checks
from parbuckle.desk import checking

INSIDE = {
    "id": "X1",
    "quantity": "an invented number",
    "value": 2.0,
    "ours": 2.01,
    "tolerance": 0.05,
    "unit": "kg",
    "source": "invented table, row 1",
    "mark": "read",
    "ok": True,
}


def answer(rows: list[dict[str, Any]], as_json: bool, monkeypatch: pytest.MonkeyPatch) -> int:
    monkeypatch.setattr(checking, "run_checks", lambda: rows)
    return checks.run(argparse.Namespace(json=as_json))


def test_all_inside_is_0(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    assert answer([INSIDE], False, monkeypatch) == 0
    said = capsys.readouterr().out
    assert "invented table, row 1 (read)" in said
    assert "X1" in said
    assert "2 ± 0.05 kg, ours 2.01" in said
    assert "1 inside their tolerance, 0 outside" in said
    assert "OUTSIDE" not in said


@pytest.mark.parametrize("change", [{"ours": 2.06}, {"ours": None, "why": "RangeError: too deep"}])
def test_one_outside_is_1(
    change: dict[str, Any], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert answer([INSIDE, {**INSIDE, "id": "X2", "ok": False, **change}], False, monkeypatch) == 1
    said = capsys.readouterr().out
    assert "OUTSIDE X2" in said
    assert "Outside: X2" in said
    assert "1 inside their tolerance, 1 outside" in said


def test_nothing_to_check_is_no_success(monkeypatch: pytest.MonkeyPatch) -> None:
    assert answer([], False, monkeypatch) == 1


def test_json_is_the_list(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    assert answer([INSIDE, {**INSIDE, "ok": False}], True, monkeypatch) == 1
    assert json.loads(capsys.readouterr().out) == {"schema": 1, "checks": [INSIDE, {**INSIDE, "ok": False}]}


def test_the_real_list_prints(capsys: pytest.CaptureFixture[str]) -> None:
    rows = checking.run_checks()
    assert checks.run(argparse.Namespace(json=True)) == (0 if all(row["ok"] for row in rows) else 1)
    wanted = {"id", "quantity", "value", "ours", "tolerance", "source", "mark", "ok"}
    assert all(wanted <= row.keys() for row in json.loads(capsys.readouterr().out)["checks"])
