"""Rules of one's own beside those of the law: limits, roles, records and notices, each with source and date."""

from __future__ import annotations

import shutil
import tomllib
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from guard.tree import PACKAGE
from parbuckle.case.regime import Limits
from parbuckle.desk.planning import plan
from parbuckle.duties.records import notices_for, records_for
from parbuckle.duties.regimes import limits_for
from parbuckle.quantity.errors import CaseError

CASES = PACKAGE / "data" / "cases"
HEAD = 'by = "the harbour"\nsource = "permit 14"\ndate = 2027-04-01\n'
LINE = "the harbour: permit 14, 2027-04-01"


def planned(tmp_path: Path, rows: str, kit: str = "", name: str = "tidal-frame") -> dict[str, Any]:
    """A shipped case with tables behind it, and with some behind its kit."""
    shutil.copy(CASES / f"{name}.toml", tmp_path)
    shutil.copy(CASES / "kit.toml", tmp_path)
    for file, text in ((f"{name}.toml", rows), ("kit.toml", kit)):
        with (tmp_path / file).open("a", encoding="utf-8") as out:
            out.write("\n" + text)
    return plan(tmp_path / f"{name}.toml", draws=16)


def codes(document: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {row["code"]: row for row in document["findings"]}


def test_a_limit_of_ones_own_holds_with_its_own_source(tmp_path: Path) -> None:
    document = planned(tmp_path, f'[[regime]]\n{HEAD}[regime.limits]\nscuba_depth = "18 m"\nteam = 9\n')
    found = codes(document)
    assert found["regime_depth"]["source"] == LINE
    assert found["own_team"]["override"] == "reason"
    assert "scuba_depth = 18 m, team = 9" in found["own_limits"]["text"]
    limits = {row["key"]: row for row in document["regime"]["limits"]}
    assert limits["scuba_depth"] == {
        "key": "scuba_depth",
        "value": "18 m",
        "meaning": "Depth below which scuba is not used.",
        "instead_of": None,
        "mark": "own",
        "source": "permit 14",
        "date": "2027-04-01",
        "by": "the harbour",
    }
    assert limits["wreck_report"]["by"] is None
    assert limits["wreck_report"]["date"] == "2026-11-25"


def test_without_rules_of_ones_own_nothing_is_said(tmp_path: Path) -> None:
    assert not {code for code in codes(planned(tmp_path, "")) if code.startswith("own_")}


def test_the_case_stands_before_the_kit_and_the_last_row_before_the_first(tmp_path: Path) -> None:
    first = f'[[regime]]\n{HEAD}limits = {{ deepest = "10 m" }}\n'
    second = f'[[regime]]\n{HEAD}limits = {{ deepest = "40 m" }}\n'
    assert "own_depth" in codes(planned(tmp_path, "", kit=first))
    assert "own_depth" not in codes(planned(tmp_path, second, kit=first))
    assert "own_depth" not in codes(planned(tmp_path, "", kit=first + second))
    assert "own_depth" in codes(planned(tmp_path, "", kit=second + first))


def test_a_looser_limit_is_told(tmp_path: Path) -> None:
    found = codes(planned(tmp_path, f'[[regime]]\n{HEAD}limits = {{ wreck_report = "60 d" }}\n'))
    assert found["own_looser"]["level"] == "caution"
    assert "28" in found["own_looser"]["text"]


def test_roles_records_and_notices_of_ones_own(tmp_path: Path) -> None:
    rows = (
        f'[[regime]]\n{HEAD}roles = ["timekeeper"]\nrecords = ["harbour form 3"]\n'
        'notices = [{ what = "The lift", to = "harbour control", within = "2 h", counts = "before the lift" },'
        ' { what = "A buoy that is adrift" }]\n'
    )
    document = planned(tmp_path, rows)
    assert codes(document)["own_role"]["source"] == LINE
    regime = document["regime"]
    assert regime["roles"] == [{"role": "timekeeper", "source": LINE}]
    assert regime["records"][-1]["what"] == "harbour form 3"
    before, adrift = regime["notices"][-2:]
    start = datetime.fromisoformat(document["dives"][1]["start"])
    assert datetime.fromisoformat(before["due"]) == start - timedelta(hours=2)
    assert (adrift["within"], adrift["due"]) == ("at once", None)


def test_the_clock_of_the_law_runs_from_the_lift(tmp_path: Path) -> None:
    document = planned(tmp_path, "")
    wreck = document["regime"]["notices"][0]
    start = datetime.fromisoformat(document["dives"][1]["start"])
    assert (wreck["to"], wreck["within"]) == ("the receiver of wreck", "28 d")
    assert datetime.fromisoformat(wreck["due"]) == start + timedelta(days=28)
    assert not [
        row for row in planned(tmp_path, "", name="quarry-outboard")["regime"]["notices"] if "wreck" in row["to"]
    ]


def test_the_ratio_of_ones_own_counts_where_it_is_stricter(tmp_path: Path) -> None:
    strict = planned(tmp_path, f"[[regime]]\n{HEAD}limits = {{ ratio = 1 }}\n", name="training-drum")
    assert "ratio_not_set" not in codes(strict)
    assert "ratio_over" in codes(strict)


@pytest.mark.parametrize(
    ("row", "key", "what"),
    [
        ('limits = { scuba_dept = "18 m" }', "limits.scuba_dept", "scuba_depth"),
        ('limits = { deepest = "18 kg" }', "limits.deepest", ""),
        ("limits = { deepest = 18 }", "limits.deepest", "unit"),
        ("limits = { team = true }", "limits.team", ""),
        ('roles = ["captain"]', "roles[1]", ""),
        ('notices = [{ what = "x", within = "0 h" }]', "within", ""),
    ],
)
def test_a_wrong_rule_is_said_by_its_key(row: str, key: str, what: str, tmp_path: Path) -> None:
    with pytest.raises(CaseError) as caught:
        planned(tmp_path, f"[[regime]]\n{HEAD}{row}\n")
    assert key in caught.value.key
    assert what in str(caught.value)


@pytest.mark.parametrize("missing", ["by", "source", "date"])
def test_who_where_and_when_are_needed(missing: str, tmp_path: Path) -> None:
    head = "\n".join(line for line in HEAD.splitlines() if not line.startswith(missing))
    with pytest.raises(CaseError) as caught:
        planned(tmp_path, f"[[regime]]\n{head}\n")
    assert caught.value.key.endswith(missing)


def test_every_row_of_records_is_reached_and_sourced() -> None:
    everywhere = [
        ("GB", "commercial"),
        ("US", "commercial"),
        ("US", "public-safety"),
        ("AU", "teaching"),
        ("ZA", "commercial"),
    ]
    everywhere += [("CA", "commercial"), ("", "scientific"), ("", "teaching")]
    records = {row for where in everywhere for row in records_for(*where)}
    notices = {n for where in everywhere for n in notices_for(*where, "recovery", True, limits_for(*where))}
    assert len({row.what for row in records}) == 10
    assert len({row.what for row in notices}) == 7
    assert all(row.source for row in records) and all(row.source for row in notices)
    assert {row.mark for row in records} | {row.mark for row in notices} == {"read", "common practice"}
    clocks = {row.to: row.time for row in notices}
    assert clocks["the receiver of wreck"] == 28 * 86400.0
    assert clocks["the insurer"] is None


def test_keys_and_kinds_of_ones_own_are_those_of_the_data() -> None:
    rows = tomllib.loads((PACKAGE / "data" / "regimes.toml").read_text(encoding="utf-8"))
    assert list(Limits.model_fields) == list(rows)
    for key, info in Limits.model_fields.items():
        kinds = [getattr(mark, "kind", "number") for mark in info.metadata] or ["number"]
        assert kinds[0] == rows[key]["kind"], key
