"""One change in a shipped case moves the plan the right way; draws, seeds and the order of rows keep their promises."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from guard.tree import PACKAGE
from parbuckle.desk.planning import plan

CASES = PACKAGE / "data" / "cases"
QUARRY, TIDAL, DRUM = "quarry-outboard", "tidal-frame", "training-drum"
FIXED = ('bags = "choose"', 'bags = ["C25", "C15"]')
Change = tuple[str, str]
Edit = Callable[..., dict[str, Any]]


@pytest.fixture
def edit(tmp_path: Path) -> Edit:
    """Plan a shipped case with some of its text, or of its kit's, replaced."""

    def planned(
        case: str, *changes: Change, kit: tuple[Change, ...] = (), n: int = 256, seed: int = 1
    ) -> dict[str, Any]:
        for name, pairs in ((case, changes), ("kit", kit)):
            text = (CASES / f"{name}.toml").read_text(encoding="utf-8")
            for old, new in pairs:
                assert old in text, old
                text = text.replace(old, new, 1)
            (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")
        return plan(tmp_path / f"{case}.toml", n, seed)

    return planned


def in_lift(text: str) -> Change:
    """One more key of the lift."""
    return "[lift]\n", f"[lift]\n{text}\n"


def time(document: dict[str, Any]) -> float:
    return float(document["ascent"]["left_alone"]["time_s"]["likely"])


def speed(document: dict[str, Any]) -> float:
    return float(document["ascent"]["left_alone"]["arrival_speed_m_s"]["likely"])


def free_gas(document: dict[str, Any]) -> float:
    return float(document["lift"]["free_gas_l"]["likely"])


def test_heavier_and_deeper_never_take_less_gas_with_the_same_bags(edit: Edit) -> None:
    bags = ('bags = "choose"', 'bags = ["P100-1", "P50", "F30"]')
    for mass in ("60 ± 1 kg", "70 ± 1 kg", "80 ± 1 kg"):
        told = [edit(TIDAL, bags, ("60 ± 1 kg", mass), ("23.0 m", d)) for d in ("18 m", "23.0 m", "30 m")]
        assert [free_gas(d) for d in told] == sorted({free_gas(d) for d in told})
    by_mass = [edit(TIDAL, bags, ("60 ± 1 kg", m)) for m in ("50 ± 1 kg", "60 ± 1 kg", "70 ± 1 kg")]
    assert [free_gas(d) for d in by_mass] == sorted({free_gas(d) for d in by_mass})


def test_adiabatic_gas_is_slower_and_drag_too(edit: Edit) -> None:
    plain = edit(QUARRY, FIXED)
    cold = edit(QUARRY, FIXED, in_lift('gas = "adiabatic"'))
    wide, narrow = (edit(QUARRY, FIXED, in_lift(f'drag_area = "{a} m2"')) for a in (0.8, 0.2))
    assert time(cold) > time(plain)
    assert time(wide) > time(narrow)
    assert speed(wide) < speed(narrow)
    heavy = edit(QUARRY, FIXED, in_lift('added_mass = "200 kg"'))
    assert time(heavy) > time(edit(QUARRY, FIXED, in_lift('added_mass = "10 kg"')))


def test_a_given_surplus_is_sooner_when_it_is_larger(edit: Edit) -> None:
    small, large = (edit(QUARRY, FIXED, in_lift(f'surplus = "{kg} kg"')) for kg in (0.3, 3.0))
    assert time(large) < time(small)
    assert free_gas(large) > free_gas(small)


def test_an_open_bag_holds_no_gas_over_the_pressure_of_the_water(edit: Edit) -> None:
    """A full closed bag carries the weight of its gas up to the relief pressure: a little slower, a little more gas."""
    pairs = ("C25", "C15", "C10")
    text = (CASES / "kit.toml").read_text(encoding="utf-8")
    opened = tuple(
        (block, block.replace('style = "closed"', 'style = "open"').replace('relief = "10 kPa"\n', ""))
        for block in text.split("[[bag]]\n")
        if any(f'id = "{i}"' in block for i in pairs)
    )
    assert len(opened) == 3
    exact = (in_lift('surplus = "0.3 kg"'), FIXED)
    closed, open_ = edit(QUARRY, *exact), edit(QUARRY, *exact, kit=opened)
    assert time(open_) < time(closed)
    assert speed(open_) > speed(closed)
    assert time(open_) == pytest.approx(time(closed), rel=0.02)
    assert free_gas(open_) < free_gas(closed)  # the bag filled at the surface, up to its relief pressure


def test_altitude_thins_the_air(edit: Edit) -> None:
    low, high = (edit(QUARRY, FIXED, ('altitude = "310 m"', f'altitude = "{m} m"')) for m in (0, 2000))
    assert high["site"]["surface_pressure_pa"] < low["site"]["surface_pressure_pa"]
    assert high["site"]["bottom_pressure_pa"] < low["site"]["bottom_pressure_pa"]
    assert free_gas(high) > free_gas(low)  # litres at the surface pressure of that place
    assert high["ascent"]["delay_budget_s"] < low["ascent"]["delay_budget_s"]


def test_a_stronger_restraint_raises_the_ceiling_until_the_marks_end_it(edit: Edit) -> None:
    told = [
        edit(
            TIDAL,
            ('anchor = "70 kg in water"', f'anchor = "{kg} kg in water"'),
            ('bags = "choose"', 'bags = ["P100-1", "P50"]'),
        )
        for kg in (5, 10, 20, 400)
    ]
    ceilings = [d["lift"]["ceiling_kg"] for d in told]
    assert ceilings[1] - ceilings[0] == pytest.approx(5.0, abs=1e-9)
    assert ceilings == sorted(ceilings)
    released = [d["lift"]["surplus_at_release_kg"]["of"] for d in told if d["lift"]["surplus_at_release_kg"]]
    assert released == sorted(released)


def test_a_cylinder_on_the_load_is_weighed_in(edit: Edit) -> None:
    kit = (('id = "L7"\n', 'id = "L7"\nin_water = "2 kg"\n'),)
    stays = edit(QUARRY, FIXED, kit=kit)["lift"]["required_kg"]
    goes = edit(QUARRY, FIXED, ('cylinder_goes = "stays on the bottom"', 'cylinder_goes = "on the load"'), kit=kit)
    for end in ("low", "likely", "high"):
        assert goes["lift"]["required_kg"][end] - stays[end] == pytest.approx(2.0, abs=1e-9)


def test_each_try_costs_the_same_gas(edit: Edit) -> None:
    told = [edit(QUARRY, FIXED, ("tries = 2", f"tries = {k}")) for k in (1, 2, 3)]
    one, two, three = (free_gas(d) for d in told)
    assert two - one == pytest.approx(told[0]["lift"]["one_try_l"]["likely"], rel=0.01)
    assert three - two == pytest.approx(two - one, rel=0.01)
    assert time(told[0]) == time(told[2])


def test_the_order_of_the_rigging_and_of_the_kit_changes_no_force(edit: Edit) -> None:
    rows = '  { connector = "K1" },\n', '  { sling = "W1", hitch = "choke", choke_angle = "130 deg" },\n'
    text = (CASES / "kit.toml").read_text(encoding="utf-8")
    bags = [f"[[bag]]\n{block}" for block in text.split("# ---- gas")[0].split("[[bag]]\n")[1:]]
    first, turned = (
        edit(QUARRY),
        edit(QUARRY, ("".join(rows), "".join(rows[::-1])), kit=(("".join(bags), "".join(bags[::-1])),)),
    )
    for section in ("site", "load", "ascent", "circles", "surface"):
        assert json.dumps(first[section]) == json.dumps(turned[section]), section
    ours, theirs = dict(first["lift"]), dict(turned["lift"])

    def by_item(lift: dict[str, Any]) -> list[str]:
        return sorted(json.dumps(r) for r in lift.pop("rigging"))

    assert by_item(ours) == by_item(theirs)  # this list follows the file; its rows are the same
    assert json.dumps(ours) == json.dumps(theirs)


@pytest.mark.parametrize("case", [QUARRY, TIDAL, DRUM])
def test_same_seed_same_bytes_for_every_shipped_case(edit: Edit, case: str) -> None:
    one, two, other = edit(case, n=128), edit(case, n=128), edit(case, n=128, seed=2)
    assert json.dumps(one) == json.dumps(two)
    assert one["lift"]["required_kg"] != other["lift"]["required_kg"]


def test_sixteen_times_the_draws_stay_inside_the_error_that_the_seeds_show(edit: Edit) -> None:
    """Time, speed and gas too. The scatter of sixteen seeds is the error: narrower than that of free draws."""
    n, many = 256, range(1, 17)
    paths = (("load", "wet_weight_kg"), ("lift", "required_kg"), ("lift", "free_gas_l"))
    seeds = [edit(QUARRY, FIXED, n=n, seed=s) for s in many]
    large = edit(QUARRY, FIXED, n=16 * n, seed=99)
    for outer, inner in (*paths, ("left_alone", "time_s"), ("left_alone", "arrival_speed_m_s")):
        told = [(d["ascent"] if outer == "left_alone" else d)[outer][inner] for d in (*seeds, large)]
        for end in ("low", "likely", "high"):
            seen = np.array([band[end] for band in told[:-1]])
            # the seeds themselves tell the error of one band of n draws; that of 16 n draws is a quarter of it
            error = float(np.std(seen, ddof=1)) * np.sqrt(1.0 + 1.0 / 16.0)
            assert error > 0.0
            assert abs(seen[0] - told[-1][end]) < 5.0 * error, (inner, end)
            assert abs(float(np.mean(seen)) - told[-1][end]) < 5.0 * error * np.sqrt((1 / 16 + 1 / 16) / (17 / 16)), (
                inner,
                end,
            )
