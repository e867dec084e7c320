"""Materials, bottoms and known objects: found by their names, refused with a hint."""

from __future__ import annotations

import numpy as np
import pytest

from parbuckle.load.bottoms import bottom, unknown_bottom
from parbuckle.load.known import chain_mass_per_length, displaced_by_share, known_object
from parbuckle.load.materials import material, unknown_material, waterlogged_density
from parbuckle.load.tables import read_table
from parbuckle.quantity.errors import CaseError, RangeError


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("aluminium", "aluminium"),
        ("Aluminum", "aluminium"),
        ("316", "stainless steel"),
        ("stainless  steel", "stainless steel"),
        ("gravel", "gravel"),
        ("sand", "sand"),
        ("plastic", "plastic"),
        ("lead", "lead"),
        ("GRP", "grp"),
    ],
)
def test_a_material_is_found_by_any_of_its_names(written: str, name: str) -> None:
    assert material(written).name == name


@pytest.mark.parametrize(("written", "nearest"), [("aluminim", "aluminium"), ("stel", "steel"), ("leed", "lead")])
def test_a_mistyped_material_suggests_the_nearest(written: str, nearest: str) -> None:
    with pytest.raises(RangeError, match=f'nearest: .*"{nearest}"'):
        material(written)


def test_a_strange_material_lists_what_is_known() -> None:
    with pytest.raises(RangeError, match=r"known: .*aluminium.*steel"):
        material("xyzzy")


@pytest.mark.parametrize("table", ["material", "bottom", "object", "how"])
def test_names_are_unique_lower_case_and_sourced(table: str) -> None:
    file = {"material": "materials", "bottom": "bottoms", "object": "known_objects", "how": "how"}[table]
    rows = read_table(file)[table]
    names = [name for row in rows for name in (row["name"], *row.get("also", ()))]
    assert len(set(names)) == len(names)
    assert names == [name.lower() for name in names]
    assert all(row["mark"] in {"read", "read second hand", "computed", "recalled", "common practice"} for row in rows)


def test_densities_are_in_order_and_the_default_is_wide() -> None:
    entries = [material(row["name"]) for row in read_table("materials")["material"]]
    assert all(entry.low <= entry.likely <= entry.high for entry in entries)
    default = unknown_material()
    inside = [entry for entry in entries if default.low < entry.likely < default.high]
    assert len(inside) > 0.6 * len(entries)


def test_known_objects_name_materials_that_exist() -> None:
    rows = read_table("known_objects")["object"]
    assert all(material(row["material"]) for row in rows if "material" in row)
    assert all(("material" in row) + ("density" in row) + ("wet_share" in row) == 1 for row in rows)


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("soft mud", "soft mud"),
        ("Mud", "soft mud"),
        ("sand", "sand"),
        ("silty sand", "silty sand"),
        ("gravel with some sand", "sand"),
        ("sand over sticky clay", "clay"),
        ("rock, a little silt", "silt"),
        ("unknown", "unknown"),
    ],
)
def test_a_bottom_is_made_out_from_words(words: str, name: str) -> None:
    assert bottom(words).name == name


def test_a_bottom_nobody_can_make_out_is_refused() -> None:
    with pytest.raises(RangeError, match="bottom"):
        bottom("plasticine")


def test_no_bottom_holds_more_than_the_unknown_one() -> None:
    rows = read_table("bottoms")["bottom"]
    assert all(row["high"] <= unknown_bottom().high for row in rows)


def test_an_anchor_with_its_size() -> None:
    anchor = known_object("anchor, 15 kg")
    assert anchor.mass is not None
    assert (anchor.mass.low, anchor.mass.mid, anchor.mass.high) == (13.5, 15.0, 16.5)
    assert anchor.shared == "steel"


def test_a_size_with_its_own_spread_stays() -> None:
    anchor = known_object("Anchor 12..18 kg")
    assert anchor.mass is not None
    assert (anchor.mass.shape, anchor.mass.low, anchor.mass.high) == ("flat", 12.0, 18.0)
    assert anchor.assumed == ()


def test_a_bare_name_is_wide_and_says_so() -> None:
    anchor = known_object("anchor")
    assert anchor.mass is not None
    assert anchor.mass.low < 10.0 < anchor.mass.high
    assert "no mass given" in anchor.assumed[0]


def test_chain_by_bar_and_length() -> None:
    coefficient, diameter, length = known_object("chain, 10 mm, 8 m").chain
    assert (diameter.mid, length.mid) == (0.010, 8.0)
    assert coefficient.low < 0.022 < coefficient.high
    assert known_object("chain, 10 mm").assumed == ("chain: no length given; 2..8..30 m stands in",)


def test_chain_outside_its_table_is_refused() -> None:
    assert chain_mass_per_length(np.array([0.003, 0.060])) == pytest.approx([0.022 * 9.0, 0.022 * 3600.0])
    for bar in (0.0029, 0.061):
        with pytest.raises(RangeError, match="bar diameter"):
            chain_mass_per_length(bar)


@pytest.mark.parametrize(
    ("power", "pounds"), [("2 hp", 30), ("20 hp", 127), ("22.9 hp", 127), ("23 hp", 187), ("15 kW", 127)]
)
def test_an_outboard_by_its_class(power: str, pounds: float) -> None:
    engine = known_object(f"outboard, {power}")
    assert engine.mass is not None
    assert engine.mass.high == pytest.approx(1.05 * pounds * 0.45359237)
    assert engine.mass.low < engine.mass.mid < engine.mass.high


def test_an_outboard_beyond_the_table_is_refused() -> None:
    assert known_object("outboard, 350 hp").mass is not None
    for power in ("351 hp", "0 hp"):
        with pytest.raises(RangeError, match="the table holds"):
            known_object(f"outboard, {power}")


@pytest.mark.parametrize("text", ["anchr, 15 kg", "ancor", "outbord, 20 hp"])
def test_a_mistyped_object_suggests_the_nearest(text: str) -> None:
    with pytest.raises(RangeError, match="nearest"):
        known_object(text)


@pytest.mark.parametrize("text", ["anchor, 15", "anchor, 15 hp", "anchor, 15 m", "chain, 10 kg, 8 m", "anchor, 1,5 kg"])
def test_a_size_of_the_wrong_kind_is_refused(text: str) -> None:
    with pytest.raises((CaseError, RangeError)):
        known_object(text)


@pytest.mark.parametrize(
    "text", ["", " , ", "15 kg", "chain, 1 mm, 2 m, 3 m", "anchor, 1 kg, 2 kg", "outboard, 5 hp, 6 hp"]
)
def test_nonsense_is_refused(text: str) -> None:
    with pytest.raises((CaseError, RangeError)):
        known_object(text)


def test_every_known_object_can_be_looked_up_bare() -> None:
    for row in read_table("known_objects")["object"]:
        for name in (row["name"], *row.get("also", ())):
            thing = known_object(name)
            assert thing.name == row["name"]
            assert thing.assumed


def test_the_share_left_in_water_stays_between_nothing_and_all() -> None:
    assert float(displaced_by_share(10.0, 1.0, 1000.0)) == 0.0
    assert float(displaced_by_share(10.0, 0.0, 1000.0)) == pytest.approx(0.010)
    for share in (-0.01, 1.01):
        with pytest.raises(RangeError):
            displaced_by_share(10.0, share, 1000.0)


def test_soaked_wood_only_in_its_range() -> None:
    assert waterlogged_density(np.array([0.6, 10.0])).max() < 1500.0
    for moisture in (0.59, 10.1):
        with pytest.raises(RangeError):
            waterlogged_density(moisture)
