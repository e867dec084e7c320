"""Sense of the load: order, signs, limits and round trips, for loads that nobody chose by hand."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from parbuckle.load.result import LoadResult
from parbuckle.load.tables import read_table
from parbuckle.load.weigh import weigh
from sample_loads import asked

MATERIALS = [row["name"] for row in read_table("materials")["material"]]
BOTTOMS = [row["name"] for row in read_table("bottoms")["bottom"]]
DRAWS = 64

few = settings(deadline=None, derandomize=True, max_examples=25)


@st.composite
def parts(draw: st.DrawFn) -> list[dict[str, Any]]:
    """One to five parts, each by two of its numbers."""
    made = []
    for i in range(draw(st.integers(1, 5))):
        mass = draw(st.floats(0.5, 80.0).map(lambda x: round(x, 2)))
        half = round(mass * draw(st.floats(0.0, 0.3)), 3)
        made.append({"name": f"part {i}", "mass": f"{mass} ± {half} kg", "material": draw(st.sampled_from(MATERIALS))})
    return made


def weighed(thing: dict[str, Any], bottom: str = "rock", water: float = 1000.0) -> LoadResult:
    made, _, _ = asked(thing, {"bottom": bottom}, DRAWS, water)
    assert made is not None
    return weigh(made)


@few
@given(parts(), st.randoms(use_true_random=False))
def test_the_order_of_the_parts_does_not_matter_bit_for_bit(rows: list[dict[str, Any]], random: Any) -> None:
    shuffled = list(rows)
    random.shuffle(shuffled)
    assert weighed({"part": rows}).digest() == weighed({"part": shuffled}).digest()


@few
@given(parts(), st.sampled_from(BOTTOMS))
def test_signs_and_sums_hold(rows: list[dict[str, Any]], bottom: str) -> None:
    got = weighed({"part": rows, "cavity": [{"name": "tank", "volume": "3 l", "flooded": "20..80 %"}]}, bottom)
    assert (got.dry_mass > 0.0).all()
    assert (got.displaced > 0.0).all()
    assert np.allclose(got.wet_weight, got.dry_mass - 1000.0 * got.displaced)
    assert (got.breakout >= 0.0).all()
    assert (got.envelope >= got.displaced).all()
    assert (got.leaving_water >= got.dry_mass + got.entrapped_water - 1e-9).all()
    assert (got.entrapped_water > 0.0).all()


@few
@given(parts())
def test_a_heavier_part_makes_all_of_it_heavier(rows: list[dict[str, Any]]) -> None:
    more = [*rows, {"name": "extra", "mass": "1 kg", "material": "steel"}]
    assert (weighed({"part": more}).wet_weight > weighed({"part": rows}).wet_weight).all()


@few
@given(parts())
def test_it_is_lighter_in_salt_water_than_in_fresh(rows: list[dict[str, Any]]) -> None:
    fresh, sea = weighed({"part": rows}), weighed({"part": rows}, water=1025.0)
    assert np.allclose(fresh.wet_weight - sea.wet_weight, 25.0 * fresh.displaced)


@few
@given(parts(), st.floats(0.0, 95.0))
def test_more_water_inside_is_heavier_below_and_above(rows: list[dict[str, Any]], flooded: float) -> None:
    def tank(share: float) -> LoadResult:
        return weighed({"part": rows, "cavity": [{"name": "tank", "volume": "5 l", "flooded": f"{share:.2f} %"}]})

    dry, wet = tank(flooded), tank(flooded + 5.0)
    assert (wet.wet_weight > dry.wet_weight).all()
    assert (wet.leaving_water > dry.leaving_water).all()
    assert np.allclose(dry.envelope, wet.envelope)


@few
@given(parts())
def test_holding_bottoms_hold_in_their_order(rows: list[dict[str, Any]]) -> None:
    held = [weighed({"part": rows}, b).breakout for b in ("gravel", "coarse sand", "sand", "silt", "clay", "soft mud")]
    assert all((low <= high).all() for low, high in pairwise(held))


@few
@given(st.floats(5.0, 80.0), st.sampled_from(["steel", "aluminium", "concrete", "lead"]))
def test_a_balance_gives_back_the_mass_it_was_read_from(mass: float, name: str) -> None:
    known = weighed({"part": [{"name": "a", "mass": f"{mass:.3f} kg", "material": name}]})
    wet = float(np.median(known.wet_weight))
    row = {"by": "A", "weight": f"{wet:.4f} kg in water"}
    both = weighed({"part": [{"name": "a", "mass": "10..90 kg", "material": name}], "balance": [row]})
    assert np.isclose(float(np.median(both.dry_mass)), mass, rtol=0.01)


@few
@given(st.floats(0.1, 1.0), st.floats(0.1, 1.0))
def test_a_larger_outline_is_heavier_when_solid_share_stays(small: float, more: float) -> None:
    def ball(diameter: float) -> LoadResult:
        row = {"by": "A", "shape": "sphere", "diameter": f"{diameter:.4f} m", "solid": "30 %", "material": "steel"}
        return weighed({"measured": [row]})

    low, high = ball(small), ball(small + more)
    for name in ("dry_mass", "wet_weight", "envelope", "leaving_water"):
        assert (getattr(high, name) > getattr(low, name)).all(), name


def test_more_people_narrow_the_band_but_never_below_what_they_share() -> None:
    def crew(count: int) -> float:
        rows = [
            {"by": f"P{i}", "shape": "sphere", "diameter": "0.40 ± 0.04 m", "solid": "100 %", "volume": "30 ± 6 l",
             "mass": "80 ± 12 kg"}
            for i in range(count)
        ]  # fmt: skip
        made, _, _ = asked({"measured": rows}, {"bottom": "rock"}, 1024)
        assert made is not None
        return float(np.std(weigh(made).wet_weight, ddof=1))

    one, two, six = crew(1), crew(2), crew(6)
    assert two < one
    assert six < two
    assert np.isclose(two / one, np.sqrt((1.0 + 0.7) / 2.0), rtol=0.03)
    assert six / one > np.sqrt(0.7) * 0.97
