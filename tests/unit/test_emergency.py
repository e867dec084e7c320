"""The emergency block: a position in the wanted form, against published conversions, and the team's own words."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest

from guard.tree import PACKAGE
from parbuckle.brief.emergency_page import emergency_page
from parbuckle.brief.first_page import first_page
from parbuckle.desk.planning import plan
from parbuckle.plan.emergency import place_in, position_as
from parbuckle.quantity.errors import CaseError
from parbuckle.search.positions import read_position

CASES = PACKAGE / "data" / "cases"
QUARRY = "52 28.926 N 003 42.924 W, quarry gate B"
MERIDIAN = (51.0 + 28.0 / 60.0 + 40.37 / 3600.0, -5.29 / 3600.0)  # published: 30U YC 08215 07233
FLINDERS_PEAK = (-(37.0 + 57.0 / 60.0 + 3.72030 / 3600.0), 144.0 + 25.0 / 60.0 + 29.52440 / 3600.0)
"""Published by the Geocentric Datum of Australia Technical Manual: zone 55, 273741.297 m east, 5796489.777 m north."""


def with_position(tmp_path: Path, position: str, style: str = "", name: str = "quarry-outboard") -> dict[str, Any]:
    for file in (f"{name}.toml", "kit.toml"):
        shutil.copy(CASES / file, tmp_path)
    case = tmp_path / f"{name}.toml"
    lines = case.read_text(encoding="utf-8").splitlines()
    where = next(n for n, line in enumerate(lines) if line.startswith("position = "))
    lines[where] = f'position = "{position}"' + (f'\nposition_as = "{style}"' if style else "")
    case.write_text("\n".join(lines), encoding="utf-8")
    return plan(case, draws=16)


@pytest.mark.parametrize(
    ("style", "said"),
    [
        ("degrees", "52.48210 N 3.71540 W"),
        ("degrees-minutes", "52 28.926 N 003 42.924 W"),
        ("degrees-minutes-seconds", "52 28 55.56 N 003 42 55.44 W"),
    ],
)
def test_each_style_of_one_place(style: str, said: str) -> None:
    assert position_as(52.48210, -3.71540, style) == said
    assert read_position(said) == pytest.approx((52.48210, -3.71540), abs=6e-6)


def test_the_grids_are_those_that_are_published() -> None:
    assert position_as(*MERIDIAN, "grid reference") == "30U YC 08215 07233"
    assert position_as(*FLINDERS_PEAK, "utm") == "55 S 273741 5796490"
    assert read_position("30U YC 08215 07233") == pytest.approx(MERIDIAN, abs=2e-5)


@pytest.mark.parametrize("style", ["degrees", "degrees-minutes", "degrees-minutes-seconds", "utm", "grid reference"])
@pytest.mark.parametrize("place", [(52.4821, -3.7154), (-33.85, 151.2), (0.00001, -0.00001), (-0.5, 179.9999)])
def test_what_is_written_is_read_as_the_same_place(style: str, place: tuple[float, float]) -> None:
    assert read_position(position_as(*place, style)) == pytest.approx(place, abs=2e-5)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (QUARRY, "quarry gate B"),
        ("52.48210, -3.71540, gate B, second slip", "gate B, second slip"),
        ("52.48210 -3.71540", ""),
        ("30U VC 51234 12345; gate B", "gate B"),
    ],
)
def test_words_stay_behind_the_place(text: str, words: str) -> None:
    place, found = place_in(text)
    assert place is not None
    assert found == words


def test_a_case_says_how_the_listener_wants_it(tmp_path: Path) -> None:
    as_told = with_position(tmp_path, QUARRY)
    assert as_told["emergency"]["position_written"] == QUARRY
    grid = with_position(tmp_path, QUARRY, "grid reference")
    assert grid["emergency"]["position"] == QUARRY
    written = grid["emergency"]["position_written"]
    assert written.endswith(", quarry gate B")
    assert read_position(written.split(",")[0]) == pytest.approx((52.48210, -3.71540), abs=2e-5)
    page = emergency_page(grid)
    assert page is not None
    assert {"label": "Position to tell", "value": written} in page["calls"]
    assert {"label": "Position", "value": written} in first_page(grid)["emergency"]


def test_a_place_outside_the_grid_is_refused_by_its_key(tmp_path: Path) -> None:
    with pytest.raises(CaseError) as caught:
        with_position(tmp_path, "88.5 10.0", "utm")
    assert caught.value.key == "emergency.position_as"


def test_a_position_far_from_the_map_is_told(tmp_path: Path) -> None:
    def found(position: str) -> dict[str, str]:
        rows = with_position(tmp_path, position)["findings"]
        return {row["code"]: row["text"].replace("\u202f", " ") for row in rows if row["code"].startswith("position_")}

    assert found(QUARRY) == {}
    assert "19,000 m" in found("52 38.926 N 003 42.924 W")["position_apart"]  # ten minutes of latitude: 18.5 km
    assert list(found("quarry gate B")) == ["position_in_words"]
    assert found("unknown") == {}


def test_a_dive_plan_asks_for_the_teams_own_words() -> None:
    missing = [
        row for row in plan(CASES / "tidal-frame.toml", draws=16)["findings"] if row["code"] == "emergency_words"
    ]
    assert len(missing) == 1
    assert "a diver is held" in missing[0]["text"]
    filled = plan(CASES / "mooring-block.toml", draws=16)
    assert not [row for row in filled["findings"] if row["code"] == "emergency_words"]
    page = emergency_page(filled)
    assert page is not None
    assert all(card["told"] for card in page["cards"])
    first = plan(CASES / "first-answer.toml", draws=16)
    assert not [row for row in first["findings"] if row["code"] == "emergency_words"]


def test_the_plans_own_card_stands_in_for_a_runaway_lift() -> None:
    (row,) = [r for r in plan(CASES / "quarry-outboard.toml", draws=16)["findings"] if r["code"] == "emergency_words"]
    assert "runs away" not in row["text"]
