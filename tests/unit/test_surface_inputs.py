"""The words that say how it goes on, and the surface part of the shipped cases."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

import numpy as np
import pytest

from parbuckle.case.model import Case
from parbuckle.case.read import read_case
from parbuckle.desk.planning import plan
from parbuckle.plan.asking import Asking
from parbuckle.plan.surface_inputs import onward, surface_problem
from parbuckle.quantity.draws import Ensemble

ONE = np.ones(4)


@pytest.mark.parametrize(
    ("words", "limit"),
    [
        ("hauled alongside and lifted by the davit, limit 150 kg", 150.0),
        ("crane, limit: 0.5 t", 500.0),
        ("limited to 300 lb by the davit", 136.077711),
        ("davit, at most 1.5 kN", 1500 / 9.80665),
        ("davit, up to 100..150 kg", 100.0),
        ("davit, max 150 kg, then ashore", 150.0),
        ("the 150 kg davit", None),
        ("davit, limit 1,500 kg", None),
        ("davit, limit 150", None),
        ("davit, limit 150 kgs", None),
        ("speed limit 4 kn", None),
        ("", None),
        (None, None),
    ],
)
def test_a_limit_is_read_only_where_it_is_called_one(words: str | None, limit: float | None) -> None:
    found = onward(words).limit
    assert found == (None if limit is None else pytest.approx(limit))


@pytest.mark.parametrize(
    ("words", "out", "hauled", "towed"),
    [
        ("hauled alongside and lifted by the davit, limit 150 kg", True, True, False),
        ("towed to the beach", False, False, True),
        ("swum to the slip", False, False, True),
        ("hauled up the slip by four people", False, True, False),
        ("Crane on the quay", True, False, False),
        ("left on a mooring", False, False, False),
        ("towing to the slip, pulling it out by hand", False, True, True),
        ("to the town quay", False, False, False),
    ],
)
def test_the_way_on_is_read_from_the_words(words: str, out: bool, hauled: bool, towed: bool) -> None:
    way = onward(words)
    assert (way.lifted_out, way.hauled, way.towed) == (out, hauled, towed)


def case(name: str) -> Case:
    return read_case(Path(str(files("parbuckle.data").joinpath("cases", f"{name}.toml")))).case


def translated(told: Case, **more: object) -> tuple[object, Asking]:
    asking = Asking(Ensemble(n=4))
    given = {"capacity": 60 * ONE, "required": 40 * ONE, "leaving": 70 * ONE, "reserve_wanted": 0.2, "clearance": 1.0}
    return surface_problem(told, asking, water_density=1025 * ONE, **(given | more)), asking  # type: ignore[arg-type]


def test_the_quarry_has_a_davit_and_no_tow() -> None:
    problem, asking = translated(case("quarry-outboard"))
    assert problem.limit == pytest.approx(150.0)  # type: ignore[attr-defined]
    assert problem.tow_speed is None  # type: ignore[attr-defined]
    assert asking.unanswered == []


def test_the_frame_is_towed_over_a_charted_way() -> None:
    told = case("tidal-frame")
    problem, asking = translated(told)
    assert [point[0] for point in problem.profile] == [0.0, 200.0, 420.0]  # type: ignore[attr-defined]
    assert problem.tide == 0.0  # type: ignore[attr-defined]
    assert [row["key"] for row in asking.unanswered] == ["site.tide"]
    known, quiet = translated(told, tide=np.array([1.0, 2.0, 3.0, 4.0]))
    assert known.tide == 1.0  # type: ignore[attr-defined]
    assert quiet.unanswered == []


def test_a_davit_without_a_limit_is_asked_for() -> None:
    told = case("quarry-outboard")
    bare = told.model_copy(update={"surface": told.surface.model_copy(update={"then": "lifted by the davit"})})
    _, asking = translated(bare)
    assert [row["key"] for row in asking.unanswered] == ["surface.then"]


def test_a_tow_without_a_hang_is_asked_for() -> None:
    told = case("training-drum")
    _, asking = translated(told)
    assert [row["key"] for row in asking.unanswered] == ["surface.hang"]
    _, quiet = translated(told, hang=2.0 * ONE)
    assert quiet.unanswered == []


def test_a_line_that_takes_it_out_feels_the_weight_out_of_the_water(tmp_path: Path) -> None:
    """The comparison of the ways up counts the leaving weight where the same line hauls the load out."""
    cases = Path(str(files("parbuckle.data"))) / "cases"
    (tmp_path / "kit.toml").write_text((cases / "kit.toml").read_text(encoding="utf-8"), encoding="utf-8")
    text = (
        (cases / "quarry-outboard.toml").read_text(encoding="utf-8").replace('bottom = "soft mud"', 'bottom = "rock"')
    )
    old = "hauled alongside and lifted by the davit, limit 150 kg"
    assert old in text
    told = {}
    for then in (old, "hauled out on the line by hand"):
        (tmp_path / "case.toml").write_text(text.replace(old, then), encoding="utf-8")
        told[then] = next(
            m["why"] for m in plan(tmp_path / "case.toml", 64)["lift"]["methods"] if m["method"] == "hauled"
        )
    felt = [int(why.split("up to ")[1].split(" kg")[0]) for why in told.values()]
    assert felt[1] > 1.5 * felt[0]
