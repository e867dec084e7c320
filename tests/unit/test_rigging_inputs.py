"""The rigging of the shipped cases, translated and solved."""

from __future__ import annotations

import math
from importlib.resources import files
from pathlib import Path

import numpy as np
import pytest

from parbuckle.case.read import read_case
from parbuckle.lift.problem import Bag
from parbuckle.lift.rigging import rigging
from parbuckle.lift.rigging_problem import RiggingProblem
from parbuckle.physics.constants import G
from parbuckle.plan.rigging_inputs import rigging_problem, strop_height

ONE = np.ones(3)
HOUSE = {"sling_angle": math.radians(60.0), "sling_angle_least": math.radians(30.0)}


def bag(name: str, litres: float, attachment: float) -> Bag:
    return Bag(name, "closed", litres / 1e3, litres / 1e3 * ONE, 0.2 * ONE, 1.0 * ONE, 0.7, attachment * G)


def translated(name: str, *bags: Bag, **more: object) -> tuple[RiggingProblem, float]:
    loaded = read_case(Path(str(files("parbuckle.data").joinpath("cases", f"{name}.toml"))))
    assert loaded.kit is not None
    problem = rigging_problem(
        loaded.case, loaded.kit, HOUSE, bags=bags, lift_density=1000 * ONE, wet=37 * ONE, leaving=70 * ONE, **more  # type: ignore[arg-type]
    )  # fmt: skip
    return problem, strop_height(loaded.case, loaded.kit)


def test_the_quarry_rigging_holds() -> None:
    problem, strop = translated("quarry-outboard", bag("C25", 26.0, 120.0), bag("C15", 15.4, 80.0))
    result = rigging(problem)
    assert [row.item for row in result.rows] == ["K1", "W1", "C25", "C15", "HAUL"]
    assert all(row.ok for row in result.rows)
    assert result.hints == ()
    assert strop == 1.0
    assert problem.peak[0] == pytest.approx((26.0 - 0.2 + 15.4 - 0.2) * G)


def test_the_davit_puts_the_leaving_weight_on_the_rigging_but_not_on_the_line() -> None:
    problem, _ = translated("quarry-outboard", bag("C25", 26.0, 120.0))
    rows = {row.item: row for row in rigging(problem).rows}
    assert rows["K1"].load_n == pytest.approx(2.0 * 70 * G)
    assert rows["HAUL"].load_n == pytest.approx(37 * G)
    calm, _ = translated("quarry-outboard", bag("C25", 26.0, 120.0), sea="calm")
    assert rigging(calm).rows[0].load_n == pytest.approx(1.3 * 70 * G)


def test_the_frame_hangs_on_two_legs_and_its_lines_are_counted() -> None:
    problem, strop = translated("tidal-frame", bag("P100-1", 100.0, 400.0), restraint=600.0 * ONE)
    rows = {row.item: row for row in rigging(problem).rows}
    assert set(rows) == {"S1", "R2", "P100-1", "HAUL", "HOLD", "CROWN"}
    angle = rows["R2"].angle
    assert angle is not None
    assert math.degrees(angle) == pytest.approx(68.49, abs=0.01)
    assert strop == pytest.approx(math.sqrt(1.5**2 - 0.55**2))
    assert rows["HOLD"].load_n == 600.0
    assert rows["CROWN"].load_n == pytest.approx(99.8 * G)
    assert rows["CROWN"].ok is False
    assert rows["S1"].load_n == pytest.approx(99.8 * G)


def test_the_drum_hangs_in_a_basket() -> None:
    problem, strop = translated("training-drum", bag("C25", 26.0, 120.0))
    rows = {row.item: row for row in rigging(problem).rows}
    assert rows["W1"].load_n == pytest.approx(25.8 * G / 2 / math.sin(math.acos(0.15 / 0.85)))
    assert strop == pytest.approx(math.sqrt(0.85**2 - 0.15**2))
