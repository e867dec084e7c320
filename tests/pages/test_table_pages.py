"""The table of bags and the pool-test sheet: pages, and that each number is the one that the lift stage finds."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from parbuckle.case.kit import Kit
from parbuckle.case.read import read_kit
from parbuckle.desk.tabling import write_pool_sheet, write_table
from parbuckle.duties.house import load_house
from parbuckle.lift.choose import choose
from parbuckle.lift.stage import solve
from parbuckle.plan.bag_table import DEPTHS, bag_table
from parbuckle.plan.table_problem import table_problem, with_load

WHEN = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)
HOUSE = load_house({})


@pytest.fixture(scope="module")
def kit_file(root: Path) -> Path:
    return root / "src" / "parbuckle" / "data" / "cases" / "kit.toml"


@pytest.fixture(scope="module")
def kit(kit_file: Path) -> Kit:
    return read_kit(kit_file)


@pytest.fixture(scope="module")
def table(kit: Kit) -> dict[str, Any]:
    return bag_table(kit, HOUSE, "0", WHEN)


def cells(table: dict[str, Any]) -> list[tuple[str, float, dict[str, Any]]]:
    return [(w["name"], r["load_kg"], c) for w in table["waters"] for r in w["rows"] for c in r["cells"]]


def test_every_cell_has_an_answer_or_says_why_not(table: dict[str, Any]) -> None:
    rows = cells(table)
    assert len(rows) == 2 * len(DEPTHS) * len(table["waters"][0]["rows"])
    assert any(not c["bags"] for _, _, c in rows)
    for water, load, cell in rows:
        if not cell["bags"]:
            assert cell["note"].startswith("none passes: ")
            assert cell["bar"] is None
            continue
        assert [b["fill"] for b in cell["bags"]] == ["full"] * (len(cell["bags"]) - 1) + ["part"]
        gas = sum(b["litres"] for b in cell["bags"])
        lift = gas * {"Sea water": 1.026, "Fresh water": 0.999}[water]
        assert 0.95 * load < lift < 1.05 * load + 2.0 + 8.0 + 2.0
        assert cell["bar"] is not None or "more gas than" in cell["note"]


@pytest.mark.parametrize(("water", "column", "load"), [("sea", 2, 40.0), ("fresh", 4, 70.0), ("sea", 0, 20.0)])
def test_a_cell_is_what_the_lift_stage_finds(
    kit: Kit, table: dict[str, Any], water: str, column: int, load: float
) -> None:
    name = {"sea": "Sea water", "fresh": "Fresh water"}[water]
    cell = next(c for w, m, c in cells(table) if (w, m, c["depth_m"]) == (name, load, DEPTHS[column]))
    one = table_problem(kit, HOUSE, water, DEPTHS[column], WHEN)
    problem = with_load(one, one.wet * load)
    result = solve(problem, choose(problem))
    steps = [s for s in result.filling if s.fill != "empty"]
    assert [b["id"] for b in cell["bags"]] == [s.bag for s in steps]
    assert cell["bags"][-1]["litres"] == np.floor(steps[-1].mark * 1000.0)
    assert cell["bags"][0]["seconds"] == pytest.approx(steps[0].seconds, abs=1.0)
    empty = [s.bag for s in result.filling if s.fill == "empty"]
    assert all(bag in cell["note"] for bag in empty)


def test_deeper_takes_more_gas_and_time(table: dict[str, Any]) -> None:
    rows = [r for w in table["waters"] for r in w["rows"]]
    for row in rows:
        for before, after in zip(row["cells"], row["cells"][1:], strict=False):
            if before["bags"] and [b["id"] for b in before["bags"]] == [b["id"] for b in after["bags"]]:
                assert before["bar"] < (after["bar"] or 1e9)
                assert before["bags"][0]["seconds"] < after["bags"][0]["seconds"]


def test_a_bag_past_its_date_is_left_out(kit: Kit) -> None:
    later = bag_table(kit, HOUSE, "0", datetime(2027, 3, 1, tzinfo=UTC))
    assert "P100-2" not in [b["id"] for b in later["bags"]]
    assert any("past the due date: P100-2" in text for text in later["assumptions"])
    assert all(b["id"] != "P100-2" for _, _, c in cells(later) for b in c["bags"])


def test_without_a_lifting_cylinder_nothing_of_gas_is_said(kit: Kit) -> None:
    bare = kit.model_copy(update={"cylinder": ()})
    told = bag_table(bare, HOUSE, "0", WHEN)
    assert told["cylinder"] is None
    assert all(c["bar"] is None and all(b["seconds"] is None for b in c["bags"]) for _, _, c in cells(told))


def test_the_table_is_two_pages_and_says_what_it_takes(kit_file: Path, tmp_path: Path, pdf: Callable[..., Any]) -> None:
    out = tmp_path / "table.pdf"
    write_table(kit_file, out, WHEN)
    pages = pdf(out.read_bytes()).pages()
    assert len(pages) == 2
    for page, water in zip(pages, ("Sea water", "Fresh water"), strict=True):
        assert water in page
        for words in ("5 % either way", "break-out is not in the table", "none passes", "P50", "−6bar"):
            assert words.replace(" ", "") in "".join(page.split()).replace("\u200a", ""), words
    assert pdf(out.read_bytes()).info("Page size").endswith("(A4)")
    first = out.read_bytes()
    write_table(kit_file, out, WHEN)
    assert out.read_bytes() == first


def test_the_pool_sheet_names_what_is_measured(kit_file: Path, tmp_path: Path, pdf: Callable[..., Any]) -> None:
    out = tmp_path / "sheet.pdf"
    write_pool_sheet(kit_file, out, WHEN)
    pages = pdf(out.read_bytes()).pages()
    text = "".join(" ".join(pages).split())
    for words in ("C25", "P100-2", "L7", "L12", "Ines", "Tomas", "was26l", "Sampleobject"):
        assert words in text, words
    assert "B15-1" not in text
    assert len(pages) == 2
