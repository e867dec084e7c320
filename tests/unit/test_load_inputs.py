"""From a case to the load's problem: shipped cases, defaults, paths, refusals."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import trimesh

from parbuckle.case.kit import Kit
from parbuckle.case.model import Case
from parbuckle.load.problem import LoadProblem
from parbuckle.load.weigh import weigh
from parbuckle.plan.load_inputs import load_problem
from parbuckle.quantity.band import band
from parbuckle.quantity.draws import Ensemble
from parbuckle.quantity.errors import CaseError
from sample_loads import N, asked, full

STEEL = {"name": "weight", "mass": "50 kg", "material": "steel"}


def shipped(name: str, root: Path) -> Case:
    text = (root / "src/parbuckle/data/cases" / f"{name}.toml").read_text(encoding="utf-8")
    return Case.model_validate(tomllib.loads(text))


def of(thing: dict[str, Any], **more: Any) -> LoadProblem:
    made, unanswered, _ = asked(thing, **more)
    assert unanswered == []
    assert made is not None
    return made


def weighed(thing: dict[str, Any], **more: Any) -> tuple[float, float, float]:
    found = band(weigh(of(thing, **more)).wet_weight)
    assert found is not None
    return found.low, found.likely, found.high


def test_the_outboard_of_the_quarry_weighs_about_37_kg_in_water(root: Path) -> None:
    made, unanswered, assumed = load_problem(
        shipped("quarry-outboard", root), Ensemble(1024), full(999.85, 1024), full(2.55e5, 1024)
    )
    assert made is not None
    found = band(weigh(made).wet_weight)
    assert found is not None
    assert found.likely == pytest.approx(37.0, abs=0.5)
    assert found.low == pytest.approx(34.0, abs=1.0)
    assert found.high == pytest.approx(40.0, abs=1.0)
    assert unanswered == []
    assert assumed == []


def test_the_drum_of_the_exercise_holds_what_is_in_it(root: Path) -> None:
    made, _, _ = load_problem(shipped("training-drum", root), Ensemble(1024), full(1024.8, 1024), full(1.9e5, 1024))
    assert made is not None
    got = weigh(made)
    found = band(got.wet_weight)
    assert found is not None
    truth = 27.6 - 1.0248 * 12.2
    assert found.low < truth < found.high
    assert got.agree
    assert len(got.estimates) == 2


def test_half_the_gas_of_the_frame_is_found(root: Path) -> None:
    made, _, _ = load_problem(shipped("tidal-frame", root), Ensemble(1024), full(1026.9, 1024), full(3.4e5, 1024))
    assert made is not None
    assert np.allclose(made.gas_in_cavities + made.flooded_cavity, made.cavity_volume)
    assert float(np.median(made.gas_in_cavities)) == pytest.approx(0.003, abs=2e-4)


def test_the_first_answer_needs_a_name_and_a_size_only(root: Path) -> None:
    made, unanswered, assumed = load_problem(shipped("first-answer", root), Ensemble(256), full(1026.0), full(1.9e5))
    assert made is not None
    found = band(weigh(made).wet_weight)
    assert found is not None
    assert found.likely == pytest.approx(15.0 * (1.0 - 1026.0 / 7850.0), rel=0.01)
    assert unanswered == []
    assert any("bottom not told" in sentence for sentence in assumed)
    assert any("area on the bottom" in sentence for sentence in assumed)


def test_nothing_told_is_unanswered_not_guessed() -> None:
    made, unanswered, _ = asked({"name": "something"})
    assert made is None
    assert [row["key"] for row in unanswered] == ["object"]
    assert unanswered[0]["stage"] == "load"


def test_a_part_that_cannot_be_weighed_leaves_the_list_out() -> None:
    made, unanswered, _ = asked({"part": [STEEL, {"name": "rest", "material": "steel"}]})
    assert made is None
    assert unanswered[0]["key"] == "object.part[2].mass"
    made, _, _ = asked({"known_as": "anchor, 15 kg", "part": [{"name": "rest"}]})
    assert made is not None
    assert [e.method for e in made.estimates] == ["known"]


def test_exact_parts_by_each_pair_of_numbers() -> None:
    _, by_volume, _ = weighed({"part": [{"name": "a", "mass": "50 kg", "volume": "20 l"}]}, water=1030.0)
    assert by_volume == pytest.approx(29.4)
    low, likely, high = weighed({"part": [{"name": "a", "volume": "10 l", "material": "lead"}]})
    assert low < likely < high
    assert likely == pytest.approx(10.0 * (11.2 - 1.0), rel=0.02)


def test_two_parts_of_one_material_share_its_density() -> None:
    two = of({"part": [STEEL, STEEL | {"name": "other"}]})
    one = of({"part": [STEEL | {"mass": "100 kg"}]})
    assert np.allclose(two.estimates[0].displaced, one.estimates[0].displaced)


def test_two_parts_of_unknown_material_share_nothing_and_are_noted() -> None:
    made, _, assumed = asked({"part": [{"name": "a", "mass": "5 kg"}, {"name": "b", "mass": "5 kg"}]})
    assert made is not None
    doubled = of({"part": [{"name": "a", "mass": "10 kg"}]}).estimates[0].displaced
    assert np.std(made.estimates[0].displaced) < 0.9 * np.std(doubled)
    assert sum("material not told" in sentence for sentence in assumed) == 2  # one for each


def test_a_material_that_is_not_needed_is_told() -> None:
    _, _, assumed = asked({"part": [STEEL | {"volume": "10 l"}]})
    assert any("not needed" in sentence for sentence in assumed)


def test_an_exact_number_that_was_told_stays_exact_and_is_noted() -> None:
    made, _, assumed = asked({"part": [{"name": "a", "mass": "50 kg", "volume": "20 l", "how": "told"}]})
    assert made is not None
    assert float(np.ptp(made.estimates[0].wet)) == 0.0
    assert any("taken as exact" in sentence for sentence in assumed)


@pytest.mark.parametrize(
    ("thing", "key", "hint"),
    [
        ({"part": [STEEL | {"material": "stel"}]}, "object.part[1].material", "steel"),
        ({"part": [STEEL, STEEL | {"name": "b", "material": "irn"}]}, "object.part[2].material", "iron"),
        ({"known_as": "anchr, 15 kg"}, "object.known_as", "anchor"),
        ({"known_as": "anchor, 15"}, "object.known_as", "kg"),
        ({"measured": [{"by": "A", "shape": "mesh", "file": "none.stl"}]}, "object.measured[1].file", "none.stl"),
        ({"measured": [{"by": "A", "shape": "mesh", "file": "../x.stl"}]}, "object.measured[1].file", "outside"),
        (
            {
                "measured": [
                    {"by": "A", "shape": "tube", "diameter": "0.2 m", "inner_diameter": "0.2 m", "length": "1 m"}
                ]
            },
            "object.measured[1]",
            "smaller",
        ),
    ],
)
def test_what_cannot_be_is_refused_by_its_key(thing: dict[str, Any], key: str, hint: str) -> None:
    with pytest.raises(CaseError) as caught:
        asked(thing)
    assert caught.value.key == key
    assert hint in str(caught.value)


def test_a_shape_without_a_dimension_is_unanswered() -> None:
    made, unanswered, _ = asked({"measured": [{"by": "A", "shape": "box", "length": "1 m", "width": "1 m"}]})
    assert made is None
    assert unanswered[0]["key"] == "object.measured[1].height"


BOX = {"by": "A", "shape": "box", "length": "0.5 m", "width": "0.2 m", "height": "0.1 m", "material": "concrete"}


def test_a_shape_with_its_solid_share_or_volume_or_mass() -> None:
    solid = of({"measured": [BOX | {"solid": "50 %"}]}).estimates[0]
    assert np.allclose(solid.displaced, 0.005)
    assert np.allclose(solid.envelope, 0.010)
    by_volume = of({"measured": [BOX | {"volume": "5 l"}]}).estimates[0]
    assert np.allclose(by_volume.displaced, 0.005)
    by_mass = of({"measured": [BOX | {"mass": "12 kg"}]}).estimates[0]
    assert np.allclose(by_mass.mass, 12.0)
    assert np.allclose(by_mass.displaced, 0.005, rtol=0.05)
    both = of({"measured": [BOX | {"mass": "12 kg", "solid": "60 %"}]}).estimates[0]
    assert np.allclose(both.displaced, 0.006)


def test_a_solid_share_nobody_told_is_wide_and_noted() -> None:
    made, _, assumed = asked({"measured": [BOX]})
    assert made is not None
    assert float(np.ptp(made.estimates[0].displaced)) > 0.008
    assert any("is solid" in sentence for sentence in assumed)


def test_hands_and_arms_are_those_of_the_one_who_measured() -> None:
    box = BOX | {"length": "2 hand", "solid": "100 %"}
    people = {"trainee": [{"name": "A", "spans": {"hand": "0.25 m"}}, {"name": "B", "spans": {"hand": "0.20 m"}}]}
    assert np.allclose(of({"measured": [box]}, case=people).estimates[0].displaced, 0.010)
    made, unanswered, _ = asked({"measured": [box | {"by": "C"}]}, case=people)
    assert made is None
    assert unanswered[0]["key"] == "person.C.spans.hand"


def test_two_measurements_by_one_person_are_two_inputs_in_any_order() -> None:
    a, b = BOX | {"length": "0.5 ± 0.1 m"}, BOX | {"length": "0.6 ± 0.1 m"}
    first, second = of({"measured": [a, b]}), of({"measured": [b, a]})
    assert weigh(first).digest() == weigh(second).digest()
    lengths = [e.envelope / 0.02 for e in first.estimates]
    assert abs(float(np.corrcoef(lengths)[0, 1])) < 0.2


def test_a_mesh_file_beside_the_case(tmp_path: Path) -> None:
    (tmp_path / "box.stl").write_bytes(trimesh.exchange.stl.export_stl(trimesh.creation.box((500, 200, 100))))
    row = {"by": "A", "shape": "mesh", "file": "box.stl", "scale": "1 mm", "solid": "100 %", "material": "concrete"}
    assert np.allclose(of({"measured": [row]}, folder=tmp_path).estimates[0].displaced, 0.010)
    made, _, assumed = asked({"measured": [{**row, "scale": "unknown"}]}, folder=tmp_path)
    assert made is not None
    assert any("unit of the mesh" in sentence for sentence in assumed)


def test_spaces_give_gas_and_water_and_the_gas_lifts() -> None:
    thing = {"part": [STEEL], "cavity": [{"name": "tank", "volume": "10 l", "flooded": "40 %"}]}
    made = of(thing)
    assert np.allclose(made.gas_in_cavities, 0.006)
    assert np.allclose(made.flooded_cavity, 0.004)
    assert np.allclose(of({"part": [STEEL]}).estimates[0].wet - made.estimates[0].wet, 6.0)


def test_an_unknown_flooding_is_anything_and_noted() -> None:
    made, _, assumed = asked({"part": [STEEL], "cavity": [{"name": "tank", "volume": "10 l", "flooded": "unknown"}]})
    assert made is not None
    assert float(np.ptp(made.gas_in_cavities)) > 0.0098
    assert any("flooded share" in sentence for sentence in assumed)


def test_a_balance_joins_the_parts() -> None:
    parts = {"part": [STEEL | {"mass": "50 ± 10 kg"}]}
    low, _, high = weighed(parts)
    both = weighed(parts | {"balance": [{"by": "A", "weight": "42 ± 2 kg in water"}]})
    assert both[2] - both[0] < 0.35 * (high - low)
    assert both[1] == pytest.approx(42.0, abs=0.3)


def test_a_trial_lift_takes_off_bag_and_bottom(root: Path) -> None:
    kit = Kit.model_validate(tomllib.loads((root / "src/parbuckle/data/cases/kit.toml").read_text(encoding="utf-8")))
    trial = {"trial": [{"by": "A", "gas": "40 l", "bag": "C25"}]}
    _, free, _ = weighed(trial, kit=kit)
    assert free == pytest.approx(40.0 * (1.0 - 0.0032) - 0.2, abs=0.02)
    low, _, high = weighed(trial, kit=kit, site={"bottom": "soft mud"})
    assert low < 24.0
    assert high < free
    _, _, assumed = asked({"trial": [{"by": "A", "gas": "40 l"}]})
    assert any("trial bag" in sentence for sentence in assumed)


def test_a_trial_with_less_gas_than_its_bag_weighs_is_refused(root: Path) -> None:
    kit = Kit.model_validate(tomllib.loads((root / "src/parbuckle/data/cases/kit.toml").read_text(encoding="utf-8")))
    with pytest.raises(CaseError) as caught:
        asked({"trial": [{"by": "A", "gas": "0.1 l", "bag": "C25"}]}, kit=kit)
    assert caught.value.key == "object.trial"


def test_readings_without_a_number_are_unanswered() -> None:
    _, unanswered, _ = asked({"known_as": "anchor", "balance": [{"by": "A"}], "trial": [{"by": "B"}]})
    assert [row["key"] for row in unanswered] == ["object.balance[1].weight", "object.trial[1].gas"]


def test_days_follow_from_the_dates_when_nobody_told() -> None:
    dates = {
        "case": {"lost": tomllib.loads("t = 2027-04-10T12:00:00+01:00")["t"]},
        "dive": [{"does": "lift", "start": tomllib.loads("t = 2027-04-14T12:00:00+01:00")["t"]}],
    }
    assert np.allclose(of({"part": [STEEL]}, case=dates).days, 4.0)
    assert np.allclose(of({"part": [STEEL], "bed": {"days": 9}}, case=dates).days, 9.0)
    assert float(np.ptp(of({"part": [STEEL]}).days)) > 300.0


def test_a_bottom_nobody_knows_holds_most_and_is_noted() -> None:
    for site in ({}, {"bottom": "unknown"}, {"bottom": "plasticine"}):
        made, _, assumed = asked({"part": [STEEL]}, site=site)
        assert made is not None
        assert made.bottom.kind == "unknown"
        assert any("taken as soft mud" in sentence for sentence in assumed)


def test_one_draw_uses_the_weights_of_many() -> None:
    thing = {"part": [STEEL | {"mass": "50 ± 10 kg"}], "balance": [{"by": "A", "weight": "42 ± 2 kg in water"}]}
    one, many = weigh(of(thing, n=1)), weigh(of(thing, n=512))
    assert one.weights == many.weights
    assert one.agree == many.agree


def test_a_new_part_moves_no_other_draw() -> None:
    alone = of({"part": [STEEL | {"mass": "50 ± 10 kg"}]})
    more = of({"part": [{"name": "extra", "mass": "1 kg", "volume": "1 l"}, STEEL | {"mass": "50 ± 10 kg"}]})
    assert np.allclose(more.estimates[0].mass - alone.estimates[0].mass, 1.0)
    assert alone.estimates[0].mass.shape == (N,)
